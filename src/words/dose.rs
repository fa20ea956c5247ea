//! The next dose in words: what to weigh, what to expect, and that the reading decides.

use super::{DecimalSign, number};
use crate::batch::dose::{Advice, Expected, Portion, Proposal, Refusal};
use crate::batch::{Instrument, Vessel};
use crate::quantity::{Mass, Percent, Ph, Quantity};

/// Stands in every proposal.
pub const AGAIN: &str = "Add this, stir, wait, measure again";
/// Stands beside every proposal and every picture of one.
pub const NO_PROMISE: &str = "No dose can be promised not to pass the target: where the product's own buffering ends, the pH falls away. Add less if you are in doubt.";
/// Beside the choice to dose the batch at once.
pub const WITHOUT_SAMPLE: &str =
    "Without a side sample the batch itself is the trial. A sample of 20 to 50\u{2009}g costs less than a batch.";
/// How a reading is taken. Common practice, no source.
pub const HOW_TO_READ: &str = "Take 2\u{2009}g into 8\u{2009}g of distilled water (one part in five), or 1\u{2009}g into 9\u{2009}g (one in ten), stir, and read at room temperature. Keep to one way for a whole log: a diluted sample reads a little higher than the product.";
/// Beside acids and bases.
pub const CAUTION: &str = "Strong acids and bases burn skin and eyes: wear goggles and gloves, add them to water and never water to them, and follow the supplier's safety sheet.";

fn grams(mass: Mass, sign: DecimalSign) -> String {
    format!("{}\u{2009}g", number(&mass.canonical(), sign))
}

fn percent(share: Percent, sign: DecimalSign) -> String {
    format!("{}\u{2009}%", number(&share.canonical(), sign))
}

/// A pH to a tenth: no model here knows it better.
pub fn ph(ph: Ph, sign: DecimalSign) -> String {
    let tenths = (ph.units() + 5).div_euclid(10);
    number(&format!("{}.{}", tenths / 10, tenths % 10), sign)
}

/// What a vessel is called in the middle of a sentence.
pub const fn vessel(vessel: Vessel) -> &'static str {
    match vessel {
        Vessel::Batch => "the batch",
        Vessel::Side => "the side sample",
    }
}

/// What a pH is read with.
pub const fn instrument(instrument: Instrument) -> &'static str {
    match instrument {
        Instrument::Meter => "meter (\u{b1}0.05)",
        Instrument::Strip => "strip (\u{b1}0.5)",
    }
}

/// The advice as sentences. `name` is that of the acid or base, `expected` what a proposal is expected to do.
pub fn advice(advice: &Advice, name: &str, expected: Option<&Expected>, sign: DecimalSign) -> String {
    match advice {
        Advice::Read(at) => format!("Measure the pH of {}. {HOW_TO_READ}", vessel(*at)),
        Advice::TakeSample(mass) => format!(
            "Take {} of the batch aside and find the dose there first. If that sample goes too far, the batch has not.",
            grams(*mass, sign)
        ),
        Advice::Add(proposal) => self::proposal(proposal, name, expected, sign),
        Advice::Stop => "Stop, you are there: the reading is within the instrument's error of the target. Let it rest, and measure once more before filling.".to_owned(),
        Advice::Repeat(at) => format!(
            "Measure {} again before you add anything: by what was learnt before it should be at the target, and the last reading says that it is not.",
            vessel(*at)
        ),
        Advice::Passed(by) => format!(
            "The target was passed by {}. If this pH is still within the window of every ingredient, leave it. To go back, choose what moves the pH the other way, take a fresh side sample and find the small dose there; going to and fro adds salt, which thins some emulsions. Never answer with the same amount of the opposite.",
            number(&format!("{}.{:02}", by / 100, by % 100), sign)
        ),
        Advice::Refuse(why) => refusal(*why, name),
    }
}

fn proposal(proposal: &Proposal, name: &str, expected: Option<&Expected>, sign: DecimalSign) -> String {
    let Portion { strength, mass, stock } = proposal.portion;
    let what =
        if strength == Percent::WHOLE { name.to_owned() } else { format!("{name}, {}", percent(strength, sign)) };
    let mut text = format!("{AGAIN}: {} of {what}, into {}.", grams(mass, sign), vessel(proposal.vessel));
    if let Some(stock) = stock {
        text += &format!(
            " That is too little for the scale as you have it, so make a solution first: {} of it and {} of distilled water.",
            grams(stock.active, sign),
            grams(stock.water, sign)
        );
    }
    if let Some(expected) = expected {
        text += &format!(
            " Expect about pH {}, in nine of ten cases between {} and {}.",
            ph(expected.ph, sign),
            ph(expected.low, sign),
            ph(expected.high, sign)
        );
    }
    if proposal.misfit {
        text += " The readings do not fit together well, so the range is wide: check the meter and the mixing.";
    }
    if !proposal.left_out.is_empty() {
        text += " Readings that were diluted in another way are left out.";
    }
    if proposal.vessel == Vessel::Batch {
        text += " ";
        text += NO_PROMISE;
    }
    text
}

fn refusal(why: Refusal, name: &str) -> String {
    match why {
        Refusal::StripsCannotRaise => {
            "No dose: strips are too coarse for raising a pH, where one drop can move it by whole units. Use a meter."
                .to_owned()
        }
        Refusal::Contradiction(a, b) => format!(
            "No dose: entries {} and {} of the log contradict each other. Measure again, and strike the one that is wrong.",
            a + 1,
            b + 1
        ),
        Refusal::UnknownDose(place) => {
            format!("No dose: entry {} added something whose strength is not known.", place + 1)
        }
        Refusal::CannotReach => format!("No dose: {name} cannot bring a product to this pH. Choose another."),
        Refusal::TooSmall => {
            "No dose: what is missing is less than this scale can weigh, even as a weak solution. Leave it.".to_owned()
        }
        Refusal::NoBatch => "No dose: there is nothing in the batch. Enter its mass.".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::batch::dose::Stock;

    fn proposals() -> Vec<Proposal> {
        let portion =
            Portion { strength: Percent::from_units(10_000_000), mass: Mass::from_units(500_000), stock: None };
        let stock = Stock { active: Mass::from_units(170_000), water: Mass::from_units(1_530_000) };
        let plain = Proposal {
            vessel: Vessel::Side,
            portion,
            brings: 0.001,
            chance_past: 0.01,
            misfit: false,
            left_out: Vec::new(),
        };
        let stocked = Proposal { portion: Portion { stock: Some(stock), ..portion }, ..plain.clone() };
        let odd = Proposal { vessel: Vessel::Batch, misfit: true, left_out: vec![0], ..plain.clone() };
        vec![plain, stocked, odd]
    }

    #[test]
    fn every_proposal_says_to_measure_again() {
        for proposal in proposals() {
            let text = advice(&Advice::Add(proposal.clone()), "Citric acid", None, DecimalSign::Point);
            assert!(text.to_lowercase().contains("add this, stir, wait, measure again"), "{text}");
            assert_eq!(text.contains(NO_PROMISE), proposal.vessel == Vessel::Batch, "{text}");
        }
    }

    #[test]
    fn proposal_names_the_solution_and_what_to_expect() {
        let expected = Expected { ph: Ph::from_units(536), low: Ph::from_units(514), high: Ph::from_units(561) };
        let text = advice(&Advice::Add(proposals()[1].clone()), "Citric acid", Some(&expected), DecimalSign::Comma);
        assert_eq!(
            text,
            "Add this, stir, wait, measure again: 0,5\u{2009}g of Citric acid, 10\u{2009}%, into the side sample. That is too little for the scale as you have it, so make a solution first: 0,17\u{2009}g of it and 1,53\u{2009}g of distilled water. Expect about pH 5,4, in nine of ten cases between 5,1 and 5,6."
        );
    }

    #[test]
    fn advice_of_every_kind_says_something_to_do() {
        let all = [
            Advice::Read(Vessel::Batch),
            Advice::TakeSample(Mass::from_units(50_000_000)),
            Advice::Stop,
            Advice::Repeat(Vessel::Side),
            Advice::Passed(30),
            Advice::Refuse(Refusal::StripsCannotRaise),
            Advice::Refuse(Refusal::Contradiction(0, 2)),
            Advice::Refuse(Refusal::UnknownDose(1)),
            Advice::Refuse(Refusal::CannotReach),
            Advice::Refuse(Refusal::TooSmall),
            Advice::Refuse(Refusal::NoBatch),
        ];
        for one in all {
            let text = advice(&one, "Citric acid", None, DecimalSign::Point);
            assert!(text.len() > 40 && text.contains('.') && !text.to_lowercase().contains(" safe "), "{text}");
        }
        assert!(advice(&Advice::Passed(5), "", None, DecimalSign::Point).contains("passed by 0.05"));
    }
}
