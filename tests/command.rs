//! `cargo task` as other programs see it: standard output, standard error, exit status, and a reader that stops reading.
#![cfg(not(target_arch = "wasm32"))]

use std::fs::File;
use std::io::{BufRead, BufReader, Read, Write};
use std::path::Path;
use std::process::{Command, Stdio};

const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/src/desk/demo.json");

fn task(words: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_task"));
    command.args(words).stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
    command
}

/// The end to write to of a pipe whose other end is closed.
fn nobody() -> Stdio {
    let (reader, writer) = std::io::pipe().unwrap();
    drop(reader);
    writer.into()
}

/// Source: POSIX.1-2017, Shell Command Language 2.8.2: the status of a command that a signal ended is above 128, which shells
/// make 128 and its number; SIGPIPE has 13 in all usual systems.
#[test]
fn printing_to_nobody_ends_like_any_tool_and_says_nothing() {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("papers-unread");
    let folder = folder.to_str().unwrap();
    for words in [&["help"][..], &["sheet", DEMO], &["papers", DEMO, folder], &["bench", "--measure", "--doses"]] {
        let output = task(words).stdout(nobody()).output().unwrap();
        assert_eq!(output.status.code(), Some(141), "{words:?}");
        assert_eq!(String::from_utf8_lossy(&output.stderr), "", "{words:?}");
    }
}

/// As `cargo task sheet … | head -1` does: the first line comes whole, then nobody reads.
#[test]
fn sheet_into_a_reader_of_one_line_does_not_panic() {
    let mut child = task(&["sheet", DEMO]).spawn().unwrap();
    let mut first = String::new();
    BufReader::with_capacity(16, child.stdout.take().unwrap()).read_line(&mut first).unwrap();
    assert_eq!(first, "{\n");
    let output = child.wait_with_output().unwrap();
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
}

/// Nobody reads the complaint either: still no panic.
#[test]
fn complaint_to_nobody_does_not_panic() {
    let status = task(&["no-such-command"]).stdout(nobody()).stderr(nobody()).status().unwrap();
    assert_eq!(status.code(), Some(141));
}

#[test]
fn sheet_of_a_good_document_is_json_alone() {
    let output = task(&["sheet", DEMO]).output().unwrap();
    assert_eq!((output.status.code(), output.stderr.len()), (Some(0), 0));
    let report: serde_json::Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(report["format"], "hundred-parts-sheet");
    let mut piped = task(&["sheet", "-"]);
    let mut child = piped.stdin(Stdio::piped()).spawn().unwrap();
    let mut text = String::new();
    File::open(DEMO).unwrap().read_to_string(&mut text).unwrap();
    child.stdin.take().unwrap().write_all(text.as_bytes()).unwrap();
    assert_eq!(child.wait_with_output().unwrap().stdout, output.stdout);
}

#[test]
fn sheet_of_what_is_no_document_says_one_line_on_standard_error() {
    for words in [&["sheet", "no-such-file"][..], &["sheet", "Cargo.toml"], &["sheet"]] {
        let output = task(words).current_dir(env!("CARGO_MANIFEST_DIR")).output().unwrap();
        assert_eq!((output.status.code(), output.stdout.len()), (Some(2), 0), "{words:?}");
        let said = String::from_utf8(output.stderr).unwrap();
        assert!(said.ends_with('\n') && said.trim_end().lines().count() == 1, "{said}");
    }
}

/// The alias goes through the door, which is quiet unless it compiles (`.cargo/door/tests/door.rs`).
#[test]
fn alias_leads_through_the_door() {
    let config = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/.cargo/config.toml")).unwrap();
    assert!(config.contains("task = \"run --quiet --package door --\""), "{config}");
}
