//! The stability study beside the open document: begun, added to and opened. Undo does not reach it.

use super::study::entry_value;
use super::{Commit, DocId, OpenDocument, Persist, ReadProblem, RecordBody, RecordDocument};
use crate::batch::study::{Study, StudyEntry, StudyEvent};
use crate::quantity::Timestamp;

impl OpenDocument {
    /// The study that is open, as it is stored.
    pub fn open_study(&self) -> Option<&RecordDocument> {
        self.study.as_ref()
    }

    /// Whether this is the record of the batch that is worked on, or the study that is open.
    pub fn is_open_record(&self, id: &DocId) -> bool {
        self.open_record().into_iter().chain(&self.study).any(|record| record.id() == id)
    }

    /// The study that is open, as it stands; `None` if none is.
    ///
    /// # Errors
    /// What in it cannot be read.
    pub fn study(&self) -> Option<Result<Study, ReadProblem>> {
        let entries = match self.study.as_ref()?.body().study() {
            Ok(entries) => entries,
            Err(problem) => return Some(Err(problem)),
        };
        Study::of(&entries).map(Ok)
    }

    /// Begins a study with its first entry. False, and nothing changes, where the one that is open is not written yet, or
    /// where what is to be kept could not be read again.
    pub fn begin_study(&mut self, id: DocId, first: &StudyEntry) -> bool {
        let StudyEvent::Begun { basis, .. } = &first.event else { return false };
        let unwritten = self.study.as_ref().is_some_and(|study| study.tracking().is_dirty());
        let mut body = RecordBody::new(None);
        let noted = entry_value(first).is_some_and(|entry| body.append(entry));
        if !noted || unwritten {
            return false;
        }
        self.study = Some(RecordDocument::new(id, basis.title.clone(), body, first.at));
        true
    }

    /// Notes one more entry of the study that is open. False, and nothing changes, if there is none, if it has no room, or if
    /// the entry could not be read again.
    pub fn note_study(&mut self, entry: &StudyEntry) -> bool {
        let Some((study, value)) = self.study.as_mut().zip(entry_value(entry)) else { return false };
        study.append(value, entry.at)
    }

    /// Closes a study that is in the bin or gone. Not one that is not written yet: its next write brings it back.
    pub fn close_study(&mut self, id: &DocId) {
        self.study = self.study.take().filter(|study| study.id() != id || study.tracking().is_dirty());
    }

    /// Takes over a stored study: what was noted here meanwhile stays in it. Not in the place of another one that is not
    /// written yet.
    pub fn adopt_study(&mut self, stored: RecordDocument) {
        match &mut self.study {
            Some(study) if study.id() == stored.id() => study.adopt(stored),
            Some(other) if other.tracking().is_dirty() => {}
            study => *study = Some(stored),
        }
    }
}

/// What has to be written of studies that came from outside: each becomes a document of its own.
pub fn study_commits(studies: &[RecordBody], study_id: &mut dyn FnMut() -> DocId, now: Timestamp) -> Vec<Commit> {
    let commit = |body: &RecordBody| {
        let last = Timestamp::read(body.last()).unwrap_or(now);
        RecordDocument::new(study_id(), body.study_title(), body.clone(), last).take_commit()
    };
    studies.iter().filter_map(commit).collect()
}

/// Whether all that a study says is in one that is here.
pub fn is_study_here(study: &RecordBody, mine: &[RecordBody]) -> bool {
    mine.iter().any(|known| known.holds(study))
}
