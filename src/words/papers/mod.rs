//! The papers made of their facts, and the sentences that more than one of them has.

mod batch_record;
mod bundle;
mod checked;
mod hazards;
mod label;
mod lye_sheet;
mod open_points;
mod recall;
mod safety_sheet;
mod weigh_sheet;

use batch_record::record_blocks;
pub use batch_record::{RecordStyle, record_paper};
pub use bundle::bundle_paper;
pub use label::{LABEL_TOO_SMALL, caution, content, fill_sentence, gap, label_open, label_paper};
pub use lye_sheet::lye_paper;
pub use recall::{recall_paper, recall_summary};
pub use safety_sheet::safety_paper;
pub use weigh_sheet::weigh_paper;

use crate::desk::{Derived, OpenDocument};
use crate::facts::IngredientId;
use crate::formula::{Answer, Region};
use crate::paper::{
    Block, LabelFormat, Paper, RecordFacts, Table, Which, bundle_facts, label_facts, lye_facts, record_facts,
    safety_facts, weigh_facts,
};
use crate::quantity::{Celsius, Quantity};
use crate::words::clock::{Zone, utc};
use crate::words::{DecimalSign, SheetStyle, bench, lye, method, no_sheet, record};

/// Any of the papers of an open document; labels on sheets of a format.
///
/// # Errors
/// Why a weigh sheet or lye sheet cannot be made of it, in a sentence. The papers of [`Which::HANDED_OVER`] always can.
pub fn paper(which: Which, format: LabelFormat, open: &OpenDocument, derived: &Derived) -> Result<Paper, String> {
    paper_by_clock(which, format, open, derived, utc)
}

/// The same with the times of a record by another clock than that of UTC.
///
/// # Errors
/// As above.
pub fn paper_by_clock(
    which: Which,
    format: LabelFormat,
    open: &OpenDocument,
    derived: &Derived,
    zone: Zone,
) -> Result<Paper, String> {
    let (formula, shelf) = (&open.state().formula, open.shelf());
    let Derived { sheet, findings } = derived;
    let name = |id: &IngredientId| bench::substance(id.as_str(), shelf);
    let weighed = || sheet.weigh.as_ref().map_err(|why| no_sheet(why, DecimalSign::Point));
    let style = |step| SheetStyle { unit: open.state().plan.unit, sign: DecimalSign::Point, step };
    let steps = || method::steps(formula, shelf, sheet.lye.is_some());
    Ok(match which {
        Which::Weigh => {
            let weighed = weighed()?;
            weigh_paper(&weigh_facts(formula, weighed, shelf), &steps(), style(weighed.step))
        }
        Which::Lye => {
            let found = sheet.lye.as_ref().ok_or_else(|| NO_LYE_ASKED.to_owned())?;
            let found = found.as_ref().map_err(|why| lye::no_lye_of(why, formula, shelf, DecimalSign::Point))?;
            lye_paper(&lye_facts(formula, found, shelf), style(weighed()?.step))
        }
        Which::Label => {
            label_paper(&label_facts(formula, sheet, findings).with_batch(open.batch_on_label(zone)), format)
        }
        Which::Safety => safety_paper(&safety_facts(formula, sheet, findings, shelf)),
        Which::Bundle => {
            let mut facts = bundle_facts(formula, sheet, findings, shelf);
            facts.label = facts.label.with_batch(open.batch_on_label(zone));
            facts.record = record_of(open);
            let style = record_style(zone, &name);
            let record = facts.record.as_ref().map(|record| record_blocks(record, style)).unwrap_or_default();
            bundle::bundle_with_record(&facts, &steps(), record)
        }
        Which::Record => match (record_of(open), open.has_batch()) {
            (Some(facts), _) => record_paper(&facts, record_style(zone, &name)),
            (None, true) => return Err(record::RECORD_CLOSED.to_owned()),
            (None, false) => return Err(record::NO_RECORD.to_owned()),
        },
    })
}

fn record_style<'a>(zone: Zone, name: &'a dyn Fn(&IngredientId) -> String) -> RecordStyle<'a> {
    RecordStyle { zone, name, sign: DecimalSign::Point }
}

/// What is told of the record of the batch that is worked on, where it is open or came with the formula and can be read.
pub fn record_of(open: &OpenDocument) -> Option<RecordFacts> {
    let body = open.record_body()?;
    let title = &open.state().formula.about.title;
    let record = body.record().ok()?;
    Some(record_facts(&record, &crate::desk::check(body), title))
}

const NO_LYE_ASKED: &str = "Nothing in this formula is to be saponified, so there is no lye sheet.";

/// The sentence that stands on every paper.
pub const NO_ASSESSMENT: &str = "This paper is not a safety assessment and does not say that anything is safe. Local law, the suppliers\u{2019} documents and a qualified assessor take precedence over it; in an emergency, so does a poison centre or a doctor.";

/// What the tag on values and sources means; stands on every paper that has it.
const UNVERIFIED: &str = "\u{201c}Unverified\u{201d} means that the source was not read.";

/// A region by name.
pub const fn region(region: Region) -> &'static str {
    match region {
        Region::Eu => "European Union and Northern Ireland",
        Region::Gb => "Great Britain",
        Region::Us => "United States",
        Region::Elsewhere => "another country",
    }
}

/// Who took a Stop on, and why.
pub fn answered(answer: &Answer) -> String {
    let day = answer.day.map_or_else(String::new, |day| format!(", {day}"));
    format!("Accepted by {}{day}: {}", answer.person, answer.reason)
}

fn foot(title: &str) -> String {
    format!("{title} \u{b7} {}", "not a safety assessment")
}

fn degrees(heat: Celsius) -> String {
    format!("{}\u{202f}\u{b0}C", heat.canonical())
}

fn table(head: &[&str], numbers: &[usize], rows: Vec<Vec<String>>) -> Block {
    table_with_codes(head, numbers, &[], rows)
}

fn table_with_codes(head: &[&str], numbers: &[usize], codes: &[usize], rows: Vec<Vec<String>>) -> Block {
    let head = head.iter().map(|text| (*text).to_owned()).collect();
    Block::Table(Table { head, numbers: numbers.to_vec(), codes: codes.to_vec(), rows })
}
