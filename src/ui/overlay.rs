//! What opens over the page: at its right edge, as large as the screen on a phone, its way back always in the same place.

use super::desk::{Desk, OVERLAY_TITLE, Overlay};
use super::dom::{El, View, dynamic, el};
use super::field::button;
use super::{annexes, batch, chemistry, formula, oils, proof, records, shortcuts};
use hundred_parts::words::{annexes as law, bench, keys, method, oils as of_oils, page, record};
use leptos::prelude::*;

/// Whatever is open.
pub(super) fn shown(desk: Desk) -> View {
    dynamic(move || desk.overlay.get(), move |overlay| overlay.map(|overlay| open(desk, overlay)).into())
}

fn open(desk: Desk, overlay: Overlay) -> View {
    let close = move || desk.close_overlay();
    let title = el("h2").id(OVERLAY_TITLE).attr("tabindex", "-1").text(&title(desk, overlay));
    let head =
        el("header").child(title).child(button("\u{d7}").class("quiet").attr("aria-label", page::CLOSE).press(close));
    let sheet = el("section")
        .class("overlay no-print")
        .attr("role", "dialog")
        .attr("aria-modal", "true")
        .attr("aria-labelledby", OVERLAY_TITLE)
        .class_if("wide", move || matches!(overlay, Overlay::Record | Overlay::Photograph(_)))
        .child(head);
    let (inside, printed) = match overlay {
        Overlay::Record => records::record(desk),
        Overlay::Batches => records::list(desk),
        _ => (inside(desk, overlay), View::nothing()),
    };
    let sheet = sheet.child(el("div").class("inside").child(inside));
    View::from_iter([el("div").class("veil no-print").press(close).into(), View::from(sheet), printed])
}

fn title(desk: Desk, overlay: Overlay) -> String {
    match overlay {
        Overlay::Formulas => page::FORMULAS,
        Overlay::Start => page::NEW_FORMULA,
        Overlay::About => page::ABOUT,
        Overlay::Method => method::TITLE,
        Overlay::Versions => page::VERSIONS,
        Overlay::PassOn => page::PASS_ON,
        Overlay::Keys => keys::TITLE,
        Overlay::Findings => page::FINDINGS,
        Overlay::Oils => of_oils::OIL_PHASE,
        Overlay::Ph => bench::PH,
        Overlay::Preservatives => bench::PRESERVATIVES,
        Overlay::Emulsifier => bench::EMULSIFIER,
        Overlay::Annexes => law::TITLE,
        Overlay::Batches => record::BATCHES,
        Overlay::Record => return records::title(desk),
        Overlay::Photograph(short) => return proof::photograph_title(desk, short),
        Overlay::Swap(line) => return oils::swap_title(desk, line),
    }
    .to_owned()
}

fn inside(desk: Desk, overlay: Overlay) -> View {
    match overlay {
        Overlay::Formulas => formula::formulas(desk).into(),
        Overlay::Start => formula::start_from(desk),
        Overlay::About => formula::further_fields(desk).into(),
        Overlay::Method => batch::method(desk),
        Overlay::Versions => formula::versions(desk),
        Overlay::PassOn => formula::pass_on(desk),
        Overlay::Keys => shortcuts::list().into(),
        Overlay::Findings => formula::findings(desk).into(),
        Overlay::Oils => oils::phase(desk),
        Overlay::Ph => chemistry::ph(desk),
        Overlay::Preservatives => chemistry::preservatives(desk),
        Overlay::Emulsifier => chemistry::emulsifier(desk),
        Overlay::Annexes => annexes::inside(desk),
        Overlay::Batches | Overlay::Record => View::nothing(),
        Overlay::Photograph(short) => proof::photograph(desk, short),
        Overlay::Swap(line) => oils::swap(desk, line),
    }
}

/// The way to the rest, behind three points.
pub(super) fn more(desk: Desk) -> El {
    let to = |(text, overlay): (&str, Overlay)| button(text).press(move || desk.show(overlay));
    let ways = [
        (page::ABOUT, Overlay::About),
        (method::TITLE, Overlay::Method),
        (page::VERSIONS, Overlay::Versions),
        (record::BATCHES, Overlay::Batches),
        (page::PASS_ON, Overlay::PassOn),
        (keys::TITLE, Overlay::Keys),
    ];
    el("div").child(ways.into_iter().map(to).collect::<View>()).child(formula::more(desk))
}
