//! The product's pH outside the range in which an ingredient keeps and works.
//!
//! Why it matters: vitamins break down, gels thin, urea turns to ammonia. Source: the ingredient's row, or the maker's own
//! figure. Preservatives have a rule of their own.

use super::{Amount, Finding, Grade, Message, Rule, RuleContext};
use crate::facts::source_text;
use crate::quantity::Ph;

pub(super) const RULE: Rule = Rule { code: "ph-window", check };

fn check(context: RuleContext<'_>, findings: &mut Vec<Finding>) {
    let Some(ph) = context.ph().filter(|_| context.is_wet()) else { return };
    for (_, line, _, entry) in context.known_lines() {
        if entry.links().preservative.is_some() {
            continue;
        }
        let Some(window) = entry.ph_window() else { continue };
        let low: Option<Ph> = window.value.min.filter(|min| ph < *min);
        let high: Option<Ph> = window.value.max.filter(|max| ph > *max);
        let Some(bound) = low.or(high) else { continue };
        let basis = entry.basis(window.provenance).or_own(source_text("own-ph"));
        findings.push(
            Finding::said(
                RULE.code,
                Grade::Care,
                if low.is_some() { Message::PhBelow } else { Message::PhAbove },
                basis,
            )
            .on([line.id])
            .about(entry.label())
            .found(Amount::Ph(ph))
            .against(Amount::Ph(bound)),
        );
    }
}
