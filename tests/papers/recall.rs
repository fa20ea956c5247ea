//! The recall sheet: a lot of a batch that came in a file, to its packs.

use hundred_parts::batch::{BatchRecord, UsedBatch, trace};
use hundred_parts::desk::{BatchRef, read_document};
use hundred_parts::facts::IngredientId;
use hundred_parts::paper::{Block, Paper, recall_facts};
use hundred_parts::quantity::{Mass, Quantity, Timestamp};
use hundred_parts::shelf::{Lot, LotField, Shelf};
use hundred_parts::words::{DecimalSign, NO_ASSESSMENT, recall_paper};

/// Two batches of the file's record, the second of which was rejected as it began.
fn batches() -> Vec<UsedBatch> {
    let text = include_str!("../formats/version-1-methods.json");
    let document = read_document(text, &mut Shelf::default()).unwrap();
    let BatchRef::Carried(body) = document.batches.last().unwrap() else { panic!() };
    let record = BatchRecord::clone(&body.record().unwrap());
    let mut planned = record.clone();
    planned.entries.truncate(1);
    vec![UsedBatch::of("b2", "", &planned), UsedBatch::of("b1", "", &record)]
}

fn paper() -> Paper {
    let batches = batches();
    let found = trace(&batches, "L7").into_iter().next().unwrap();
    let lot =
        Lot::of(&[(LotField::Name, "L7"), (LotField::Supplier, "Pier Street supplies"), (LotField::Amount, "5 kg")]);
    recall_paper(&recall_facts(&found, &batches, Some("Glycerin"), Some(&lot)), |_| 0, DecimalSign::Point)
}

fn cells(paper: &Paper) -> Vec<String> {
    let tables = paper.parts.iter().filter_map(|part| match part {
        Block::Table(table) => Some(table.rows.iter().map(|row| row.join("|").replace('\u{202f}', " "))),
        _ => None,
    });
    tables.flatten().collect()
}

// Worked by hand from the file: 201.2 g of lot L7 went in; 50.4 + 47.9 = 98.3 g are in two packs.
#[test]
fn batch_is_folded_to_its_lots_and_packs() {
    let batches = batches();
    let batch = &batches[1];
    assert_eq!((batch.code.as_str(), batch.packs), ("S2911", 2));
    assert_eq!(batch.filled, Mass::from_canonical("98.3").unwrap());
    let glycerin = batch.uses.iter().find(|used| used.name == "Glycerin").unwrap();
    assert_eq!(glycerin.ingredient, None, "the formula in the file has no such line: it is traced by its name");
    assert_eq!(batch.uses[0].ingredient, IngredientId::parse("water").ok());
    assert_eq!((glycerin.lot.as_str(), glycerin.mass), ("L7", Mass::from_canonical("201.2").ok()));
}

#[test]
fn recall_sheet_names_the_delivery_every_batch_its_packs_and_what_is_not_sure() {
    let paper = paper();
    assert_eq!(paper.title, "Recall sheet: lot L7 of Glycerin");
    let rows = cells(&paper);
    assert!(rows.contains(&"Supplier|Pier Street supplies".to_owned()), "{rows:#?}");
    assert!(rows.contains(&"Good until|not entered".to_owned()), "{rows:#?}");
    assert!(
        rows.iter().any(|row| row.starts_with("S2911|") && row.contains("|201.2 g|2|98.3 g|Released|")),
        "{rows:#?}"
    );
    assert!(rows.iter().any(|row| row.contains("|planned|0|0 g|")), "what may hold it is there, too: {rows:#?}");
    let text = format!("{:?}", paper.parts);
    assert!(text.contains("does not say that it was weighed") && text.contains("Local law says whom you must tell"));
    assert!(text.contains(NO_ASSESSMENT), "as on every paper");
    assert!(text.contains("2 batches, begun on") && text.contains("2 packs"), "{text}");
    assert!(text.contains("S2911: Water still; Glycerin L7"), "every lot of the batch: {text}");
}

#[test]
fn recall_sheet_of_a_lot_that_is_not_on_the_shelf_says_so() {
    let batches = batches();
    let found = trace(&batches, "still").into_iter().next().unwrap();
    let facts = recall_facts(&found, &batches, None, None);
    assert_eq!((facts.material.as_str(), facts.may_be_out()), ("Water", true));
    let paper = recall_paper(&facts, |_: Timestamp| 0, DecimalSign::Comma);
    assert!(cells(&paper).contains(&"Delivery|This lot does not stand on the shelf.".to_owned()));
}
