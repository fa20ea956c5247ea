//! Whether a document that took a moment to read may still be shown when it is there.

use super::{DocId, Persist};

/// What was open when the reading began.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LoadGuard {
    id: DocId,
    revision: Option<u64>,
    step: u64,
}

impl LoadGuard {
    /// What is open now.
    pub fn of(open: &impl Persist) -> Self {
        let tracking = open.tracking();
        Self { id: tracking.id().clone(), revision: tracking.revision(), step: open.step() }
    }

    /// Whether an asynchronous load of `wanted` may replace the open document.
    ///
    /// It does not where that would cover newer words: typed and unsaved, on their way to the journal (`writing`), or
    /// saved since. Nor where a second look at the open document found it gone on as a copy of its own. Another document,
    /// which the maker asked for, comes in any case: what was open is written before.
    pub fn gives_way(&self, now: &impl Persist, wanted: &DocId, writing: bool) -> bool {
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
    use crate::desk::{Action, Fresh, OpenDocument, ShelfDocument, demo};
    use crate::quantity::Timestamp;

    fn now() -> Timestamp {
        Timestamp::from_millis(1)
    }

    fn id(n: u64) -> DocId {
        DocId::random(n)
    }

    /// A document that is in the journal.
    fn kept() -> OpenDocument {
        let mut open = OpenDocument::new(id(1), demo(), ShelfDocument::default(), now());
        let revision = open.take_commit().map(|commit| commit.stored.meta.revision);
        open.arrived(revision.unwrap_or_default());
        open
    }

    #[test]
    fn seen_unchanged_document_gives_way_to_its_newer_copy() {
        let open = kept();
        assert!(LoadGuard::of(&open).gives_way(&open, &id(1), false));
    }

    #[test]
    fn seen_words_typed_on_their_way_or_saved_meanwhile_stay() {
        let mut open = kept();
        let seen = LoadGuard::of(&open);
        open.act(Action::Title("Typed meanwhile".into()), now());
        assert!(!seen.gives_way(&open, &id(1), false), "unsaved");
        let commit = open.take_commit().unwrap();
        assert!(!open.is_dirty() && !seen.gives_way(&open, &id(1), true), "on its way");
        open.arrived(commit.stored.meta.revision);
        assert!(!seen.gives_way(&open, &id(1), false), "saved, and newer than what was read");
    }

    #[test]
    fn seen_copy_that_a_conflict_made_stays() {
        let mut open = kept();
        let seen = LoadGuard::of(&open);
        open.act(Action::Title("Typed meanwhile".into()), now());
        let stored = open.take_commit().unwrap().stored;
        let fresh = Fresh { id: id(2), title: "Typed meanwhile (from this tab)".into(), now: now() };
        open.overtaken(&stored, Vec::new(), fresh);
        assert!(!seen.gives_way(&open, &id(1), false));
    }

    #[test]
    fn seen_another_document_comes_when_it_is_asked_for() {
        let open = kept();
        assert!(LoadGuard::of(&open).gives_way(&open, &id(3), false));
    }
}
