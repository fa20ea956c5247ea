//! Whether a preservative counts: by the pH of the product, and by how much of it there is. Card and rules ask here.
//!
//! Source: windows and usual shares are from memory (the table of preservatives says so). They may let a preservative
//! count; what is not known to be enough counts as nothing. From which part of the least usual share on it counts, and
//! below which part of its legal maximum it is a trace, are choices of ours.

use super::{FormulaComposition, SubstanceShare, Trust};
use crate::facts::{Criterion, Preservative, Ratio, criteria, criterion, preservative};
use crate::quantity::{Percent, Ph, Quantity};

/// Half the width of the band of pH in which a batch is let go, in hundredths. Common practice, no source.
pub const BAND: i64 = 30;

/// Whether it works at a pH.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Works {
    /// Within its window, with all of the band.
    Yes,
    /// Between the end of its window and the pH at which it fails, or within a band's half of either.
    WithCare,
    /// It does not count.
    No,
    /// There is too little of it to count.
    TooLittle,
    /// No window or no target is known.
    Unknown,
}

/// Whether a preservative works at a pH, whatever there is of it.
pub fn works(row: &Preservative, ph: Option<Ph>) -> Works {
    let (Some(ph), Some(window)) = (ph, row.window) else { return Works::Unknown };
    let below = |by: i64| window.min.is_some_and(|min| ph.units() - by < min.units());
    let above = |end: Option<Ph>, by: i64| end.is_some_and(|end| ph.units() + by > end.units());
    if below(0) || above(row.ph_worst.or(window.max), 0) {
        Works::No
    } else if below(BAND) || above(window.max, BAND) {
        Works::WithCare
    } else {
        Works::Yes
    }
}

/// Whether a preservative counts at a pH. One of which no window is known counts; without a pH nothing of an acid is
/// sure.
pub fn counts_at(row: &Preservative, ph: Option<Ph>) -> bool {
    match works(row, ph) {
        Works::Yes | Works::WithCare => true,
        Works::No | Works::TooLittle => false,
        Works::Unknown => ph.is_some() || row.window.is_none() || row.acid.is_none(),
    }
}

/// Whether there is enough of a preservative.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Enough {
    /// From four fifths of its least usual share on.
    Yes,
    /// No least share of it is known, and there is more than a trace; or nobody knows how much there is.
    Unknown,
    /// Less: it counts as nothing.
    No,
}

/// Whether there is enough of what a substance share brings, with all that counts as the same substance.
pub fn enough(composition: &FormulaComposition, substance: &SubstanceShare, row: &Preservative) -> Enough {
    let same = |other: &&SubstanceShare| {
        other.trust != Trust::Open && other.preservative().is_some_and(|other| other.sum_with == row.sum_with)
    };
    let counted = |substance: &SubstanceShare| {
        substance.preservative().map_or(Percent::ZERO, |row| row.counts(substance.middle()))
    };
    let there: Percent = composition.substances.iter().filter(same).map(counted).sum();
    let least = least(row);
    if least.is_some_and(|least| reaches(there, least, criterion(criteria::LOW_DOSE))) {
        return Enough::Yes;
    }
    let open = substance.trust == Trust::Open;
    let blend = composition.blends.iter().find(|blend| blend.line == substance.line && (open || least.is_none()));
    if let Some((share, low)) = blend.and_then(|blend| Some((blend.share, blend.row.usual?.low?))) {
        // As sold, the mixture is dosed as a whole.
        return if reaches(share, low, criterion(criteria::LOW_DOSE)) { Enough::Yes } else { Enough::No };
    }
    let most = row.leave_on.max(row.rinse_off).filter(|most| *most > Percent::ZERO);
    let trace = most.is_some_and(|most| !reaches(there, most, criterion(criteria::TRACE_DOSE)));
    if !open && (least.is_some() || trace) { Enough::No } else { Enough::Unknown }
}

/// The least usual share as counted: its own, or that of the acid of which it is a salt.
fn least(row: &Preservative) -> Option<Percent> {
    let low = |row: &Preservative| Some(row.counts(row.usual?.low?));
    low(row).or_else(|| low(preservative(row.sum_with).filter(|acid| acid.acid.is_some() && acid.acid == row.acid)?))
}

/// True if a share is at least a part of another, without rounding.
fn reaches(share: Percent, of: Percent, part: Criterion<Ratio>) -> bool {
    i128::from(share.units()) * 1_000_000 >= i128::from(of.units()) * i128::from(part.value.units())
}
