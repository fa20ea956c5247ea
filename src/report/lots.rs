//! The lots that the shelf has of what a batch is made from, and how long one of them keeps.

use crate::desk::OpenDocument;
use crate::facts::{Alkali, Field, IngredientId};
use crate::quantity::Day;
use crate::words::{self, choice_name};

/// The lots that the shelf knows of an ingredient, to choose one by: those of its card, each once.
pub fn lots_of(open: &OpenDocument, id: &IngredientId) -> Vec<String> {
    let Some(entry) = open.shelf().entry(id) else { return Vec::new() };
    let card = entry.text(Field::Lot).map(|text| text.value);
    let mut lots: Vec<String> = Vec::new();
    for lot in card.into_iter().chain(entry.lots().iter().map(|lot| &*lot.name)) {
        let lot = lot.trim();
        if !lot.is_empty() && !lots.iter().any(|known| known == lot) {
            lots.push(lot.to_owned());
        }
    }
    lots
}

/// Those of the line of this name, which may be one of the lye.
pub fn lots_to_choose(open: &OpenDocument, name: &str) -> Vec<String> {
    ingredient_named(open, name).map_or_else(Vec::new, |id| lots_of(open, &id))
}

/// The day up to which a lot of the line of this name keeps, as it stands on the shelf.
pub fn lot_keeps_until(open: &OpenDocument, name: &str, lot: &str) -> Option<Day> {
    let lots = open.shelf().lots_of(&ingredient_named(open, name)?);
    // Of two of one name the first is the one that was weighed from.
    lots.iter().find(|known| !lot.trim().is_empty() && known.name.trim() == lot.trim())?.keeps_until()
}

/// The lot that counts of an ingredient, for doses of it: the newest that has a name.
pub fn lot_at_hand(open: &OpenDocument, id: &IngredientId) -> String {
    let entry = open.shelf().entry(id);
    entry.as_ref().and_then(|entry| entry.counted("")).map_or_else(String::new, |one| one.lot.trim().to_owned())
}

fn ingredient_named(open: &OpenDocument, name: &str) -> Option<IngredientId> {
    let own = |line: &&crate::formula::Line| choice_name(&line.choice, open.shelf()) == name;
    if let Some(line) = open.state().formula.lines().map(|(_, line)| line).find(own) {
        return line.choice.id().cloned();
    }
    let alkali = Alkali::ALL.into_iter().find(|alkali| words::lye::alkali(*alkali) == name).map(Alkali::id);
    let water = (name == words::method::WATER_FOR_LYE).then_some("water");
    IngredientId::parse(alkali.or(water)?).ok()
}
