//! Which substances belong together for a rule, and what shares of them count.
//!
//! `data/classes.csv` names the members of a class by INCI name (`~part` stands for every name with words that begin so in it,
//! `~=part` for those with just these words, `~~part` for those with these letters),
//! `data/shares.csv` gives a share for some, `data/us-names.csv` names that a label in the United States has instead. Every
//! row has its source and how well it is known.

use std::sync::LazyLock;

use super::basis::basis;
use crate::facts::{Basis, CsvRow, CsvTable, RowProblem, fold};
use crate::quantity::Percent;

macro_rules! keyed {
    ($(#[$about:meta])* $name:ident { $($(#[$doc:meta])* $variant:ident = $key:literal,)+ }) => {
        $(#[$about])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name {
            $($(#[$doc])* $variant),+
        }

        impl $name {
            /// All.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// Its key in the table.
            pub const fn key(self) -> &'static str {
                match self { $(Self::$variant => $key),+ }
            }
        }
    };
}

keyed! {
    /// Substances that belong together for a rule: a row of `data/classes.csv`.
    SubstanceClass {
        /// Acids that fizz with bicarbonate.
        Acid = "acid",
        /// Preservatives that act as acids.
        AcidPreservative = "acid-preservative",
        /// Acids that peel.
        Aha = "aha",
        /// Alcohol.
        Alcohol = "alcohol",
        /// Lyes.
        Alkali = "alkali",
        /// Amines that nitrosate.
        Amine = "amine",
        /// What carries a negative charge.
        Anionic = "anionic",
        /// Antioxidants.
        Antioxidant = "antioxidant",
        /// Waters of scented plants, which carry some of their oil.
        AromaticWater = "aromatic-water",
        /// What fizzes with acid.
        Bicarbonate = "bicarbonate",
        /// Preservatives that solubilisers bind.
        BoundPreservative = "bound-preservative",
        /// Oils and substances like camphor and menthol.
        CamphorLike = "camphor-like",
        /// Carbomers.
        Carbomer = "carbomer",
        /// What carries a positive charge.
        Cationic = "cationic",
        /// Chelators.
        Chelator = "chelator",
        /// Words for what holds no water any more.
        Dry = "dry",
        /// Oils that turn rancid soon.
        FastOxidising = "fast-oxidising",
        /// Fatty acids that a base makes soap of.
        FattyAcid = "fatty-acid",
        /// What feeds microbes.
        Feeder = "feeder",
        /// What builds a gel network.
        GelFormer = "gel-former",
        /// What a gel network needs beside that.
        GelPartner = "gel-partner",
        /// Gums and carbomers that clump.
        Gum = "gum",
        /// Hydrolysed wheat.
        HydrolysedWheat = "hydrolysed-wheat",
        /// Colours of iron.
        Iron = "iron",
        /// What iron colours.
        IronSensitive = "iron-sensitive",
        /// What may be nanomaterial.
        Nano = "nano",
        /// Niacinamide.
        Niacinamide = "niacinamide",
        /// What makes nitrosamines of amines.
        Nitrosating = "nitrosating",
        /// Solubilisers that bind preservatives.
        NonionicBinder = "nonionic-binder",
        /// Hydrocarbons that dissolve a preservative as liquid paraffin does.
        Paraffin = "paraffin",
        /// Peanut oil.
        Peanut = "peanut",
        /// Vitamin A and its kin.
        Retinoid = "retinoid",
        /// What acts as salt.
        SaltLike = "salt-like",
        /// Soaps as ingredients.
        Soap = "soap",
        /// What a base makes soap of in the making of a cream.
        SoapAcid = "soap-acid",
        /// The bases that do.
        SoapBase = "soap-base",
        /// Words for sources that people are allergic to.
        SourceFlag = "source-flag",
        /// Tea tree oil.
        TeaTree = "tea-tree",
        /// Ultramarine.
        Ultramarine = "ultramarine",
        /// Water and what holds mostly water.
        Water = "water",
        /// What a gum is wetted with.
        Wetting = "wetting",
        /// Zinc oxide.
        ZincOxide = "zinc-oxide",
    }
}

keyed! {
    /// Substances of which a share counts: a class of `data/shares.csv`.
    ShareClass {
        /// Oils that burn skin in the sun: how much of each may stay on it.
        Furocoumarin = "furocoumarin",
        /// Preservatives that release formaldehyde: how much of each is formaldehyde.
        Releaser = "releaser",
    }
}

struct ClassRow {
    key: &'static str,
    names: Vec<String>,
    parts: Vec<String>,
    words: Vec<String>,
    letters: Vec<String>,
    basis: Basis,
}

/// The basis of a class, if the substance of this folded name belongs to it.
pub fn in_class(class: SubstanceClass, folded: &str) -> Option<Basis> {
    let class = CLASSES.0.iter().find(|row| row.key == class.key())?;
    let within = class.names.iter().any(|name| name == folded)
        || class.parts.iter().any(|part| folded.contains(part))
        || class.words.iter().any(|words| has_words(folded, words))
        || class.letters.iter().any(|letters| folded.contains(letters));
    within.then_some(class.basis)
}

/// Whether these words stand in a text, both folded: none of them is the beginning of another.
fn has_words(folded: &str, words: &str) -> bool {
    folded.match_indices(words).any(|(at, _)| {
        let rest = folded.get(at + words.len()..).unwrap_or_default();
        rest.is_empty() || rest.starts_with(' ')
    })
}

/// The share that a class gives a substance of this folded name.
pub fn share_in(class: ShareClass, folded: &str) -> Option<(Percent, Basis)> {
    SHARES.0.iter().find(|row| row.0 == class.key() && row.1 == folded).map(|row| (row.2, row.3))
}

/// The name that a label in the United States has for an INCI name, where it differs.
pub fn us_name(inci: &str) -> Option<&'static str> {
    US.0.iter().find(|(known, ..)| *known == inci).map(|(_, name, _)| *name)
}

/// Where such a name was read, by the name itself.
pub fn us_name_basis(name: &str) -> Option<Basis> {
    US.0.iter().find(|(_, known, _)| *known == name).map(|(.., basis)| *basis)
}

type Read<T> = LazyLock<(Vec<T>, Vec<RowProblem>)>;

static CLASS_TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/classes.csv")));
static CLASSES: Read<ClassRow> = LazyLock::new(|| CLASS_TABLE.parse(read_class));
static SHARE_TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/shares.csv")));
static SHARES: Read<(&str, String, Percent, Basis)> = LazyLock::new(|| {
    SHARE_TABLE.parse(|row| Ok((row.get("class")?, fold(row.get("name")?), row.percent("percent")?, basis(row)?)))
});
static US_TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/us-names.csv")));
static US: Read<(&str, &str, Basis)> =
    LazyLock::new(|| US_TABLE.parse(|row| Ok((row.get("inci")?, row.get("name")?, basis(row)?))));

fn read_class(row: CsvRow<'static>) -> Result<ClassRow, RowProblem> {
    let names = || row.get("names").map(|names| names.split("; "));
    Ok(ClassRow {
        key: row.get("class")?,
        names: names()?.filter(|name| !name.starts_with('~')).map(fold).collect(),
        parts: names()?
            .filter_map(|name| name.strip_prefix('~'))
            .filter(|part| !part.starts_with(['=', '~']))
            .map(fold)
            .collect(),
        words: names()?.filter_map(|name| name.strip_prefix("~=")).map(fold).collect(),
        letters: names()?.filter_map(|name| name.strip_prefix("~~")).map(|text| fold(text).trim().to_owned()).collect(),
        basis: basis(row)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn problems<T>(read: &(Vec<T>, Vec<RowProblem>)) -> Vec<String> {
        read.1.iter().map(ToString::to_string).collect()
    }

    #[test]
    fn classes_shares_and_names_are_read_sorted_and_sourced() {
        for wrong in [problems(&CLASSES), problems(&SHARES), problems(&US)] {
            assert_eq!(wrong, Vec::<String>::new());
        }
        assert!(CLASSES.0.is_sorted_by(|a, b| a.key < b.key));
        assert!(SHARES.0.is_sorted_by(|a, b| (a.0, &a.1) < (b.0, &b.1)));
        assert!(US.0.is_sorted_by(|a, b| a.0 < b.0));
        for class in &CLASSES.0 {
            assert!(!class.basis.source.is_empty(), "{}", class.key);
            let all: Vec<_> =
                class.names.iter().chain(&class.parts).chain(&class.words).chain(&class.letters).collect();
            assert!(!all.is_empty() && all.iter().all(|name| !name.is_empty()), "{}", class.key);
            assert!((1..all.len()).all(|n| !all[..n].contains(&all[n])), "{}: a name twice", class.key);
        }
    }

    #[test]
    fn classes_are_those_of_the_tables() {
        let listed: Vec<_> = SubstanceClass::ALL.iter().map(|class| class.key()).collect();
        assert_eq!(listed, CLASSES.0.iter().map(|row| row.key).collect::<Vec<_>>());
        let mut shares: Vec<_> = SHARES.0.iter().map(|row| row.0).collect();
        shares.dedup();
        assert_eq!(ShareClass::ALL.iter().map(|class| class.key()).collect::<Vec<_>>(), shares);
    }

    #[test]
    fn classes_take_whole_names_and_words() {
        let hit = |class, name: &str| in_class(class, &fold(name)).is_some();
        let water = |name| hit(SubstanceClass::Water, name);
        assert!(water("Aqua") && water("Rosa Centifolia Flower Water") && !water("Aquatic"));
        assert!(water("Caprae Lac") && !water("Lactic Acid") && water("Betula Alba Sap") && !water("Saponins"));
        assert!(hit(SubstanceClass::Peanut, "Arachis Hypogaea Oil") && !hit(SubstanceClass::Peanut, "Aqua"));
    }
}
