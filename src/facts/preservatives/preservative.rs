//! The table of preservatives: limits of the European list, what counts against them, windows, coverage, blends.
//!
//! `data/preservatives.csv` holds one row a material, sorted by id, `data/preservative-sources.csv` what its short keys
//! stand for. The column `seen` names what was seen in a stored copy of the source (`limit`, `factor`: what counts
//! against the limit, computed from molar masses; `rules`: bars, child rule, label); everything else is from memory:
//! pH windows, usual shares, coverage, and the composition of blends. What acids do at a pH follows from
//! [`crate::facts::acid`].

use std::sync::LazyLock;

use super::read_row::read_row;
use crate::facts::{CsvTable, PhWindow, Provenance, RowProblem, UseRange, read_sources};
use crate::quantity::{Percent, Ph, Quantity};

/// What a row is in law.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PreservativeGroup {
    /// In Annex V of Regulation (EC) 1223/2009: it may be the preservative.
    Listed,
    /// Helps a preservative and may not be counted as one.
    Booster,
    /// A mixture as sold; its parts count.
    Blend,
    /// May not be used.
    Banned,
}

/// What a row of the list must not be used in or with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Barred {
    /// Sprays.
    Spray,
    /// Lip products.
    Lip,
    /// Products for the mouth.
    Oral,
    /// Products that may be breathed in.
    Inhaled,
    /// Products near the eye.
    Eye,
    /// Lotions and creams for large parts of the body.
    Body,
    /// Products left on the nappy area of children under three.
    NappyUnderThree,
    /// Amines and amides, with which nitrosamines may form.
    Amines,
    /// The mixture of methylchloroisothiazolinone and methylisothiazolinone.
    CmitMit,
}

/// What holds for children.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChildRule {
    /// Not under three years.
    NotUnderThree,
    /// Not under three years but in shampoos.
    NotUnderThreeButShampoo,
    /// Not under three years but in bath products, shower gels and shampoos.
    NotUnderThreeButWash,
    /// Not on the nappy area under three years.
    NotNappyUnderThree,
    /// Not barred; makers leave it out of products for babies.
    Avoid,
    /// Not barred; national advice against the nappy area under three years.
    AvoidNappy,
}

/// Words that the label must carry.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LabelDuty {
    /// Not to be used for children under three years of age.
    UnderThree,
    /// Do not use on the nappy area.
    Nappy,
    /// Releases formaldehyde, above 0.001 % released in the product.
    Formaldehyde,
    /// Avoid contact with eyes.
    Eyes,
    /// Contains vitamin A: asked for by a cap and not by the list of preservatives.
    VitaminA,
}

/// How well organisms are held: 0 weak, 1 fair, 2 good. From memory throughout.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cover {
    /// Gram-positive bacteria.
    pub gram_positive: u8,
    /// Gram-negative bacteria.
    pub gram_negative: u8,
    /// Yeasts.
    pub yeast: u8,
    /// Moulds.
    pub mould: u8,
}

impl Cover {
    /// The better of both for each organism.
    #[must_use]
    pub fn best(self, other: Self) -> Self {
        Self {
            gram_positive: self.gram_positive.max(other.gram_positive),
            gram_negative: self.gram_negative.max(other.gram_negative),
            yeast: self.yeast.max(other.yeast),
            mould: self.mould.max(other.mould),
        }
    }
}

/// One part of a blend, with the range of its share in the blend. From memory: a certificate beats it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BlendPart {
    /// An ingredient's id.
    pub id: &'static str,
    /// Its least share.
    pub low: Percent,
    /// Its greatest share: what a check of a limit counts.
    pub high: Percent,
}

impl BlendPart {
    /// The middle of its range: what anything but a limit counts.
    pub fn middle(&self) -> Percent {
        Percent::from_units(self.low.plus(self.high).units() / 2)
    }
}

/// One row.
#[derive(Debug, PartialEq, Eq)]
pub struct Preservative {
    /// The ingredient's id.
    pub id: &'static str,
    /// What it is in law.
    pub group: PreservativeGroup,
    /// Its entry in Annex V, `II/…` in Annex II; empty where it has none.
    pub entry: &'static str,
    /// The id under which all sources of one substance are summed: salts count with their acid.
    pub sum_with: &'static str,
    /// Greatest share left on the skin, as counted. Zero: not allowed there.
    pub leave_on: Option<Percent>,
    /// Greatest share washed off, as counted. Zero: not allowed there.
    pub rinse_off: Option<Percent>,
    /// How well the limits are known.
    pub limit_provenance: Provenance,
    /// How much of it counts against the limits: the share of acid in a salt, else all of it.
    pub counted: Percent,
    /// The row of the table of acids that says how much of it is undissociated.
    pub acid: Option<&'static str>,
    /// The pH in which it works.
    pub window: Option<PhWindow>,
    /// The pH up to which it still counts, with care.
    pub ph_worst: Option<Ph>,
    /// Usual share.
    pub usual: Option<UseRange>,
    /// What it holds.
    pub cover: Option<Cover>,
    /// What it is weak against.
    pub weak: &'static str,
    /// What it must not be used in or with.
    pub barred: Vec<Barred>,
    /// What holds for children.
    pub child: Option<ChildRule>,
    /// What the label must say.
    pub label: Option<LabelDuty>,
    /// How well bars, child rule and label are known.
    pub rules_provenance: Provenance,
    /// What a blend consists of; empty if that is not known.
    pub parts: Vec<BlendPart>,
    /// Anything else worth knowing.
    pub note: &'static str,
    /// Where the row was read.
    pub sources: Vec<&'static str>,
}

impl Preservative {
    /// What of an added share counts against the limits (as acid, where it is a salt).
    #[must_use]
    pub fn counts(&self, added: Percent) -> Percent {
        self.counted.of(added)
    }
}

/// The row of an ingredient's preservative link.
pub fn preservative(id: &str) -> Option<&'static Preservative> {
    let all = preservatives();
    all.binary_search_by(|row| row.id.cmp(id)).ok().and_then(|n| all.get(n))
}

/// All rows, sorted by id. A row that cannot be read is left out; a test sees to it that there is none.
pub fn preservatives() -> &'static [Preservative] {
    &ROWS.0
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/preservatives.csv")));
static SOURCES: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/preservative-sources.csv")));

static ROWS: LazyLock<(Vec<Preservative>, Vec<RowProblem>)> = LazyLock::new(|| {
    let sources = read_sources(&SOURCES);
    TABLE.parse(|row| read_row(row, &sources))
});

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::{acid, material, materials};

    fn of(id: &str) -> &'static Preservative {
        preservative(id).unwrap_or_else(|| panic!("{id}"))
    }

    fn percent(text: &str) -> Percent {
        Percent::from_canonical(text).unwrap()
    }

    #[test]
    fn preservatives_every_row_is_read_and_sorted() {
        assert_eq!(ROWS.1.iter().map(ToString::to_string).collect::<Vec<_>>(), Vec::<String>::new());
        assert_eq!(preservatives().len(), 85);
        let ids: Vec<_> = TABLE.rows().map(|row| row.get("id").unwrap()).collect();
        assert!(ids.is_sorted_by(|a, b| a < b));
        let groups = |group| preservatives().iter().filter(|row| row.group == group).count();
        assert_eq!(
            [
                PreservativeGroup::Listed,
                PreservativeGroup::Booster,
                PreservativeGroup::Blend,
                PreservativeGroup::Banned
            ]
            .map(groups),
            [46, 19, 17, 3]
        );
    }

    #[test]
    fn preservatives_links_lead_somewhere() {
        let known = |id: &str| material(id).is_some();
        for row in preservatives() {
            assert!(known(row.id), "{}", row.id);
            assert!(preservative(row.sum_with).is_some(), "{}: {}", row.id, row.sum_with);
            assert!(row.acid.is_none_or(|id| acid(id).is_some()), "{}: {:?}", row.id, row.acid);
            for part in &row.parts {
                assert!(known(part.id) || preservative(part.id).is_some(), "{}: {}", row.id, part.id);
                assert!(part.low <= part.high, "{}: {}", row.id, part.id);
            }
            let least: Percent = row.parts.iter().map(|part| part.low).sum();
            assert!(least <= Percent::WHOLE, "{}", row.id);
            assert!(row.group == PreservativeGroup::Blend || row.parts.is_empty(), "{}", row.id);
        }
        for material in materials() {
            assert!(material.links.preservative.is_none_or(|id| preservative(id).is_some()), "{}", material.id);
        }
    }

    #[test]
    fn preservatives_windows_are_in_order() {
        for row in preservatives() {
            if let Some(PhWindow { min: Some(min), max: Some(max) }) = row.window {
                assert!(min < max && row.ph_worst.is_some_and(|worst| max <= worst), "{}", row.id);
            }
        }
    }

    // Source: Regulation (EC) 1223/2009, Annex V, entries 1, 3, 4, 12, 12a, 13, 29, 34, 56 (open export of February
    // 2024): greatest concentrations in ready for use preparations, left on and washed off.
    #[test]
    fn preservatives_limits_are_those_of_the_list() {
        for (id, leave_on, rinse_off) in [
            ("sodium-benzoate", "0.5", "2.5"),
            ("salicylic-acid", "0.5", "0.5"),
            ("potassium-sorbate", "0.6", "0.6"),
            ("methylparaben", "0.4", "0.4"),
            ("propylparaben", "0.14", "0.14"),
            ("dehydroacetic-acid", "0.6", "0.6"),
            ("phenoxyethanol", "1", "1"),
            ("benzyl-alcohol", "1", "1"),
            ("ipbc", "0.01", "0.02"),
            ("methylisothiazolinone", "0", "0.0015"),
        ] {
            let row = of(id);
            assert_eq!((row.leave_on, row.rinse_off), (Some(percent(leave_on)), Some(percent(rinse_off))), "{id}");
            assert!(row.limit_provenance.is_verified(), "{id}");
        }
    }

    // Molar masses from atomic weights; 4-hydroxybenzoic acid 138.121 g/mol, parabens 152.149, 166.176, 180.203,
    // 194.230 g/mol.
    #[test]
    fn preservatives_share_of_acid_follows_from_molar_masses() {
        let near = |id: &str, share: f64| {
            let counted = of(id).counted.units() as f64 / 1e8;
            assert!((counted - share).abs() < 1e-4, "{id}: {counted} {share}");
        };
        for id in
            ["sodium-benzoate", "potassium-sorbate", "sodium-sorbate", "sodium-dehydroacetate", "sodium-salicylate"]
        {
            let salt = acid(id).unwrap();
            near(id, salt.system().unwrap().mass / salt.mass);
        }
        for (id, mass) in [
            ("methylparaben", 152.149),
            ("ethylparaben", 166.176),
            ("propylparaben", 180.203),
            ("butylparaben", 194.230),
        ] {
            near(id, 138.121 / mass);
        }
        near("benzoates-other", 122.123 / 160.213);
    }

    // Worked with 122.12 and 144.11 g/mol, as handbooks print them: 0.60 % sodium benzoate counts as 0.508 % acid, above
    // 0.5 %; 0.59 % as 0.49999 %, which is not; 0.58 % as 0.4915 %.
    #[test]
    fn preservatives_salts_count_as_acid() {
        let benzoate = of("sodium-benzoate");
        assert_eq!(benzoate.counts(percent("0.6")), percent("0.50847"));
        assert!(
            benzoate.counts(percent("0.59")) < percent("0.5") && benzoate.counts(percent("0.591")) > percent("0.5")
        );
        assert_eq!(benzoate.counts(percent("0.58")), percent("0.491521"));
        assert_eq!(benzoate.sum_with, "benzoic-acid");
        assert_eq!(of("phenoxyethanol-ethylhexylglycerin").parts[0].high, percent("90"));
        assert_eq!(of("salicylic-acid").child, Some(ChildRule::NotUnderThree));
        assert_eq!(of("dehydroacetic-acid").barred, [Barred::Spray]);
    }
}
