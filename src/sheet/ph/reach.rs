//! Whether a formula as it stands reaches its target pH, by the estimate.

use super::prediction::{Prediction, needed, predict};
use super::water::WaterPhase;
use crate::facts::{Acid, Adjusts, acid};
use crate::formula::{Formula, LineId, Pack, Use};
use crate::quantity::{Celsius, Percent, Ph, Quantity};
use crate::shelf::Shelf;

/// A target outside of the estimate, and what the formula has to get there. An estimate is a model: how much is needed
/// is measured, not reckoned.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Missed {
    /// Which way the pH has to go.
    pub way: Adjusts,
    /// How far the target lies outside of the estimate, in hundredths of pH: above nothing.
    pub by: i64,
    /// Lines that a pH is set with that way, whatever their share is.
    pub helpers: Vec<LineId>,
    /// Lines that a pH is set with the other way.
    pub opposed: Vec<LineId>,
    /// True if without those the estimate would not miss the target on this side: less of them is enough.
    pub less_is_enough: bool,
    /// What takes it to the target, and about how much of that, pure: the helper that is there, or the usual one. Where what is
    /// opposed is to be left out, it is left out here, too.
    pub needs: Needed,
}

/// About how much of an acid or base a target takes, by the estimate.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Needed {
    /// Which, as a row of the table.
    pub of: &'static str,
    /// Least share of the product, pure.
    pub least: Percent,
    /// Greatest.
    pub most: Percent,
}

/// What is told where the formula has nothing that a pH is set with that way. A choice of this program: both are sold everywhere.
const USUAL: (&str, &str) = ("sodium-hydroxide", "citric-acid");

impl Prediction {
    /// How far a pH lies outside of the estimate, in hundredths, and which way the formula has to go to get there; nothing
    /// within it.
    pub fn misses(&self, target: Ph) -> Option<(Adjusts, i64)> {
        let (short, over) = (target.units() - self.high.units(), self.low.units() - target.units());
        match (short > 0, over > 0) {
            (true, _) => Some((Adjusts::Up, short)),
            (_, true) => Some((Adjusts::Down, over)),
            _ => None,
        }
    }
}

/// Compares the estimate with the target of the formula; nothing without both, where the one holds the other, or of a soap.
pub fn missed(
    phase: &WaterPhase,
    found: Option<&Prediction>,
    formula: &Formula,
    shelf: &Shelf,
    at: Celsius,
) -> Option<Missed> {
    // In a soap the lye is taken up by the fats: what it makes of the water alone says nothing.
    let about = &formula.about;
    if about.purpose == Use::Soap || (about.pack == Pack::Bar && about.purpose == Use::RinseOff) {
        return None;
    }
    let target = about.target_ph.value()?;
    let (way, by) = found?.misses(target)?;
    let other = |way| if way == Adjusts::Up { Adjusts::Down } else { Adjusts::Up };
    let opposed = set_with(other(way), phase, formula, shelf);
    let mut without = phase.clone();
    without.known.retain(|known| !opposed.contains(&known.line));
    let misses = |found: Prediction| found.misses(target).is_some_and(|(still, _)| still == way);
    // Without anything that moves the pH there is no estimate, and nothing that keeps the target away.
    let less_is_enough = !opposed.is_empty() && !predict(&without, at).is_some_and(misses);
    let helpers = set_with(way, phase, formula, shelf);
    let row = row_of(way, &helpers, phase)?;
    let rest = if opposed.is_empty() || less_is_enough || !helpers.is_empty() { phase } else { &without };
    let (least, most) = needed(rest, row, target, at);
    let needs = Needed { of: row.id, least, most };
    Some(Missed { way, by, helpers, opposed, less_is_enough, needs })
}

/// The row of what is there to set the pH that way, or of the usual one.
fn row_of(way: Adjusts, helpers: &[LineId], phase: &WaterPhase) -> Option<&'static Acid> {
    let helps = |known: &&super::Electrolyte| helpers.contains(&known.line) && known.row.adjusts == Some(way);
    let usual = if way == Adjusts::Up { USUAL.0 } else { USUAL.1 };
    phase.known.iter().find(helps).map(|known| known.row).or_else(|| acid(usual))
}

/// Lines that a pH is set with one way: by their row in the table, or by what the maker says they consist of.
fn set_with(way: Adjusts, phase: &WaterPhase, formula: &Formula, shelf: &Shelf) -> Vec<LineId> {
    let by_row = |id| shelf.entry(id).and_then(|entry| entry.links().acid_base.and_then(acid)?.adjusts) == Some(way);
    let stated = |line| phase.known.iter().any(|known| known.line == line && known.row.adjusts == Some(way));
    let lines = formula.lines().map(|(_, line)| line);
    lines.filter(|line| line.choice.id().is_some_and(by_row) || stated(line.id)).map(|line| line.id).collect()
}
