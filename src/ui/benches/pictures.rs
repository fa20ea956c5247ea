//! The small pictures of the benches. Each shows the product's own value within its window; the sentence beside it says
//! the same in words, so they are hidden from who listens.

use super::read;
use crate::ui::desk::Desk;
use crate::ui::dom::{El, View, dynamic, el, svg};
use hundred_parts::quantity::{Percent, Ph, Quantity, mul_div_nearest};
use hundred_parts::sheet::Figures;

/// Units of a drawing: its length and height, and the track within it.
const LENGTH: i64 = 200;
const HEIGHT: i64 = 26;
const TRACK: (i64, i64) = (9, 8);
/// The pH at both ends of the track, in hundredths.
const ACID: i64 = 200;
const BASE: i64 = 1000;

fn drawing() -> El {
    svg("svg").class("picture").attr("viewBox", &format!("0 0 {LENGTH} {HEIGHT}")).attr("aria-hidden", "true")
}

fn rect(class: &str, (from, to): (i64, i64), (top, height): (i64, i64)) -> El {
    svg("rect")
        .class(class)
        .attr("x", &from.to_string())
        .attr("width", &(to - from).max(1).to_string())
        .attr("y", &top.to_string())
        .attr("height", &height.to_string())
        .attr("rx", "3")
}

/// A track with a window in it and a mark.
fn track(window: Option<(i64, i64)>, mark: Option<i64>) -> El {
    let mut drawn = drawing().child(rect("track", (0, LENGTH), TRACK));
    if let Some(window) = window {
        drawn = drawn.child(rect("window", window, TRACK));
    }
    if let Some(x) = mark {
        let x = x.clamp(2, LENGTH - 2);
        drawn = drawn.child(svg("path").class("own").attr("d", &format!("M{x} 3v20")));
    }
    drawn
}

fn kept<T: Clone + PartialEq + Send + Sync + 'static>(value: impl Fn() -> T + 'static, draw: fn(&T) -> El) -> View {
    el("span").class("picture-of").child(dynamic(value, move |value| draw(value).into())).into()
}

/// The families of fatty acids of the oil phase, as shares of its length.
pub(in crate::ui) fn oils(desk: Desk) -> View {
    let families = move || read(desk, |_, derived| derived.sheet.fats.figures.as_ref().map(Figures::by_double_bonds));
    kept(families, |families| {
        let mut from = 0;
        let shares = families.iter().flatten();
        ["long", "mono", "poly"].into_iter().zip(shares).fold(
            drawing().child(rect("track", (0, LENGTH), (5, 16))),
            |drawn, (family, share)| {
                let to = from + mul_div_nearest(share.units(), LENGTH, Percent::WHOLE.units());
                let part = rect(&format!("acid {family}"), (from, to), (5, 16));
                from = to;
                drawn.child(part)
            },
        )
    })
}

fn on_the_ph_track(ph: Ph) -> i64 {
    (ph.units().clamp(ACID, BASE) - ACID) * LENGTH / (BASE - ACID)
}

/// The pH that suits all, from 2 to 10, and the target.
pub(in crate::ui) fn ph(desk: Desk) -> View {
    let shown =
        move || {
            read(desk, |open, derived| {
                let window =
                    derived.sheet.window.meeting.ok().map(|window| {
                        (window.min.map_or(0, on_the_ph_track), window.max.map_or(LENGTH, on_the_ph_track))
                    });
                (window, open.state().formula.about.target_ph.value().map(on_the_ph_track))
            })
        };
    kept(shown, |(window, target)| track(*window, *target))
}

/// How well bacteria of both kinds, yeasts and moulds are held: full, half or empty.
pub(in crate::ui) fn preservatives(desk: Desk) -> View {
    let grades = move || {
        read(desk, |_, derived| {
            let cover = derived.sheet.preservation.as_ref().and_then(|found| found.cover);
            cover.map_or([0; 4], |cover| [cover.gram_positive, cover.gram_negative, cover.yeast, cover.mould])
        })
    };
    kept(grades, |grades| {
        grades.iter().enumerate().fold(drawing(), |drawn, (n, grade)| {
            let circle = |class: &str| svg("circle").class(class).attr("r", "9");
            let x = n * 34 + 13;
            let one = svg("g").attr("transform", &format!("translate({x} 13)")).child(circle("ring"));
            drawn.child(match grade {
                0 => one,
                1 => one.child(svg("path").class("half").attr("d", "M0-9a9 9 0 0 1 0 18z")),
                _ => one.child(circle("full")),
            })
        })
    })
}

/// What there is of emulsifier, from none to three times what is usual.
pub(in crate::ui) fn emulsifier(desk: Desk) -> View {
    let shown = move || {
        read(desk, |_, derived| {
            let (have, usual) = derived.sheet.emulsion.as_ref()?.judged()?;
            let end = usual.good.units().max(1).saturating_mul(3);
            let at = |share: Percent| mul_div_nearest(share.units().min(end), LENGTH, end);
            Some((at(usual.good), at(have)))
        })
    };
    kept(shown, |shown| track(shown.map(|(good, _)| (good, LENGTH)), shown.map(|(_, have)| have)))
}
