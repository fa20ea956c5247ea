//! Why a command stopped, in words for the person at the terminal.

use std::fmt;

/// A step that failed: which one, why, and what to do by hand.
#[derive(Debug)]
pub(crate) struct Failure {
    step: String,
    cause: String,
    remedy: Option<String>,
    status: u8,
}

/// What every step of the tools returns.
pub(crate) type Done<T = ()> = Result<T, Failure>;

impl Failure {
    pub(crate) fn new(step: impl Into<String>, cause: impl fmt::Display) -> Self {
        Self { step: step.into(), cause: cause.to_string(), remedy: None, status: 1 }
    }

    /// The command line itself was wrong, which other programs tell by exit status 2.
    pub(crate) fn usage(cause: impl fmt::Display) -> Self {
        Self { status: 2, ..Self::new("reading the command line", cause) }.by_hand("cargo task help")
    }

    pub(crate) fn by_hand(mut self, remedy: impl Into<String>) -> Self {
        self.remedy = Some(remedy.into());
        self
    }

    pub(crate) fn status(&self) -> u8 {
        self.status
    }

    pub(crate) fn cause(&self) -> &str {
        &self.cause
    }
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "FAILED: {}\n  why: {}", self.step, self.cause)?;
        match &self.remedy {
            Some(remedy) => write!(f, "\n  by hand: {remedy}"),
            None => Ok(()),
        }
    }
}
