//! The words of the place where papers are made: its fields and its sheets of labels.

use super::{DecimalSign, FieldText, lye, number, oils, page, record};
use crate::facts::Months;
use crate::formula::{PaperField, Papers};
use crate::paper::{LabelFormat, Which};
use crate::quantity::{Decimal, Typed};

/// What a text of the papers is called.
pub const fn paper_field(field: PaperField) -> &'static str {
    match field {
        PaperField::Responsible => "Responsible person: name of a person or company",
        PaperField::Address => "Address of the responsible person",
        PaperField::Origin => "Country of origin, if imported into the region where you sell it",
        PaperField::Contact => "Contact for adverse events",
        PaperField::Function => "What it is for",
        PaperField::NetContent => "Net content of one pack, such as 50\u{a0}g or 100\u{a0}mL",
        PaperField::BatchCode => "Batch code",
        PaperField::BestBefore => "Best-before date, day or month",
        PaperField::Durability => "Shelf life unopened, months",
        PaperField::AfterOpening => "Shelf life after opening, months",
        PaperField::Storage => "How to store it",
        PaperField::Nano => "Are the powders in nano form?",
        PaperField::WaterActivity => "Water activity as measured, 0 to 1",
        PaperField::ChallengeTest => "Preservation test passed: what, when, where",
        PaperField::Stability => "Stability test: progress",
        PaperField::Assessor => "Safety assessor",
        PaperField::Notified => "Notification number",
    }
}

/// The answers about powders in nano form, as kept and as shown.
pub const NANO: [(&str, &str); 3] = [("", "not known"), ("yes", "yes"), ("no", "no")];

/// What the field of such a text shows. Where a number is wanted and none could be read, it says so.
pub fn paper_field_text(field: PaperField, papers: &Papers, sign: DecimalSign) -> FieldText {
    let text = papers.text(field).to_owned();
    let note = match field {
        PaperField::Durability | PaperField::AfterOpening => return FieldText::of(&Typed::<Months>::new(text), sign),
        PaperField::NetContent if papers.content().is_none() => {
            "Write a mass or a volume with its unit: 50\u{202f}g, 100\u{202f}mL."
        }
        PaperField::WaterActivity if papers.water_activity().is_none() => "Write a number from 0 to 1, such as 0.72.",
        _ => "",
    };
    let unread = !note.is_empty() && !text.trim().is_empty();
    FieldText { text, unread, note: if unread { note.to_owned() } else { String::new() }, ..FieldText::default() }
}

/// What a paper is called.
pub const fn which_paper(which: Which) -> &'static str {
    match which {
        Which::Label => "Label",
        Which::Safety => "Safety sheet",
        Which::Bundle => "Assessor\u{2019}s bundle",
        Which::Weigh => page::WEIGH_SHEET,
        Which::Lye => lye::TITLE,
        Which::Record => "Batch record",
    }
}

/// What its button says.
pub const fn print_paper(which: Which) -> &'static str {
    match which {
        Which::Label => "Print label",
        Which::Safety => "Print safety sheet",
        Which::Bundle => "Print bundle",
        Which::Weigh => page::PRINT,
        Which::Lye => oils::PRINT_LYE,
        Which::Record => record::PRINT_RECORD,
    }
}

/// What it is for, in a sentence.
pub const fn about_paper(which: Which) -> &'static str {
    match which {
        Which::Label => {
            "Labels at actual size, all the same, on the sheet you choose. Anything that does not fit in legible type goes on a leaflet."
        }
        Which::Safety => "For whoever uses the product or works beside you: cautions first, then what was not checked.",
        Which::Bundle => {
            "What a qualified assessor asks for, as far as this program has it. It says what is missing and gives no verdict."
        }
        Which::Weigh => "What goes onto the scale, phase by phase, with room for lots and initials.",
        Which::Lye => lye::NO_LOTION,
        Which::Record => {
            "What happened to the last batch, in order, with its lots, its yield and its seal. Entries are corrected under Batch."
        }
    }
}

/// A sheet of labels by its page, how many it holds, and their size.
pub fn label_format(format: &LabelFormat, sign: DecimalSign) -> String {
    let page = if format.page_um.0 == 210_000 { "A4" } else { "Letter" };
    let size = |um: i64| number(&Decimal::new(um, 3).canonical(), sign);
    let (width, height) = (size(format.label_um.0), size(format.label_um.1));
    match format.grid.0 * format.grid.1 {
        1 => format!("{page}, one large label of {width} \u{d7} {height}\u{a0}mm"),
        count => format!("{page}, {count} labels of {width} \u{d7} {height}\u{a0}mm"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::paper::LABEL_FORMATS;

    #[test]
    fn paper_fields_say_what_could_not_be_read() {
        let mut papers = Papers::default();
        let shown = |papers: &Papers, field| paper_field_text(field, papers, DecimalSign::Point);
        for field in PaperField::ALL {
            assert!(!shown(&papers, *field).unread && !paper_field(*field).is_empty(), "an empty field is no mistake");
        }
        for (field, bad, good) in [
            (PaperField::NetContent, "a jar", "50 g"),
            (PaperField::WaterActivity, "72", "0,72"),
            (PaperField::Durability, "long", "30"),
            (PaperField::AfterOpening, "6.5", "6"),
        ] {
            papers.set(field, bad.into());
            assert!(shown(&papers, field).unread && !shown(&papers, field).note.is_empty(), "{bad}");
            papers.set(field, good.into());
            assert_eq!(shown(&papers, field), FieldText { text: good.into(), ..FieldText::default() });
        }
    }

    #[test]
    fn label_formats_are_named_by_page_count_and_size() {
        let name = |n: usize| label_format(&LABEL_FORMATS[n], DecimalSign::Comma);
        assert_eq!(name(0), "A4, 14 labels of 99,1 \u{d7} 38,1\u{a0}mm");
        assert_eq!(name(5), "Letter, one large label of 180 \u{d7} 120\u{a0}mm");
    }
}
