//! The engines of browsers besides Chromium's, for the tests of what all of them must do.

use std::path::PathBuf;

use super::{apt, found};
use crate::child;
use crate::failure::{Done, Failure};
use crate::project::Project;
use crate::say::say;

/// Those that are here, and the names of those that cannot be had.
#[derive(Default)]
pub(crate) struct Engines {
    /// The variable that names a program to the tests, and the program.
    pub(crate) programs: Vec<(&'static str, PathBuf)>,
    /// As the tests call them.
    pub(crate) without: Vec<&'static str>,
}

/// One of them, and what it takes. WebKit's browser needs a screen; Gecko's does without.
struct Engine {
    name: &'static str,
    packages: &'static [&'static str],
    /// For each program the variable that names it, and what it may be called on `PATH`.
    programs: &'static [(&'static str, &'static [&'static str])],
    time: &'static str,
}

const ENGINES: [Engine; 2] = [
    Engine {
        name: "WebKit",
        packages: &["webkit2gtk-driver", "xvfb", "fonts-dejavu-core"],
        programs: &[("WEBKIT_DRIVER", &["WebKitWebDriver"]), ("XVFB", &["Xvfb"])],
        time: "about a minute",
    },
    Engine {
        name: "Gecko",
        packages: &["firefox-esr", "fonts-dejavu-core"],
        programs: &[("FIREFOX", &["firefox-esr", "firefox"])],
        time: "about half a minute",
    },
];

/// Fails where apt-get is there and cannot install one: only a machine without it may go without an engine.
pub(crate) fn provide(project: &Project) -> Done<Engines> {
    let mut engines = Engines::default();
    for engine in &ENGINES {
        let programs = match engine.ready() {
            Some(programs) => programs,
            None if child::find("apt-get").is_none() => {
                let packages = engine.packages.join(", ");
                say!("  No {} here, and no apt-get to install it (Debian's {packages}).", engine.name);
                engines.without.push(engine.name);
                continue;
            }
            None => {
                let what_for = format!("the tests in {}", engine.name);
                apt::install(project, engine.packages, &what_for, engine.time)?;
                engine.ready().ok_or_else(|| engine.missing())?
            }
        };
        if let Some((_, program)) = programs.first() {
            found(engine.name, program);
        }
        engines.programs.extend(programs);
    }
    Ok(engines)
}

impl Engine {
    /// All of its programs, named by the environment or found.
    fn ready(&self) -> Option<Vec<(&'static str, PathBuf)>> {
        let one = |(variable, names): &(&'static str, &'static [&'static str])| {
            let program = child::named(variable).or_else(|| names.iter().find_map(|name| child::find(name)))?;
            Some((*variable, program))
        };
        self.programs.iter().map(one).collect()
    }

    fn missing(&self) -> Failure {
        let variables: Vec<&str> = self.programs.iter().map(|(variable, _)| *variable).collect();
        Failure::new(format!("finding {}", self.name), "its programs are neither on PATH nor named by the environment")
            .by_hand(format!("set {}", variables.join(" and ")))
    }
}
