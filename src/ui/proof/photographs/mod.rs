//! Photographs of samples: taken in the form of a pull, shown side by side, and one over the page.

mod form;
mod opened;
mod small;

pub(super) use form::{discard, in_form, waits};
pub(in crate::ui) use opened::{over, title};
pub(super) use small::card;

pub(super) use hundred_parts::words::photographs::WAITS;

use crate::ui::browser;
use crate::ui::desk::{Desk, Stored};
use crate::ui::dom::{View, dynamic, el};
use hundred_parts::batch::study::{PhotographId, StudyPhotograph};
use hundred_parts::words::photographs as words;
use leptos::prelude::*;
use std::collections::BTreeMap;
use wasm_bindgen_futures::spawn_local;

/// What was read of a photograph.
#[derive(Clone, PartialEq)]
enum Shot {
    /// The address under which it can be shown.
    Whole(String),
    /// Its bytes are others.
    Damaged,
    /// It is not here.
    Missing,
}

/// What was read of photographs, each once, for as long as the view is there.
#[derive(Clone, Copy)]
pub(super) struct Shots {
    found: RwSignal<BTreeMap<PhotographId, Shot>>,
    /// What is to be read, the next one last; `None` while nothing reads.
    waiting: StoredValue<Option<Vec<PhotographId>>>,
}

impl Shots {
    /// None yet. Their addresses are taken back with the view.
    pub(super) fn new() -> Self {
        let shots = Self { found: RwSignal::new(BTreeMap::new()), waiting: StoredValue::new(None) };
        on_cleanup(move || {
            for shot in shots.found.try_get_untracked().unwrap_or_default().values() {
                if let Shot::Whole(address) = shot {
                    browser::hide_photograph(address);
                }
            }
        });
        shots
    }

    /// Reads what was not read yet, and again what was not here, one after the other.
    fn ask(self, desk: Desk, ids: impl DoubleEndedIterator<Item = PhotographId>) {
        let known = |id: &PhotographId| {
            self.found.with_untracked(|found| matches!(found.get(id), Some(Shot::Whole(_) | Shot::Damaged)))
        };
        let new: Vec<PhotographId> = ids.rev().filter(|id| !known(id)).collect();
        let reads = self.waiting.with_value(Option::is_some);
        self.waiting.update_value(|waiting| waiting.get_or_insert_default().extend(new));
        if !reads {
            spawn_local(self.read_all(desk));
        }
    }

    async fn read_all(self, desk: Desk) {
        while let Some(Some(id)) = self.waiting.try_update_value(|waiting| {
            let next = waiting.as_mut().and_then(Vec::pop);
            if next.is_none() {
                *waiting = None;
            }
            next
        }) {
            let shot = match desk.stored_photograph(id).await {
                Stored::Whole(bytes) => browser::show_photograph(&bytes).map_or(Shot::Missing, Shot::Whole),
                Stored::Damaged => Shot::Damaged,
                Stored::Missing => Shot::Missing,
            };
            let address = if let Shot::Whole(address) = &shot { Some(address.clone()) } else { None };
            let shown = self.found.try_update(|found| found.insert(id, shot));
            if let (None, Some(address)) = (shown, address) {
                // The view has gone meanwhile.
                browser::hide_photograph(&address);
            }
        }
    }

    /// The image, or what is to be said in its place.
    fn image(self, of: &StudyPhotograph) -> View {
        let (id, alternative) = (of.photograph.id, words::alternative(of));
        let (width, height) = (of.photograph.width.to_string(), of.photograph.height.to_string());
        dynamic(
            move || self.found.with(|found| found.get(&id).cloned()),
            move |shot| {
                let said = |text| el("span").class("no-shot").text(text).into();
                match shot {
                    None => said(words::COMING),
                    Some(Shot::Missing) => said(words::NOT_HERE),
                    Some(Shot::Damaged) => said(words::DAMAGED),
                    Some(Shot::Whole(address)) => el("img")
                        .attr("src", address)
                        .attr("alt", &alternative)
                        .attr("width", &width)
                        .attr("height", &height)
                        .attr("decoding", "async")
                        .into(),
                }
            },
        )
    }
}
