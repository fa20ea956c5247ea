//! What counts: questions of a share or a table's row that more than one rule asks.

use super::RuleContext;
use crate::facts::{LegalLimit, Preservative, PreservativeGroup};
use crate::quantity::Percent;
use crate::sheet::SubstanceShare;

/// What of a substance share counts against a cap.
pub(super) fn counted(limit: &LegalLimit, substance: &SubstanceShare) -> Percent {
    limit
        .names
        .iter()
        .find(|(name, _)| *name == substance.key)
        .map_or(Percent::ZERO, |(_, part)| substance.high.of(*part))
}

/// True for a preservative of the list that is allowed in such a product; what must be taken out preserves nothing.
pub(super) fn may_preserve(context: RuleContext<'_>, row: &Preservative) -> bool {
    let limit = if context.leave_on() { row.leave_on } else { row.rinse_off };
    row.group == PreservativeGroup::Listed && limit != Some(Percent::ZERO)
}
