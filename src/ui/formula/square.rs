//! The hundred square: ten by ten cells from the bottom left, a cell a part.

use crate::ui::desk::use_desk;
use hundred_parts::formula::{LineId, PhaseKind};
use hundred_parts::quantity::Quantity;
use hundred_parts::words::{self, page};
use leptos::prelude::*;

/// A cell as drawn: where, in which pattern, and whose.
struct Cell {
    x: usize,
    y: usize,
    kind: Option<PhaseKind>,
    excess: bool,
    lines: Vec<LineId>,
}

const PITCH: usize = 22;

#[component]
pub(super) fn HundredSquare() -> impl IntoView {
    let desk = use_desk();
    let kind_of =
        move |phase| desk.with(|bench| bench.state().formula.phase(phase).map_or(PhaseKind::Other, |phase| phase.kind));
    let cells = move || {
        desk.derived(|derived| {
            let square = &derived.sheet.square;
            let owned: Vec<_> =
                square.cells().take(110).map(|group| (Some(kind_of(group.phase)), group.lines.clone())).collect();
            let empty = std::iter::repeat_n((None, Vec::new()), square.missing);
            owned
                .into_iter()
                .chain(empty)
                .enumerate()
                // Past the hundredth, an eleventh column.
                .map(|(n, (kind, lines))| Cell {
                    x: if n < 100 { n % 10 } else { 10 } * PITCH,
                    y: (9 - if n < 100 { n / 10 } else { n - 100 }) * PITCH,
                    kind,
                    excess: n >= 100,
                    lines,
                })
                .collect::<Vec<_>>()
        })
    };
    let spoken = move || {
        desk.derived(|derived| {
            let names = derived.sheet.totals.phases.iter().map(|total| {
                let name = desk.with(|bench| {
                    bench.state().formula.phase(total.phase).map(|phase| phase.name.clone()).unwrap_or_default()
                });
                format!("{name} {} parts", words::number(&total.share.canonical(), desk.sign))
            });
            names.collect::<Vec<_>>().join(", ")
        })
    };
    view! {
        <section class="card square" aria-labelledby="square-title">
            <h2 id="square-title">{page::SQUARE}</h2>
            <svg viewBox="0 0 242 220" role="img" aria-label=spoken>
                <defs>
                    <pattern id="water" width="8" height="6" patternUnits="userSpaceOnUse"><path d="M0 3q2-3 4 0t4 0" /></pattern>
                    <pattern id="oil" width="6" height="6" patternUnits="userSpaceOnUse"><circle cx="3" cy="3" r="1.6" /></pattern>
                    <pattern id="cool-down" width="6" height="6" patternUnits="userSpaceOnUse"><path d="M-1 7L7-1M-1 1L1-1M5 7L7 5" /></pattern>
                    <pattern id="other" width="6" height="6" patternUnits="userSpaceOnUse"><path d="M3 0V6" /></pattern>
                </defs>
                {move || cells().into_iter().map(|cell| {
                    let lines = cell.lines;
                    let faded = move || desk.lit.get().is_some_and(|lit| !lines.is_empty() && !lines.contains(&lit));
                    view! {
                        <g class="cell" class:faded=faded class:excess=cell.excess class:empty=cell.kind.is_none() data-kind=cell.kind.map(|kind| kind.key())>
                            <rect x=cell.x + 1 y=cell.y + 1 width="20" height="20" rx="2" />
                            {cell.kind.map(|kind| view! { <rect class="pattern" x=cell.x + 1 y=cell.y + 1 width="20" height="20" rx="2" fill=format!("url(#{})", kind.key()) /> })}
                        </g>
                    }
                }).collect_view()}
            </svg>
            <ul class="legend">
                {move || desk.derived(|derived| derived.sheet.totals.phases.clone()).into_iter().map(|total| {
                    let name = desk.with(|bench| bench.state().formula.phase(total.phase).map(|phase| phase.name.clone()).unwrap_or_default());
                    view! {
                        <li data-kind=kind_of(total.phase).key()>
                            <span class="swatch" aria-hidden="true"></span>
                            <span>{name}</span>
                            <strong>{words::number(&total.share.canonical(), desk.sign)}</strong>
                        </li>
                    }
                }).collect_view()}
                {move || desk.derived(|derived| derived.sheet.square.groups.clone()).into_iter().filter(|group| group.lines.len() > 1).map(|group| view! {
                    <li class="shared">{shared(group.lines.len(), group.cells)}</li>
                }).collect_view()}
            </ul>
        </section>
    }
}

/// The same on a phone: one strip, a stretch a phase.
#[component]
pub(super) fn Strip() -> impl IntoView {
    let desk = use_desk();
    let kind_of =
        move |phase| desk.with(|bench| bench.state().formula.phase(phase).map_or(PhaseKind::Other, |phase| phase.kind));
    view! {
        <div class="strip" aria-hidden="true">
            {move || desk.derived(|derived| derived.sheet.totals.phases.clone()).into_iter().map(|total| view! {
                <span data-kind=kind_of(total.phase).key() style:flex-grow=total.share.units().to_string()></span>
            }).collect_view()}
        </div>
    }
}

fn shared(lines: usize, cells: usize) -> String {
    match cells {
        0 => format!("{lines} lines are under half a cell together"),
        1 => format!("{lines} lines share 1 cell"),
        _ => format!("{lines} lines share {cells} cells"),
    }
}
