//! The weigh sheet as CSV for a spreadsheet.

use super::WeighPaper;
use crate::quantity::Quantity;

/// RFC 4180: records end in CR LF, a field with a comma, quote or line break stands in quotes, a quote is doubled.
///
/// Numbers have a point. A text cell that a spreadsheet would run as a formula is made harmless by an apostrophe.
/// `heads` names the eight columns.
pub fn weigh_sheet_csv(paper: &WeighPaper, heads: [&str; 8]) -> String {
    let mut out = String::new();
    record(&mut out, &heads);
    for block in &paper.blocks {
        for row in &block.rows {
            record(
                &mut out,
                &[
                    &harmless(&block.name),
                    &harmless(&row.name),
                    &harmless(row.inci.as_deref().unwrap_or_default()),
                    &row.share.canonical(),
                    &row.mass.canonical(),
                    &row.on_the_scale.unwrap_or(row.mass).canonical(),
                    &row.error.canonical(),
                    &harmless(&row.note),
                ],
            );
        }
    }
    out
}

fn record(out: &mut String, cells: &[&str]) {
    for (n, cell) in cells.iter().enumerate() {
        if n > 0 {
            out.push(',');
        }
        if cell.contains([',', '"', '\r', '\n']) {
            out.push('"');
            out.push_str(&cell.replace('"', "\"\""));
            out.push('"');
        } else {
            out.push_str(cell);
        }
    }
    out.push_str("\r\n");
}

/// Spreadsheets run cells that begin with one of these; tabs and line breaks before them are skipped by some.
/// Common practice, no source.
fn harmless(text: &str) -> String {
    let first = text.trim_start().chars().next();
    let runs = matches!(first, Some('=' | '+' | '-' | '@' | '|' | '%' | '\u{2212}' | '＝' | '＋' | '－' | '＠'))
        || text.starts_with(['\t', '\r', '\n']);
    if runs { format!("'{text}") } else { text.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Source: RFC 4180 section 2, rules 1 to 7: the record and quoting examples.
    #[test]
    fn record_follows_rfc_4180() {
        let mut out = String::new();
        record(&mut out, &["aaa", "b \r\nbb", "c\"cc", "d,d"]);
        assert_eq!(out, "aaa,\"b \r\nbb\",\"c\"\"cc\",\"d,d\"\r\n");
    }

    #[test]
    fn cell_that_starts_a_formula_is_made_harmless() {
        for text in ["=1+1", "+A1", "-A1", "@SUM(A1)", "\t=1", " =1", "\r=1"] {
            assert!(harmless(text).starts_with('\''), "{text:?}");
        }
        assert_eq!(harmless("Glycerin (vegetable)"), "Glycerin (vegetable)");
    }
}
