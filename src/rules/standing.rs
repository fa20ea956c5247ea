//! Where a finding that stops stands with the maker: open, answered, or answered when it was another one.

use super::{Finding, Grade};
use crate::formula::{Answer, Formula};

/// Where a Stop stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Standing<'a> {
    /// Nobody answered it.
    Open,
    /// Somebody took it on, with a reason.
    Answered(&'a Answer),
    /// A reason or a person is missing.
    Unfinished(&'a Answer),
    /// It was answered at another value.
    Lapsed(&'a Answer),
}

/// Where a finding stands; only a Stop asks for an answer. What was answered in writing when it was a Stop, and advises since,
/// stays answered on every paper.
pub fn standing<'a>(finding: &Finding, formula: &'a Formula) -> Option<Standing<'a>> {
    let lowered = finding.is_lowered();
    if finding.grade != Grade::Stop && !lowered {
        return None;
    }
    let standing = match formula.papers.answer(&finding.key(formula)) {
        None => Standing::Open,
        Some(answer) if answer.value != finding.value().unwrap_or_default() => Standing::Lapsed(answer),
        Some(answer) if !answer.is_complete() => Standing::Unfinished(answer),
        Some(answer) => Standing::Answered(answer),
    };
    (!lowered || matches!(standing, Standing::Answered(_))).then_some(standing)
}
