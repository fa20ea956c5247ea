//! What is said of the swap of an oil: its limits, why there is no answer, why an oil is left out.

use super::fats::{IN_DOUBT, acids_unknown, allergen, fat_kind, with_article};
use super::{DecimalSign, cost, number_text as plain, percent_text as percent};
use crate::quantity::Percent;
use crate::sheet::{NoCost, NoReplacement, NoSwap, SwapLimit, WhyLeftOut};
use crate::shelf::NoPrice;

/// A limit of a swap, as it reads in a list.
pub fn limit(limit: &SwapLimit, sign: DecimalSign) -> String {
    match limit {
        SwapLimit::InHand => "only what you have in stock".to_owned(),
        SwapLimit::Avoid(allergens) => {
            let names: Vec<_> = allergens.keys().map(allergen).collect();
            if names.is_empty() { "whatever it carries".to_owned() } else { format!("without {}", names.join(", ")) }
        }
        SwapLimit::PlantsOnly => "only fats of plants".to_owned(),
        SwapLimit::NoDrying => "no drying oils".to_owned(),
        SwapLimit::MostOils(1) => "one oil only".to_owned(),
        SwapLimit::MostOils(most) => format!("at most {most} oils"),
        SwapLimit::MostOfOne(share) => format!("at most {}\u{202f}% of one", plain(*share)),
        SwapLimit::Oxidizability(most) => format!("oxidation index at most {}", plain(*most)),
        SwapLimit::NoDearer => "no dearer than now".to_owned(),
        SwapLimit::CostAtMost(most) => format!("at most {} for 1\u{202f}kg", cost::per_unit(most, sign)),
        SwapLimit::HlbWithin(within) => format!("required HLB within {}", plain(*within)),
    }
}

/// That no mixture can be had, and because of what.
pub fn clash(limits: &[SwapLimit], sign: DecimalSign) -> String {
    let names: Vec<_> = limits.iter().map(|one| limit(one, sign)).collect();
    match names.as_slice() {
        [] => "There is no other oil to choose from.".to_owned(),
        [one] => format!("No oil or blend can meet this limit: {one}. Lift it."),
        _ => format!("No blend can meet these limits together: {}. Lift any one of them.", names.join("; ")),
    }
}

/// Why an oil cannot be swapped by its acids.
pub fn no_swap(why: NoSwap, sign: DecimalSign) -> String {
    match why {
        NoSwap::NotAFat => "This is not known as a fat, so there is nothing to compare.".to_owned(),
        NoSwap::NotTriglyceride(kind) => format!(
            "This is {}, not a triglyceride: its fatty acids do not show what is similar. Choose by hand.",
            with_article(fat_kind(kind))
        ),
        NoSwap::NoAcids => {
            "Its fatty acids are not known. Enter them on the shelf from the supplier\u{2019}s data sheet.".to_owned()
        }
        NoSwap::AcidsUnknown(unknown) => {
            format!(
                "{} A match by the others would tell little. Correct them on the shelf.",
                acids_unknown(unknown, sign)
            )
        }
        NoSwap::HlbUnknown => {
            "Its required HLB is not known, so nothing can be matched to it. Enter one on the shelf, or lift the limit."
                .to_owned()
        }
        NoSwap::PriceUnknown(why) => format!(
            "What it costs now is not known ({}), so nothing can be held against that. Enter its price on the shelf, or lift the limit.",
            cost::no_cost(NoCost::Price(why))
        ),
    }
}

/// Why a line cannot be divided among several oils.
pub const fn no_replacement(why: NoReplacement) -> &'static str {
    match why {
        NoReplacement::Nothing => "There is nothing to put there.",
        NoReplacement::ShareUnread => {
            "Its percentage is missing or cannot be read, so it cannot be divided. Correct it first."
        }
    }
}

/// Why oils are not offered: each by itself, but for those without a price, which may be nearly all, in one sentence.
pub fn left_out(oils: &[(String, WhyLeftOut)]) -> Vec<String> {
    let is_unpriced = |why: &WhyLeftOut| *why == WhyLeftOut::NoPrice(NoPrice::Missing);
    let unpriced: Vec<&str> = oils.iter().filter(|(_, why)| is_unpriced(why)).map(|(name, _)| name.as_str()).collect();
    let others = oils.iter().filter(|(_, why)| !is_unpriced(why));
    let told = others.map(|(name, why)| format!("{name}: {}", why_left_out(*why)));
    let unpriced =
        (!unpriced.is_empty()).then(|| format!("Without a price, so not held against it: {}.", unpriced.join(", ")));
    told.chain(unpriced).collect()
}

/// Why an oil is not offered.
pub fn why_left_out(why: WhyLeftOut) -> String {
    match why {
        WhyLeftOut::Carries(allergens) => {
            let names: Vec<_> = allergens.keys().filter(|key| *key != IN_DOUBT).map(allergen).collect();
            let sure = (!names.is_empty()).then(|| format!("carries {}", names.join(", ")));
            let doubt = allergens.keys().any(|key| key == IN_DOUBT).then(|| "may be a nut".to_owned());
            let said: Vec<_> = [sure, doubt].into_iter().flatten().collect();
            if said.is_empty() { "carries an allergen".to_owned() } else { said.join("; ") }
        }
        WhyLeftOut::OfAnimals => "it is of animals".to_owned(),
        WhyLeftOut::OriginUnknown => "it is not known whether it is of plants".to_owned(),
        WhyLeftOut::Drying(iodine) => format!("it dries: its iodine value is {}", plain(iodine)),
        WhyLeftOut::AllergensUnknown => "its source is not entered, so it may carry any allergen".to_owned(),
        WhyLeftOut::AcidsUnknown(unknown) if unknown >= Percent::WHOLE => {
            "what is entered as its fatty acids cannot be used".to_owned()
        }
        WhyLeftOut::AcidsUnknown(unknown) => format!("{} of its fatty acids are not known", percent(unknown)),
        WhyLeftOut::OxidationUnknown => "the oxidation index does not suit its acids".to_owned(),
        WhyLeftOut::HlbUnknown => "its required HLB is not known".to_owned(),
        WhyLeftOut::NoPrice(why) => cost::no_cost(NoCost::Price(why)).to_owned(),
        WhyLeftOut::OtherCurrency => "its price is in another currency than the limit".to_owned(),
    }
}
