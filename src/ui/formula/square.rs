//! The hundred square: ten by ten cells from the bottom left, a cell a part.

use crate::ui::desk::Desk;
use crate::ui::dom::{El, View, el, slot, svg};
use hundred_parts::formula::{Formula, LineId, PhaseId, PhaseKind};
use hundred_parts::quantity::Quantity;
use hundred_parts::sheet::Square;
use hundred_parts::words::{self, page};
use leptos::prelude::*;

/// A cell as drawn: in which pattern, and whose.
#[derive(Clone, PartialEq)]
struct Cell {
    kind: Option<PhaseKind>,
    lines: Vec<LineId>,
}

/// Size of a cell with its gap, in the units of the drawing.
const PITCH: usize = 22;

fn kind_of(formula: &Formula, phase: PhaseId) -> PhaseKind {
    formula.phase(phase).map_or(PhaseKind::Other, |phase| phase.kind)
}

fn cells(formula: &Formula, square: &Square) -> Vec<Cell> {
    let owned = square
        .cells()
        .take(110)
        .map(|group| Cell { kind: Some(kind_of(formula, group.phase)), lines: group.lines.clone() });
    owned.chain(core::iter::repeat_n(Cell { kind: None, lines: Vec::new() }, square.missing)).collect()
}

fn all_cells(desk: Desk) -> Vec<Cell> {
    desk.derived(|derived| desk.with(|bench| cells(&bench.state().formula, &derived.sheet.square)))
}

/// The parts as one sentence.
fn spoken(desk: Desk) -> String {
    desk.derived(|derived| {
        desk.with(|bench| words::parts_text(&derived.sheet.totals, &bench.state().formula, desk.sign))
    })
}

/// The patterns that tell the phases apart; they stand in the page once.
pub(crate) fn patterns() -> El {
    let pattern = |id: &str, (width, height): (&str, &str), shape: El| {
        svg("pattern")
            .id(id)
            .attr("width", width)
            .attr("height", height)
            .attr("patternUnits", "userSpaceOnUse")
            .child(shape)
    };
    let path = |d: &str| svg("path").attr("d", d);
    let dot = svg("circle").attr("cx", "3").attr("cy", "3").attr("r", "1.6");
    svg("svg").class("patterns").attr("aria-hidden", "true").child(
        svg("defs")
            .child(pattern("water", ("8", "6"), path("M0 3q2-3 4 0t4 0")))
            .child(pattern("oil", ("6", "6"), dot))
            .child(pattern("cool-down", ("6", "6"), path("M-1 7L7-1M-1 1L1-1M5 7L7 5")))
            .child(pattern("other", ("6", "6"), path("M3 0V6"))),
    )
}

/// The square with its legend.
pub(super) fn hundred_square(desk: Desk) -> El {
    let picture = svg("svg")
        .attr("viewBox", "0 0 242 220")
        .attr("role", "img")
        .attr_of("aria-label", move || Some(spoken(desk)))
        .child(slot(
            move || all_cells(desk),
            move |cells| cells.iter().enumerate().map(|(n, cell)| drawn(desk, n, cell)).collect(),
        ));
    el("section").class("card square").child(el("h2").text(page::SQUARE)).child(picture).child(legend(desk))
}

fn drawn(desk: Desk, n: usize, cell: &Cell) -> El {
    // Past the hundredth, an eleventh column.
    let (column, row) = if n < 100 { (n % 10, n / 10) } else { (10, n - 100) };
    let (x, y) = ((column * PITCH + 1).to_string(), ((9 - row) * PITCH + 1).to_string());
    let rect = || svg("rect").attr("x", &x).attr("y", &y).attr("width", "20").attr("height", "20").attr("rx", "2");
    let lines = cell.lines.clone();
    let group = svg("g")
        .class(match cell.kind {
            None => "cell empty",
            Some(_) if n >= 100 => "cell excess",
            Some(_) => "cell",
        })
        .child(rect());
    match cell.kind {
        None => group,
        Some(kind) => group
            .attr("data-kind", kind.key())
            .child(rect().class("pattern").attr("fill", &format!("url(#{})", kind.key())))
            .class_if("faded", move || desk.lit.get().is_some_and(|lit| !lines.contains(&lit))),
    }
}

/// What a row of the legend shows.
#[derive(PartialEq)]
struct Legend {
    phases: Vec<(PhaseKind, String, String)>,
    shared: Vec<String>,
}

fn legend(desk: Desk) -> View {
    let of = move || {
        desk.derived(|derived| {
            desk.with(|bench| {
                let formula = &bench.state().formula;
                let phases = derived.sheet.totals.phases.iter().map(|total| {
                    let name = formula.phase(total.phase).map(|phase| phase.name.clone()).unwrap_or_default();
                    let share = words::number(&total.share.canonical(), desk.sign);
                    (kind_of(formula, total.phase), name, share)
                });
                let shared = derived.sheet.square.groups.iter().filter(|group| group.lines.len() > 1);
                Legend {
                    phases: phases.collect(),
                    shared: shared.map(|group| words::shared_cells(group.lines.len(), group.cells)).collect(),
                }
            })
        })
    };
    slot(of, |legend| {
        let phase = |(kind, name, share): &(PhaseKind, String, String)| {
            el("li")
                .attr("data-kind", kind.key())
                .child(el("span").class("swatch").attr("aria-hidden", "true"))
                .child(el("span").text(name))
                .child(el("strong").text(share))
        };
        let shared = |text: &String| el("li").class("shared").text(text);
        let rows = legend.phases.iter().map(phase).chain(legend.shared.iter().map(shared));
        el("ul").class("legend").child(rows.collect::<View>()).into()
    })
}

/// The same on a phone: a strip of a tick a part, which opens the square.
pub(super) fn strip(desk: Desk, open: RwSignal<bool>) -> El {
    let tick = |cell: &Cell| el("span").attr("data-kind", cell.kind.map_or("none", PhaseKind::key));
    el("button")
        .attr("type", "button")
        .class("strip")
        .attr_of("aria-label", move || Some(format!("{}: {}", page::SQUARE, spoken(desk))))
        .attr_of("aria-expanded", move || Some(open.get().to_string()))
        .press(move || open.update(|open| *open = !*open))
        .child(slot(
            move || all_cells(desk).into_iter().map(|cell| Cell { lines: Vec::new(), ..cell }).collect::<Vec<_>>(),
            move |cells| cells.iter().map(tick).collect(),
        ))
}
