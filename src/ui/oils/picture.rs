//! Fatty acids as bars, and as one stacked bar: a colour for each family of acids, a white line between acids.

use crate::ui::benches::drawing::{line, rect, text};
use crate::ui::dom::{El, View, el, svg};
use hundred_parts::facts::{FattyAcid, Kinship};
use hundred_parts::quantity::{Percent, Quantity};
use hundred_parts::sheet::{AcidBars, Axis, Figures, Measure};
use hundred_parts::words::{DecimalSign, oils, pictures};

/// Units of the drawing for a tenth of a percent are one third: 100 % is this long.
const LENGTH: i64 = 320;
const HEIGHT: i64 = 38;
/// A part this long has room for the name of its acid.
const ROOM: i64 = 34;

const FAMILIES: [Kinship; 5] =
    [Kinship::ShortSaturated, Kinship::LongSaturated, Kinship::Mono, Kinship::Poly, Kinship::Hydroxy];

fn class(acid: Option<FattyAcid>) -> &'static str {
    match acid.map(FattyAcid::kinship) {
        Some(Kinship::ShortSaturated) => "acid short",
        Some(Kinship::LongSaturated) => "acid long",
        Some(Kinship::Mono) => "acid mono",
        Some(Kinship::Poly) => "acid poly",
        Some(Kinship::Hydroxy) => "acid hydroxy",
        None => "acid rest",
    }
}

/// The bar.
pub(super) fn bar(figures: &Figures, whose: &str, sign: DecimalSign) -> El {
    let spoken = format!("{whose}: {}", oils::bar(figures, sign));
    let mut drawn = svg("svg")
        .class("acid-bar")
        .attr("viewBox", &format!("0 0 {LENGTH} {HEIGHT}"))
        .attr("role", "img")
        .attr("aria-label", &spoken)
        .child(svg("title").text(&spoken));
    let at = |millionths: i64| millionths * LENGTH / 100_000_000;
    let mut from = 0;
    for (acid, share) in figures.bar() {
        let (x, end) = (at(from), at(from + share.units()));
        from += share.units();
        let shape = svg("rect").class(class(acid)).attr("x", &x.to_string()).attr("y", "0");
        drawn = drawn.child(shape.attr("width", &(end - x).to_string()).attr("height", &HEIGHT.to_string()));
        if end - x >= ROOM {
            let middle = (x + end) / 2;
            let words = |y: &str, said: &str| {
                svg("text").attr("x", &middle.to_string()).attr("y", y).attr("text-anchor", "middle").text(said)
            };
            let whole = (share.units() + 500_000) / 1_000_000;
            drawn = drawn.child(words("16", oils::short_acid(acid))).child(words("32", &format!("{whole}\u{202f}%")));
        }
    }
    drawn
}

/// Length of the axis of [`bars`], and where it begins: the names stand before it, the values behind.
const AXIS: i64 = 140;
const NAMES: i64 = 128;
/// Height of a bar with what is around it.
const ROW: i64 = 24;

/// A bar for each acid, on one axis, with its share.
pub(super) fn bars(figures: &Figures, sign: DecimalSign) -> El {
    let shown = AcidBars::of(figures);
    let rows = shown.shares.len() as i64 + i64::from(shown.unknown.is_some());
    let foot = rows * ROW + 2;
    let drawn = svg("svg")
        .class("acid-rows")
        .attr("viewBox", &format!("0 0 {LENGTH} {}", foot + 22))
        .attr("role", "img")
        .attr("aria-label", &pictures::acids(&shown, sign))
        .child(grid(shown.axis, foot, sign));
    for (n, (acid, share)) in (0..).zip(&shown.shares) {
        drawn.append(&row(shown.axis, n * ROW, class(*acid), (&pictures::acid(*acid), *share), sign));
    }
    if let Some(unknown) = shown.unknown {
        drawn.append(&row(shown.axis, foot - 2 - ROW, "unknown", (pictures::UNKNOWN, unknown), sign));
    }
    drawn.append(&line("axis", (NAMES, 0), (NAMES, foot)));
    let title = el("figcaption").text(pictures::acids_title(&shown));
    el("figure").class("acids").child(title).child(drawn)
}

fn grid(axis: Axis, foot: i64, sign: DecimalSign) -> El {
    axis.marks().fold(svg("g"), |drawn, value| {
        let x = NAMES + axis.at(value, AXIS);
        let mark = text("tick", (x, foot + 17), &pictures::mark(Measure::Dose, value, sign));
        drawn.child(line("grid", (x, 0), (x, foot + 4))).child(mark.attr("text-anchor", "middle"))
    })
}

fn row(axis: Axis, y: i64, class: &str, (name, share): (&str, Percent), sign: DecimalSign) -> El {
    let at_end = |of: &str, x: i64, said: &str| text(of, (x, y + 17), said).attr("text-anchor", "end");
    svg("g")
        .child(at_end("name", NAMES - 6, name))
        .child(rect(class, (NAMES, y + 4), (axis.at(share.units(), AXIS), ROW - 8)))
        .child(at_end("value", LENGTH, &oils::share(share, sign)))
}

/// A bar with the name of what it shows above it.
pub(super) fn named(figures: &Figures, whose: &str, sign: DecimalSign) -> El {
    el("figure").class("acids").child(el("figcaption").text(whose)).child(bar(figures, whose, sign))
}

/// What the colours mean.
pub(super) fn legend() -> El {
    let entry = |kinship: Kinship| {
        let acid = FattyAcid::ALL.into_iter().find(|acid| acid.kinship() == kinship);
        let swatch = svg("svg")
            .class("acid-swatch")
            .attr("viewBox", "0 0 10 10")
            .attr("aria-hidden", "true")
            .child(svg("rect").class(class(acid)).attr("width", "10").attr("height", "10"));
        el("li").child(swatch).text(oils::family(kinship))
    };
    el("ul").class("acid-legend").child(FAMILIES.into_iter().map(entry).collect::<View>())
}
