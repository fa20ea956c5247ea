//! A paper as one HTML page that needs nothing else and prints on A4 or Letter, page n of m.

use hundred_parts::paper::{Block, DIAMOND, EDGE, Labels, OPEN_JAR, Paper, Pictogram, Table};
use hundred_parts::quantity::Decimal;
use hundred_parts::words::page;
use std::fmt::Write;

/// The whole page.
pub(crate) fn page(paper: &Paper) -> String {
    let sheet = paper.parts.iter().find_map(|part| match part {
        Block::Labels(labels) => Some(labels),
        _ => None,
    });
    let size = sheet.map_or_else(String::new, |labels| {
        let (width, height) = labels.format.page_um;
        format!("body {{ max-width: none; margin: 0; padding: 0 !important }} @page {{ size: {0} {1} }} @page:first {{ margin: 0; @bottom-left {{ content: none }} @bottom-right {{ content: none }} }}", mm(width), mm(height))
    });
    let size = if paper.dense() { format!("{size}{DENSE}") } else { size };
    let mut body = String::new();
    if sheet.is_none() {
        let _ = write!(body, "<h1>{}</h1>", escape(&paper.title));
    }
    let mut number = 0;
    parts(&paper.parts, &mut number, &mut body);
    format!(
        "<!doctype html><html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\"><title>{}</title><style>{STYLE}{size}@page {{ @bottom-left {{ content: \"{}\"; font: 8pt system-ui, sans-serif }} }}</style></head><body>{body}</body></html>\n",
        escape(&paper.title),
        quoted(&paper.foot),
    )
}

/// Black on white; table heads repeat, rows and frames are not split.
const STYLE: &str = "\
@page { margin: 16mm 16mm 18mm; @bottom-right { content: \"page \" counter(page) \" of \" counter(pages); font: 8pt system-ui, sans-serif } }\
body { font: 9.5pt/1.3 system-ui, sans-serif; color: #000; background: #fff; max-width: 178mm; margin: 0 auto }\
h1 { font-size: 16pt; margin: 0 0 4mm } h2 { font-size: 12pt; margin: 5mm 0 2mm } h3 { font-size: 10.5pt; margin: 3mm 0 1mm }\
h2, h3 { break-after: avoid } p { margin: 0 0 2mm } ul, ol { margin: 0 0 2mm; padding-left: 5mm }\
table { border-collapse: collapse; width: 100%; margin: 0 0 3mm } thead { display: table-header-group } tr { break-inside: avoid }\
th, td { border: 0.2mm solid #000; padding: 0.8mm 1.5mm; text-align: left; vertical-align: top; overflow-wrap: break-word } td.n { text-align: right; white-space: nowrap; font-variant-numeric: tabular-nums } td.c { white-space: pre }\
.frame { border: 0.5mm solid #000; padding: 2mm 3mm; margin: 0 0 3mm; break-inside: avoid } .new { break-before: page }\
.signs { float: left; margin: 0 3mm 1mm 0 } .signs svg { width: 12mm; height: 12mm } .frame { font-size: 8.5pt } .frame h3 { margin-top: 0 }\
.sheet { position: relative; max-width: none } .label { position: absolute; box-sizing: border-box; border: 0.1mm dashed #999; padding: 2mm; overflow: hidden }\
.label.two { display: grid; grid-template-columns: 38fr 62fr; padding-inline: 0 } .label.two > div { min-width: 0; padding-inline: 2mm } .label.two > div + div { border-left: 0.2mm solid #000 } .label p { margin: 0 0 0.3mm; line-height: 1.2 } .jar { width: 1.7em; height: 1.7em; vertical-align: middle } .ruler { position: absolute }\
@media print { body { padding-right: 0.6mm } } @media screen { body { padding: 8mm } }";

/// A paper that is to keep to a page: small letters, narrow margins, lists in columns.
const DENSE: &str = "\
@page { margin: 8mm 12mm 11mm } body { font-size: 8pt; line-height: 1.15; max-width: 192mm } h1 { font-size: 14pt; margin-bottom: 2mm }\
h2 { font-size: 10.5pt; margin: 2.5mm 0 1mm } h3 { font-size: 9pt; margin: 1.5mm 0 0.5mm } p { margin-bottom: 1mm } ul { margin-bottom: 1mm }\
th, td { padding-block: 0.4mm } table { margin-bottom: 1.5mm } .columns { columns: 2; column-gap: 6mm } .frame { font-size: 8pt } li { break-inside: avoid } .frame { padding: 1.2mm 3mm; margin-bottom: 1.5mm } .frame p:last-child { margin: 0 }";

fn parts(list: &[Block], number: &mut usize, out: &mut String) {
    for part in list {
        // Writing to a string cannot fail.
        let _ = match part {
            Block::Heading(1, text) => {
                *number += 1;
                write!(out, "<h2 id=\"s{number}\">{number}. {}</h2>", escape(text))
            }
            Block::Heading(_, text) => write!(out, "<h3>{}</h3>", escape(text)),
            Block::Text(text) => write!(out, "<p>{}</p>", escape(text)),
            Block::List(items) => {
                let items: String = items.iter().map(|item| format!("<li>{}</li>", escape(item))).collect();
                write!(out, "<ul>{items}</ul>")
            }
            Block::Columns(items) => {
                let items: String = items.iter().map(|item| format!("<li>{}</li>", escape(item))).collect();
                write!(out, "<ul class=\"columns\">{items}</ul>")
            }
            Block::Contents(heads) => {
                let items: String = heads
                    .iter()
                    .enumerate()
                    .map(|(n, head)| format!("<li><a href=\"#s{}\">{}</a></li>", n + 1, escape(head)))
                    .collect();
                write!(out, "<ol>{items}</ol>")
            }
            Block::Table(one) => table(one, out),
            Block::Frame(inner) => {
                out.push_str("<div class=\"frame\">");
                parts(inner, number, out);
                write!(out, "</div>")
            }
            Block::Pictograms(signs) => {
                out.push_str("<div class=\"signs\">");
                signs.iter().for_each(|sign| pictogram(sign, out));
                write!(out, "</div>")
            }
            Block::NewPage => write!(out, "<div class=\"new\"></div>"),
            Block::Labels(one) => labels(one, out),
        };
    }
}

fn table(table: &Table, out: &mut String) -> std::fmt::Result {
    let head: String = table.head.iter().map(|cell| format!("<th scope=\"col\">{}</th>", escape(cell))).collect();
    write!(out, "<table><thead><tr>{head}</tr></thead><tbody>")?;
    for row in &table.rows {
        out.push_str("<tr>");
        for (n, cell) in row.iter().enumerate() {
            let class = match () {
                () if table.numbers.contains(&n) => " class=\"n\"",
                () if table.codes.contains(&n) => " class=\"c\"",
                () => "",
            };
            write!(out, "<td{class}>{}</td>", escape(cell))?;
        }
        out.push_str("</tr>");
    }
    write!(out, "</tbody></table>")
}

fn pictogram(sign: &Pictogram, out: &mut String) {
    let _ = write!(
        out,
        "<svg viewBox=\"0 0 100 100\" role=\"img\" aria-label=\"{}\"><path d=\"{DIAMOND}\" fill=\"#fff\" stroke=\"#d00\" stroke-width=\"{EDGE}\"/><path d=\"{}\" fill=\"#000\" fill-rule=\"evenodd\"/></svg>",
        escape(sign.name),
        sign.symbol
    );
}

/// The open jar of a label, before the months.
fn jar() -> String {
    format!(
        "<svg class=\"jar\" viewBox=\"0 0 100 100\" role=\"img\" aria-label=\"{}\"><path d=\"{OPEN_JAR}\" fill=\"#000\" fill-rule=\"evenodd\"/></svg> ",
        escape(page::OPEN_JAR)
    )
}

/// The lines of one side of a label; all of them where it has one side.
fn lines(one: &Labels, front: bool, out: &mut String) -> std::fmt::Result {
    let font = one.font_um();
    for line in one.lines.iter().filter(|line| !one.two_sides || line.front == front) {
        let style = line.font_um(font).map_or_else(String::new, |size| format!(" style=\"font-size:{}\"", mm(size)));
        let text = escape(&line.text);
        let text = if line.open_jar { format!("{}{text}", jar()) } else { text };
        let text = if line.strong { format!("<strong>{text}</strong>") } else { text };
        write!(out, "<p{style}>{text}</p>")?;
    }
    Ok(())
}

/// Labels in true millimetres, and a ruler of whole centimetres at the foot of the page.
fn labels(one: &Labels, out: &mut String) -> std::fmt::Result {
    let format = one.format;
    write!(
        out,
        "<div class=\"sheet\" style=\"width:{};height:{}\">",
        mm(format.page_um.0),
        mm(format.page_um.1 - 1_000)
    )?;
    let font = one.font_um();
    for (left, top) in format.places() {
        write!(
            out,
            "<div class=\"label{}\" style=\"left:{};top:{};width:{};height:{};font-size:{}\">",
            if one.two_sides { " two" } else { "" },
            mm(left),
            mm(top),
            mm(format.label_um.0),
            mm(format.label_um.1),
            mm(font)
        )?;
        if one.two_sides {
            out.push_str("<div>");
        }
        lines(one, true, out)?;
        if one.two_sides {
            out.push_str("</div><div>");
            lines(one, false, out)?;
            out.push_str("</div>");
        }
        out.push_str("</div>");
    }
    let (x, y) = format.ruler_um();
    let length = one.ruler_mm;
    write!(
        out,
        "<svg class=\"ruler\" style=\"left:{};top:{};width:{length}mm;height:5mm\" viewBox=\"0 0 {length} 5\" role=\"img\" aria-label=\"ruler of {length} mm\"><path d=\"{}\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.2\"/></svg><div class=\"ruler\" style=\"left:{};top:{}\">{}</div></div>",
        mm(x),
        mm(y),
        one.ruler(),
        mm(one.ruler_text_um().0),
        mm(y),
        escape(&one.ruler_text())
    )
}

/// Micrometres as millimetres for a style.
fn mm(micrometres: i64) -> String {
    format!("{}mm", Decimal::new(micrometres, 3).fixed())
}

/// Text as it may stand in HTML, in an element or in a quoted attribute.
fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\n' => out.push_str("<br>"),
            c if c.is_control() => {}
            c => out.push(c),
        }
    }
    out
}

/// Text as it may stand in a quoted string of a style sheet: everything but letters, digits and spaces by its number.
fn quoted(text: &str) -> String {
    let mut out = String::new();
    for c in text.chars() {
        if c.is_alphanumeric() || c == ' ' {
            out.push(c);
        } else {
            let _ = write!(out, "\\{:x} ", u32::from(c));
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn escape_leaves_no_markup() {
        assert_eq!(escape("<i a=\"b\" c='d'>&\u{7}\n"), "&lt;i a=&quot;b&quot; c=&#39;d&#39;&gt;&amp;<br>");
    }

    #[test]
    fn quoted_cannot_end_its_string_or_its_style() {
        let text = quoted("a\"}</style><b>");
        assert!(!text.contains(['"', '<', '>', '}']), "{text}");
    }

    #[test]
    fn millimetres_have_three_places() {
        assert_eq!(mm(99_100), "99.100mm");
        assert_eq!(mm(4_050), "4.050mm");
    }
}
