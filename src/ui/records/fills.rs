//! Fill weights on an axis, with the nominal content and the two bounds below it.

use crate::ui::dom::{El, el, svg};
use hundred_parts::paper::RecordFills;
use hundred_parts::quantity::{Mass, Quantity};
use hundred_parts::words::{DecimalSign, record as words};

/// The drawing in its units: left and right end of the axis, its height, and the least height of a dot.
const LEFT: i64 = 14;
const WIDTH: i64 = 232;
const BASE: i64 = 72;
const TOP: i64 = 14;
/// Across a dot.
const DOT: i64 = 9;

/// The axis: from where to where it goes, in micrograms.
struct FillAxis {
    low: i64,
    high: i64,
}

impl FillAxis {
    /// Holds every weight and every bound, with room at its ends.
    fn of(fills: &RecordFills) -> Self {
        let bounds = fills.bounds.map(|bounds| [bounds.none, bounds.few, bounds.nominal]);
        let all = || fills.fills.iter().chain(bounds.iter().flatten()).chain(&fills.nominal).map(|mass| mass.units());
        let (low, high) = (all().min().unwrap_or(0), all().max().unwrap_or(0));
        let room = ((high - low) / 16).max(500_000);
        Self { low: low.saturating_sub(room), high: high.saturating_add(room) }
    }

    fn x(&self, mass: Mass) -> i64 {
        LEFT + (mass.units() - self.low).saturating_mul(WIDTH) / (self.high - self.low).max(1)
    }
}

/// The picture, which says in words what it shows.
pub(in crate::ui) fn picture(fills: &RecordFills, sign: DecimalSign) -> El {
    let axis = FillAxis::of(fills);
    let mut drawn = svg("svg")
        .class("fill-weights")
        .attr("viewBox", "0 0 260 104")
        .attr("role", "img")
        .attr("aria-label", &words::fills_text(fills, sign))
        .child(line("axis", (LEFT, BASE), (LEFT + WIDTH, BASE)));
    let marks = fills.bounds.map(|bounds| [("t2", bounds.none), ("t1", bounds.few)]);
    let nominal = fills.nominal.map(|nominal| ("nominal", nominal));
    for (class, mass) in marks.into_iter().flatten().chain(nominal) {
        let x = axis.x(mass);
        drawn = drawn.child(line(class, (x, TOP), (x, BASE + 6))).child(text(x, &words::mark(class, mass, sign)));
    }
    for (x, y, low) in places(fills, &axis) {
        let dot = svg("circle").class(if low { "dot low" } else { "dot" });
        let numbers = [("cx", x), ("cy", y), ("r", DOT / 2)];
        drawn = drawn.child(numbers.iter().fold(dot, |dot, (name, number)| dot.attr(name, &number.to_string())));
    }
    el("figure").class("fill-picture").child(drawn)
}

/// Where the dots stand: beside each other where there is room, else one above the other. And whether one is below T1.
fn places(fills: &RecordFills, axis: &FillAxis) -> Vec<(i64, i64, bool)> {
    let few = fills.bounds.map(|bounds| bounds.few);
    let mut columns: Vec<(i64, i64)> = Vec::new();
    let mut places = Vec::new();
    for mass in &fills.fills {
        let x = axis.x(*mass);
        let column = x / DOT;
        let above = match columns.iter_mut().find(|(known, _)| *known == column) {
            Some((_, count)) => {
                *count += 1;
                *count
            }
            None => {
                columns.push((column, 0));
                0
            }
        };
        places.push((x, above, few.is_some_and(|few| *mass < few)));
    }
    let highest = columns.iter().map(|(_, count)| *count).max().unwrap_or(0);
    let step = if highest == 0 { DOT } else { DOT.min((BASE - TOP - DOT) / highest) };
    places.into_iter().map(|(x, above, low)| (x, BASE - DOT / 2 - above * step, low)).collect()
}

fn line(class: &str, from: (i64, i64), to: (i64, i64)) -> El {
    let numbers = [("x1", from.0), ("y1", from.1), ("x2", to.0), ("y2", to.1)];
    numbers.iter().fold(svg("line").class(class), |line, (name, number)| line.attr(name, &number.to_string()))
}

fn text(x: i64, (name, figure): &(&str, String)) -> El {
    let at = |y: i64, said: &str| {
        let text = svg("text").class("tick").attr("text-anchor", "middle").attr("x", &x.to_string());
        text.attr("y", &y.to_string()).text(said)
    };
    svg("g").child(at(BASE + 18, figure)).child(at(BASE + 29, name))
}
