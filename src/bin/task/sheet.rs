//! `cargo task sheet FILE|-`: the computed sheet of a document as JSON, through the same code as the page.
//!
//! A contract with other programs: good input gives one JSON object on standard output and status 0; bad input gives
//! nothing there, one line on standard error, and status 2.

use crate::say::{complain, say};
use std::io::Read;
use std::process::ExitCode;

pub(crate) fn command(words: &[String]) -> ExitCode {
    match answer(words) {
        Ok(json) => {
            say!("{json}");
            ExitCode::SUCCESS
        }
        Err(complaint) => {
            complain!("{complaint}");
            ExitCode::from(2)
        }
    }
}

fn answer(words: &[String]) -> Result<String, String> {
    let [source] = words else {
        return Err("cargo task sheet needs one FILE, or - for standard input".to_owned());
    };
    compute(&read(source)?)
}

fn read(source: &str) -> Result<String, String> {
    if source != "-" {
        return std::fs::read_to_string(source).map_err(|error| format!("{source}: {error}"));
    }
    let mut text = String::new();
    std::io::stdin().read_to_string(&mut text).map_err(|error| format!("standard input: {error}"))?;
    Ok(text)
}

/// The library's part: the text of a document in, the text of its sheet out, or one line that says what is wrong.
fn compute(document: &str) -> Result<String, String> {
    hundred_parts::report::sheet_report(document).map_err(|problem| problem.to_string())
}
