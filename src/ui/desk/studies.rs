//! Stability studies: begun, added to, opened, and all of them read. Only for the second part of the program.

use super::{Desk, browser};
use hundred_parts::batch::EntryId;
use hundred_parts::batch::study::{StudyEntry, StudyEvent};
use hundred_parts::desk::{DocId, DocumentKind, DocumentMeta, Journal, RecordBody};
use hundred_parts::words::proof;
use leptos::prelude::*;
use std::time::Duration;

impl Desk {
    /// Begins a study; the one that was open is put away first. True if it has begun.
    pub(crate) async fn begin_study(self, event: StudyEvent) -> bool {
        if self.refused() {
            return false;
        }
        self.write().await;
        let first = StudyEntry { id: EntryId::random(browser::random_bits()), at: browser::now(), event };
        let id = DocId::study(browser::random_bits());
        let begun = self.open.try_update(|open| open.begin_study(id, &first)) == Some(true);
        if begun {
            self.write_soon(Duration::ZERO);
        } else {
            self.say(proof::NOT_BEGUN, None);
        }
        begun
    }

    /// Notes what happened to the study that is open. True if it is in it.
    pub(crate) fn note_study(self, event: StudyEvent) -> bool {
        if self.refused() {
            return false;
        }
        let entry = StudyEntry { id: EntryId::random(browser::random_bits()), at: browser::now(), event };
        let noted = self.open.try_update(|open| open.note_study(&entry)) == Some(true);
        if noted {
            self.write_soon(Duration::ZERO);
        } else {
            self.say(proof::NOT_NOTED, None);
        }
        noted
    }

    /// Opens what another tab has noted something in: the record of a batch or a study.
    pub(crate) async fn open_kept(self, id: DocId) -> bool {
        match id.kind() {
            DocumentKind::Study => self.open_study(id).await,
            _ => self.open_batch(id).await,
        }
    }

    /// Opens a stored study, or goes on from it where it is open. False if there is none.
    pub(crate) async fn open_study(self, id: DocId) -> bool {
        let Some(stored) = self.stored_record(&id, proof::STUDY_LOST).await else {
            if self.is_binned_study(&id).await {
                self.open.update(|open| open.close_study(&id));
            }
            return false;
        };
        if self.now(|open| open.open_study().is_some_and(|study| *study.id() != id)) {
            self.write().await;
        }
        self.open.update(|open| open.adopt_study(stored));
        self.write_if_dirty();
        true
    }

    async fn is_binned_study(self, id: &DocId) -> bool {
        self.binned_studies().await.iter().any(|(binned, _)| binned == id)
    }

    /// The studies that are in the bin, with what they are called.
    pub(crate) async fn binned_studies(self) -> Vec<(DocId, String)> {
        let metas = self.journal().metas().await.unwrap_or_default().into_iter();
        let is_one = |meta: &DocumentMeta| meta.id.kind() == DocumentKind::Study && meta.binned.is_some();
        metas.filter(is_one).map(|meta| (meta.id, meta.title)).collect()
    }

    /// Every study that the stores have, the last one changed first, with its id; and whether all of them could be read.
    pub(crate) async fn studies(self) -> (Vec<(DocId, RecordBody)>, bool) {
        let open = self.now(|open| open.open_study().map(|study| (study.id().clone(), study.body().clone())));
        let (mut found, mut all): (Vec<_>, bool) = (open.into_iter().collect(), true);
        for meta in self.metas_of(DocumentKind::Study).await {
            if found.iter().any(|(id, _)| *id == meta.id) {
                continue;
            }
            match self.read_record(&meta.id).await {
                Some(study) => found.push((meta.id, study.body().clone())),
                None => all = false,
            }
        }
        (found, all)
    }

    /// The same without their ids.
    pub(crate) async fn all_studies(self) -> (Vec<RecordBody>, bool) {
        let (studies, all) = self.studies().await;
        (studies.into_iter().map(|(_, body)| body).collect(), all)
    }
}
