//! Why a text could not be read: what was read, what was expected, what to do.

use crate::quantity::{Kind, ParseProblem};

/// What a quantity is called and how one is written.
pub const fn kind_example(kind: Kind) -> (&'static str, &'static str) {
    match kind {
        Kind::Percent => ("a percentage", "4.5"),
        Kind::Mass => ("a mass", "250, 1.5\u{202f}kg or 8\u{202f}oz"),
        Kind::Volume => ("a volume", "250 or 1.5\u{202f}L"),
        Kind::Density => ("a density in g/mL", "0.98"),
        Kind::Temperature => ("a temperature in \u{b0}C", "72"),
        Kind::Ph => ("a pH", "5.2"),
        Kind::Count => ("a whole number", "12"),
        Kind::Hlb => ("an HLB", "6.5"),
        Kind::Months => ("a number of months", "12"),
        Kind::Minutes => ("whole minutes", "20"),
        Kind::Saponification => ("a saponification value in mg KOH/g", "190"),
        Kind::Iodine => ("an iodine value", "95"),
        Kind::Oxidizability => ("an oxidation index", "2.5"),
        Kind::MolarMass => ("a molar mass in g/mol", "280"),
        Kind::LyeDiscount => ("a lye discount as a percentage", "5"),
        Kind::WaterRatio => ("parts of water per part of lye", "2"),
        Kind::Measure => ("a number", "9500"),
    }
}

/// One sentence about a text that could not be read.
pub fn problem(text: &str, kind: Kind, problem: &ParseProblem) -> String {
    let (name, example) = kind_example(kind);
    let shown: String = text.trim().chars().take(40).collect();
    let expected = format!("Expected {name}, such as {example}.");
    match problem {
        ParseProblem::NotANumber => format!("\u{201c}{shown}\u{201d} is not a number. {expected}"),
        ParseProblem::TwoDecimalSigns => {
            format!(
                "\u{201c}{shown}\u{201d} has more than one decimal point or comma. {expected} Group thousands with spaces or not at all."
            )
        }
        ParseProblem::Negative => format!("\u{201c}{shown}\u{201d} is below zero. {expected}"),
        ParseProblem::TooLong => format!("\u{201c}{shown}\u{201d} has too many digits. {expected}"),
        ParseProblem::TooFine { places: 0 } => {
            format!(
                "\u{201c}{shown}\u{201d} is not a whole number. {expected} Write thousands without a point or comma."
            )
        }
        ParseProblem::TooFine { places } => {
            format!(
                "\u{201c}{shown}\u{201d} has more decimals than can be kept. Use at most {places} digits after the decimal point."
            )
        }
        ParseProblem::UnknownUnit => {
            format!("\u{201c}{shown}\u{201d} has something after the number that is not a unit known here. {expected}")
        }
        ParseProblem::OutOfRange { min, max } => {
            format!("\u{201c}{shown}\u{201d} is outside {min} to {max}. {expected}")
        }
    }
}

/// The question about a text that could mean two numbers, or only the one without a decimal sign.
pub const fn ambiguous(decimal_too: bool) -> &'static str {
    match decimal_too {
        true => "This can be read in two ways. Which one do you mean?",
        false => "This is not a whole number. Did you mean thousands?",
    }
}
