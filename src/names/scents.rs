//! Which names are those of fragrances: perfumes, essential oils and absolutes.

use super::plants;
use super::reading::Meaning;
use super::recalled::recalled;
use crate::facts::{Field, allergen, fold, material, named_functions};

/// Whether a text names a fragrance or an essential oil, or a blend with one.
///
/// # Example
/// ```
/// use hundred_parts::names::names_scent;
/// assert!(names_scent("Parfum") && names_scent("Lavender essential oil") && !names_scent("Sweet almond oil"));
/// ```
pub fn names_scent(text: &str) -> bool {
    recalled(text, None).means.iter().any(is_scent)
}

fn is_scent(means: &Meaning) -> bool {
    match means {
        Meaning::Material(id) => {
            let functions = material(id).and_then(|row| row.fact(Field::Functions)).map_or("", |fact| fact.text);
            named_functions(functions).any(|function| function == "Fragrance")
        }
        Meaning::Allergen(name) => allergen(name).is_some_and(|row| row.oil),
        Meaning::Inci(name) => [" parfum", " aroma"].contains(&&*fold(name)) || plants::is_essential_oil(name),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Which oils are essential oils: common practice, no source.
    #[test]
    fn scents_are_told_from_other_oils() {
        for text in ["Fragrance", "Aroma", "Lavandula Angustifolia Oil", "Cinnamon bark oil", "Jasmine absolute"] {
            assert!(names_scent(text), "{text}: {:?}", recalled(text, None));
        }
        for text in ["Linalool", "Olea Europaea Fruit Oil", "Castor oil", "Lavender water", "Aqua", "Quorblium"] {
            assert!(!names_scent(text), "{text}");
        }
    }
}
