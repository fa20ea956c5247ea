//! A scale that sends what it shows: it is connected from the menu, and what it sends can be taken for the line that is weighed.

use super::Stove;
use super::draft::Draft;
use crate::ui::browser::{self, ScaleNews};
use crate::ui::dom::{El, View, dynamic, el};
use crate::ui::field::button;
use hundred_parts::batch::{MassSource, NoReading, ScaleReading};
use hundred_parts::quantity::{Mass, Quantity};
use hundred_parts::words::scale as words;
use leptos::prelude::*;

/// How a scale stands to the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum ScaleState {
    /// None was asked for.
    Without,
    /// It is connected and has sent nothing yet.
    Silent,
    /// What it sent last.
    Shows(Result<ScaleReading, NoReading>),
    /// None was chosen, or it did not answer.
    Refused,
    /// It is not connected any more.
    Gone,
}

/// Lets the maker choose a scale.
pub(super) fn connect(stove: Stove) {
    browser::connect_scale(move |news| {
        let state = match news {
            ScaleNews::Connected => ScaleState::Silent,
            ScaleNews::Sent(bytes) => ScaleState::Shows(ScaleReading::read(&bytes)),
            ScaleNews::Refused => ScaleState::Refused,
            ScaleNews::Gone => ScaleState::Gone,
        };
        // Nothing once the stove was left. What came before all was ready is not forgotten either.
        stove.scale.try_update(|now| {
            if state != ScaleState::Silent || !matches!(now, ScaleState::Shows(_)) {
                *now = state;
            }
        });
    });
}

/// How a mass was found that stands in the field: sent by the scale, if it is what was taken from it.
pub(super) fn source(taken: RwSignal<Option<Mass>>, actual: Mass) -> MassSource {
    if taken.get_untracked() == Some(actual) { MassSource::Scale } else { MassSource::Typed }
}

/// What the scale shows, and a button that takes it.
pub(super) fn shown(
    stove: Stove,
    at: usize,
    allowed: impl Fn() -> Option<Mass> + Copy + 'static,
    actual: Draft,
    taken: RwSignal<Option<Mass>>,
) -> View {
    let task = stove.of(|made| made.at.making.tasks.get(at).copied()).flatten();
    dynamic(
        move || (stove.scale.get(), allowed()),
        move |(state, allowed)| {
            let note = |text: &str| View::from(el("p").class("small scale-says").attr("role", "status").text(text));
            match *state {
                ScaleState::Without => View::nothing(),
                ScaleState::Silent => note(words::SILENT),
                ScaleState::Refused => note(words::REFUSED),
                ScaleState::Gone => note(words::GONE),
                ScaleState::Shows(Err(NoReading::Failed)) => note(words::FAILED),
                ScaleState::Shows(Err(NoReading::Unreadable)) => note(words::UNREADABLE),
                ScaleState::Shows(Ok(reading)) => {
                    let fine = allowed.is_some_and(|allowed| reading.is_fine_enough(allowed));
                    let of_line = task.zip(stove.of(|made| made.at.clone()));
                    let mass = of_line.map_or(reading.mass, |(task, at)| at.of_reading(task, reading.mass));
                    let text = words::shows(reading, mass, stove.desk.sign);
                    if fine {
                        take(&text, mass, actual, taken).into()
                    } else {
                        note(&format!("{text} {}", words::too_coarse(reading.step, stove.desk.sign)))
                    }
                }
            }
        },
    )
}

fn take(text: &str, mass: Mass, actual: Draft, taken: RwSignal<Option<Mass>>) -> El {
    let press = move || {
        taken.set(Some(mass));
        actual.set(mass.canonical());
        browser::focus("stove-weighed".to_owned());
    };
    el("p")
        .class("scale-says")
        .attr("role", "status")
        .child(el("span").text(text))
        .text(" ")
        .child(button(words::TAKE_READING).press(press))
}
