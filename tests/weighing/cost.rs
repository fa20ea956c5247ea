//! What a batch costs, worked by hand.

use hundred_parts::desk::{DocId, Document, OpenDocument, ShelfDocument, read_document};
use hundred_parts::facts::{Field, IngredientId};
use hundred_parts::quantity::{Money, Percent, Quantity, Timestamp};
use hundred_parts::sheet::{Cost, CostField, NoCost, cost, swap_cost};
use hundred_parts::shelf::{NoPrice, Shelf};

fn open(document: &str) -> OpenDocument {
    let mut shelf = Shelf::default();
    let document: Document = read_document(document, &mut shelf).unwrap();
    let shelf: ShelfDocument = shelf.into();
    OpenDocument::new(DocId::random(0), document, shelf, Timestamp::default())
}

fn cost_of(document: &str) -> Option<Cost> {
    let open = open(document);
    let state = open.state();
    cost(&state.formula, &open.masses().weigh.unwrap(), &state.plan, open.shelf(), false)
}

fn document(batch: &str, glycerin: &str) -> String {
    format!(
        r#"{{"format": "hundred-parts", "version": 1,
 "formula": {{"title": "T", "phases": [{{"name": "Water phase", "kind": "water", "lines": [
   {{"ingredient": "water", "percent": "fill-up"}}, {{"ingredient": "glycerin", "percent": "4"}}]}},
   {{"name": "Oil phase", "kind": "oil", "lines": [{{"ingredient": "shea", "percent": "10"}}]}}]}},
 "batch": {{"jars": 12, "fill_g": "100", "loss_percent": "3", "readability_g": "0.01"{batch}}},
 "shelf": [
   {{"id": "water", "own": false, "values": {{"price_per_kg": "0 EUR"}}}},
   {{"id": "glycerin", "own": false, "lots": [{glycerin}]}},
   {{"id": "shea", "own": false, "values": {{"price_per_kg": "14.50 EUR"}}}}]}}"#
    )
}

const LOT: &str = r#"{"lot": "G1", "received": "2026-10-01", "amount": "1 kg", "price": "6.20 EUR"}"#;

fn line(cost: &Cost, n: usize) -> (String, String) {
    (cost.lines[n].mass.canonical(), cost.lines[n].money.as_ref().unwrap().canonical())
}

// Worked by hand: 1236 g with 4 % of glycerin at 6.20 for 1 kg, 49.44 g × 0.0062 = 0.306528, and 10 % of shea butter at 14.50,
// 123.60 g × 0.0145 = 1.7922. Together 2.098728. Twelve packs at 0.45 are 5.40; 90 minutes at 24 an hour 36. In all 43.498728;
// a jar 3.624894, and 100 g of the 1200 g in jars the same; with a margin of 60 % of the price 3.624894 ÷ 0.4 = 9.062235.
#[test]
fn cost_is_worked_out_exactly() {
    let extras = r#", "pack_cost": "0.45 EUR", "work_minutes": "90", "hour_cost": "24 EUR", "margin_percent": "60""#;
    let cost = cost_of(&document(extras, LOT)).unwrap();
    assert_eq!(line(&cost, 0), ("1062.96".into(), "0".into()));
    assert_eq!(line(&cost, 1), ("49.44".into(), "0.306528".into()));
    assert_eq!(line(&cost, 2), ("123.6".into(), "1.7922".into()));
    assert_eq!((cost.lines[1].lot.as_str(), cost.lines[2].lot.as_str()), ("G1", ""));
    let told = |money: &Option<Money>| money.as_ref().map(|money| (money.canonical(), money.currency.clone()));
    let euros = |text: &str| Some((text.to_owned(), "EUR".to_owned()));
    assert_eq!((told(&cost.packaging), told(&cost.work)), (euros("5.4"), euros("36")));
    assert_eq!(cost.total.canonical(), "43.498728");
    assert_eq!((told(&cost.jar), told(&cost.per_100g)), (euros("3.624894"), euros("3.624894")));
    assert_eq!((told(&cost.jar_price), told(&cost.price_100g)), (euros("9.062235"), euros("9.062235")));
    assert!(cost.is_complete());
    assert_eq!(cost.dearest()[0].0.line, cost.lines[2].line, "shea butter costs most");
    // 1.7922 ÷ 43.498728 = 4.120120… %.
    assert_eq!(cost.share(cost.dearest()[0].1).unwrap().canonical(), "4.12012");
}

#[test]
fn cost_of_an_unknown_price_is_partial_and_never_nothing() {
    let cost = cost_of(&document("", r#"{"lot": "G1", "amount": "1 kg"}"#)).unwrap();
    assert_eq!(cost.lines[1].money, Err(NoCost::Price(NoPrice::Missing)));
    assert_eq!((cost.total.canonical().as_str(), cost.is_complete()), ("1.7922", false));
    let kroner = r#"{"lot": "G1", "amount": "1 kg", "price": "60 kr"}"#;
    let cost = cost_of(&document("", kroner)).unwrap();
    assert_eq!(cost.lines[1].money, Err(NoCost::OtherCurrency));
    assert_eq!((cost.total.canonical().as_str(), cost.is_complete()), ("1.7922", false));
}

#[test]
fn cost_names_what_was_entered_and_does_not_count() {
    use CostField::{Margin, Minutes, Pack, Rate};
    for (batch, fields) in [
        (r#", "pack_cost": "cheap""#, vec![Pack]),
        (r#", "hour_cost": "24""#, vec![Rate]),
        (r#", "work_minutes": "90""#, vec![Minutes]),
        (r#", "margin_percent": "100""#, vec![Margin]),
        (r#", "pack_cost": "3 kr""#, vec![Pack]),
    ] {
        let cost = cost_of(&document(batch, LOT)).unwrap();
        assert_eq!((cost.not_counted.clone(), cost.is_complete()), (fields, false), "{batch}");
        assert_eq!(cost.total.canonical(), "2.098728");
    }
}

#[test]
fn cost_is_none_where_nothing_has_a_price() {
    let nothing = r#"{"format": "hundred-parts", "version": 1, "formula": {"phases": [{"name": "W", "kind": "water",
        "lines": [{"ingredient": "water", "percent": "fill-up"}]}]}, "batch": {"mass_g": "100"}}"#;
    assert_eq!(cost_of(nothing), None);
}

// Worked by hand: half of 20 and half of 8 for a kilogram are 14.
#[test]
fn swap_changes_the_price_of_a_kilogram() {
    let id = |text: &str| IngredientId::parse(text).unwrap();
    let mut shelf = Shelf::default();
    for (oil, price) in [("argan", "60 EUR"), ("olive", "8 EUR"), ("almond-sweet", "20 EUR"), ("jojoba", "30 kr")] {
        shelf.set(&id(oil), Field::Price, price);
    }
    let half = |oil: &str| (id(oil), Percent::millionths(50_000_000));
    let found = swap_cost(&shelf, &id("argan"), &[half("olive"), half("almond-sweet")]).unwrap();
    assert_eq!((found.before.canonical(), found.after.canonical()), ("60".into(), "14".into()));
    for parts in [vec![half("olive"), half("jojoba")], vec![half("olive"), half("sunflower")], vec![]] {
        assert_eq!(swap_cost(&shelf, &id("argan"), &parts), None, "{parts:?}");
    }
}
