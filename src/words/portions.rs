//! Doses that are bounded, in words: that one is a portion of more, what they thin, and why there is no more of them.

use super::dose::{percent, vessel};
use super::{DecimalSign, number, rounded};
use crate::batch::Vessel;
use crate::batch::dose::bounds::{MOST_PURE, THIN, THINNED};
use crate::batch::dose::{DoseBounds, DoseLimit, DosePortion, Proposal};
use crate::quantity::{Decimal, Mass, Percent};

/// Where what went in moved the pH less than it should.
pub const STRONG: &str = "What went in so far moved the pH less than this formula explains: something buffers the pH strongly. Check the strength of the solution, the meter, and whether there is an acid or a buffer in it that the formula does not name. Where the buffering ends, the pH will move suddenly.";
/// Where more goes in than was expected, on the word of readings that agree.
pub(super) const BEYOND: &str = "With this dose, more is in than a formula like this one is expected to need. It is still proposed because the readings of your checked meter agree on how strongly the product buffers, and it is less than half of what they say is missing. Look for the acid or buffer that the formula does not name: the preservative and the emulsion were not planned for it.";
/// Where it moved the pH more than it should.
pub(super) const WEAK: &str = "What went in so far moved the pH further than this formula explains. Check the strength of the solution, the meter, and whether everything in the formula went in.";
/// Where the vessels tell different things.
pub(super) const DO_NOT_FIT: &str = "No dose: going by the side sample and the earlier readings the target is reached, but the last reading says it is not. Check the meter and the mixing, cross out what is wrong, or take a fresh side sample.";

/// That a dose is one portion of more, and what keeps it from being all of it.
pub fn portions(proposal: &Proposal, sign: DecimalSign) -> Option<String> {
    let DosePortion { in_all, portions, limit } = proposal.split?;
    let bounds = DoseBounds::of(proposal.vessel);
    let at = vessel(proposal.vessel);
    let why = match limit {
        DoseLimit::Mass => format!("No dose is more than {} of {at}", percent(bounds.share(), sign)),
        DoseLimit::Pure => {
            format!("No dose contains more of the pure substance than {} of {at}", percent(MOST_PURE, sign))
        }
        DoseLimit::Moves => {
            format!("No dose is more than is calculated to move {at} by {}", steps_of_ph(bounds.moves, sign))
        }
        DoseLimit::InAll => {
            "More in total than this would be more than a formula like this one is expected to need".to_owned()
        }
        DoseLimit::Thins => {
            format!("All doses together may make up at most {} of the batch", percent(THINNED, sign))
        }
    };
    Some(format!(
        "{why}: this is one portion. Going by what is known so far, about {} of it would be needed, some {portions} portions; each reading shows what is still missing.",
        to_hundredths(in_all, sign)
    ))
}

fn steps_of_ph(moves: f64, sign: DecimalSign) -> String {
    format!("{}\u{202f}pH", number(&Decimal::new((moves * 100.0).round() as i64, 2).canonical(), sign))
}

/// To a tenth of a percent.
fn tenths(share: Percent, sign: DecimalSign) -> String {
    format!("{}\u{202f}%", rounded(share, 1, sign))
}

/// How much the doses thin the batch; nothing of a side sample, which is thrown away, or where it is no tenth of a percent.
pub(super) fn thinned(proposal: &Proposal, sign: DecimalSign) -> Option<String> {
    let share = proposal.thinned;
    if proposal.vessel == Vessel::Side || share < Percent::millionths(50_000) {
        return None;
    }
    let left = tenths(Percent::WHOLE.minus(share), sign);
    let mut text = format!(
        "With this dose, what was added makes up {} of the batch: everything else in it, the preservative too, is then {left} of what the formula says.",
        tenths(share, sign)
    );
    if share >= THIN {
        text += " That is a lot: a stronger solution thins it less. Check whether the preservative is still enough.";
    }
    Some(text)
}

/// How the log works, and what no dose exceeds.
pub fn begin_intro(sign: DecimalSign) -> String {
    let bounds = DoseBounds::of(Vessel::Batch);
    format!(
        "Readings and doses for this one batch, step by step: a side sample first, then the batch. No dose is more than {} of the batch, or more than is calculated to move it by {}: what is needed beyond that goes in by portions, with a reading after each. No dose can be promised not to overshoot the target.",
        percent(bounds.share(), sign),
        steps_of_ph(bounds.moves, sign)
    )
}

/// Why so much is a mistake: in g of the pure substance per kg what went in, or what it is worth of it, and the most.
pub(super) fn too_much(gone_in: Mass, most: Mass, name: &str, sign: DecimalSign) -> String {
    format!(
        "No dose: so much has gone in that something does not fit. It is worth {} of pure {name} for each kilogram; this formula is expected to need at most {}. Check the meter with two fresh buffers, the strength of the solution on its bottle, and the formula: is there an acid, base or buffer that it does not name, or more of one than it says? Correct what was wrong, then start a new log.",
        to_hundredths(gone_in, sign),
        to_hundredths(most, sign)
    )
}

/// Why a batch is thinned enough.
pub(super) fn too_thin(share: Percent, sign: DecimalSign) -> String {
    format!(
        "No dose: what was added makes up {} of the batch, so everything else in it, the preservative too, is {} of what the formula says. Use a stronger solution next time, or write the acid or base into the formula in place of water. Check whether this batch is still preserved before it is used.",
        tenths(share, sign),
        tenths(Percent::WHOLE.minus(share), sign)
    )
}

/// To a hundredth of a gram.
fn to_hundredths(mass: Mass, sign: DecimalSign) -> String {
    format!("{}\u{202f}g", rounded(mass, 2, sign))
}
