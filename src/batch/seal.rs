//! The seal of a record: whether what was noted until it was closed is still what it was.

use super::EntryId;
use crate::quantity::Timestamp;

/// Whether a seal holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SealState {
    /// Every entry that it is about is what it was, in its order, and so is what the batch was made from.
    Intact,
    /// One of them was changed, is missing or stands elsewhere.
    Changed,
}

/// A seal of a record.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Seal {
    /// The entry that closed the record.
    pub entry: EntryId,
    /// When.
    pub at: Timestamp,
    /// SHA-256: 64 hexadecimal digits.
    pub digest: String,
    /// The entries that it is about.
    pub covers: Vec<EntryId>,
    /// Whether it holds.
    pub state: SealState,
}

/// How many digits of a seal are shown at once, and how often: enough to compare by eye.
const GROUP: usize = 4;
const GROUPS: usize = 4;

impl Seal {
    /// Its first digits, in groups, such as `3f9a 77c1 04be 5d20`.
    pub fn short(&self) -> String {
        let mut short = String::new();
        for (place, digit) in self.digest.chars().take(GROUP * GROUPS).enumerate() {
            if place > 0 && place.is_multiple_of(GROUP) {
                short.push(' ');
            }
            short.push(digit);
        }
        short
    }
}

/// True if no seal is about an entry, and it is none itself: it was noted after the record was closed, or by a
/// tab that had not heard of that.
pub fn is_after_seals(seals: &[Seal], entry: &EntryId) -> bool {
    seals.iter().all(|seal| seal.entry != *entry && !seal.covers.contains(entry))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn seal(covers: &[u64]) -> Seal {
        Seal {
            entry: EntryId::random(9),
            at: Timestamp::default(),
            digest: "3f9a77c104be5d20".repeat(4),
            covers: covers.iter().copied().map(EntryId::random).collect(),
            state: SealState::Intact,
        }
    }

    #[test]
    fn short_form_has_sixteen_digits_in_groups() {
        assert_eq!(seal(&[]).short(), "3f9a 77c1 04be 5d20");
        assert_eq!(Seal { digest: String::new(), ..seal(&[]) }.short(), "");
    }

    #[test]
    fn entry_that_no_seal_is_about_came_after() {
        let seals = [seal(&[1, 2])];
        let after = |entry: u64| is_after_seals(&seals, &EntryId::random(entry));
        assert_eq!([1, 2, 9, 3].map(after), [false, false, false, true]);
    }
}
