//! Which lines of the weigh sheet are ticked as weighed: kept on this device, for one batch of one formula.
//!
//! What is ticked holds for the ingredients and masses that were on the sheet. Where one of them changes, nothing is ticked:
//! a tick beside another oil, or another mass, would say that this one was weighed.

use super::crc32;
use crate::formula::{Choice, Formula, LineId};
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
    pub fn read(text: &str, sheet: &WeighSheet, formula: &Formula) -> Self {
        let mark = mark(sheet, formula);
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

/// Tells one sheet from another by what goes onto the scale, and how much of it.
fn mark(sheet: &WeighSheet, formula: &Formula) -> u32 {
    let mut text = String::new();
    for row in &sheet.lines {
        let what = match formula.line(row.line).map(|line| &line.choice) {
            Some(Choice::Known(id)) => id.as_str(),
            Some(Choice::Named(name)) => name.trim(),
            None => "",
        };
        let _ = writeln!(text, "{} {} {what}", row.line.number(), row.on_scale.number_in(MassUnit::Gram));
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
    fn weighed_ticks_stay_for_the_same_ingredients_and_masses_only() {
        let mut open = open();
        let sheet = open.masses().weigh.unwrap();
        let (first, second) = (sheet.lines[0].line, sheet.lines[1].line);
        let read =
            |text: &str, open: &OpenDocument| Weighed::read(text, &open.masses().weigh.unwrap(), &open.state().formula);
        let mut weighed = read("", &open);
        weighed.set(first, true);
        weighed.set(second, true);
        weighed.set(second, false);
        let again = read(&weighed.text(), &open);
        assert_eq!((again.count(), again.holds(first), again.holds(second)), (1, true, false));

        let mut larger = open.clone();
        larger.act(Action::PlanText(PlanField::Jars, "13".to_owned()), Timestamp::from_millis(1));
        assert_eq!(read(&weighed.text(), &larger).count(), 0, "other masses are not weighed");
        open.act(Action::NameLine(second, "Rose water".to_owned()), Timestamp::from_millis(1));
        assert_eq!(read(&weighed.text(), &open).count(), 0, "nor is another ingredient of the same mass");
    }

    #[test]
    fn weighed_reads_no_nonsense() {
        let open = open();
        let (sheet, formula) = (open.masses().weigh.unwrap(), &open.state().formula);
        for text in ["", "zz 1 2", "00000000", "\u{0} 1", "ffffffffffffffff 1"] {
            assert_eq!(Weighed::read(text, &sheet, formula).count(), 0, "{text:?}");
        }
        let kept = Weighed::read("", &sheet, formula).text() + " 1 x 99999 -1";
        assert!(Weighed::read(&kept, &sheet, formula).count() <= 1);
    }
}
