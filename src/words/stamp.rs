//! What stands at the head of every printed page.

use super::page;
use crate::desk::OpenDocument;

/// How much of the name of a version stands there.
const MOST_NAME: usize = 40;

/// Of a paper that has its own title in place of a version and a mark, such as the record of a batch.
pub fn stamp_with(title: &str, time: &str) -> String {
    let title: String = title.chars().take(60).collect();
    [&title, " \u{b7} ", time].concat()
}

/// Title, version, the mark of what the formula holds, and the time of printing: two sheets with one mark are of one
/// formula, whatever they are called.
pub fn stamp(open: &OpenDocument, time: &str) -> String {
    let title = open.state().formula.about.title.trim();
    let title = if title.is_empty() { page::UNTITLED } else { title };
    let title: String = title.chars().take(60).collect();
    let version = match open.document().current_version() {
        Some(version) if version.name.trim().is_empty() => format!("version {}", version.number),
        Some(version) => {
            let name: String = version.name.trim().chars().take(MOST_NAME).collect();
            format!("version {}, {name}", version.number)
        }
        None => "not saved as a version".to_owned(),
    };
    format!("{title} \u{b7} {version} \u{b7} {:08x} \u{b7} {time}", open.mark())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{Action, DocId, ShelfDocument, demo};
    use crate::quantity::Timestamp;

    #[test]
    fn stamp_changes_with_the_formula_and_not_with_the_clock() {
        let now = Timestamp::from_millis(0);
        let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now);
        let first = open.mark();
        assert!(stamp(&open, "noon").ends_with(&format!("not saved as a version \u{b7} {first:08x} \u{b7} noon")));
        open.save_version(now);
        assert!(stamp(&open, "noon").contains("version 1 \u{b7}"));
        open.name_version(1, "Spring batch".into(), now);
        assert!(stamp(&open, "noon").contains("version 1, Spring batch \u{b7}"));
        assert_eq!(open.mark(), first, "a name is no part of the formula");
        let line = open.state().formula.lines().nth(1).unwrap().1.id;
        open.act(Action::ShareLine(line, "4.1".into()), now);
        assert_ne!(open.mark(), first);
        open.undo(now);
        assert_eq!(open.mark(), first);
    }
}
