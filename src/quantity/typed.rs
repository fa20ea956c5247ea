//! A quantity together with the text that it was typed as.

use super::{Kind, Quantity};

/// Why a text could not be read as a quantity. Holds facts; the sentence is made in `words`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ParseProblem {
    /// No plain decimal number.
    NotANumber,
    /// More than one `.` or `,`.
    TwoDecimalSigns,
    /// A negative number where none can be.
    Negative,
    /// More digits than can be held at all.
    TooLong,
    /// More places than the smallest unit has.
    TooFine {
        /// Decimal places that can be held.
        places: u32,
    },
    /// Text after the number that is no unit of this quantity.
    UnknownUnit,
    /// Outside the range, which is given as canonical text.
    OutOfRange {
        /// Least allowed.
        min: String,
        /// Greatest allowed.
        max: String,
    },
}

/// What came of reading a text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Parsed<T> {
    /// Nothing was typed.
    Empty,
    /// A value.
    Value(T),
    /// The one sign could be decimal or divide thousands; the maker has to say which.
    Ambiguous {
        /// Read with the sign as decimal sign; `None` where the quantity is of whole things, which cannot be meant then.
        decimal: Option<T>,
        /// Read with the sign between thousands.
        thousands: T,
    },
    /// Not readable. It counts as nothing, not as zero.
    Unread(ParseProblem),
}

/// Text exactly as typed, and what was read of it. Two are equal if their texts are.
#[derive(Debug, Clone)]
pub struct Typed<T> {
    text: String,
    reading: Parsed<T>,
}

impl<T: Quantity> Typed<T> {
    /// Reads `text` and keeps it.
    pub fn new(text: impl Into<String>) -> Self {
        let text = text.into();
        let reading = T::read(&text);
        Self { text, reading }
    }

    /// The canonical text of a value, as if it had been typed so that it cannot be ambiguous.
    pub fn of(value: T) -> Self {
        Self { text: unambiguous(value), reading: Parsed::Value(value) }
    }

    /// As typed, to the letter.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// What was read.
    pub fn reading(&self) -> &Parsed<T> {
        &self.reading
    }

    /// The value, if there is exactly one.
    pub fn value(&self) -> Option<T> {
        match self.reading {
            Parsed::Value(value) => Some(value),
            _ => None,
        }
    }

    /// True if nothing was typed.
    pub fn is_empty(&self) -> bool {
        matches!(self.reading, Parsed::Empty)
    }

    /// True if something was typed that gives no single value.
    pub fn is_unread(&self) -> bool {
        matches!(self.reading, Parsed::Unread(_) | Parsed::Ambiguous { .. })
    }

    /// The quantity this text should be, for messages.
    pub fn kind(&self) -> Kind {
        T::KIND
    }
}

/// `1.234` could mean 1234; a zero behind it (`1.2340`) says that the sign is decimal.
fn unambiguous<T: Quantity>(value: T) -> String {
    let mut text = value.canonical();
    if matches!(T::read(&text), Parsed::Ambiguous { .. }) {
        text.push('0');
    }
    text
}

impl<T: Quantity> Default for Typed<T> {
    fn default() -> Self {
        Self { text: String::new(), reading: Parsed::Empty }
    }
}

impl<T> PartialEq for Typed<T> {
    fn eq(&self, other: &Self) -> bool {
        self.text == other.text
    }
}

impl<T> Eq for Typed<T> {}
