//! What `cargo task` starts: it has cargo compile the tools, says so where that takes time, and gives way to them.
//!
//! A package of its own without any dependency, so that it is there in a second. `cargo run --quiet` alone is silent for the
//! minute that a fresh checkout compiles in; without `--quiet` it adds two lines to standard error each time, where other
//! programs read one. Nothing of this ever goes to standard output.

use std::env;
use std::ffi::OsString;
use std::io::{self, BufRead, BufReader, Write};
use std::process::{Command, ExitCode, Stdio};

/// Said before cargo's first word.
const READYING: &str = "cargo task: compiling its own program first; from nothing that takes a minute or two.";
/// The package and the program that do the work.
const TOOLS: [&str; 4] = ["--package", "hundred-parts", "--bin", "task"];

fn main() -> ExitCode {
    match build() {
        Ok(0) => {}
        // Cargo has said why.
        Ok(status) => return ExitCode::from(status),
        Err(error) => return not_started(&error),
    }
    let mut run = cargo();
    run.args(["run", "--quiet"]).args(TOOLS).arg("--").args(env::args_os().skip(1));
    give_way(run)
}

fn cargo() -> Command {
    Command::new(env::var_os("CARGO").unwrap_or_else(|| OsString::from("cargo")))
}

/// Compiles, and passes on what cargo says of it; gives its exit status.
fn build() -> io::Result<u8> {
    let mut build = cargo();
    build.arg("build").args(TOOLS).stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::piped());
    let mut child = build.spawn()?;
    if let Some(said) = child.stderr.take() {
        pass_on(BufReader::new(said), &mut io::stderr());
    }
    let status = child.wait()?.code();
    // Stopped from outside, it has none.
    Ok(status.map_or(1, |code| u8::try_from(code).unwrap_or(1)))
}

/// Every line but that all is finished: where there was nothing to do, nothing is said.
fn pass_on(mut from: impl BufRead, to: &mut impl Write) {
    let mut line = Vec::new();
    let mut said = false;
    while matches!(from.read_until(b'\n', &mut line), Ok(1..)) {
        if !line.trim_ascii_start().starts_with(b"Finished") {
            // Where nobody reads any more, the work goes on all the same.
            let _ = if said { Ok(()) } else { writeln!(to, "{READYING}") };
            let _ = to.write_all(&line);
            said = true;
        }
        line.clear();
    }
}

fn not_started(error: &io::Error) -> ExitCode {
    let _ = writeln!(io::stderr(), "cargo task: cargo did not start: {error}");
    ExitCode::FAILURE
}

/// Becomes the other program: its exit status, and a signal that ends it, are its own.
#[cfg(unix)]
fn give_way(mut to: Command) -> ExitCode {
    use std::os::unix::process::CommandExt;
    not_started(&to.exec())
}

#[cfg(not(unix))]
fn give_way(mut to: Command) -> ExitCode {
    match to.status() {
        Ok(status) => ExitCode::from(status.code().and_then(|code| u8::try_from(code).ok()).unwrap_or(1)),
        Err(error) => not_started(&error),
    }
}
