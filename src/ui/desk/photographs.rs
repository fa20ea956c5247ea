//! Photographs of studies: kept, read, written into files, taken from them, and removed once nothing names them. Only for the
//! second part of the program.

use super::{Desk, browser};
use crate::ui::browser::LocalStorageMirror;
use hundred_parts::batch::study::{
    NoRoom, Photograph, PhotographId, Pull, StorageEstimate, StudyEvent, StudyPhotograph, Tally, has_room,
};
use hundred_parts::desk::{
    CarriedPhotograph, DocId, DocumentKind, Journal, LocalMirror, Orphans, PhotographFile, RecordBody, StoredDocument,
    named_in_stores, named_photographs,
};
use hundred_parts::quantity::Day;
use hundred_parts::words::{page, photographs as words, proof};
use std::collections::BTreeSet;
use std::time::Duration;
use wasm_bindgen_futures::spawn_local;

/// The preference that says that photographs were kept here once.
const EVER: &str = "photographs";
/// The preference with those that nothing names.
const ORPHANS: &str = "orphans";
/// How many are written in one transaction.
const AT_ONCE: usize = 10;

/// What a store has of a photograph.
pub(crate) enum Stored {
    /// Its bytes, as its digest says.
    Whole(Vec<u8>),
    /// Other bytes.
    Damaged,
    /// Nothing, or nothing that could be read.
    Missing,
}

impl Desk {
    /// What is kept of photographs.
    pub(crate) async fn kept_photographs(self) -> Vec<(PhotographId, usize)> {
        browser::kept_photographs().await.unwrap_or_default()
    }

    /// The same as a number and their bytes.
    pub(crate) async fn kept_tally(self) -> Tally {
        Tally::of(self.kept_photographs().await.into_iter().map(|(_, bytes)| bytes))
    }

    /// What there is of a photograph.
    pub(crate) async fn stored_photograph(self, id: PhotographId) -> Stored {
        match browser::photograph(id).await {
            Ok(Some(bytes)) if PhotographId::of(&bytes) == id => Stored::Whole(bytes),
            Ok(Some(_)) => Stored::Damaged,
            _ => Stored::Missing,
        }
    }

    async fn room_for(self, needs: u64) -> Result<(), NoRoom> {
        let estimate: Option<StorageEstimate> = browser::estimate().await;
        has_room(needs, self.kept_tally().await, estimate)
    }

    /// Keeps a photograph of a pull: first its bytes, then the entry of the study that is open.
    ///
    /// # Errors
    /// A sentence that says why not; then nothing has changed.
    pub(crate) async fn keep_photograph(
        self,
        pull: Pull,
        on: Day,
        photograph: Photograph,
        bytes: &[u8],
    ) -> Result<(), String> {
        if browser::stopped() {
            return Err(page::READ_ONLY.to_owned());
        }
        let study = self.now(|open| open.open_study().map(|study| study.id().clone()));
        self.room_for(bytes.len() as u64).await.map_err(|why| words::no_room(why, self.sign))?;
        let lock = browser::lock_photographs(false).await;
        let stored = browser::keep_photographs(&[(photograph.id, bytes)]).await;
        stored.map_err(|error| [words::NOT_SAVED, &error.0].concat())?;
        browser::set_preference(EVER, "kept");
        // Another study may have been opened meanwhile.
        let same = self.now(|open| open.open_study().map(|study| study.id().clone())) == study;
        let event = StudyEvent::Photographed { condition: pull.condition, point: pull.point, on, photograph };
        if !same || !self.note_study(event) {
            return Err(proof::NOT_NOTED.to_owned());
        }
        self.hold_until_written(lock);
        Ok(())
    }

    /// Nobody may remove a photograph whose entry is not in the journal yet.
    fn hold_until_written(self, lock: Option<browser::PhotographLock>) {
        spawn_local(async move {
            while !self.write().await && !browser::stopped() {
                browser::pause(Duration::from_secs(2)).await;
            }
            drop(lock);
        });
    }

    /// Crosses out the entry of a photograph. True if it is in the study.
    pub(crate) fn strike_photograph(self, photograph: &StudyPhotograph, reason: String) -> bool {
        self.note_study(StudyEvent::Struck { entry: photograph.entry.clone(), reason })
    }

    /// Writes a file with the photographs of the studies in it, one read after the other. How many it lacks; nothing where the
    /// browser gave no file.
    pub(crate) async fn write_file(self, name: &str, text: &str, studies: &[RecordBody]) -> Option<usize> {
        let (parts, mut file, mut lacks) = (js_sys::Array::new(), PhotographFile::default(), 0);
        parts.push(&PhotographFile::head(text).into());
        for id in named_photographs(studies).into_keys() {
            match self.stored_photograph(id).await {
                Stored::Whole(bytes) => {
                    parts.push(&file.piece(id, &bytes).into());
                }
                Stored::Damaged | Stored::Missing => lacks += 1,
            }
        }
        parts.push(&file.tail().into());
        browser::download_parts(name, "application/json", &parts).map(|()| lacks)
    }

    /// Keeps photographs that came in a file. Those that are left, and why.
    pub(super) async fn keep_carried(self, carried: &[CarriedPhotograph]) -> Option<(usize, String)> {
        let whole: Vec<(PhotographId, &[u8])> =
            carried.iter().filter_map(|one| Some((one.id, one.bytes.as_deref()?))).collect();
        let needs = whole.iter().map(|(_, bytes)| bytes.len() as u64).sum();
        if let Err(why) = self.room_for(needs).await {
            return Some((whole.len(), words::no_room(why, self.sign))).filter(|(left, _)| *left > 0);
        }
        for (n, some) in whole.chunks(AT_ONCE).enumerate() {
            if let Err(error) = browser::keep_photographs(some).await {
                return Some((whole.len() - n * AT_ONCE, error.0));
            }
            browser::set_preference(EVER, "kept");
        }
        None
    }

    /// What studies that are about to leave the bin for good name.
    pub(super) async fn named_by(self, ids: &[DocId]) -> BTreeSet<PhotographId> {
        let mut named = BTreeSet::new();
        for id in ids.iter().filter(|id| id.kind() == DocumentKind::Study) {
            if let Ok(Some(stored)) = self.journal().read(id).await {
                named.extend(named_in_stores([&stored]).unwrap_or_default().into_keys());
            }
        }
        named
    }

    /// Removes photographs that no study names any more, while no tab may be between one and its entry.
    pub(super) async fn sweep_photographs(self, left: BTreeSet<PhotographId>) {
        if browser::stopped() || browser::preference(EVER).is_none() {
            return;
        }
        let Some(lock) = browser::lock_photographs(true).await else { return };
        let Some(stored) = self.stored_studies().await else { return };
        let Some(mut named) = named_in_stores(&stored) else { return };
        named.extend(
            self.now(|open| open.open_study().map(|study| named_photographs([study.body()]))).unwrap_or_default(),
        );
        let kept: Vec<PhotographId> = self.kept_photographs().await.into_iter().map(|(id, _)| id).collect();
        let known = Orphans::read(&browser::preference(ORPHANS).unwrap_or_default());
        let (remove, wait) = known.look(&kept, &named, &left, browser::now().day());
        if remove.is_empty() || browser::remove_photographs(&remove).await.is_ok() {
            browser::set_preference(ORPHANS, &wait.write());
        }
        drop(lock);
    }

    /// Every copy of a study in every store, with those in the bin and of kinds that this release does not know. Nothing if
    /// the stores could not be read.
    async fn stored_studies(self) -> Option<Vec<StoredDocument>> {
        let mirror = LocalStorageMirror;
        let is_one = |id: &DocId| matches!(id.kind(), DocumentKind::Study | DocumentKind::Unknown);
        let mut found = Vec::new();
        for meta in self.journal().metas().await.ok()?.into_iter().filter(|meta| is_one(&meta.id)) {
            found.push(self.journal().read(&meta.id).await.ok()??);
        }
        for id in mirror.ids().into_iter().filter(is_one) {
            found.push(mirror.read(&id)?);
        }
        Some(found)
    }
}
