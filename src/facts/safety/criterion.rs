//! The single figures that rules compare with, `data/criteria.csv`: a constant each, which names its row and, as its type, its
//! unit. So a key that is mistyped does not compile, and neither does a pH that is compared with a percent.
//!
//! A table in code beside the file costs one line a figure; a test holds that both agree.

use std::marker::PhantomData;
use std::sync::LazyLock;

use super::basis::basis;
use crate::facts::{Basis, CsvTable, Hlb, Months, RowProblem};
use crate::quantity::{Celsius, Day, Mass, Percent, Ph, Quantity, unitless};

/// A unit that the figure of a criterion may have.
pub trait CriterionUnit: Copy {
    /// The unit as the table names it.
    const UNIT: &'static str;

    /// From the figure in units of 0.000001, as the table is read.
    fn from_millionths(millionths: i64) -> Self;
}

macro_rules! figures {
    ($($quantity:ident = $unit:literal),+ $(,)?) => {
        $(impl CriterionUnit for $quantity {
            const UNIT: &'static str = $unit;

            fn from_millionths(millionths: i64) -> Self {
                Self::from_units(millionths / 10_i64.pow(6 - Self::PLACES))
            }
        })+
    };
}

figures! {
    Percent = "percent",
    Ph = "ph",
    Celsius = "celsius",
    Hlb = "hlb",
    Mass = "gram",
    Months = "month",
    Kilodaltons = "kilodalton",
}

unitless! {
    /// A molar mass in units of 1 g/mol, as that of a protein is told.
    Kilodaltons, MolarMass, 3, 0, 1_000_000
}

macro_rules! plain_figures {
    ($($(#[$about:meta])* $name:ident = $unit:literal, $places:literal),+ $(,)?) => {
        $($(#[$about])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
        pub struct $name(i64);

        impl $name {
            /// As a count of its smallest unit.
            pub const fn units(self) -> i64 {
                self.0
            }
        }

        impl CriterionUnit for $name {
            const UNIT: &'static str = $unit;

            fn from_millionths(millionths: i64) -> Self {
                Self(millionths / 10_i64.pow(6 - $places))
            }
        })+
    };
}

plain_figures! {
    /// A length in units of 0.0001 mm.
    Millimetres = "millimetre", 4,
    /// A part of one in units of 0.000001: a water activity, a sum of shares of limits.
    Ratio = "ratio", 6,
}

impl Millimetres {
    /// In micrometres, what is finer cut off.
    pub const fn micrometres(self) -> i64 {
        self.0 / 10
    }
}

/// Names a row of the table and the unit of its figure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CriterionKey<U> {
    key: &'static str,
    unit: PhantomData<U>,
}

/// A figure that a rule compares with, and where it comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Criterion<U> {
    /// The figure.
    pub value: U,
    /// The day since which it holds; none if it always did.
    pub since: Option<Day>,
    /// Where it comes from.
    pub basis: Basis,
}

/// A criterion without its figure: the name of its constant, its key and unit in the table, and where it comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ListedCriterion {
    /// Its constant.
    pub name: &'static str,
    /// Its key in the table.
    pub key: &'static str,
    /// Its unit in the table.
    pub unit: &'static str,
    /// Where it comes from.
    pub basis: Basis,
}

macro_rules! criteria {
    ($($unit:ident { $($(#[$doc:meta])* $name:ident = $key:literal,)+ })+) => {
        /// The keys of the criteria.
        pub mod criteria {
            use super::*;

            $($($(#[$doc])* pub const $name: CriterionKey<$unit> = CriterionKey { key: $key, unit: PhantomData };)+)+

            /// All of them.
            pub fn all() -> Vec<ListedCriterion> {
                vec![$($(ListedCriterion {
                    name: stringify!($name),
                    key: $key,
                    unit: $unit::UNIT,
                    basis: criterion($name).basis,
                }),+),+]
            }
        }
    };
}

criteria! {
    Percent {
        /// From here on acids that peel are more than an adjuster.
        ACTIVE_AHA = "active-aha",
        /// Above it alcohol preserves by itself, and burns.
        ALCOHOL_EXEMPT = "alcohol-exempt",
        /// From here on oils that turn rancid soon ask for an antioxidant.
        ANTIOXIDANT_OIL = "antioxidant-oil",
        /// Above it a solubiliser takes preservatives to itself.
        BINDER = "binder",
        /// Above it what acts as salt thins carbomer.
        CARBOMER_SALT = "carbomer-salt",
        /// From here on a chelator does something.
        CHELATOR_DOSE = "chelator-dose",
        /// From here on water asks for a chelator.
        CHELATOR_WATER = "chelator-water",
        /// The most alcohol in products for children under three.
        CHILD_ALCOHOL = "child-alcohol",
        /// How full equal spheres fill a space at their closest, by volume.
        CLOSE_PACKING = "close-packing",
        /// The least emulsifier that oils get by with, of the oils.
        EMULSIFIER_CARE = "emulsifier-care",
        /// Up to here oils ask for no emulsifier.
        EMULSIFIER_OIL = "emulsifier-oil",
        /// How much emulsifier suffices, of the oils.
        EMULSIFIER_PASS = "emulsifier-pass",
        /// Above it what feeds microbes asks for more of a preservative.
        FEEDER = "feeder",
        /// Above it the label names released formaldehyde.
        FORMALDEHYDE_LABEL = "formaldehyde-label",
        /// From here on released formaldehyde bars a preservative.
        FORMALDEHYDE_STOP = "formaldehyde-stop",
        /// Above it there is very much fragrance in what stays on.
        FRAGRANCE_CARE = "fragrance-care",
        /// Up to here fragrance in what stays on is usual.
        FRAGRANCE_PASS = "fragrance-pass",
        /// Up to here fragrance in what is rinsed off is usual.
        FRAGRANCE_SOAP = "fragrance-soap",
        /// Above this part of a limit one weighing error is enough.
        NEAR = "near",
        /// How much of a partner with a charge a gel network needs, of what builds it.
        NETWORK_CHARGED = "network-charged",
        /// From here on there is enough to build a gel network.
        NETWORK_FORMER = "network-former",
        /// How much partner a gel network needs, of what builds it.
        NETWORK_PARTNER = "network-partner",
        /// The most of all parabens together, as acid.
        PARABEN_ALL = "paraben-all",
        /// The most of the long parabens together, as acid.
        PARABEN_LONG = "paraben-long",
        /// The most of one short paraben, as acid.
        PARABEN_SHORT = "paraben-short",
        /// How much base makes an emulsifier of the acids, of those.
        SOAP_BASE = "soap-base",
        /// How far from 100 % a formula may be before it stops.
        SUM_CARE = "sum-care",
        /// How far from 100 % a formula may be.
        SUM_PASS = "sum-pass",
        /// How far two ranges of saponification values may lie apart.
        SV_APART = "sv-apart",
        /// The most tea tree oil in a face product.
        TEA_TREE_FACE = "tea-tree-face",
        /// Above it too little of a fat's acids is known to compute with.
        UNREAD_ACIDS = "unread-acids",
        /// Up to here no preservative is asked for.
        WATER_FREE = "water-free",
    }
    Ph {
        /// The least pH of a product with acids that peel.
        AHA_PH = "aha-ph",
        /// Above it a bar of soap is not cured.
        BAR_PH_CARE = "bar-ph-care",
        /// Below it a bar of soap is no soap.
        BAR_PH_LOW = "bar-ph-low",
        /// From here on what lye adjusts must not go onto skin.
        BAR_PH_STOP = "bar-ph-stop",
        /// The greatest pH at which niacinamide keeps.
        NIACINAMIDE_PH_HIGH = "niacinamide-ph-high",
        /// The least pH at which niacinamide keeps.
        NIACINAMIDE_PH_LOW = "niacinamide-ph-low",
        /// Above it alkali preserves by itself.
        PH_EXEMPT_HIGH = "ph-exempt-high",
        /// Below it acid preserves by itself.
        PH_EXEMPT_LOW = "ph-exempt-low",
        /// How far a target may lie outside of the estimate.
        PH_FAR = "ph-far",
        /// Up to here skin takes a pH well.
        SKIN_PH_HIGH = "skin-ph-high",
        /// Above it a pH harms skin.
        SKIN_PH_HIGH_CARE = "skin-ph-high-care",
        /// From here on skin takes a pH well.
        SKIN_PH_LOW = "skin-ph-low",
        /// Below it a pH harms skin.
        SKIN_PH_LOW_CARE = "skin-ph-low-care",
        /// Below it soap falls apart.
        SOAP_ACID_PH = "soap-acid-ph",
        /// Below it ultramarine gives off gas.
        ULTRAMARINE_PH = "ultramarine-ph",
    }
    Celsius {
        /// How far a phase stays below a flash point.
        FLASH_MARGIN = "flash-margin",
        /// How much too hot a phase may be before it stops.
        HEAT_CARE = "heat-care",
    }
    Hlb {
        /// How far HLB and required HLB may lie apart.
        HLB_PASS = "hlb-pass",
        /// Up to this HLB emulsifiers hold water in oil.
        HLB_WATER_IN_OIL = "hlb-water-in-oil",
    }
    Mass {
        /// Below this content (or as many millilitres) a label need not name it.
        CONTENT_LEAST = "content-least",
    }
    Months {
        /// Up to this durability a label needs a date.
        DURABILITY_MONTHS = "durability-months",
    }
    Millimetres {
        /// The least height of letters on a label.
        LETTER_HEIGHT = "letter-height",
        /// The least height of letters on a label in the United States.
        LETTER_US = "letter-us",
    }
    Kilodaltons {
        /// The greatest mean molar mass of peptides of hydrolysed wheat.
        WHEAT_KDA = "wheat-kda",
    }
    Ratio {
        /// From this part of its least usual dose on a preservative counts.
        LOW_DOSE = "low-dose",
        /// Below this part of its maximum a preservative is a trace.
        TRACE_DOSE = "trace-dose",
        /// Above this part of their limits oils that burn in the sun take care.
        PHOTOTOXIC_CARE = "phototoxic-care",
        /// Above this part of their limits oils that burn in the sun stop.
        PHOTOTOXIC_STOP = "phototoxic-stop",
        /// Below it microbes do not grow.
        WATER_ACTIVITY = "water-activity",
    }
}

/// The figure of a key. A test sees to it that every key is in the table; where one were not, the figure would be nothing and
/// from memory, on which no Stop rests.
pub fn criterion<U: CriterionUnit>(key: CriterionKey<U>) -> Criterion<U> {
    let missing = Criterion { value: Percent::ZERO, since: None, basis: Basis::memory("not in the table") };
    let row = CRITERIA.0.iter().find(|row| row.0 == key.key);
    let Criterion { value, since, basis } = row.map_or(missing, |row| row.1);
    Criterion { value: U::from_millionths(value.units()), since, basis }
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/criteria.csv")));
/// Key and figure, in units of 0.000001 whatever its unit, of each row, and what was wrong with the others.
type Rows = (Vec<(&'static str, Criterion<Percent>)>, Vec<RowProblem>);
static CRITERIA: LazyLock<Rows> = LazyLock::new(|| {
    TABLE.parse(|row| {
        let figure = Criterion { value: row.percent("value")?, since: row.day("since")?, basis: basis(row)? };
        Ok((row.get("key")?, figure))
    })
});

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn criteria_are_those_of_the_table_in_its_units() {
        assert_eq!(CRITERIA.1, Vec::new());
        assert!(CRITERIA.0.is_sorted_by(|a, b| a.0 < b.0));
        let cell = |row: crate::facts::CsvRow<'static>, name| row.get(name).unwrap();
        let rows: Vec<_> = TABLE.rows().map(|row| (cell(row, "key"), cell(row, "unit"))).collect();
        let mut listed: Vec<_> = criteria::all().iter().map(|one| (one.key, one.unit)).collect();
        listed.sort_unstable();
        assert_eq!(listed, rows);
    }

    /// A figure finer than its unit would be cut off.
    #[test]
    fn criteria_are_no_finer_than_their_units() {
        for (key, Criterion { value, .. }) in &CRITERIA.0 {
            let unit = criteria::all().iter().find(|one| one.key == *key).unwrap().unit;
            let places = match unit {
                "percent" | "gram" | "ratio" => 6,
                "millimetre" => 4,
                "celsius" | "kilodalton" => 3,
                "ph" | "hlb" => 2,
                other => i32::from(other != "month"),
            };
            assert_eq!(value.units() % 10_i64.pow(6 - places as u32), 0, "{key}");
        }
    }

    #[test]
    fn criteria_have_the_figures_of_their_rows() {
        assert_eq!(criterion(criteria::AHA_PH).value, Ph::from_units(350));
        assert_eq!(criterion(criteria::FLASH_MARGIN).value, Celsius::from_units(10_000));
        assert_eq!(criterion(criteria::LETTER_US).value.micrometres(), 1_587);
        assert_eq!(criterion(criteria::DURABILITY_MONTHS).value.units(), 30);
        assert_eq!(criterion(criteria::CONTENT_LEAST).value, Mass::from_units(5_000_000));
    }
}
