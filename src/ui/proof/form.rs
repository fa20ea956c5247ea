//! At the head of the place: the form of the pull that is being recorded, else what is due or comes next.

use super::typing::{Typing, forget};
use super::{PULL_TITLE, PULLS_TITLE, Proof, of_study, photographs, pulls};
use crate::ui::browser;
use crate::ui::dom::{El, LOCAL, View, dynamic, el};
use crate::ui::field::button;
use hundred_parts::batch::study::{
    Observation, Pull, SCORES, Separation, Study, StudyCriterion, StudyEvent, StudyPull, Viscosity,
};
use hundred_parts::quantity::{Mass, Ph, Quantity};
use hundred_parts::words::proof as words;
use leptos::prelude::*;

/// The form, or what is due.
pub(super) fn or_due(proof: Proof) -> View {
    dynamic(
        move || proof.pull.get(),
        move |pull| match pull {
            Some(pull) => form(proof, *pull).into(),
            None => due(proof),
        },
    )
}

fn due(proof: Proof) -> View {
    let found = move |study: &Study| {
        let today = proof.today.get();
        (today, study.due(today), study.next(today))
    };
    of_study(proof, found, move |(today, due, next)| {
        let (class, head, what, first) = match (due.first(), words::next_head(next)) {
            (Some(first), _) => ("today due", words::due_head(due, *today), said(due), Some(*first)),
            (None, Some((head, what))) => ("today", head, what, next.first().copied()),
            (None, None) => ("today", words::ALL_SEEN.to_owned(), String::new(), None),
        };
        let open = first.map(|first| button(words::OPEN).class("go").press(move || pulls::open(proof, first)));
        el("section")
            .class(class)
            .child(el("p").attr("role", "status").child(el("strong").text(&head)).child(el("small").text(&what)))
            .child(open)
            .into()
    })
}

/// What is due, in short.
fn said(due: &[Pull]) -> String {
    let names: Vec<String> = due.iter().take(6).map(words::pull_title).collect();
    names.join(" \u{b7} ")
}

/// The fields of a form.
#[derive(Clone, Copy)]
struct Fields {
    on: Typing,
    scores: [Typing; 3],
    ph: Typing,
    viscosity: Typing,
    weight: Typing,
    separation: Typing,
    note: Typing,
    why: Typing,
}

const SCORED: [(&str, StudyCriterion); 3] =
    [("appearance", StudyCriterion::Appearance), ("colour", StudyCriterion::Colour), ("odour", StudyCriterion::Odour)];

impl Fields {
    fn new(proof: Proof, name: &str, before: Option<&StudyPull>) -> Self {
        let seen = before.map(|before| before.seen.clone()).unwrap_or_default();
        let field = |field: &str, first: String| Typing::new(proof, name, field, &first);
        let place = |place: Option<usize>| place.map_or_else(String::new, |place| (place + 1).to_string());
        let score = |score: Option<u8>| place(score.map(usize::from));
        let of = |kind: Separation| Separation::ALL.iter().position(|known| *known == kind);
        Self {
            on: field("on", before.map_or_else(|| proof.today_now(), |before| before.on).text()),
            scores: [
                field("appearance", score(seen.appearance)),
                field("colour", score(seen.colour)),
                field("odour", score(seen.odour)),
            ],
            ph: field("ph", canonical(seen.ph)),
            viscosity: field("viscosity", canonical(seen.viscosity)),
            weight: field("weight", canonical(seen.weight)),
            separation: field("separation", place(seen.separation.and_then(of))),
            note: field("note", seen.note),
            why: field("why", String::new()),
        }
    }

    /// What was seen, or what is wrong with it.
    fn seen(self) -> Result<Observation, &'static str> {
        let unread = |()| words::NOT_READ;
        let [appearance, colour, odour] = self.scores.map(|score| score.picked().and_then(|n| u8::try_from(n).ok()));
        let seen = Observation {
            appearance,
            colour,
            odour,
            ph: self.ph.quantity::<Ph>().map_err(unread)?,
            viscosity: self.viscosity.quantity::<Viscosity>().map_err(unread)?,
            weight: self.weight.quantity::<Mass>().map_err(unread)?,
            separation: self.separation.picked().and_then(|place| Separation::ALL.get(place).copied()),
            note: self.note.now(),
        };
        if seen.is_empty() { Err(words::NOTHING_SEEN) } else { Ok(seen) }
    }
}

fn canonical<Q: Quantity>(value: Option<Q>) -> String {
    value.map_or_else(String::new, Quantity::canonical)
}

fn form(proof: Proof, pull: Pull) -> El {
    let name = format!("{}-{}", pull.condition.key(), pull.point.text());
    let before = proof.now(|study| study.seen_of(&pull).cloned()).flatten();
    let fields = Fields::new(proof, &name, before.as_ref());
    let told = proof.now(|study| {
        let seen = before.as_ref()?;
        Some(words::seen(seen, study.weight_loss(seen), proof.desk.sign).join(" \u{b7} "))
    });
    let method = proof.now(|study| study.plan.limits.viscosity_method.clone()).unwrap_or_default();
    let leave = move || {
        proof.pull.set(None);
        browser::focus_soon(PULLS_TITLE.to_owned());
    };
    let (form_name, again) = (name.clone(), before.clone());
    let camera = photographs::in_form(proof, pull, &name, fields.on);
    let record = move || {
        if photographs::waits(proof, &form_name) {
            return proof.desk.say(photographs::WAITS, None);
        }
        match recorded(proof, pull, fields, again.as_ref()) {
            Err(missing) => proof.desk.say(missing, None),
            Ok(false) => {}
            Ok(true) => {
                forget(proof, &form_name);
                proof.desk.say(words::RECORDED, None);
                leave();
            }
        }
    };
    let cancel = move || {
        forget(proof, &name);
        photographs::discard(proof);
        leave();
    };
    let label = if before.is_some() { words::RECORD_AGAIN } else { words::RECORD };
    el("section")
        .flag(LOCAL)
        .class("card pull-form")
        .attr("aria-labelledby", PULL_TITLE)
        .child(el("h3").id(PULL_TITLE).attr("tabindex", "-1").text(&words::pull_title(&pull)))
        .child(el("p").class("small").text(&words::due_on(&pull)))
        .child(told.flatten().map(|told| el("p").text(&told)))
        .child(shown(fields, &method))
        .child(camera)
        .child(before.map(|_| fields.why.words("pull-why", words::WHY)))
        .child(
            el("div")
                .class("actions")
                .child(button(label).class("primary").press(record))
                .child(button(words::CANCEL).press(cancel)),
        )
}

fn shown(fields: Fields, method: &str) -> El {
    let scores = || (0..=SCORES).map(|score| score.to_string()).collect::<Vec<_>>();
    let score = |(typing, (id, criterion)): (Typing, (&str, StudyCriterion))| {
        typing.pick(&format!("pull-{id}"), words::criterion(criterion), words::NOT_LOOKED, scores())
    };
    let thick = words::criterion(StudyCriterion::Viscosity);
    let thick = if method.trim().is_empty() { thick.to_owned() } else { format!("{thick}, {}", method.trim()) };
    let separations = Separation::ALL.iter().map(|kind| words::separation(*kind).to_owned()).collect();
    el("div")
        .class("fields")
        .child(fields.on.hinted("pull-on", words::ON_DAY, words::DAY_HINT))
        .child(fields.scores.into_iter().zip(SCORED).map(score).collect::<View>())
        .child(el("p").class("small wide").text(words::SCORE_HINT))
        .child(fields.ph.number::<Ph>("pull-ph", words::criterion(StudyCriterion::Ph), ""))
        .child(fields.viscosity.number::<Viscosity>("pull-viscosity", &thick, ""))
        .child(fields.weight.number::<Mass>("pull-weight", words::WEIGHT, "g"))
        .child(fields.separation.pick(
            "pull-separation",
            words::criterion(StudyCriterion::Separation),
            words::NOT_LOOKED,
            separations,
        ))
        .child(fields.note.words("pull-note", words::NOTE))
}

/// Records what was seen; where there is an entry already, that is crossed out first. False where it could not be noted.
fn recorded(proof: Proof, pull: Pull, fields: Fields, before: Option<&StudyPull>) -> Result<bool, &'static str> {
    let seen = fields.seen()?;
    let on = fields.on.day().ok().flatten().ok_or(words::NOT_READ)?;
    if let Some(before) = before {
        let reason = fields.why.now();
        if reason.is_empty() {
            return Err(words::WHY);
        }
        if !proof.desk.note_study(StudyEvent::Struck { entry: before.entry.clone(), reason }) {
            return Ok(false);
        }
    }
    Ok(proof.desk.note_study(StudyEvent::Observed { condition: pull.condition, point: pull.point, on, seen }))
}
