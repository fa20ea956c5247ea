//! `cargo task soak`: the property tests with many more cases, in an optimised build.

use crate::arguments::Arguments;
use crate::child::{self, Child};
use crate::failure::Done;
use crate::project::Project;

/// A few minutes of work on two cores.
const CASES: u32 = 20_000;

pub(crate) fn command(words: &[String]) -> Done {
    let mut words = Arguments::new(words);
    let cases = words.value::<u32>("--cases")?.unwrap_or(CASES);
    words.finish()?;
    let project = Project::find()?;
    println!("Property tests, {cases} cases each, at the host's full speed.");
    let mut cargo = child::cargo(&project);
    cargo.args(["test", "--profile", "host-bench", "--lib", "--tests"]).env("PROPTEST_CASES", cases.to_string());
    Child::new("soak", cargo).run()
}
