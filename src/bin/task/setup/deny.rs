//! cargo-deny, which looks at what the package is built upon.

use std::path::{Path, PathBuf};
use std::process::Command;

use super::cargo_install::Recipe;
use super::found;
use crate::child;
use crate::failure::Done;
use crate::project::Project;

const VERSION: &str = "0.20.2";
/// What `.cargo/deny.toml` is written for.
const OLDEST: (u32, u32) = (0, 18);

fn recipe() -> Recipe {
    Recipe {
        krate: "cargo-deny",
        version: VERSION.to_owned(),
        options: &["--locked"],
        time: "about 3 minutes on two cores, once",
    }
}

/// One that is ready.
pub(crate) fn ready() -> Option<PathBuf> {
    let own = recipe().folder().map(|folder| folder.join("cargo-deny"));
    child::find("cargo-deny").into_iter().chain(own).find(|program| is_new_enough(program))
}

pub(crate) fn provide(project: &Project) -> Done<PathBuf> {
    if let Some(program) = ready() {
        found("cargo-deny", &program);
        return Ok(program);
    }
    recipe().install(project).map(|folder| folder.join("cargo-deny"))
}

fn is_new_enough(program: &Path) -> bool {
    let mut command = Command::new(program);
    command.arg("--version");
    child::ask(command).and_then(|answer| parse(&answer)).is_some_and(|version| version >= OLDEST)
}

fn parse(answer: &str) -> Option<(u32, u32)> {
    let mut parts = answer.strip_prefix("cargo-deny ")?.split('.');
    Some((parts.next()?.parse().ok()?, parts.next()?.parse().ok()?))
}

#[cfg(test)]
mod tests {
    use super::{OLDEST, parse};

    #[test]
    fn deny_versions_are_compared_as_numbers() {
        assert!(parse("cargo-deny 0.20.2").unwrap() >= OLDEST);
        assert!(parse("cargo-deny 0.9.2").unwrap() < OLDEST);
        assert_eq!(parse("cargo 1.95.0"), None);
    }
}
