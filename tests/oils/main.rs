//! Fats, swaps and lye against sources outside the project.

#[path = "../vectors/problem.rs"]
mod problem;

mod acid_words;
mod acids;
mod blend;
mod confirmed;
mod cost;
mod documents;
mod lye;
mod nearest;
mod real_swaps;
mod soap_acids;
mod swap;
mod withheld;

use hundred_parts::facts::{Field, IngredientId};
use hundred_parts::formula::{Choice, Formula, LineId, PhaseKind, Share};
use hundred_parts::shelf::{Fat, Shelf};

fn id(text: &str) -> IngredientId {
    IngredientId::parse(text).unwrap()
}

fn fat(text: &str) -> Fat {
    Shelf::default().entry(&id(text)).unwrap().fat().unwrap_or_else(|| panic!("{text} is no fat"))
}

/// A fat of the maker's own with these acids.
fn own(acids: &str) -> Fat {
    let mut shelf = Shelf::default();
    let own = shelf.add_own("Own oil");
    shelf.set(&own, Field::FattyAcids, acids);
    shelf.entry(&own).unwrap().fat().unwrap()
}

fn near(found: f64, expected: f64, within: f64, what: &str) {
    assert!((found - expected).abs() <= within, "{what}: {found}, expected {expected} within {within}");
}

fn formula_of(lines: &[(&str, &str)]) -> Formula {
    let mut formula = Formula::default();
    let phase = formula.add_phase(PhaseKind::Oil, "Oil", 0);
    for (n, (name, share)) in lines.iter().enumerate() {
        let line = formula.add_line(phase, n).unwrap();
        let line = formula.line_mut(line).unwrap();
        line.choice = Choice::Known(id(name));
        line.share = Share::read(share);
    }
    formula
}

fn line(formula: &Formula, n: usize) -> LineId {
    formula.lines().nth(n).unwrap().1.id
}
