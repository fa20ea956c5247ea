//! What is said of a target pH that the formula as it stands does not reach.

use super::Template;
use crate::rules::MessageId as Of;

/// The lines that the estimate could not count.
const NOT_COUNTED: &str = " Not counted, though it moves or buffers the pH: {uncounted}; so a reading comes first.";

const NEEDS_BASE: &str = "The water of this formula is estimated at pH {value}, below the target of {limit}: as it stands it does not reach the target. A base is needed, such as sodium hydroxide solution. By this estimate it takes about {least} to {most} of pure {agent}; readings of the batch decide how much goes in, never this figure.";
const NEEDS_MORE_BASE: &str = "The water of this formula is estimated at pH {value}, below the target of {limit}. {subject} is there to raise it, but by this estimate there is not enough: more of it or a stronger base is needed. By this estimate it takes about {least} to {most} of pure {agent} more; readings of the batch decide how much goes in, never this figure.";
const ACID_TOO_MUCH: &str = "The water of this formula is estimated at pH {value}, below the target of {limit}: all of {subject} takes it too low. Add it in small steps, and stop when a reading shows the target. If you want that much for another reason, a base is needed too, such as sodium hydroxide solution, again by readings.";
const NEEDS_ACID: &str = "The water of this formula is estimated at pH {value}, above the target of {limit}: as it stands it does not reach the target. An acid is needed, such as lactic or citric acid. By this estimate it takes about {least} to {most} of pure {agent}; readings of the batch decide how much goes in, never this figure.";
const NEEDS_MORE_ACID: &str = "The water of this formula is estimated at pH {value}, above the target of {limit}. {subject} is there to lower it, but by this estimate there is not enough: more of it or a stronger acid is needed. By this estimate it takes about {least} to {most} of pure {agent} more; readings of the batch decide how much goes in, never this figure.";
const BASE_TOO_MUCH: &str = "The water of this formula is estimated at pH {value}, above the target of {limit}: all of {subject} takes it too high. Add it in small steps, and stop when a reading shows the target. If you want that much for another reason, an acid is needed too, such as lactic or citric acid, again by readings.";
const BASE_NOT_ACID: &str = "The water of this formula is estimated at pH {value}, below the target of {limit}, and would be without {subject} too. Leave that out until a reading calls for it. A base is needed, such as sodium hydroxide solution. By this estimate it takes about {least} to {most} of pure {agent}; readings of the batch decide how much goes in, never this figure.";
const ACID_NOT_BASE: &str = "The water of this formula is estimated at pH {value}, above the target of {limit}, and would be without {subject} too. Leave that out until a reading calls for it. An acid is needed, such as lactic or citric acid. By this estimate it takes about {least} to {most} of pure {agent}; readings of the batch decide how much goes in, never this figure.";

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
