//! What a keystroke costs: everything that follows from a formula of 40 lines, against merely reading its document.

use hundred_parts::quantity::Timestamp;
use std::hint::black_box;
use std::time::{Duration, Instant};

use crate::say::say;
use hundred_parts::desk::{DocId, OpenDocument, ReadProblem, ShelfDocument, read_document};
use hundred_parts::shelf::Shelf;

const RUNS: usize = 301;
const LINES: usize = 40;

/// Prints both and their ratio.
pub(super) fn measure() -> Result<(), ReadProblem> {
    let text = document();
    let document = read_document(&text, &mut Shelf::default())?;
    let open = OpenDocument::new(DocId::random(0), document, ShelfDocument::default(), Timestamp::default());
    let computed = median(|| {
        black_box(black_box(&open).derive());
    });
    let read = median(|| {
        let _ = black_box(read_document(black_box(&text), &mut Shelf::default()));
    });
    say!("{LINES} lines, median of {RUNS} runs");
    say!("compute everything  {:>9.1} µs", micros(computed));
    say!("read the document   {:>9.1} µs", micros(read));
    say!("ratio               {:>9.2}", micros(computed) / micros(read));
    parts(&open);
    Ok(())
}

/// What the whole is made of, so that a part that grows is seen.
fn parts(open: &OpenDocument) {
    use hundred_parts::{rules, sheet};
    let (state, shelf) = (open.state(), open.shelf());
    let formula = &state.formula;
    let totals = sheet::totals(formula);
    let composition = sheet::composition(formula, &totals, shelf);
    let water = sheet::ph::water_phase(formula, &totals, shelf);
    let volumes = sheet::Volumes::of(formula, &totals, shelf);
    let whole = open.derive().sheet;
    let part = |name: &str, work: &mut dyn FnMut()| say!("  {name:<18}{:>9.1} µs", micros(median(work)));
    part("sums", &mut || drop(black_box(sheet::totals(formula))));
    part("weigh sheet", &mut || drop(black_box(sheet::weigh(formula, &totals, &state.plan, shelf))));
    part("oils", &mut || drop(black_box(sheet::oil_phase(formula, &totals, shelf))));
    part("makeup", &mut || drop(black_box(sheet::composition(formula, &totals, shelf))));
    part("water phase", &mut || drop(black_box(sheet::ph::water_phase(formula, &totals, shelf))));
    part("pH", &mut || drop(black_box(sheet::ph::predict(&water, hundred_parts::quantity::Celsius::ROOM))));
    part("pH window", &mut || drop(black_box(sheet::ph::window(formula, &totals, shelf))));
    part("preservation", &mut || drop(black_box(sheet::preservation(formula, &composition, None, &water, volumes))));
    part("emulsion", &mut || drop(black_box(sheet::emulsion(formula, &totals, &composition, shelf))));
    part("label", &mut || drop(black_box(sheet::label(formula, &totals, &composition, shelf, None))));
    part("rules", &mut || drop(black_box(rules::check(formula, &whole, shelf))));
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
