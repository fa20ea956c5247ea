//! How the numbers of a weigh sheet are written, and its sentences.

use super::findings::finer_or_larger;
use super::{DecimalSign, lye, mass, number, oils, page, percent_text, rounded, unit, with_unit};
use crate::paper::{AsPremix, LyeFacts, PremixRow, WeighFacts, WeighPhase, WeighRow, weigh_sheet_csv};
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
        format!("{}\u{202f}{}", self.figure(value), unit(self.unit))
    }

    /// The unit, as it stands behind a figure.
    pub fn unit_text(self) -> String {
        format!("\u{202f}{}", unit(self.unit))
    }

    /// The same without its unit, for a column that names it.
    pub fn figure(self, value: Mass) -> String {
        if self.unit != MassUnit::Gram {
            return number(&value.number_in(self.unit), self.sign);
        }
        let text = value.canonical();
        let (whole, fraction) = text.split_once('.').unwrap_or((&text, ""));
        let places = WeighRow::places(self.step);
        let padded = if places == 0 { whole.to_owned() } else { format!("{whole}.{fraction:0<places$}") };
        number(&padded, self.sign)
    }

    /// A share.
    pub fn percent(self, share: Percent) -> String {
        with_unit(share, "%", self.sign)
    }

    /// A rounding error to 0.01 %, with its sign.
    pub fn error(self, error: Percent) -> String {
        let text = rounded(error, 2, self.sign);
        let plus = if error > Percent::ZERO && text != "0" { "+" } else { "" };
        format!("{plus}{text}\u{202f}%")
    }

    /// A temperature.
    pub fn heat(self, heat: Celsius) -> String {
        with_unit(heat, page::CELSIUS, self.sign)
    }
}

/// What the plan came to, where the scale's steps made another batch of it; stands behind that batch.
pub fn asked_text(facts: &WeighFacts, style: SheetStyle) -> Option<String> {
    (facts.asked != facts.batch).then(|| format!(" ({})", mass(facts.asked, style.unit, style.sign)))
}

/// The line that rounding moved most, and how far.
pub fn worst_text(facts: &WeighFacts, style: SheetStyle) -> Option<String> {
    facts.worst.as_ref().map(|(name, error)| format!("{}: {name} {}", page::ROUNDING, style.error(*error)))
}

/// To which temperature a phase is heated; stands behind its name.
pub fn phase_heat(phase: &WeighPhase, style: SheetStyle) -> Option<String> {
    phase.heat.map(|heat| format!(" \u{2013} {} {}", page::HEAT, style.heat(heat)))
}

/// What is to be known of a line beside its mass: the maker's remark, and what the scale makes of it.
pub fn row_notes(row: &WeighRow, style: SheetStyle) -> Vec<String> {
    let remark = (!row.note.is_empty()).then(|| row.note.clone());
    let scale = row.larger_batch.map(|batch| larger_batch(batch, style));
    [remark, scale, rounding_of(row, style)].into_iter().flatten().collect()
}

/// How a premix is made and used, after the name of what is diluted.
pub fn premix_text(row: &PremixRow, style: SheetStyle) -> String {
    format!(
        ": stir {} into {} of {} (1 in {}). Weigh {} of this premix into the batch. Of {} itself, {} remains to be weighed.",
        style.mass(row.active),
        style.mass(row.carrier),
        row.carrier_name,
        row.times,
        style.mass(row.portion),
        row.carrier_name,
        style.mass(row.carrier_line),
    )
}

/// What a mass on the scale is, where it is not simply the ingredient.
pub fn as_premix(part: AsPremix, style: SheetStyle) -> String {
    match part {
        AsPremix::Portion(of_it) => format!("of the premix, which contains {} of it", style.mass(of_it)),
        AsPremix::Rest(in_all) => format!("and the rest in premixes: {} in all", style.mass(in_all)),
    }
}

/// From which batch on a line needs no premix.
fn larger_batch(batch: Mass, style: SheetStyle) -> String {
    format!(
        "Your scale does not weigh this little within the error you accept. {}.",
        finer_or_larger(batch, &style.mass(batch))
    )
}

/// That rounding moved a line by whole steps, or up where it must not; nothing where it did neither.
pub fn rounding_of(row: &WeighRow, style: SheetStyle) -> Option<String> {
    if row.raised {
        return Some(
            "Rounded up, since no other line can take what rounding leaves. If it has a maximum, this may exceed it: use a finer scale, or make a line without a maximum the fill-up line.".to_owned(),
        );
    }
    let steps = row.takes.unsigned_abs();
    let by = Mass::from_units(style.step.units() * row.takes.abs());
    let plural = if steps == 1 { "" } else { "s" };
    let (which, why) = if row.takes < 0 {
        ("less", "the other lines keep to their percentages")
    } else {
        ("more", "nothing that has a maximum is rounded up")
    };
    (steps > 0).then(|| format!("Takes {steps} step{plural} of the scale {which} ({}), because {why}.", style.mass(by)))
}

/// The weigh sheet as CSV, for a soap with its lye, or why there is none of it.
pub fn weigh_csv(paper: &WeighFacts, lye: Option<Result<&LyeFacts, &String>>) -> String {
    let row = |name: &str, mass: Option<Mass>, note: String| {
        let grams = mass.map(|mass| mass.canonical()).unwrap_or_default();
        [page::LYE.to_owned(), name.to_owned(), String::new(), String::new(), grams.clone(), grams, String::new(), note]
    };
    let more = match lye {
        None => Vec::new(),
        Some(Err(why)) => vec![row(page::NO_LYE, None, why.clone())],
        Some(Ok(paper)) => {
            let alkalis = paper.alkalis.iter().map(|dose| {
                let purity = format!("{}{}", page::PURITY, percent_text(dose.purity));
                row(lye::alkali(dose.alkali), Some(dose.weigh), purity)
            });
            alkalis.chain([row(oils::WATER, Some(paper.water), String::new())]).collect()
        }
    };
    weigh_sheet_csv(paper, page::CSV_HEADS, &more)
}
