//! Whether a document that took a moment to read may still be shown when it is there.

use super::{DocId, Stored};

/// What was open when the reading began.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Seen {
    id: DocId,
    rev: Option<u64>,
    step: u64,
}

impl Seen {
    /// What is open now.
    pub fn of(open: &impl Stored) -> Self {
        let tracking = open.tracking();
        Self { id: tracking.id().clone(), rev: tracking.rev(), step: open.step() }
    }

    /// Whether what is open now gives way to a copy of `wanted` that was read meanwhile.
    ///
    /// It does not where that would cover newer words: typed and unsaved, on their way to the journal (`writing`), or
    /// saved since. Nor where a second look at the open document found it gone on as a copy of its own. Another document,
    /// which the maker asked for, comes in any case: what was open is written before.
    pub fn gives_way(&self, now: &impl Stored, wanted: &DocId, writing: bool) -> bool {
        let tracking = now.tracking();
        if tracking.id() == wanted {
            !writing && !tracking.is_dirty() && *self == Self::of(now)
        } else {
            self.id != *wanted
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{Action, Bench, Cupboard, Fresh, Moment, demo};

    fn now() -> Moment {
        Moment::from_millis(1)
    }

    fn id(n: u64) -> DocId {
        DocId::random(n)
    }

    /// A document that is in the journal.
    fn kept() -> Bench {
        let mut bench = Bench::new(id(1), demo(), Cupboard::default(), now());
        let rev = bench.take_commit().map(|commit| commit.slot.head.rev);
        bench.arrived(rev.unwrap_or_default());
        bench
    }

    #[test]
    fn seen_unchanged_document_gives_way_to_its_newer_copy() {
        let bench = kept();
        assert!(Seen::of(&bench).gives_way(&bench, &id(1), false));
    }

    #[test]
    fn seen_words_typed_on_their_way_or_saved_meanwhile_stay() {
        let mut bench = kept();
        let seen = Seen::of(&bench);
        bench.act(Action::Title("Typed meanwhile".into()), now());
        assert!(!seen.gives_way(&bench, &id(1), false), "unsaved");
        let commit = bench.take_commit().unwrap();
        assert!(!bench.is_dirty() && !seen.gives_way(&bench, &id(1), true), "on its way");
        bench.arrived(commit.slot.head.rev);
        assert!(!seen.gives_way(&bench, &id(1), false), "saved, and newer than what was read");
    }

    #[test]
    fn seen_copy_that_a_conflict_made_stays() {
        let mut bench = kept();
        let seen = Seen::of(&bench);
        bench.act(Action::Title("Typed meanwhile".into()), now());
        let stored = bench.take_commit().unwrap().slot;
        let fresh = Fresh { id: id(2), title: "Typed meanwhile (from this tab)".into(), now: now() };
        bench.overtaken(&stored, Vec::new(), fresh);
        assert!(!seen.gives_way(&bench, &id(1), false));
    }

    #[test]
    fn seen_another_document_comes_when_it_is_asked_for() {
        let bench = kept();
        assert!(Seen::of(&bench).gives_way(&bench, &id(3), false));
    }
}
