//! The splitter, which parts the compiled program in two: what the first place needs, and what may come later.

use std::path::PathBuf;

use super::cargo_install::Recipe;
use super::found;
use crate::failure::Done;
use crate::project::Project;

/// Tested with `wasm_split_helpers` of `Cargo.lock`, whose marks in the program it reads.
const VERSION: &str = "0.2.4";

/// The program.
pub(crate) struct WasmSplit {
    pub(crate) program: PathBuf,
}

pub(crate) fn provide(project: &Project) -> Done<WasmSplit> {
    let recipe = Recipe {
        krate: "wasm_split_cli_support",
        version: VERSION.to_owned(),
        options: &["--locked", "--features", "build-binary"],
        time: "about 2 minutes, once",
    };
    // It cannot tell its version: so only one whose folder names it is used.
    let own = recipe.folder().map(|folder| folder.join("wasm-split-cli")).filter(|program| program.is_file());
    if let Some(program) = own {
        found("splitter of the program", &program);
        return Ok(WasmSplit { program });
    }
    recipe.install(project).map(|folder| WasmSplit { program: folder.join("wasm-split-cli") })
}
