//! wasm-opt, from the npm package `binaryen`, which runs in Node and needs no download of its own.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use super::node::Node;
use super::npm::npm;
use super::{begin, found};
use crate::child::{self, Child};
use crate::failure::{Done, Failure};
use crate::project::Project;
use crate::say::say;

/// Tested with what this project's compiler and wasm-bindgen produce. Older ones are refused, since some write a file
/// that stops in the browser (108, Debian's, is one).
const VERSION: &str = "132.0.0";
const OLDEST: u32 = 132;

/// Small: packed, it is smaller than with `-Oz`, and in fewer functions, each of which costs at its first call. Then what
/// the compiler already uses by default, and no more. `--all-features` would let wasm-opt write a form of imports that
/// browsers do not read yet.
const OPTIONS: [&str; 11] = [
    "-Os",
    "--strip-debug",
    "--strip-producers",
    "--enable-bulk-memory",
    "--enable-bulk-memory-opt",
    "--enable-call-indirect-overlong",
    "--enable-multivalue",
    "--enable-mutable-globals",
    "--enable-nontrapping-float-to-int",
    "--enable-reference-types",
    "--enable-sign-ext",
];

/// A wasm-opt that may be used.
pub(crate) struct WasmOpt {
    program: PathBuf,
    /// Node, where the program is a script for it.
    runner: Option<PathBuf>,
}

impl WasmOpt {
    /// The command that makes `from` smaller.
    pub(crate) fn command(&self, project: &Project, from: &Path, to: &Path) -> Command {
        let mut command = child::tool(project, self.runner.as_ref().unwrap_or(&self.program));
        if self.runner.is_some() {
            command.arg(&self.program);
        }
        command.args(OPTIONS).arg(from).arg("-o").arg(to);
        command
    }

    /// Tells apart the outcome of one version and its options from that of another.
    pub(crate) fn fingerprint(&self) -> String {
        format!("{} {}", self.program.display(), OPTIONS.join(" "))
    }
}

pub(crate) fn provide(project: &Project, node: &Node) -> Done<WasmOpt> {
    if let Some(program) = child::find("wasm-opt") {
        match version(&program) {
            Some(number) if number >= OLDEST => {
                found("wasm-opt", &program);
                return Ok(WasmOpt { program, runner: None });
            }
            _ => say!("  wasm-opt at {} is older than {OLDEST} and not used.", program.display()),
        }
    }
    let folder = project.tools().join(format!("binaryen-{VERSION}"));
    let program = folder.join("node_modules/binaryen/bin/wasm-opt");
    if program.is_file() {
        found("wasm-opt", &program);
    } else {
        let step = "installing wasm-opt";
        begin("npm installs wasm-opt", "a few seconds");
        fs::create_dir_all(&folder)
            .and_then(|()| fs::write(folder.join("package.json"), "{ \"private\": true }\n"))
            .map_err(|error| Failure::new(step, error))?;
        let package = format!("binaryen@{VERSION}");
        let command = npm(project, node, &folder, &["install", "--no-save", &package]);
        let remedy = format!("put a wasm-opt of version {OLDEST} or newer on PATH");
        Child::new(step, command).by_hand(remedy).run()?;
    }
    Ok(WasmOpt { program, runner: Some(node.program.clone()) })
}

fn version(program: &Path) -> Option<u32> {
    let mut command = Command::new(program);
    command.arg("--version");
    parse(&child::ask(command)?)
}

fn parse(answer: &str) -> Option<u32> {
    answer.strip_prefix("wasm-opt version ")?.split(|c: char| !c.is_ascii_digit()).next()?.parse().ok()
}

#[cfg(test)]
mod tests {
    use super::parse;

    #[test]
    fn the_version_is_the_first_number() {
        assert_eq!(parse("wasm-opt version 108"), Some(108));
        assert_eq!(parse("wasm-opt version 132 (version_132)"), Some(132));
        assert_eq!(parse("wasm-opt"), None);
    }
}
