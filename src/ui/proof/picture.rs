//! What was measured, over time, between its limits.

use super::{Proof, of_study};
use crate::ui::dom::{El, View, el, svg};
use hundred_parts::batch::study::{ConditionKind, PlotSeries, StudyPlot, plots};
use hundred_parts::words::proof as words;

/// The plot within the drawing, in its units: left, top, width, height.
const PLOT: (i64, i64, i64, i64) = (44, 10, 246, 82);

/// The card, once something was measured.
pub(super) fn all(proof: Proof) -> View {
    let found = move |study: &hundred_parts::batch::study::Study| {
        let titled = |plot: StudyPlot| (words::plot_title(&plot, study), plot);
        plots(study).into_iter().map(titled).collect::<Vec<_>>()
    };
    of_study(proof, found, move |found| {
        if found.is_empty() {
            return View::nothing();
        }
        let one = |(title, plot): &(String, StudyPlot)| figure(proof, title, plot);
        el("section")
            .class("card")
            .child(el("h3").class("hidden").text(words::PLOTS))
            .child(el("div").class("plots").child(found.iter().map(one).collect::<View>()))
            .into()
    })
}

/// Turns days and values into places.
struct Places<'a>(&'a StudyPlot);

impl Places<'_> {
    fn x(&self, day: i64) -> i64 {
        PLOT.0 + day.clamp(0, self.0.days) * PLOT.2 / self.0.days.max(1)
    }

    fn y(&self, units: i64) -> i64 {
        let (low, high) = self.0.span;
        let part = i128::from(high - units) * i128::from(PLOT.3) / i128::from((high - low).max(1));
        PLOT.1 + i64::try_from(part).unwrap_or(0)
    }
}

fn shape(tag: &str, class: &str, numbers: &[(&str, i64)]) -> El {
    numbers.iter().fold(svg(tag).class(class), |shape, (name, number)| shape.attr(name, &number.to_string()))
}

fn text(at: (i64, i64), anchor: &str, said: &str) -> El {
    shape("text", "tick", &[("x", at.0), ("y", at.1)]).attr("text-anchor", anchor).text(said)
}

fn figure(proof: Proof, title: &str, plot: &StudyPlot) -> El {
    let sign = proof.desk.sign;
    let places = Places(plot);
    let (left, top, width, height) = PLOT;
    let drawn =
        svg("svg").attr("viewBox", "0 0 300 124").attr("role", "img").attr("aria-label", &words::plot_text(plot, sign));
    let drawn = drawn.child(band(plot, &places));
    let value = |units: i64| text((left - 6, places.y(units) + 4), "end", &words::plot_value(plot, units, sign));
    let marks: Vec<i64> = match plot.limits {
        (None, None) => vec![plot.span.0, plot.span.1],
        (low, high) => low.into_iter().chain(high).collect(),
    };
    let drawn = marks.into_iter().fold(drawn, |drawn, units| drawn.child(value(units)));
    let base = top + height + 8;
    let drawn = drawn.child(shape("line", "axis", &[("x1", left), ("x2", left + width), ("y1", base), ("y2", base)]));
    let drawn = [0, plot.days / 2, plot.days]
        .into_iter()
        .fold(drawn, |drawn, day| drawn.child(text((places.x(day), base + 16), "middle", &day.to_string())));
    let drawn = plot.series.iter().fold(drawn, |drawn, series| drawn.child(line(series, &places)));
    let keys = plot.series.iter().map(|series| {
        let mark = svg("svg").attr("viewBox", "0 0 12 12").attr("aria-hidden", "true").class("key");
        let mark = mark.child(dot(series.condition, 6, 6));
        el("span").child(mark).child(el("span").text(words::condition(series.condition)))
    });
    el("figure")
        .class("study-plot")
        .child(el("h4").text(title))
        .child(drawn)
        .child(el("figcaption").class("small").child(keys.collect::<View>()))
}

/// Between the limits.
fn band(plot: &StudyPlot, places: &Places<'_>) -> Option<El> {
    let (low, high) = plot.limits;
    let (low, high) = (places.y(low.unwrap_or(plot.span.0)), places.y(high.unwrap_or(plot.span.1)));
    let any = plot.limits != (None, None);
    any.then(|| {
        shape("rect", "within", &[("x", PLOT.0), ("y", high), ("width", PLOT.2), ("height", (low - high).max(1))])
    })
}

fn line(series: &PlotSeries, places: &Places<'_>) -> El {
    let at: Vec<(i64, i64)> = series.points.iter().map(|(day, units)| (places.x(*day), places.y(*units))).collect();
    let points: String = at.iter().map(|(x, y)| format!("{x},{y} ")).collect();
    let line = svg("g").child(svg("polyline").class("way").attr("points", &points));
    at.into_iter().fold(line, |line, (x, y)| line.child(dot(series.condition, x, y)))
}

/// Each condition has a mark of its own, which does not rest on colour.
fn dot(condition: ConditionKind, x: i64, y: i64) -> El {
    let path = |d: String, class: &str| svg("path").class(class).attr("d", &d);
    match condition {
        ConditionKind::Room => shape("circle", "dot", &[("cx", x), ("cy", y), ("r", 4)]),
        ConditionKind::Warm => path(format!("M{x} {}l5 9h-10z", y - 5), "dot"),
        ConditionKind::Hot => path(format!("M{x} {}l5 9h-10z", y - 5), "dot open"),
        ConditionKind::Cold => shape("rect", "dot", &[("x", x - 4), ("y", y - 4), ("width", 8), ("height", 8)]),
        ConditionKind::FreezeThaw => {
            shape("rect", "dot open", &[("x", x - 4), ("y", y - 4), ("width", 8), ("height", 8)])
        }
        ConditionKind::Spin => path(format!("M{x} {}l5 5l-5 5l-5-5z", y - 5), "dot"),
        ConditionKind::Light => shape("circle", "dot open", &[("cx", x), ("cy", y), ("r", 4)]),
    }
}
