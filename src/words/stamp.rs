//! What stands at the head of every printed page.

use super::page;
use crate::desk::Bench;

/// Title, version, the mark of what the formula holds, and the time of printing: two sheets with one mark are of one
/// formula, whatever they are called.
pub fn stamp(bench: &Bench, time: &str) -> String {
    let title = bench.state().formula.about.title.trim();
    let title = if title.is_empty() { page::UNTITLED } else { title };
    let title: String = title.chars().take(60).collect();
    let version = match bench.document().current_version() {
        Some(number) => format!("version {number}"),
        None => "not kept as a version".to_owned(),
    };
    format!("{title} \u{b7} {version} \u{b7} {:08x} \u{b7} {time}", bench.mark())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{Action, Cupboard, DocId, Moment, demo};

    #[test]
    fn stamp_changes_with_the_formula_and_not_with_the_clock() {
        let now = Moment::from_millis(0);
        let mut bench = Bench::new(DocId::random(1), demo(), Cupboard::default(), now);
        let first = bench.mark();
        assert!(stamp(&bench, "noon").ends_with(&format!("not kept as a version \u{b7} {first:08x} \u{b7} noon")));
        bench.save_version(now);
        assert!(stamp(&bench, "noon").contains("version 1 \u{b7}"));
        assert_eq!(bench.mark(), first);
        let line = bench.state().formula.lines().nth(1).unwrap().1.id;
        bench.act(Action::ShareLine(line, "4.1".into()), now);
        assert_ne!(bench.mark(), first);
        bench.undo(now);
        assert_eq!(bench.mark(), first);
    }
}
