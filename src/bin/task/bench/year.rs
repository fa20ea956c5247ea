//! A simulated year of a small workshop as one file of everything: formulas, batches with what was weighed, read, filled and
//! decided, lots with their deliveries, studies with their pulls. From one seed, without a clock: the same file each time.

use std::hint::black_box;
use std::time::Instant;

use serde_json::{Value, json};

use crate::failure::{Done, Failure};
use crate::say::say;
use hundred_parts::batch::study::{Study, shelf_life};
use hundred_parts::batch::{Usage, UsedBatch, stocks, trace};
use hundred_parts::desk::{BatchRef, Incoming, read_export};
use hundred_parts::facts::IngredientId;
use hundred_parts::quantity::{Day, Timestamp};
use hundred_parts::shelf::{Ingredient, Shelf};

/// How much happens in a year.
#[derive(Debug, Clone, Copy)]
pub(super) struct Size {
    formulas: usize,
    batches: usize,
    lots: usize,
    studies: usize,
    pulls: usize,
}

/// What is measured.
pub(super) const YEAR: Size = Size { formulas: 40, batches: 300, lots: 900, studies: 60, pulls: 800 };
/// What a recall drill is held over.
pub(super) const DRILL: Size = Size { batches: 500, ..YEAR };
/// How many ingredients a workshop has lots of.
const MATERIALS: usize = 90;
/// Lines of a formula beside the water.
const LINES: usize = 10;
/// The lot that the drill looks for is the first one of the first ingredient.
const FIRST_LOT: &str = "L0000";
const SEED: u64 = 0x2026_0101;
const MAKER: &str = "Ada Marsh";

/// Numbers that look like chance and are the same each time.
struct Chance(u64);

impl Chance {
    fn below(&mut self, most: usize) -> usize {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap_or_default() % most.max(1)
    }
}

/// An ingredient of the workshop, with the names of its lots.
struct Stocked {
    id: IngredientId,
    name: String,
    inci: String,
    lots: Vec<String>,
}

/// A line: which ingredient, and its share in tenths of a percent.
type Line = (usize, i64);

/// The file.
pub(super) fn file(size: Size) -> Value {
    let mut chance = Chance(SEED);
    let stock = stocked(size);
    let formulas: Vec<Vec<Line>> = (0..size.formulas).map(|_| lines(&mut chance, stock.len())).collect();
    let mut records: Vec<Vec<Value>> = vec![Vec::new(); size.formulas];
    for n in 0..size.batches {
        let at = n % size.formulas;
        records[at].push(record(&mut chance, n, size, &stock, &formulas[at]));
    }
    let documents = formulas.iter().zip(&records).enumerate().map(|(n, (lines, records))| {
        json!({
            "formula": formula(n, &stock, lines), "records": records,
            "batch": {"jars": 20, "fill_g": "50", "loss_percent": "3", "readability_g": "0.01"},
        })
    });
    json!({
        "format": "hundred-parts", "version": 1, "additions": 9,
        "formulas": documents.collect::<Vec<_>>(),
        "studies": (0..size.studies).map(|n| study(&mut chance, n, size, &stock, &formulas)).collect::<Vec<_>>(),
        "shelf": shelf(&mut chance, &stock),
    })
}

fn stocked(size: Size) -> Vec<Stocked> {
    let shelf = Shelf::default();
    let fits = |entry: &Ingredient| !entry.is_class() && entry.inci().is_some() && entry.id().as_str() != "water";
    let named: Vec<Ingredient> = shelf.iter().filter(fits).collect();
    let each = (named.len() / MATERIALS).max(1);
    let per_material = size.lots / MATERIALS;
    let one = |(n, entry): (usize, &Ingredient)| Stocked {
        id: entry.id().clone(),
        name: entry.label().to_owned(),
        inci: entry.inci().map_or_else(String::new, |inci| inci.value.to_owned()),
        lots: (0..per_material).map(|lot| format!("L{:04}", n * per_material + lot)).collect(),
    };
    named.iter().step_by(each).take(MATERIALS).enumerate().map(one).collect()
}

fn lines(chance: &mut Chance, materials: usize) -> Vec<Line> {
    let mut lines: Vec<Line> = Vec::new();
    while lines.len() < LINES {
        let at = chance.below(materials);
        if lines.iter().all(|(known, _)| *known != at) {
            lines.push((at, 5 + i64::try_from(chance.below(50)).unwrap_or_default()));
        }
    }
    lines
}

fn title(n: usize) -> String {
    const KINDS: [&str; 8] =
        ["hand lotion", "foot cream", "face milk", "body butter", "shaving cream", "balm", "hair milk", "sun gel base"];
    format!("Pier {} {}", n + 1, KINDS[n % KINDS.len()])
}

fn tenths(value: i64) -> String {
    if value % 10 == 0 { (value / 10).to_string() } else { format!("{}.{}", value / 10, value % 10) }
}

fn formula(n: usize, stock: &[Stocked], lines: &[Line]) -> Value {
    let line = |(at, share): &Line| json!({"ingredient": stock[*at].id.as_str(), "percent": tenths(*share)});
    let (wet, oily) = lines.split_at(LINES / 2);
    let water = json!({"ingredient": "water", "percent": "fill-up"});
    json!({
        "title": title(n), "use": "leave-on", "area": "hand", "target_ph": "5.2", "pack": "jar",
        "phases": [
            {"name": "Water phase", "kind": "water", "lines": std::iter::once(water).chain(wet.iter().map(line)).collect::<Vec<_>>()},
            {"name": "Oil phase", "kind": "oil", "lines": oily.iter().map(line).collect::<Vec<_>>()},
        ],
    })
}

/// An instant so many minutes after nine on a day.
fn minute(day: Day, minutes: i64) -> String {
    Timestamp::from_millis((day.number() * 1440 + 540 + minutes) * 60_000).text()
}

/// The day on which a batch was made.
fn made(n: usize, size: Size) -> Day {
    let days = i64::try_from(n * 365 / size.batches.max(1)).unwrap_or_default();
    Day::from_calendar(2026, 1, 2).unwrap_or_else(|| Timestamp::from_millis(0).day()).plus_days(days)
}

fn code(n: usize) -> String {
    format!("Y{n:04}")
}

/// Of the lots of an ingredient the one that is in use: each lasts for a part of the year.
fn in_use(stock: &Stocked, n: usize, size: Size, chance: &mut Chance) -> String {
    let at = n * stock.lots.len() / size.batches.max(1);
    // Now and then what is left of the lot before is used up.
    let at = at.saturating_sub(usize::from(chance.below(8) == 0)).min(stock.lots.len().saturating_sub(1));
    stock.lots.get(at).cloned().unwrap_or_default()
}

fn record(chance: &mut Chance, n: usize, size: Size, stock: &[Stocked], lines: &[Line]) -> Value {
    let day = made(n, size);
    let water = 1000 - lines.iter().map(|(_, share)| share).sum::<i64>();
    let used: Vec<String> = lines.iter().map(|(at, _)| in_use(&stock[*at], n, size, chance)).collect();
    let frozen = |name: &str, inci: &str, share: i64, lot: &str, phase: &str| json!({"name": name, "percent": tenths(share), "on_scale_g": share.to_string(), "lot": lot, "inci": inci, "phase": phase});
    let of_lines = lines.iter().zip(&used).enumerate().map(|(place, ((at, share), lot))| {
        let phase = if place < LINES / 2 { "Water phase" } else { "Oil phase" };
        frozen(&stock[*at].name, &stock[*at].inci, *share, lot, phase)
    });
    let mut frozen_lines = vec![frozen("Purified water", "Aqua", water, "", "Water phase")];
    frozen_lines.extend(of_lines);
    let mut entries = Entries { day, minutes: 0, all: Vec::new() };
    entries.add(json!({"event": "begun", "code": code(n), "maker": MAKER}));
    entries.add(json!({"event": "weighed", "line": 0, "actual_g": water.to_string(), "by": "typed", "lot": ""}));
    for (place, ((_, share), lot)) in lines.iter().zip(&used).enumerate() {
        let off = i64::try_from(chance.below(3)).unwrap_or_default();
        let actual = tenths(share * 10 + off);
        entries.add(json!({"event": "weighed", "line": place + 1, "actual_g": actual, "by": "typed", "lot": lot, "expiry": "2028-06-30"}));
    }
    for (of, celsius) in [("water", "71"), ("oil", "70.5"), ("batch", "39.5")] {
        entries.add(json!({"event": "temperature", "of": of, "celsius": celsius}));
    }
    set_ph(&mut entries, chance);
    for _ in 0..20 {
        entries.add(
            json!({"event": "filled", "mass_g": tenths(495 + i64::try_from(chance.below(12)).unwrap_or_default())}),
        );
    }
    entries.add(json!({"event": "decided", "decision": if n % 25 == 7 { "rejected" } else { "released" }, "by": MAKER, "remark": ""}));
    json!({
        "made_from": {
            "formula": formula(n % size.formulas, stock, lines), "mark": n, "rules_known_to": "2026-11-25", "batch_g": "1000",
            "lines": frozen_lines, "steps": [], "scale": {"readability_g": "0.1", "tolerance_percent": "2"},
            "packs": {"count": "20", "fill_g": "50"}, "findings": [],
        },
        "entries": entries.all,
    })
}

/// Entries of a record, a minute apart.
struct Entries {
    day: Day,
    minutes: i64,
    all: Vec<Value>,
}

impl Entries {
    fn add(&mut self, mut entry: Value) {
        self.minutes += 1;
        entry["id"] = format!("e{}", self.all.len()).into();
        entry["at"] = minute(self.day, self.minutes).into();
        self.all.push(entry);
    }
}

fn set_ph(entries: &mut Entries, chance: &mut Chance) {
    entries.add(json!({"event": "ph-begun", "batch_g": "1000", "target_ph": "5.2"}));
    for (ph, dose) in [("6.4", Some("1.5")), ("5.7", Some("0.4")), ("5.2", None)] {
        entries.add(json!({"event": "read", "in": "batch", "ph": ph, "with": "meter", "one_part_in": 10, "taken_g": "2", "steady": true}));
        if let Some(mass) = dose {
            entries.add(json!({
                "event": "dose", "in": "batch", "ingredient": "citric-acid", "strength_percent": "50", "mass_g": mass,
                "readability_g": "0.01", "lot": format!("C{}", chance.below(4)),
            }));
        }
    }
}

fn shelf(chance: &mut Chance, stock: &[Stocked]) -> Vec<Value> {
    let lot = |chance: &mut Chance, n: usize, name: &String| {
        let month = n % 12 + 1;
        json!({
            "lot": name, "supplier": "Pier Street supplies", "received": format!("2026-{month:02}-01"),
            "opened": format!("2026-{month:02}-05"), "expiry": format!("2028-{month:02}-28"), "after_opening": "18",
            "amount": "1 kg", "price": format!("{}.50 EUR", 4 + chance.below(40)), "document": format!("Certificate {name}"),
        })
    };
    let mut rows = Vec::new();
    for one in stock {
        let lots: Vec<Value> = one.lots.iter().enumerate().map(|(n, name)| lot(chance, n, name)).collect();
        rows.push(json!({"id": one.id.as_str(), "own": false, "lots": lots}));
    }
    rows
}

/// How a study's samples are kept and when they are looked at, in the order in which they are.
const PULLS: [(&str, &[&str]); 4] = [
    ("room", &["0d", "1d", "7d", "1m", "2m", "3m"]),
    ("warm", &["0d", "7d", "2w", "1m", "2m"]),
    ("cold", &["0d", "1m", "3m"]),
    ("light", &["0d", "2w"]),
];

fn study(chance: &mut Chance, n: usize, size: Size, stock: &[Stocked], formulas: &[Vec<Line>]) -> Value {
    let batch = n * size.batches / size.studies.max(1);
    let (day, at) = (made(batch, size), batch % size.formulas);
    let lots = formulas[at].iter().map(|(at, _)| {
        json!({"name": stock[*at].name, "lot": in_use(&stock[*at], batch, size, chance), "expiry": "2028-06-30"})
    });
    let lots: Vec<Value> = lots.collect();
    let conditions: Vec<Value> =
        PULLS.iter().map(|(kind, points)| json!({"kind": kind, "celsius": "22", "points": points})).collect();
    let mut entries = Entries { day, minutes: 0, all: Vec::new() };
    entries.add(json!({
        "event": "study-begun", "batch": format!("batch.{n:016x}"), "code": code(batch), "title": title(at),
        "made": day.text(), "began": day.text(), "content_g": "50", "lots": lots,
        "plan": {"months": 24, "conditions": conditions, "limits": {"ph_low": "4.7", "ph_high": "5.7", "weight_loss_percent": "3"}},
    }));
    // What is left over of the pulls goes to the first studies.
    let pulls = size.pulls / size.studies + usize::from(n < size.pulls % size.studies);
    let all = PULLS.iter().flat_map(|(kind, points)| points.iter().map(move |point| (kind, point)));
    for (kind, point) in all.take(pulls) {
        let ph = tenths(51 + i64::try_from(chance.below(3)).unwrap_or_default());
        entries.add(json!({
            "event": "observed", "condition": kind, "point": point, "on": day.text(), "appearance": chance.below(2),
            "colour": 0, "odour": chance.below(2), "ph": ph, "viscosity": "9500", "weight_g": "61.2", "separation": "none",
            "note": "As the control, but for a little shine at the edge of the jar",
        }));
    }
    json!({"entries": entries.all})
}

/// Times how the domain reads it, and what follows from it.
pub(super) fn measure() -> Done {
    let unread = |problem: &dyn std::fmt::Display| Failure::new("benchmark of a year", problem.to_string());
    let text = file(YEAR).to_string();
    let begun = Instant::now();
    let Incoming { documents, studies, shelf, .. } = read_export(&text).map_err(|problem| unread(&problem))?;
    let read = begun.elapsed();
    let begun = Instant::now();
    let bodies = documents.iter().flat_map(|document| &document.batches).filter_map(|batch| match batch {
        BatchRef::Carried(body) => Some(body),
        BatchRef::Stored { .. } => None,
    });
    let records: Vec<_> = bodies.filter_map(|body| body.record().ok()).collect();
    let batches: Vec<UsedBatch> =
        records.iter().enumerate().map(|(n, record)| UsedBatch::of(&n.to_string(), "", record)).collect();
    let folded = begun.elapsed();
    let begun = Instant::now();
    let found = trace(black_box(&batches), FIRST_LOT);
    let traced = begun.elapsed();
    let begun = Instant::now();
    let all = stocks(&shelf, &Usage::of(black_box(&batches)));
    let counted = begun.elapsed();
    let begun = Instant::now();
    let of_studies = studies.iter().filter_map(|body| Study::of(&body.study().ok()?)).map(|study| {
        let record = records.iter().find(|record| study.basis.is_of(record));
        shelf_life(&study, record.map(std::convert::AsRef::as_ref), &shelf).lots.len()
    });
    let lots: usize = of_studies.sum();
    let kept = begun.elapsed();
    let ms = |time: std::time::Duration| time.as_secs_f64() * 1e3;
    let base = ms(read).max(f64::EPSILON);
    say!(
        "\na year: {} formulas, {} batches, {} studies, {} kB",
        documents.len(),
        batches.len(),
        studies.len(),
        text.len() / 1000
    );
    let row = |what: &str, time: std::time::Duration| {
        say!("{what:<36} {:>9.2} ms, {:.3} of reading the file", ms(time), ms(time) / base);
    };
    row("reading the file of everything", read);
    row("reading and folding every record", folded);
    row("a lot to its batches", traced);
    row("stock of all lots", counted);
    row("shelf life of every study", kept);
    black_box((found, all, lots, IngredientId::parse("water").ok()));
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn year_is_as_large_as_it_says_is_read_whole_and_is_the_same_each_time() {
        let text = file(YEAR).to_string();
        assert_eq!(text, file(YEAR).to_string());
        let Incoming { documents, studies, shelf, .. } = read_export(&text).unwrap();
        let batches: usize = documents.iter().map(|document| document.batches.len()).sum();
        let lots: usize = shelf.lots().map(|(_, lots)| lots.len()).sum();
        let seen = |body: &hundred_parts::desk::RecordBody| Study::of(&body.study().unwrap()).unwrap().seen.len();
        let pulls: usize = studies.iter().map(seen).sum();
        assert_eq!((documents.len(), batches, lots, studies.len(), pulls), (40, 300, 900, 60, 800));
        for batch in documents.iter().flat_map(|document| &document.batches) {
            let BatchRef::Carried(body) = batch else { panic!("{batch:?}") };
            let used = UsedBatch::of("", "", &body.record().unwrap());
            assert!(used.uses.iter().skip(1).all(|used| used.ingredient.is_some() && !used.lot.is_empty()), "{used:?}");
        }
    }
}
