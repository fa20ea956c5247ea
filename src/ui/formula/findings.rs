//! Findings as sentences, gravest first.

use crate::ui::browser::focus;
use crate::ui::desk::Desk;
use crate::ui::dom::{El, View, el, slot};
use crate::ui::field::{button, folded};
use hundred_parts::formula::LineId;
use hundred_parts::rules::Grade;
use hundred_parts::words::{self, page};

/// A finding as shown.
#[derive(PartialEq)]
struct Shown {
    grade: Grade,
    text: String,
    source: String,
    /// Where to go: the first line that it is about, and its name.
    line: Option<(LineId, String)>,
}

fn all(desk: Desk) -> Vec<Shown> {
    desk.derived(|derived| {
        desk.with(|bench| {
            let formula = &bench.state().formula;
            let shown = |finding: &hundred_parts::rules::Finding| {
                let lines = finding.lines.iter().filter_map(|id| formula.line(*id));
                let names: Vec<_> = lines.map(|line| words::choice_name(&line.choice, bench.shelf())).collect();
                let unverified = if finding.verified() { "" } else { page::UNVERIFIED };
                Shown {
                    grade: finding.grade,
                    text: words::finding(finding, &names),
                    source: format!("{}{}{unverified}", page::SOURCE, finding.source()),
                    line: finding.lines.first().copied().zip(names.first().cloned()),
                }
            };
            derived.findings.iter().map(shown).collect()
        })
    })
}

/// The list.
pub(super) fn findings(desk: Desk) -> El {
    let list = slot(move || all(desk), |all| all.iter().map(one).collect::<View>());
    el("section")
        .class("card findings")
        .attr("aria-labelledby", "findings-title")
        .child(el("h2").id("findings-title").text(page::FINDINGS))
        .child(el("div").attr("role", "status").child(el("ul").child(list)))
        .child(el("p").class("small").text(page::NOT_CHECKED))
}

fn one(shown: &Shown) -> El {
    let go = shown
        .line
        .clone()
        .map(|(id, name)| button(&name).class("link").press(move || focus(format!("share-{}", id.number()))));
    el("li")
        .attr("data-grade", shown.grade.key())
        .child(el("strong").class("grade").text(page::grade(shown.grade)))
        .text(" ")
        .text(&shown.text)
        .child(go)
        .child(folded(page::SOURCE).text(&shown.source))
}
