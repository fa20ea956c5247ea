//! Taking in what came from outside: many documents at once, without a change of what is open.

use super::{Desk, FollowUp, browser};
use hundred_parts::desk::{Commit, DocId, Document, Incoming, Journal, new_commits};
use hundred_parts::shelf::Shelf;
use hundred_parts::words::storage_notices;
use leptos::prelude::*;
use std::time::Duration;
use wasm_bindgen_futures::spawn_local;

/// How many documents are written in one transaction: so many that the browser's work for each is small, and so few that
/// what is done can be seen to go on.
const AT_ONCE: usize = 50;

/// An import that is running.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Importing {
    /// So many are in the journal.
    pub(crate) done: usize,
    /// Of so many.
    pub(crate) all: usize,
    /// No further ones are wanted.
    pub(crate) stopping: bool,
}

impl Desk {
    /// Adds what came from outside: shelf entries that are not here yet, and every document as a new one. What is open stays
    /// open, so that no key goes into something else.
    pub(crate) fn take(self, incoming: &Incoming) {
        if self.refused() || self.importing.with_untracked(Option::is_some) {
            return;
        }
        if !self.now(|open| open.shelf().has_room_for(&incoming.shelf)) {
            return self.say(storage_notices::SHELF_FULL, None);
        }
        self.open.update(|open| open.take_shelf(&incoming.shelf, browser::now()));
        let documents = incoming.documents.clone();
        spawn_local(async move {
            if !self.write().await && documents.is_empty() {
                return;
            }
            let all = documents.len();
            let left = self.write_new(documents).await;
            self.importing.set(None);
            self.refresh_metas().await;
            if !left.is_empty() {
                self.say(&storage_notices::added_some(all - left.len(), all), None);
                self.look_at(Incoming { documents: left, shelf: Shelf::default(), refused: Vec::new() });
            }
        });
    }

    /// Writes documents that are new here. Gives those that are not in the journal.
    async fn write_new(self, documents: Vec<Document>) -> Vec<Document> {
        let all = documents.len();
        let mut left = documents;
        while !left.is_empty() {
            let stopping = self.importing.with_untracked(|before| before.is_some_and(|before| before.stopping));
            self.importing.set(Some(Importing { done: all - left.len(), all, stopping }));
            // Drawn before the next ones are made.
            browser::pause(Duration::ZERO).await;
            if self.importing.with_untracked(|importing| importing.is_none_or(|importing| importing.stopping)) {
                return left;
            }
            let rest = left.split_off(left.len().min(AT_ONCE));
            let mut batch_id = || DocId::batch(browser::random_bits());
            let commits: Vec<Commit> = left
                .iter()
                .flat_map(|document| new_commits(browser::new_id(), document, &mut batch_id, browser::now()))
                .collect();
            if self.journal().commit_new(&commits).await.is_err() {
                left.extend(rest);
                return left;
            }
            if rest.is_empty() {
                self.added(all, commits);
            }
            left = rest;
        }
        left
    }

    /// No further ones.
    pub(crate) fn stop_import(self) {
        self.importing.update(|importing| {
            if let Some(importing) = importing {
                importing.stopping = true;
            }
        });
    }

    fn added(self, all: usize, commits: Vec<Commit>) {
        self.counted();
        let last: Option<DocId> = commits.into_iter().last().map(|commit| commit.stored.meta.id);
        if let Some(last) = &last {
            browser::tell_tabs(last.as_str());
        }
        self.say(&storage_notices::added(all), last.filter(|_| all == 1).map(FollowUp::Open));
    }
}
