//! What is said about fats: methods, outlook, what could not be counted, supplier's sheets, swaps.

use super::{DecimalSign, number, percent_text as percent, with_unit};
use crate::facts::{
    FatClass, FatKind, FattyAcid, Field, OxidationOutlook, Provenance, Span, Sv, TRIGLYCERIDE_SV, criteria, criterion,
};
use crate::quantity::{Percent, Quantity};
use crate::sheet::{Hint, Reckoned, WhyUncounted};
use crate::shelf::{Disagreement, SheetFinding, SvApart, SvFrom};

/// How the saponification value is computed.
pub const SV_METHOD: &str = "Calculated from the fatty acids by the mole mean of their molar masses, a choice of this program, less the unsaponifiables; where a measured range exists, the value is kept within it. AOCS Cd 3a-94 takes their mean by mass (unverified): that is the same for most oils, and up to 8 too low for coconut and others with short acids.";
/// What the standard's way of calculating comes to, where that is another figure.
pub fn sv_by_standard(reckoned: &Reckoned, sign: DecimalSign) -> Option<String> {
    let (ours, standard) = (reckoned.computed_sv, reckoned.standard_sv);
    ((ours.units() - standard.units()).abs() >= APART).then(|| {
        format!(
            "Saponification value of the acids: {} by the mole mean; {} by the mean that AOCS Cd 3a-94 takes.",
            number(&ours.canonical(), sign),
            number(&standard.canonical(), sign)
        )
    })
}

/// From 1 on two saponification values are told apart: a table has no more than that.
const APART: i64 = 10i64.pow(Sv::PLACES);

/// How the iodine value is computed.
pub const IV_METHOD: &str =
    "Calculated from the fatty acids by AOCS Cd 1c-85; where a measured range exists, the value is kept within it.";
/// How the oxidation index is computed, and what it leaves out.
pub const COX_METHOD: &str = "Oxidizability (Cox): 18:1 + 10.3 \u{d7} 18:2 + 21.6 \u{d7} 18:3, divided by 100; rates after Fatemi & Hammond 1980 (unverified). Other acids with two or more double bonds count too, each further CH\u{2082} between two of them at 11.3 more (20:4 at 32.9, 20:5 at 44.2, 22:6 at 55.5), as the rate goes with their number (Cosgrove, Church & Pryor 1987, unverified); conjugated acids count like others with as many double bonds. It takes no account of antioxidants, metals, light, or what has already oxidised.";
/// What a match of acids does not promise.
pub const SWAP_CARE: &str = "Closeness is about typical fatty acids only. Feel, smell, colour, price and what keeps an oil fresh are not included, and refined and cold-pressed oils are not the same material. Ask the supplier about allergens, and test a small batch first.";
/// Above this the match is said not to be close; this program's own bound.
pub const CLOSE_MATCH: &str =
    "Under about 10 parts of 100, the acids are close; this is a working limit of this program, not a published one.";
/// What a required HLB is worth.
pub const HLB_CARE: &str = "Lists of required HLB differ by 1 to 3 and apply to ethoxylated emulsifiers only. Swapping one seed oil for another hardly ever needs another emulsifier; castor oil, esters, hydrocarbons and waxes do.";

/// That nothing is computed from the acids, since so much of them is not known.
pub fn acids_unknown(unknown: Percent, sign: DecimalSign) -> String {
    format!(
        "{} of the fatty acids were not recognised, not told apart or not named. From {} up, iodine value, oxidation index and keeping are not calculated, because they would describe only the rest.",
        with_unit(unknown, "%", sign),
        with_unit(criterion(criteria::UNREAD_ACIDS).value, "%", sign)
    )
}

/// The same of one fat by its name.
pub fn untold(name: &str, unknown: Percent, sign: DecimalSign) -> String {
    if unknown >= Percent::WHOLE {
        format!("{name}: what is entered as its fatty acids cannot be used, so nothing is calculated from them.")
    } else {
        format!("{name}: {}", acids_unknown(unknown, sign))
    }
}

/// In the place of a figure that is not computed.
pub fn not_computed(unknown: Percent) -> String {
    format!("not calculated: {} of the acids are not known", percent(unknown))
}

/// An article and a noun.
pub(super) fn with_article(noun: &str) -> String {
    let article = if noun.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
    format!("{article} {noun}")
}

/// An acid as a maker knows it.
pub fn acid(acid: FattyAcid) -> String {
    match acid {
        FattyAcid::Ricinoleic => "ricinoleic (18:1 OH)".to_owned(),
        FattyAcid::AlphaLinolenic | FattyAcid::GammaLinolenic => format!("{} (18:3)", acid.name()),
        _ => format!("{} ({})", acid.name(), acid.key()),
    }
}

/// A kind of fat.
pub const fn fat_kind(kind: FatKind) -> &'static str {
    match kind {
        FatKind::Triglyceride => "triglyceride",
        FatKind::WaxEster => "wax ester",
        FatKind::SterolEster => "sterol ester",
        FatKind::Hydrocarbon => "hydrocarbon",
    }
}

/// A class of fat.
pub const fn fat_class(class: FatClass) -> &'static str {
    match class {
        FatClass::Oil => "oil",
        FatClass::Butter => "butter",
        FatClass::Wax => "wax",
        FatClass::Animal => "animal fat",
    }
}

/// How well a value is known.
pub const fn provenance(known: Provenance) -> &'static str {
    match known {
        Provenance::Maker => "from your supplier",
        Provenance::Verified => "read in its source",
        Provenance::Checked => "source not read, but a value that was read agrees (unverified)",
        Provenance::Mixed => "read only in part (unverified)",
        Provenance::Allowance | Provenance::Custom => "common trade practice or a choice of this program",
        Provenance::Memory => "source not read (unverified)",
    }
}

/// The key of what may be a nut.
pub(super) const IN_DOUBT: &str = "nut-in-doubt";

/// An allergen by its key.
pub fn allergen(key: &str) -> &'static str {
    match key {
        "tree-nut" => "tree nut",
        "peanut" => "peanut",
        IN_DOUBT => "possible nut",
        "sesame" => "sesame",
        "soya" => "soya",
        "wheat" => "wheat",
        "mustard" => "mustard",
        "milk" => "milk",
        "wool" => "wool wax (lanolin)",
        _ => "allergen",
    }
}

/// How long a fat keeps, in plain words.
pub const fn outlook(outlook: OxidationOutlook) -> &'static str {
    match outlook {
        OxidationOutlook::Long => "Slow to go rancid.",
        OxidationOutlook::Usual => "Keeps about as long as olive or almond oil: cool, dark and closed.",
        OxidationOutlook::Short => {
            "Goes rancid sooner than most, like sunflower or grapeseed oil: buy small amounts and add an antioxidant."
        }
        OxidationOutlook::VeryShort => {
            "Goes rancid very soon, like evening primrose or linseed oil: keep it cold, add an antioxidant, use it up."
        }
    }
}

/// Why a line is not in the profile.
pub const fn why_uncounted(why: WhyUncounted) -> &'static str {
    match why {
        WhyUncounted::NotTriglyceride(FatKind::WaxEster) => {
            "is a wax: its acids are only part of it, so nothing is calculated from them. Its measured saponification value counts; it saponifies only in part."
        }
        WhyUncounted::NotTriglyceride(FatKind::SterolEster) => {
            "is made of sterol esters: nothing is calculated from its acids. It resists saponification."
        }
        WhyUncounted::NotTriglyceride(_) => "is a hydrocarbon: it has no fatty acids, and nothing of it saponifies.",
        WhyUncounted::NoAcids => "has no readable fatty acids.",
        WhyUncounted::Unknown => "has no data as a fat here.",
        WhyUncounted::ShareUnread => "has no readable percentage.",
    }
}

/// A value without a unit.
fn figure(value: impl Quantity, sign: DecimalSign) -> String {
    number(&value.canonical(), sign)
}

fn range<T: Quantity>(span: Span<T>, sign: DecimalSign) -> String {
    format!("{} to {}", figure(span.low, sign), figure(span.high, sign))
}

fn disagrees<T: Quantity>(what: &str, off: &Disagreement<T>, sign: DecimalSign) -> String {
    format!(
        "The fatty acids give a {what} of {}, but {} was measured. That is beyond the error of the method: one of the two belongs to another oil, or the composition is incomplete.",
        figure(off.computed, sign),
        range(off.measured, sign)
    )
}

/// A computed saponification value that the measured ones do not bear out.
pub fn sv_disagrees(off: &Disagreement<crate::facts::Sv>, sign: DecimalSign) -> String {
    disagrees("saponification value", off, sign)
}

/// A typed saponification value that stands out, and what counts.
pub fn sv_apart(apart: SvApart, reason: Option<&str>, sign: DecimalSign) -> String {
    let expected = match apart.from {
        SvFrom::Table => "the table has",
        SvFrom::Acids => "its fatty acids give",
    };
    let found = format!(
        "A saponification value of {} is entered, but {expected} {}: more than {} apart.",
        range(apart.typed, sign),
        range(apart.expected, sign),
        with_unit(criterion(criteria::SV_APART).value, "%", sign)
    );
    match reason {
        None => format!(
            "{found} Too high a value leaves lye in the soap. Until you confirm yours with a reason, the lower one counts: {}. Check the digits against the data sheet.",
            range(apart.counted(), sign)
        ),
        Some(reason) => format!("{found} You have confirmed yours, and it counts. Reason: {}", reason_text(reason)),
    }
}

fn reason_text(reason: &str) -> String {
    let end = if reason.ends_with(['.', '!', '?']) { "" } else { "." };
    format!("{reason}{end}")
}

/// The same of an iodine value.
pub fn iv_disagrees(off: &Disagreement<crate::facts::Iv>, sign: DecimalSign) -> String {
    disagrees("iodine value", off, sign)
}

/// What is odd about a supplier's values.
pub fn sheet_finding(finding: &SheetFinding, sign: DecimalSign) -> String {
    let shown = |text: &str| text.chars().take(40).collect::<String>();
    match finding {
        SheetFinding::PartUnread(part) => format!(
            "\u{201c}{}\u{201d} is not an acid followed by a percentage, so it is left out. Write 18:1 72 or oleic 72, with a semicolon between acids.",
            shown(part)
        ),
        SheetFinding::Twice(part) => {
            format!("\u{201c}{}\u{201d}: this acid is already listed. The first entry counts.", shown(part))
        }
        SheetFinding::RangeReversed(part) => {
            format!("\u{201c}{}\u{201d}: the range starts with the larger number. It is left out.", shown(part))
        }
        SheetFinding::CountedAsRest(part) => {
            format!("\u{201c}{}\u{201d} counts among the other acids: it has no column of its own here.", shown(part))
        }
        SheetFinding::NotUnderstood(part) => format!(
            "\u{201c}{}\u{201d}: this acid is not recognised. Its share counts as not known. Write its shorthand (18:1 n-9, 18:3 n-3) or its name.",
            shown(part)
        ),
        SheetFinding::SumOfGroup(part) => {
            format!("\u{201c}{}\u{201d} is the total of a group and is not counted beside its acids.", shown(part))
        }
        SheetFinding::NoAcid(part) => {
            format!("\u{201c}{}\u{201d} is not the percentage of an acid. It is left out here.", shown(part))
        }
        SheetFinding::TotalOfIsomers(part) => format!(
            "\u{201c}{}\u{201d} is the total of acids that are listed one by one. It is not counted a second time.",
            shown(part)
        ),
        SheetFinding::AcidsUnknown(unknown) => format!(
            "{} Correct what is not recognised, or ask the supplier for the whole composition.",
            acids_unknown(*unknown, sign)
        ),
        SheetFinding::SvApart(apart, reason) => sv_apart(*apart, reason.as_deref(), sign),
        SheetFinding::MiddlesTaken => {
            "The midpoints of the ranges are used as typical values and scaled to 100\u{202f}%.".to_owned()
        }
        SheetFinding::SumTooSmall(sum) => format!(
            "The acids add up to only {}\u{202f}%. Too much is missing: nothing is calculated from them.",
            figure(*sum, sign)
        ),
        SheetFinding::SumShort(sum) => format!(
            "The acids add up to {}\u{202f}%, not 100. Some were not named, or the data sheet gives grams in 100\u{202f}g of oil, which add up to about 95. They are scaled to 100\u{202f}%; ask the supplier what the rest is.",
            figure(*sum, sign)
        ),
        SheetFinding::SumOver(sum) => format!(
            "The acids add up to {}\u{202f}%, which is impossible. One is counted twice, or is a group that includes others. Nothing is calculated from them.",
            figure(*sum, sign)
        ),
        SheetFinding::RangesCannotSum => {
            "No values within these ranges add up to 100\u{202f}%. Nothing is calculated from them.".to_owned()
        }
        SheetFinding::ValueUnread(field) => {
            format!("{} cannot be read and is not used.", super::page::field(*field))
        }
        SheetFinding::EndsReversed(field) => {
            format!("The low end of the {} value is above its high end. Neither is used.", which_value(*field))
        }
        SheetFinding::LowEndMissing(field) => format!(
            "Only the high end of the {} value is entered, and no matching low end is known. It is not used: enter both ends, or enter the single value on the data sheet as the low end.",
            which_value(*field)
        ),
        SheetFinding::SvImpossible(value) => format!(
            "No triglyceride has a saponification value of {}: {}. No lye is calculated from it. Check the unit, or set the kind of fat to something other than triglyceride.",
            figure(*value, sign),
            triglycerides(sign)
        ),
        SheetFinding::SvDisagrees(off) => sv_disagrees(off, sign),
        SheetFinding::IvDisagrees(off) => iv_disagrees(off, sign),
        SheetFinding::TakenAsTriglyceride => {
            "It is treated as a triglyceride, as plant oils and butters are. If it is a wax or a hydrocarbon, set the kind of fat."
                .to_owned()
        }
    }
}

const fn which_value(low: Field) -> &'static str {
    if matches!(low, Field::SvLow) { "saponification" } else { "iodine" }
}

/// Which saponification values there are.
pub(super) fn triglycerides(sign: DecimalSign) -> String {
    let Span { low, high } = TRIGLYCERIDE_SV;
    format!("they lie between {} and {}\u{202f}mg KOH/g", figure(low, sign), figure(high, sign))
}

/// A remark on an offer, and its source; `name` is the oil's.
pub fn hint(hint: &Hint, name: &str) -> (String, &'static str) {
    match hint {
        Hint::Firmness(_, FatClass::Oil) => (
            format!("{name} is liquid where the old one is solid: the product gets softer."),
            "melting ranges of the table of fats",
        ),
        Hint::Firmness(_, class) => (
            format!(
                "{name} is {}, solid or pasty where the old one is liquid: the product gets firmer.",
                with_article(fat_class(*class))
            ),
            "melting ranges of the table of fats",
        ),
        Hint::Thick(_) => (format!("{name} is about eight times as thick as seed oils."), VISCOSITY),
        Hint::Thin(_) => (
            format!("{name} is thinner than seed oils."),
            "European Pharmacopoeia (25 to 33 mPa\u{b7}s at 20\u{202f}\u{b0}C)",
        ),
        Hint::OldWasThick => ("The old oil was about eight times as thick as these.".to_owned(), VISCOSITY),
        Hint::OxidationDoubtful(_) => (
            format!("The oxidation index says little about {name}: its acids are of another kind."),
            "Knothe 2002, JAOCS 79:847 (unverified)",
        ),
        Hint::AllergensUnknown(_) => {
            (format!("It is not known which allergens {name} carries. Read its data sheet."), "this shelf")
        }
    }
}

const VISCOSITY: &str = "viscosities of Ryan 1984, Goering 1982 and Noureddini 1992, in an open compilation";
