//! The next dose in words: what to weigh, what to expect, and that the reading decides.

use super::portions::{BEYOND, DO_NOT_FIT, STRONG, WEAK, portions, thinned, too_much, too_thin};
use super::{DecimalSign, meter, number, one_place};
use crate::batch::dose::{Advice, Expected, Portion, Proposal, Refusal};
use crate::batch::{Instrument, PhEvent, Picture, Vessel};
use crate::facts::{Hazard, IngredientId, statement};
use crate::quantity::{Decimal, Mass, Percent, Ph, Quantity};

/// Stands in every proposal.
pub const AGAIN: &str = "Add this, stir, wait, measure again";
/// Stands beside every proposal and every picture of one.
pub const NO_PROMISE: &str = "No dose can be promised not to overshoot the target: where the product\u{2019}s own buffering ends, the pH moves suddenly. If in doubt, add less.";
/// Stands beside every proposal for a side sample.
pub const NO_PROMISE_ASIDE: &str = "It cannot be ruled out that this dose overshoots the target. That is what a side sample is for: it shows where the product\u{2019}s own buffering ends, while the batch stays untouched.";
/// Beside the choice to dose the batch at once.
pub const WITHOUT_SAMPLE: &str =
    "Without a side sample, the batch itself is the trial. A sample of 20 to 50\u{202f}g costs less than a batch.";
/// How a reading is taken. Common practice, no source.
pub const HOW_TO_READ: &str = "Stir 2\u{202f}g into 8\u{202f}g of distilled water (1 in 5), or 1\u{202f}g into 9\u{202f}g (1 in 10), and read at room temperature. Use the same dilution for the whole log: a diluted sample reads a little higher than the product.";
/// Beside acids and bases.
pub const CAUTION: &str = "Strong acids and bases burn skin and eyes: wear goggles and gloves, add them to water and never water to them, and follow the supplier\u{2019}s safety data sheet.";

pub(super) fn grams(mass: Mass, sign: DecimalSign) -> String {
    format!("{}\u{202f}g", number(&mass.canonical(), sign))
}

pub(super) fn percent(share: Percent, sign: DecimalSign) -> String {
    format!("{}\u{202f}%", number(&share.canonical(), sign))
}

/// A pH to a tenth: no model here knows it better.
pub fn ph(ph: Ph, sign: DecimalSign) -> String {
    one_place(ph, sign)
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
            "Set aside {} of the batch and find the dose there first. If that sample overshoots, the batch has not.",
            grams(*mass, sign)
        ),
        Advice::Add(proposal) => self::proposal(proposal, name, expected, sign),
        Advice::Stop => "Stop, you are there: the reading is within the instrument's error of the target. Let it rest, and measure once more before filling.".to_owned(),
        Advice::Repeat(at) => format!(
            "Measure {} again before you add anything: going by earlier readings it should be at the target, but the last reading says it is not.",
            vessel(*at)
        ),
        Advice::Passed(by) => format!(
            "The target was overshot by {}. If this pH is still within the window of every ingredient, leave it. To go back, choose an acid or base that moves the pH the other way, take a fresh side sample and find the small dose there; going back and forth adds salt, which thins some emulsions. Never correct with an equal amount of the opposite.",
            number(&Decimal::new(*by, 2).fixed(), sign)
        ),
        Advice::CheckMeter(doubt) => meter::doubt(*doubt),
        Advice::Recalibrate(check) => meter::failed(check, sign),
        Advice::Refuse(why) => refusal(*why, name, sign),
    }
}

/// What is weighed of a proposal, as "Citric Acid, 10 %": the share of pure substance stands behind the name.
pub fn substance(strength: Percent, name: &str, sign: DecimalSign) -> String {
    if strength == Percent::WHOLE { name.to_owned() } else { format!("{name}, {}", percent(strength, sign)) }
}

/// The solution to be made first, if the dose needs one.
pub fn stock(proposal: &Proposal, sign: DecimalSign) -> Option<String> {
    proposal.portion.stock.map(|stock| {
        format!(
            "That is too little to weigh in the form you have, so make a solution first: {} of it in {} of distilled water.",
            grams(stock.active, sign),
            grams(stock.water, sign)
        )
    })
}

/// What a dose is expected to do.
pub fn outcome(expected: &Expected, sign: DecimalSign) -> String {
    format!(
        "Expect about pH {}; in nine cases out of ten, between {} and {}.",
        ph(expected.ph, sign),
        ph(expected.low, sign),
        ph(expected.high, sign)
    )
}

/// What else is to be known of a proposal.
pub fn provisos(proposal: &Proposal, sign: DecimalSign) -> Vec<String> {
    let misfit = "The readings do not fit together well, so the range is wide: check the meter and the mixing.";
    let left_out = "Readings taken at another dilution are left out.";
    let all = [
        thinned(proposal, sign),
        proposal.beyond.then(|| BEYOND.to_owned()),
        proposal.strong.then(|| STRONG.to_owned()),
        proposal.weak.then(|| WEAK.to_owned()),
        proposal.misfit.then(|| misfit.to_owned()),
        (!proposal.left_out.is_empty()).then(|| left_out.to_owned()),
        Some(if proposal.vessel == Vessel::Batch { NO_PROMISE } else { NO_PROMISE_ASIDE }.to_owned()),
    ];
    all.into_iter().flatten().collect()
}

fn proposal(proposal: &Proposal, name: &str, expected: Option<&Expected>, sign: DecimalSign) -> String {
    let Portion { strength, mass, .. } = proposal.portion;
    let what = substance(strength, name, sign);
    let mut text = format!("{AGAIN}: {} of {what}, into {}.", grams(mass, sign), vessel(proposal.vessel));
    let more = [portions(proposal, sign), stock(proposal, sign), expected.map(|expected| outcome(expected, sign))];
    for said in more.into_iter().flatten().chain(provisos(proposal, sign)) {
        text += " ";
        text += &said;
    }
    text
}

/// The next step in a few words, to be read from a distance.
pub fn headline(advice: &Advice, name: &str, sign: DecimalSign) -> String {
    match advice {
        Advice::Read(at) => format!("Measure the pH of {}", vessel(*at)),
        Advice::TakeSample(mass) => format!("Set aside {} of the batch", grams(*mass, sign)),
        Advice::Add(Proposal { vessel: at, portion: Portion { strength, mass, .. }, .. }) => {
            format!("Add {} of {} to {}", grams(*mass, sign), substance(*strength, name, sign), vessel(*at))
        }
        Advice::Stop => "Stop, you are there".to_owned(),
        Advice::Repeat(at) => format!("Measure {} once more", vessel(*at)),
        Advice::Passed(_) => "Target overshot".to_owned(),
        Advice::CheckMeter(_) => meter::CHECK.to_owned(),
        Advice::Recalibrate(_) => meter::FAILED.to_owned(),
        Advice::Refuse(_) => "No dose for now".to_owned(),
    }
}

/// One entry of the log. `name` is that of an acid or base.
pub fn entry(event: &PhEvent, name: &dyn Fn(&IngredientId) -> String, sign: DecimalSign) -> String {
    match event {
        PhEvent::Read { vessel: at, ph, instrument: with, dilution, steady, .. } => {
            let with = if *with == Instrument::Meter { "meter" } else { "strip" };
            let steady = match steady {
                None => "",
                Some(true) => ", unchanged for a minute",
                Some(false) => ", still moving, not counted",
            };
            format!("pH {} of {}: {with}, {}{steady}", number(&ph.canonical(), sign), vessel(*at), way(*dilution))
        }
        PhEvent::Dose { vessel: at, titrant, strength, mass, lot, .. } => {
            let lot = if lot.is_empty() { String::new() } else { format!(", lot {lot}") };
            let what = substance(*strength, &name(titrant), sign);
            format!("{} of {what}{lot} into {}", grams(*mass, sign), vessel(*at))
        }
        PhEvent::Sample { mass } => format!("{} set aside as the side sample", grams(*mass, sign)),
        PhEvent::Buffers(_) | PhEvent::Unchecked => meter::entry(event, sign).unwrap_or_default(),
    }
}

/// A way of taking a reading.
pub fn way(dilution: u8) -> String {
    match dilution {
        1 => "undiluted".to_owned(),
        5 => "1 in 5 (2 + 8\u{202f}g)".to_owned(),
        10 => "1 in 10 (1 + 9\u{202f}g)".to_owned(),
        parts => format!("1 in {parts}"),
    }
}

/// What is drawn, for who cannot see it.
pub fn picture(found: &Picture, name: &str, sign: DecimalSign) -> String {
    let mut text = format!("pH against {name} added. Target {}.", ph(found.target, sign));
    for dot in &found.dots {
        text += &format!(
            " {} after {}: pH {}.",
            vessel(dot.vessel),
            per_kilogram(dot.at, sign),
            number(&dot.ph.canonical(), sign)
        );
    }
    text
}

/// Milligrams as grams, without the unit.
pub fn in_grams(milligrams: i64, sign: DecimalSign) -> String {
    number(&Decimal::new(milligrams, 3).canonical(), sign)
}

fn per_kilogram(milligrams: i64, sign: DecimalSign) -> String {
    format!("{}\u{202f}g/kg", in_grams(milligrams, sign))
}

/// What may happen to the maker: what the law says of the substance, and how to handle it.
pub fn caution(hazard: Option<&Hazard>) -> String {
    let mut text = CAUTION.to_owned();
    if let Some(hazard) = hazard {
        let signal = match hazard.danger {
            Some(true) => " Danger:",
            Some(false) => " Warning:",
            None => "",
        };
        let harmonised = hazard.statements.iter().filter(|code| !hazard.added.contains(code));
        let statements = harmonised.filter_map(|code| statement(code));
        let said = [signal.to_owned()].into_iter().chain(statements.map(|text| format!(" {text}")));
        text = said.fold(text, |text, said| text + &said) + " " + hazard.handling;
    }
    text
}

fn refusal(why: Refusal, name: &str, sign: DecimalSign) -> String {
    match why {
        Refusal::StripsCannotRaise => {
            "No dose: strips are too coarse for raising a pH, where one drop can move it by whole units. Use a meter."
                .to_owned()
        }
        Refusal::Contradiction(a, b, clash) => meter::clash(a, b, clash),
        Refusal::UnknownDose(place) => {
            format!("No dose: entry {} added something whose strength is not known.", place + 1)
        }
        Refusal::CannotReach => format!("No dose: {name} cannot take a product to this pH. Choose another."),
        Refusal::TooSmall => {
            "No dose: the amount needed is less than this scale can weigh, even as a weak solution. Leave it."
                .to_owned()
        }
        Refusal::TooMuch { gone_in, most } => too_much(gone_in, most, name, sign),
        Refusal::Thinned(share) => too_thin(share, sign),
        Refusal::DoNotFit => DO_NOT_FIT.to_owned(),
        Refusal::NoBatch => "No dose: there is nothing in the batch. Enter its mass.".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::batch::MolPerKg;
    use crate::batch::dose::{MeterDoubt, ReadingClash, Stock};

    fn proposals() -> Vec<Proposal> {
        let portion =
            Portion { strength: Percent::from_units(10_000_000), mass: Mass::from_units(500_000), stock: None };
        let stock = Stock { active: Mass::from_units(170_000), water: Mass::from_units(1_530_000) };
        let plain = Proposal {
            vessel: Vessel::Side,
            portion,
            brings: MolPerKg(0.001),
            chance_past: 0.01,
            misfit: false,
            left_out: Vec::new(),
            split: None,
            thinned: Percent::ZERO,
            strong: false,
            weak: false,
            beyond: false,
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
            let batch = proposal.vessel == Vessel::Batch;
            assert!(text.contains(if batch { NO_PROMISE } else { NO_PROMISE_ASIDE }), "{text}");
            assert_ne!(text.contains(NO_PROMISE), text.contains(NO_PROMISE_ASIDE), "{text}");
        }
    }

    #[test]
    fn proposal_names_the_solution_and_what_to_expect() {
        let expected = Expected { ph: Ph::from_units(536), low: Ph::from_units(514), high: Ph::from_units(561) };
        let text = advice(&Advice::Add(proposals()[1].clone()), "Citric acid", Some(&expected), DecimalSign::Comma);
        assert_eq!(
            text,
            "Add this, stir, wait, measure again: 0,5\u{202f}g of Citric acid, 10\u{202f}%, into the side sample. That is too little to weigh in the form you have, so make a solution first: 0,17\u{202f}g of it in 1,53\u{202f}g of distilled water. Expect about pH 5,4; in nine cases out of ten, between 5,1 and 5,6. It cannot be ruled out that this dose overshoots the target. That is what a side sample is for: it shows where the product\u{2019}s own buffering ends, while the batch stays untouched."
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
            Advice::CheckMeter(MeterDoubt::DosesOnTrust),
            Advice::Refuse(Refusal::StripsCannotRaise),
            Advice::Refuse(Refusal::Contradiction(0, 2, ReadingClash::WrongWay)),
            Advice::Refuse(Refusal::UnknownDose(1)),
            Advice::Refuse(Refusal::CannotReach),
            Advice::Refuse(Refusal::TooSmall),
            Advice::Refuse(Refusal::NoBatch),
            Advice::Refuse(Refusal::DoNotFit),
            Advice::Refuse(Refusal::Thinned(Percent::from_units(10_100_000))),
            Advice::Refuse(Refusal::TooMuch {
                gone_in: Mass::from_units(5_000_000),
                most: Mass::from_units(4_000_000),
            }),
        ];
        for one in all {
            let text = advice(&one, "Citric acid", None, DecimalSign::Point);
            assert!(text.len() > 40 && text.contains('.') && !text.to_lowercase().contains(" safe "), "{text}");
        }
        assert!(advice(&Advice::Passed(5), "", None, DecimalSign::Point).contains("overshot by 0.05"));
    }

    #[test]
    fn headline_and_entry_name_what_how_much_and_where() {
        let name = |_: &IngredientId| "Citric Acid".to_owned();
        let dose = headline(&Advice::Add(proposals()[0].clone()), "Citric Acid", DecimalSign::Comma);
        assert_eq!(dose, "Add 0,5\u{202f}g of Citric Acid, 10\u{202f}% to the side sample");
        let read = PhEvent::Read {
            vessel: Vessel::Batch,
            ph: Ph::from_units(640),
            instrument: Instrument::Strip,
            dilution: 10,
            taken: Mass::from_units(1_000_000),
            steady: None,
        };
        assert_eq!(entry(&read, &name, DecimalSign::Point), "pH 6.4 of the batch: strip, 1 in 10 (1 + 9\u{202f}g)");
        assert_eq!(per_kilogram(1_250, DecimalSign::Comma), "1,25\u{202f}g/kg");
    }

    #[test]
    fn caution_says_what_the_law_says_of_the_substance() {
        let lye = caution(crate::facts::hazard("sodium-hydroxide"));
        assert!(lye.starts_with(CAUTION) && lye.contains("Danger: Causes severe skin burns"), "{lye}");
        assert_eq!(caution(None), CAUTION);
    }
}
