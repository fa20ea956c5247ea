//! Which pH the formula needs, and which one its water is estimated to have.

use super::{benches, names, read};
use crate::ui::benches::drawing::{line, rect, text};
use crate::ui::desk::{Desk, Overlay};
use crate::ui::dom::{El, View, dynamic, el, svg};
use hundred_parts::quantity::{Ph, Quantity};
use hundred_parts::rules::of_ph;
use hundred_parts::sheet::ph::Window;
use hundred_parts::words::{bench, chemistry};

/// The ends of the line that is drawn, in hundredths of pH, and its length in units of the drawing.
const ENDS: (i64, i64) = (200, 1000);
const LENGTH: i64 = 320;
/// Height of one bar with its name, and of what stands above and below all of them.
const ROW: i64 = 34;
const HEAD: i64 = 20;
const FOOT: i64 = 24;

/// What the card shows.
#[derive(PartialEq)]
struct Shown {
    window: Window,
    /// Names of the bars, in their order.
    names: Vec<String>,
    spoken: String,
    meeting: String,
    target: Option<(Ph, String)>,
    estimate: Option<(Ph, Ph)>,
    said: Vec<String>,
}

/// The bench.
pub(super) fn bench(desk: Desk) -> El {
    let result = move || {
        read(desk, |open, derived| {
            let target = open.state().formula.about.target_ph.value();
            let text = bench::ph_summary(&derived.sheet, target, &names(open), desk.sign);
            (of_ph(&derived.findings, &derived.sheet, target), text)
        })
    };
    benches::bench(desk, Overlay::Ph, ("ph-card", bench::PH), benches::ph(desk), result)
}

/// What it opens.
pub(in crate::ui) fn inside(desk: Desk) -> View {
    dynamic(move || shown(desk), view)
}

fn shown(desk: Desk) -> Shown {
    read(desk, |open, derived| {
        let (window, name, sign) = (&derived.sheet.window, names(open), desk.sign);
        let target = open.state().formula.about.target_ph.value();
        let found = derived.sheet.ph.as_ref();
        let estimate =
            found.map_or_else(|| bench::NO_ESTIMATE.to_owned(), |found| chemistry::prediction(found, &name, sign));
        let no_target = target.is_none().then(|| bench::NO_TARGET.to_owned());
        let said = [Some(estimate), found.and_then(|found| bench::shift(found, sign)), no_target];
        Shown {
            names: window.bars.iter().map(|bar| chemistry::who(bar.who, &name)).collect(),
            spoken: bench::bars(window, target, &name, sign),
            meeting: chemistry::meeting(window, &name, sign),
            window: window.clone(),
            target: target.map(|target| (target, bench::target_text(target, sign))),
            estimate: found.map(|found| (found.low, found.high)),
            said: said.into_iter().flatten().collect(),
        }
    })
}

fn view(shown: &Shown) -> View {
    let meeting = el("p").class("meeting").class_if("wrong", {
        let wrong = shown.window.meeting.is_err();
        move || wrong
    });
    [
        meeting.text(&shown.meeting),
        picture(shown),
        el("p").class("small").text(bench::LEGEND),
        shown.said.iter().fold(el("div").class("said-of-ph"), |list, said| list.child(el("p").text(said))),
    ]
    .into_iter()
    .collect()
}

/// Where a pH lies on the line.
fn at(ph: i64) -> i64 {
    (ph.clamp(ENDS.0, ENDS.1) - ENDS.0) * LENGTH / (ENDS.1 - ENDS.0)
}

/// Every window as a bar over one pH line, with the target and the estimate through all of them.
fn picture(shown: &Shown) -> El {
    let bars = &shown.window.bars;
    let conflict = shown.window.meeting.as_ref().err().copied();
    let rows = bars.len() as i64 + i64::from(conflict.is_none());
    let foot = HEAD + rows * ROW;
    let mut drawn = svg("svg")
        .class("ph-line")
        .attr("viewBox", &format!("0 0 {LENGTH} {}", foot + FOOT))
        .attr("role", "img")
        .attr("aria-label", &format!("{}. {}", bench::PH_LINE, shown.spoken));
    if let Some((low, high)) = shown.estimate {
        let (from, to) = (at(low.units()), at(high.units()));
        drawn = drawn.child(rect("estimate", (from, HEAD - 4), (to - from, foot - HEAD + 4)));
    }
    if let Some((target, said)) = &shown.target {
        let x = at(target.units());
        let label = text("target", (x.clamp(44, LENGTH - 44), 12), said).attr("text-anchor", "middle");
        drawn = drawn.child(line("target", (x, HEAD - 4), (x, foot))).child(label);
    }
    let reach = |window: hundred_parts::facts::PhWindow| {
        let end = |end: Option<Ph>, open: i64| at(end.map_or(open, Quantity::units));
        (end(window.min, ENDS.0), end(window.max, ENDS.1))
    };
    for (n, (bar, name)) in bars.iter().zip(&shown.names).enumerate() {
        let y = HEAD + n as i64 * ROW;
        let clashes = conflict.is_some_and(|(more, less)| n == more || n == less);
        let (from, to) = reach(bar.window);
        if let Some(worst) = bar.worst {
            drawn = drawn.child(line("worst", (to, y + 23), (at(worst.units()).max(to), y + 23)));
        }
        let mark = if clashes { "\u{25b3} " } else { "" };
        drawn = drawn.child(text("name-of-bar", (2, y + 14), &format!("{mark}{}", bench::short(name)))).child(rect(
            if clashes { "bar clash" } else { "bar" },
            (from, y + 18),
            (to - from, 10),
        ));
    }
    if let Ok(meeting) = shown.window.meeting {
        let y = HEAD + bars.len() as i64 * ROW;
        let (from, to) = reach(meeting);
        drawn = drawn.child(text("name-of-bar all", (2, y + 14), bench::ALL_SUIT)).child(rect(
            "bar all",
            (from, y + 18),
            (to - from, 10),
        ));
    }
    drawn = drawn.child(line("axis", (0, foot), (LENGTH, foot)));
    for ph in (ENDS.0 / 100)..=(ENDS.1 / 100) {
        let x = at(ph * 100);
        let said = text("tick", (x.clamp(5, LENGTH - 8), foot + 18), &ph.to_string()).attr("text-anchor", "middle");
        drawn = drawn.child(line("axis", (x, foot), (x, foot + 5))).child(said);
    }
    drawn
}
