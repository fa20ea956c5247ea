//! A compiler with the standard library of wasm32: the active one, or Debian's.

use std::path::PathBuf;
use std::process::Command;
use std::time::Duration;

use super::debian::{self, DebianCompiler};
use super::{begin, found};
use crate::child::{self, Child};
use crate::failure::Done;
use crate::project::Project;
use crate::say::say;

pub(crate) const TRIPLE: &str = "wasm32-unknown-unknown";

/// rustup answers in seconds or not at all; where nothing answers, the next way must start soon.
const PATIENCE: Duration = Duration::from_secs(60);

/// What compiles the page.
pub(crate) enum WasmCompiler {
    /// The compiler that also builds for the host.
    Active,
    /// Debian's, with a standard library built from Debian's source.
    Debian(DebianCompiler),
}

impl WasmCompiler {
    /// Makes a command, and what it starts in turn, compile for wasm32 with this compiler.
    pub(crate) fn apply(&self, project: &Project, command: &mut Command) {
        self.apply_with(project, command, &[]);
    }

    /// Like [`Self::apply`], with further flags for the compiler beside those that the person has set.
    pub(crate) fn apply_with(&self, project: &Project, command: &mut Command, flags: &[&str]) {
        match self {
            Self::Debian(debian) => debian.apply(project, command, flags),
            Self::Active if flags.is_empty() => {}
            Self::Active => {
                let encoded = std::env::var("CARGO_ENCODED_RUSTFLAGS").unwrap_or_default();
                let plain = std::env::var("RUSTFLAGS").unwrap_or_default();
                // Like cargo, which looks at the second only where there is no first. A folder may have blanks in its name.
                let given: Vec<&str> = match encoded.as_str() {
                    "" => plain.split_whitespace().collect(),
                    encoded => encoded.split('\u{1f}').collect(),
                };
                let all: Vec<&str> = given.into_iter().chain(flags.iter().copied()).collect();
                command.env("CARGO_ENCODED_RUSTFLAGS", all.join("\u{1f}"));
            }
        }
    }

    /// The target folder that cargo then uses.
    pub(crate) fn target(&self, project: &Project) -> PathBuf {
        match self {
            Self::Active => project.target().to_owned(),
            Self::Debian(_) => DebianCompiler::target(project),
        }
    }

    /// Folders that must come first in `PATH`.
    pub(crate) fn path(&self) -> Vec<PathBuf> {
        match self {
            Self::Active => Vec::new(),
            Self::Debian(debian) => vec![debian.folder()],
        }
    }

    /// The lints come with the compiler, and must be of the same version.
    pub(crate) fn provide_clippy(&self, project: &Project) -> Done {
        match self {
            Self::Active => Ok(()),
            Self::Debian(_) => debian::provide_clippy(project),
        }
    }
}

pub(crate) fn provide(project: &Project) -> Done<WasmCompiler> {
    if let Some(place) = active_library(project) {
        found("standard library of wasm32", &place);
        return Ok(WasmCompiler::Active);
    }
    if let Some(debian) = debian::ready(project) {
        found("standard library of wasm32, Debian's", &debian.folder());
        return Ok(WasmCompiler::Debian(debian));
    }
    if child::find("rustup").is_some() {
        begin("rustup adds the standard library of wasm32", "a few seconds, 60 at most");
        let mut rustup = child::tool(project, "rustup");
        rustup.args(["target", "add", TRIPLE]).env("RUST_BACKTRACE", "0");
        let outcome = Child::new("rustup target add", rustup).limit(PATIENCE).run();
        match (outcome, active_library(project)) {
            (Ok(()), Some(_)) => return Ok(WasmCompiler::Active),
            (Ok(()), None) => say!("  rustup added it to another toolchain than the active one; Debian's instead."),
            (Err(failure), _) => say!("  rustup could not ({}); Debian's compiler instead.", failure.cause()),
        }
    }
    debian::provide(project).map(WasmCompiler::Debian)
}

/// The folder of the active compiler's wasm32 library, if there is one inside.
fn active_library(project: &Project) -> Option<PathBuf> {
    let mut rustc = child::tool(project, "rustc");
    rustc.args(["--print", "target-libdir", "--target", TRIPLE]);
    let folder = PathBuf::from(child::ask(rustc)?);
    has_std(&folder).then_some(folder)
}

pub(super) fn has_std(folder: &std::path::Path) -> bool {
    let Ok(entries) = folder.read_dir() else { return false };
    entries.flatten().any(|entry| {
        let name = entry.file_name();
        let name = name.to_string_lossy();
        name.starts_with("libstd-") && name.ends_with(".rlib")
    })
}
