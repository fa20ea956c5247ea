//! Which lines of the weigh sheet are ticked as weighed: kept on this device, a text for each formula.
//!
//! A tick holds for an ingredient and its mass, and not for a line: lines have other numbers after a reload, and a tick
//! beside another oil, or another mass, would say that this one was weighed.

use super::crc32;
use crate::formula::{Choice, Formula, LineId};
use crate::quantity::MassUnit;
use crate::sheet::{WeighLine, WeighSheet};

/// The ticks of one weigh sheet.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Weighed {
    /// What each line of the sheet stands for.
    lines: Vec<(LineId, u32)>,
    /// What is ticked of that.
    ticked: Vec<u32>,
}

impl Weighed {
    /// What was kept, as far as it stands on this sheet.
    pub fn read(text: &str, sheet: &WeighSheet, formula: &Formula) -> Self {
        let mut lines: Vec<(LineId, u32)> = Vec::new();
        for row in &sheet.lines {
            // Two lines may have the same ingredient and the same mass.
            let mark = (0..).map(|nth| mark(row, formula, nth)).find(|mark| lines.iter().all(|(_, one)| one != mark));
            lines.extend(mark.map(|mark| (row.line, mark)));
        }
        let kept = text.split(' ').filter_map(|part| u32::from_str_radix(part, 16).ok());
        let ticked = kept.filter(|mark| lines.iter().any(|(_, one)| one == mark)).collect();
        Self { lines, ticked }
    }

    /// As it is kept.
    pub fn text(&self) -> String {
        self.ticked.iter().map(|mark| format!("{mark:08x}")).collect::<Vec<_>>().join(" ")
    }

    /// Whether a line is ticked.
    pub fn holds(&self, line: LineId) -> bool {
        self.lines.iter().any(|(id, mark)| *id == line && self.ticked.contains(mark))
    }

    /// How many lines are.
    pub fn count(&self) -> usize {
        self.lines.iter().filter(|(_, mark)| self.ticked.contains(mark)).count()
    }

    /// Ticks a line, or takes the tick away.
    pub fn set(&mut self, line: LineId, weighed: bool) {
        let Some((_, mark)) = self.lines.iter().find(|(id, _)| *id == line).copied() else { return };
        self.ticked.retain(|one| *one != mark);
        if weighed {
            self.ticked.push(mark);
        }
    }

    /// Ticks that were taken away, together with those that were set since, as they are kept.
    pub fn put_back(before: &str, since: &str) -> String {
        let new = since.split(' ').filter(|mark| !before.split(' ').any(|known| known == *mark));
        before.split(' ').chain(new).filter(|mark| !mark.is_empty()).collect::<Vec<_>>().join(" ")
    }

    /// Takes all ticks away: the next batch begins.
    pub fn clear(&mut self) {
        self.ticked.clear();
    }
}

/// Stands for an ingredient and what of it goes onto the scale; the `nth` of those that are alike.
fn mark(row: &WeighLine, formula: &Formula, nth: u32) -> u32 {
    let what = match formula.line(row.line).map(|line| &line.choice) {
        Some(Choice::Known(id)) => id.as_str(),
        Some(Choice::Named(name)) => name.trim(),
        None => "",
    };
    crc32(format!("{nth} {} {what}", row.on_scale.number_in(MassUnit::Gram)).as_bytes())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{Action, DocId, OpenDocument, ShelfDocument, demo};
    use crate::formula::Direction;
    use crate::quantity::Timestamp;
    use crate::sheet::PlanField;

    fn open() -> OpenDocument {
        let now = Timestamp::from_millis(0);
        OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now)
    }

    fn read(text: &str, open: &OpenDocument) -> Weighed {
        Weighed::read(text, &open.masses().weigh.unwrap(), &open.state().formula)
    }

    fn act(open: &OpenDocument, action: Action) -> OpenDocument {
        let mut other = open.clone();
        other.act(action, Timestamp::from_millis(1));
        other
    }

    /// The third and the second line are ticked, the second no more.
    fn ticked() -> (OpenDocument, LineId, Weighed) {
        let open = open();
        let lines: Vec<LineId> = open.masses().weigh.unwrap().lines.iter().map(|row| row.line).collect();
        let mut weighed = read("", &open);
        weighed.set(lines[2], true);
        weighed.set(lines[1], true);
        weighed.set(lines[1], false);
        (open, lines[2], weighed)
    }

    #[test]
    fn weighed_ticks_are_put_back_beside_those_set_since() {
        let (open, first, mut weighed) = ticked();
        let before = weighed.text();
        weighed.clear();
        let other = open.masses().weigh.unwrap().lines[4].line;
        weighed.set(other, true);
        let both = read(&Weighed::put_back(&before, &weighed.text()), &open);
        assert!(both.holds(first) && both.holds(other));
        assert_eq!(both.count(), 2);
        assert_eq!(Weighed::put_back(&before, ""), before);
        assert_eq!(Weighed::put_back(&before, &before), before, "none of them twice");
        assert_eq!(Weighed::put_back("", ""), "");
    }

    #[test]
    fn weighed_ticks_hold_for_an_ingredient_and_its_mass() {
        let (open, line, weighed) = ticked();
        assert_eq!((weighed.count(), weighed.holds(line)), (1, true));
        assert_eq!(read(&weighed.text(), &open), weighed);
        for action in [
            Action::PlanText(PlanField::Jars, "13".to_owned()),
            Action::NameLine(line, "Rose water".to_owned()),
            Action::ShareLine(line, "0.3".to_owned()),
        ] {
            assert_eq!(read(&weighed.text(), &act(&open, action.clone())).count(), 0, "{action:?}");
        }
    }

    #[test]
    fn weighed_ticks_stay_where_a_line_moves_and_where_lines_have_other_numbers() {
        let (open, line, weighed) = ticked();
        let moved = act(&open, Action::NudgeLine(line, Direction::Up));
        assert!(read(&weighed.text(), &moved).holds(line));
        // What was added stands before what is ticked, and a reload numbers lines in their order.
        let phase = open.state().formula.phases()[0].id;
        let longer = act(&act(&open, Action::AddLine(phase, 0)), Action::NudgeLine(line, Direction::Down));
        let again = crate::desk::read_document(
            &crate::desk::document_text(longer.document(), longer.shelf()),
            &mut longer.shelf().clone(),
        );
        let again =
            OpenDocument::new(DocId::random(2), again.unwrap(), ShelfDocument::default(), Timestamp::from_millis(2));
        assert_eq!(read(&weighed.text(), &again).count(), 1);
    }

    #[test]
    fn weighed_lines_that_are_alike_are_ticked_each() {
        let open = open();
        let sheet = open.masses().weigh.unwrap();
        let mut sheet = WeighSheet { lines: vec![sheet.lines[1].clone(), sheet.lines[2].clone()], ..sheet };
        sheet.lines[1].on_scale = sheet.lines[0].on_scale;
        let mut weighed = Weighed::read("", &sheet, &crate::formula::Formula::default());
        weighed.set(sheet.lines[0].line, true);
        assert_eq!((weighed.count(), weighed.holds(sheet.lines[1].line)), (1, false));
    }

    #[test]
    fn weighed_reads_no_nonsense_and_is_cleared_for_the_next_batch() {
        let (open, _, mut weighed) = ticked();
        for text in ["", "zz 1 2", "00000000", "\u{0} 1", "ffffffffffffffff 1"] {
            assert_eq!(read(text, &open).count(), 0, "{text:?}");
        }
        weighed.clear();
        assert_eq!((weighed.count(), weighed.text().as_str()), (0, ""));
    }
}
