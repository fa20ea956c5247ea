//! The rules of the house that the compiler cannot check, read from the syntax of the sources. Every rule is a function
//! from one source to what is wrong there; its own tests feed it a snippet that breaks it.

mod arrows;
mod domain;
mod names;
mod page;
mod paths;
mod sizes;
mod source;
mod texts;

use source::Source;

/// Fails with what a rule finds in the sources of a folder.
fn hold(folder: &str, rule: impl Fn(&Source) -> Vec<String>) {
    let wrong: Vec<String> = source::folder(folder).iter().flat_map(rule).collect();
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}
