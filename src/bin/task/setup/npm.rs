//! Packages from npm's registry. They live in the target folder, never in the repository.

use std::fs;
use std::path::Path;
use std::process::Command;

use super::begin;
use super::node::Node;
use crate::child::{self, Child};
use crate::failure::{Done, Failure};
use crate::project::Project;

/// A quiet npm that runs no package's scripts: none of those used here needs one.
pub(super) fn npm(project: &Project, node: &Node, folder: &Path, words: &[&str]) -> Command {
    let mut command = child::tool(project, &node.npm);
    command
        .current_dir(folder)
        .args(words)
        .args(["--no-audit", "--no-fund", "--ignore-scripts", "--no-update-notifier"])
        .env("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1");
    command
}

/// What the end-to-end tests import, exactly as their lock file says.
pub(super) fn provide_test_packages(project: &Project, node: &Node) -> Done {
    let tests = project.root().join("tests/e2e");
    provide(project, node, &tests, "e2e", "the packages of the end-to-end tests", "a few seconds")
}

/// Lighthouse, which `cargo task bench --lighthouse` alone needs: some hundred packages, so not among those of the tests.
pub(crate) fn provide_lighthouse(project: &Project, node: &Node) -> Done {
    let from = project.root().join("tests/e2e/lighthouse");
    provide(project, node, &from, "lighthouse", "Lighthouse and its packages", "200 MB, half a minute")
}

/// Installs what the lock file in a folder says, and links it there.
fn provide(project: &Project, node: &Node, from: &Path, tool: &str, what: &str, time: &str) -> Done {
    let step = format!("installing {what}");
    let folder = project.tools().join(tool);
    let lock = fs::read(from.join("package-lock.json")).map_err(|error| Failure::new(&step, error))?;
    // The copy is written when npm has succeeded, and so tells what is installed.
    let done = folder.join("installed-lock.json");
    if fs::read(&done).ok().as_deref() != Some(&lock[..]) {
        begin(&format!("npm installs {what}"), time);
        prepare(from, &folder).map_err(|error| Failure::new(&step, error))?;
        let remedy = format!("npm ci, in {}", from.display());
        Child::new(&step, npm(project, node, &folder, &["ci"])).by_hand(remedy).run()?;
        fs::write(&done, &lock).map_err(|error| Failure::new(&step, error))?;
    }
    link(&folder.join("node_modules"), &from.join("node_modules")).map_err(|error| Failure::new(&step, error))
}

fn prepare(from: &Path, folder: &Path) -> std::io::Result<()> {
    fs::create_dir_all(folder)?;
    for name in ["package.json", "package-lock.json"] {
        fs::copy(from.join(name), folder.join(name))?;
    }
    Ok(())
}

/// Node looks for packages beside the tests, so a link stands there (and git ignores it).
fn link(to: &Path, link: &Path) -> std::io::Result<()> {
    match link.symlink_metadata() {
        Ok(there) if !there.is_symlink() => return Ok(()), // someone's own installation
        Ok(_) => fs::remove_file(link)?,
        Err(_) => {}
    }
    std::os::unix::fs::symlink(to, link)
}
