//! Other programs: started in the repository, with a clean environment, watched, and never silent for long.

use std::env;
use std::ffi::OsStr;
use std::io::{Read, Write};
use std::path::PathBuf;
use std::process::{Command, ExitStatus, Stdio};
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

use crate::failure::{Done, Failure};
use crate::project::Project;
use crate::say::{end_with, say};

/// How often a child is looked at.
const GLANCE: Duration = Duration::from_millis(100);
/// How often a line says that a child is still at work.
const TICK: Duration = Duration::from_secs(60);

/// A program to be run in the repository.
pub(crate) fn tool(project: &Project, program: impl AsRef<OsStr>) -> Command {
    let mut command = Command::new(program);
    command.current_dir(project.root()).stdin(Stdio::null());
    // What `cargo run` tells its child about this package would mislead another cargo, or another compiler.
    for (name, _) in env::vars_os() {
        let text = name.to_string_lossy();
        if text == "CARGO" || text == "OUT_DIR" || text.starts_with("CARGO_PKG_") || text.starts_with("CARGO_MANIFEST_")
        {
            command.env_remove(&name);
        }
    }
    if let Some(paths) = env::var_os("LD_LIBRARY_PATH") {
        let kept: Vec<PathBuf> = env::split_paths(&paths).filter(|path| !is_cargos(project, path)).collect();
        match env::join_paths(&kept) {
            Ok(joined) if !kept.is_empty() => command.env("LD_LIBRARY_PATH", joined),
            _ => command.env_remove("LD_LIBRARY_PATH"),
        };
    }
    command
}

pub(crate) fn cargo(project: &Project) -> Command {
    tool(project, "cargo")
}

fn is_cargos(project: &Project, path: &std::path::Path) -> bool {
    path.starts_with(project.target()) || path.iter().any(|part| part == "toolchains" || part == "rustlib")
}

/// Puts folders before those of `PATH`.
pub(crate) fn path_with(first: &[PathBuf]) -> std::ffi::OsString {
    let rest = env::var_os("PATH").unwrap_or_default();
    let all = first.iter().cloned().chain(env::split_paths(&rest));
    env::join_paths(all).unwrap_or(rest)
}

/// The first program of this name in a folder of `PATH`, or in the folder where cargo installs.
pub(crate) fn find(program: &str) -> Option<PathBuf> {
    let path = env::var_os("PATH").unwrap_or_default();
    let own = crate::project::cargo_home().map(|home| home.join("bin"));
    let mut folders = env::split_paths(&path).chain(own);
    folders.find_map(|folder| Some(folder.join(program)).filter(|file| file.is_file()))
}

/// The program that a variable of the environment names, if it is there.
pub(crate) fn named(variable: &str) -> Option<PathBuf> {
    env::var_os(variable).map(PathBuf::from).filter(|path| path.is_file())
}

/// What a program prints when asked, if it can be asked at all.
pub(crate) fn ask(mut command: Command) -> Option<String> {
    let output = command.stdin(Stdio::null()).stderr(Stdio::null()).output().ok()?;
    output.status.success().then(|| String::from_utf8_lossy(&output.stdout).trim().to_owned())
}

/// A child at work for one step.
pub(crate) struct Child {
    step: String,
    command: Command,
    limit: Option<Duration>,
    remedy: Option<String>,
}

impl Child {
    pub(crate) fn new(step: impl Into<String>, command: Command) -> Self {
        Self { step: step.into(), command, limit: None, remedy: None }
    }

    /// Stops it when it takes longer.
    pub(crate) fn limit(mut self, limit: Duration) -> Self {
        self.limit = Some(limit);
        self
    }

    pub(crate) fn by_hand(mut self, remedy: impl Into<String>) -> Self {
        self.remedy = Some(remedy.into());
        self
    }

    /// Lets it print to the terminal, and fails when it does.
    pub(crate) fn run(mut self) -> Done {
        let mut child = self.command.spawn().map_err(|error| self.failure(self.not_started(&error)))?;
        let status = self.watch(&mut child)?;
        end_with(status);
        if status.success() { Ok(()) } else { Err(self.failure(ended(status))) }
    }

    /// Lets it print to the terminal and hands back what it printed, with whether it succeeded.
    pub(crate) fn listen(mut self) -> Done<(bool, String)> {
        self.command.stdout(Stdio::piped()).stderr(Stdio::piped());
        let mut child = self.command.spawn().map_err(|error| self.failure(self.not_started(&error)))?;
        let heard = Mutex::new(Vec::new());
        let (out, err) = (child.stdout.take(), child.stderr.take());
        let status = std::thread::scope(|scope| {
            scope.spawn(|| pass_on(out, std::io::stdout(), &heard));
            scope.spawn(|| pass_on(err, std::io::stderr(), &heard));
            self.watch(&mut child)
        })?;
        let bytes = heard.into_inner().unwrap_or_else(PoisonError::into_inner);
        Ok((status.success(), String::from_utf8_lossy(&bytes).into_owned()))
    }

    fn watch(&self, child: &mut std::process::Child) -> Done<ExitStatus> {
        let start = Instant::now();
        let mut next = TICK;
        loop {
            match child.try_wait() {
                Ok(Some(status)) => return Ok(status),
                Ok(None) => {}
                Err(error) => return Err(self.failure(error.to_string())),
            }
            let time = start.elapsed();
            if self.limit.is_some_and(|limit| time > limit) {
                // Both may fail only when it has just ended by itself.
                let _ = child.kill();
                let _ = child.wait();
                return Err(self.failure(format!("no end after {} s; stopped", time.as_secs())));
            }
            if time > next {
                say!("  … {}: {} s", self.step, next.as_secs());
                next += TICK;
            }
            std::thread::sleep(GLANCE);
        }
    }

    fn not_started(&self, error: &std::io::Error) -> String {
        format!("{} did not start: {error}", self.command.get_program().to_string_lossy())
    }

    fn failure(&self, cause: String) -> Failure {
        let failure = Failure::new(&self.step, cause);
        match &self.remedy {
            Some(remedy) => failure.by_hand(remedy),
            None => failure,
        }
    }
}

fn ended(status: ExitStatus) -> String {
    match status.code() {
        Some(code) => format!("it ended with status {code}; its own words are above"),
        None => format!("it was stopped from outside ({status})"),
    }
}

fn pass_on(from: Option<impl Read>, mut to: impl Write, heard: &Mutex<Vec<u8>>) {
    let Some(mut from) = from else { return };
    let mut chunk = [0; 4096];
    while let Ok(length @ 1..) = from.read(&mut chunk) {
        // A closed terminal must not stop the work.
        let _ = to.write_all(&chunk[..length]).and_then(|()| to.flush());
        heard.lock().unwrap_or_else(PoisonError::into_inner).extend_from_slice(&chunk[..length]);
    }
}
