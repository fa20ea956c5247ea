//! Debian's packages, for machines that have them.

use std::process::Command;
use std::sync::Once;

use super::begin;
use crate::child::{self, Child};
use crate::failure::{Done, Failure};
use crate::project::Project;
use crate::say::say;

/// Installs those that are missing, and says so before: this is the one thing the set-up changes outside the project's
/// and cargo's folders.
pub(crate) fn install(project: &Project, packages: &[&str], what_for: &str, time: &str) -> Done {
    let missing: Vec<&str> = packages.iter().copied().filter(|package| !is_installed(package)).collect();
    if missing.is_empty() {
        return Ok(());
    }
    let list = missing.join(" ");
    let step = format!("installing Debian's {list}");
    let remedy = format!("install {what_for} yourself; on Debian: apt-get install {list}");
    let Some(command) = apt_get(project) else {
        return Err(Failure::new(step, "no apt-get here, or no right to use it").by_hand(remedy));
    };
    begin(&format!("For {what_for}, apt-get installs for the whole machine: {list}"), time);
    update(project);
    let mut command = command;
    command.args(["install", "-y", "--no-install-recommends"]).args(&missing);
    Child::new(step, command).by_hand(remedy).run()
}

/// Old lists name packages that are gone; a failure here shows again, and clearer, when it matters.
fn update(project: &Project) {
    static ONCE: Once = Once::new();
    ONCE.call_once(|| {
        let Some(mut command) = apt_get(project) else { return };
        command.args(["update", "-q"]);
        if let Err(failure) = Child::new("reading Debian's package lists", command).run() {
            say!("{failure}");
        }
    });
}

fn is_installed(package: &str) -> bool {
    let mut query = Command::new("dpkg-query");
    query.args(["-W", "-f=${db:Status-Abbrev}", package]);
    child::ask(query).is_some_and(|status| status.starts_with("ii"))
}

/// apt-get as root, directly or by a sudo that asks nothing.
fn apt_get(project: &Project) -> Option<Command> {
    child::find("apt-get")?;
    let mut id = Command::new("id");
    id.arg("-u");
    let mut command = if child::ask(id).as_deref() == Some("0") {
        let mut command = child::tool(project, "apt-get");
        command.env("DEBIAN_FRONTEND", "noninteractive");
        command
    } else {
        let mut trial = Command::new("sudo");
        trial.args(["-n", "true"]);
        child::ask(trial)?;
        let mut command = child::tool(project, "sudo");
        command.args(["-n", "DEBIAN_FRONTEND=noninteractive", "apt-get"]);
        command
    };
    // Another apt-get may be at work: wait for it rather than fail.
    command.args(["-o", "DPkg::Lock::Timeout=300"]);
    Some(command)
}
