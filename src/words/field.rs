//! What a field for a quantity shows.

use super::{DecimalSign, ambiguous, number, problem};
use crate::quantity::{Quantity, Reading, Typed};

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

impl FieldText {
    /// Of a typed quantity.
    pub fn of<T: Quantity>(typed: &Typed<T>, sign: DecimalSign) -> Self {
        let text = typed.text().to_owned();
        let signed = T::MIN < 0;
        match typed.reading() {
            Reading::Empty | Reading::Value(_) => Self { text, signed, ..Self::default() },
            Reading::Unread(why) => {
                Self { note: problem(&text, T::KIND, why), text, unread: true, signed, ..Self::default() }
            }
            Reading::Ambiguous { decimal, thousands } => {
                let answer = |value: &T| (number(&value.canonical(), sign), Typed::of(*value).text().to_owned());
                let answers = decimal.iter().chain([thousands]).map(answer).collect();
                Self { text, unread: true, note: ambiguous(decimal.is_some()).to_owned(), answers, signed }
            }
        }
    }
}
