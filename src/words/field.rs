//! What a field for a quantity shows.

use super::{DecimalSign, ambiguous, number, page, problem};
use crate::formula::Share;
use crate::quantity::{Parsed, Percent, Quantity, Typed};

/// A field: its text, and what is to be said about it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct FieldText {
    /// As typed.
    pub text: String,
    /// True if it could not be read.
    pub unread: bool,
    /// What is wrong with it, or the question about it.
    pub note: String,
    /// Answers to the question: what the maker sees, and the text that it stands for.
    pub answers: Vec<(String, String)>,
    /// True if the quantity can be below zero: the keys that tablets offer for numbers have no minus.
    pub signed: bool,
}

/// The share of a line. One that fills up shows what it comes to; a word for filling up shows what it is going to do.
pub fn share_text(share: &Share, comes_to: Option<Percent>, sign: DecimalSign) -> FieldText {
    match share.typed() {
        None => FieldText {
            text: comes_to.map(|share| number(&share.canonical(), sign)).unwrap_or_default(),
            ..FieldText::default()
        },
        Some(typed) if share.will_fill_up() => {
            FieldText { text: typed.text().to_owned(), note: page::WILL_FILL_UP.to_owned(), ..FieldText::default() }
        }
        Some(typed) => FieldText::of(typed, sign),
    }
}

impl FieldText {
    /// Of a typed quantity.
    pub fn of<T: Quantity>(typed: &Typed<T>, sign: DecimalSign) -> Self {
        let text = typed.text().to_owned();
        let signed = T::MIN < 0;
        match typed.reading() {
            Parsed::Empty | Parsed::Value(_) => Self { text, signed, ..Self::default() },
            Parsed::Unread(why) => {
                Self { note: problem(&text, T::KIND, why), text, unread: true, signed, ..Self::default() }
            }
            Parsed::Ambiguous { decimal, thousands } => {
                let answer = |value: &T| (number(&value.canonical(), sign), Typed::of(*value).text().to_owned());
                let answers = decimal.iter().chain([thousands]).map(answer).collect();
                Self { text, unread: true, note: ambiguous(decimal.is_some()).to_owned(), answers, signed }
            }
        }
    }
}
