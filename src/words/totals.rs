//! Sums in words.

use super::{DecimalSign, number, page, with_unit};
use crate::formula::Formula;
use crate::quantity::Quantity;
use crate::sheet::{Balance, PhaseTotal, Totals};

/// The total, and what is missing or too much.
pub fn total_text(totals: &Totals, sign: DecimalSign) -> String {
    let total = with_unit(totals.total, "%", sign);
    match totals.balance {
        _ if !totals.complete() => format!("{total}{}", page::SO_FAR),
        Balance::Whole => total,
        Balance::Short(by) => format!("{total} \u{2013} {} short", with_unit(by, "%", sign)),
        Balance::Over(by) => format!("{total} \u{2013} {} over", with_unit(by, "%", sign)),
    }
}

/// The sum of a phase.
pub fn phase_total_text(total: &PhaseTotal, sign: DecimalSign) -> String {
    with_unit(total.share, "%", sign)
}

/// The hundred square as one sentence, for who cannot see it.
pub fn parts_text(totals: &Totals, formula: &Formula, sign: DecimalSign) -> String {
    let part = |total: &PhaseTotal| {
        let name = formula.phase(total.phase).map(|phase| phase.name.as_str()).unwrap_or_default();
        format!("{name} {} parts", number(&total.share.canonical(), sign))
    };
    totals.phases.iter().map(part).collect::<Vec<_>>().join(", ")
}

/// Lines too small for a cell each.
pub fn shared_cells(lines: usize, cells: usize) -> String {
    match cells {
        0 => format!("{lines} lines together fill less than half a cell"),
        1 => format!("{lines} lines share 1 cell"),
        _ => format!("{lines} lines share {cells} cells"),
    }
}
