//! The door with a cargo of our own behind it: what is said where, and which status comes out.
#![cfg(unix)]

use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::PathBuf;
use std::process::{Command, Output};

/// Starts the door with a cargo that does so much on `build`, and repeats its words on `run`.
fn door(name: &str, build: &str) -> Output {
    let cargo = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(format!("cargo-{name}"));
    let script = format!(
        "#!/bin/sh\nif [ \"$1\" = build ]; then\n{build}\nfi\necho \"$@\"\necho 'one line of its own' >&2\nexit 2\n"
    );
    fs::write(&cargo, script).unwrap();
    fs::set_permissions(&cargo, fs::Permissions::from_mode(0o755)).unwrap();
    Command::new(env!("CARGO_BIN_EXE_door")).args(["sheet", "a b.json"]).env("CARGO", cargo).output().unwrap()
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).unwrap()
}

#[test]
fn door_to_what_is_compiled_says_nothing_of_its_own() {
    let output = door("ready", "echo '    Finished `dev` profile in 0.05s' >&2; exit 0");
    assert_eq!(text(&output.stderr), "one line of its own\n");
    assert_eq!(text(&output.stdout), "run --quiet --package hundred-parts --bin task -- sheet a b.json\n");
    assert_eq!(output.status.code(), Some(2), "the status is that of the command");
}

#[test]
fn door_says_at_once_that_it_compiles_and_only_on_standard_error() {
    let output = door("fresh", "echo '   Compiling serde v1.0.0' >&2; echo '    Finished `dev`' >&2; exit 0");
    let said = text(&output.stderr);
    assert!(said.starts_with("cargo task: compiling its own program first"), "{said}");
    assert!(said.contains("\n   Compiling serde v1.0.0\none line") && !said.contains("Finished"), "{said}");
    assert!(text(&output.stdout).starts_with("run --quiet "), "{output:?}");
}

#[test]
fn door_to_what_does_not_compile_hands_back_what_cargo_said() {
    let output = door("broken", "echo 'error: no such thing' >&2; exit 101");
    assert_eq!(output.status.code(), Some(101));
    assert!(text(&output.stderr).ends_with("error: no such thing\n") && output.stdout.is_empty(), "{output:?}");
}
