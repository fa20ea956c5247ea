//! What a keystroke costs: everything that follows from a formula of 40 lines, against merely reading its document.

use std::hint::black_box;
use std::time::{Duration, Instant};

use hundred_parts::desk::{Bench, Cupboard, DocId, Moment, ReadProblem, read_document};
use hundred_parts::facts::Shelf;

const RUNS: usize = 301;
const LINES: usize = 40;

/// Prints both and their ratio.
pub(super) fn measure() -> Result<(), ReadProblem> {
    let text = document();
    let document = read_document(&text, &mut Shelf::default())?;
    let bench = Bench::new(DocId::random(0), document, Cupboard::default(), Moment::default());
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
    Ok(())
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
