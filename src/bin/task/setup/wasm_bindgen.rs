//! wasm-bindgen's command line: it must be of exactly the version of the crate in `Cargo.lock`.

use std::path::PathBuf;
use std::process::Command;

use super::cargo_install::Recipe;
use super::found;
use crate::child;
use crate::failure::Done;
use crate::project::Project;

/// The folder with `wasm-bindgen` and its test runner.
pub(crate) struct WasmBindgen {
    pub(crate) folder: PathBuf,
}

impl WasmBindgen {
    pub(crate) fn program(&self) -> PathBuf {
        self.folder.join("wasm-bindgen")
    }

    pub(crate) fn test_runner(&self) -> PathBuf {
        self.folder.join("wasm-bindgen-test-runner")
    }
}

pub(crate) fn provide(project: &Project) -> Done<WasmBindgen> {
    let version = project.locked_version("wasm-bindgen")?;
    let recipe = Recipe {
        krate: "wasm-bindgen-cli",
        version,
        // No --locked: its own lock names a crate that the registry has withdrawn.
        options: &[],
        time: "about 3 minutes, once",
    };
    let on_path = child::find("wasm-bindgen").and_then(|program| program.parent().map(PathBuf::from));
    for folder in on_path.into_iter().chain(recipe.folder()) {
        if is_complete(&folder, &recipe.version) {
            found(&format!("wasm-bindgen {}", recipe.version), &folder);
            return Ok(WasmBindgen { folder });
        }
    }
    recipe.install(project).map(|folder| WasmBindgen { folder })
}

fn is_complete(folder: &std::path::Path, version: &str) -> bool {
    ["wasm-bindgen", "wasm-bindgen-test-runner"].iter().all(|program| {
        let mut command = Command::new(folder.join(program));
        command.arg("--version");
        child::ask(command).is_some_and(|answer| answer.split_whitespace().any(|word| word == version))
    })
}
