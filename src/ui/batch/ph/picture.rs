//! Readings and doses against pH, with the model's curve, its band and the target.

use crate::ui::desk::Desk;
use crate::ui::dom::{El, el, svg};
use hundred_parts::batch::{Dot, Picture, Vessel};
use hundred_parts::quantity::{Ph, Quantity};
use hundred_parts::words::{bench, dose};

/// The plot within the drawing, in its units: left, top, width, height.
const PLOT: (i64, i64, i64, i64) = (34, 22, 280, 186);
/// Where lines that leave the plot are cut.
const FAR: i64 = 5_000;

/// A pH and what reaches it: least, middle, greatest.
type Level = (Ph, [i64; 3]);

/// Turns pH and amount into places in the plot.
struct Places {
    most: i64,
    low: i64,
    high: i64,
}

impl Places {
    fn x(&self, at: i64) -> i64 {
        (at * PLOT.2 / self.most.max(1)).clamp(-FAR, FAR)
    }

    fn y(&self, ph: i64) -> i64 {
        (self.high - ph) * PLOT.3 / (self.high - self.low).max(1)
    }

    fn point(&self, at: i64, ph: i64) -> String {
        format!("{},{} ", self.x(at), self.y(ph))
    }
}

/// A shape with a class and numbers for attributes.
fn shape(tag: &str, class: &str, numbers: &[(&str, i64)]) -> El {
    numbers.iter().fold(svg(tag).class(class), |shape, (name, number)| shape.attr(name, &number.to_string()))
}

fn line(class: &str, from: (i64, i64), to: (i64, i64)) -> El {
    shape("line", class, &[("x1", from.0), ("y1", from.1), ("x2", to.0), ("y2", to.1)])
}

fn words(class: &str, (x, y): (i64, i64), anchor: &str, text: &str) -> El {
    shape("text", class, &[("x", x), ("y", y)]).attr("text-anchor", anchor).text(text)
}

/// The picture with its caption.
pub(super) fn picture(desk: Desk, found: &Picture, name: &str) -> El {
    let places = Places { most: found.most, low: found.span.0.units(), high: found.span.1.units() };
    let (left, top, width, height) = PLOT;
    let drawn = svg("svg")
        .attr("viewBox", "0 0 320 242")
        .attr("role", "img")
        .attr("aria-label", &dose::picture(found, name, desk.sign));
    let drawn = axes(desk, drawn, found, &places);
    // An inner drawing cuts off what leaves the plot.
    let inside = shape("svg", "plot", &[("x", left), ("y", top), ("width", width), ("height", height)]);
    let drawn = drawn.child(model(inside, found, &places));
    let drawn = found.dots.iter().fold(drawn, |drawn, dot| drawn.child(reading(dot, &places)));
    let drawn = match &found.next {
        Some((_, to, expected)) => {
            let x = left + places.x(*to);
            let y = |ph: Ph| top + places.y(ph.units());
            let (high, low, middle) = (y(expected.high), y(expected.low), y(expected.ph));
            let diamond = format!("M{x} {}l6 6l-6 6l-6-6z", middle - 6);
            drawn.child(line("next", (x, high), (x, low))).child(svg("path").class("next").attr("d", &diamond))
        }
        None => drawn,
    };
    let caption = el("figcaption").class("small").text(bench::BAND);
    el("figure").class("ph-picture").child(drawn).child(caption)
}

fn axes(desk: Desk, drawn: El, found: &Picture, places: &Places) -> El {
    let (left, top, width, height) = PLOT;
    let mut drawn = drawn;
    let every = if places.high - places.low > 300 { 100 } else { 50 };
    let mut ph = places.low;
    while ph <= places.high {
        let y = top + places.y(ph);
        let said = dose::ph(Ph::from_units(ph), desk.sign);
        drawn = drawn.child(line("grid", (left, y), (left + width, y))).child(words(
            "tick",
            (left - 5, y + 4),
            "end",
            &said,
        ));
        ph += every;
    }
    let mut at = 0;
    while at <= found.most {
        let x = left + places.x(at);
        let said = dose::in_grams(at, desk.sign);
        drawn = drawn.child(line("axis", (x, top + height), (x, top + height + 4))).child(words(
            "tick",
            (x, top + height + 16),
            "middle",
            &said,
        ));
        at += found.mark.max(1);
    }
    drawn
        .child(line("axis", (left, top + height), (left + width, top + height)))
        .child(words("tick", (left + width / 2, top + height + 31), "middle", bench::ADDED))
        .child(words("tick", (left - 5, 10), "end", bench::PH))
}

/// The band, the curve, the target, and the way that each vessel took.
fn model(plot: El, found: &Picture, places: &Places) -> El {
    let points = |of: &dyn Fn(&Level) -> i64, back: bool| -> String {
        let one = |point: &Level| places.point(of(point), point.0.units());
        if back { found.curve.iter().rev().map(one).collect() } else { found.curve.iter().map(one).collect() }
    };
    let band = points(&|(_, [low, ..])| *low, false) + &points(&|(_, [.., high])| *high, true);
    let curve = points(&|(_, [_, middle, _])| *middle, false);
    let target = places.y(found.target.units());
    let plot = plot
        .child(svg("polygon").class("band").attr("points", &band))
        .child(svg("polyline").class("curve").attr("points", &curve))
        .child(line("target", (0, target), (PLOT.2, target)));
    found.dots.iter().fold(plot, |plot, dot| {
        // The dose goes in, then the pH follows.
        let way = dot.before.and_then(|before| found.dots.get(before)).map(|before| {
            let (from, over) = (places.point(before.at, before.ph.units()), places.point(dot.at, before.ph.units()));
            let points = from + &over + &places.point(dot.at, dot.ph.units());
            svg("polyline").class("doses").attr("points", &points)
        });
        plot.child(way)
    })
}

fn reading(dot: &Dot, places: &Places) -> El {
    let (x, y) = (PLOT.0 + places.x(dot.at), PLOT.1 + places.y(dot.ph.units()));
    let reach = PLOT.1 + places.y(dot.ph.units() - dot.error) - y;
    let class = if dot.off { "dot off" } else { "dot" };
    let mark = match dot.vessel {
        Vessel::Batch => shape("circle", class, &[("cx", x), ("cy", y), ("r", 5)]),
        Vessel::Side => shape("rect", class, &[("x", x - 4), ("y", y - 4), ("width", 9), ("height", 9)]),
    };
    svg("g").child(line("error", (x, y - reach), (x, y + reach))).child(mark)
}
