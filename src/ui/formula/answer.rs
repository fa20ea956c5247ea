//! A Stop is answered in writing, by somebody with a name.

use crate::ui::browser;
use crate::ui::desk::{Desk, FollowUp};
use crate::ui::dom::{El, el, follow, typed, when};
use crate::ui::field::{area_field, button, folded, text_field};
use hundred_parts::desk::Action;
use hundred_parts::formula::Answer;
use hundred_parts::rules::{Standing, standing};
use hundred_parts::words::{self, page};
use leptos::prelude::{With, WithUntracked};

/// Where a Stop stands with the maker.
#[derive(Clone, Default, PartialEq)]
struct Stand {
    key: &'static str,
    said: String,
    answer: Option<Answer>,
}

fn stand(desk: Desk, finding: &str, value: &str) -> Stand {
    desk.found(|found| {
        desk.with(|open| {
            let formula = &open.state().formula;
            let found = found.iter().find(|found| standing(found, formula).is_some() && found.key(formula) == finding);
            let Some(standing) = found.and_then(|found| standing(found, formula)) else { return Stand::default() };
            let said = words::standing(&standing, value);
            let (key, answer) = match standing {
                Standing::Open => ("open", None),
                Standing::Answered(answer) => ("answered", Some(answer)),
                Standing::Unfinished(answer) => ("unfinished", Some(answer)),
                Standing::Lapsed(answer) => ("lapsed", Some(answer)),
            };
            Stand { key, said, answer: answer.cloned() }
        })
    })
}

/// The form of the `n`th finding, and how things are.
pub(super) fn answer(desk: Desk, n: usize, finding: &str, value: &str) -> El {
    let (finding, value) = (finding.to_owned(), value.to_owned());
    let wanted = (finding.clone(), value.clone());
    let now = follow(move || stand(desk, &wanted.0, &wanted.1));
    let write = move |change: &dyn Fn(&mut Answer)| {
        let known = now.with_untracked(|now| now.answer.clone()).unwrap_or_default();
        let mut answer = known.renewed(&finding, &value, browser::today());
        change(&mut answer);
        desk.act(Action::Answer(answer));
    };
    let (write_reason, write_person, confirm, back) = (write.clone(), write.clone(), write.clone(), write);
    let of =
        move |read: fn(&Answer) -> String| move || now.with(|now| now.answer.as_ref().map(read).unwrap_or_default());
    let reason = area_field(desk, &format!("reason-{n}"), page::REASON, of(|answer| answer.reason.clone()))
        .on("input", move |event| write_reason(&|answer| answer.reason = typed(&event)));
    let person =
        text_field(desk, &format!("person-{n}"), page::PERSON, of(|answer| answer.person.clone()), move |text| {
            write_person(&|answer| answer.person.clone_from(&text))
        });
    let lapsed = when(
        move || now.with(|now| now.key == "lapsed"),
        move || {
            let confirm = confirm.clone();
            let press = move || {
                // Not a part of the typing before.
                desk.end_undo_group();
                confirm(&|_| {});
            };
            button(page::STILL_HOLDS).press(press).into()
        },
    );
    let take_back = when(
        move || now.with(|now| now.answer.is_some()),
        move || {
            let back = back.clone();
            let press = move || {
                desk.end_undo_group();
                back(&|answer| (answer.reason, answer.person) = Default::default());
                desk.say(page::TAKEN_BACK, Some(FollowUp::Undo));
            };
            button(page::TAKE_BACK).press(press).into()
        },
    );
    el("div")
        .class("written")
        .attr_of("data-standing", move || Some(now.with(|now| now.key.to_owned())))
        .child(el("p").class("standing").attr("role", "status").text_of(move || now.with(|now| now.said.clone())))
        .child(
            folded(page::TAKE_ON)
                .child(el("p").class("small").text(page::TAKE_ON_TEXT))
                .child(reason)
                .child(person)
                .child(el("div").class("actions").child(lapsed).child(take_back)),
        )
}
