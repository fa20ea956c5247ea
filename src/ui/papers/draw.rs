//! A paper as elements. Sizes of labels are true: they stand in millimetres on the drawing of the sheet.

use crate::ui::browser::go_to;
use crate::ui::dom::{El, View, el, svg};
use hundred_parts::paper::{Block, DIAMOND, EDGE, LabelLine, Labels, OPEN_JAR, Paper, Pictogram, Table};
use hundred_parts::quantity::Decimal;
use hundred_parts::words::page;
use leptos::prelude::{Get, RwSignal};
use std::cell::Cell;

/// The whole paper. `printed` says which version it is and when it was printed.
pub(in crate::ui) fn paper(paper: &Paper, printed: RwSignal<String>) -> El {
    let labels = paper.parts.iter().any(|part| matches!(part, Block::Labels(_)));
    let sections = Cell::new(0);
    el("article")
        .class(if paper.dense() { "paper dense" } else { "paper" })
        .child(el("h2").class(if labels { "hidden no-print" } else { "paper-title" }).text(&paper.title))
        .child((!labels).then(|| el("p").class("print-only small").text_of(move || printed.get())))
        .child(parts(&paper.parts, &sections))
}

fn parts(list: &[Block], sections: &Cell<usize>) -> View {
    list.iter().map(|one| part(one, sections)).collect()
}

fn section_id(n: usize) -> String {
    format!("section-{n}")
}

fn part(part: &Block, sections: &Cell<usize>) -> El {
    let items = |texts: &[String]| texts.iter().map(|text| el("li").text(text)).collect::<View>();
    match part {
        Block::Heading(1, text) => {
            let n = sections.get() + 1;
            sections.set(n);
            el("h3").id(&section_id(n)).attr("tabindex", "-1").text(&format!("{n}. {text}"))
        }
        Block::Heading(_, text) => el("h4").text(text),
        Block::Text(text) => el("p").text(text),
        Block::List(texts) => el("ul").child(items(texts)),
        Block::Columns(texts) => el("ul").class("columns").child(items(texts)),
        Block::Contents(metas) => {
            el("ol").child(metas.iter().enumerate().map(|(n, head)| entry(n + 1, head)).collect::<View>())
        }
        Block::Table(one) => table(one),
        Block::Frame(inner) => el("div").class("frame").child(parts(inner, sections)),
        Block::Pictograms(signs) => el("div").class("signs").child(signs.iter().map(pictogram).collect::<View>()),
        Block::NewPage => el("div").class("new-page"),
        Block::Labels(one) => labels(one),
    }
}

/// A line of the contents. Its address is for the printed page; here a press goes there, since addresses name places.
fn entry(n: usize, head: &str) -> El {
    let id = section_id(n);
    let go = el("a").attr("href", &format!("#{id}")).text(head).on("click", move |event| {
        event.prevent_default();
        go_to(&id);
    });
    el("li").child(go)
}

fn table(table: &Table) -> El {
    let head = |text: &String| el("th").attr("scope", "col").text(text);
    let class = |n: usize| match () {
        () if table.numbers.contains(&n) => "number",
        () if table.codes.contains(&n) => "codes",
        () => "",
    };
    let cell = |(n, text): (usize, &String)| el("td").class(class(n)).text(text);
    let row = |cells: &Vec<String>| el("tr").child(cells.iter().enumerate().map(cell).collect::<View>());
    el("table")
        .child(el("thead").child(el("tr").child(table.head.iter().map(head).collect::<View>())))
        .child(el("tbody").child(table.rows.iter().map(row).collect::<View>()))
}

fn pictogram(sign: &Pictogram) -> El {
    svg("svg")
        .attr("viewBox", "0 0 100 100")
        .attr("role", "img")
        .attr("aria-label", &format!("{}{}", page::PICTOGRAM, sign.name))
        .child(svg("path").class("diamond").attr("d", DIAMOND).attr("stroke-width", EDGE))
        .child(svg("path").class("symbol").attr("d", sign.symbol).attr("fill-rule", "evenodd"))
}

/// Micrometres as millimetres.
fn mm(micrometres: i64) -> String {
    Decimal::new(micrometres, 3).fixed()
}

/// Micrometres in the unit of the drawing, a tenth of a millimetre: letters of two such units would be too small for
/// browsers, which keep to a least size of letters.
fn units(micrometres: i64) -> String {
    Decimal::new(micrometres, 2).fixed()
}

fn labels(one: &Labels) -> El {
    let format = one.format;
    // A hair less than the page, so that rounding begins no second one.
    let (width, height) = (format.page_um.0, format.page_um.1 - 1_000);
    let place = |(n, (left, top)): (usize, (i64, i64))| {
        let side = |front: bool| {
            let lines = one.lines.iter().filter(|line| !one.two_sides || line.front == front);
            lines.map(|line| label_line(line, one.font_um())).collect::<View>()
        };
        let text = if one.two_sides {
            let sides = [true, false].map(|front| el("div").child(side(front)));
            el("div").class("label two").child(sides.into_iter().collect::<View>())
        } else {
            el("div").class("label").child(side(true))
        };
        let label = svg("foreignObject")
            .attr("x", &units(left))
            .attr("y", &units(top))
            .attr("width", &units(format.label_um.0))
            .attr("height", &units(format.label_um.1))
            .child(text);
        // All labels are alike: one is read out.
        if n == 0 { label } else { label.attr("aria-hidden", "true") }
    };
    let (x, y) = format.ruler_um();
    let ruler = svg("svg")
        .attr("x", &units(x))
        .attr("y", &units(y))
        .attr("width", &units(one.ruler_mm * 1_000))
        .attr("height", "50")
        .attr("viewBox", &format!("0 0 {} 5", one.ruler_mm))
        .attr("role", "img")
        .attr("aria-label", page::RULER)
        .child(svg("path").class("ruler").attr("d", &one.ruler()));
    let (x, y) = one.ruler_text_um();
    // The ruler is named by what is read out of it.
    let length = svg("text").class("ruler-text").attr("x", &units(x)).attr("y", &units(y)).attr("aria-hidden", "true");
    let length = length.text(&one.ruler_text());
    let sheet = svg("svg")
        .attr("width", &format!("{}mm", mm(width)))
        .attr("height", &format!("{}mm", mm(height)))
        .attr("viewBox", &format!("0 0 {} {}", units(width), units(height)))
        .attr("font-size", &units(one.font_um()))
        .child(format.places().into_iter().enumerate().map(place).collect::<View>())
        .child(ruler)
        .child(length);
    el("div").class("labels").attr("data-sheet", format.key).child(sheet)
}

fn jar() -> El {
    svg("svg")
        .class("jar")
        .attr("viewBox", "0 0 100 100")
        .attr("role", "img")
        .attr("aria-label", page::OPEN_JAR)
        .child(svg("path").class("symbol").attr("d", OPEN_JAR).attr("fill-rule", "evenodd"))
}

/// A paragraph of a label. Figures that law wants higher than the letters around them have a class of their own.
fn label_line(line: &LabelLine, font: i64) -> El {
    let text = el("p").child(line.open_jar.then(jar));
    match line.figure_um {
        Some(figure) if line.font_um(font).is_some_and(|size| size > font) => {
            text.class(&format!("figure-{}", figure / 1_000)).text(&line.text)
        }
        None if line.strong => text.child(el("strong").text(&line.text)),
        _ => text.text(&line.text),
    }
}
