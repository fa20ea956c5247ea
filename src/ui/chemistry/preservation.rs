//! What each preservative can do at the target pH.

use super::{benches, names, read};
use crate::ui::desk::{Desk, Overlay};
use crate::ui::dom::{El, View, dynamic, el, when};
use hundred_parts::rules::{Grade, Topic, gravest, of_preservative};
use hundred_parts::sheet::Gauge;
use hundred_parts::words::{bench, chemistry, pictures};

/// One preservative as shown.
#[derive(PartialEq)]
struct Shown {
    name: String,
    grade: Grade,
    works: &'static str,
    amount: String,
    /// Shares at the lower end of the band, at the target and at the upper end.
    rows: Vec<[String; 3]>,
    /// How much of it there is, and the pH.
    scales: [Gauge; 2],
    said: String,
    /// What is free of it in the water.
    in_water: Option<String>,
}

/// The bench.
pub(super) fn bench(desk: Desk) -> El {
    let result = move || {
        read(desk, |open, derived| {
            let target = open.state().formula.about.target_ph.value();
            let text = bench::preservation_summary(derived.sheet.preservation.as_ref(), target, desk.sign);
            (gravest(&derived.findings, Topic::Preservation), text)
        })
    };
    let named = ("preservation-card", bench::PRESERVATIVES);
    benches::bench(desk, Overlay::Preservatives, named, benches::preservatives(desk), result)
}

/// What it opens.
pub(in crate::ui) fn inside(desk: Desk) -> View {
    View::from_iter([
        dynamic(move || agents(desk), move |agents| agents.iter().map(|shown| agent(desk, shown)).collect()),
        when(move || !agents(desk).is_empty(), legend),
        dynamic(move || said(desk), |said| said.iter().map(|said| el("p").text(said)).collect()),
        el("p").class("small").text(chemistry::NO_PROOF).into(),
    ])
}

fn agents(desk: Desk) -> Vec<Shown> {
    read(desk, |open, derived| {
        let shown = |found: &hundred_parts::sheet::Agent| {
            let rows = found.shares.iter().flat_map(|[at, low, high]| [low, at, high]);
            Shown {
                grade: of_preservative(found.works),
                works: bench::works(found.works),
                amount: bench::agent_amount(found, &names(open), desk.sign),
                rows: rows.map(|at| bench::share_row(at, desk.sign)).collect(),
                scales: [Gauge::dose(found), Gauge::acidity(found, open.state().formula.about.target_ph.value())],
                said: chemistry::verdict(found).join(" "),
                in_water: found
                    .in_water
                    .as_ref()
                    .map(|free| chemistry::in_water(free, found.shares.is_some(), desk.sign)),
                name: bench::substance(found.substance.id, open.shelf()),
            }
        };
        derived.sheet.preservation.iter().flat_map(|found| &found.agents).map(shown).collect()
    })
}

fn said(desk: Desk) -> Vec<String> {
    read(desk, |open, derived| {
        let Some(found) = &derived.sheet.preservation else { return vec![bench::NO_PRESERVATIVE.to_owned()] };
        let free = found.agents.iter().any(|agent| agent.in_water.is_some());
        let free = free.then(|| chemistry::NOT_SUBTRACTED.to_owned());
        [bench::coverage(found), bench::unknown_blends(found, &names(open)), free].into_iter().flatten().collect()
    })
}

/// What the signs of the scales mean.
fn legend() -> View {
    [pictures::LEGEND, pictures::MEMORY].iter().map(|said| el("p").class("small").text(said)).collect()
}

fn agent(desk: Desk, shown: &Shown) -> El {
    let head = |text: &str| el("th").attr("scope", "col").class("number").text(text);
    let row = |[ph, share, active]: &[String; 3]| {
        el("tr")
            .child(el("th").attr("scope", "row").class("number").text(ph))
            .child(el("td").class("number").text(share))
            .child(el("td").class("number").text(active))
    };
    let table = (!shown.rows.is_empty()).then(|| {
        let metas = [bench::AT_PH, bench::UNDISSOCIATED, bench::ACTIVE].map(head);
        el("table")
            .class("compare")
            .child(el("caption").class("hidden").text(&shown.name))
            .child(el("thead").child(el("tr").child(metas.into_iter().collect::<View>())))
            .child(el("tbody").child(shown.rows.iter().map(row).collect::<View>()))
    });
    let mark = el("span").class("grade").attr("data-grade", shown.grade.key()).text(shown.works);
    el("section")
        .class("agent")
        .child(el("h3").text(&shown.name).text(" ").child(mark))
        .child(el("p").text(&shown.amount))
        .child(shown.scales.iter().map(|gauge| benches::scale(gauge, desk.sign)).collect::<View>())
        .child(table)
        .child((!shown.said.is_empty()).then(|| el("p").class("small").text(&shown.said)))
        .child(shown.in_water.as_ref().map(|said| el("p").class("small").text(said)))
}
