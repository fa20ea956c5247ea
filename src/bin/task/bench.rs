//! `cargo task bench`: the host's half of the benchmarks, as ratios.
//!
//! What a keystroke costs is measured on a formula of 40 lines: everything that follows from it against merely reading
//! the same document. One run, medians, no limit: a benchmark tells, it does not judge.

use std::hint::black_box;
use std::process::{Command, ExitCode};
use std::time::{Duration, Instant};

use hundred_parts::desk::{Bench, DocId, Moment, read_document};
use hundred_parts::facts::Shelf;

const RUNS: usize = 301;
const LINES: usize = 40;
/// Says that this process is the optimised one that measures.
const MEASURE: &str = "--measure";

pub(crate) fn command(words: &[String]) -> ExitCode {
    if words.iter().any(|word| word == MEASURE) {
        return measure();
    }
    println!("building with full optimisation (about a minute the first time) …");
    let built = Command::new("cargo")
        .args(["run", "--quiet", "--profile", "host-bench", "--bin", "task", "--", "bench", MEASURE])
        .status();
    match built {
        Ok(status) if status.success() => ExitCode::SUCCESS,
        Ok(_) => ExitCode::FAILURE,
        Err(error) => {
            eprintln!("cargo could not be started: {error}");
            ExitCode::FAILURE
        }
    }
}

fn measure() -> ExitCode {
    let text = document();
    let document = match read_document(&text, &mut Shelf::default()) {
        Ok(document) => document,
        Err(problem) => {
            eprintln!("{problem}");
            return ExitCode::FAILURE;
        }
    };
    let bench = Bench::new(DocId::random(0), document, Shelf::default(), Moment::default());
    let computed = median(|| {
        black_box(black_box(&bench).derive());
    });
    let read = median(|| {
        let _ = black_box(read_document(black_box(&text), &mut Shelf::default()));
    });
    println!("{LINES} lines, median of {RUNS} runs");
    println!("compute everything  {:>9.1} µs", micros(computed));
    println!("read the document   {:>9.1} µs", micros(read));
    println!("ratio               {:>9.2}", micros(computed) / micros(read));
    ExitCode::SUCCESS
}

fn micros(time: Duration) -> f64 {
    time.as_secs_f64() * 1e6
}

fn median(mut work: impl FnMut()) -> Duration {
    let mut times: Vec<Duration> = (0..RUNS)
        .map(|_| {
            let start = Instant::now();
            work();
            start.elapsed()
        })
        .collect();
    times.sort_unstable();
    times[RUNS / 2]
}

/// A line that fills up, and 39 of which some are too small for the scale, so that premixes are looked for.
fn document() -> String {
    let oils = ["olive", "shea", "glycerin", "sunflower-high-oleic", "panthenol-75"];
    let lines: Vec<String> = (1..LINES)
        .map(|n| {
            format!(
                r#"{{"ingredient":"{}","percent":"{}"}}"#,
                oils[n % oils.len()],
                if n % 4 == 0 { "0.02" } else { "1.25" }
            )
        })
        .collect();
    format!(
        r#"{{"format":"hundred-parts","version":1,"formula":{{"title":"Forty lines","phases":[{{"name":"All","kind":"water","lines":[{{"ingredient":"water","percent":"fill-up"}},{}]}}]}},"batch":{{"jars":12,"fill_g":"100","readability_g":"0.01"}}}}"#,
        lines.join(",")
    )
}
