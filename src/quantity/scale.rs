//! What all quantities share: a smallest unit, a range, and how typed text becomes one.

use super::{Decimal, Number, ParseProblem, Parsed, read_number};

/// Which quantity a message is about. The words for it, with examples, are in `words`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A share of the whole formula.
    Percent,
    /// A weighed amount.
    Mass,
    /// A filled volume.
    Volume,
    /// Mass per volume.
    Density,
    /// A temperature reading.
    Temperature,
    /// Acidity.
    Ph,
    /// A number of whole things.
    Count,
    /// Hydrophilic-lipophilic balance.
    Hlb,
    /// A shelf life in months.
    Months,
    /// How long something is held or mixed.
    Minutes,
    /// Saponification value of a fat.
    Saponification,
    /// Iodine value of a fat.
    Iodine,
    /// How readily a fat oxidises.
    Oxidizability,
    /// A molar mass.
    MolarMass,
    /// How much less lye than a fat would take up.
    LyeDiscount,
    /// Water in parts for one part of lye.
    WaterRatio,
    /// A figure by the maker's own method.
    Measure,
}

/// How many smallest units one written unit holds, as a fraction, and whether a result between two units is rounded
/// (to the nearest) or refused as too fine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Scale {
    /// Smallest units …
    pub units: i128,
    /// … in so many written units.
    pub per: i128,
    /// Converted units (ounces) do not end evenly in the smallest unit and are rounded to it.
    pub rounds: bool,
}

impl Scale {
    /// A written unit of exactly `units` smallest units.
    pub const fn exact(units: i128) -> Self {
        Self { units, per: 1, rounds: false }
    }
}

/// An exact quantity: an integer count of its smallest unit within a range.
pub trait Quantity: Copy + Eq + Ord + core::fmt::Debug {
    /// What it is, for messages.
    const KIND: Kind;
    /// Decimal places of the smallest unit in the unit that a bare number means.
    const PLACES: u32;
    /// The least allowed value, in smallest units.
    const MIN: i64;
    /// The greatest allowed value, in smallest units.
    const MAX: i64;

    /// From a count of smallest units.
    fn from_units(units: i64) -> Self;
    /// As a count of smallest units.
    fn units(self) -> i64;
    /// The scale of a unit written behind a number; the empty unit is the one that a bare number means.
    fn scale(unit: &str) -> Option<Scale>;

    /// Reads typed text. Nothing typed is [`Parsed::Empty`]; see [`Parsed`] for the rest.
    fn read(text: &str) -> Parsed<Self> {
        if text.trim().is_empty() {
            return Parsed::Empty;
        }
        let number = match read_number(text) {
            Ok(number) => number,
            Err(problem) => return Parsed::Unread(problem),
        };
        let decimal = convert::<Self>(number);
        let thousands = convert::<Self>(Number { places: 0, ..number }).ok().filter(|_| number.maybe_thousands);
        match (decimal, thousands) {
            (Ok(decimal), Some(thousands)) => Parsed::Ambiguous { decimal: Some(decimal), thousands },
            (Ok(decimal), None) => Parsed::Value(decimal),
            (Err(ParseProblem::TooFine { .. }), Some(thousands)) => Parsed::Ambiguous { decimal: None, thousands },
            (Err(problem), _) => Parsed::Unread(problem),
        }
    }

    /// Reads the form that files use: digits with at most one point, in the unit of a bare number.
    ///
    /// # Errors
    /// What is wrong with the text, or that the value is out of range.
    fn from_canonical(text: &str) -> Result<Self, ParseProblem> {
        let plain = text.strip_prefix('-').unwrap_or(text);
        if plain.is_empty() || plain.starts_with('.') || !plain.bytes().all(|b| b.is_ascii_digit() || b == b'.') {
            return Err(ParseProblem::NotANumber);
        }
        convert(read_number(text)?)
    }

    /// The shortest decimal text with a point, in the unit of a bare number: what files and exports hold.
    fn canonical(self) -> String {
        Decimal::of(self).canonical()
    }
}

fn convert<Q: Quantity>(number: Number<'_>) -> Result<Q, ParseProblem> {
    let scale = Q::scale(number.unit).ok_or(ParseProblem::UnknownUnit)?;
    if number.digits < 0 && Q::MIN >= 0 {
        return Err(ParseProblem::Negative);
    }
    let top = number.digits.checked_mul(scale.units).ok_or(ParseProblem::TooLong)?;
    let bottom = 10i128
        .checked_pow(number.places)
        .and_then(|power| power.checked_mul(scale.per))
        .ok_or(ParseProblem::TooLong)?;
    if top % bottom != 0 && !scale.rounds {
        return Err(ParseProblem::TooFine { places: Q::PLACES });
    }
    let units = div_nearest(top, bottom);
    if units < i128::from(Q::MIN) || units > i128::from(Q::MAX) {
        return Err(ParseProblem::OutOfRange {
            min: Q::from_units(Q::MIN).canonical(),
            max: Q::from_units(Q::MAX).canonical(),
        });
    }
    Ok(Q::from_units(units as i64))
}

fn div_nearest(top: i128, bottom: i128) -> i128 {
    let whole = top.div_euclid(bottom);
    if top.rem_euclid(bottom) * 2 >= bottom { whole + 1 } else { whole }
}

/// `a` × `b` ÷ `c` to the nearest integer, halves up, without overflow between. `c` must be positive.
pub fn mul_div_nearest(a: i64, b: i64, c: i64) -> i64 {
    clamp(div_nearest(i128::from(a) * i128::from(b), i128::from(c)))
}

/// `a` × `b` ÷ `c` rounded down, without overflow between. `c` must be positive.
pub fn mul_div_floor(a: i64, b: i64, c: i64) -> i64 {
    clamp((i128::from(a) * i128::from(b)).div_euclid(i128::from(c)))
}

/// Out-of-range results stop at the edge: every quantity's own range is far inside it, so the caller's check still sees them.
fn clamp(value: i128) -> i64 {
    value.clamp(i128::from(i64::MIN), i128::from(i64::MAX)) as i64
}
