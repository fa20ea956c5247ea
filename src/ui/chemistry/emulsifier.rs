//! What the oils ask of the emulsifiers, and a solver for two of them.

use super::{benches, names, read};
use crate::ui::desk::{Desk, Overlay};
use crate::ui::dom::{El, LOCAL, View, dynamic, el};
use crate::ui::field::{pick_field, quantity_field};
use hundred_parts::quantity::Typed;
use hundred_parts::rules::{Topic, gravest};
use hundred_parts::sheet::{Gauge, Wish, candidates};
use hundred_parts::words::{FieldText, bench, chemistry, pictures};
use leptos::prelude::*;
use std::rc::Rc;

/// The bench.
pub(super) fn bench(desk: Desk) -> El {
    let result = move || {
        read(desk, |_, derived| {
            let text = bench::emulsion_summary(derived.sheet.emulsion.as_ref(), desk.sign);
            (gravest(&derived.findings, Topic::Emulsion), text)
        })
    };
    let named = ("emulsifier-card", bench::EMULSIFIER);
    benches::bench(desk, Overlay::Emulsifier, named, benches::emulsifier(desk), result)
}

/// What it opens.
pub(in crate::ui) fn inside(desk: Desk) -> View {
    let numbers = dynamic(
        move || read(desk, |_, d| d.sheet.emulsion.as_ref().map(|found| bench::emulsion_numbers(found, desk.sign))),
        |rows| {
            let row = |(what, much): &(&str, String)| el("div").child(el("dt").text(what)).child(el("dd").text(much));
            rows.as_ref().map(|rows| el("dl").class("numbers").child(rows.iter().map(row).collect::<View>())).into()
        },
    );
    let said = dynamic(move || said(desk), |said| said.iter().map(|said| el("p").text(said)).collect());
    let scales = dynamic(
        move || {
            read(desk, |_, d| d.sheet.emulsion.as_ref().map(|found| (Gauge::emulsifiers(found), Gauge::hlb(found))))
        },
        move |scales| {
            let (share, hlb) = (scales.map(|(share, _)| share), scales.and_then(|(_, hlb)| hlb));
            let drawn = share.into_iter().chain(hlb).map(|gauge| benches::scale(&gauge, desk.sign)).collect::<View>();
            let legend = share.map(|_| el("p").class("small").text(pictures::LEGEND));
            View::from_iter([drawn, legend.into()])
        },
    );
    View::from_iter([scales, numbers, said, pair(desk).into()])
}

fn said(desk: Desk) -> Vec<String> {
    read(desk, |open, derived| {
        let Some(found) = &derived.sheet.emulsion else { return Vec::new() };
        let name = names(open);
        let rules = found.emulsifiers.iter().filter_map(|part| bench::ratio_rule(part, &name, desk.sign));
        let more = bench::without_number(found, &name);
        [chemistry::emulsion(found, &name, desk.sign)].into_iter().chain(rules).chain(more).collect()
    })
}

/// Two emulsifiers, a wanted HLB and a total: how much of each.
fn pair(desk: Desk) -> El {
    let all = Rc::new(desk.now(|open| candidates(open.shelf())));
    let wish = RwSignal::new(untrack(|| {
        read(desk, |open, derived| {
            let found = derived.sheet.emulsion.as_ref();
            Wish::of(&open.state().formula, &derived.sheet.totals, found, open.shelf(), &all)
        })
    }));
    let options = || all.iter().map(|found| bench::candidate(found, desk.sign)).collect::<Vec<_>>();
    let one = move || wish.with(|wish| wish.pair.0);
    let other = move || wish.with(|wish| wish.pair.1);
    let wanted = move || wish.with(|wish| FieldText::of(&wish.wanted, desk.sign));
    let total = move || wish.with(|wish| FieldText::of(&wish.total, desk.sign));
    let set_wanted = move |text: String| wish.update(|wish| wish.wanted = Typed::new(text));
    let set_total = move |text: String| wish.update(|wish| wish.total = Typed::new(text));
    let first = pick_field("pair-one", bench::FIRST, options(), one, move |n| wish.update(|wish| wish.pair.0 = n));
    let second =
        pick_field("pair-other", bench::SECOND, options(), other, move |n| wish.update(|wish| wish.pair.1 = n));
    let answer = move || {
        wish.with(|wish| match wish.solve(&all) {
            Some((high, low, found)) => chemistry::pair(found, &high.name, &low.name, desk.sign),
            None => bench::PAIR_EMPTY.to_owned(),
        })
    };
    el("section")
        .flag(LOCAL)
        .class("pair")
        .child(el("h3").text(bench::PAIR))
        .child(
            el("div")
                .class("fields")
                .child(first)
                .child(second)
                .child(quantity_field(desk, "pair-hlb", bench::WANTED, "", wanted, set_wanted))
                .child(quantity_field(desk, "pair-total", bench::TOGETHER, "%", total, set_total)),
        )
        .child(el("p").class("answer").attr("role", "status").text_of(answer))
        .child(el("p").class("small").text(chemistry::RULE_OF_THUMB))
}
