//! What the law costs: reading it, reading its conditions, and judging a product by them.

use std::hint::black_box;
use std::time::Instant;

use crate::failure::{Done, Failure};
use crate::say::say;
use hundred_parts::law::{COMPACT, EntryReading, JudgedShare, Law, judge, products, read, verdict};
use hundred_parts::quantity::Percent;

const RUNS: u32 = 11;

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
    told("find by CAS", 1, &mut || {
        black_box(law.of_cas(black_box("69-72-7")).count());
    });
    told("find by name", 1, &mut || {
        black_box(law.of_name(black_box("Phenoxyethanol")).count());
    });
    Ok(())
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
