//! Taking over a swap: one line becomes one or several, and the total stays to the last digit.

use crate::facts::IngredientId;
use crate::formula::{Formula, LineId, Share};
use crate::quantity::{Percent, Quantity, Typed};
use crate::sheet::{Totals, largest_remainder};

/// A line that takes the old one's place.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewLine {
    /// What it is.
    pub ingredient: IngredientId,
    /// How much of the formula.
    pub share: Share,
}

/// Why a line cannot be divided.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoReplacement {
    /// There is no such line, or nothing to put there.
    Nothing,
    /// Its share is missing or unread, so that it cannot be divided.
    ShareUnread,
}

/// The lines that take a line's place. Their shares sum to the old one's exactly, by largest remainder; a part too small
/// for 0.000001 % is left out. A line that fills up goes on filling up with its largest part.
///
/// # Errors
/// Why there are none.
pub fn new_lines(
    formula: &Formula,
    totals: &Totals,
    line: LineId,
    parts: &[(IngredientId, Percent)],
) -> Result<Vec<NewLine>, NoReplacement> {
    let old = formula.line(line).ok_or(NoReplacement::Nothing)?;
    match parts {
        [] => return Err(NoReplacement::Nothing),
        // One for one: the share stays as it was typed, read or not.
        [(only, _)] => return Ok(vec![NewLine { ingredient: only.clone(), share: old.share.clone() }]),
        _ => {}
    }
    let fills = old.share.is_fill_up();
    let share = totals.share_of(line).filter(|_| !fills || totals.complete()).ok_or(NoReplacement::ShareUnread)?;
    let weights: Vec<i64> = parts.iter().map(|(_, weight)| weight.units().max(0)).collect();
    let split = largest_remainder(&weights, share.units());
    let largest = weights.iter().enumerate().max_by_key(|(n, weight)| (**weight, core::cmp::Reverse(*n)));
    let largest = largest.map_or(0, |(n, _)| n);
    let lines: Vec<NewLine> = parts
        .iter()
        .zip(split)
        .enumerate()
        .filter(|(n, (_, units))| *units > 0 || (fills && *n == largest))
        .map(|(n, ((ingredient, _), units))| NewLine {
            ingredient: ingredient.clone(),
            share: if fills && n == largest {
                Share::FillUp
            } else {
                Share::Typed(Typed::of(Percent::millionths(units)))
            },
        })
        .collect();
    if lines.is_empty() { Err(NoReplacement::ShareUnread) } else { Ok(lines) }
}

/// Puts them into the formula: the first takes over the old line with its remark, the others follow it. Gives the lines
/// that they are. Nothing changes if there are none.
pub fn replace(formula: &mut Formula, line: LineId, lines: Vec<NewLine>) -> Vec<LineId> {
    let Some((phase, at)) = formula.place_of(line) else { return Vec::new() };
    let mut made = Vec::new();
    for (n, new) in lines.into_iter().enumerate() {
        let id = if n == 0 { Some(line) } else { formula.add_line(phase, at + n) };
        if let Some(target) = id.and_then(|id| formula.line_mut(id)) {
            target.choose(new.ingredient);
            target.share = new.share;
            made.push(target.id);
        }
    }
    made
}
