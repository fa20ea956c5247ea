//! As what the names of a formula are known. Here, and nowhere else, a name becomes what rules, label and papers compare.
//!
//! Names of the tables are known as they stand. What a maker or a supplier wrote goes through the recogniser
//! ([`crate::names`]); what it is not sure of keeps its own name, and whoever shows the formula says so.

use crate::facts::{IngredientId, fold, is_material_inci};
use crate::names::{self, Meaning, NameReading, Sureness, material_label_names, recalled};
use crate::quantity::Percent;

/// How it is known what a name stands for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Recognition {
    /// It is a name of the tables of ingredients.
    Listed,
    /// The recogniser is certain.
    Recognised(Sureness),
    /// It may be one of these, the likeliest first: a question, which decides nothing.
    Asked(Vec<Meaning>),
    /// Nobody here knows it.
    Unknown,
    /// The tables of names are not here yet.
    NotLookedUp,
}

impl Recognition {
    /// Whether rules may rest on it.
    pub const fn is_certain(&self) -> bool {
        matches!(self, Self::Listed | Self::Recognised(_))
    }
}

/// A substance by its name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Named {
    /// Its INCI name or name on labels; what was written, where that is not certain.
    pub name: String,
    /// How that is known.
    pub recognition: Recognition,
}

impl Named {
    /// A name of the tables.
    pub fn listed(name: &str) -> Self {
        Self { name: name.to_owned(), recognition: Recognition::Listed }
    }

    /// A name of which nobody asked what it is.
    pub(super) fn open(name: &str) -> Self {
        Self { name: name.to_owned(), recognition: Recognition::Unknown }
    }

    fn recognised(name: &str, sureness: Option<Sureness>) -> Self {
        Self { name: name.to_owned(), recognition: Recognition::Recognised(sureness.unwrap_or(Sureness::Likely)) }
    }
}

/// What a text that a maker wrote names.
pub(super) enum Identity {
    /// One row of the table of ingredients, which may be a blend.
    Material(IngredientId),
    /// Substances, one or more.
    Substances(Vec<Named>),
    /// A substance that is dissolved in water, and its share of the whole.
    Solution(Vec<Named>, Percent),
}

/// Looks a text up that a maker wrote as the name of something; `; ` stands between the names of a blend.
pub(super) fn identify(text: &str) -> Identity {
    let parts: Vec<&str> = text.split(';').map(str::trim).filter(|part| !part.is_empty()).collect();
    match parts.as_slice() {
        [one] => identify_one(one),
        several => {
            let named = several.iter().flat_map(|part| match identify_one(part) {
                Identity::Material(id) => {
                    material_label_names(id.as_str(), part).into_iter().map(Named::listed).collect()
                }
                Identity::Substances(names) | Identity::Solution(names, _) => names,
            });
            Identity::Substances(named.collect())
        }
    }
}

fn identify_one(text: &str) -> Identity {
    // A name on labels is one substance, whatever the table's material of that name holds beside it.
    if is_material_inci(&fold(text)) {
        return Identity::Substances(vec![Named::listed(text)]);
    }
    let reading = recalled(text, None);
    if !reading.is_certain() {
        return Identity::Substances(vec![named(text, &reading)]);
    }
    if let [Meaning::Material(id)] = reading.means.as_slice()
        && let Ok(id) = IngredientId::parse(id)
    {
        return Identity::Material(id);
    }
    let names = reading.means.iter().flat_map(|means| means.label_names(text));
    let substances = names.map(|name| Named::recognised(name, reading.sureness)).collect();
    match (reading.means.as_slice(), reading.share) {
        ([_, Meaning::Material("water")], Some(share)) => Identity::Solution(substances, share),
        _ => Identity::Substances(substances),
    }
}

/// One substance of a supplier's paper; what is not certain keeps its name.
pub(super) fn identify_part(text: &str) -> Named {
    if is_material_inci(&fold(text)) { Named::listed(text) } else { named(text, &recalled(text, None)) }
}

/// The substance that a text names, or the text with what is known of it.
fn named(text: &str, reading: &NameReading) -> Named {
    match reading.label_name(text) {
        Some(name) => Named::recognised(name, reading.sureness.or(Some(Sureness::Synonym))),
        None => Named { name: text.to_owned(), recognition: doubt(reading) },
    }
}

fn doubt(reading: &NameReading) -> Recognition {
    if !names::is_ready() {
        Recognition::NotLookedUp
    } else if reading.candidates.is_empty() {
        Recognition::Unknown
    } else {
        Recognition::Asked(reading.candidates.clone())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::{Allergen, CsvTable, allergens, inci_names, material_names};
    use crate::names::{allergen_named, as_label};

    /// Names of the same row of a table, each with all of them.
    fn rows() -> Vec<Vec<String>> {
        let tables = [
            (include_str!("../facts/data/classes.csv"), "names"),
            (include_str!("../facts/data/limits.csv"), "names"),
            (include_str!("../facts/data/shares.csv"), "name"),
        ];
        let names = |row: &Allergen| row.also.iter().chain([&row.name]).map(|name| (*name).to_owned()).collect();
        let mut all: Vec<Vec<String>> = allergens().iter().map(names).collect();
        for (text, column) in tables {
            for row in CsvTable::read(text.to_owned().leak()).rows() {
                let names = row.get(column).unwrap().split("; ").filter(|name| !name.starts_with('~'));
                all.push(names.map(|name| name.split('=').next().unwrap_or(name).to_owned()).collect());
            }
        }
        all
    }

    /// Rules compare folded names, so what a name of their tables is recognised as must stand in the same row.
    #[test]
    fn identity_of_every_name_of_the_rules_tables_is_in_its_row() {
        // An antioxidant and a peeling acid have this name in common.
        const TWO_THINGS: &str = "BHA";
        // Labels name it as the oil of all oranges, which stands in the table, too.
        const ONE_OF_A_GROUP: &str = "Citrus Aurantium Amara Peel Oil";
        let mut wrong = Vec::new();
        for row in rows() {
            for name in row.iter().filter(|name| ![TWO_THINGS, ONE_OF_A_GROUP].contains(&name.as_str())) {
                let named = identify_part(name);
                let (key, label) = (fold(&named.name), allergen_named(&named.name).map(|row| row.name));
                let in_row = row.iter().any(|other| fold(other) == key || label == Some(other.as_str()));
                if !named.recognition.is_certain() || !in_row {
                    wrong.push((name.clone(), named));
                }
            }
        }
        assert_eq!(wrong, []);
    }

    /// An oil of the table that labels name as an allergen is found by its INCI name, too.
    #[test]
    fn identity_of_every_material_that_is_an_allergen_is_found() {
        let mut wrong = Vec::new();
        for row in material_names() {
            if let Meaning::Allergen(label) = as_label(&Meaning::Material(row.id))
                && let Some(name) = inci_names(row.inci).next()
                && allergen_named(name).is_none_or(|found| found.name != label)
            {
                wrong.push((name, label));
            }
        }
        assert_eq!(wrong, []);
    }
}
