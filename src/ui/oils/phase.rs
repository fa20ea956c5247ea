//! The oil phase of the formula as one blend.

use super::{numbers, paragraphs, picture};
use crate::ui::benches::{self, names, read};
use crate::ui::desk::{Desk, Overlay};
use crate::ui::dom::{El, View, dynamic, el};
use crate::ui::field::folded;
use hundred_parts::rules::of_outlook;
use hundred_parts::sheet::Figures;
use hundred_parts::words::{fats, oils};

/// What the card shows.
#[derive(PartialEq)]
struct Shown {
    figures: Option<Figures>,
    numbers: Vec<(&'static str, String)>,
    uncounted: Vec<String>,
    untold: Vec<String>,
    allergens: Option<String>,
}

/// The bench.
pub(crate) fn bench(desk: Desk) -> El {
    let result = move || {
        desk.derived(|derived| {
            let found = &derived.sheet.fats;
            (of_outlook(found.figures.as_ref().and_then(Figures::outlook)), oils::phase_summary(found, desk.sign))
        })
    };
    benches::bench(desk, Overlay::Oils, ("oil-phase-card", oils::BENCH), benches::oils(desk), result)
}

/// What it opens.
pub(crate) fn inside(desk: Desk) -> View {
    dynamic(move || shown(desk), move |shown| view(desk, shown))
}

fn shown(desk: Desk) -> Shown {
    read(desk, |open, derived| {
        let (found, name) = (&derived.sheet.fats, names(open));
        let uncounted = found.uncounted.iter().map(|(id, why)| format!("{} {}", name(*id), fats::why_uncounted(*why)));
        let untold = found.untold.iter().map(|(id, unknown)| fats::untold(&name(*id), *unknown, desk.sign));
        let allergens = (!found.allergens.is_empty()).then(|| oils::with_allergens(found.allergens));
        Shown {
            figures: found.figures.clone(),
            numbers: oils::phase_numbers(found, desk.sign),
            uncounted: uncounted.collect(),
            untold: untold.collect(),
            allergens,
        }
    })
}

fn view(desk: Desk, shown: &Shown) -> View {
    let Some(figures) = &shown.figures else {
        return View::from_iter([
            el("p").text(oils::NO_OILS_LONG).into(),
            paragraphs(&shown.uncounted),
            untold(&shown.untold).into(),
        ]);
    };
    let missing = (!shown.uncounted.is_empty())
        .then(|| el("div").child(el("h3").text(oils::NOT_COUNTED)).child(paragraphs(&shown.uncounted)));
    let by_standard = figures.reckoned.as_ref().and_then(|reckoned| fats::sv_by_standard(reckoned, desk.sign));
    View::from_iter([
        picture::bars(figures, desk.sign).into(),
        picture::legend().into(),
        numbers(&shown.numbers).into(),
        untold(&shown.untold).into(),
        el("p").text(&oils::families(figures, desk.sign)).into(),
        by_standard.map(|said| el("p").class("small").text(&said)).into(),
        shown.allergens.as_ref().map(|said| el("p").text(said)).into(),
        View::from(missing),
        methods().into(),
    ])
}

/// Fats of whose acids too much is not known.
fn untold(said: &[String]) -> Option<El> {
    (!said.is_empty()).then(|| el("div").class("caution").child(paragraphs(said)))
}

const METHODS: [&str; 4] = [fats::SV_METHOD, fats::IV_METHOD, fats::COX_METHOD, fats::HLB_CARE];

/// Where the numbers come from, folded away.
pub(super) fn methods() -> El {
    folded(oils::METHODS).class("small no-print").child(paragraphs(&METHODS))
}

/// The same on paper, where nothing can be opened.
pub(super) fn methods_on_paper() -> El {
    el("div").class("small print-only").child(paragraphs(&METHODS))
}
