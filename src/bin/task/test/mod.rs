//! `cargo task test`: every check and every test, in the order in which a fault is cheapest to find.

mod dependencies;
mod report;
mod stages;
mod tally;

use std::process::ExitCode;
use std::thread;

use crate::arguments::Arguments;
use crate::failure::{Done, Failure};
use crate::project::Project;
use crate::say::say;
use crate::setup::TestTools;
use crate::{build, setup};
use report::Report;

/// Prints its own failures: the sum of the tests must be the last line.
pub(crate) fn command(words: &[String]) -> ExitCode {
    let mut report = Report::default();
    let outcome = run(words, &mut report);
    if let Err(failure) = &outcome {
        say!("\n{failure}");
    }
    report.print();
    match outcome {
        Ok(()) if report.all_passed() => ExitCode::SUCCESS,
        Ok(()) => ExitCode::FAILURE,
        Err(failure) => ExitCode::from(failure.status()),
    }
}

/// The long forms of the tests of faults, on the page as it is built.
pub(crate) fn campaigns(project: &Project, tools: &TestTools) -> Done {
    let outcome = stages::campaigns(project, tools)?;
    if outcome.passed { Ok(()) } else { Err(Failure::new("campaigns of faults", "some failed; see above")) }
}

fn run(words: &[String], report: &mut Report) -> Done {
    let mut words = Arguments::new(words);
    let quick = words.flag("--quick");
    words.finish()?;
    let project = Project::find()?;
    if quick {
        on_host(&project, report);
        report.stage("dependencies", || dependencies::quick(&project));
        return Ok(());
    }
    everything(&project, report)
}

/// What needs neither a browser nor the build.
fn on_host(project: &Project, report: &mut Report) {
    report.stage("format", || stages::format(project));
    report.stage("lints, host", || stages::clippy_host(project));
    report.stage("tests, host", || stages::tests_host(project));
}

fn everything(project: &Project, report: &mut Report) -> Done {
    let mut tools = None;
    report.stage("set-up", || {
        let for_build = setup::for_build(project)?;
        let for_tests = setup::for_tests(project)?;
        let engines = setup::for_engines(project)?;
        for_build.compiler.provide_clippy(project)?;
        tools = Some((for_build, for_tests, engines));
        Ok(stages::passed())
    });
    let Some((for_build, for_tests, engines)) = tools else {
        on_host(project, report);
        return Err(Failure::new("tests in the browser", "not run, since the set-up failed"));
    };
    // Most of the build is one long step on one core: the tests that do not need it run beside it.
    let built = thread::scope(|scope| {
        let build = scope.spawn(|| build::release(project, &for_build));
        on_host(project, report);
        report.stage("dependencies", || dependencies::whole(project));
        report.stage("lints, page", || stages::clippy_page(project, &for_build));
        report.stage("tests, browser", || stages::tests_browser(project, &for_build, &for_tests));
        let join = || build.join().unwrap_or_else(|_| Err(Failure::new("the build", "it stopped with a panic")));
        report.stage("build", || join().map(|()| stages::passed()))
    });
    if !built {
        return Err(Failure::new("end-to-end tests", "not run, since the build failed"));
    }
    report.stage("end to end", || stages::end_to_end(project, &for_tests));
    report.stage("three engines", || stages::three_engines(project, &for_tests, &engines));
    Ok(())
}
