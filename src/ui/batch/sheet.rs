//! The weigh sheet on screen and on paper.

use crate::ui::browser;
use crate::ui::desk::Desk;
use crate::ui::dom::{El, View, dynamic, el};
use crate::ui::field::button;
use hundred_parts::paper::{LyeFacts, PremixRow, WeighFacts, WeighPhase, WeighRow, file_name, lye_facts, weigh_facts};
use hundred_parts::sheet::NoSheet;
use hundred_parts::words::{self, SheetStyle, page};
use leptos::prelude::*;

/// The sheet, or what is missing for it.
pub(super) fn sheet(desk: Desk) -> View {
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
        Ok((paper, style)) => shown(desk, paper, *style).into(),
    })
}

fn shown(desk: Desk, paper: &WeighFacts, style: SheetStyle) -> El {
    let csv_paper = paper.clone();
    let csv = move || {
        let name = file_name(&csv_paper.title, page::NAMELESS_FILE, page::CSV_END);
        browser::download(
            &name,
            "text/csv",
            &words::weigh_csv(&csv_paper, lye_now(desk).as_ref().map(|lye| lye.as_ref())),
        );
    };
    let printed_at = RwSignal::new(String::new());
    let print = move || {
        let number = desk.save_version();
        printed_at.set(format!("{} {number} \u{2013} {}", page::VERSIONS, browser::local_time(browser::now())));
        request_animation_frame(browser::print);
    };
    let title = el("h2")
        .id("weigh-title")
        .text(page::WEIGH_SHEET)
        .child(el("span").class("print-only").text(&format!(" \u{2013} {}", paper.title)));
    let mass = el("p")
        .class("batch-mass")
        .text(page::BATCH_MASS)
        .text(" ")
        .child(el("strong").text(&style.mass(paper.batch)))
        .child(words::asked_text(paper, style));
    let actions = el("div")
        .class("actions no-print")
        .child(button(page::PRINT).class("primary").press(print))
        .child(button(page::CSV).press(csv));
    let head = el("div")
        .class("weigh-head")
        .child(title)
        .child(mass)
        .child(el("p").class("small").child(words::worst_text(paper, style)))
        .child(el("p").class("small print-only").text_of(move || printed_at.get()))
        .child(actions);
    el("section")
        .class("card weigh")
        .attr("aria-labelledby", "weigh-title")
        .child(head)
        .child((!paper.premixes.is_empty()).then(|| premixes(&paper.premixes, style)))
        .child(paper.blocks.iter().map(|block| phase_table(block, style)).collect::<View>())
        .child(el("p").class("small").text(page::PRINT_CARE))
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

fn phase_table(block: &WeighPhase, style: SheetStyle) -> El {
    let caption = el("caption")
        .child(el("span").class("swatch").attr("aria-hidden", "true"))
        .text(&block.name)
        .child(words::phase_heat(block, style));
    let metas = el("tr")
        .child(head(page::INGREDIENT, ""))
        .child(head(page::PERCENT, "number"))
        .child(head(page::WEIGHED, "number"))
        .child(head(page::LOT, "print-only"))
        .child(head(page::INITIALS, "print-only"));
    let foot = el("tr")
        .child(el("th").attr("scope", "row").text(page::TOTAL))
        .child(el("td").class("number").text(&style.percent(block.share)))
        .child(el("td").class("number").text(&style.mass(block.mass)))
        .child(el("td").class("print-only"))
        .child(el("td").class("print-only"));
    el("table")
        .class("weigh-table")
        .attr("data-kind", block.kind.key())
        .child(caption)
        .child(el("thead").child(metas))
        .child(el("tbody").child(block.rows.iter().map(|row| weigh_row(row, style)).collect::<View>()))
        .child(el("tfoot").child(foot))
}

fn weigh_row(row: &WeighRow, style: SheetStyle) -> El {
    let notes = words::row_notes(row, style).into_iter().map(|text| el("small").class("row-note").text(&text));
    let name = el("th")
        .attr("scope", "row")
        .text(&row.name)
        .child(row.inci.as_ref().map(|inci| el("small").attr("lang", "la").text(inci)))
        .child(notes.collect::<View>());
    let weighed = el("td")
        .class("number grams")
        .child(el("strong").text(&style.mass(row.on_scale)))
        .child(row.as_premix.map(|part| el("small").text(&words::as_premix(part, style))));
    el("tr")
        .child(name)
        .child(el("td").class("number").text(&style.percent(row.share)))
        .child(weighed)
        .child(el("td").class("print-only"))
        .child(el("td").class("print-only"))
}
