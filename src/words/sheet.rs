//! How the numbers of a weigh sheet are written, and its sentences.

use super::{DecimalSign, mass, number, page, with_unit};
use crate::paper::{PremixRow, Row};
use crate::quantity::{Celsius, Mass, MassUnit, Percent, Quantity};

/// How numbers are shown on one sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SheetStyle {
    /// Unit of masses.
    pub unit: MassUnit,
    /// Sign between whole and fraction.
    pub sign: DecimalSign,
    /// What the scale shows.
    pub step: Mass,
}

impl SheetStyle {
    /// A mass; grams with the places of the scale's step, so that a column lines up.
    pub fn mass(self, value: Mass) -> String {
        match self.unit {
            MassUnit::Gram => {
                let text = value.canonical();
                let (whole, fraction) = text.split_once('.').unwrap_or((&text, ""));
                let places = Row::places(self.step);
                let padded = if places == 0 { whole.to_owned() } else { format!("{whole}.{fraction:0<places$}") };
                format!("{}\u{202f}g", number(&padded, self.sign))
            }
            unit => mass(value, unit, self.sign),
        }
    }

    /// A share.
    pub fn percent(self, share: Percent) -> String {
        with_unit(share, "%", self.sign)
    }

    /// A rounding error to 0.01 %, with its sign.
    pub fn error(self, error: Percent) -> String {
        let hundredths = (error.units() + error.units().signum() * 5_000) / 10_000 * 10_000;
        let sign = if hundredths > 0 { "+" } else { "" };
        format!("{sign}{}", self.percent(Percent::from_units(hundredths)))
    }

    /// A temperature.
    pub fn heat(self, heat: Celsius) -> String {
        with_unit(heat, page::CELSIUS, self.sign)
    }
}

/// How a premix is made and used, after the name of what is diluted.
pub fn premix_text(row: &PremixRow, style: SheetStyle) -> String {
    format!(
        ": stir {} into {} of {} (1 in {}). Weigh {} of that mix into the batch. {} itself: {} are left to weigh.",
        style.mass(row.active),
        style.mass(row.carrier),
        row.carrier_name,
        row.times,
        style.mass(row.portion),
        row.carrier_name,
        style.mass(row.carrier_line),
    )
}

/// From which batch on a line needs no premix.
pub fn larger_batch(batch: Mass, style: SheetStyle) -> String {
    format!("The scale weighs this well from a batch of {} on.", style.mass(batch))
}
