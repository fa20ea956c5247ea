//! The stages of `cargo task test`.

use std::io::IsTerminal;
use std::net::{Ipv4Addr, SocketAddr};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Duration;

use super::tally::Tally;
use crate::child::{self, Child};
use crate::failure::{Done, Failure};
use crate::project::Project;
use crate::say::say;
use crate::serve::Running;
use crate::setup::{BuildTools, Engines, TestTools};

/// How a stage went.
#[derive(Clone, Copy)]
pub(super) struct Outcome {
    pub(super) passed: bool,
    pub(super) tally: Tally,
    /// Files of tests that passed only when they were run again.
    pub(super) only_again: usize,
}

impl Outcome {
    fn new(passed: bool, tally: Tally) -> Self {
        Self { passed, tally, only_again: 0 }
    }

    /// Of a stage that did not come to its end.
    pub(super) fn failed() -> Self {
        Self::new(false, Tally::default())
    }

    /// Both.
    fn and(self, other: Self) -> Self {
        Self {
            passed: self.passed && other.passed,
            tally: self.tally + other.tally,
            only_again: self.only_again + other.only_again,
        }
    }
}

/// A stage without tests that can be counted.
pub(super) fn passed() -> Outcome {
    Outcome::new(true, Tally::default())
}

/// Warnings are faults, in every target of both packages.
const STRICT: [&str; 3] = ["--", "-D", "warnings"];
const WASM: [&str; 2] = ["--target", "wasm32-unknown-unknown"];

pub(super) fn format(project: &Project) -> Done<Outcome> {
    let mut cargo = child::cargo(project);
    cargo.args(["fmt", "--all", "--check"]);
    Child::new("cargo fmt --check", cargo).by_hand("cargo fmt --all").run().map(|()| passed())
}

pub(super) fn clippy_host(project: &Project) -> Done<Outcome> {
    let mut cargo = child::cargo(project);
    cargo.args(["clippy", "--workspace", "--all-targets"]).args(STRICT);
    Child::new("clippy for the host", cargo).by_hand("cargo clippy --workspace --all-targets").run().map(|()| passed())
}

/// One seed for all property tests: a run tells of the change, not of chance. `cargo task soak` tries others.
const SEED: &str = "1";

pub(super) fn tests_host(project: &Project) -> Done<Outcome> {
    let mut cargo = child::cargo(project);
    cargo.args(["test", "--workspace"]).env("PROPTEST_RNG_SEED", SEED);
    listen("cargo test", cargo, Tally::of_cargo)
}

/// The page as it is, and with its tests; the library's tests belong to the host.
pub(super) fn clippy_page(project: &Project, tools: &BuildTools) -> Done<Outcome> {
    for profile in ["dev", "test"] {
        let mut cargo = for_wasm(project, tools);
        cargo.args(["clippy", "--bin", "hundred-parts", "--profile", profile]).args(WASM).args(STRICT);
        Child::new("clippy for the page", cargo).by_hand("cargo clippy --target wasm32-unknown-unknown").run()?;
    }
    Ok(passed())
}

pub(super) fn tests_browser(project: &Project, tools: &BuildTools, tests: &TestTools) -> Done<Outcome> {
    let mut cargo = for_wasm(project, tools);
    cargo
        .args(["test", "--bin", "hundred-parts"])
        .args(WASM)
        .env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_RUNNER", tools.bindgen.test_runner())
        .env("CHROMEDRIVER", &tests.browser.driver)
        .env("WASM_BINDGEN_TEST_TIMEOUT", "120");
    listen("tests of the page in the browser", cargo, Tally::of_cargo)
}

/// What measures how long the page works: it must not share the processors with another browser.
const ALONE: [&str; 1] = ["hostile.test.mjs"];
/// What is done in every engine, in a stage of its own.
const IN_ENGINES: &str = "engines.test.mjs";
/// What has a long form, in its long form.
const CAMPAIGNS: [&str; 8] = [
    "faults.test.mjs",
    "focus.test.mjs",
    "record.test.mjs",
    "release.test.mjs",
    "shelf-faults.test.mjs",
    "stove-faults.test.mjs",
    "study-faults.test.mjs",
    "walk.test.mjs",
];

/// The finished page in a browser, from a server of its own.
pub(super) fn end_to_end(project: &Project, tests: &TestTools) -> Done<Outcome> {
    let alone = |file: &Path| ALONE.iter().any(|name| file.ends_with(name));
    // More than two browsers at once would wait for each other where pages are drawn.
    let at_once = std::thread::available_parallelism().map_or(1, |cores| cores.get().min(2));
    let limit = Duration::from_secs(15 * 60);
    let beside = Run { step: "end-to-end tests", at_once, limit, long: false, engines: None };
    let first = in_browser(project, tests, &beside, &|file| !alone(file) && !file.ends_with(IN_ENGINES))?;
    let then = in_browser(project, tests, &Run { step: "end-to-end tests, alone", at_once: 1, ..beside }, &alone)?;
    Ok(first.and(then))
}

/// The finished page in WebKit, Gecko and Chromium, as far as the machine has them.
pub(super) fn three_engines(project: &Project, tests: &TestTools, engines: &Engines) -> Done<Outcome> {
    for name in &engines.without {
        say!("SKIPPED: {name}. It is not on this machine, and the set-up can only install it with apt-get.");
    }
    let run = Run {
        step: "tests in three engines",
        at_once: 1,
        limit: Duration::from_secs(10 * 60),
        long: false,
        engines: Some(engines),
    };
    in_browser(project, tests, &run, &|file| file.ends_with(IN_ENGINES))
}

pub(super) fn campaigns(project: &Project, tests: &TestTools) -> Done<Outcome> {
    let wanted = |file: &Path| CAMPAIGNS.iter().any(|name| file.ends_with(name));
    let limit = Duration::from_secs(12 * 3600);
    let run = Run { step: "campaigns of faults", at_once: 1, limit, long: true, engines: None };
    in_browser(project, tests, &run, &wanted)
}

/// How files of tests are run.
struct Run<'a> {
    step: &'static str,
    /// So many files beside each other.
    at_once: usize,
    /// For one file.
    limit: Duration,
    /// In their long form.
    long: bool,
    /// Those besides Chromium, where the files look at them.
    engines: Option<&'a Engines>,
}

fn in_browser(project: &Project, tests: &TestTools, run: &Run, wanted: &dyn Fn(&Path) -> bool) -> Done<Outcome> {
    let mut files = test_files(&project.root().join("tests/e2e")).map_err(|error| Failure::new(run.step, error))?;
    files.retain(|file| wanted(file));
    if files.is_empty() {
        return Err(Failure::new(run.step, "there is no such tests/e2e/*.test.mjs"));
    }
    let server = Running::start(&project.dist(), SocketAddr::from((Ipv4Addr::LOCALHOST, 0)))?;
    let printed = listen_to(run, node(project, tests, run, server.port(), &files))?;
    let failed = failed_files(&printed.text, &files);
    if printed.outcome.passed || failed.is_empty() || failed.len() > AGAIN_AT_MOST {
        return Ok(printed.outcome);
    }
    // A browser that has no processor for seconds fails a test of nothing: such a file gets one more chance, alone.
    for file in &failed {
        say!("  failed, and run again alone: {}", file.display());
    }
    let alone = Run { at_once: 1, ..*run };
    let again = listen_to(run, node(project, tests, &alone, server.port(), &failed))?.outcome;
    Ok(again_after(printed.outcome, again, failed.len()))
}

/// Where more files fail, it is not for want of time.
const AGAIN_AT_MOST: usize = 4;

/// What came of a run of which `files` files were run again.
fn again_after(first: Outcome, again: Outcome, files: usize) -> Outcome {
    let failed = again.tally.failed.min(first.tally.failed);
    let tally = Tally { passed: first.tally.passed + first.tally.failed - failed, failed };
    Outcome { passed: again.passed, tally, only_again: if again.passed { files } else { 0 } }
}

/// The files with a failed test, from what Node's runner lists after its summary.
fn failed_files(printed: &str, files: &[PathBuf]) -> Vec<PathBuf> {
    let named: Vec<&str> =
        printed.lines().filter_map(|line| line.trim().split_once("test at ")?.1.split(':').next()).collect();
    files
        .iter()
        .filter(|file| named.iter().any(|name| file.ends_with(name) || Path::new(name) == **file))
        .cloned()
        .collect()
}

fn node(project: &Project, tests: &TestTools, run: &Run, port: u16, files: &[PathBuf]) -> Command {
    let mut node = child::tool(project, &tests.node.program);
    node.args(["--test", "--test-reporter=spec"])
        .arg(format!("--test-concurrency={}", run.at_once))
        .arg(format!("--test-timeout={}", run.limit.as_millis()))
        .args(files)
        .env("HP_URL", format!("http://127.0.0.1:{port}/"))
        .env("HP_DIST", project.dist())
        .env("CHROMIUM", &tests.browser.chromium)
        .env("CHROMEDRIVER", &tests.browser.driver)
        .env("HP_SOAK", if run.long { "1" } else { "" });
    if let Some(engines) = run.engines {
        node.envs(engines.programs.iter().map(|(variable, program)| (variable, program)));
        node.env("HP_WITHOUT", engines.without.join(","));
    }
    node
}

/// How a run went, and its words.
struct Printed {
    outcome: Outcome,
    text: String,
}

fn listen_to(run: &Run, node: Command) -> Done<Printed> {
    let (passed, text) = Child::new(run.step, coloured(node)).listen()?;
    Ok(Printed { outcome: Outcome::new(passed, Tally::of_node(&text)), text })
}

fn test_files(folder: &Path) -> std::io::Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    for entry in folder.read_dir()? {
        let path = entry?.path();
        if path.to_string_lossy().ends_with(".test.mjs") {
            files.push(path);
        }
    }
    files.sort();
    Ok(files)
}

fn for_wasm(project: &Project, tools: &BuildTools) -> Command {
    let mut cargo = child::cargo(project);
    cargo.env("PATH", child::path_with(&tools.path()));
    tools.compiler.apply(project, &mut cargo);
    cargo
}

fn listen(step: &str, command: Command, count: fn(&str) -> Tally) -> Done<Outcome> {
    let (passed, printed) = Child::new(step, coloured(command)).listen()?;
    Ok(Outcome::new(passed, count(&printed)))
}

/// Their output passes through here, so they would not find the terminal themselves.
fn coloured(mut command: Command) -> Command {
    if std::io::stdout().is_terminal() {
        command.env("CARGO_TERM_COLOR", "always").env("FORCE_COLOR", "1");
    }
    command
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_with_a_failed_test_are_found_in_what_node_prints() {
        let files = ["a", "b", "c"].map(|name| PathBuf::from(format!("/project/tests/e2e/{name}.test.mjs")));
        let printed = "✔ opens (12ms)\nℹ fail 2\n\n✖ failing tests:\n\ntest at tests/e2e/b.test.mjs:2:36\n✖ sub (1ms)\n\n\
                       \u{1b}[31mtest at /project/tests/e2e/c.test.mjs:1:1\u{1b}[39m\n✖ c\n";
        assert_eq!(failed_files(printed, &files), files[1..]);
        assert!(failed_files("test at tests/e2e/other.test.mjs:1:1", &files).is_empty());
    }

    #[test]
    fn a_file_that_fails_twice_has_failed() {
        let first = Outcome::new(false, Tally { passed: 10, failed: 2 });
        let mended = again_after(first, Outcome::new(true, Tally { passed: 5, failed: 0 }), 1);
        assert_eq!((mended.passed, mended.tally, mended.only_again), (true, Tally { passed: 12, failed: 0 }, 1));
        let broken = again_after(first, Outcome::new(false, Tally { passed: 4, failed: 1 }), 1);
        assert_eq!((broken.passed, broken.tally, broken.only_again), (false, Tally { passed: 11, failed: 1 }, 0));
    }
}
