//! The numbers of a substance in the chemical registry (CAS) and in the European inventory (EC), by its name on labels.

use super::is_ready;
use super::lexicon::NUMBERS;
use crate::facts::{Field, allergen, fold, material};

/// The numbers of one substance; a mixture or a plant has several.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct RegistryNumbers {
    /// In the chemical registry.
    pub cas: Vec<&'static str>,
    /// In the European inventory.
    pub ec: Vec<&'static str>,
}

impl RegistryNumbers {
    fn add(&mut self, cas: &'static str, ec: &'static str) {
        for (known, numbers) in [(&mut self.cas, cas), (&mut self.ec, ec)] {
            for number in numbers.split(' ').filter(|number| number.len() > 1) {
                if !known.contains(&number) {
                    known.push(number);
                }
            }
        }
    }
}

/// The numbers of a substance by its name on labels, as `data/cas.csv` has them; nothing before [`is_ready`].
///
/// # Example
/// ```
/// let numbers = hundred_parts::names::registry_numbers("Phenoxyethanol");
/// assert_eq!((numbers.cas, numbers.ec), (vec!["122-99-6"], vec!["204-589-7"]));
/// ```
pub fn registry_numbers(name: &str) -> RegistryNumbers {
    let mut found = RegistryNumbers::default();
    if !is_ready() {
        return found;
    }
    let key = fold(name);
    let rows: Vec<_> = NUMBERS
        .rows()
        .filter_map(|row| {
            Some((row.get("means").ok()?, row.get("part").ok()?, row.get("cas").ok()?, row.get("ec").ok()?))
        })
        .collect();
    // The very substance comes before the material that it is the main form of.
    for (means, part, cas, ec) in &rows {
        if fold(part) == key || means.strip_prefix("inci:").is_some_and(|inci| fold(inci) == key) {
            found.add(cas, ec);
        }
    }
    if found.cas.is_empty() {
        for (_, _, cas, ec) in rows.iter().filter(|(means, part, ..)| part.is_empty() && is_named(means, &key)) {
            found.add(cas, ec);
        }
    }
    if found.cas.is_empty() {
        found.cas.extend(allergen(name).filter(|row| !row.oil).iter().flat_map(|row| row.cas.iter().copied()));
    }
    found
}

/// Whether a row of the table of ingredients is that substance; of a row that names several, numbers without a part are
/// those of the first.
fn is_named(id: &str, key: &str) -> bool {
    let inci = material(id).and_then(|row| row.fact(Field::Inci)).map_or("", |fact| fact.text);
    inci.split(';').next().is_some_and(|first| first.split(" or ").any(|name| fold(name.trim()) == key))
}

#[cfg(test)]
mod tests {
    use super::*;

    // CAS and EC as the Commission's inventory of cosmetic ingredients has them (`data/cas.csv`, column source).
    #[test]
    fn registry_knows_plain_substances_their_forms_and_oils() {
        for (name, cas, ec) in [
            ("Glycerin", "56-81-5", "200-289-5"),
            ("Sodium Hydroxide", "1310-73-2", "215-185-5"),
            ("Sodium Anisate", "536-45-8", "208-634-1"),
            ("Butyrospermum Parkii Butter", "194043-92-0", ""),
            ("Citrus Limon Peel Oil", "84929-31-7", "284-515-8"),
        ] {
            let found = registry_numbers(name);
            assert!(found.cas.contains(&cas), "{name}: {found:?}");
            assert!(ec.is_empty() || found.ec.contains(&ec), "{name}: {found:?}");
        }
        assert_eq!(registry_numbers("Quorblium Extract"), RegistryNumbers::default());
    }
}
