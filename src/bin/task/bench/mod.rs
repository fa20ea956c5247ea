//! `cargo task bench`: what the maker waits for, on the host and on the finished page, as ratios where two things are
//! compared. One run, no limits enforced: a benchmark tells, it does not judge.

mod doses;
mod law;
mod recompute;
mod swap;
mod trace;
mod year;

use crate::arguments::Arguments;
use crate::child::{self, Child};
use crate::failure::{Done, Failure};
use crate::project::Project;
use crate::say::say;
use crate::{build, setup};

/// Says that this process is the optimised one that measures.
const MEASURE: &str = "--measure";
/// Leaves out all but the simulated doses.
const DOSES: &str = "--doses";
/// Has an independent checker look at the finished page instead of all else.
const LIGHTHOUSE: &str = "--lighthouse";
/// Leaves out all but the simulated year in the finished page, on `dist/` as it is.
const YEAR: &str = "--year";
/// Simulates as many batches as a figure that is published needs.
const FULL: &str = "--full";
/// Simulated batches a row: quickly, and in full.
const BATCHES: (u64, u64) = (200, 10_000);

pub(crate) fn command(words: &[String]) -> Done {
    let mut words = Arguments::new(words);
    let measures = words.flag(MEASURE);
    let host_only = words.flag("--host");
    let scipy = words.value::<String>("--scipy")?;
    let (doses, full) = (words.flag(DOSES), words.flag(FULL));
    let lighthouse_alone = words.flag(LIGHTHOUSE);
    let year_only = words.flag(YEAR);
    words.finish()?;
    if measures {
        if !doses {
            on_host(scipy.as_deref())?;
        }
        doses::print(if full { BATCHES.1 } else { BATCHES.0 });
        return Ok(());
    }
    let project = Project::find()?;
    if year_only {
        return year_on_page(&project, &setup::for_tests(&project)?);
    }
    if lighthouse_alone {
        return lighthouse(&project);
    }
    say!("Host: building with full optimisation (about a minute the first time) …");
    let mut cargo = child::cargo(&project);
    cargo.args(["run", "--quiet", "--profile", "host-bench", "--bin", "task", "--", "bench", MEASURE]);
    cargo.args([(DOSES, doses), (FULL, full)].into_iter().filter(|(_, asked)| *asked).map(|(flag, _)| flag));
    if let Some(python) = &scipy {
        cargo.args(["--scipy", python]);
    }
    Child::new("benchmark of the host", cargo).run()?;
    if host_only || doses { Ok(()) } else { on_page(&project) }
}

fn on_host(scipy: Option<&str>) -> Done {
    recompute::measure().map_err(|problem| Failure::new("benchmark of a recompute", problem.to_string()))?;
    swap::measure(scipy);
    trace::measure()?;
    year::measure()?;
    law::measure()
}

/// The finished page in a slowed-down browser.
fn on_page(project: &Project) -> Done {
    let tools = setup::for_build(project)?;
    let tests = setup::for_tests(project)?;
    build::release(project, &tools)?;
    say!("Page: a few minutes in headless Chromium.");
    in_browser(project, &tests, "bench.mjs")?;
    year_on_page(project, &tests)
}

/// A simulated year in the finished page, and a recall drill over more batches still.
fn year_on_page(project: &Project, tests: &setup::TestTools) -> Done {
    for (name, size) in [("year.json", year::YEAR), ("drill.json", year::DRILL)] {
        let path = project.target().join(name);
        std::fs::write(&path, year::file(size).to_string()).map_err(|error| Failure::new("simulated year", error))?;
    }
    in_browser(project, tests, "bench-year.mjs")
}

/// What an independent checker says of a first visit.
fn lighthouse(project: &Project) -> Done {
    let tools = setup::for_build(project)?;
    let tests = setup::for_tests(project)?;
    setup::provide_lighthouse(project, &tests.node)?;
    build::release(project, &tools)?;
    say!("Page: five visits, two minutes in headless Chromium.");
    in_browser(project, &tests, "lighthouse/run.mjs")
}

/// A script of `tests/e2e` with the finished page.
fn in_browser(project: &Project, tests: &setup::TestTools, script: &str) -> Done {
    let mut node = child::tool(project, &tests.node.program);
    node.arg(project.root().join("tests/e2e").join(script))
        .env("HP_DIST", project.dist())
        .env("HP_YEAR", project.target())
        .env("HP_LIMIT", build::FIRST_VISIT.to_string())
        .env("CHROMIUM", &tests.browser.chromium);
    Child::new("benchmark of the page", node).run()
}
