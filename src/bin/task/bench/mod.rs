//! `cargo task bench`: what the maker waits for, on the host and on the finished page, as ratios where two things are
//! compared. One run, no limits enforced: a benchmark tells, it does not judge.

mod recompute;
mod swap;

use crate::arguments::Arguments;
use crate::child::{self, Child};
use crate::failure::{Done, Failure};
use crate::project::Project;
use crate::{build, setup};

/// Says that this process is the optimised one that measures.
const MEASURE: &str = "--measure";

pub(crate) fn command(words: &[String]) -> Done {
    let mut words = Arguments::new(words);
    let measures = words.flag(MEASURE);
    let host_only = words.flag("--host");
    let scipy = words.value::<String>("--scipy")?;
    words.finish()?;
    if measures {
        return on_host(scipy.as_deref());
    }
    let project = Project::find()?;
    println!("Host: building with full optimisation (about a minute the first time) …");
    let mut cargo = child::cargo(&project);
    cargo.args(["run", "--quiet", "--profile", "host-bench", "--bin", "task", "--", "bench", MEASURE]);
    if let Some(python) = &scipy {
        cargo.args(["--scipy", python]);
    }
    Child::new("benchmark of the host", cargo).run()?;
    if host_only { Ok(()) } else { on_page(&project) }
}

fn on_host(scipy: Option<&str>) -> Done {
    recompute::measure().map_err(|problem| Failure::new("benchmark of a recompute", problem.to_string()))?;
    swap::measure(scipy);
    Ok(())
}

/// The finished page in a slowed-down browser.
fn on_page(project: &Project) -> Done {
    let tools = setup::for_build(project)?;
    let tests = setup::for_tests(project)?;
    build::release(project, &tools)?;
    println!("Page: a few minutes in headless Chromium.");
    let mut node = child::tool(project, &tests.node.program);
    node.arg(project.root().join("tests/e2e/bench.mjs"))
        .env("HP_DIST", project.dist())
        .env("CHROMIUM", &tests.browser.chromium);
    Child::new("benchmark of the page", node).run()
}
