//! Cooling: when the pot will be cool enough, as a figure with its range, and as a picture.

use super::{Stove, heat};
use crate::ui::benches::drawing::{line, text};
use crate::ui::dom::{El, View, dynamic, el, svg};
use hundred_parts::batch::{Cooling, CurvePoint, Forecast, Pot, forecast_cooling};
use hundred_parts::facts::craft;
use hundred_parts::quantity::{Celsius, Quantity, Timestamp};
use hundred_parts::words::stove as words;
use leptos::prelude::*;

/// Width and height of the plot, and the room left of it, in units of the drawing.
const PLOT: (i64, i64) = (540, 170);
const LEFT: i64 = 44;
/// Degrees between two lines of the grid.
const GRID: i64 = 10;

/// The forecast, and the field for the next reading.
pub(super) fn cooling(stove: Stove, target: Option<Celsius>) -> View {
    let target = target.unwrap_or(craft().add_below);
    let found = move || {
        let readings = stove.with(|made| made.at.making.cooling()).unwrap_or_default();
        let minute = stove.now.get().millis() / 60_000;
        (forecast_cooling(&readings, target), readings, minute)
    };
    let shown = dynamic(found, move |(found, readings, minute)| {
        let now = Timestamp::from_millis(minute * 60_000);
        let (headline, figure, rests) = words::cooling(found, target, now, stove.desk.sign);
        let figure = figure
            .map(|minutes| el("p").class("figure").child(el("strong").text(&minutes)).child(el("span").text("min")));
        let drawn = match found {
            Cooling::Forecast(forecast) => Some(picture(stove, forecast, readings, target)),
            _ => None,
        };
        View::from_iter([
            el("p").class("large").text(&headline).into(),
            View::from(figure),
            el("p").class("small").attr("role", "status").text(&rests).into(),
            View::from(drawn),
        ])
    });
    View::from_iter([shown, heat::reading(stove, Pot::Batch).into()])
}

/// Where instants and temperatures stand in the drawing.
struct Places {
    from: i64,
    until: i64,
    low: i64,
    high: i64,
}

impl Places {
    fn x(&self, at: Timestamp) -> i64 {
        LEFT + (at.millis() - self.from).clamp(0, self.until - self.from) * PLOT.0 / (self.until - self.from).max(1)
    }

    fn y(&self, units: i64) -> i64 {
        (self.high - units.clamp(self.low, self.high)) * PLOT.1 / (self.high - self.low).max(1)
    }
}

/// The curve with its range, the readings, and the temperature that is waited for.
fn picture(stove: Stove, found: &Forecast, readings: &[(Timestamp, Celsius)], target: Celsius) -> El {
    let scale = 10_i64.pow(Celsius::PLACES);
    let all = found.curve.iter().flat_map(|point| [point.low.units(), point.high.units()]);
    let all = all.chain(readings.iter().map(|(_, celsius)| celsius.units())).chain([target.units()]);
    let (low, high) = all.fold((i64::MAX, i64::MIN), |(low, high), units| (low.min(units), high.max(units)));
    let grid = GRID * scale;
    let (low, high) = (low.div_euclid(grid) * grid, (high.div_euclid(grid) + 1) * grid);
    let ends = (found.curve.first().map(|point| point.at.millis()), found.curve.last().map(|point| point.at.millis()));
    let (Some(from), Some(until)) = ends else { return el("div") };
    let places = Places { from, until: until.max(from + 1), low, high };
    let drawn = svg("svg")
        .class("cooling")
        .attr("viewBox", "0 0 600 210")
        .attr("role", "img")
        .attr("aria-label", &words::cooling_picture(found, target, stove.desk.sign));
    let drawn = (low / grid..=high / grid).fold(drawn, |drawn, step| {
        let y = places.y(step * grid);
        let tick = label("end", (LEFT - 8, y + 4), &(step * GRID).to_string());
        drawn.child(line("grid", (LEFT, y), (LEFT + PLOT.0, y))).child(tick)
    });
    let point = |at: Timestamp, units: i64| format!("{},{} ", places.x(at), places.y(units));
    let of = |points: &dyn Fn(&CurvePoint) -> i64, back: bool| -> String {
        let one = |curve: &CurvePoint| point(curve.at, points(curve));
        if back { found.curve.iter().rev().map(one).collect() } else { found.curve.iter().map(one).collect() }
    };
    let band = of(&|curve| curve.low.units(), false) + &of(&|curve| curve.high.units(), true);
    let middle = of(&|curve| curve.middle.units(), false);
    let (y, minutes) = (places.y(target.units()), (until - from) / 60_000);
    let drawn = drawn
        .child(svg("polygon").class("band").attr("points", &band))
        .child(svg("polyline").class("curve").attr("points", &middle))
        .child(line("target", (LEFT, y), (LEFT + PLOT.0, y)))
        .child(label("end", (LEFT + PLOT.0, PLOT.1 + 26), &words::after_minutes(minutes)))
        .child(label("start", (LEFT, PLOT.1 + 26), words::FIRST_READING))
        .child(label("end", (LEFT - 8, PLOT.1 + 26), "\u{b0}C"));
    readings.iter().fold(drawn, |drawn, (at, celsius)| {
        let (x, y) = (places.x(*at).to_string(), places.y(celsius.units()).to_string());
        drawn.child(svg("circle").class("dot").attr("cx", &x).attr("cy", &y).attr("r", "6"))
    })
}

fn label(anchor: &str, at: (i64, i64), said: &str) -> El {
    text("tick", at, said).attr("text-anchor", anchor)
}
