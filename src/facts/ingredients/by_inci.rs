//! The preservative that an INCI name stands for, however it came into a formula.

use std::sync::LazyLock;

use super::builtin::{Material, material, materials};
use crate::facts::{Acid, Field, Preservative, PreservativeGroup, acids, fold, preservatives};

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
                    materials().any(|other| {
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

static ACIDS: LazyLock<Vec<(String, &'static Acid)>> = LazyLock::new(|| {
    let mut names = Vec::new();
    for row in acids() {
        let Some(material) = material(row.id) else {
            names.push((fold(row.id), row));
            continue;
        };
        // A solution's names are those of what is dissolved, and of water.
        let inci = text(material, Field::Inci).split("; ").next();
        let all = inci.into_iter().chain([text(material, Field::Name)]).chain(material.also.iter().copied());
        names.extend(all.filter(|name| !name.is_empty()).map(|name| (fold(name), row)));
    }
    // Of two rows of one name the first one counts.
    names.sort_by(|a, b| a.0.cmp(&b.0));
    names.dedup_by(|later, earlier| later.0 == earlier.0);
    names
});

/// The acid, base or salt of a folded name: its INCI name, that of the shelf or another that makers use.
pub(crate) fn acid_named(folded: &str) -> Option<&'static Acid> {
    ACIDS.binary_search_by(|(name, _)| name.as_str().cmp(folded)).ok().and_then(|n| ACIDS.get(n)).map(|(_, row)| *row)
}

/// Names of the table of ingredients, folded, and whether each is an INCI name of one of them.
static MATERIALS: LazyLock<Vec<(String, bool)>> = LazyLock::new(|| {
    let mut names = Vec::new();
    for material in materials() {
        let inci = text(material, Field::Inci);
        let parts = inci.split("; ").flat_map(|name| name.split(" or ")).map(|name| (fold(name), true));
        // A row without an INCI name stands for the substances among its other names.
        let also = material.also.iter().map(|name| (fold(name), inci.is_empty()));
        let others = core::iter::once((fold(text(material, Field::Name)), false)).chain(also);
        names.extend(parts.chain(others).filter(|(key, _)| !key.is_empty()));
    }
    // An INCI name before the same one of another kind.
    names.sort_unstable_by(|a, b| (&a.0, !a.1).cmp(&(&b.0, !b.1)));
    names.dedup_by(|later, earlier| later.0 == earlier.0);
    names
});

/// The names in a cell of INCI names, `or` resolved to the first.
pub(crate) fn inci_names(cell: &str) -> impl Iterator<Item = &str> {
    let name = |part| str::split(part, " or ").next().unwrap_or(part).trim();
    cell.split(';').map(name).filter(|name| !name.is_empty())
}

/// True for a folded name that a material of the table goes by. Asked for every line of a statement that is pasted.
pub(crate) fn is_material(folded: &str) -> bool {
    known_as(folded).is_some()
}

/// True for a folded name that is an INCI name in the table of ingredients.
pub(crate) fn is_material_inci(folded: &str) -> bool {
    known_as(folded) == Some(true)
}

fn known_as(folded: &str) -> Option<bool> {
    let found = MATERIALS.binary_search_by(|(name, _)| name.as_str().cmp(folded)).ok()?;
    MATERIALS.get(found).map(|(_, inci)| *inci)
}

fn text(material: &'static Material, field: Field) -> &'static str {
    material.fact(field).map_or("", |fact| fact.text)
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
