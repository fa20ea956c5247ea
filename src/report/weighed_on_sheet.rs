//! The weigh sheet of a batch that is being made: a tick on it is an entry of the batch's record.

use crate::batch::{AtStove, EntryId, Event, MassSource};
use crate::desk::{BatchState, OpenDocument};
use crate::formula::LineId;
use crate::sheet::WeighSheet;
use crate::words::choice_name;

/// A line of the weigh sheet that is a line of the batch in the making.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetLine {
    /// The line of the formula.
    pub line: LineId,
    /// The entry that says that it was weighed, if any does.
    pub weighed: Option<EntryId>,
    /// What is recorded once it is ticked.
    pub tick: Event,
}

/// The lines of a sheet that belong to the batch in the making: of the same ingredient, at the same place, and with the same
/// mass to go onto the scale. Nothing where no batch is in the making.
pub fn lines_on_sheet(open: &OpenDocument, sheet: &WeighSheet) -> Option<Vec<SheetLine>> {
    let BatchState::Open(record) = open.batch() else { return None };
    let at = AtStove::of(&record).filter(|at| !at.making.is_over())?;
    let formula = &open.state().formula;
    let line = |(place, row): (usize, &crate::sheet::WeighLine)| {
        let (frozen, made) = (at.from.lines.get(place)?, at.making.lines.get(place)?);
        let name = choice_name(&formula.line(row.line)?.choice, open.shelf());
        let lot = at.lot_of(place);
        let tick = Event::Weighed {
            line: place,
            actual: made.target,
            source: MassSource::Ticked,
            lot: lot.name,
            expiry: lot.expiry,
            kept: false,
        };
        (frozen.name == name && made.target == row.on_scale).then(|| SheetLine {
            line: row.line,
            weighed: made.weighed.as_ref().map(|weighed| weighed.entry.clone()),
            tick,
        })
    };
    Some(sheet.lines.iter().enumerate().filter_map(line).collect())
}
