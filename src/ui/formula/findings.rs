//! Findings as sentences, gravest first; those that are Fine are folded to a count.

use super::answer::answer;
use crate::ui::browser::{focus, go_to};
use crate::ui::desk::{Desk, FollowUp, Overlay};
use crate::ui::dom::{El, View, dynamic, each, el, follow, when};
use crate::ui::field::{button, folded, unfolding};
use hundred_parts::desk::{Action, OpenDocument};
use hundred_parts::formula::LineId;
use hundred_parts::paper::tally;
use hundred_parts::rules::{Finding, Grade, Remedy, standing};
use hundred_parts::words::{self, DecimalSign, page};
use leptos::prelude::{Get, GetUntracked, RwSignal, With};

/// A finding as shown.
#[derive(Clone, PartialEq)]
struct Shown {
    grade: Grade,
    text: String,
    footnote: String,
    verified: bool,
    /// The lines that it is about, by name.
    lines: Vec<(LineId, String)>,
    remedies: Vec<(Remedy, String)>,
    /// The name that the shelf does not know.
    off_shelf: Option<String>,
    /// What an answer names: the key of what asks for one, or has one, and what was found.
    stop: Option<(String, String)>,
}

impl Shown {
    fn of(open: &OpenDocument, finding: &Finding, sign: DecimalSign) -> Self {
        let formula = &open.state().formula;
        let name = |id: &LineId| Some((*id, words::choice_name(&formula.line(*id)?.choice, open.shelf())));
        let lines: Vec<_> = finding.lines.iter().filter_map(name).collect();
        let names: Vec<_> = lines.iter().map(|(_, name)| name.clone()).collect();
        let remedy = |remedy: &Remedy| (remedy.clone(), words::remedy(remedy, formula, open.shelf(), sign));
        let stop = standing(finding, formula).is_some();
        Self {
            grade: finding.grade,
            text: words::finding(finding, &names, sign),
            footnote: words::footnote(finding),
            verified: finding.verified(),
            lines,
            remedies: finding.detail.remedies.iter().map(remedy).collect(),
            off_shelf: finding.name_off_shelf().map(str::to_owned),
            stop: stop.then(|| (finding.key(formula), finding.value().unwrap_or_default())),
        }
    }
}

/// The findings for which `wanted` holds.
fn those(desk: Desk, wanted: fn(Grade) -> bool) -> Vec<Shown> {
    desk.found(|found| {
        desk.now(|open| {
            let found = found.iter().filter(|finding| wanted(finding.grade));
            found.map(|finding| Shown::of(open, finding, desk.sign)).collect()
        })
    })
}

/// How many there are of each grade that has any.
fn counts(desk: Desk) -> Vec<(Grade, usize)> {
    desk.found(|found| tally(found).into_iter().filter(|(_, count)| *count > 0).collect())
}

/// How many there are, in the bar that is always in sight: it goes to the list.
pub(in crate::ui) fn jump(desk: Desk) -> El {
    let open = move || {
        let mut counts = counts(desk);
        if counts.len() > 1 {
            counts.retain(|(grade, _)| *grade != Grade::Fine);
        }
        counts
    };
    let count = |(grade, count): &(Grade, usize)| {
        let said = words::graded(*count, *grade);
        el("span")
            .class("grade")
            .attr("data-grade", grade.key())
            .child(el("span").attr("aria-hidden", "true").text(&count.to_string()))
            .child(el("span").class("hidden").text(&said))
            .text(" ")
    };
    button("")
        .class("jump")
        .hidden_if(move || counts(desk).is_empty())
        .child(el("span").class("hidden").text(page::JUMP))
        .child(dynamic(open, move |counts| counts.iter().map(count).collect()))
        .press(move || {
            if desk.formula_page.narrow.get_untracked() {
                desk.ask_cover(Some(Overlay::Findings))
            } else {
                go_to("findings")
            }
        })
}

/// The card.
pub(in crate::ui) fn findings(desk: Desk) -> El {
    let list = follow(move || those(desk, |grade| grade != Grade::Fine));
    let places = move || list.with(|list| (0..list.len() as u32).collect());
    let none = move || list.with(Vec::is_empty);
    let fine = move || counts(desk).into_iter().find(|(grade, _)| *grade == Grade::Fine).map_or(0, |(_, count)| count);
    let well = el("details")
        .attr("data-grade", Grade::Fine.key())
        .hidden_if(move || fine() == 0)
        .child(el("summary").text_of(move || format!("{}{}", page::CHECKED_WELL, fine())));
    el("section")
        .id("findings")
        .class("findings")
        .attr("tabindex", "-1")
        .attr_of("aria-busy", move || Some(desk.recomputing.get().to_string()))
        .attr("aria-labelledby", "findings-title")
        .child(el("h2").id("findings-title").text(page::FINDINGS))
        .child(when(none, || el("p").class("empty").text(page::NOTHING_AMISS).into()))
        .child(el("ul").child(each(places, move |n| row(desk, list, n as usize))))
        .child(unfolding(well, move || all_fine(desk)))
        .child(crate::ui::annexes::row(desk))
        .child(el("p").class("small").text(&words::known_to()))
        .child(el("p").class("small").text(page::NOT_CHECKED))
}

fn all_fine(desk: Desk) -> El {
    let one = |shown: &Shown| el("li").attr("data-grade", shown.grade.key()).child(said(shown)).child(source(shown));
    el("ul").child(dynamic(
        move || those(desk, |grade| grade == Grade::Fine),
        move |all| all.iter().map(one).collect::<View>(),
    ))
}

/// The `n`th finding. It is made anew only when another one stands there.
fn row(desk: Desk, list: RwSignal<Vec<Shown>>, n: usize) -> El {
    let at = move || list.with(|list| list.get(n).cloned());
    let grade = move || list.with(|list| list.get(n).map(|shown| shown.grade.key().to_owned()));
    let inside = move |shown: &Option<Shown>| {
        let Some(shown) = shown else { return View::nothing() };
        let answer = shown.stop.as_ref().map(|(key, value)| answer(desk, n, key, value));
        View::from_iter([View::from(said(shown)), doing(desk, shown).into(), source(shown).into(), answer.into()])
    };
    el("li").attr_of("data-grade", grade).child(dynamic(at, inside))
}

fn said(shown: &Shown) -> El {
    let grade = el("strong").class("grade").child(el("span").class("hidden").text(page::grade(shown.grade)).text(" "));
    el("p").child(grade).text(&shown.text)
}

/// The lines that it is about, and the changes that it proposes.
fn doing(desk: Desk, shown: &Shown) -> El {
    let line = |(id, name): &(LineId, String)| {
        let id = id.number();
        button(name).class("link").press(move || {
            desk.close_overlay();
            focus(format!("share-{id}"));
        })
    };
    let remedy = |(remedy, text): &(Remedy, String)| {
        let (remedy, done) = (remedy.clone(), format!("{}{text}.", page::MENDED));
        button(text).class("mend").press(move || {
            desk.act(Action::Remedy(remedy.clone()));
            desk.say(&done, Some(FollowUp::Undo));
            // The button goes with its finding, and the focus would be lost with it.
            go_to("findings");
        })
    };
    let add = shown.off_shelf.clone().map(|name| {
        button(&words::add_to_shelf(&name)).class("mend").press(move || {
            desk.add_to_shelf(&name);
            go_to("findings");
        })
    });
    el("div")
        .class("actions")
        .child(add)
        .child(shown.remedies.iter().map(remedy).collect::<View>())
        .child(shown.lines.iter().map(line).collect::<View>())
}

fn source(shown: &Shown) -> El {
    let title = if shown.verified { page::SOURCE_FOLD } else { page::UNVERIFIED_SOURCE };
    folded(title).class("source").child(el("p").text(&shown.footnote))
}
