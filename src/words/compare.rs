//! Differences between two states of a formula.

use super::{DecimalSign, choice_name, page, with_unit};
use crate::formula::{Change, Comparison};
use crate::quantity::{Percent, Quantity};
use crate::shelf::Shelf;

/// The share of one side of a comparison; nothing where it has none.
pub fn compared_share(side: &Option<(String, Option<Percent>)>, sign: DecimalSign) -> String {
    let share = side.as_ref().and_then(|(_, share)| *share);
    share.map(|share| with_unit(share, "%", sign)).unwrap_or_default()
}

/// What changed.
pub fn change_text(change: &Change, sign: DecimalSign) -> String {
    match change {
        Change::Added => page::ADDED.to_owned(),
        Change::Gone => page::GONE.to_owned(),
        Change::Same => page::SAME.to_owned(),
        Change::Changed { by, moved } => {
            let by = by
                .filter(|by| by.units() != 0)
                .map(|by| format!("{}{}", if by.units() > 0 { "+" } else { "" }, with_unit(by, "%", sign)));
            [by, moved.then(|| page::MOVED.to_owned())].into_iter().flatten().collect::<Vec<_>>().join(", ")
        }
    }
}

/// One line of a preview: what would differ; `None` where nothing does.
pub fn comparison_text(row: &Comparison, shelf: &Shelf, sign: DecimalSign) -> Option<String> {
    if row.change == Change::Same {
        return None;
    }
    let name = choice_name(&row.choice, shelf);
    let (before, after) = (compared_share(&row.before, sign), compared_share(&row.after, sign));
    Some(match row.change {
        Change::Added => format!("{name}: {} ({after})", page::ADDED),
        Change::Gone => format!("{name}: {} ({before})", page::GONE),
        _ => format!("{name}: {before} \u{2192} {after} ({})", change_text(&row.change, sign)),
    })
}

/// What an import adds to the shelf.
pub fn shelf_adds(count: usize) -> String {
    match count {
        1 => "It also adds one value to your shelf. Values you typed stay.".to_owned(),
        _ => format!("It also adds {count} values to your shelf. Values you typed stay."),
    }
}
