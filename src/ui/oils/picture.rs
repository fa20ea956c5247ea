//! Fatty acids as a stacked bar: one colour for each family of acids, a white line between acids.

use crate::ui::dom::{El, View, el, svg};
use hundred_parts::facts::{FattyAcid, Kinship};
use hundred_parts::quantity::Quantity;
use hundred_parts::sheet::Figures;
use hundred_parts::words::{DecimalSign, oils};

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
