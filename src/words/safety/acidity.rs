//! What is said of a target pH that the formula as it stands does not reach.

use super::Template;
use crate::rules::MessageId as Of;

/// The lines that the estimate could not count.
const NOT_COUNTED: &str = " Not counted, though it moves or holds the pH: {uncounted}; so a reading comes first.";

const NEEDS_BASE: &str = "The water of this formula is estimated at pH {value}, below the target of {limit}: as it stands it does not reach that. A base is needed, such as sodium hydroxide solution. How much is found by readings of the batch, never by this estimate.";
const NEEDS_MORE_BASE: &str = "The water of this formula is estimated at pH {value}, below the target of {limit}. {subject} is there to raise it, and by this estimate there is not enough of it: more, or a stronger base, is needed. How much is found by readings of the batch, never by this estimate.";
const ACID_TOO_MUCH: &str = "The water of this formula is estimated at pH {value}, below the target of {limit}: all of {subject} takes it too far down. Add it in small steps, and stop where a reading shows the target. If so much is wanted for what else it does, a base is needed, such as sodium hydroxide solution, by readings too.";
const NEEDS_ACID: &str = "The water of this formula is estimated at pH {value}, above the target of {limit}: as it stands it does not reach that. An acid is needed, such as lactic or citric acid. How much is found by readings of the batch, never by this estimate.";
const NEEDS_MORE_ACID: &str = "The water of this formula is estimated at pH {value}, above the target of {limit}. {subject} is there to lower it, and by this estimate there is not enough of it: more, or a stronger acid, is needed. How much is found by readings of the batch, never by this estimate.";
const BASE_TOO_MUCH: &str = "The water of this formula is estimated at pH {value}, above the target of {limit}: all of {subject} takes it too far up. Add it in small steps, and stop where a reading shows the target. If so much is wanted for what else it does, an acid is needed, such as lactic or citric acid, by readings too.";
const BASE_NOT_ACID: &str = "The water of this formula is estimated at pH {value}, below the target of {limit}, and would be without {subject} too. Leave that out until a reading asks for it. A base is needed, such as sodium hydroxide solution. How much is found by readings of the batch, never by this estimate.";
const ACID_NOT_BASE: &str = "The water of this formula is estimated at pH {value}, above the target of {limit}, and would be without {subject} too. Leave that out until a reading asks for it. An acid is needed, such as lactic or citric acid. How much is found by readings of the batch, never by this estimate.";

const fn estimate(of: Of, text: &'static str) -> Template {
    Template::new(of, text).and_with("uncounted", NOT_COUNTED)
}

pub(super) const PH_REACH: &[Template] = &[
    estimate(Of::NeedsBase, NEEDS_BASE),
    estimate(Of::BaseNotAcid, BASE_NOT_ACID),
    estimate(Of::AcidNotBase, ACID_NOT_BASE),
    estimate(Of::NeedsMoreBase, NEEDS_MORE_BASE),
    estimate(Of::AcidTooMuch, ACID_TOO_MUCH),
    estimate(Of::NeedsAcid, NEEDS_ACID),
    estimate(Of::NeedsMoreAcid, NEEDS_MORE_ACID),
    estimate(Of::BaseTooMuch, BASE_TOO_MUCH),
];
