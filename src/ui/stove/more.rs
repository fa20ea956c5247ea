//! What is rarely done at the stove, behind the three points: each opens a form in the place of the task.

use super::draft::Draft;
use super::{Stove, headline, scale};
use crate::ui::browser;
use crate::ui::dom::{El, View, el};
use crate::ui::field::{button, menu};
use hundred_parts::batch::{Event, NoRescale, evaporated, scale_to};
use hundred_parts::quantity::Mass;
use hundred_parts::words::{scale as scale_words, stove as words};
use leptos::prelude::*;

/// A form.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Panel {
    /// Something worth writing down.
    Remark,
    /// Something that did not go as it should.
    Deviation,
    /// Water that boiled off, weighed and put back.
    Water,
    /// Another size.
    Size,
    /// A part for something else.
    Split,
    /// The batch is given up.
    GiveUp,
}

const PANELS: [(Panel, &str); 6] = [
    (Panel::Remark, words::REMARK),
    (Panel::Deviation, words::DEVIATION),
    (Panel::Water, words::WATER_BACK),
    (Panel::Size, words::SMALLER),
    (Panel::Split, words::SPLIT),
    (Panel::GiveUp, words::GIVE_UP),
];

/// The menu.
pub(super) fn menu_of(stove: Stove, left_hand: RwSignal<bool>) -> El {
    menu(
        || words::MORE.to_owned(),
        move || {
            let panel = |(panel, text): (Panel, &str)| {
                button(text).press(move || {
                    stove.panel.set(Some(panel));
                    browser::focus_soon(super::TASK.to_owned());
                })
            };
            let choice = |text: &str, key: &'static str, state: RwSignal<bool>| {
                button(text).attr_of("aria-pressed", move || Some(state.get().to_string())).press(move || {
                    state.update(|state| *state = !*state);
                    match state.get_untracked() {
                        true => browser::set_preference(key, "1"),
                        false => browser::forget_preference(key),
                    }
                })
            };
            let connect =
                browser::has_bluetooth().then(|| button(scale_words::CONNECT).press(move || scale::connect(stove)));
            let speak = RwSignal::new(browser::preference("speak").is_some());
            el("div")
                .child(PANELS.into_iter().map(panel).collect::<View>())
                .child(connect)
                .child(choice(words::SPEAK, "speak", speak))
                .child(choice(words::LEFT_HAND, "left-hand", left_hand))
        },
    )
}

/// A form with its way back.
pub(super) fn panel(stove: Stove, panel: Panel) -> View {
    let form = match panel {
        Panel::Remark => remark(stove),
        Panel::Deviation => deviation(stove),
        Panel::Water => water(stove),
        Panel::Size => size(stove),
        Panel::Split => split(stove),
        Panel::GiveUp => give_up(stove),
    };
    let title = PANELS.into_iter().find(|(known, _)| *known == panel).map(|(_, text)| text).unwrap_or_default();
    let back = button(words::BACK).class("back").press(move || close(stove));
    View::from_iter([
        el("div").class("stove-task").child(headline(title)).child(form.inside),
        el("footer").class("stove-go").child(back).child(form.action),
    ])
}

fn close(stove: Stove) {
    stove.panel.set(None);
    browser::focus_soon(super::TASK.to_owned());
}

/// Fields, and the button that records what they say.
struct PanelForm {
    inside: El,
    action: El,
}

fn form(
    stove: Stove,
    inside: El,
    ready: impl Fn() -> bool + 'static,
    event: impl Fn() -> Option<Event> + 'static,
    clear: Vec<Draft>,
) -> PanelForm {
    let record = move || {
        if let Some(event) = event()
            && stove.note(event)
        {
            clear.iter().for_each(|draft| draft.clear());
            close(stove);
        }
    };
    let action = button(words::NOTE_IT).class("primary").disabled_if(move || !ready()).press(record);
    PanelForm { inside: inside.class("fields"), action }
}

fn said(draft: Draft) -> bool {
    !draft.get().trim().is_empty()
}

fn remark(stove: Stove) -> PanelForm {
    let text = Draft::new(stove, "remark");
    let inside = el("div").child(text.words("stove-remark", words::REMARK, || ()));
    form(stove, inside, move || said(text), move || Some(Event::Remark { text: text.now() }), vec![text])
}

fn deviation(stove: Stove) -> PanelForm {
    let (what, decision) = (Draft::new(stove, "deviation"), Draft::new(stove, "decision"));
    let inside = el("div").child(what.words("stove-what", words::WHAT_HAPPENED, || ())).child(decision.words(
        "stove-decision",
        words::WHAT_DECIDED,
        || (),
    ));
    let event = move || Some(Event::Deviation { what: what.now(), decision: decision.now() });
    form(stove, inside, move || said(what) && said(decision), event, vec![what, decision])
}

/// The pot before and after; what is missing is water that boiled off.
fn water(stove: Stove) -> PanelForm {
    let (before, after) = (Draft::new(stove, "pot-before"), Draft::new(stove, "pot-after"));
    let missing = move || evaporated(before.value::<Mass>()?, after.value::<Mass>()?);
    let text = move || missing().map(|mass| words::put_back(mass, stove.desk.sign)).unwrap_or_default();
    let inside = el("div")
        .child(before.number::<Mass>("stove-before", words::POT_BEFORE, "g", || ()))
        .child(after.number::<Mass>("stove-after", words::POT_AFTER, "g", || ()))
        .child(el("p").class("large").attr("role", "status").text_of(text));
    let event = move || {
        let mass = untrack(missing)?;
        let (before, after) = (before.value_now::<Mass>()?, after.value_now::<Mass>()?);
        let weighed = stove.note(Event::PotWeighed { mass: before, after: false })
            && stove.note(Event::PotWeighed { mass: after, after: true });
        weighed.then(|| Event::Added { what: words::WATER.to_owned(), mass })
    };
    form(stove, inside, move || missing().is_some(), event, vec![before, after])
}

/// Another size, as far as what is in allows it.
fn size(stove: Stove) -> PanelForm {
    let (mass, why) = (Draft::new(stove, "size"), Draft::new(stove, "size-why"));
    let found = move || {
        let wanted = mass.value::<Mass>()?;
        stove.with(|made| scale_to(made.at.making.batch, made.at.scale().step, &made.at.lines(), wanted))
    };
    let text = move || match found() {
        None => String::new(),
        Some(Ok(scaled)) => {
            let name =
                |line: usize| stove.with(|made| made.at.from.lines.get(line).map(|line| line.name.clone())).flatten();
            let more: Vec<(String, Mass)> =
                scaled.more.iter().filter_map(|(line, mass)| Some((name(*line)?, *mass))).collect();
            words::rescale_why(&more, scaled.rest.len(), stove.desk.sign)
        }
        Some(Err(NoRescale::OutOfRange)) => words::SIZE_UNREADABLE.to_owned(),
        Some(Err(NoRescale::TooMuchIn { line, least })) => {
            let name = stove.with(|made| made.at.from.lines.get(line).map(|line| line.name.clone())).flatten();
            words::too_much_in(&name.unwrap_or_default(), least, stove.desk.sign)
        }
    };
    let now = stove.of(|made| words::grams(made.at.making.batch, stove.desk.sign)).unwrap_or_default();
    let inside = el("div")
        .child(el("p").text(&words::weighs_now(&now)))
        .child(mass.number::<Mass>("stove-size", words::NEW_SIZE, "g", || ()))
        .child(why.words("stove-size-why", words::WHY, || ()))
        .child(el("p").attr("role", "status").text_of(text));
    let event = move || {
        let scaled = untrack(found)?.ok()?;
        Some(Event::Rescaled { batch: scaled.batch, reason: why.now() })
    };
    form(stove, inside, move || matches!(found(), Some(Ok(_))), event, vec![mass, why])
}

fn split(stove: Stove) -> PanelForm {
    let (mass, what) = (Draft::new(stove, "split"), Draft::new(stove, "split-what"));
    let own = stove.of(|made| made.at.making.code.clone()).unwrap_or_default();
    let code = Draft::beginning(stove, "split-code", &format!("{own}-B"));
    let inside = el("div")
        .child(mass.number::<Mass>("stove-split", words::SPLIT_MASS, "g", || ()))
        .child(code.words("stove-split-code", words::SPLIT_CODE, || ()))
        .child(what.words("stove-split-what", words::SPLIT_WHAT, || ()));
    let event = move || {
        let mass = mass.value_now::<Mass>().filter(|mass| *mass > Mass::ZERO)?;
        Some(Event::SplitOff { mass, code: code.now().trim().to_owned(), what: what.now() })
    };
    let ready = move || mass.value::<Mass>().is_some_and(|mass| mass > Mass::ZERO) && said(code) && said(what);
    form(stove, inside, ready, event, vec![mass, what])
}

fn give_up(stove: Stove) -> PanelForm {
    let why = Draft::new(stove, "give-up");
    let inside =
        el("div").child(why.words("stove-give-up", words::WHY, || ())).child(el("p").text(words::START_AGAIN_WHY));
    let event = move || Some(Event::Abandoned { reason: why.now() });
    form(stove, inside, move || said(why), event, vec![why])
}
