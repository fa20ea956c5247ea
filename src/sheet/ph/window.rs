//! Which pH a formula needs: the meeting of the windows of all that it holds, of the skin and of who uses it.

use crate::facts::{Basis, PhWindow, preservative, skin_window};
use crate::formula::{Audience, Formula, LineId, Use};
use crate::quantity::Ph;
use crate::sheet::Totals;
use crate::shelf::Shelf;

/// Whose window it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Who {
    /// An ingredient's.
    Line(LineId),
    /// A preservative's: it fails above.
    Preservative(LineId),
    /// An emulsifier's: the emulsion parts outside.
    Emulsifier(LineId),
    /// The skin's.
    Skin,
    /// That of who uses it.
    Audience,
}

/// One window, for a bar on the pH line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bar {
    /// Whose.
    pub who: Who,
    /// Its ends; an unknown one does not bind.
    pub window: PhWindow,
    /// Up to here it still works, with care.
    pub worst: Option<Ph>,
    /// Where it comes from.
    pub basis: Basis,
}

/// All windows and what they leave.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Window {
    /// Every window, in the order of the formula, then skin and audience.
    pub bars: Vec<Bar>,
    /// Lowest and highest pH that suit all, or the places of the two bars that conflict: the one that wants more, then
    /// the one that wants less.
    pub meeting: Result<PhWindow, (usize, usize)>,
}

impl Window {
    /// Places of the bars that a pH is outside of.
    pub fn against(&self, ph: Ph) -> Vec<usize> {
        let outside =
            |window: PhWindow| window.min.is_some_and(|min| ph < min) || window.max.is_some_and(|max| ph > max);
        (0..self.bars.len()).filter(|n| self.bars.get(*n).is_some_and(|bar| outside(bar.window))).collect()
    }
}

/// Gathers the windows of a formula. Lines of nothing, and those without a readable share, do not count.
pub fn window(formula: &Formula, totals: &Totals, shelf: &Shelf) -> Window {
    let mut bars = Vec::new();
    for (_, line) in formula.lines() {
        if totals.share_of(line.id).is_none_or(|share| share <= crate::quantity::Percent::ZERO) {
            continue;
        }
        bars.extend(line.choice.id().and_then(|id| shelf.entry(id)).and_then(|entry| bar(line.id, &entry)));
    }
    // Soap is alkaline or it is no soap: it has bounds of its own, which a rule knows.
    let skin = match formula.about.purpose {
        Use::LeaveOn => Some("leave-on"),
        Use::RinseOff => Some("rinse-off"),
        Use::Soap => None,
    };
    let young = matches!(formula.about.audience, Audience::UnderThree | Audience::ChildThreePlus);
    let people = [(Who::Skin, skin), (Who::Audience, skin.filter(|_| young).map(|_| "child"))];
    for (who, key) in people {
        if let Some((window, basis)) = key.and_then(skin_window) {
            bars.push(Bar { who, window, worst: None, basis });
        }
    }
    let meeting = meet(&bars);
    Window { bars, meeting }
}

fn bar(line: LineId, ingredient: &crate::shelf::Ingredient) -> Option<Bar> {
    let own = ingredient.ph_window();
    let row = ingredient.links().preservative.and_then(preservative);
    let by_maker = own.is_some_and(|own| own.provenance.is_makers());
    if let (Some(row), false) = (row, by_maker) {
        let basis = Basis::memory(row.sources.first().copied().unwrap_or_default());
        return Some(Bar { who: Who::Preservative(line), window: row.window?, worst: row.ph_worst, basis });
    }
    let own = own?;
    let who = match row {
        Some(_) => Who::Preservative(line),
        None if ingredient.has_function("Surfactant - emulsifying") => Who::Emulsifier(line),
        None => Who::Line(line),
    };
    Some(Bar { who, window: own.value, worst: None, basis: ingredient.basis(own.provenance) })
}

fn meet(bars: &[Bar]) -> Result<PhWindow, (usize, usize)> {
    let mut highest_min: Option<(Ph, usize)> = None;
    let mut lowest_max: Option<(Ph, usize)> = None;
    for (n, bar) in bars.iter().enumerate() {
        if let Some(min) = bar.window.min
            && highest_min.is_none_or(|(found, _)| min > found)
        {
            highest_min = Some((min, n));
        }
        if let Some(max) = bar.window.max
            && lowest_max.is_none_or(|(found, _)| max < found)
        {
            lowest_max = Some((max, n));
        }
    }
    match (highest_min, lowest_max) {
        (Some((min, wants_more)), Some((max, wants_less))) if min > max => Err((wants_more, wants_less)),
        (min, max) => Ok(PhWindow { min: min.map(|(ph, _)| ph), max: max.map(|(ph, _)| ph) }),
    }
}
