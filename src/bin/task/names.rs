//! `cargo task names FILE|-`: what names stand for, one name a line in, one JSON object a line out.
//!
//! A contract with other programs, through the same code as the page: a line that is not understood is an answer, too. Only
//! input that cannot be read gives one line on standard error, and status 2.

use crate::say::{complain, say};
use std::io::Read;
use std::process::ExitCode;

pub(crate) fn command(words: &[String]) -> ExitCode {
    match read(words) {
        Ok(text) => {
            for line in text.lines() {
                say!("{}", hundred_parts::report::name_report(line));
            }
            ExitCode::SUCCESS
        }
        Err(complaint) => {
            complain!("{complaint}");
            ExitCode::from(2)
        }
    }
}

fn read(words: &[String]) -> Result<String, String> {
    let [source] = words else {
        return Err("cargo task names needs one FILE, or - for standard input".to_owned());
    };
    if source != "-" {
        return std::fs::read_to_string(source).map_err(|error| format!("{source}: {error}"));
    }
    let mut text = String::new();
    std::io::stdin().read_to_string(&mut text).map_err(|error| format!("standard input: {error}"))?;
    Ok(text)
}
