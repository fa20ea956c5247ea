//! Entries of the table and of the maker, as they are read.

use super::*;
use crate::facts::Provenance;
use crate::quantity::Ph;
use crate::shelf::Shelf;

fn of(id: &str) -> Ingredient {
    Shelf::default().entry(&IngredientId::parse(id).unwrap()).unwrap_or_else(|| panic!("{id}"))
}

#[test]
fn ingredient_table_values_are_typed_and_sourced() {
    let glycerin = of("glycerin");
    let density = glycerin.density().unwrap();
    assert_eq!(density.value, Density::from_units(1_261_000));
    assert!(
        density.provenance == Provenance::Verified
            && of("glycerin").basis(density.provenance).source.contains("CRC Handbook")
    );
    assert!(glycerin.max().unwrap().provenance == Provenance::Memory);
    assert_eq!(glycerin.usual_phase().unwrap().value, UsualPhase::Water);
    assert!(glycerin.has_function("Humectant") && glycerin.has_function("SOLVENT") && !glycerin.has_function("Skin"));
    assert_eq!(glycerin.functions().len(), 5);
    assert_eq!(glycerin.required_hlb(), None);
    assert!(!glycerin.is_own());
}

#[test]
fn ingredient_window_with_one_end_has_no_other() {
    let window = of("sodium-hydroxide").ph_window().unwrap();
    assert_eq!(window.value, PhWindow { min: None, max: Some(Ph::from_units(1_100)) });
    assert!(window.provenance == Provenance::Verified);
    assert_eq!(of("baobab").ph_window(), None);
    assert_eq!(of("baobab").use_range(), None);
}

#[test]
fn ingredient_links_and_other_names_come_from_the_table() {
    assert_eq!(of("shea").links().fat, Some("shea"));
    assert_eq!(of("sodium-benzoate").links().preservative, Some("sodium-benzoate"));
    assert!(of("parfum").also().contains(&"fragrance"));
    assert!(of("triethanolamine").max_basis().unwrap().contains("Annex III/62"));
    assert!(of("glycerin").source().unwrap().0.contains("CIR on glycerin"));
}

#[test]
fn name_longer_than_any_is_shown_and_searched_by_its_beginning() {
    let mut shelf = Shelf::default();
    let long = shelf.add_own(&"Sea buckthorn \u{1f9f4} ".repeat(500));
    shelf.set(&long, Field::Inci, "Hippophae ".repeat(1000));
    let entry = shelf.entry(&long).unwrap();
    assert!(entry.label() == beginning(entry.name().unwrap().value) && entry.label().starts_with("Sea buckthorn"));
    assert_eq!(entry.inci().unwrap().value.len(), 9999, "the label still has all of it");
    assert_eq!(beginning("Water"), "Water");
    assert!(beginning(&"x".repeat(5000)).len() < 1000);
    assert!(
        crate::shelf::search(&shelf, crate::shelf::Wanted::anywhere("sea buckthorn", 8), &|_| Vec::new())
            .iter()
            .any(|hit| hit.id == long)
    );
}
