//! The weigh sheet on screen and on paper.

use super::ticks::Ticks;
use crate::ui::browser;
use crate::ui::desk::Desk;
use crate::ui::dom::{El, View, dynamic, el, svg};
use crate::ui::field::button;
use crate::ui::formula::patterned;
use hundred_parts::paper::{LyeFacts, PremixRow, WeighFacts, WeighPhase, WeighRow, file_name, lye_facts, weigh_facts};
use hundred_parts::sheet::NoSheet;
use hundred_parts::words::{self, SheetStyle, page, plan};
use leptos::prelude::*;

/// The sheet, or what is missing for it.
pub(super) fn sheet(desk: Desk, ticks: Ticks, printed_at: RwSignal<String>) -> View {
    let paper = move || -> Result<(WeighFacts, SheetStyle), NoSheet> {
        desk.masses(|masses| match &masses.weigh {
            Ok(sheet) => desk.with(|open| {
                let state = open.state();
                let paper = weigh_facts(&state.formula, sheet, open.shelf());
                let style = SheetStyle { unit: state.plan.unit, sign: desk.sign, step: paper.step };
                Ok((paper, style))
            }),
            Err(why) => Err(why.clone()),
        })
    };
    dynamic(paper, move |paper| match paper {
        Err(why) => el("section")
            .class("card empty")
            .attr("role", "status")
            .child(el("h2").text(page::WEIGH_SHEET))
            .child(el("p").text(&words::no_sheet(why, desk.sign)))
            .into(),
        Ok((paper, style)) => shown(desk, paper, *style, ticks, printed_at).into(),
    })
}

/// Prints the sheet, as a version that can be found again.
pub(super) fn print(desk: Desk, printed_at: RwSignal<String>) {
    let number = desk.save_version();
    printed_at.set(format!("{} {number} \u{2013} {}", page::VERSION, browser::local_time(browser::now())));
    request_animation_frame(browser::print);
}

fn shown(desk: Desk, paper: &WeighFacts, style: SheetStyle, ticks: Ticks, printed_at: RwSignal<String>) -> El {
    let csv_paper = paper.clone();
    let csv = move || {
        let name = file_name(&csv_paper.title, page::NAMELESS_FILE, page::CSV_END);
        browser::download(
            &name,
            "text/csv",
            &words::weigh_csv(&csv_paper, lye_now(desk).as_ref().map(|lye| lye.as_ref())),
        );
    };
    let made = move || desk.with(|open| plan::made(&open.state().plan, style));
    let head = el("div")
        .class("weigh-head print-only")
        .child(el("h2").text(&paper.title))
        .child(el("p").text_of(made))
        .child(el("p").class("in-all").text(&style.mass(paper.batch)));
    let heads = el("div")
        .class("heads no-print")
        .attr("aria-hidden", "true")
        .child(el("span").text(plan::WEIGH_OUT))
        .child(el("span").text(page::masses_in(style.unit)));
    let blank = |name: &str| el("p").text(name);
    let blanks = el("div").class("blanks print-only").child(plan::BLANKS.into_iter().map(blank).collect::<View>());
    let foot = el("div")
        .class("weigh-foot")
        .child(el("p").class("small").child(words::worst_text(paper, style)))
        .child(blanks)
        .child(super::method::printed(desk))
        .child(el("p").class("small").text(page::PRINT_CARE))
        .child(el("p").class("small print-only").text_of(move || printed_at.get()))
        .child(
            el("div")
                .class("actions no-print")
                .child(super::method::way(desk))
                .child(button(page::CSV).press(csv))
                .child(button(plan::CLEAR_TICKS).hidden_if(move || !ticks.can_clear()).press(move || ticks.clear())),
        );
    let tables = paper.blocks.iter().map(|block| phase_table(block, style, ticks)).collect::<View>();
    el("section")
        .class("weigh")
        .attr("aria-labelledby", "weigh-title")
        .child(el("h2").id("weigh-title").class("hidden").text(page::WEIGH_SHEET))
        .child(head)
        .child((!paper.premixes.is_empty()).then(|| premixes(&paper.premixes, style)))
        .child(el("div").class("ledger").child(heads).child(tables))
        .child(foot)
}

/// The lye of a soap as it is now, or why there is none; nothing where none is asked for.
fn lye_now(desk: Desk) -> Option<Result<LyeFacts, String>> {
    desk.now(|open| {
        let (formula, shelf) = (&open.state().formula, open.shelf());
        let found = open.derive().sheet.lye?;
        let refused = |why| words::lye::no_lye_of(&why, formula, shelf, desk.sign);
        Some(found.map(|lye| lye_facts(formula, &lye, shelf)).map_err(refused))
    })
}

fn premixes(rows: &[PremixRow], style: SheetStyle) -> El {
    let row =
        |row: &PremixRow| el("li").child(el("strong").text(&row.active_name)).text(&words::premix_text(row, style));
    el("section")
        .class("premix")
        .child(el("h3").text(page::PREMIX))
        .child(el("ul").child(rows.iter().map(row).collect::<View>()))
        .child(el("p").class("small").text(page::PREMIX_CARE))
}

/// A head of a column.
fn head(text: &str, class: &str) -> El {
    el("th").attr("scope", "col").class(class).text(text)
}

fn phase_table(block: &WeighPhase, style: SheetStyle, ticks: Ticks) -> El {
    let caption = el("caption")
        .child(el("span").class("swatch print-only").attr("aria-hidden", "true"))
        .child(el("strong").text(&block.name))
        .child(el("span").class("heat").child(block.heat.map(|heat| style.heat(heat))))
        .child(el("span").class("print-only").text(&style.percent(block.share)))
        .child(el("span").class("sum").text(&style.figure(block.mass)));
    let heads = el("tr")
        .child(head(page::INGREDIENT, ""))
        .child(head(page::PERCENT, "number print-only"))
        .child(head(page::WEIGHED, "number"))
        .child(head(page::WEIGHED_BLANK, "print-only"))
        .child(head(page::LOT, "print-only"));
    let whole = |rect: El| rect.attr("width", "100%").attr("height", "100%");
    let band = svg("svg").class("band no-print").attr("aria-hidden", "true").child(patterned(block.kind, whole));
    let table = el("table")
        .class("weigh-table")
        .attr("data-kind", block.kind.key())
        .child(caption)
        .child(el("thead").class("print-head").child(heads))
        .child(el("tbody").child(block.rows.iter().map(|row| weigh_row(row, style, ticks)).collect::<View>()));
    el("div").class("phase").attr("data-kind", block.kind.key()).child(band).child(table)
}

fn weigh_row(row: &WeighRow, style: SheetStyle, ticks: Ticks) -> El {
    let notes = words::row_notes(row, style).into_iter().map(|text| el("small").class("row-note").text(&text));
    let line = row.line;
    let inci = row.inci.as_ref().map(|inci| el("small").class("print-only").attr("lang", "la").text(inci));
    let name = el("span")
        .class("weighed-name")
        .child(el("span").class("of").text(&row.name))
        .child(el("small").class("no-print").text(&style.percent(row.share)))
        .child(inci)
        .child(notes.collect::<View>());
    let name = el("label").child(ticks.tick(line, &row.name)).child(name);
    let weighed = el("td")
        .class("number grams")
        .child(el("strong").text(&style.figure(row.on_scale)).child(el("span").class("unit").text(&style.unit_text())))
        .child(row.as_premix.map(|part| el("small").text(&words::as_premix(part, style))));
    el("tr")
        .class_if("done", move || ticks.holds(line))
        .child(el("th").attr("scope", "row").child(name))
        .child(el("td").class("number print-only").text(&style.percent(row.share)))
        .child(weighed)
        .child(el("td").class("print-only"))
        .child(el("td").class("print-only"))
}
