//! `cargo task soak`: what the tests do in short, at length. Property tests with many more cases, every reader of outside
//! text under changed texts, and the campaigns of faults in a browser.

use crate::arguments::Arguments;
use crate::child::{self, Child};
use crate::failure::{Done, Failure};
use crate::project::Project;
use crate::say::say;
use crate::{setup, test};

/// A few minutes of work on two cores.
const CASES: u32 = 20_000;
/// An hour or so for all readers on one core at ten millions.
const RUNS: u64 = 1_000_000;

pub(crate) fn command(words: &[String]) -> Done {
    let mut words = Arguments::new(words);
    let (properties, fuzz, faults) = (words.flag("--properties"), words.flag("--fuzz"), words.flag("--faults"));
    let cases = words.value::<u32>("--cases")?.unwrap_or(CASES);
    let runs = words.value::<u64>("--runs")?.unwrap_or(RUNS);
    let seed = words.value::<u64>("--seed")?.unwrap_or(1);
    words.finish()?;
    // Without a choice, everything.
    let all = !(properties || fuzz || faults);
    let project = Project::find()?;
    if properties || all {
        say!("Property tests, {cases} cases each or as many times their own number, seed {seed}.");
        let mut cargo = child::cargo(&project);
        cargo
            .args(["test", "--profile", "host-bench", "--lib", "--tests", "--no-fail-fast"])
            .env("PROPTEST_CASES", cases.to_string())
            .env("PROPTEST_RNG_SEED", seed.to_string());
        Child::new("soak", cargo).run()?;
    }
    if fuzz || all {
        say!("Every reader of outside text, {runs} changed texts each, seed {seed}.");
        let mut cargo = child::cargo(&project);
        cargo
            .args(["test", "--profile", "host-bench", "--test", "fuzz", "--", "--nocapture"])
            .env("HP_FUZZ", runs.to_string())
            .env("HP_FUZZ_SEED", seed.to_string())
            // What would wrap around unseen in the page is a fault here.
            .env("CARGO_PROFILE_HOST_BENCH_OVERFLOW_CHECKS", "true");
        Child::new("fuzz", cargo).run()?;
    }
    if faults || all {
        say!("Faults in a browser, on the page in dist/: hours.");
        if !project.dist().join("index.html").is_file() {
            return Err(Failure::new("campaigns of faults", "there is no page in dist/").by_hand("cargo task build"));
        }
        let tools = setup::for_tests(&project)?;
        test::campaigns(&project, &tools)?;
    }
    Ok(())
}
