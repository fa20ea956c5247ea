//! What findings compare, and what their messages tell beside it.

use crate::facts::Kilodaltons;
use crate::quantity::{Celsius, Decimal, Percent, Ph, Quantity};
use crate::sheet::EmulsionSystem;

/// A kind of microbe that preservatives are graded for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Microbe {
    /// Gram-positive bacteria.
    GramPositive,
    /// Gram-negative bacteria.
    GramNegative,
    /// Yeasts.
    Yeast,
    /// Moulds.
    Mould,
}

impl Microbe {
    /// Its name in stored answers and reports. Never changes.
    pub const fn key(self) -> &'static str {
        match self {
            Self::GramPositive => "Gram-positive bacteria",
            Self::GramNegative => "Gram-negative bacteria",
            Self::Yeast => "yeasts",
            Self::Mould => "moulds",
        }
    }
}

/// What was compared, or what it was compared with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Amount {
    /// A share.
    Percent(Percent),
    /// A pH.
    Ph(Ph),
    /// A range of pH that an estimate gives, lowest first; it is told in tenths.
    PhRange(Ph, Ph),
    /// A temperature.
    Celsius(Celsius),
    /// A plain number in hundredths: an HLB, a sum of shares of limits.
    Hundredths(i64),
    /// A molar mass.
    Kilodaltons(Kilodaltons),
    /// A number of things.
    Count(usize),
    /// Kinds of microbes.
    Microbes(Vec<Microbe>),
}

impl Amount {
    /// As stored answers and reports have it: canonical numbers with their unit. An answer counts while this text is the
    /// one that it was given at, so it stays as it is; what is shown is made in `words`.
    pub fn stored_text(&self) -> String {
        // An estimate is in tenths.
        let tenths = |ph: &Ph| format!("{}.{}", ph.units() / 100, ph.units() / 10 % 10);
        match self {
            Self::Percent(share) => format!("{} %", share.canonical()),
            Self::Ph(ph) => ph.canonical(),
            Self::PhRange(low, high) => format!("{} to {}", tenths(low), tenths(high)),
            Self::Celsius(heat) => format!("{} \u{b0}C", heat.canonical()),
            Self::Hundredths(number) => Decimal::new(*number, 2).canonical(),
            Self::Kilodaltons(mass) => mass.canonical(),
            Self::Count(count) => count.to_string(),
            Self::Microbes(kinds) => kinds.iter().map(|kind| kind.key()).collect::<Vec<_>>().join(", "),
        }
    }
}

/// What a field of a message holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum MessageField<'a> {
    /// A number with its unit.
    Amount(Amount),
    /// Names of substances or things, in order.
    Names(&'a [String]),
    /// A text of a table, a standard or the maker.
    Text(&'a str),
    /// Whether something holds.
    Flag(bool),
    /// What holds an emulsion.
    System(EmulsionSystem),
}

macro_rules! fields {
    ($($kind:ident),+ $(,)?) => {
        $(impl From<&$kind> for MessageField<'_> {
            fn from(value: &$kind) -> Self {
                Self::Amount(Amount::$kind(*value))
            }
        })+
    };
}

fields!(Percent, Ph, Celsius, Kilodaltons);

impl From<&usize> for MessageField<'_> {
    fn from(count: &usize) -> Self {
        Self::Amount(Amount::Count(*count))
    }
}

impl From<&EmulsionSystem> for MessageField<'_> {
    fn from(system: &EmulsionSystem) -> Self {
        Self::System(*system)
    }
}

impl From<&bool> for MessageField<'_> {
    fn from(holds: &bool) -> Self {
        Self::Flag(*holds)
    }
}

impl From<&&'static str> for MessageField<'_> {
    fn from(text: &&'static str) -> Self {
        Self::Text(text)
    }
}

impl<'a> From<&'a String> for MessageField<'a> {
    fn from(text: &'a String) -> Self {
        Self::Text(text)
    }
}

impl<'a> From<&'a Vec<String>> for MessageField<'a> {
    fn from(names: &'a Vec<String>) -> Self {
        Self::Names(names)
    }
}
