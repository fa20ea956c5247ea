//! Tools that cargo builds from source.
//!
//! They go into a folder of their own in cargo's folder, a folder for each version: they outlive the target folder and
//! serve every clone, and a tool of the same name that the person has installed is never replaced.

use std::path::PathBuf;

use super::begin;
use crate::child::{self, Child};
use crate::failure::{Done, Failure};
use crate::project::{Project, cargo_home};

/// A crate to install, and how.
pub(super) struct Recipe {
    pub(super) krate: &'static str,
    pub(super) version: String,
    /// Further words for `cargo install`.
    pub(super) options: &'static [&'static str],
    pub(super) time: &'static str,
}

impl Recipe {
    /// Where its programs are or will be.
    pub(super) fn folder(&self) -> Option<PathBuf> {
        Some(self.root()?.join("bin"))
    }

    fn root(&self) -> Option<PathBuf> {
        Some(cargo_home()?.join("hundred-parts").join(format!("{}-{}", self.krate, self.version)))
    }

    /// Builds and installs it, and hands back the folder of its programs.
    pub(super) fn install(&self, project: &Project) -> Done<PathBuf> {
        let name = format!("{} {}", self.krate, self.version);
        let step = format!("installing {name}");
        let (Some(root), Some(folder)) = (self.root(), self.folder()) else {
            return Err(Failure::new(step, "neither CARGO_HOME nor a home folder is known"));
        };
        begin(&format!("cargo builds {name} into {}", root.display()), self.time);
        let work = project.tools().join("build");
        let mut cargo = child::cargo(project);
        cargo
            .arg("install")
            .args([self.krate, "--version", &self.version, "--root"])
            .arg(&root)
            .args(self.options)
            // A folder that stays: an interrupted build goes on where it was.
            .env("CARGO_TARGET_DIR", &work)
            // The tools work on small files: a quick build counts for more than quick code.
            .env("CARGO_PROFILE_RELEASE_OPT_LEVEL", "1")
            .env("CARGO_PROFILE_RELEASE_LTO", "off")
            .env("CARGO_PROFILE_RELEASE_CODEGEN_UNITS", "16")
            .env("CARGO_PROFILE_RELEASE_DEBUG", "0")
            // Without a lock file, take versions that this compiler can build.
            .env("CARGO_RESOLVER_INCOMPATIBLE_RUST_VERSIONS", "fallback");
        let remedy = format!("cargo install {} --version {} {}", self.krate, self.version, self.options.join(" "));
        Child::new(step, cargo).by_hand(remedy).run()?;
        // Hundreds of megabytes that nothing needs any more; if they cannot go, no harm is done.
        let _ = std::fs::remove_dir_all(work);
        Ok(folder)
    }
}
