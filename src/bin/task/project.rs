//! Where things are: the repository, the target folder, cargo's own folder.

use std::env;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::failure::{Done, Failure};

/// The folders that the tools read and write.
pub(crate) struct Project {
    root: PathBuf,
    target: PathBuf,
}

impl Project {
    pub(crate) fn find() -> Done<Self> {
        let root = find_root()?;
        let target = target_folder(&root)?;
        Ok(Self { root, target })
    }

    /// The folder of `Cargo.toml`.
    pub(crate) fn root(&self) -> &Path {
        &self.root
    }

    /// Cargo's target folder for this package, wherever the person keeps it.
    pub(crate) fn target(&self) -> &Path {
        &self.target
    }

    /// Tools and their work, removed by `cargo clean` like all that is built.
    pub(crate) fn tools(&self) -> PathBuf {
        self.target.join("tools")
    }

    /// Where Trunk leaves its output.
    pub(crate) fn staging(&self) -> PathBuf {
        self.target.join("staging")
    }

    /// The finished page.
    pub(crate) fn dist(&self) -> PathBuf {
        self.root.join("dist")
    }

    /// The version of a crate in `Cargo.lock`.
    pub(crate) fn locked_version(&self, krate: &str) -> Done<String> {
        let path = self.root.join("Cargo.lock");
        let text = std::fs::read_to_string(&path)
            .map_err(|error| Failure::new("reading Cargo.lock", error).by_hand("cargo generate-lockfile"))?;
        version_in(&text, krate).ok_or_else(|| Failure::new("reading Cargo.lock", format!("no crate `{krate}` in it")))
    }
}

/// Cargo's own folder, where installed tools outlive the target folder.
pub(crate) fn cargo_home() -> Option<PathBuf> {
    let given = env::var_os("CARGO_HOME").map(PathBuf::from);
    given.or_else(|| env::home_dir().map(|home| home.join(".cargo")))
}

/// Where cargo keeps the sources of crates, in a folder for each registry.
pub(crate) fn crate_sources() -> Option<PathBuf> {
    Some(cargo_home()?.join("registry").join("src"))
}

fn find_root() -> Done<PathBuf> {
    if let Some(folder) = env::var_os("CARGO_MANIFEST_DIR") {
        return Ok(PathBuf::from(folder));
    }
    // Started without cargo, from somewhere inside the repository.
    let here = env::current_dir().map_err(|error| Failure::new("finding the project", error))?;
    let found = here.ancestors().find(|folder| folder.join("Trunk.toml").is_file());
    found.map(Path::to_owned).ok_or_else(|| {
        Failure::new("finding the project", "no Trunk.toml here or above").by_hand("go into the repository first")
    })
}

/// Asked from cargo, which knows about `CARGO_TARGET_DIR` and every configuration file.
fn target_folder(root: &Path) -> Done<PathBuf> {
    let step = "asking cargo for the target folder";
    let output = Command::new("cargo")
        .args(["metadata", "--no-deps", "--format-version", "1"])
        .current_dir(root)
        .output()
        .map_err(|error| Failure::new(step, error))?;
    let metadata: serde_json::Value =
        serde_json::from_slice(&output.stdout).map_err(|error| Failure::new(step, error))?;
    let folder = metadata["target_directory"].as_str();
    folder.map(PathBuf::from).ok_or_else(|| Failure::new(step, "cargo metadata does not tell"))
}

fn version_in(lock: &str, krate: &str) -> Option<String> {
    let name = format!("name = \"{krate}\"");
    let mut lines = lock.lines().skip_while(|line| *line != name).skip(1);
    let version = lines.next()?.strip_prefix("version = \"")?.strip_suffix('"')?;
    Some(version.to_owned())
}

#[cfg(test)]
mod tests {
    use super::version_in;

    const LOCK: &str = "[[package]]\nname = \"wasm-bindgen-futures\"\nversion = \"0.4.80\"\n\n\
                        [[package]]\nname = \"wasm-bindgen\"\nversion = \"0.2.130\"\nsource = \"registry\"\n";

    #[test]
    fn the_lock_names_the_exact_crate() {
        assert_eq!(version_in(LOCK, "wasm-bindgen").as_deref(), Some("0.2.130"));
        assert_eq!(version_in(LOCK, "wasm"), None);
    }
}
