//! Findings and refusals as sentences: what, how much, compared with what, do what.

use super::safety::safety;
use super::{DecimalSign, fats, grams, lye, problem, with_unit};
use crate::quantity::{Kind, Mass, Percent, Quantity};
use crate::rules::{Fact, Finding};
use crate::sheet::{Balance, NoSheet, PlanField, ScaleProblem};

/// The sentence of a finding; `names` are those of its lines.
pub fn finding(finding: &Finding, names: &[String], sign: DecimalSign) -> String {
    let percent = |share: Percent| with_unit(share, "%", sign);
    let name = names.first().map(|name| name.trim()).filter(|name| !name.is_empty()).unwrap_or("A line");
    match &finding.fact {
        Fact::SumWhole => "The lines add up to exactly 100\u{202f}%.".to_owned(),
        Fact::SumShort(by) => format!(
            "The lines add up to {}, which is {} short of 100\u{202f}%. Add what is missing, or make one line the fill-up line.",
            percent(Percent::WHOLE.minus(*by)),
            percent(*by)
        ),
        Fact::SumOver(by) => format!(
            "The lines add up to {}, which is {} over 100\u{202f}%. Remove {} before you weigh.",
            percent(Percent::WHOLE.plus(*by)),
            percent(*by),
            percent(*by)
        ),
        Fact::Unread { text, problem: Some(why) } => {
            format!(
                "{name}: {} Until it is corrected it is left out of every total.",
                problem(text, Kind::Percent, why)
            )
        }
        Fact::Unread { text, problem: None } => {
            format!(
                "{name}: \u{201c}{text}\u{201d} can be read in two ways. Choose one; until then it is left out of every total."
            )
        }
        Fact::NoShare => format!("{name} has no percentage yet. Enter one, or remove the line."),
        Fact::Nameless => "A line has a percentage but no name. Name it, or remove the line.".to_owned(),
        Fact::OffShelf(name) => format!(
            "\u{201c}{name}\u{201d} is not on the shelf. It is weighed like any other and checked as far as its name is recognised, but its pH window, its supplier\u{2019}s values and how long it keeps are not known. Choose it from the list, or add it to the shelf."
        ),
        Fact::Lye(note) => lye::note(note, name, sign),
        Fact::NoLye(why) => lye::no_lye(why, name, sign),
        Fact::SupplierSheet(odd) => format!("{name}: {}", fats::sheet_finding(odd, sign)),
        Fact::TooSmall { dose, weighed, least, from } => too_small(name, [*dose, *weighed, *least], *from, sign),
        Fact::Message(said) => safety(finding, said, sign),
    }
}

fn too_small(name: &str, [dose, weighed, least]: [Mass; 3], from: Option<Mass>, sign: DecimalSign) -> String {
    let grams = |mass| grams(mass, sign);
    let start = format!(
        "{name}: {} is less than {}, the smallest amount your scale weighs within the error you accept",
        grams(dose),
        grams(least)
    );
    match from {
        None => format!("{start}. Make the premix on the weigh sheet."),
        Some(from) => {
            let comes_out = if weighed == Mass::ZERO {
                "; it comes out as nothing".to_owned()
            } else if weighed == dose {
                String::new()
            } else {
                format!("; it comes out as {}", grams(weighed))
            };
            format!("{start}{comes_out}. {}.", finer_or_larger(from, &grams(from)))
        }
    }
}

/// What to do about a dose that a scale weighs badly: where no batch of the program would do, only the scale can.
pub(super) fn finer_or_larger(from: Mass, shown: &str) -> String {
    if from.units() >= Mass::MAX {
        "Use a finer scale".to_owned()
    } else {
        format!("Use a finer scale, or make a batch of {shown} or more")
    }
}

/// Why there is no weigh sheet, and what to do.
pub fn no_sheet(why: &NoSheet, sign: DecimalSign) -> String {
    let percent = |share: Percent| with_unit(share, "%", sign);
    match why {
        NoSheet::Empty => "There is nothing to weigh yet. Write a formula in percentages first.".to_owned(),
        NoSheet::Open(lines) if lines.len() == 1 => {
            "One line has no readable percentage. Correct it in the formula, then weigh.".to_owned()
        }
        NoSheet::Open(lines) => {
            format!("{} lines have no readable percentage. Correct them in the formula, then weigh.", lines.len())
        }
        NoSheet::NotWhole(Balance::Short(by)) => {
            format!(
                "The formula is {} short of 100\u{202f}%. It can be weighed only at exactly 100\u{202f}%: correct it in the formula.",
                percent(*by)
            )
        }
        NoSheet::NotWhole(Balance::Over(by)) => {
            format!(
                "The formula is {} over 100\u{202f}%. It can be weighed only at exactly 100\u{202f}%: correct it in the formula.",
                percent(*by)
            )
        }
        NoSheet::NotWhole(Balance::Whole) => "The formula adds up to 100\u{202f}%.".to_owned(),
        NoSheet::Plan(problem) => scale_problem(*problem),
    }
}

/// What a plan lacks.
pub fn scale_problem(problem: ScaleProblem) -> String {
    match problem {
        ScaleProblem::Missing(field) => format!("Enter {}.", plan_field(field)),
        ScaleProblem::Unread(field) => format!("Correct {}: it cannot be used as it is.", plan_field(field)),
        ScaleProblem::NothingInHand => "Enter how much you have of at least one ingredient.".to_owned(),
        ScaleProblem::TooSmall => {
            "The batch is smaller than one step of the scale. Make more, or use a finer scale.".to_owned()
        }
        ScaleProblem::TooLarge => "The batch is over 1000\u{202f}kg. Split it into smaller batches.".to_owned(),
    }
}

const fn plan_field(field: PlanField) -> &'static str {
    match field {
        PlanField::Jars => "the number of jars",
        PlanField::Fill => "the fill per jar",
        PlanField::Density => "the density of the finished product (weigh a known volume of it)",
        PlanField::Loss => "the allowance for loss",
        PlanField::Mass => "the batch size",
        PlanField::InHand => "what you have in stock",
        PlanField::Vessel => "the vessel capacity",
        PlanField::HeadRoom => "the headroom",
        PlanField::Step => "the smallest step of the scale (1, 2 or 5 in its last place, 0.001 to 5\u{202f}g)",
        PlanField::Repeatability => "the repeatability of the scale",
        PlanField::Tolerance => "the weighing error you accept",
        PlanField::Cost(field) => super::cost::field(field),
    }
}
