//! Findings: what is wrong or unwise about a formula and its batch. One rule a file.
//!
//! A rule reads the formula and its sheet and reports; it never changes anything and never reads another rule's result.

mod finding;
mod lye;
mod nameless;
mod no_share;
mod off_shelf;
mod sum;
mod supplier_sheet;
mod too_small;
mod unread;

pub use finding::{Fact, Finding, Grade};

use crate::facts::Shelf;
use crate::formula::Formula;
use crate::quantity::sort_by;
use crate::sheet::Sheet;

/// What every rule may look at.
#[derive(Clone, Copy)]
pub struct Case<'a> {
    /// The formula.
    pub formula: &'a Formula,
    /// What was computed from it.
    pub sheet: &'a Sheet,
    /// What is known about ingredients.
    pub shelf: &'a Shelf,
}

/// A rule: its code, which keeps its meaning for ever, and what it does.
pub struct Rule {
    /// Kebab-case name of the pattern that it finds.
    pub code: &'static str,
    /// Reports what it finds.
    pub check: fn(Case<'_>, &mut Vec<Finding>),
}

/// Every rule, in the order in which findings of one grade are shown.
pub const RULES: &[Rule] = &[
    sum::RULE,
    unread::RULE,
    no_share::RULE,
    nameless::RULE,
    off_shelf::RULE,
    too_small::RULE,
    lye::RULE,
    supplier_sheet::RULE,
];

/// All findings, gravest first.
pub fn check(formula: &Formula, sheet: &Sheet, shelf: &Shelf) -> Vec<Finding> {
    let mut findings = Vec::new();
    for rule in RULES {
        (rule.check)(Case { formula, sheet, shelf }, &mut findings);
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
