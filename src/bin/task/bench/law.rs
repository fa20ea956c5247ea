//! What the law costs: reading it, reading its conditions, judging a product by them, recognising names, and a whole check.

use std::hint::black_box;
use std::time::Instant;

use crate::failure::{Done, Failure};
use crate::say::say;
use hundred_parts::compliance::{Present, check};
use hundred_parts::law::{COMPACT, EntryReading, JudgedShare, Law, judge, products, read, verdict};
use hundred_parts::names::recognise;
use hundred_parts::quantity::Percent;

const RUNS: u32 = 11;
/// Names as suppliers write them.
const NAMES: [&str; 20] = [
    "Aqua (Water)",
    "Vegetable glycerine 99.7%",
    "Caprylic/Capric Triglyceride",
    "Butyrospermum Parkii (Shea) Butter, unrefined",
    "Phenoxyethanol (and) Ethylhexylglycerin",
    "Natriumbenzoat",
    "d-alpha-Tocopheryl acetate",
    "Lavandula angustifolia oil, Bulgaria",
    "2-Hydroxypropane-1,2,3-tricarboxylic acid",
    "Glyceryl Sterate",
    "Citric acid 50% solution",
    "CAS 122-99-6",
    "Polysorbate 20 NF",
    "Salicylic Acid (BHA)",
    "Retinol (Vitamin A)",
    "Something that nobody knows, with words",
    "Huile d'amande douce",
    "Xanthan gum, clear, 80 mesh",
    "CI 77891 (Titanium Dioxide)",
    "Limonene",
];

/// Prints how long each step takes for all entries, and how many entries a second that is.
pub(super) fn measure() -> Done {
    let law = Law::read(COMPACT).map_err(|damage| Failure::new("benchmark of the law", damage))?;
    let entries = law.entries().len();
    let readings: Vec<EntryReading<'_>> = law.entries().iter().map(read).collect();
    let lotion = products("body-lotion still 10").sure;
    let share = JudgedShare::of(Percent::millionths(500_000));
    say!("The law: {entries} entries, the fastest of {RUNS} runs");
    told("read the data", entries, &mut || drop(black_box(Law::read(black_box(COMPACT)))));
    told("read conditions", entries, &mut || law.entries().iter().for_each(|entry| drop(black_box(read(entry)))));
    told("judge a product", entries, &mut || {
        for reading in &readings {
            black_box(verdict(&judge(black_box(reading), lotion, share)));
        }
    });
    names_and_check();
    told("find by CAS", 1, &mut || {
        black_box(law.of_cas(black_box("69-72-7")).count());
    });
    told("find by name", 1, &mut || {
        black_box(law.of_name(black_box("Phenoxyethanol")).count());
    });
    Ok(())
}

/// Those names, and a formula of forty lines against all entries. The first name builds the index.
fn names_and_check() {
    let start = Instant::now();
    black_box(recognise(black_box("Aqua"), None));
    say!("  first name        {:>9.1} µs, with the index", start.elapsed().as_secs_f64() * 1e6);
    told("recognise names", NAMES.len(), &mut || NAMES.iter().for_each(|name| drop(black_box(recognise(name, None)))));
    let share = Percent::millionths(400_000);
    let lines = NAMES.iter().chain(&NAMES).map(|name| Present { name, cas: None, low: share, high: share });
    let lines: Vec<Present<'_>> = lines.collect();
    let product = products("body-lotion|body-other still 10").sure;
    let start = Instant::now();
    black_box(check(black_box(&lines), product));
    say!("  first check       {:>9.1} µs, with the index of entries", start.elapsed().as_secs_f64() * 1e6);
    told("check 40 lines", 1, &mut || drop(black_box(check(black_box(&lines), product))));
}

fn told(name: &str, of: usize, work: &mut dyn FnMut()) {
    let fastest = (0..RUNS).map(|_| {
        let start = Instant::now();
        work();
        start.elapsed()
    });
    let time = fastest.min().unwrap_or_default().as_secs_f64();
    say!("  {name:<18}{:>9.1} µs{:>12.0} a second", time * 1e6, of as f64 / time.max(f64::MIN_POSITIVE));
}
