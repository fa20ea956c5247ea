//! The hundred square: ten by ten cells from the bottom left, a cell a part.

use crate::ui::desk::Desk;
use crate::ui::dom::{El, View, dynamic, effect, el, follow, svg};
use hundred_parts::formula::{Formula, LineId, PhaseId, PhaseKind};
use hundred_parts::sheet::Square;
use hundred_parts::words::{self, ledger, page};
use leptos::prelude::*;

/// A cell as drawn: in which pattern, and whose.
#[derive(Clone, PartialEq)]
struct SquareCell {
    kind: Option<PhaseKind>,
    lines: Vec<LineId>,
}

/// Size of a cell with its gap, in the units of the drawing.
const PITCH: usize = 22;

fn kind_of(formula: &Formula, phase: PhaseId) -> PhaseKind {
    formula.phase(phase).map_or(PhaseKind::Other, |phase| phase.kind)
}

fn cells(formula: &Formula, square: &Square) -> Vec<SquareCell> {
    let owned = square
        .cells()
        .take(110)
        .map(|group| SquareCell { kind: Some(kind_of(formula, group.phase)), lines: group.lines.clone() });
    owned.chain(core::iter::repeat_n(SquareCell { kind: None, lines: Vec::new() }, square.missing)).collect()
}

fn all_cells(desk: Desk) -> Vec<SquareCell> {
    desk.masses(|masses| desk.with(|open| cells(&open.state().formula, &masses.square)))
}

/// The parts as one sentence.
fn spoken(desk: Desk) -> String {
    desk.masses(|masses| desk.with(|open| words::parts_text(&masses.totals, &open.state().formula, desk.sign)))
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
    let picture = svg("svg").attr("role", "img").attr_of("aria-label", move || Some(spoken(desk)));
    draw(desk, picture.clone());
    // The eleventh column is there only for what is too much.
    let wide = move || all_cells(desk).len() > 100;
    let picture =
        picture.attr_of("viewBox", move || Some(if wide() { "0 0 242 220" } else { "0 0 220 220" }.to_owned()));
    el("section").class("square").attr("aria-label", page::SQUARE).child(picture).child(legend(desk))
}

/// A cell that stands in the picture.
struct Drawn {
    kind: Option<PhaseKind>,
    faded: bool,
    group: El,
    pattern: El,
}

impl Drawn {
    /// The `n`th cell, of no phase yet.
    fn new(n: usize) -> Self {
        // Past the hundredth, an eleventh column.
        let (column, row) = if n < 100 { (n % 10, n / 10) } else { (10, n - 100) };
        let (x, y) = ((column * PITCH + 1).to_string(), ((9 - row) * PITCH + 1).to_string());
        let rect = || svg("rect").attr("x", &x).attr("y", &y).attr("width", "20").attr("height", "20").attr("rx", "2");
        let pattern = rect().class("pattern").attr("fill", "none");
        let group = svg("g").class("cell empty").child(rect()).child(pattern.clone());
        Self { kind: None, faded: false, group, pattern }
    }

    /// Makes it look as the `n`th cell of a phase of this kind does.
    fn dress(&mut self, n: usize, kind: Option<PhaseKind>) {
        let (look, key, fill) = match kind {
            None => ("cell empty", "none", "none".to_owned()),
            Some(kind) => (if n < 100 { "cell" } else { "cell excess" }, kind.key(), format!("url(#{})", kind.key())),
        };
        let _ = self.pattern.clone().attr("fill", &fill);
        let _ = self.group.clone().class(look).attr("data-kind", key);
        (self.kind, self.faded) = (kind, false);
    }

    fn fade(&mut self, faded: bool) {
        self.group.set_class("faded", faded);
        self.faded = faded;
    }
}

/// Keeps the cells of the picture as they should be: a key changes only the cells that look different.
fn draw(desk: Desk, picture: El) {
    let cells = follow(move || all_cells(desk));
    let mut drawn: Vec<Drawn> = Vec::new();
    effect(Box::new(move || {
        // The cells of the line under the pointer or with the focus stand out, the others fade.
        let lit = desk.formula_page.lit.get();
        cells.with(|cells| {
            for gone in drawn.drain(cells.len().min(drawn.len())..) {
                gone.group.remove();
            }
            for n in drawn.len()..cells.len() {
                let cell = Drawn::new(n);
                picture.append(&cell.group);
                drawn.push(cell);
            }
            for (n, (cell, at)) in cells.iter().zip(&mut drawn).enumerate() {
                if at.kind != cell.kind {
                    at.dress(n, cell.kind);
                }
                let faded = lit.is_some_and(|lit| cell.kind.is_some() && !cell.lines.contains(&lit));
                if at.faded != faded {
                    at.fade(faded);
                }
            }
        });
    }));
}

/// What a cell is, and which lines share one.
fn legend(desk: Desk) -> El {
    let shared = move || {
        desk.masses(|masses| {
            let groups = masses.square.groups.iter().filter(|group| group.lines.len() > 1);
            groups.map(|group| words::shared_cells(group.lines.len(), group.cells)).collect::<Vec<_>>()
        })
    };
    let text = move || {
        let shared = shared().join("; ");
        if shared.is_empty() { ledger::EACH_CELL.to_owned() } else { format!("{} {shared}.", ledger::EACH_CELL) }
    };
    el("p").class("legend").text_of(text)
}

/// A rectangle in the wash of a phase and one in its pattern, as `of` places them.
pub(crate) fn patterned(kind: PhaseKind, of: impl Fn(El) -> El) -> View {
    let fill = format!("url(#{})", kind.key());
    let wash = of(svg("rect").class("wash")).attr("data-kind", kind.key());
    View::from_iter([wash, of(svg("rect").attr("fill", &fill))])
}

/// The same on a phone, above the lines: a strip, a phase beside the other.
pub(super) fn strip(desk: Desk) -> El {
    let runs = move || -> Vec<(Option<PhaseKind>, usize)> {
        let mut runs: Vec<(Option<PhaseKind>, usize)> = Vec::new();
        for cell in all_cells(desk) {
            match runs.last_mut() {
                Some((kind, count)) if *kind == cell.kind => *count += 1,
                _ => runs.push((cell.kind, 1)),
            }
        }
        runs
    };
    let draw = |runs: &Vec<(Option<PhaseKind>, usize)>| -> View {
        let (all, mut from) = (runs.iter().map(|(_, count)| count).sum::<usize>().max(1), 0);
        let one = |(kind, count): &(Option<PhaseKind>, usize)| {
            let (x, width) = (from * 1000 / all, count * 1000 / all);
            from += count;
            let percent = |tenths: usize| format!("{}.{}%", tenths / 10, tenths % 10);
            let place = |rect: El| rect.attr("x", &percent(x)).attr("width", &percent(width)).attr("height", "100%");
            kind.map_or_else(|| place(svg("rect").class("missing")).into(), |kind| patterned(kind, place))
        };
        svg("svg").child(runs.iter().map(one).collect::<View>()).into()
    };
    el("div")
        .class("strip")
        .attr("role", "img")
        .attr_of("aria-label", move || Some(spoken(desk)))
        .child(dynamic(runs, draw))
}
