//! The names on labels of what was recognised.

use super::lexicon::as_label;
use super::reading::{Meaning, NameReading};
use super::recalled::recalled;
use crate::facts::{Allergen, Field, allergen, fold, inci_names, material};

impl Meaning {
    /// Its names on labels, several for a blend of the table. `text` is what was written: of a row for several substances it
    /// tells which.
    pub fn label_names<'a>(&'a self, text: &'a str) -> Vec<&'a str> {
        match self.id() {
            Some(id) => material_label_names(id, text),
            None => vec![self.text()],
        }
    }
}

/// The same of a row of the table of ingredients.
pub fn material_label_names<'a>(id: &str, text: &'a str) -> Vec<&'a str> {
    let Some(row) = material(id) else { return vec![text] };
    match inci(id) {
        Some(cell) => inci_names(cell).collect(),
        // A row for several substances has their names among its others.
        None => {
            let squeezed = |name: &str| fold(name).split(' ').collect::<String>();
            let member = row.also.iter().copied().find(|name| squeezed(name) == squeezed(text));
            vec![member.unwrap_or(text)]
        }
    }
}

fn inci(id: &str) -> Option<&'static str> {
    Some(material(id)?.fact(Field::Inci)?.text)
}

impl NameReading {
    /// The one name on labels that a text stands for: of what is certain, or where all that it may be has it, such as the
    /// grades of one oil, or a substance and its solution. Neither law nor labels tell these apart.
    pub fn label_name<'a>(&'a self, text: &'a str) -> Option<&'a str> {
        if self.is_certain() {
            let mut names = self.means.iter().flat_map(|means| means.label_names(text));
            return names.next().filter(|_| names.next().is_none());
        }
        let cells: Option<Vec<&str>> = self.candidates.iter().map(|means| inci(means.id()?)).collect();
        let cells = cells.filter(|cells| !cells.is_empty())?;
        let key = fold(text);
        if cells.iter().all(|cell| cell.split(';').any(|name| fold(name.trim()) == key)) {
            return Some(text);
        }
        let first = cells.first().filter(|cell| !cell.contains(';') && !cell.contains(" or "))?;
        cells.iter().all(|cell| cell == first).then_some(first)
    }
}

/// The fragrance allergen that labels name for a substance, by its name there or as what it is recognised.
pub fn allergen_named(name: &str) -> Option<&'static Allergen> {
    let by_meaning = || match recalled(name, None).means.as_slice() {
        [one] => allergen(as_label(one).text()),
        _ => None,
    };
    allergen(name).or_else(by_meaning)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn labels_have_one_name_for_what_they_do_not_tell_apart() {
        let label = |text: &str| recalled(text, None).label_name(text).map(str::to_owned);
        for (text, name) in [
            ("2-Phenoxyethanol", Some("Phenoxyethanol")),
            ("Helianthus Annuus (Sunflower) Seed Oil", Some("Helianthus Annuus Seed Oil")),
            ("Panthenol", Some("Panthenol")),
            ("Isopropyl Paraben", Some("Isopropylparaben")),
            ("BHA", None),
            ("Aqua, Glycerin", None),
            ("Quorblium", None),
        ] {
            assert_eq!(label(text).as_deref(), name, "{text}");
        }
    }

    #[test]
    fn labels_name_an_allergen_whatever_its_oil_is_called() {
        for (name, label) in [
            ("Linalool", Some("Linalool")),
            ("Cymbopogon Citratus Oil", Some("Lemongrass Oil")),
            ("Olea Europaea Fruit Oil", None),
        ] {
            assert_eq!(allergen_named(name).map(|row| row.name), label, "{name}");
        }
    }
}
