//! What an import would bring, beside what is here already.

use super::{BatchRef, Document, Incoming, PhotographMatches, RecordBody, State, Version, is_study_here, write};
use crate::batch::study::{NoRoom, PhotographId, StorageEstimate, Tally, has_room};
use crate::formula::{Comparison, compare};
use crate::sheet::LyePlan;
use crate::shelf::Shelf;
use std::sync::Arc;

/// What is here of a document that came in.
#[derive(Debug, Clone, PartialEq)]
pub enum LocalMatch {
    /// Nothing of its title.
    New,
    /// The very same: it need not be added.
    Same,
    /// Another formula of the same title, and line by line how this one differs from it.
    Differs(Vec<Comparison>),
}

/// What came in, compared; nothing of it is kept yet.
#[derive(Debug, Clone, PartialEq)]
pub struct Preview {
    /// What came in.
    pub incoming: Incoming,
    /// For each document, what is here of it.
    pub known: Vec<LocalMatch>,
    /// For each stability study, whether all of it is here.
    pub studies_here: Vec<bool>,
    /// What the studies name of photographs, compared with those that are here.
    pub photographs: PhotographMatches,
    /// Why there is no room for those that are new, if there is none: then they are left out.
    pub no_room: Option<NoRoom>,
    /// How many shelf entries or values it would add.
    pub shelf_adds: usize,
}

impl Preview {
    /// Compares with the documents that are here (those of other titles are not looked at) and with the shelf.
    pub fn new(incoming: Incoming, mine: &[Document], shelf: &Shelf) -> Self {
        let known = incoming.documents.iter().map(|document| look_up(document, mine)).collect();
        let texts = |shelf: &Shelf| {
            let typed: usize = shelf.entries().map(|(_, own, texts)| usize::from(own) + texts.len()).sum();
            typed + shelf.lots().map(|(_, lots)| lots.len()).sum::<usize>()
        };
        let shelf_adds = texts(&shelf.joined(&incoming.shelf)) - texts(shelf);
        let studies_here = vec![false; incoming.studies.len()];
        let photographs = PhotographMatches::new(&incoming, &[]);
        Self { incoming, known, studies_here, photographs, no_room: None, shelf_adds }
    }

    /// Compares the stability studies, too, with those that are here.
    #[must_use]
    pub fn beside_studies(self, mine: &[RecordBody]) -> Self {
        let studies_here = self.incoming.studies.iter().map(|study| is_study_here(study, mine)).collect();
        Self { studies_here, ..self }
    }

    /// Compares the photographs, too, with those that are kept here (each with its bytes), in the room that the browser has.
    #[must_use]
    pub fn beside_photographs(self, here: &[(PhotographId, usize)], estimate: Option<StorageEstimate>) -> Self {
        let ids: Vec<PhotographId> = here.iter().map(|(id, _)| *id).collect();
        let photographs = PhotographMatches::new(&self.incoming, &ids);
        let new = photographs.new;
        let kept = Tally::of(here.iter().map(|(_, bytes)| *bytes));
        let no_room = has_room(new.bytes, kept, estimate).err().filter(|_| new.number > 0);
        Self { photographs, no_room, ..self }
    }

    /// What is worth adding: without the documents that are here already.
    pub fn wanted(&self) -> Incoming {
        let new = self.incoming.documents.iter().zip(&self.known).filter(|(_, known)| **known != LocalMatch::Same);
        let documents = new.map(|(document, _)| document.clone()).collect();
        let studies = self.incoming.studies.iter().zip(&self.studies_here).filter(|(_, here)| !**here);
        let studies = studies.map(|(study, _)| study.clone()).collect();
        let photographs = if self.no_room.is_none() { self.photographs.take.clone() } else { Vec::new() };
        Incoming { documents, studies, photographs, shelf: self.incoming.shelf.clone(), refused: Vec::new() }
    }
}

fn look_up(document: &Document, mine: &[Document]) -> LocalMatch {
    let formula = &document.state.formula;
    let namesakes = || mine.iter().filter(|other| other.state.formula.about.title == formula.about.title);
    if namesakes().any(|other| brings_nothing(document, other)) {
        return LocalMatch::Same;
    }
    namesakes().next().map_or(LocalMatch::New, |other| LocalMatch::Differs(compare(&other.state.formula, formula)))
}

/// True if the log of an earlier release is a record here.
fn noted_here(document: &Document, mine: &Document) -> bool {
    let Some(log) = document.old_log.as_ref().and_then(RecordBody::of_log) else { return false };
    mine.batches.iter().any(|batch| matches!(batch, BatchRef::Carried(record) if record.holds(&log)))
}

/// True if all of a document is in one that is here: a link has no batches, no versions and perhaps no plan. Batches are
/// compared where their records are with both.
fn brings_nothing(document: &Document, mine: &Document) -> bool {
    let (State { formula, plan, lye }, here) = (&document.state, &mine.state);
    let kept = |version: &Arc<Version>| {
        let same = |other: &&Arc<Version>| write::same_formula(&other.formula, &version.formula);
        mine.versions.iter().filter(same).any(|other| version.name.trim().is_empty() || version.name == other.name)
    };
    write::same_formula(&here.formula, formula)
        && *plan == here.plan
        && (document.old_log.is_none() || document.old_log == mine.old_log || noted_here(document, mine))
        && document.batches.iter().all(|batch| mine.batches.contains(batch))
        && (*lye == LyePlan::default() || *lye == here.lye)
        && document.versions.iter().all(kept)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::demo;

    #[test]
    fn preview_tells_new_same_and_different_apart() {
        let mut other = demo();
        let line = other.state.formula.lines().nth(1).map(|(_, line)| line.id).unwrap();
        other.state.formula.remove_line(line);
        let mut renamed = demo();
        renamed.state.formula.about.title = "Another".into();
        let incoming = Incoming {
            documents: vec![demo(), other, renamed],
            studies: Vec::new(),
            photographs: Vec::new(),
            shelf: Shelf::default(),
            refused: Vec::new(),
        };
        let preview = Preview::new(incoming, &[demo()], &Shelf::default());
        assert_eq!(preview.known[0], LocalMatch::Same);
        assert!(matches!(&preview.known[1], LocalMatch::Differs(rows) if !rows.is_empty()));
        assert_eq!(preview.known[2], LocalMatch::New);
        assert_eq!(preview.wanted().documents.len(), 2);
    }

    #[test]
    fn preview_offers_batches_and_versions_that_are_not_here() {
        let known = |document: Document, mine: Document| {
            Preview::new(
                Incoming {
                    documents: vec![document],
                    studies: Vec::new(),
                    photographs: Vec::new(),
                    shelf: Shelf::default(),
                    refused: Vec::new(),
                },
                &[mine],
                &Shelf::default(),
            )
            .known
            .remove(0)
        };
        let mut logged = demo();
        let log = serde_json::json!({"batch_g": "100", "target_ph": "5", "events": []});
        logged.old_log = Some(log.clone());
        assert!(matches!(known(logged.clone(), demo()), LocalMatch::Differs(_)));
        assert_eq!(known(demo(), logged.clone()), LocalMatch::Same);
        let mut recorded = demo();
        recorded.batches = vec![BatchRef::Carried(Arc::new(RecordBody::of_log(&log).unwrap()))];
        assert!(matches!(known(recorded.clone(), demo()), LocalMatch::Differs(_)));
        assert_eq!(known(recorded.clone(), recorded.clone()), LocalMatch::Same);
        assert_eq!(known(logged, recorded), LocalMatch::Same, "the log of an earlier release is that record");
        let mut older = demo();
        older.state.formula.about.notes.push('!');
        let mut versioned = demo();
        versioned.versions = vec![Arc::new(Version {
            number: 1,
            saved: crate::quantity::Timestamp::from_millis(1),
            name: String::new(),
            formula: older.state.formula,
        })];
        assert!(matches!(known(versioned.clone(), demo()), LocalMatch::Differs(_)));
        assert_eq!(known(demo(), versioned.clone()), LocalMatch::Same);
        let mut named = versioned.clone();
        named.name_version(1, "Spring batch".into());
        assert!(matches!(known(named.clone(), versioned.clone()), LocalMatch::Differs(_)), "a name comes with it");
        assert_eq!(known(versioned, named), LocalMatch::Same);
    }
}
