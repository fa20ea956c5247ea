//! A value on an axis with its window, as the core gives it ([`Gauge`]): drawn, and told in words to who cannot see it.

use super::drawing::{line, rect, text};
use crate::ui::dom::{El, el, svg};
use hundred_parts::sheet::{End, Gauge, Reach};
use hundred_parts::words::{DecimalSign, pictures};

/// Units of the drawing: the length of the axis, and what stands beside its ends.
const LENGTH: i64 = 300;
const MARGIN: i64 = 12;
/// The band, and the axis under it.
const TOP: i64 = 6;
const BAND: i64 = 14;
const AXIS: i64 = 28;
const HEIGHT: i64 = 48;

/// The scale, with its unit and values above it and its window in words below.
pub(in crate::ui) fn scale(gauge: &Gauge, sign: DecimalSign) -> El {
    let said = pictures::gauge(gauge, sign);
    let head = el("figcaption").text(said.title).text(" ").child(el("strong").text(&said.own));
    let (low, high) = (gauge.axis.low, gauge.axis.high);
    let drawn = svg("svg")
        .attr("viewBox", &format!("0 0 {} {HEIGHT}", LENGTH + 2 * MARGIN))
        .attr("role", "img")
        .attr("aria-label", &said.spoken)
        .child(rect("track", (MARGIN, TOP), (LENGTH, BAND)));
    match gauge.window {
        None => band(gauge, &drawn, "unknown", low, high),
        Some(window) => reach(gauge, &drawn, window),
    }
    if let Some((from, to)) = gauge.with_care {
        band(gauge, &drawn, "care", from, to);
    }
    axis(gauge, &drawn, sign);
    values(gauge, &drawn);
    el("figure").class("scale").child(head).child(drawn).child(el("p").class("small").text(&said.against))
}

fn axis(gauge: &Gauge, drawn: &El, sign: DecimalSign) {
    drawn.append(&line("axis", (MARGIN, AXIS), (MARGIN + LENGTH, AXIS)));
    for value in gauge.axis.marks() {
        let at = MARGIN + gauge.axis.at(value, LENGTH);
        drawn.append(&line("axis", (at, AXIS), (at, AXIS + 4)));
        let mark = text("tick", (at, AXIS + 17), &pictures::mark(gauge.of, value, sign));
        drawn.append(&mark.attr("text-anchor", "middle"));
    }
}

/// The limit, and the product's own value.
fn values(gauge: &Gauge, drawn: &El) {
    let x = |value: i64| MARGIN + gauge.axis.at(value, LENGTH);
    if let Some((limit, _)) = gauge.limit {
        drawn.append(&line("limit", (x(limit), 1), (x(limit), AXIS)));
        drawn.append(&line("limit", (x(limit) - 4, 1), (x(limit) + 4, 1)));
    }
    if let Some((least, most)) = gauge.own {
        let middle = TOP + BAND / 2;
        drawn.append(&line("own", (x(least), middle), (x(most), middle)));
        for at in [x(least), x(most)] {
            let diamond = format!("M{at} {}l6 7-6 7-6-7z", middle - 7);
            drawn.append(&svg("path").class("own").attr("d", &diamond));
        }
    }
}

fn band(gauge: &Gauge, drawn: &El, class: &str, from: i64, to: i64) {
    let at = |value: i64| gauge.axis.at(value, LENGTH);
    drawn.append(&rect(class, (MARGIN + at(from), TOP), (at(to) - at(from), BAND)));
}

/// The window. Beyond an end that nobody told it is neither in nor out.
fn reach(gauge: &Gauge, drawn: &El, window: Reach) {
    let (low, high) = (gauge.axis.low, gauge.axis.high);
    let (class, unknown) = (if gauge.of_a_part { "window part" } else { "window" }, "unknown");
    match (window.low, window.high) {
        (End::NotKnown, End::NotKnown) => band(gauge, drawn, unknown, low, high),
        (End::NotKnown, End::At(to)) => edge(gauge, drawn, (low, to), to),
        (End::At(from), End::NotKnown) => edge(gauge, drawn, (from, high), from),
        (from, to) => {
            let end = |end: End, open: i64| if let End::At(at) = end { at } else { open };
            band(gauge, drawn, class, end(from, low), end(to, high));
        }
    }
}

/// A window of which one end is known.
fn edge(gauge: &Gauge, drawn: &El, (from, to): (i64, i64), known: i64) {
    band(gauge, drawn, "unknown", from, to);
    let x = MARGIN + gauge.axis.at(known, LENGTH);
    drawn.append(&line("edge", (x, TOP), (x, TOP + BAND)));
}
