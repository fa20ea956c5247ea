//! What is said about lye: cautions in full, notes, refusals, what to expect of the soap.

use super::{
    DecimalSign, SheetStyle, choice_name, grams, number, number_text as plain, oils, percent_text, rounded, with_unit,
};
use crate::facts::{Alkali, AlkaliRow, SV_SPREAD, strongest_lye};
use crate::formula::Formula;
use crate::paper::{AcidOnPaper, FatRowOnPaper, LyeCaution, LyeFacts};
use crate::quantity::{Percent, Quantity};
use crate::sheet::{LyeField, LyeNote, NoLye, SvBasis};
use crate::shelf::Shelf;

/// What the sheet is called, so that it is never taken for a weigh sheet of a lotion.
pub const TITLE: &str = "Lye sheet: caustic";
/// What it is not.
pub const NO_LOTION: &str = "This is soap making. Nothing on this sheet is for a cream or lotion, and nothing made from it goes on skin until the soap is finished, cured and tested.";
/// Whose word counts.
pub const DEFER: &str = "Calculate from the saponification value and the purity on the certificates of your own lots, check the result against a second source, and follow local rules. In many places soap for sale needs a safety assessment by a qualified person; this sheet is not one.";
/// What a discount is.
pub const DISCOUNT: &str = "The lye discount is a share of the lye that all fats together could take up. No single oil is spared by soap making.";

/// A caution.
pub const fn caution(caution: LyeCaution) -> &'static str {
    match caution {
        LyeCaution::Burns => {
            "Lye burns skin and eyes at once and without much pain at first. Sodium and potassium hydroxide cause severe burns and can blind."
        }
        LyeCaution::Goggles => {
            "Wear tight goggles, not glasses; nitrile or rubber gloves; long sleeves, apron, closed shoes."
        }
        LyeCaution::LyeIntoWater => {
            "Always add lye to cold water, a little at a time, stirring. Never pour water on lye: it boils up and spits."
        }
        LyeCaution::ChildrenAndPets => {
            "Keep children and pets out of the room until everything caustic is put away and wiped up."
        }
        LyeCaution::Ventilate => {
            "Work by an open window or outdoors. Do not breathe the mist that rises while it dissolves and heats up."
        }
        LyeCaution::Vessels => {
            "Use stainless steel or polypropylene (PP), labelled and kept for lye alone. No aluminium, zinc or tin: lye dissolves them and releases hydrogen, which burns. No glass: it may crack."
        }
        LyeCaution::WeighDry => {
            "Weigh dry, into a dry vessel, and close the container at once: lye draws water and carbon dioxide from the air."
        }
        LyeCaution::Eyes => {
            "In the eye: rinse at once with running water for at least 15 minutes, lids held open, contact lenses out. Call the emergency number while rinsing."
        }
        LyeCaution::Skin => {
            "On skin: brush off what is dry, take off wet clothes, rinse with plenty of water for at least 15 minutes. Get medical help for more than a small spot."
        }
        LyeCaution::Swallowed => {
            "Swallowed: rinse the mouth. Do not make the person vomit. Give nothing to neutralise it. Call the emergency number or a poison centre at once."
        }
        LyeCaution::Neutral => {
            "No vinegar or other acid on skin or in eyes: only water. Acid and lye heat each other and burn more."
        }
        LyeCaution::Spills => {
            "Spilt: keep others away, goggles and gloves on. Pick up dry flakes dry; wipe up the solution and rinse with plenty of water."
        }
        LyeCaution::Storing => {
            "Store it tightly closed, labelled with its name and its hazard, locked up, away from acids and metals. Never in a food or drink container."
        }
    }
}

/// Where the cautions come from.
pub const CAUTION_SOURCE: &str = "Hazard and precautionary statements of the EU classification (CLP) of sodium and potassium hydroxide; handling is common trade practice";

/// The label of an alkali in short.
pub fn label(row: &AlkaliRow) -> String {
    format!("{} ({}): {}; {}; {}. Source: {}", row.name, row.formula, row.signal, row.h_codes, row.p_codes, row.source)
}

/// What an alkali is called.
pub const fn alkali(alkali: Alkali) -> &'static str {
    match alkali {
        Alkali::Sodium => "sodium hydroxide (NaOH)",
        Alkali::Potassium => "potassium hydroxide (KOH)",
    }
}

/// What to expect of the soap's pH.
pub fn expected_ph(row: &AlkaliRow) -> String {
    format!(
        "Soap is alkaline and stays so: a 1\u{202f}% solution mostly reads pH {} to {} (common practice, no source). It cannot be brought to the pH of a lotion; acid turns it back into fatty acid. Above about 11, or if it stings, do not use it.",
        plain(row.ph.0),
        plain(row.ph.1)
    )
}

/// How long it rests.
pub fn cure(row: &AlkaliRow) -> String {
    let (low, high) = row.cure_days;
    format!(
        "Let it cure {low} to {high} days, open and dry, away from children, before anyone uses it (common practice, no source). Test it then: no white or caustic spots, pH as expected."
    )
}

/// From which values the lye follows.
pub const fn basis(basis: SvBasis) -> &'static str {
    match basis {
        SvBasis::Low => "the low end of each fat\u{2019}s range (the cautious side)",
        SvBasis::Typical => "typical values: a lot at the low end of its range gets more lye than intended",
    }
}

/// A note; `name` is that of its line.
pub fn note(note: &LyeNote, name: &str, sign: DecimalSign) -> String {
    let percent = |share| with_unit(share, "%", sign);
    match note {
        LyeNote::NoDiscount => {
            "The discount is zero or below: no oil is left over, and any error leaves lye in the soap. You have confirmed that this is intended.".to_owned()
        }
        LyeNote::MarginBelowNothing(margin) => format!(
            "If every fat is at the low end of its range, there is {} more lye than they take up, and the soap is caustic. Raise the discount, or calculate from the low end.",
            percent(Percent::ZERO.minus(*margin))
        ),
        LyeNote::PurityAssumed(which) => format!(
            "No purity is entered for {}, so it counts as pure, which gives the smallest amount to weigh. Enter what its certificate says.",
            alkali(*which)
        ),
        LyeNote::SvApart(_, apart) => format!("{name}: {}", super::fats::sv_apart(*apart, None, sign)),
        LyeNote::SvConfirmed(_, apart, reason) => format!("{name}: {}", super::fats::sv_apart(*apart, Some(reason), sign)),
        LyeNote::AcidNotVerified(_) => {
            format!("How much lye {name} takes up is unverified. Use the figure on your lot\u{2019}s certificate.")
        }
        LyeNote::WaterInFormula { there, more, concentration } if more.units() > 0 => format!(
            "The formula has {} of water of its own. It is part of the water for the lye and not on top of it: take it from the weigh sheet, dissolve the lye in it, and add {} more to make {} lye.",
            grams(*there, sign),
            grams(*more, sign),
            tenth(*concentration, sign)
        ),
        LyeNote::WaterInFormula { there, concentration, .. } => format!(
            "The formula has {} of water of its own, as much as this lye calls for or more. Take it from the weigh sheet, dissolve the lye in it, and add none: the lye is then {} strong.",
            grams(*there, sign),
            tenth(*concentration, sign)
        ),
        LyeNote::NotMeasured(_) => format!(
            "No measured saponification value is known for {name}. It is calculated from its fatty acids, with {} either way.",
            percent(SV_SPREAD)
        ),
        LyeNote::NotVerified(_) => {
            format!("The saponification value of {name} is unverified. Use the one on your lot\u{2019}s certificate.")
        }
        LyeNote::InPart(_) => format!("{name} is not a triglyceride: it saponifies only in part, and slowly. Its measured value is used."),
        LyeNote::NotAtAll(_) => format!("{name} does not saponify: it stays as it is in the soap."),
        LyeNote::NotCounted(_) => {
            let name = if name.trim().is_empty() { "A line without a name" } else { name };
            format!(
                "{name} is not counted: nothing is known here about how it saponifies. If it is an oil, wax or fatty acid, more oil is left over than this sheet says. Choose it from the shelf, or enter its saponification value there."
            )
        }
        LyeNote::AlkaliInFormula(_) => format!(
            "{name} is also in the formula. It is not counted here and would come on top: remove it, or do not use this sheet."
        ),
    }
}

fn tenth(share: Percent, sign: DecimalSign) -> String {
    format!("{}\u{202f}%", rounded(share, 1, sign))
}

/// What an acid of the formula takes up; it is in what is weighed.
pub fn acid_row(acid: &AcidOnPaper, sign: DecimalSign) -> String {
    let mass = |mass| oils::roughly(mass, sign);
    let each: Vec<String> =
        acid.takes.iter().map(|(which, takes)| format!("{} of {}", mass(*takes), alkali(*which))).collect();
    format!(
        "{}, {}: takes up {}, counted as pure. It is in what you weigh.",
        acid.name,
        mass(acid.mass),
        each.join(" and ")
    )
}

/// The solution that the lye makes, and the purities that it was computed with.
pub fn solution(facts: &LyeFacts, style: SheetStyle) -> String {
    let purity: Vec<String> =
        facts.alkalis.iter().map(|dose| oils::purity(alkali(dose.alkali), dose.purity, style.sign)).collect();
    oils::solution(facts.concentration, &style.mass(facts.solution), &purity, style.sign)
}

/// The discount that was asked for, from which values, and what a discount is.
pub fn discount(facts: &LyeFacts, sign: DecimalSign) -> String {
    format!("{} {DISCOUNT}", oils::discount(facts.discount, basis(facts.basis), sign))
}

/// How much oil is left over at the ends of the ranges and between, and the glycerol that forms.
pub fn left_over(facts: &LyeFacts, sign: DecimalSign) -> [(&'static str, String); 4] {
    [
        (oils::AT_LOW, oils::margin(facts.margins.low, sign)),
        (oils::AT_TYPICAL, oils::margin(facts.margins.typical, sign)),
        (oils::AT_HIGH, oils::margin(facts.margins.high, sign)),
        (oils::GLYCEROL, oils::roughly(facts.glycerol, sign)),
    ]
}

/// The saponification value of a fat with its range, and whether that is verified.
pub fn fat_value(fat: &FatRowOnPaper, sign: DecimalSign) -> String {
    let doubt = if fat.verified { "" } else { oils::UNVERIFIED };
    format!("{} ({}){doubt}", number(&fat.typical.canonical(), sign), oils::span(fat.sv, sign))
}

/// Why there is no lye for a formula.
pub fn no_lye_of(why: &NoLye, formula: &Formula, shelf: &Shelf, sign: DecimalSign) -> String {
    let line = why.line().and_then(|id| formula.line(id));
    no_lye(why, &line.map(|line| choice_name(&line.choice, shelf)).unwrap_or_default(), sign)
}

/// Why there is no lye; `name` is that of the line it is about.
pub fn no_lye(why: &NoLye, name: &str, sign: DecimalSign) -> String {
    let percent = |share| with_unit(share, "%", sign);
    match why {
        NoLye::NoFats => "There is no fat to saponify. Choose oils from the shelf.".to_owned(),
        NoLye::NoMasses(why) => format!("Lye is calculated from weighed masses. {}", super::no_sheet(why, sign)),
        NoLye::Unread(field) => format!("Correct {}: it cannot be used as it is.", lye_field(*field)),
        NoLye::Unacknowledged(discount) => format!(
            "A lye discount of {} leaves no margin: any error leaves lye in the soap. No lye is calculated until you confirm that this is intended.",
            percent(*discount)
        ),
        NoLye::SvUnknown(_) => {
            format!("Nothing usable is known about how {name} saponifies. Enter its saponification value on the shelf.")
        }
        NoLye::SvImpossible(_, value) => format!(
            "{name}: no triglyceride has a saponification value of {}: {}. No lye is calculated.",
            number(&value.canonical(), sign),
            super::fats::triglycerides(sign)
        ),
        NoLye::AcidUnknown(_) => format!(
            "{name} goes by the name of an acid, which takes up lye before the fats do; how much is not known here. Choose it from the shelf, or enter its INCI name there; otherwise remove it."
        ),
        NoLye::TooStrong { concentration, most } => format!(
            "The lye would be {}\u{202f}% strong. Above {} it does not dissolve near 20\u{202f}\u{b0}C (unverified). Use more water.",
            rounded(*concentration, 2, sign),
            percent(*most)
        ),
        NoLye::NothingSaponifies => "None of these fats takes up lye.".to_owned(),
        NoLye::TooSmall(step) => format!(
            "The scale would show no lye at all. Make a larger batch, or use a scale with steps smaller than {}.",
            grams(*step, sign)
        ),
    }
}

/// A field of the plan.
pub fn lye_field(field: LyeField) -> String {
    let text = match field {
        LyeField::SodiumShare => "the share of sodium hydroxide (0 to 100\u{202f}% by moles)",
        LyeField::SodiumPurity => "the purity of the sodium hydroxide (50 to 100\u{202f}%)",
        LyeField::PotassiumPurity => "the purity of the potassium hydroxide (50 to 100\u{202f}%)",
        LyeField::Discount => "the lye discount (\u{2212}20 to 50\u{202f}%)",
        LyeField::Concentration => {
            let most =
                strongest_lye(Alkali::ALL).map_or_else(String::new, |most| format!(" (up to {})", percent_text(most)));
            return format!("the lye concentration{most}");
        }
        LyeField::Ratio => "the parts of water per part of lye (0.1 to 20)",
    };
    text.to_owned()
}
