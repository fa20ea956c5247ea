//! The weigh sheet as CSV for a spreadsheet.

use super::file_name::is_unseen;
use super::{AsPremix, WeighFacts};
use crate::quantity::Quantity;

/// RFC 4180, with every field in quotes and a quote doubled: where another sign than the comma parts the fields, they stay
/// whole.
///
/// Numbers have a point. A text cell that a spreadsheet would run as a formula is made harmless by an apostrophe. `heads`
/// names the eight columns; `more` are the cells of the rows that stand below, such as the lye of a soap.
pub fn weigh_sheet_csv(paper: &WeighFacts, heads: [&str; 8], more: &[[String; 8]]) -> String {
    let mut out = String::new();
    record(&mut out, &heads);
    for block in &paper.blocks {
        for row in &block.rows {
            let of_it = match row.as_premix {
                Some(AsPremix::Portion(mass) | AsPremix::Rest(mass)) => mass,
                None => row.on_scale,
            };
            record(
                &mut out,
                &[
                    &harmless(&block.name),
                    &harmless(&row.name),
                    &harmless(row.inci.as_deref().unwrap_or_default()),
                    &row.share.canonical(),
                    &row.on_scale.canonical(),
                    &of_it.canonical(),
                    &row.error.canonical(),
                    &harmless(&row.note),
                ],
            );
        }
    }
    for row in more {
        record(&mut out, &row.each_ref().map(|cell| harmless(cell)).each_ref().map(String::as_str));
    }
    out
}

fn record(out: &mut String, cells: &[&str]) {
    for (n, cell) in cells.iter().enumerate() {
        let start = if n > 0 { ",\"" } else { "\"" };
        out.push_str(start);
        out.push_str(&cell.replace('"', "\"\""));
        out.push('"');
    }
    out.push_str("\r\n");
}

/// Spreadsheets run cells that begin with one of these; tabs, line breaks and what cannot be seen before them are skipped
/// by some. Common practice, no source.
fn harmless(text: &str) -> String {
    let shown: String = text.chars().filter(|c| !is_unseen(*c)).collect();
    let first = shown.trim_start().chars().next();
    let runs = matches!(
        first,
        Some(
            '=' | '+'
                | '-'
                | '@'
                | '|'
                | '%'
                | '\u{2212}'
                | '\u{fe62}'
                | '\u{fe63}'
                | '\u{fe66}'
                | '\u{fe6b}'
                | '＝'
                | '＋'
                | '－'
                | '＠'
                | '％'
                | '｜'
        )
    ) || shown.starts_with(['\t', '\r', '\n']);
    if runs { format!("'{shown}") } else { shown }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Source: RFC 4180 section 2, rules 1, 4, 5, 6 and 7: records end in CR LF, commas part the fields, each may stand in
    // quotes, one with a line break, quote or comma must, a quote in it is doubled.
    #[test]
    fn record_follows_rfc_4180() {
        let mut out = String::new();
        record(&mut out, &["aaa", "b \r\nbb", "c\"cc", "d,d", ""]);
        assert_eq!(out, "\"aaa\",\"b \r\nbb\",\"c\"\"cc\",\"d,d\",\"\"\r\n");
    }

    // Where the semicolon parts a list, a field that is not in quotes would end at it.
    #[test]
    fn field_with_another_sign_for_lists_stays_one_field() {
        let mut out = String::new();
        record(&mut out, &[&harmless(";=1+1"), "x"]);
        assert_eq!(out, "\";=1+1\",\"x\"\r\n");
    }

    #[test]
    fn cell_that_starts_a_formula_is_made_harmless() {
        for text in [
            "=1+1",
            "+A1",
            "-A1",
            "@SUM(A1)",
            "\t=1",
            " =1",
            "\r=1",
            "\u{200b}=1",
            "\u{feff}=1",
            "\u{2060}\u{200d}=1",
            "\u{202e}=1",
            "\u{ad}=1",
            "\0=1",
            "\u{b}=1",
            "\u{180e}+1",
            "\u{3164}=1",
            "\u{fe0f}@x",
            "\u{e0001}=1",
            "\u{a0}=1",
        ] {
            assert!(harmless(text).starts_with('\''), "{text:?}");
        }
        assert_eq!(harmless("Glycerin (vegetable)"), "Glycerin (vegetable)");
        assert_eq!(harmless("Rose\u{200b} water"), "Rose water");
    }
}
