//! A fat of the table in words: its kind, its values and where they come from.

use super::fats::{fat_class, fat_kind, not_computed, provenance};
use super::oils::{COX, IV, REQUIRED_HLB, SV, allergens, oxidation, span};
use super::{DecimalSign, number};
use crate::facts::Evidence;
use crate::quantity::{Celsius, Quantity};
use crate::sheet::FatCard;

/// What kind of a fat it is.
pub fn kind(card: &FatCard) -> String {
    match card.class {
        Some(class) => format!("{}, {}", fat_class(class), fat_kind(card.kind)),
        None => fat_kind(card.kind).to_owned(),
    }
}

/// The values of a fat, as the table shows them.
pub fn card_values(card: &FatCard, sign: DecimalSign) -> Vec<(&'static str, String)> {
    let measured = |typical: Option<String>, range: Option<String>| match (typical, range) {
        (Some(typical), Some(range)) => Some(format!("{typical} ({range})")),
        (one, other) => one.or(other),
    };
    let plain = |text: String| number(&text, sign);
    let melting =
        |(low, high): (Celsius, Celsius)| format!("{} to {}", plain(low.canonical()), plain(high.canonical()));
    let rows = [
        (SV, measured(card.typical_sv.map(|v| plain(v.canonical())), card.sv.map(|v| span(v, sign)))),
        (
            IV,
            measured(card.typical_iv.map(|v| plain(v.canonical())), card.iv.map(|v| span(v, sign)))
                .or_else(|| card.figures.as_ref().map(|figures| not_computed(figures.unknown))),
        ),
        (COX, card.figures.as_ref().map(|figures| oxidation(figures, sign))),
        (REQUIRED_HLB, card.required_hlb.map(|hlb| plain(hlb.canonical()))),
        ("Maximum unsaponifiables, %", card.unsaponifiable_max.map(|most| plain(most.canonical()))),
        ("Melts, \u{b0}C", card.melts.map(melting)),
        ("Allergens", Some(card_allergens(card))),
    ];
    rows.into_iter().filter_map(|(name, text)| Some((name, text?))).collect()
}

fn card_allergens(card: &FatCard) -> String {
    match card.allergens {
        None => "not known".to_owned(),
        Some(none) if none.is_empty() => "none listed here".to_owned(),
        Some(some) => allergens(some),
    }
}

/// Where the values of a fat come from, one line for each.
pub fn card_sources(card: &FatCard) -> Vec<String> {
    let line = |what: &str, from: Option<Evidence>| {
        let from = from?;
        let text = from.text();
        let between = if text.is_empty() { "" } else { ", " };
        Some(format!("{what}: {}{between}{text}", provenance(from.provenance)))
    };
    [
        line("Fatty acids", card.acids_from),
        line("Their ranges", card.ranges_from),
        line("Saponification value", card.sv_from),
        line("Iodine value", card.iv_from),
        line("Unsaponifiables", card.unsaponifiable_from),
        line("Melting", card.melts_from),
    ]
    .into_iter()
    .flatten()
    .collect()
}
