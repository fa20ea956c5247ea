//! The recall sheet.

use super::{NO_ASSESSMENT, foot, table};
use crate::paper::{Block, Paper, RecallBatch, RecallFacts};
use crate::shelf::LotField;
use crate::words::clock::Zone;
use crate::words::{DecimalSign, grams, page, stock, trace};

const CARE: &str = "Stop using the lot, set its packs apart, and ask the supplier. Local law says whom you must tell, and how soon; a released batch may be with others.";
const CARE_INSIDE: &str =
    "Stop using the lot, set its packs apart, and ask the supplier. Local law says whom you must tell, and how soon.";

/// The sheet by the clock where the maker is.
pub fn recall_paper(facts: &RecallFacts, zone: Zone, sign: DecimalSign) -> Paper {
    let title = format!("Recall sheet: lot {} of {}", facts.lot, facts.material);
    let mut parts =
        vec![Block::Frame(vec![Block::Text(if facts.may_be_out() { CARE } else { CARE_INSIDE }.to_owned())])];
    parts.push(Block::Heading(1, "The lot".to_owned()));
    parts.push(table(&["Of the lot", ""], &[], delivery(facts)));
    parts.push(Block::Heading(1, "Batches that hold it".to_owned()));
    parts.push(Block::Text(recall_summary(facts, zone, sign)));
    if !facts.batches.is_empty() {
        let head = ["Batch", "Product", "Begun", "Of this lot", "Packs", "Filled", "Decision", "Found, set apart"];
        parts.push(table(&head, &[3, 4, 5], facts.batches.iter().map(|row| batch(row, zone, sign)).collect()));
    }
    if facts.has_planned() {
        parts.push(Block::Text(trace::PLANNED_SAYS.to_owned()));
    }
    parts.push(Block::Heading(1, "All lots in these batches".to_owned()));
    let lots = |row: &RecallBatch| format!("{}: {}", trace::code(&row.batch), trace::lots_of(&row.batch));
    parts.push(Block::List(facts.batches.iter().map(lots).collect()));
    parts.push(table(&["Checked by", "Date", "Signature"], &[], vec![vec!["\u{a0}\n\u{a0}".to_owned(); 3]]));
    parts.push(Block::Text(NO_ASSESSMENT.to_owned()));
    Paper { foot: foot(&format!("Recall: lot {}", facts.lot)), title, parts }
}

fn delivery(facts: &RecallFacts) -> Vec<Vec<String>> {
    let row = |name: &str, text: &str| vec![name.to_owned(), text.to_owned()];
    let mut rows = vec![row("Material", &facts.material), row(page::LOT, &facts.lot)];
    let fields = [
        LotField::Supplier,
        LotField::Received,
        LotField::Opened,
        LotField::Expiry,
        LotField::Document,
        LotField::Amount,
    ];
    match &facts.delivery {
        None => rows.push(row("Delivery", "This lot does not stand on the shelf.")),
        Some(lot) => {
            for field in fields {
                let text = lot.text(field).trim();
                rows.push(row(stock::lot_field(field), if text.is_empty() { "not entered" } else { text }));
            }
        }
    }
    rows
}

/// How many batches and packs, and when they were begun.
pub fn recall_summary(facts: &RecallFacts, zone: Zone, sign: DecimalSign) -> String {
    let Some((first, last)) = facts.span else { return trace::NOWHERE.to_owned() };
    let days = (crate::words::clock::day(first, zone), crate::words::clock::day(last, zone));
    let when = if days.0 == days.1 { format!("on {}", days.0) } else { format!("from {} to {}", days.0, days.1) };
    let batches =
        if facts.batches.len() == 1 { "1 batch".to_owned() } else { format!("{} batches", facts.batches.len()) };
    let packs = if facts.packs == 1 { "1 pack".to_owned() } else { format!("{} packs", facts.packs) };
    format!("{batches}, begun {when}; {packs}, {} in all.", grams(facts.filled, sign))
}

fn batch(row: &RecallBatch, zone: Zone, sign: DecimalSign) -> Vec<String> {
    let batch = &row.batch;
    vec![
        trace::code(batch),
        trace::product(batch),
        trace::made_on(batch, zone),
        trace::mass(row.mass, sign),
        batch.packs.to_string(),
        grams(batch.filled, sign),
        trace::stage(batch),
        String::new(),
    ]
}
