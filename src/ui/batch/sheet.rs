//! The weigh sheet on screen and on paper.

use crate::ui::browser;
use crate::ui::desk::use_desk;
use hundred_parts::paper::{Block, PremixRow, Row, WeighPaper, weigh_paper, weigh_sheet_csv};
use hundred_parts::quantity::{Celsius, Mass, MassUnit, Percent, Quantity};
use hundred_parts::sheet::NoSheet;
use hundred_parts::words::{self, DecimalSign, page};
use leptos::prelude::*;

/// How numbers are shown on this sheet.
#[derive(Clone, Copy, PartialEq)]
struct Style {
    unit: MassUnit,
    sign: DecimalSign,
    step: Mass,
}

impl Style {
    fn mass(self, mass: Mass) -> String {
        match self.unit {
            // All with the places of the scale's step, so that the column lines up.
            MassUnit::Gram => {
                let text = mass.canonical();
                let (whole, fraction) = text.split_once('.').unwrap_or((&text, ""));
                let places = Row::places(self.step);
                let padded = if places == 0 { whole.to_owned() } else { format!("{whole}.{fraction:0<places$}") };
                format!("{}\u{2009}g", words::number(&padded, self.sign))
            }
            unit => words::mass(mass, unit, self.sign),
        }
    }

    fn percent(self, share: Percent) -> String {
        words::with_unit(share, "%", self.sign)
    }

    /// A rounding error to 0.01 %.
    fn error(self, error: Percent) -> String {
        let hundredths = (error.units() + error.units().signum() * 5_000) / 10_000 * 10_000;
        let sign = if hundredths > 0 { "+" } else { "" };
        format!("{sign}{}", self.percent(Percent::from_units(hundredths)))
    }

    fn heat(self, heat: Celsius) -> String {
        words::with_unit(heat, page::CELSIUS, self.sign)
    }
}

/// The sheet, or what is missing for it.
#[component]
pub(super) fn Sheet() -> impl IntoView {
    let desk = use_desk();
    let paper = Memo::new(move |_| -> Result<WeighPaper, NoSheet> {
        desk.derived(|derived| match &derived.sheet.weigh {
            Ok(sheet) => Ok(desk.with(|bench| weigh_paper(&bench.state().formula, sheet, bench.shelf()))),
            Err(why) => Err(why.clone()),
        })
    });
    view! {
        {move || match paper.get() {
            Err(why) => view! { <section class="card empty" role="status"><h2>{page::WEIGH_SHEET}</h2><p>{words::no_sheet(&why)}</p></section> }.into_any(),
            Ok(paper) => view! { <Paper paper /> }.into_any(),
        }}
    }
}

#[component]
fn Paper(paper: WeighPaper) -> impl IntoView {
    let desk = use_desk();
    let style = Style { unit: desk.with(|bench| bench.state().plan.unit), sign: desk.sign, step: paper.step };
    let csv_paper = paper.clone();
    let csv = move |_| {
        browser::download("weigh-sheet.csv", "text/csv", &weigh_sheet_csv(&csv_paper, page::CSV_HEADS));
    };
    let printed_at = RwSignal::new(String::new());
    let print = move |_| {
        let number = desk.save_version();
        printed_at.set(format!("{} {number} \u{2013} {}", page::VERSIONS, browser::local_time(browser::now())));
        request_animation_frame(browser::print);
    };
    let worst = paper.worst.clone().map(|(name, error)| format!("{}: {name} {}", page::ROUNDING, style.error(error)));
    let asked =
        (paper.asked != paper.batch).then(|| format!(" ({})", words::mass(paper.asked, style.unit, style.sign)));
    view! {
        <section class="card weigh" aria-labelledby="weigh-title">
            <div class="weigh-head">
                <h2 id="weigh-title">{page::WEIGH_SHEET} <span class="print-only">" \u{2013} " {paper.title.clone()}</span></h2>
                <p class="batch-mass">{page::BATCH_MASS} " " <strong>{style.mass(paper.batch)}</strong> {asked}</p>
                <p class="small">{worst}</p>
                <p class="small print-only">{move || printed_at.get()}</p>
                <div class="actions no-print">
                    <button type="button" class="primary" on:click=print>{page::PRINT}</button>
                    <button type="button" on:click=csv>{page::CSV}</button>
                </div>
            </div>
            {(!paper.premixes.is_empty()).then(|| view! { <Premixes rows=paper.premixes.clone() style /> })}
            {paper.blocks.into_iter().map(|block| view! { <PhaseTable block style /> }).collect_view()}
            <p class="small">{page::PRINT_CARE}</p>
        </section>
    }
}

#[component]
fn Premixes(rows: Vec<PremixRow>, style: Style) -> impl IntoView {
    view! {
        <section class="premix">
            <h3>{page::PREMIX}</h3>
            <ul>
                {rows.into_iter().map(|row| view! {
                    <li>
                        <strong>{row.active_name.clone()}</strong>
                        {format!(
                            ": stir {} into {} of {} (1 in {}). Weigh {} of that mix into the batch. {} itself: {} are left to weigh.",
                            style.mass(row.active), style.mass(row.carrier), row.carrier_name, row.times, style.mass(row.portion), row.carrier_name, style.mass(row.carrier_line),
                        )}
                    </li>
                }).collect_view()}
            </ul>
            <p class="small">{page::PREMIX_CARE}</p>
        </section>
    }
}

#[component]
fn PhaseTable(block: Block, style: Style) -> impl IntoView {
    let heat = block.heat.map(|heat| format!(" \u{2013} {} {}", page::HEAT, style.heat(heat)));
    view! {
        <table class="weigh-table" data-kind=block.kind.key()>
            <caption><span class="swatch" aria-hidden="true"></span>{block.name} {heat}</caption>
            <thead>
                <tr>
                    <th scope="col">{page::INGREDIENT}</th>
                    <th scope="col" class="number">{page::PERCENT}</th>
                    <th scope="col" class="number">{page::WEIGHED}</th>
                    <th scope="col" class="print-only">{page::LOT}</th>
                    <th scope="col" class="print-only">{page::INITIALS}</th>
                </tr>
            </thead>
            <tbody>{block.rows.into_iter().map(|row| view! { <WeighRow row style /> }).collect_view()}</tbody>
            <tfoot>
                <tr>
                    <th scope="row">{page::TOTAL}</th>
                    <td class="number">{style.percent(block.share)}</td>
                    <td class="number">{style.mass(block.mass)}</td>
                    <td class="print-only"></td>
                    <td class="print-only"></td>
                </tr>
            </tfoot>
        </table>
    }
}

#[component]
fn WeighRow(row: Row, style: Style) -> impl IntoView {
    let note = [
        (!row.note.is_empty()).then(|| row.note.clone()),
        row.larger_batch.map(|batch| format!("The scale weighs this well from a batch of {} on.", style.mass(batch))),
    ];
    view! {
        <tr>
            <th scope="row">
                {row.name}
                <small lang="la">{row.inci}</small>
                {note.into_iter().flatten().map(|note| view! { <small class="row-note">{note}</small> }).collect_view()}
            </th>
            <td class="number">{style.percent(row.share)}</td>
            <td class="number grams">
                <strong>{style.mass(row.mass)}</strong>
                {row.on_the_scale.map(|mass| view! { <small>"on the scale " {style.mass(mass)}</small> })}
            </td>
            <td class="print-only"></td>
            <td class="print-only"></td>
        </tr>
    }
}
