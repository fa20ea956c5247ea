//! Words about the code of a batch, and how codes are made.
#![allow(missing_docs, reason = "each constant is its own text")]

use crate::batch::CodeProblem;

pub const CODE: &str = "Batch code";
pub const CODE_TAKEN: &str = "Another batch on this device has this code. Choose another one.";
pub const CODE_MISSING: &str = "A batch needs a code, so that a jar can be traced to it.";
pub const CODE_WRONG: &str =
    "A code has 1 to 30 letters (a to z), digits, and - _ . or /, without spaces. Example: 261128-1.";
pub const PATTERN: &str = "How codes are made";
pub const PATTERN_FIELD: &str = "Pattern of the codes";

/// What is said below the pattern of batch codes: how one is written, or what is wrong with it.
pub fn pattern_note(problem: Option<&CodeProblem>) -> String {
    let how = "Letters, digits, - _ . / and {yyyy} {yy} {mm} {dd} {ww} for the day, {n} for a number that counts on. \
               Example: {yy}{mm}{dd}-{n}.";
    let wrong = match problem {
        None => return how.to_owned(),
        Some(CodeProblem::Empty) => "Nothing is left of it.".to_owned(),
        Some(CodeProblem::Character(wrong)) => format!("\u{201c}{wrong}\u{201d} cannot stand in a code."),
        Some(CodeProblem::Brace) => "A brace has no partner.".to_owned(),
        Some(CodeProblem::Placeholder(name)) => format!("{{{name}}} stands for nothing."),
        Some(CodeProblem::TwoNumbers) => "It has two numbers that count on.".to_owned(),
        Some(CodeProblem::WeekBesideDay) => "A week beside a month or a day contradicts itself.".to_owned(),
        Some(CodeProblem::TooLong { found, most }) => format!("It makes codes of {found} characters; {most} may be."),
    };
    format!("{wrong} {how}")
}
