//! Taking in what came from outside: many documents at once, without a change of what is open.

use super::{ArrivalShown, Desk, FollowUp, browser};
use hundred_parts::desk::{
    Arrival, Commit, DocId, Document, Incoming, Journal, OpenDocument, Preview, RecordBody, Reopen, new_commits,
    study_commits,
};
use hundred_parts::words::{photographs as words, proof, storage_notices};
use leptos::prelude::*;
use std::sync::Arc;
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
    /// A link or a file has come: it waits until all before it are answered.
    pub(crate) fn take_up(self, arrival: Arrival) {
        self.came_in.update(|came| came.behind.add(arrival));
        self.ask_next();
    }

    /// The maker has answered what was shown.
    pub(crate) fn answered(self) {
        self.came_in.update(|came| {
            came.shown = None;
            came.behind.answered();
        });
        self.ask_next();
    }

    /// Shows the next one beside what is here under the same titles. While an import runs, that is not told yet.
    fn ask_next(self) {
        if self.importing.with_untracked(Option::is_some) {
            return;
        }
        let show = move |shown| self.came_in.update(|came| came.shown = Some(shown));
        match self.came_in.try_update(|came| came.behind.ask()).flatten() {
            None => {}
            Some(Arrival::Refused(why)) => show(ArrivalShown::Refused(why)),
            Some(Arrival::Documents(incoming)) => spawn_local(async move {
                let mine = self.of_titles(&incoming).await;
                let shelf = self.now(|open| open.shelf().clone());
                let studies = if incoming.studies.is_empty() { Vec::new() } else { self.all_studies().await.0 };
                let (kept, estimate) = if incoming.studies.is_empty() {
                    (Vec::new(), None)
                } else {
                    (self.kept_photographs().await, browser::estimate().await)
                };
                let preview = Preview::new(incoming, &mine, &shelf).beside_studies(&studies);
                let preview = preview.beside_photographs(&kept, estimate);
                show(ArrivalShown::Documents(Arc::new(preview)));
            }),
        }
    }

    /// The maker's documents that have a title of those that came in.
    async fn of_titles(self, incoming: &Incoming) -> Vec<Document> {
        let title = |document: &Document| document.state.formula.about.title.clone();
        let titles: Vec<String> = incoming.documents.iter().map(title).collect();
        let journal = self.journal();
        let mut mine = vec![self.with_records(&self.now(Clone::clone)).await.0];
        for meta in journal.metas().await.unwrap_or_default() {
            let open = self.now(|open| *open.id() == meta.id);
            if open || meta.binned.is_some() || !titles.contains(&meta.title) {
                continue;
            }
            if let Ok(Some(stored)) = journal.read(&meta.id).await
                && let Some(open) = OpenDocument::open(&stored, Vec::new())
            {
                mine.push(self.with_records(&open).await.0);
            }
        }
        mine
    }

    /// Adds what came from outside: shelf entries that are not here yet, and every document as a new one. What is open stays
    /// open, so that no key goes into something else. False if that cannot be, which is said: then nothing was taken.
    pub(crate) fn take(self, incoming: &Incoming) -> bool {
        if self.refused() || self.importing.with_untracked(Option::is_some) {
            return false;
        }
        if !self.now(|open| open.shelf().has_room_for(&incoming.shelf)) {
            self.say(storage_notices::SHELF_FULL, None);
            return false;
        }
        self.open.update(|open| open.take_shelf(&incoming.shelf, browser::now()));
        let (documents, studies) = (incoming.documents.clone(), incoming.studies.clone());
        let photographs = incoming.photographs.clone();
        let all = documents.len();
        if all > 0 || !studies.is_empty() || !photographs.is_empty() {
            // From now on: what comes next is compared with what is here once this is.
            self.importing.set(Some(Importing { done: 0, all, stopping: false }));
        }
        spawn_local(async move {
            self.write().await;
            let left = self.write_new(documents).await;
            // First the photographs, then the entries that name them.
            let lock = browser::lock_photographs(false).await;
            let left_photographs = self.keep_carried(&photographs).await;
            let left_studies = self.write_studies(&studies).await;
            drop(lock);
            self.importing.set(None);
            self.refresh_metas().await;
            if !left.is_empty() {
                self.say(&storage_notices::added_some(all - left.len(), all), None);
                self.came_in.update(|came| came.behind.put_back(left));
            } else if left_studies {
                self.say(proof::STUDIES_LEFT, None);
            } else if let Some((left, why)) = left_photographs {
                self.say(&words::left(left, photographs.len(), &why), None);
            } else if all == 0 && !(studies.is_empty() && photographs.is_empty()) {
                self.say(&words::added(studies.len(), photographs.len()), None);
            }
            if !studies.is_empty() || !photographs.is_empty() {
                self.studies_came.set(true);
            }
            self.ask_next();
        });
        true
    }

    /// Writes stability studies that are new here. True if they could not be written.
    async fn write_studies(self, studies: &[RecordBody]) -> bool {
        let mut study_id = || DocId::study(browser::random_bits());
        let commits = study_commits(studies, &mut study_id, browser::now());
        !commits.is_empty() && self.journal().commit_new(&commits).await.is_err()
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
