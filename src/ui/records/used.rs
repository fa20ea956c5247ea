//! What all batches have used up: their records are read a few at a time once somebody asks, and kept nowhere.

use super::list::folded;
use crate::ui::browser;
use crate::ui::desk::Desk;
use crate::ui::dom::{View, el, follow, when};
use hundred_parts::batch::UsedBatch;
use hundred_parts::words::stock as words;
use leptos::prelude::*;
use std::sync::Arc;
use std::time::Duration;
use wasm_bindgen_futures::spawn_local;

/// How many records are read between two frames.
const AT_ONCE: usize = 8;

/// What is folded of every record, shared between views.
type Batches = Arc<Vec<UsedBatch>>;

/// The batches of all formulas; nothing while they are read.
#[derive(Clone, Copy)]
pub(in crate::ui) struct Used {
    stored: RwSignal<Option<Batches>>,
    shown: RwSignal<Option<Batches>>,
}

impl Used {
    /// Begins to read them.
    pub(in crate::ui) fn read(desk: Desk) -> Self {
        let used = Self::later(desk);
        spawn_local(read(desk, used.stored));
        used
    }

    /// Has them put in by somebody who reads the records anyway.
    pub(super) fn later(desk: Desk) -> Self {
        let stored = RwSignal::new(None);
        // The record that is worked on may have been added to since it was stored, or over the page meanwhile.
        let shown = follow(move || {
            desk.overlay.get();
            desk.follow_batch();
            Some(with_live(desk, stored.get()?))
        });
        Self { stored, shown }
    }

    /// What somebody else has read. Nothing once the view is gone.
    pub(super) fn put(self, batches: Vec<UsedBatch>) {
        self.stored.try_set(Some(Arc::new(batches)));
    }

    /// What was read, tracked.
    pub(in crate::ui) fn get(self) -> Option<Batches> {
        self.shown.get()
    }

    /// That it is still being read.
    pub(in crate::ui) fn reading(self) -> View {
        when(
            move || self.shown.with(Option::is_none),
            || el("p").class("small").attr("role", "status").text(words::READING).into(),
        )
    }
}

fn with_live(desk: Desk, stored: Batches) -> Batches {
    let live = desk.now(|open| open.open_record().and_then(folded));
    let Some(live) = live else { return stored };
    let mut all = Vec::clone(&stored);
    match all.iter_mut().find(|batch| batch.key == live.key) {
        Some(batch) => *batch = live,
        None => all.insert(0, live),
    }
    Arc::new(all)
}

async fn read(desk: Desk, stored: RwSignal<Option<Batches>>) {
    let mut batches = Vec::new();
    for (n, meta) in desk.batch_metas().await.into_iter().enumerate() {
        batches.extend(desk.read_record(&meta.id).await.as_ref().and_then(folded));
        if n % AT_ONCE == AT_ONCE - 1 {
            if stored.is_disposed() {
                return;
            }
            browser::pause(Duration::ZERO).await;
        }
    }
    stored.try_set(Some(Arc::new(batches)));
}
