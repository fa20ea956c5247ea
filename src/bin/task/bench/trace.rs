//! How long a lot takes to its recall sheet over the records of five hundred batches, as the page does it: every record is
//! read, folded to its lots and packs, and looked through.

use std::hint::black_box;
use std::time::Instant;

use crate::failure::{Done, Failure};
use crate::say::say;
use hundred_parts::batch::{MaterialStock, Usage, UsedBatch, trace};
use hundred_parts::desk::{BatchRef, RecordBody, read_document};
use hundred_parts::facts::IngredientId;
use hundred_parts::paper::recall_facts;
use hundred_parts::shelf::Shelf;
use hundred_parts::words::{DecimalSign, recall_paper};

const BATCHES: usize = 500;
/// As many lots as a lot goes into twelve batches.
const LOTS: usize = 40;
const RECORD: &str = include_str!("../../../../tests/formats/version-1-methods.json");

pub(super) fn measure() -> Done {
    let bodies = (0..BATCHES).map(body).collect::<Option<Vec<RecordBody>>>();
    let bodies =
        bodies.ok_or_else(|| Failure::new("benchmark of a trace", "the record of the tests cannot be read"))?;
    let begun = Instant::now();
    let records = bodies.iter().enumerate().filter_map(|(n, body)| Some((n, body.record().ok()?)));
    let batches: Vec<UsedBatch> = records.map(|(n, record)| UsedBatch::of(&n.to_string(), "", &record)).collect();
    let read = begun.elapsed();
    let begun = Instant::now();
    let lots = trace(black_box(&batches), "L7-07");
    let found = lots.first().map_or(0, |lot| lot.batches.len());
    let paper =
        lots.first().map(|lot| recall_paper(&recall_facts(lot, &batches, None, None), |_| 0, DecimalSign::Point));
    let traced = begun.elapsed();
    let begun = Instant::now();
    let usage = Usage::of(black_box(&batches));
    let stock = IngredientId::parse("water").ok().map(|id| MaterialStock::of(&Shelf::default(), &id, &usage));
    let counted = begun.elapsed();
    say!("\ntrace of a lot over {} batches, {found} of them hold it", batches.len());
    say!("reading and folding every record {:>9.1} ms", read.as_secs_f64() * 1e3);
    say!(
        "from the lot to its recall sheet {:>9.2} ms ({} parts)",
        traced.as_secs_f64() * 1e3,
        paper.map_or(0, |paper| paper.parts.len())
    );
    say!("stock of all that was weighed    {:>9.2} ms", counted.as_secs_f64() * 1e3);
    black_box(stock);
    Ok(())
}

/// The record of the tests under another code, with one of the lots.
fn body(n: usize) -> Option<RecordBody> {
    let text = RECORD.replace("S2911", &format!("S{n:04}")).replace("\"L7\"", &format!("\"L7-{:02}\"", n % LOTS));
    let document = read_document(&text, &mut Shelf::default()).ok()?;
    match document.batches.into_iter().next_back()? {
        BatchRef::Carried(body) => Some(body.as_ref().clone()),
        BatchRef::Stored { .. } => None,
    }
}
