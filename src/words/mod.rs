//! Every word that the page, the papers and the command line show, in one place. English for now.
//!
//! Facts come in, sentences go out; nothing is computed or decided here.

pub mod annexes;
mod answers;
pub mod batch_code;
pub mod batch_record;
pub mod bench;
pub mod catalogue;
pub mod chemistry;
pub mod clock;
mod compare;
pub mod cost;
pub mod course;
pub mod dose;
mod fat_card;
pub mod fats;
mod field;
mod findings;
pub mod keys;
mod law;
pub mod ledger;
mod lots;
pub mod lye;
pub mod meter;
pub mod method;
mod names;
pub mod oils;
pub mod page;
mod paper_fields;
mod papers;
pub mod photographs;
pub mod pictures;
pub mod plan;
pub mod portions;
mod problems;
pub mod proof;
pub mod record;
mod safety;
pub mod scale;
mod sheet;
mod shelf;
mod stamp;
pub mod starting_points;
pub mod stock;
pub mod storage_notices;
pub mod stove;
pub mod swap;
mod totals;
pub mod trace;
pub mod versions;

pub use answers::{add_to_shelf, footnote, graded, remedy, standing, verification};
pub use compare::{change_text, compared_share, comparison_text, shelf_adds};
pub use field::{FieldText, share_text};
pub use findings::{finding, no_sheet, scale_problem};
pub use law::{differs, known_to};
pub use lots::{
    MEND_CERTIFICATE, MEND_NAMES, MEND_STATEMENT, and_more, certificate_limit, certificate_read, composition_read,
    contained, lot, lot_choice, lots, missing_lot, newest_lot,
};
pub use names::{choice_name, line_text};
pub use paper_fields::{NANO, about_paper, label_format, paper_field, paper_field_text, print_paper, which_paper};
pub use papers::{
    LABEL_TOO_SMALL, NO_ASSESSMENT, RecordStyle, answered, bundle_paper, caution, content, fill_sentence, gap,
    label_open, label_paper, lye_paper, paper, paper_by_clock, recall_paper, recall_summary, record_of, record_paper,
    region, safety_paper, weigh_paper,
};
pub use problems::{ambiguous, kind_example, problem};
pub use safety::specimens;
pub use sheet::{
    SheetStyle, as_premix, asked_text, phase_heat, premix_text, rounding_of, row_notes, weigh_csv, worst_text,
};
pub use shelf::{shelf_field, shelf_note};
pub use stamp::{stamp, stamp_with};
pub use totals::{parts_text, phase_total_text, shared_cells, total_text};

use crate::quantity::{Decimal, Mass, MassUnit, Percent, Quantity};

/// The sign between whole and fraction.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum DecimalSign {
    /// 1.5
    #[default]
    Point,
    /// 1,5
    Comma,
}

/// Canonical decimal text as shown: the locale's sign and a true minus.
pub fn number(canonical: &str, sign: DecimalSign) -> String {
    let text = canonical.replace('-', "\u{2212}");
    match sign {
        DecimalSign::Point => text,
        DecimalSign::Comma => text.replace('.', ","),
    }
}

/// A quantity and its unit with a thin space between, at which no line ends.
pub fn with_unit(value: impl Quantity, unit: &str, sign: DecimalSign) -> String {
    format!("{}\u{202f}{unit}", number(&value.canonical(), sign))
}

/// The name of a unit of mass.
pub const fn unit(unit: MassUnit) -> &'static str {
    match unit {
        MassUnit::Gram => "g",
        MassUnit::Kilogram => "kg",
        MassUnit::Ounce => "oz",
    }
}

/// A mass in the unit that the maker chose.
pub fn mass(mass: Mass, in_unit: MassUnit, sign: DecimalSign) -> String {
    format!("{}\u{202f}{}", number(&mass.number_in(in_unit), sign), unit(in_unit))
}

/// A quantity to so many places at the most, without its unit.
fn rounded(value: impl Quantity, places: u32, sign: DecimalSign) -> String {
    number(&Decimal::of(value).rounded(places).canonical(), sign)
}

/// A quantity to one place, which is shown even if it is a nought: 5.0.
fn one_place(value: impl Quantity, sign: DecimalSign) -> String {
    number(&Decimal::of(value).rounded(1).fixed(), sign)
}

/// A value with its unit, as files have it, with the space that the page has.
fn narrow(text: &str) -> String {
    text.replace(" %", "\u{202f}%").replace(" \u{b0}C", "\u{202f}\u{b0}C")
}

/// A value as it stands in a sentence: a point and a true minus.
fn number_text(value: impl Quantity) -> String {
    number(&value.canonical(), DecimalSign::Point)
}

fn percent_text(share: Percent) -> String {
    format!("{}\u{202f}%", number_text(share))
}

/// To the milligram, which is finer than any scale here shows.
fn grams(mass: Mass, sign: DecimalSign) -> String {
    let milligrams = Decimal::of(mass).rounded(3).canonical();
    let shown = if milligrams == "0" { mass.canonical() } else { milligrams };
    format!("{}\u{202f}g", number(&shown, sign))
}
