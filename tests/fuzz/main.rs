//! Every reader of outside text under changed texts without end: files, links, the journal, typed numbers, pasted
//! statements, tables.
//!
//! A few thousand runs each with the other tests; `cargo task soak --fuzz 10000000` for a campaign. Nothing here measures
//! what the code does: the changes know the formats instead, begin with the texts of `corpus/`, and are the same for the
//! same seed. A text that once broke something stays in the corpus of its target for ever.

mod dice;
mod mutate;
mod targets;
mod tree;

use dice::Dice;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;
use std::time::{Duration, Instant};

/// With the other tests.
const RUNS: u64 = 2000;
/// No text may keep the page from drawing: criterion 17. A build without optimisation may take longer, and so may a
/// campaign, which runs beside other work for an hour.
const SLOWEST: Duration = Duration::from_millis(if cfg!(debug_assertions) { 1000 } else { 50 });
const SLOWEST_OF_A_CAMPAIGN: Duration = Duration::from_secs(1);

fn setting(name: &str) -> Option<u64> {
    std::env::var(name).ok()?.parse().ok()
}

/// The texts to begin with: every file of the target's folder.
fn corpus(target: &str) -> Vec<Vec<u8>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fuzz/corpus").join(target);
    let mut files: Vec<_> =
        folder.read_dir().unwrap_or_else(|error| panic!("{}: {error}", folder.display())).flatten().collect();
    files.sort_by_key(std::fs::DirEntry::file_name);
    files.iter().map(|file| std::fs::read(file.path()).unwrap()).collect()
}

/// Runs it on each text of the corpus, then on changed ones.
fn fuzz(name: &str, target: &str, words: &[&str], share: u64, run: fn(&str) -> bool) {
    let seeds = corpus(target);
    assert!(!seeds.is_empty(), "no corpus for {target}");
    let campaign = setting("HP_FUZZ");
    let runs = campaign.unwrap_or(RUNS) / share;
    let limit = if campaign.is_some() { SLOWEST_OF_A_CAMPAIGN } else { SLOWEST };
    let mut dice =
        Dice::new(setting("HP_FUZZ_SEED").unwrap_or(1) ^ u64::from(hundred_parts::desk::crc32(name.as_bytes())) << 32);
    let (mut taken, mut slowest, begun) = (0u64, (Duration::ZERO, String::new()), Instant::now());
    let mut one = |text: String| {
        let (time, took) = timed(&text, run);
        taken += u64::from(took);
        if time > slowest.0 {
            // The machine may have been at something else: what is slow is slow three times.
            let time = (0..2).fold(time, |least, _| least.min(timed(&text, run).0));
            assert!(time < limit, "{name}: {time:?} for {text:?}");
            if time > slowest.0 {
                slowest = (time, text);
            }
        }
    };
    for seed in &seeds {
        one(String::from_utf8_lossy(seed).into_owned());
    }
    for _ in 0..runs {
        let tree = if dice.below(2) == 0 { tree::changed(&mut dice, &seeds) } else { None };
        let text = tree.unwrap_or_else(|| mutate::changed(&mut dice, &seeds, words));
        one(String::from_utf8_lossy(&text).into_owned());
    }
    let (time, text) = slowest;
    let all = runs + seeds.len() as u64;
    println!(
        "fuzz {name}: {all} runs in {:.0} s, {:.1} % taken, slowest {:.2} ms ({} bytes)",
        begun.elapsed().as_secs_f64(),
        taken as f64 * 100.0 / all as f64,
        time.as_secs_f64() * 1000.0,
        text.len()
    );
    assert!(taken > 0, "{name}: no text was taken, so nothing behind its door was tried");
}

fn timed(text: &str, run: fn(&str) -> bool) -> (Duration, bool) {
    let begun = Instant::now();
    match catch_unwind(AssertUnwindSafe(|| run(text))) {
        Ok(taken) => (begun.elapsed(), taken),
        Err(_) => panic!("broken by {text:?}"),
    }
}

const JSON: [&str; 37] = [
    r#""format": "hundred-parts", "version": 1"#,
    r#""version": 2"#,
    r#""formula": {"#,
    r#""formulas": ["#,
    r#""phases": ["#,
    r#""lines": ["#,
    r#""percent": "fill-up""#,
    r#""percent": "4,5""#,
    r#""percent_typed": "1.234""#,
    r#""ingredient": "glycerin""#,
    r#""ingredient": "own-1""#,
    r#""name": "x""#,
    r#""note": "n""#,
    r#""kind": "oil""#,
    r#""heat_c": "72""#,
    r#""use": "soap""#,
    r#""target_ph": "5.2""#,
    r#""batch": {"#,
    r#""jars": 12"#,
    r#""fill_ml": "100""#,
    r#""in_hand": [{"phase": 0, "line": 1, "mass_g": "5"}]"#,
    r#""ph_log": {"batch_g": "1236", "target_ph": "5.2", "events": ["#,
    r#"{"event": "strike", "entry": 0, "at": "2026-11-25T14:02:00Z"}"#,
    r#""records": [{"entries": [{"id": "a1", "at": "2026-11-26T09:02:00Z", "event": "ph-begun", "batch_g": "1", "target_ph": "5"}"#,
    r#"{"id": "a2", "at": "2026-11-26T09:03:00Z", "event": "struck", "entry": "a1", "reason": "r"}"#,
    r#""made_from": {"rules_known_to": "2026-11-25", "lines": [{"name": "n", "percent": "1", "on_scale_g": "1"}]"#,
    r#""lye": {"alkali": "both", "lines": [{"phase": 0, "line": 0}]}"#,
    r#""versions": [{"number": 1, "saved": "2026-11-25T14:02:00Z"}]"#,
    r#""papers": {"#,
    r#""answers": [{"finding": "k", "reason": "r"}]"#,
    r#""shelf": ["#,
    r#"{"id": "own-1", "values": {"name": "Q"}}"#,
    r#""own": false"#,
    r#""fatty_acids": "18:1 62-86; 16:0 6.5""#,
    r#""components": "water 50; glycerin rest""#,
    r#""unit": "oz""#,
    "\\n",
];
const NUMBERS: [&str; 24] = [
    "1,5",
    "1.5",
    "1 234,5",
    "1'234.5",
    "1.234",
    "-3",
    "\u{2212}3",
    " %",
    "g",
    "kg",
    "mg",
    "oz",
    "lb",
    "mL",
    "L",
    "\u{b0}C",
    "\u{b0}F",
    "F",
    "q.s.",
    "ad 100",
    "rest",
    "fill up",
    "ppm",
    "12",
];
const STATEMENT: [&str; 22] = [
    "Linalool 12.3 %",
    "78-70-6",
    "\t",
    "; ",
    "\n",
    "<0.1",
    "20-45 %",
    "ppm",
    "not present",
    "n.d.",
    "5B: 0.2",
    "18:1",
    "C16:0",
    "oleic",
    "linoleic 62-86",
    "about ",
    " rest",
    "(as is)",
    "%",
    "\u{2013}",
    "category",
    ": ",
];
const SMALL: [&str; 8] =
    ["2026-11-25T14:02:00Z", "12 1764000000000 -", "glycerin", "#/batch", "lactic-acid 80 0.01", "own-1", "-", " "];
const LAW: [&str; 20] = [
    "\"",
    ",",
    "\n",
    "(a) ",
    "b) ",
    "For (a) and (b): ",
    "(a) to (e):",
    "0,5 % (as acid)",
    " 5 ppm",
    "100 mg/kg",
    "Other products",
    "except ",
    "Not to be used in ",
    "products for children under 3 years of age",
    "From 1 May 2027 ",
    "The presence of the substance",
    "exceeds",
    "0,001 % in leave-on products — 0,01 % in rinse-off products",
    "28/08/2026",
    "69-72-7 / 200-712-3",
];
const CSV: [&str; 8] = [",", "\"", "\"\"", "\r\n", "\n", "id,name", ",,", "\"a\nb\""];

macro_rules! targets {
    ($($test:ident: $target:literal, $words:expr, $share:literal, $run:path;)*) => {
        $(#[test] fn $test() { fuzz(stringify!($test), $target, &$words, $share, $run); })*
    };
}

// Name of the test, its corpus, words of its format, one in how many of the runs, the target.
targets! {
    link_reads_any_text: "link", JSON, 1, targets::link;
    link_holds_any_text: "document", JSON, 1, targets::link_inside;
    document_reads_any_text: "document", JSON, 1, targets::document;
    step_reads_any_text: "step", JSON, 1, targets::step;
    shelf_reads_any_text: "shelf", JSON, 1, targets::shelf;
    entry_reads_any_text: "entry", JSON, 1, targets::entry;
    record_reads_any_text: "record", JSON, 1, targets::record;
    rescue_reads_any_text: "rescue", JSON, 1, targets::rescue;
    percent_reads_any_text: "number", NUMBERS, 1, targets::percent;
    mass_reads_any_text: "number", NUMBERS, 1, targets::mass;
    temperature_reads_any_text: "number", NUMBERS, 1, targets::temperature;
    quantities_read_any_text: "number", NUMBERS, 1, targets::quantities;
    statement_reads_any_text: "statement", STATEMENT, 1, targets::statement;
    components_read_any_text: "components", STATEMENT, 1, targets::components;
    fatty_acids_read_any_text: "fatty-acids", STATEMENT, 1, targets::fatty_acids;
    shelf_value_reads_any_text: "number", NUMBERS, 1, targets::shelf_value;
    table_reads_any_text: "table", CSV, 1, targets::table;
    law_reads_any_text: "law", LAW, 1, targets::law;
    small_texts_read_any_text: "small", SMALL, 1, targets::small;
    whatever_came_in_is_computed: "document", JSON, 500, targets::derived;
}
