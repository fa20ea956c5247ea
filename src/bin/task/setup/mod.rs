//! Finds or installs what the build and the tests need; whatever is ready on `PATH` is used as it is.

mod apt;
mod binaryen;
mod browser;
mod cargo_install;
mod debian;
pub(crate) mod deny;
mod engines;
mod lints;
mod node;
mod npm;
mod trunk;
mod wasm_bindgen;
mod wasm_split;
mod wasm_std;

use std::path::PathBuf;

use crate::arguments::Arguments;
use crate::failure::Done;
use crate::project::Project;
use crate::say::say;

pub(crate) use binaryen::WasmOpt;
pub(crate) use browser::Browser;
pub(crate) use engines::Engines;
pub(crate) use node::Node;
pub(crate) use npm::provide_lighthouse;
pub(crate) use trunk::Trunk;
pub(crate) use wasm_bindgen::WasmBindgen;
pub(crate) use wasm_split::WasmSplit;
pub(crate) use wasm_std::{TRIPLE, WasmCompiler};

/// All that the build uses.
pub(crate) struct BuildTools {
    pub(crate) compiler: WasmCompiler,
    pub(crate) bindgen: WasmBindgen,
    pub(crate) trunk: Trunk,
    pub(crate) splitter: WasmSplit,
    /// Without it the build is larger and says so.
    pub(crate) node: Option<Node>,
    /// Without it the build is larger and says so.
    pub(crate) wasm_opt: Option<WasmOpt>,
}

/// What the tests use besides.
pub(crate) struct TestTools {
    pub(crate) node: Node,
    pub(crate) browser: Browser,
}

pub(crate) fn command(words: &[String]) -> Done {
    let mut words = Arguments::new(words);
    let with_tests = words.flag("--test");
    words.finish()?;
    let project = Project::find()?;
    for_build(&project)?;
    if with_tests {
        for_tests(&project)?;
        for_engines(&project)?;
    }
    say!("\nReady.");
    Ok(())
}

pub(crate) fn for_build(project: &Project) -> Done<BuildTools> {
    say!("Set-up: what the build needs. Ready tools are used; a bare machine takes about 15 minutes, once.");
    let compiler = wasm_std::provide(project)?;
    let bindgen = wasm_bindgen::provide(project)?;
    let trunk = trunk::provide(project)?;
    let splitter = wasm_split::provide(project)?;
    let node = optional("wasm-opt", node::provide(project));
    let wasm_opt = node.as_ref().and_then(|node| optional("wasm-opt", binaryen::provide(project, node)));
    Ok(BuildTools { compiler, bindgen, trunk, splitter, node, wasm_opt })
}

pub(crate) fn for_tests(project: &Project) -> Done<TestTools> {
    say!("Set-up: what the tests need besides. A bare machine takes about 2 minutes, once.");
    lints::provide(project)?;
    let node = node::provide(project)?;
    let browser = browser::provide(project)?;
    npm::provide_test_packages(project, &node)?;
    Ok(TestTools { node, browser })
}

pub(crate) fn for_engines(project: &Project) -> Done<Engines> {
    say!("Set-up: the other engines that the tests look at. A bare machine takes about 2 minutes, once.");
    engines::provide(project)
}

/// One line for a tool that is there.
fn found(what: &str, place: &std::path::Path) {
    say!("  {what}: {}", place.display());
}

/// A step that begins: what it does, and how long that usually takes.
fn begin(what: &str, time: &str) {
    say!("  {what} ({time}) …");
}

fn optional<T>(what: &str, outcome: Done<T>) -> Option<T> {
    outcome.map_err(|failure| say!("  No {what}: the page will be larger than it should be.\n{failure}")).ok()
}

/// Folders that programs started by the tools look into first.
impl BuildTools {
    pub(crate) fn path(&self) -> Vec<PathBuf> {
        let mut folders = self.compiler.path();
        folders.push(self.bindgen.folder.clone());
        folders
    }
}
