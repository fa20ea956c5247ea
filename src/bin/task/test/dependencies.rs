//! What the package is built upon: licences, duplicates, sources, and known faults where their list can be had.

use std::path::Path;
use std::process::Command;

use super::stages::{Outcome, passed};
use crate::child::{self, Child};
use crate::failure::Done;
use crate::project::Project;
use crate::say::say;
use crate::setup::deny;

/// With the tool that is there, or without.
pub(super) fn quick(project: &Project) -> Done<Outcome> {
    match deny::ready() {
        Some(program) => check(project, &program),
        None => {
            say!("SKIPPED: no cargo-deny on this machine; `cargo task test` without --quick installs it.");
            Ok(passed())
        }
    }
}

/// With the tool, installed if need be.
pub(super) fn whole(project: &Project) -> Done<Outcome> {
    check(project, &deny::provide(project)?)
}

fn check(project: &Project, program: &Path) -> Done<Outcome> {
    let step = "cargo-deny";
    let mut rules = deny(project, program);
    rules.args(["bans", "licenses", "sources"]);
    Child::new(step, rules).by_hand("cargo deny --config .cargo/deny.toml check").run()?;
    let mut advisories = deny(project, program);
    advisories.arg("advisories");
    let (well, said) = Child::new(step, advisories).listen()?;
    if !well && cannot_be_had(&said) {
        say!("SKIPPED: advisories. Their database cannot be had from here; the rest was checked.");
        return Ok(passed());
    }
    Ok(if well { passed() } else { Outcome::failed() })
}

fn deny(project: &Project, program: &Path) -> Command {
    let mut command = child::tool(project, program);
    command.args(["--config", ".cargo/deny.toml", "check", "--hide-inclusion-graph"]);
    command
}

/// A database that did not come, or came without the list of withdrawn crates; a crate with a known fault is another
/// matter.
fn cannot_be_had(said: &str) -> bool {
    said.contains("failed to fetch advisory database") && !said.contains("error[vulnerability]")
}

#[cfg(test)]
mod tests {
    use super::cannot_be_had;

    #[test]
    fn a_known_fault_is_never_taken_for_a_missing_list() {
        assert!(cannot_be_had("[ERROR] failed to fetch advisory database x with cli: failed to clone"));
        assert!(!cannot_be_had("error[vulnerability]: a crate can be made to read beyond its end"));
        assert!(!cannot_be_had("failed to fetch advisory database x\nerror[vulnerability]: it"));
        assert!(!cannot_be_had("error[unmaintained]: nobody looks after it"));
    }
}
