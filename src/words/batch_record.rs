//! What is said of the record of a batch: its log, struck entries, earlier batches, and where it cannot be read.
#![allow(missing_docs, reason = "each constant is its own text")]

pub const STRIKE_ENTRY: &str = "Cross out entry ";
pub const LOG: &str = "Log";
pub const STRIKE: &str = "Cross out";
pub const STRUCK_TOAST: &str = "Entry crossed out. It stays in the record with its reason.";
pub const WHY_STRUCK: &str = "What was wrong with it?";
pub const MISREAD: &str = "Wrong figure";
pub const NOT_DONE: &str = "It did not happen";
pub const OTHER_REASON: &str = "Another reason";
pub const STRIKE_FOR_THIS: &str = "Cross out for this reason";
pub const KEEP_ENTRY: &str = "Leave it as it is";
pub const NOT_NOTED: &str = "That was not recorded: its mass is beyond what a record holds, or the record is full or still being saved. Check the figure and try again.";
pub const OPENING_RECORD: &str = "Opening the record of this batch\u{2026}";
pub const RECORD_MISSING: &str = "The record of this batch is not in this browser";
pub const RECORD_MISSING_WHY: &str = "If you have an export with it, import that. A new log can be started below.";
pub const RECORD_UNREADABLE: &str = "The record of this batch cannot be read";
pub const NOT_ALL: &str = "The record of a batch of this formula could not be read, and is not in the file.";
pub const EARLIER: &str = "Earlier logs";
pub const GO_ON_WITH: &str = "Continue with this one";
pub const BEGIN_ANEW: &str = "Start a new log";
pub const BEGUN_ANEW: &str = "New log started. The one before is kept.";
pub const RECORD_JOINED: &str = "Another tab recorded something for this batch too. The record has both.";
pub const GO_BACK_TO_IT: &str = "Go back to it";
pub const RECORD_LOST: &str = "The stored record of this batch cannot be read.";
pub const RECORD_RESCUED: &str =
    "A stored copy of this batch\u{2019}s record was damaged. What you see is the other copy.";

/// That an entry was struck, and why; logs of earlier releases have no reason.
pub fn struck(reason: &str) -> String {
    if reason.is_empty() { "Crossed out.".to_owned() } else { format!("Crossed out: {reason}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn struck_entry_says_why_where_a_reason_was_given() {
        assert_eq!(struck("Wrong figure"), "Crossed out: Wrong figure");
        assert_eq!(struck(""), "Crossed out.");
    }
}
