//! Findings: what is wrong or unwise about a formula and its batch, what may harm and what the law asks. One rule a file.
//!
//! A rule reads the formula and its sheet and reports; it never changes anything and never reads another rule's result.
//! A Stop rests only on what was seen in a source or on a supplier's document: what rests on memory, on a custom or on a
//! choice of ours is lowered to Care, in one place ([`check`]), and so is the law of another region and law still to come.
//! A choice of ours may spare from a Stop (`allowance` in the tables) and never gives one.
//! `MESSAGES.md` holds every message; a test keeps it in step.

mod above_most;
mod aha;
mod allergens;
mod amount;
mod annexes;
mod antioxidant;
mod barred;
mod capped;
mod chelator;
mod children;
mod clash;
mod composition;
mod context;
mod counts;
mod emulsifier;
mod finding;
mod formaldehyde;
mod fragrance;
mod gum;
mod heat;
mod identity;
mod lye;
mod message;
mod nameless;
mod nitrosamine;
mod no_share;
mod off_shelf;
mod parabens;
mod ph_reach;
mod ph_window;
mod phototoxic;
mod pregnancy;
mod preservative_maximum;
mod preservative_ph;
mod product_ph;
mod prohibited;
mod region;
mod source_allergens;
mod spectrum;
mod standing;
mod sum;
mod supplier_sheet;
mod too_small;
mod topic;
mod undissolved;
mod unpreserved;
mod unread;
mod unrecognised;
mod weighed;

pub use amount::{Amount, MessageField, Microbe};
pub use context::RuleContext;
pub use finding::{Detail, Fact, Finding, Grade, Remedy};
pub use fragrance::certificate_category;
pub use message::{Message, MessageId};
pub use ph_reach::is_far;
pub use standing::{Standing, standing};
pub use topic::{Topic, gravest, of_annexes, of_law, of_outlook, of_ph, of_preservative};
pub use weighed::OnTheScale;

use crate::formula::Formula;
use crate::quantity::{Day, sort_by};
use crate::sheet::Sheet;
use crate::shelf::Shelf;

/// The day up to which the law behind these rules is known: that of the annexes.
pub const KNOWN_TO: Day = crate::law::KNOWN_TO;

/// The name of a cool-down phase that a proposal adds where there is none.
pub const COOL_DOWN: &str = "Cool-down phase";

/// A rule: its code, which keeps its meaning for ever, and what it does.
pub struct Rule {
    /// Kebab-case name of the pattern that it finds.
    pub code: &'static str,
    /// Reports what it finds.
    pub check: fn(RuleContext<'_>, &mut Vec<Finding>),
}

/// Every rule, in the order in which findings of one grade are shown: sums, what the law forbids, microbes, people, scent,
/// chemistry, then what is only worth knowing.
pub const RULES: &[Rule] = &[
    sum::RULE,
    unread::RULE,
    no_share::RULE,
    nameless::RULE,
    off_shelf::RULE,
    unrecognised::RULE,
    composition::RULE,
    prohibited::RULE,
    capped::RULE,
    aha::RULE,
    annexes::RULE,
    unpreserved::RULE,
    preservative_maximum::RULE,
    parabens::RULE,
    preservative_ph::RULE,
    undissolved::RULE,
    spectrum::RULE,
    barred::RULE,
    children::RULE,
    pregnancy::RULE,
    formaldehyde::RULE,
    allergens::RULE,
    fragrance::RULE,
    phototoxic::RULE,
    nitrosamine::RULE,
    lye::RULE,
    product_ph::RULE,
    ph_window::RULE,
    ph_reach::RULE,
    heat::RULE,
    emulsifier::RULE,
    clash::RULE,
    source_allergens::RULE,
    above_most::RULE,
    gum::RULE,
    antioxidant::RULE,
    chelator::RULE,
    supplier_sheet::RULE,
    too_small::RULE,
    identity::RULE,
    region::RULE,
];

/// All findings, gravest first: of the shares as typed, and of those that the batch will have on its scale.
pub fn check(formula: &Formula, sheet: &Sheet, shelf: &Shelf) -> Vec<Finding> {
    let mut findings = Vec::new();
    let weighed = weighed::as_weighed(formula, sheet);
    for rule in RULES {
        findings.extend(weighed::judge(rule, RuleContext { formula, sheet, shelf }, weighed.as_ref()));
    }
    sort_by(&mut findings, |a, b| a.grade.cmp(&b.grade));
    findings
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rules_codes_are_unique_and_kebab_case() {
        for (n, rule) in RULES.iter().enumerate() {
            assert!(rule.code.bytes().all(|b| b.is_ascii_lowercase() || b == b'-'), "{}", rule.code);
            assert!(RULES[..n].iter().all(|other| other.code != rule.code), "{} twice", rule.code);
        }
    }
}
