//! Words of the oils bench: swapping an oil, the oil phase, the table of fats, the lye of a batch.
#![allow(missing_docs, reason = "each constant is its own text")]

pub use super::fat_card::{card_sources, card_values, kind};
use super::fats::{acid, allergen};
use super::{DecimalSign, number, rounded, with_unit};
use crate::facts::{Allergens, FattyAcid, Hlb, Kinship, Span};
use crate::quantity::{Mass, Percent, Quantity};
use crate::sheet::{AlkaliChoice, FatSort, Figures, OilPhase, REAL_MATCH, Values, WaterBy};

pub const SWAP: &str = "Swap this oil";
pub const SWAP_INTRO: &str =
    "Find which other oils, alone or blended, come closest in fatty acids. Set your conditions first.";
pub const NUT_FREE: &str = "Nut-free (doubtful oils left out too)";
pub const SESAME_FREE: &str = "Without sesame";
pub const SOYA_FREE: &str = "Without soya";
pub const WHEAT_FREE: &str = "Without wheat";
pub const PLANTS_ONLY: &str = "Only fats of plants";
pub const NO_DRYING: &str = "No drying oils";
pub const IN_HAND_ONLY: &str = "Only oils I have in stock";
pub const IN_HAND_WHERE: &str = "Tick the ones you have in the table of fats on the Shelf.";
pub const HOW_MANY: &str = "Oils in the blend";
pub const HOW_MANY_CHOICES: [&str; 4] = ["any number", "one", "up to two", "up to three"];
pub const MOST_OF_ONE: &str = "Maximum of any one oil";
pub const NO_DEARER: &str = "No dearer than now";
pub const COST_AT_MOST: &str = "1\u{202f}kg may cost at most";
pub const COST_WHERE: &str =
    "Prices are those of your lots, else those on the cards. An oil without a price is left out and named below.";
pub const COX_AT_MOST: &str = "Maximum oxidation index";
pub const HLB_WITHIN: &str = "Required HLB may differ by";
pub const KEEPING: &str = "Give double weight to the acids that go rancid (18:2 and 18:3)";
pub const FIND: &str = "Find the closest match";
pub const BLEND: &str = "Closest blend";
pub const NO_MATCH: &str = "No real match: the closest blend";
pub const SINGLES: &str = "Single oils, closest first";
pub const ORDER: &str = "The order follows the distance across all acids together, where one large difference weighs more than several small ones; so it may not match the number of parts that differ.";
pub const NO_SINGLE: &str = "No single oil meets these limits.";
pub const TAKE: &str = "Use this";
pub const TAKEN: &str = "Oil swapped.";
pub const SHOW_ALL: &str = "Show all of them";
pub const LEFT_OUT: &str = "Left out, and why";
pub const BEFORE: &str = "Before";
pub const AFTER: &str = "After";
pub const BENCH: &str = "Oils";
pub const OIL_PHASE: &str = "Oil phase";
pub const NO_OILS: &str = "No oil in this formula yet";
pub const NO_OILS_LONG: &str =
    "Add an oil from the shelf to the oil phase: its fatty acids, and how long it keeps, then show here.";
pub const NOT_COUNTED: &str = "Not included here";
pub const SV: &str = "Saponification value, mg KOH/g";
pub const IV: &str = "Iodine value, g I\u{2082}/100\u{202f}g";
pub const COX: &str = "Oxidation index";
pub const REQUIRED_HLB: &str = "Required HLB";
pub const METHODS: &str = "How this is calculated";

pub const FATS: &str = "Table of fats";
pub const TO_SHELF: &str = "Back to all ingredients";
pub const FATS_INTRO: &str =
    "Fatty acids, values and sources of every fat on this shelf. Tick up to four to see them side by side.";
pub const SEARCH_FATS: &str = "Search fats";
pub const SORT_BY: &str = "Sort by";
pub const CLASS: &str = "Class";
pub const ALL_CLASSES: &str = "all";
pub const COMPARE: &str = "Compare";
pub const SIDE_BY_SIDE: &str = "Side by side";
pub const IN_HAND: &str = "In stock";
pub const PRINT_FATS: &str = "Print this table";
pub const PRINT_LYE: &str = "Print with the weigh sheet";
pub const NO_FAT_FOUND: &str = "No fat on the shelf matches.";
pub const SHEET_SAYS: &str = "What does not add up in these values";
pub const NO_ACIDS: &str = "no fatty acids to show";
pub const SOURCES: &str = "Ranges and sources";
pub const RANGE: &str = "Range";
pub const TYPICAL: &str = "Typical";
pub const ACID: &str = "Fatty acid";
pub const OWN_FAT: &str = "For a fat of your own: add it on the shelf, then enter the fatty acids or values from the supplier\u{2019}s data sheet there.";

pub const ALKALI: &str = "Alkali";
pub const SODIUM_SHARE: &str = "Share of NaOH, by moles";
pub const SODIUM_PURITY: &str = "Purity of the NaOH";
pub const POTASSIUM_PURITY: &str = "Purity of the KOH";
pub const LYE_DISCOUNT: &str = "Lye discount (5 if empty)";
pub const LYE_BASIS: &str = "Calculate from";
pub const WATER_BY: &str = "Set the water by";
pub const LYE_CONCENTRATION: &str = "Lye concentration (33 if empty)";
pub const WATER_RATIO: &str = "Water per part of lye (2 if empty)";
pub const ACKNOWLEDGE: &str =
    "I know that this leaves no margin, and that any error leaves lye in the soap. I intend this.";
pub const WEIGH_LYE: &str = "Weigh";
pub const WATER: &str = "Cold water";
pub const LEFT_OVER: &str = "Oil left unsaponified, of all oil";
pub const AT_LOW: &str = "at the low end of the ranges";
pub const AT_TYPICAL: &str = "at typical values";
pub const AT_HIGH: &str = "at the high end";
pub const GLYCEROL: &str = "Glycerol formed";
pub const CAUTIONS: &str = "Before you open the lye";
pub const EXPECT: &str = "What to expect";
pub const FAT: &str = "Fat";
pub const ACIDS: &str = "Acids, which take up lye before the fats do";
pub const CONFIRM_SV: &str = "Why is your saponification value right?";
pub const CONFIRM: &str = "Use my value";
pub const UNCONFIRM: &str = "Withdraw this";
pub const MASS: &str = "Mass";
pub const SV_RANGE: &str = "Saponification value";
pub const UNVERIFIED: &str = " (unverified)";
pub const PART: &str = "Saponify part of this formula";
pub const PART_INTRO: &str =
    "Tick the fats that lye will turn into soap. A lye sheet then appears here, with its cautions.";

/// What the number of points means.
pub fn points(misplaced: Percent, sign: DecimalSign) -> String {
    format!("{} of 100 parts of its fatty acids differ", tenths(misplaced, sign))
}

/// Why the closest blend is no match.
pub fn no_match(misplaced: Percent, sign: DecimalSign) -> String {
    format!(
        "{}, more than {}: it will feel and keep otherwise. Rather keep the oil, lift a limit, or take it as another formula.",
        points(misplaced, sign),
        tenths(REAL_MATCH, sign)
    )
}

fn tenths(share: Percent, sign: DecimalSign) -> String {
    rounded(share, 1, sign)
}

/// The shares of an offer with names.
pub fn shares(parts: &[(String, Percent)], sign: DecimalSign) -> String {
    match parts {
        [(only, _)] => only.clone(),
        _ => {
            let each = parts.iter().map(|(name, share)| format!("{} {name}", with_unit(*share, "%", sign)));
            each.collect::<Vec<_>>().join(" + ")
        }
    }
}

/// Allergens in words.
pub fn allergens(set: Allergens) -> String {
    if set.is_empty() {
        return "none known here".to_owned();
    }
    set.keys().map(allergen).collect::<Vec<_>>().join(", ")
}

/// What changes in allergens.
pub fn allergen_change(gained: Allergens, lost: Allergens) -> Vec<String> {
    let mut said = Vec::new();
    if !gained.is_empty() {
        said.push(format!("Allergens gained: {}.", allergens(gained)));
    }
    if !lost.is_empty() {
        said.push(format!("Allergens lost: {}.", allergens(lost)));
    }
    if said.is_empty() {
        said.push("No allergen known here is gained or lost.".to_owned());
    }
    said
}

/// A value before and after; the same one stands once.
fn change<T: Quantity>(before: Option<T>, after: Option<T>, sign: DecimalSign) -> Option<String> {
    let text = |value: Option<T>| value.map_or_else(|| "not known".to_owned(), |v| number(&v.canonical(), sign));
    if before.is_none() && after.is_none() {
        return None;
    }
    let (before, after) = (text(before), text(after));
    Some(if before == after { format!("{after}, unchanged") } else { format!("{before} \u{2192} {after}") })
}

/// The figures of an oil and of what takes its place.
pub fn changes(
    before: (&Figures, Option<&Values>, Option<Hlb>),
    after: (&Figures, Option<&Values>, Option<Hlb>),
    sign: DecimalSign,
) -> Vec<(&'static str, String)> {
    let rows = [
        (SV, change(before.1.and_then(|v| v.sv), after.1.and_then(|v| v.sv), sign)),
        (IV, change(before.1.and_then(|v| v.iv), after.1.and_then(|v| v.iv), sign)),
        (COX, change(before.0.oxidizability(), after.0.oxidizability(), sign)),
        (REQUIRED_HLB, change(before.2, after.2, sign)),
    ];
    rows.into_iter().filter_map(|(name, text)| Some((name, text?))).collect()
}

/// One acid of a bar in short: its key and its share.
pub fn short_acid(which: Option<FattyAcid>) -> &'static str {
    which.map_or("other", FattyAcid::key)
}

/// A bar in words.
pub fn bar(figures: &Figures, sign: DecimalSign) -> String {
    let part = |(which, share): &(Option<FattyAcid>, Percent)| {
        let name = which.map_or_else(|| "other acids".to_owned(), acid);
        format!("{name} {}", with_unit(*share, "%", sign))
    };
    figures.bar().iter().map(part).collect::<Vec<_>>().join(", ")
}

/// The share of a bar.
pub fn share(share: Percent, sign: DecimalSign) -> String {
    with_unit(share, "%", sign)
}

/// A family of acids, for the legend.
pub const fn family(kinship: Kinship) -> &'static str {
    match kinship {
        Kinship::ShortSaturated => "short saturated (to 14:0)",
        Kinship::LongSaturated => "long saturated",
        Kinship::Mono => "one double bond",
        Kinship::Poly => "more double bonds",
        Kinship::Hydroxy => "hydroxy",
    }
}

/// The oil phase in one line.
pub fn phase_summary(found: &OilPhase, sign: DecimalSign) -> String {
    match &found.figures {
        Some(figures) => outlook(figures, sign),
        None if found.uncounted.is_empty() => NO_OILS.to_owned(),
        None => "No fatty acids to calculate from".to_owned(),
    }
}

/// How long fats keep, or why that is not said.
pub fn outlook(figures: &Figures, sign: DecimalSign) -> String {
    match figures.outlook() {
        Some(outlook) => super::fats::outlook(outlook).to_owned(),
        None => super::fats::acids_unknown(figures.unknown, sign),
    }
}

/// The oxidation index, or why there is none.
pub(super) fn oxidation(figures: &Figures, sign: DecimalSign) -> String {
    match figures.oxidizability() {
        Some(index) => number(&index.canonical(), sign),
        None => super::fats::not_computed(figures.unknown),
    }
}

/// The numbers of the oil phase.
pub fn phase_numbers(found: &OilPhase, sign: DecimalSign) -> Vec<(&'static str, String)> {
    let mut rows = Vec::new();
    if let Some(values) = &found.values {
        let sv = values.sv.zip(values.sv_range);
        rows.extend(sv.map(|(sv, ends)| (SV, format!("{} ({})", number(&sv.canonical(), sign), span(ends, sign)))));
        rows.extend(values.iv.map(|iv| (IV, number(&iv.canonical(), sign))));
    }
    if let Some(figures) = &found.figures {
        if figures.reckoned.is_none() && rows.iter().all(|(name, _)| *name != IV) {
            rows.push((IV, super::fats::not_computed(figures.unknown)));
        }
        rows.push((COX, oxidation(figures, sign)));
    }
    rows.extend(found.required_hlb.map(|hlb| (REQUIRED_HLB, number(&hlb.canonical(), sign))));
    rows
}

/// From low to high.
pub fn span<T: Quantity>(span: Span<T>, sign: DecimalSign) -> String {
    format!("{} to {}", number(&span.low.canonical(), sign), number(&span.high.canonical(), sign))
}

/// Shares of saturated, mono and poly acids.
pub fn families(figures: &Figures, sign: DecimalSign) -> String {
    let part = |share: Percent, name: &str| format!("{}\u{202f}% {name}", tenths(share, sign));
    let mut all = vec![
        part(figures.saturated, "saturated"),
        part(figures.mono, "with one double bond"),
        part(figures.poly, "with more"),
    ];
    if figures.hydroxy > Percent::ZERO {
        all.push(part(figures.hydroxy, "hydroxy"));
    }
    let mean = figures.reckoned.map(|reckoned| {
        format!(" Mean molar mass of the acids {}.", with_unit(reckoned.mean_molar_mass, "g/mol", sign))
    });
    if figures.unknown > Percent::ZERO {
        all.push(part(figures.unknown, "not known"));
    }
    format!("{}.{}", all.join(", "), mean.unwrap_or_default())
}

/// By what the table is sorted.
pub const fn sort(sort: FatSort) -> &'static str {
    match sort {
        FatSort::Name => "name",
        FatSort::Saponification => "saponification value",
        FatSort::Iodine => "iodine value",
        FatSort::Oxidizability => "oxidation index (slowest to go rancid first)",
        FatSort::Saturated => "saturated, most first",
        FatSort::FattyAcid(FattyAcid::Oleic) => "oleic, most first",
        FatSort::FattyAcid(FattyAcid::Linoleic) => "linoleic, most first",
        FatSort::FattyAcid(FattyAcid::AlphaLinolenic) => "alpha-linolenic, most first",
        FatSort::FattyAcid(FattyAcid::Lauric) => "lauric, most first",
        FatSort::FattyAcid(_) => "fatty acid, most first",
    }
}

/// Which alkali.
pub const fn alkali_choice(choice: AlkaliChoice) -> &'static str {
    match choice {
        AlkaliChoice::Sodium => "sodium hydroxide (NaOH): bar soap",
        AlkaliChoice::Potassium => "potassium hydroxide (KOH): soft or liquid soap",
        AlkaliChoice::Both => "both (mixed alkali)",
    }
}

/// How the water is stated.
pub const fn water_by(by: WaterBy) -> &'static str {
    match by {
        WaterBy::Concentration => "concentration of the lye as weighed",
        WaterBy::PureConcentration => "concentration of pure alkali",
        WaterBy::Ratio => "parts per part of lye",
    }
}

/// What to say about the solution.
pub fn solution(concentration: Percent, mass: &str, purity: &[String], sign: DecimalSign) -> String {
    format!("Makes {mass} of {}\u{202f}% lye. {}", tenths(concentration, sign), purity.join(" "))
}

/// The purity that an alkali was reckoned with.
pub fn purity(name: &str, purity: Percent, sign: DecimalSign) -> String {
    format!("Purity of the {name}: {}.", with_unit(purity, "%", sign))
}

/// A share of oil that is left over, to a tenth; under nothing lye is left.
pub fn margin(share: Percent, sign: DecimalSign) -> String {
    format!("{}\u{202f}%", rounded(share, 1, sign))
}

/// The discount and what it rests on.
pub fn discount(discount: Percent, basis: &str, sign: DecimalSign) -> String {
    format!("Lye discount {}, calculated from {basis}.", with_unit(discount, "%", sign))
}

/// Which allergens the oils of a formula carry.
pub fn with_allergens(set: Allergens) -> String {
    format!("Allergens that these fats carry: {}.", allergens(set))
}

/// That a single oil is shown although it breaks limits.
pub fn breaks(limits: &[String]) -> String {
    if limits.is_empty() {
        return "Outside a limit you set.".to_owned();
    }
    format!("Outside a limit you set: {}.", limits.join("; "))
}

/// Where a remark comes from.
pub fn source(source: &str) -> String {
    format!("Source: {source}.")
}

/// A typical share of an acid; nothing where there is none of it.
pub fn typical_acid(share: Option<Percent>, sign: DecimalSign) -> String {
    share.filter(|share| *share > Percent::ZERO).map(|share| with_unit(share, "%", sign)).unwrap_or_default()
}

/// A mass that is reckoned and not weighed, to a tenth of a gram.
pub fn roughly(mass: Mass, sign: DecimalSign) -> String {
    format!("{}\u{202f}g", rounded(mass, 1, sign))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn allergens_gained_and_lost_are_named_and_their_absence_is_said() {
        let said = allergen_change(Allergens::TREE_NUT, Allergens::SESAME);
        assert_eq!(said, ["Allergens gained: tree nut.", "Allergens lost: sesame."]);
        assert_eq!(allergen_change(Allergens::NONE, Allergens::NONE).len(), 1);
    }

    #[test]
    fn change_of_a_value_that_is_not_known_is_said() {
        let hlb = Some(Hlb::from_units(700));
        let text = |before, after| change(before, after, DecimalSign::Point);
        assert_eq!(text(None, hlb).as_deref(), Some("not known \u{2192} 7"));
        assert_eq!(text(hlb, hlb).as_deref(), Some("7, unchanged"));
        assert_eq!(text(None, None), None);
    }

    #[test]
    fn margin_is_rounded_to_the_nearest_tenth_on_both_sides_of_nothing() {
        assert_eq!(margin(Percent::from_units(8_949_999), DecimalSign::Point), "8.9\u{202f}%");
        assert_eq!(margin(Percent::from_units(-1_260_000), DecimalSign::Point), "\u{2212}1.3\u{202f}%");
    }
}
