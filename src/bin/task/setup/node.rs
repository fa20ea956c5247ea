//! Node and npm: wasm-opt runs in Node here, and so do the end-to-end tests.

use std::path::PathBuf;
use std::process::Command;

use super::{apt, found};
use crate::child;
use crate::failure::{Done, Failure};
use crate::project::Project;

/// What the packages of the end-to-end tests ask for.
const OLDEST: u32 = 20;

/// Node, and npm beside it.
pub(crate) struct Node {
    pub(crate) program: PathBuf,
    pub(crate) npm: PathBuf,
}

pub(crate) fn provide(project: &Project) -> Done<Node> {
    if let Some(node) = ready() {
        found("Node", &node.program);
        return Ok(node);
    }
    let mut packages = vec!["npm"];
    if child::find("node").is_none() {
        packages.push("nodejs");
    }
    apt::install(project, &packages, "Node and npm", "about a minute")?;
    ready().ok_or_else(|| {
        Failure::new("finding Node", format!("Node {OLDEST} or newer with npm is needed, and not on PATH"))
            .by_hand(format!("install Node {OLDEST} or newer"))
    })
}

fn ready() -> Option<Node> {
    let node = Node { program: child::find("node")?, npm: child::find("npm")? };
    let mut command = Command::new(&node.program);
    command.arg("--version");
    let answer = child::ask(command)?;
    let major: u32 = answer.strip_prefix('v')?.split('.').next()?.parse().ok()?;
    (major >= OLDEST).then_some(node)
}
