//! Which lines of the weigh sheet are ticked as weighed: kept on this device, for one batch of one formula.
//!
//! What is ticked holds for the masses that were on the sheet. Where they change, nothing is ticked: a tick beside
//! another mass would say that this one was weighed.

use super::crc32;
use crate::formula::LineId;
use crate::quantity::MassUnit;
use crate::sheet::WeighSheet;
use core::fmt::Write as _;

/// The ticks of one weigh sheet.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Weighed {
    mark: u32,
    lines: Vec<u32>,
}

impl Weighed {
    /// What was kept for this sheet; nothing is ticked where it was another one, or the text is none of ours.
    pub fn read(text: &str, sheet: &WeighSheet) -> Self {
        let mark = mark(sheet);
        let fresh = Self { mark, lines: Vec::new() };
        let mut parts = text.split(' ');
        if parts.next().and_then(|part| u32::from_str_radix(part, 16).ok()) != Some(mark) {
            return fresh;
        }
        let known = |line: &u32| sheet.line(LineId::of(*line)).is_some();
        Self { lines: parts.filter_map(|part| part.parse().ok()).filter(known).collect(), ..fresh }
    }

    /// As it is kept.
    pub fn text(&self) -> String {
        let mut text = format!("{:08x}", self.mark);
        for line in &self.lines {
            let _ = write!(text, " {line}");
        }
        text
    }

    /// Whether a line is ticked.
    pub fn holds(&self, line: LineId) -> bool {
        self.lines.contains(&line.number())
    }

    /// How many are.
    pub fn count(&self) -> usize {
        self.lines.len()
    }

    /// Ticks a line, or takes the tick away.
    pub fn set(&mut self, line: LineId, weighed: bool) {
        self.lines.retain(|known| *known != line.number());
        if weighed {
            self.lines.push(line.number());
        }
    }
}

/// Tells one sheet from another by what goes onto the scale.
fn mark(sheet: &WeighSheet) -> u32 {
    let mut text = String::new();
    for line in &sheet.lines {
        let _ = write!(text, "{} {};", line.line.number(), line.on_scale.number_in(MassUnit::Gram));
    }
    crc32(text.as_bytes())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{Action, DocId, OpenDocument, ShelfDocument, demo};
    use crate::quantity::Timestamp;
    use crate::sheet::PlanField;

    fn open() -> OpenDocument {
        let now = Timestamp::from_millis(0);
        OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now)
    }

    #[test]
    fn weighed_ticks_stay_for_the_same_masses_only() {
        let mut open = open();
        let sheet = open.masses().weigh.unwrap();
        let (first, second) = (sheet.lines[0].line, sheet.lines[1].line);
        let mut weighed = Weighed::read("", &sheet);
        weighed.set(first, true);
        weighed.set(second, true);
        weighed.set(second, false);
        let again = Weighed::read(&weighed.text(), &sheet);
        assert_eq!((again.count(), again.holds(first), again.holds(second)), (1, true, false));

        open.act(Action::PlanText(PlanField::Jars, "13".to_owned()), Timestamp::from_millis(1));
        let other = Weighed::read(&weighed.text(), &open.masses().weigh.unwrap());
        assert_eq!(other.count(), 0, "other masses are not weighed");
    }

    #[test]
    fn weighed_reads_no_nonsense() {
        let sheet = open().masses().weigh.unwrap();
        for text in ["", "zz 1 2", "00000000", "\u{0} 1", "ffffffffffffffff 1"] {
            assert_eq!(Weighed::read(text, &sheet).count(), 0, "{text:?}");
        }
        let kept = Weighed::read("", &sheet).text() + " 1 x 99999 -1";
        assert!(Weighed::read(&kept, &sheet).count() <= 1);
    }
}
