//! The place Proof: the stability study of a batch, and how long that batch keeps.

mod begin;
mod form;
mod further;
mod keeps;
mod photographs;
mod picture;
mod plan;
mod pulls;
mod typing;
mod whole;

pub(super) use photographs::{over as photograph, title as photograph_title};

use super::browser;
use super::desk::Desk;
use super::dom::{El, View, dynamic, effect, el, follow};
use super::field::button;
use hundred_parts::batch::BatchRecord;
use hundred_parts::batch::study::{Pull, Study};
use hundred_parts::desk::{BatchState, DocId, code_in_title};
use hundred_parts::quantity::Day;
use hundred_parts::words::proof as words;
use leptos::prelude::*;
use std::sync::Arc;
use std::time::Duration;
use wasm_bindgen_futures::spawn_local;

/// What has the focus once the work on a pull is done.
const PULLS_TITLE: &str = "proof-pulls";
/// What has it in the form of a pull.
const PULL_TITLE: &str = "proof-pull";

/// A study in the list.
#[derive(Clone, PartialEq)]
struct StudyRow {
    id: DocId,
    title: String,
    state: String,
}

/// What is shown of the study that is open.
#[derive(Clone, PartialEq)]
enum Shown {
    None,
    Unreadable(String),
    Study(Box<Study>),
}

/// The place and what its parts share.
#[derive(Clone, Copy)]
struct Proof {
    desk: Desk,
    /// The day where the maker is, which goes on while the place is shown.
    today: RwSignal<Day>,
    shown: RwSignal<Shown>,
    /// Studies in the stores; nothing before these were read.
    list: RwSignal<Option<Vec<StudyRow>>>,
    /// Studies in the bin.
    binned: RwSignal<Vec<(DocId, String)>>,
    /// The pull that is being recorded.
    pull: RwSignal<Option<Pull>>,
    /// What was read of photographs.
    shots: photographs::Shots,
    /// The record of the batch that the open study is of, as the stores had it, with its id.
    stored: RwSignal<Option<(String, Arc<BatchRecord>)>>,
    /// The same as it is now; nothing where it is not on this device.
    record: RwSignal<Option<Arc<BatchRecord>>>,
}

/// How often it is looked whether another day has begun. A device that slept looks as soon as it is awake.
const LOOK_AT_THE_CLOCK: Duration = Duration::from_secs(20);

fn today() -> Day {
    browser::today().unwrap_or_else(|| browser::now().day())
}

impl Proof {
    fn today_now(self) -> Day {
        self.today.get_untracked()
    }

    /// Follows the day while the place is shown.
    fn follow_day(self) {
        set_timeout(
            move || {
                let (today, known) = (today(), self.today.try_get_untracked());
                // Nothing once the place has gone.
                if known.is_some_and(|known| known == today || self.today.try_set(today).is_none()) {
                    self.follow_day();
                }
            },
            LOOK_AT_THE_CLOCK,
        );
    }

    /// Reads the record of the batch of the open study, where the stores have it: by its id, else, as that is another one where
    /// both came in a file, by its code and its title.
    async fn read_record(self) {
        let Some(basis) = self.now(|study| study.basis.clone()) else { return };
        let read = async |id: &DocId| self.desk.read_record(id).await.and_then(|record| record.body().record().ok());
        let mut record = read(&DocId::from(basis.batch.clone())).await;
        if record.is_none() && !basis.code.is_empty() {
            for meta in self.desk.batch_metas().await {
                if code_in_title(&meta.title) == Some(basis.code.as_str()) {
                    record = read(&meta.id).await.filter(|record| basis.is_of(record));
                }
                if record.is_some() {
                    break;
                }
            }
        }
        self.stored.try_set(record.map(|record| (basis.batch, record)));
    }

    /// The record of the batch of the open study, tracked: the one that is worked on, else what the stores had.
    fn record_now(self) -> Option<Arc<BatchRecord>> {
        let batch = self.shown.with(|shown| match shown {
            Shown::Study(study) => Some(study.basis.batch.clone()),
            _ => None,
        })?;
        let live = self.desk.with(|open| {
            let record = open.open_record().filter(|record| record.id().as_str() == batch)?;
            record.body().record().ok()
        });
        let stored =
            || self.stored.with(|stored| stored.clone().filter(|(id, _)| *id == batch).map(|(_, record)| record));
        live.or_else(stored)
    }

    /// Reads the study that is open, if it can be read.
    fn now<T>(self, read: impl FnOnce(&Study) -> T) -> Option<T> {
        self.shown.with_untracked(|shown| match shown {
            Shown::Study(study) => Some(read(study)),
            _ => None,
        })
    }

    /// Reads all studies, and opens the one of the batch that is worked on, else the one changed last, where none is open.
    async fn look(self) {
        let batch = self.desk.now(|open| open.batch_id().cloned());
        if let BatchState::Closed(id) = self.desk.now(|open| open.batch()) {
            self.desk.open_batch(id).await;
        }
        let (found, _) = self.desk.studies().await;
        let read = |(id, body): &(DocId, hundred_parts::desk::RecordBody)| {
            let study = Study::of(&body.study().ok()?)?;
            Some((id.clone(), study))
        };
        let found: Vec<(DocId, Study)> = found.iter().filter_map(read).collect();
        if self.desk.now(|open| open.open_study().is_none()) {
            let own = found.iter().find(|(_, study)| batch.as_ref().is_some_and(|id| id.as_str() == study.basis.batch));
            if let Some((id, _)) = own.or(found.first()) {
                self.desk.open_study(id.clone()).await;
            }
        }
        let listed = |(id, study): (DocId, Study)| StudyRow {
            id,
            title: words::batch_at_hand(&study.basis.code, &study.basis.title),
            state: words::in_list(&study, today()),
        };
        self.list.try_set(Some(found.into_iter().map(listed).collect()));
        self.binned.try_set(self.desk.binned_studies().await);
        self.read_record().await;
    }

    fn look_soon(self) {
        spawn_local(self.look());
    }
}

/// The place.
pub(super) fn place(desk: Desk) -> El {
    let shown = follow(move || {
        desk.with(|open| match open.study() {
            None => Shown::None,
            Some(Err(problem)) => Shown::Unreadable(problem.to_string()),
            Some(Ok(study)) => Shown::Study(Box::new(study)),
        })
    });
    let (stored, record) = (RwSignal::new(None), RwSignal::new(None));
    let (list, binned, pull) = (RwSignal::new(None), RwSignal::new(Vec::new()), RwSignal::new(None));
    let today = RwSignal::new(today());
    let proof = Proof { desk, today, shown, list, binned, pull, shots: photographs::Shots::new(), stored, record };
    effect(Box::new(move || {
        let now = proof.record_now();
        if record.with_untracked(|before| *before != now) {
            record.set(now);
        }
    }));
    proof.follow_day();
    // Again where another formula or batch comes in while the place is shown, and on another day.
    let worked_on = follow(move || {
        let open = desk.with(|open| {
            let study = open.open_study().map(|study| study.id().clone());
            (open.id().clone(), open.batch_id().cloned(), study)
        });
        (today.get(), open)
    });
    effect(Box::new(move || {
        worked_on.track();
        desk.studies_came.track();
        proof.look_soon();
    }));
    let there =
        follow(move || (proof.shown.with(|shown| matches!(shown, Shown::Study(_))), proof.list.with(Option::is_some)));
    let inside = dynamic(
        move || there.get(),
        move |there| match there {
            (true, _) => whole(proof),
            (false, false) => el("p").class("card empty").attr("role", "status").text(words::COMING).into(),
            (false, true) => {
                View::from_iter([unreadable(proof), begin::empty(proof), others(proof), whole::binned(proof)])
            }
        },
    );
    el("div").class("proof").child(el("h2").class("hidden").text(words::TITLE)).child(inside)
}

fn unreadable(proof: Proof) -> View {
    dynamic(
        move || proof.shown.get(),
        |shown| match shown {
            Shown::Unreadable(why) => el("section")
                .class("card")
                .attr("role", "alert")
                .child(el("p").text(words::UNREADABLE))
                .child(el("p").class("small").text(why))
                .into(),
            _ => View::nothing(),
        },
    )
}

/// A study that is open: what is due, pulls and what was seen, and beside it how long the batch keeps.
fn whole(proof: Proof) -> View {
    let about = move || {
        proof.shown.with(|shown| match shown {
            Shown::Study(study) => words::about(study),
            _ => String::new(),
        })
    };
    let main = el("div")
        .class("proof-main")
        .child(el("p").class("small proof-about").text_of(about))
        .child(form::or_due(proof))
        .child(pulls::grid(proof))
        .child(further::verdicts(proof))
        .child(picture::all(proof))
        .child(photographs::card(proof))
        .child(further::events(proof))
        .child(plan::change(proof))
        .child(further::means(proof));
    let side = el("aside")
        .class("proof-side")
        .child(keeps::card(proof))
        .child(begin::another(proof))
        .child(others(proof))
        .child(whole::ways(proof));
    View::from_iter([main, side])
}

/// Shows something of the study, and again when that changes.
fn of_study<T: Clone + PartialEq + Send + Sync + 'static>(
    proof: Proof,
    read: impl Fn(&Study) -> T + 'static,
    build: impl Fn(&T) -> View + 'static,
) -> View {
    let found = follow(move || {
        proof.shown.with(|shown| match shown {
            Shown::Study(study) => Some(read(study)),
            _ => None,
        })
    });
    dynamic(move || found.get(), move |found| found.as_ref().map_or_else(View::nothing, &build))
}

/// The list of studies: the others, with what is due.
fn others(proof: Proof) -> View {
    let rows = move || {
        let open = proof.desk.with(|open| open.open_study().map(|study| study.id().clone()));
        let all = proof.list.get().unwrap_or_default();
        all.into_iter().filter(|listed| Some(&listed.id) != open.as_ref()).collect::<Vec<_>>()
    };
    dynamic(rows, move |rows| {
        if rows.is_empty() {
            return View::nothing();
        }
        let row = |listed: &StudyRow| {
            let id = listed.id.clone();
            let open = move || {
                let id = id.clone();
                spawn_local(async move {
                    if proof.desk.open_study(id).await {
                        proof.pull.try_set(None);
                        proof.look().await;
                        browser::focus_soon(PULLS_TITLE.to_owned());
                    }
                });
            };
            el("li").child(button(&listed.title).press(open).child(el("small").text(&listed.state)))
        };
        el("section")
            .class("card")
            .child(el("h3").text(words::STUDIES))
            .child(el("ul").class("list").child(rows.iter().map(row).collect::<View>()))
            .into()
    })
}
