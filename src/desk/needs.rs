//! What formulas ask of the shelf, ingredient by ingredient.

use super::OpenDocument;
use crate::batch::{CanMake, Need, ToBuy, Usage, can_make, shopping};
use crate::facts::IngredientId;
use crate::formula::Formula;
use crate::paper::choice_name;
use crate::quantity::{Day, Mass, Percent};
use crate::sheet::{Lye, Totals, WeighSheet, totals};
use crate::shelf::Shelf;

/// What the planned batch takes, line by line, and what the lye of a soap takes beside them.
pub fn needs(open: &OpenDocument, sheet: &WeighSheet, lye: Option<&Lye>) -> Vec<Need> {
    let formula = &open.state().formula;
    let one = |row: &crate::sheet::WeighLine| {
        let line = formula.line(row.line)?;
        let name = choice_name(&line.choice, open.shelf());
        Some(Need { ingredient: line.choice.id().cloned(), name, mass: row.mass })
    };
    sheet.lines.iter().filter_map(one).chain(lye.map(|lye| of_lye(open, lye)).unwrap_or_default()).collect()
}

fn of_lye(open: &OpenDocument, lye: &Lye) -> Vec<Need> {
    let alkalis = lye.alkalis.iter().map(|dose| (dose.alkali.id(), dose.weigh));
    let one = |(id, mass)| {
        let ingredient = IngredientId::parse(id).ok()?;
        let name = open.shelf().entry(&ingredient)?.label().to_owned();
        Some(Need { ingredient: Some(ingredient), name, mass })
    };
    alkalis.chain([("water", lye.water)]).filter_map(one).collect()
}

/// The shopping list of the planned batch, on a day.
pub fn to_buy(needs: &[Need], open: &OpenDocument, usage: &Usage, on: Option<Day>) -> Vec<ToBuy> {
    shopping(needs, |id| usable(open.shelf(), id, usage, on))
}

/// How much of a formula the stock allows, on a day.
pub fn makeable(formula: &Formula, shelf: &Shelf, usage: &Usage, on: Option<Day>) -> CanMake {
    let Totals { shares, .. } = totals(formula);
    let one = |(id, share): &(_, Percent)| {
        let line = formula.line(*id)?;
        Some((line.choice.id().cloned(), choice_name(&line.choice, shelf), *share))
    };
    let shares: Vec<_> = shares.iter().filter_map(one).collect();
    can_make(&shares, |id| usable(shelf, id, usage, on))
}

fn usable(shelf: &Shelf, id: &IngredientId, usage: &Usage, on: Option<Day>) -> Option<Mass> {
    crate::batch::MaterialStock::of(shelf, id, usage).usable(on)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::desk::{DocId, demo};
    use crate::facts::IngredientId;
    use crate::quantity::{Quantity, Timestamp};
    use crate::shelf::{Lot, LotField};

    // Worked by hand: the demo plans 1236 g with 4 % of glycerin, 49.44 g; of the 30 g that are there 19.44 g are missing,
    // and 30 g make 30 ÷ 0.04 = 750 g.
    #[test]
    fn planned_batch_says_what_is_missing_and_what_can_be_made() {
        let glycerin = IngredientId::parse("glycerin").unwrap();
        let mut shelf = Shelf::default();
        shelf.keep_lots(&glycerin, vec![Lot::of(&[(LotField::Name, "G1"), (LotField::Amount, "30")])]);
        let open = OpenDocument::new(DocId::random(1), demo(), shelf.into(), Timestamp::from_millis(0));
        let sheet = open.masses().weigh.unwrap();
        let list = to_buy(&needs(&open, &sheet, None), &open, &Usage::default(), None);
        let row = list.iter().find(|row| row.need.ingredient.as_ref() == Some(&glycerin)).unwrap();
        assert_eq!(
            (row.need.mass.canonical(), row.missing().map(Mass::canonical)),
            ("49.44".into(), Some("19.44".into()))
        );
        assert_eq!(list.len(), sheet.lines.len());
        let made = makeable(&open.state().formula, open.shelf(), &Usage::default(), None);
        assert_eq!((made.batch.map(Mass::canonical), made.unknown.len()), (Some("750".into()), sheet.lines.len() - 1));
    }
}
