//! Trunk, which compiles the page and runs wasm-bindgen over it.

use std::path::{Path, PathBuf};
use std::process::Command;

use super::cargo_install::Recipe;
use super::found;
use crate::child;
use crate::failure::Done;
use crate::project::Project;

/// The newest that the stable compilers around can build.
const VERSION: &str = "0.21.14";
/// What `Trunk.toml` and the composing of `dist/` are written for.
const OLDEST: (u32, u32) = (0, 21);

/// The program.
pub(crate) struct Trunk {
    pub(crate) program: PathBuf,
}

pub(crate) fn provide(project: &Project) -> Done<Trunk> {
    let recipe = Recipe {
        krate: "trunk",
        version: VERSION.to_owned(),
        // --locked: newer versions of what it builds on do not compile. No features but the one it cannot do without:
        // it never fetches anything here.
        options: &["--locked", "--no-default-features", "--features", "rustls"],
        time: "up to 12 minutes, once",
    };
    let own = recipe.folder().map(|folder| folder.join("trunk"));
    for program in child::find("trunk").into_iter().chain(own) {
        if is_new_enough(&program) {
            found("Trunk", &program);
            return Ok(Trunk { program });
        }
    }
    recipe.install(project).map(|folder| Trunk { program: folder.join("trunk") })
}

fn is_new_enough(program: &Path) -> bool {
    let mut command = Command::new(program);
    command.arg("--version");
    child::ask(command).and_then(|answer| parse(&answer)).is_some_and(|version| version >= OLDEST)
}

fn parse(answer: &str) -> Option<(u32, u32)> {
    let mut parts = answer.strip_prefix("trunk ")?.split('.');
    Some((parts.next()?.parse().ok()?, parts.next()?.parse().ok()?))
}

#[cfg(test)]
mod tests {
    use super::{OLDEST, parse};

    #[test]
    fn versions_are_compared_as_numbers() {
        assert!(parse("trunk 0.21.14").unwrap() >= OLDEST);
        assert!(parse("trunk 1.0.0-beta").unwrap() >= OLDEST);
        assert!(parse("trunk 0.9.2").unwrap() < OLDEST);
        assert_eq!(parse("something else"), None);
    }
}
