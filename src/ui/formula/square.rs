//! The hundred square: ten by ten cells from the bottom left, a cell a part.

use crate::ui::desk::Desk;
use crate::ui::dom::{El, dynamic, each, effect, el, follow, svg};
use crate::ui::field::fixed_size_text;
use hundred_parts::formula::{Formula, LineId, PhaseId, PhaseKind};
use hundred_parts::quantity::Quantity;
use hundred_parts::sheet::Square;
use hundred_parts::words::{self, page};
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
    let picture =
        svg("svg").attr("viewBox", "0 0 242 220").attr("role", "img").attr_of("aria-label", move || Some(spoken(desk)));
    draw(desk, picture.clone());
    el("section").class("card square").child(el("h2").text(page::SQUARE)).child(picture).child(legend(desk))
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

fn legend(desk: Desk) -> El {
    let shared = move || {
        desk.masses(|masses| {
            let groups = masses.square.groups.iter().filter(|group| group.lines.len() > 1);
            groups.map(|group| words::shared_cells(group.lines.len(), group.cells)).collect::<Vec<_>>()
        })
    };
    let row = |text: &String| el("li").class("shared").text(text);
    el("ul")
        .class("legend")
        .child(each(move || super::phases(desk), move |number| legend_of(desk, PhaseId::of(number))))
        .child(dynamic(shared, move |shared| shared.iter().map(row).collect()))
}

/// A phase in the legend: its pattern, its name, its sum.
fn legend_of(desk: Desk, id: PhaseId) -> El {
    let kind = move || desk.with(|open| kind_of(&open.state().formula, id));
    let name =
        move || desk.with(|open| open.state().formula.phase(id).map(|phase| phase.name.clone()).unwrap_or_default());
    let sum = move || {
        let total = desk.masses(|masses| masses.totals.of_phase(id));
        total.map(|total| words::number(&total.share.canonical(), desk.sign)).unwrap_or_default()
    };
    el("li")
        .attr_of("data-kind", move || Some(kind().key().to_owned()))
        .child(el("span").class("swatch").attr("aria-hidden", "true"))
        .child(el("span").text_of(name))
        .child(el("strong").child(fixed_size_text(sum)))
}

/// The same on a phone: a strip of a tick a part, which opens the square.
pub(super) fn strip(desk: Desk, open: RwSignal<bool>) -> El {
    let strip = el("button")
        .attr("type", "button")
        .class("strip")
        .attr_of("aria-label", move || Some(format!("{}: {}", page::SQUARE, spoken(desk))))
        .attr_of("aria-expanded", move || Some(open.get().to_string()))
        .press(move || open.update(|open| *open = !*open));
    let kinds = follow(move || all_cells(desk).into_iter().map(|cell| cell.kind).collect::<Vec<_>>());
    let mut ticks: Vec<(Option<PhaseKind>, El)> = Vec::new();
    let holder = strip.clone();
    effect(Box::new(move || {
        kinds.with(|kinds| {
            for gone in ticks.drain(kinds.len().min(ticks.len())..) {
                gone.1.remove();
            }
            for (n, kind) in kinds.iter().enumerate() {
                let name = kind.map_or("none", PhaseKind::key);
                match ticks.get_mut(n) {
                    Some(tick) if tick.0 == *kind => {}
                    Some(tick) => {
                        let _ = tick.1.clone().attr("data-kind", name);
                        tick.0 = *kind;
                    }
                    None => {
                        let tick = el("span").attr("data-kind", name);
                        holder.append(&tick);
                        ticks.push((*kind, tick));
                    }
                }
            }
        });
    }));
    strip
}
