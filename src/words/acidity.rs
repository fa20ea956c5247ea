//! What is said of a target that the formula as it stands does not reach; the words of a finding in braces.

use crate::rules::MessageId;

pub(super) const NEEDS_BASE: &str = "The water of this formula is estimated at pH {value}, below the target of {limit}: as it stands it does not reach that. A base is needed, such as sodium hydroxide solution. How much is found by readings of the batch, never by this estimate.";
pub(super) const NEEDS_MORE_BASE: &str = "The water of this formula is estimated at pH {value}, below the target of {limit}. {subject} is there to raise it, and by this estimate there is not enough of it: more, or a stronger base, is needed. How much is found by readings of the batch, never by this estimate.";
pub(super) const ACID_TOO_MUCH: &str = "The water of this formula is estimated at pH {value}, below the target of {limit}: all of {subject} takes it too far down. Add it in small steps, and stop where a reading shows the target. If so much is wanted for what else it does, a base is needed, such as sodium hydroxide solution, by readings too.";
pub(super) const NEEDS_ACID: &str = "The water of this formula is estimated at pH {value}, above the target of {limit}: as it stands it does not reach that. An acid is needed, such as lactic or citric acid. How much is found by readings of the batch, never by this estimate.";
pub(super) const NEEDS_MORE_ACID: &str = "The water of this formula is estimated at pH {value}, above the target of {limit}. {subject} is there to lower it, and by this estimate there is not enough of it: more, or a stronger acid, is needed. How much is found by readings of the batch, never by this estimate.";
pub(super) const BASE_TOO_MUCH: &str = "The water of this formula is estimated at pH {value}, above the target of {limit}: all of {subject} takes it too far up. Add it in small steps, and stop where a reading shows the target. If so much is wanted for what else it does, an acid is needed, such as lactic or citric acid, by readings too.";
pub(super) const BASE_NOT_ACID: &str = "The water of this formula is estimated at pH {value}, below the target of {limit}, and would be without {subject} too. Leave that out until a reading asks for it. A base is needed, such as sodium hydroxide solution. How much is found by readings of the batch, never by this estimate.";
pub(super) const ACID_NOT_BASE: &str = "The water of this formula is estimated at pH {value}, above the target of {limit}, and would be without {subject} too. Leave that out until a reading asks for it. An acid is needed, such as lactic or citric acid. How much is found by readings of the batch, never by this estimate.";

/// What stands behind such a sentence: the lines that the estimate could not count.
pub(super) fn not_counted(said: MessageId, more: &str) -> Option<String> {
    let of_the_estimate = matches!(
        said,
        MessageId::NeedsBase
            | MessageId::BaseNotAcid
            | MessageId::AcidNotBase
            | MessageId::NeedsMoreBase
            | MessageId::AcidTooMuch
            | MessageId::NeedsAcid
            | MessageId::NeedsMoreAcid
            | MessageId::BaseTooMuch
    );
    (of_the_estimate && !more.is_empty())
        .then(|| format!(" Not counted, though it moves or holds the pH: {more}; so a reading comes first."))
}
