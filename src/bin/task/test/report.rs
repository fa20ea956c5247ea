//! The stages that ran, and how they went.

use std::time::{Duration, Instant};

use super::stages::Outcome;
use super::tally::Tally;
use crate::failure::Done;
use crate::say::say;

/// A line for each stage.
#[derive(Default)]
pub(super) struct Report {
    lines: Vec<Line>,
}

struct Line {
    name: &'static str,
    time: Duration,
    outcome: Outcome,
}

impl Report {
    /// Runs one, whatever became of those before: one fault should not hide the next. Tells whether it passed.
    pub(super) fn stage(&mut self, name: &'static str, run: impl FnOnce() -> Done<Outcome>) -> bool {
        say!("\n── {name}");
        let start = Instant::now();
        let outcome = run().unwrap_or_else(|failure| {
            say!("\n{failure}");
            Outcome::failed()
        });
        let time = start.elapsed();
        let word = if outcome.passed { "passed" } else { "FAILED" };
        say!("── {name}: {word}, {:.1} s", time.as_secs_f64());
        self.lines.push(Line { name, time, outcome });
        outcome.passed
    }

    pub(super) fn all_passed(&self) -> bool {
        self.lines.iter().all(|line| line.outcome.passed)
    }

    /// The table, and the sum alone on the last line: other programs read it.
    pub(super) fn print(&self) {
        say!("\n{:<16} {:>8}  {:>7} {:>7}", "stage", "seconds", "passed", "failed");
        for line in &self.lines {
            let mark = match line.outcome {
                Outcome { passed: false, .. } => "  FAILED".to_owned(),
                Outcome { only_again: 0, .. } => String::new(),
                Outcome { only_again, .. } => format!("  {only_again} files passed only when run again, alone"),
            };
            let tally = line.outcome.tally;
            let seconds = line.time.as_secs_f64();
            say!("{:<16} {seconds:>8.1}  {:>7} {:>7}{mark}", line.name, tally.passed, tally.failed);
        }
        let total: Duration = self.lines.iter().map(|line| line.time).sum();
        say!("{:<16} {:>8.1}\n", "in all", total.as_secs_f64());
        let sum: Tally = self.lines.iter().map(|line| line.outcome.tally).sum();
        say!("{} passed, {} failed", sum.passed, sum.failed);
    }
}
