//! The formatter and the lints of the compiler that builds for the host.

use std::time::Duration;

use super::{apt, begin};
use crate::child::{self, Child};
use crate::failure::{Done, Failure};
use crate::project::Project;

const PATIENCE: Duration = Duration::from_secs(60);

pub(super) fn provide(project: &Project) -> Done {
    if are_ready(project) {
        return Ok(());
    }
    // Debian packs them apart; a small installation by rustup leaves them out.
    if child::find("cargo").is_some_and(|cargo| cargo.starts_with("/usr/bin")) {
        apt::install(project, &["rustfmt-web", "rust-web-clippy"], "the formatter and the lints", "a few seconds")?;
    } else {
        begin("rustup adds the formatter and the lints", "a few seconds, 60 at most");
        let mut rustup = child::tool(project, "rustup");
        rustup.args(["component", "add", "rustfmt", "clippy"]).env("RUST_BACKTRACE", "0");
        Child::new("rustup component add", rustup).limit(PATIENCE).run()?;
    }
    if are_ready(project) {
        return Ok(());
    }
    Err(Failure::new("finding the formatter and the lints", "`cargo fmt` and `cargo clippy` do not run")
        .by_hand("rustup component add rustfmt clippy"))
}

fn are_ready(project: &Project) -> bool {
    ["fmt", "clippy"].iter().all(|name| {
        let mut cargo = child::cargo(project);
        cargo.args([name, "--version"]);
        child::ask(cargo).is_some()
    })
}
