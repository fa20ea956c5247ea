//! Findings as sentences, gravest first; the fine ones folded.

use super::choice_name;
use crate::ui::desk::use_desk;
use crate::ui::field::focus;
use hundred_parts::rules::{Finding, Grade};
use hundred_parts::words::{self, page};
use leptos::prelude::*;

/// The list.
#[component]
pub(super) fn Findings() -> impl IntoView {
    let desk = use_desk();
    let findings = move |fine: bool| {
        desk.derived(|derived| {
            derived
                .findings
                .iter()
                .filter(|finding| (finding.grade == Grade::Fine) == fine)
                .cloned()
                .collect::<Vec<_>>()
        })
    };
    view! {
        <section class="card findings" aria-labelledby="findings-title">
            <h2 id="findings-title">{page::FINDINGS}</h2>
            <div role="status"><ul>
                {move || findings(false).into_iter().map(|finding| view! { <One finding /> }).collect_view()}
                {move || findings(true).into_iter().map(|finding| view! { <One finding /> }).collect_view()}
            </ul></div>
            <p class="small">{page::NOT_CHECKED}</p>
        </section>
    }
}

#[component]
fn One(finding: Finding) -> impl IntoView {
    let desk = use_desk();
    let names = desk.with(|bench| {
        let formula = &bench.state().formula;
        finding
            .lines
            .iter()
            .filter_map(|id| formula.line(*id))
            .map(|line| choice_name(&line.choice, bench.shelf()))
            .collect::<Vec<_>>()
    });
    let line = finding.lines.first().copied();
    let source =
        format!("{}{}{}", page::SOURCE, finding.source(), if finding.verified() { "" } else { page::UNVERIFIED });
    view! {
        <li data-grade=finding.grade.key()>
            <strong class="grade">{page::grade(finding.grade)}</strong>
            " "
            {words::finding(&finding, &names)}
            {line.map(|id| view! { <button type="button" class="link" on:click=move |_| focus(format!("share-{}", id.number()))>{names.first().cloned().unwrap_or_default()}</button> })}
            <details><summary>{page::SOURCE}</summary>{source}</details>
        </li>
    }
}
