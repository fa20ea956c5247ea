//! The preservative that an INCI name stands for, however it came into a formula.

use std::sync::LazyLock;

use super::builtin::{material, materials};
use super::{Acid, Field, Preservative, PreservativeGroup, acids, fold, preservatives};

static NAMES: LazyLock<Vec<(String, &'static Preservative)>> = LazyLock::new(|| {
    let mut names = Vec::new();
    for row in preservatives().iter().filter(|row| row.group != PreservativeGroup::Blend) {
        let Some(material) = material(row.id) else { continue };
        // A row whose INCI cell is empty stands for the substances among its other names. Of antioxidants taken for
        // preservatives nothing need be counted.
        match material.fact(Field::Inci).map(|fact| fact.text) {
            // Of two names on one label the one counts that is no other ingredient's (silver citrate, not citric acid).
            Some(inci) => {
                let others = |name: &str| {
                    materials().iter().any(|other| {
                        other.id.as_str() != row.id && other.fact(Field::Inci).is_some_and(|fact| fact.text == name)
                    })
                };
                let name = inci.split("; ").find(|name| !others(name)).unwrap_or(inci);
                names.push((fold(name), row));
            }
            None if row.id != "antioxidants-no" => names.extend(material.also.iter().map(|name| (fold(name), row))),
            None => {}
        }
    }
    names.sort_by(|a, b| a.0.cmp(&b.0));
    names
});

/// The row of a substance's folded INCI name. The mixture of methylchloroisothiazolinone and methylisothiazolinone goes
/// by the first of them.
pub fn preservative_named(folded: &str) -> Option<&'static Preservative> {
    NAMES.binary_search_by(|(name, _)| name.as_str().cmp(folded)).ok().and_then(|n| NAMES.get(n)).map(|(_, row)| *row)
}

/// The acid, base or salt of a folded name: its INCI name, that of the shelf or another that makers use.
pub(crate) fn acid_named(folded: &str) -> Option<&'static Acid> {
    acids().iter().find(|row| {
        let Some(material) = material(row.id) else { return fold(row.id) == folded };
        // A solution's names are those of what is dissolved, and of water.
        let inci = material.fact(Field::Inci).and_then(|fact| fact.text.split("; ").next());
        let name = material.fact(Field::Name).map(|fact| fact.text);
        inci.into_iter().chain(name).chain(material.also.iter().copied()).any(|name| fold(name) == folded)
    })
}

/// True for a folded name that a material of the table goes by.
pub(super) fn is_material(folded: &str) -> bool {
    let fact = |material: &'static super::builtin::Material, field| material.fact(field).map_or("", |fact| fact.text);
    materials().iter().any(|material| {
        let inci = fact(material, Field::Inci).split("; ").flat_map(|name| name.split(" or "));
        let also = material.also.iter().copied();
        inci.chain([fact(material, Field::Name)]).chain(also).any(|name| fold(name) == folded)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn preservatives_are_found_by_their_label_names() {
        for (name, id) in [
            ("Phenoxyethanol", Some("phenoxyethanol")),
            ("SODIUM BENZOATE", Some("sodium-benzoate")),
            ("Isobutylparaben", Some("banned-parabens")),
            ("Potassium Benzoate", Some("benzoates-other")),
            ("Silver Citrate", Some("silver-citrate")),
            ("Citric Acid", None),
            ("Methylchloroisothiazolinone", Some("cmit-mit")),
            ("Methylisothiazolinone", Some("methylisothiazolinone")),
            ("Tocopherol", None),
            ("Glycerin", None),
        ] {
            assert_eq!(preservative_named(&fold(name)).map(|row| row.id), id, "{name}");
        }
    }
}
