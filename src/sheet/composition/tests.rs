//! What a formula consists of, against what its lines are known to hold.

use super::*;
use crate::facts::{Field, IngredientId};
use crate::formula::{Choice, PhaseKind, Share};
use crate::sheet::totals;

fn of(shelf: &Shelf, lines: &[(&str, &str)]) -> FormulaComposition {
    let mut formula = Formula::default();
    let phase = formula.add_phase(PhaseKind::Water, "W", 0);
    for (id, share) in lines {
        let line = formula.add_line(phase, usize::MAX).and_then(|id| formula.line_mut(id)).unwrap();
        line.choice = Choice::Known(IngredientId::parse(id).unwrap());
        line.share = Share::read(share);
    }
    composition(&formula, &totals(&formula), shelf)
}

fn range(composition: &FormulaComposition, name: &str) -> (String, String, Trust) {
    let key = fold(name);
    let substance = composition.of(&key).next().unwrap_or_else(|| panic!("{name} in {composition:?}"));
    (substance.low.canonical(), substance.high.canonical(), substance.trust)
}

// Worked by hand: 1.20 % of a blend of nine parts in ten is 1.08 %.
#[test]
fn composition_blends_are_split_by_the_table() {
    let composition = of(
        &Shelf::default(),
        &[("phenoxyethanol-ethylhexylglycerin", "1.2"), ("benzyl-alcohol-dehydroacetic-acid", "0.9")],
    );
    assert_eq!(range(&composition, "Phenoxyethanol"), ("1.08".into(), "1.08".into(), Trust::Table));
    assert_eq!(range(&composition, "Benzyl Alcohol"), ("0.765".into(), "0.792".into(), Trust::Table));
    assert_eq!(range(&composition, "Dehydroacetic Acid"), ("0.063".into(), "0.072".into(), Trust::Table));
    assert!(composition.substances.iter().all(|substance| !substance.inside));
}

#[test]
fn composition_solutions_and_rests_are_split() {
    let composition = of(
        &Shelf::default(),
        &[("panthenol-75", "2"), ("tocopherol", "0.5"), ("lactic-acid", "1"), ("glyceryl-stearate-se", "2")],
    );
    assert_eq!(range(&composition, "Panthenol"), ("1.5".into(), "1.5".into(), Trust::Table));
    assert_eq!(range(&composition, "Aqua").0, "0.5");
    assert_eq!(range(&composition, "Tocopherol"), ("0.25".into(), "0.35".into(), Trust::Table));
    assert_eq!(range(&composition, "Helianthus Annuus Seed Oil"), ("0.15".into(), "0.25".into(), Trust::Table));
    assert_eq!(range(&composition, "Lactic Acid").1, "0.88");
}

#[test]
fn composition_every_component_text_of_the_table_is_read_or_open() {
    for entry in Shelf::default().iter() {
        let LineParts { components, trust, .. } = LineParts::of_entry(&entry, &Shelf::default());
        assert!(
            components.iter().all(|component| component.low <= component.high && !component.named.name.is_empty()),
            "{}",
            entry.id()
        );
        let known = trust == Trust::Plain
            || components.iter().map(|component| component.low).sum::<Percent>() <= Percent::WHOLE;
        assert!(known, "{}", entry.id());
    }
}

#[test]
fn composition_the_suppliers_composition_takes_the_place_of_the_tables() {
    let mut shelf = Shelf::default();
    let id = IngredientId::parse("phenoxyethanol-ethylhexylglycerin").unwrap();
    shelf.set(&id, Field::Components, "phenoxyethanol 88-92; ethylhexylglycerin 8-12");
    let composition = of(&shelf, &[("phenoxyethanol-ethylhexylglycerin", "1")]);
    assert_eq!(range(&composition, "Phenoxyethanol"), ("0.88".into(), "0.92".into(), Trust::Maker));
}

#[test]
fn composition_a_fragrance_is_opened_by_its_statement() {
    let mut shelf = Shelf::default();
    let id = IngredientId::parse("lavender-essential-oil").unwrap();
    let closed = of(&shelf, &[("lavender-essential-oil", "0.3")]);
    assert_eq!((closed.substances.len(), closed.scents[0].statement.is_none()), (1, true));
    shelf.set(&id, Field::AllergenStatement, "Linalool 35 %\nLinalyl acetate 40\ncoumarin 0,1");
    let open = of(&shelf, &[("lavender-essential-oil", "0.3")]);
    assert_eq!(range(&open, "Linalool"), ("0.105".into(), "0.105".into(), Trust::Maker));
    assert_eq!(range(&open, "Coumarin").1, "0.0003");
    assert_eq!(open.substances.iter().filter(|substance| substance.inside).count(), 3);
}
