//! What an oil swap costs over the whole table of fats, and, where a Python with scipy is given, its SLSQP on the same
//! problems.

use std::hint::black_box;
use std::process::Command;
use std::time::{Duration, Instant};

use crate::say::say;
use hundred_parts::facts::{Cox, IngredientId, fats};
use hundred_parts::quantity::{Percent, Quantity};
use hundred_parts::sheet::{Limits, MixtureProblem, Weighting, nearest, swap};
use hundred_parts::shelf::Shelf;
use problem::Oils;
use serde_json::Value;

#[path = "../../../../tests/vectors/problem.rs"]
mod problem;

const RUNS: usize = 51;

/// Every tenth oil of the table against all the others, as `tests/vectors/swap.py` times them.
pub(super) fn measure(scipy: Option<&str>) {
    let vectors: Value = serde_json::from_str(include_str!("../../../../tests/vectors/swap.json")).unwrap_or_default();
    let oils = Oils::read();
    let whole: Vec<&Value> = vectors["whole"].as_array().into_iter().flatten().collect();
    let problems: Vec<MixtureProblem> = whole.iter().map(|one| oils.of(one)).collect();
    let times = (0..RUNS).flat_map(|_| {
        problems.iter().map(|problem| {
            timed(|| {
                let _ = black_box(nearest(black_box(problem)));
            })
        })
    });
    let (solved, worst) = median_and_worst(times.collect());
    say!("\noil swap, {} oils against {} others each", problems.len(), oils.ids.len().saturating_sub(1));
    say!("nearest mixture     {:>9.1} µs, at worst {:.1} µs", micros(solved), micros(worst));
    whole_answers(&oils);
    let Some(python) = scipy else { return };
    let output = Command::new(python).args(["tests/vectors/swap.py", "--time"]).output();
    let text = output.map(|output| String::from_utf8_lossy(&output.stdout).trim().to_owned()).unwrap_or_default();
    match text.parse::<f64>() {
        Ok(theirs) => {
            say!("scipy's SLSQP       {theirs:>9.1} µs");
            say!("ratio               {:>9.0}", theirs / micros(solved));
        }
        Err(_) => say!("scipy: {python} tests/vectors/swap.py --time gave no number"),
    }
}

/// All that the page shows for a swap, once for every oil of the table.
fn whole_answers(oils: &Oils) {
    let shelf = Shelf::default();
    // The tables are read once, when the page starts.
    black_box((shelf.ids().len(), fats().len()));
    for (name, most_oils) in [("whole answer", None), ("of at most 3 oils", Some(3))] {
        let limits = Limits {
            most_oils,
            most_of_one: Some(Percent::millionths(60_000_000)),
            oxidizability: Some(Cox::from_units(300)),
            ..Limits::default()
        };
        let ids = oils.ids.iter().filter_map(|id| IngredientId::parse(id).ok());
        let times = ids.map(|id| {
            timed(|| {
                let _ = black_box(swap(&shelf, &id, &limits, Weighting::Plain));
            })
        });
        let (median, worst) = median_and_worst(times.collect());
        say!("{name:<20}{:>9.1} µs, at worst {:.1} µs", micros(median), micros(worst));
    }
}

fn timed(work: impl FnOnce()) -> Duration {
    let start = Instant::now();
    work();
    start.elapsed()
}

fn median_and_worst(mut times: Vec<Duration>) -> (Duration, Duration) {
    times.sort_unstable();
    (times.get(times.len() / 2).copied().unwrap_or_default(), times.last().copied().unwrap_or_default())
}

fn micros(time: Duration) -> f64 {
    time.as_secs_f64() * 1e6
}
