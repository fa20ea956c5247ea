//! How many tests passed and failed, read from what the test runners print.

use std::iter::Sum;
use std::ops::Add;

/// Counts of tests.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Tally {
    pub(super) passed: u64,
    pub(super) failed: u64,
}

impl Add for Tally {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self { passed: self.passed + other.passed, failed: self.failed + other.failed }
    }
}

impl Sum for Tally {
    fn sum<I: Iterator<Item = Self>>(all: I) -> Self {
        all.fold(Self::default(), Add::add)
    }
}

impl Tally {
    /// From cargo's and wasm-bindgen's summaries, of which there is one for each test program.
    pub(super) fn of_cargo(printed: &str) -> Self {
        plain(printed)
            .lines()
            .filter_map(|line| line.trim().strip_prefix("test result: "))
            .map(|summary| Self { passed: before(summary, "passed"), failed: before(summary, "failed") })
            .sum()
    }

    /// From the summary of Node's test runner. A cancelled test has not passed.
    pub(super) fn of_node(printed: &str) -> Self {
        let text = plain(printed);
        let count = |name: &str| {
            let numbers = text.lines().filter_map(|line| {
                let mut words = line.split_whitespace();
                let is_summary = matches!(words.next(), Some("ℹ" | "#")) && words.next() == Some(name);
                is_summary.then(|| words.next()?.parse::<u64>().ok()).flatten()
            });
            numbers.sum::<u64>()
        };
        Self { passed: count("pass"), failed: count("fail") + count("cancelled") }
    }
}

/// The number before a word.
fn before(summary: &str, word: &str) -> u64 {
    let words: Vec<&str> = summary.split_whitespace().map(|part| part.trim_end_matches(';')).collect();
    let pair = words.windows(2).find(|pair| pair[1] == word);
    pair.and_then(|pair| pair[0].parse().ok()).unwrap_or(0)
}

/// Without the colours.
fn plain(printed: &str) -> String {
    let mut text = String::with_capacity(printed.len());
    let mut rest = printed;
    while let Some((head, tail)) = rest.split_once("\u{1b}[") {
        text.push_str(head);
        rest = tail.find(|c: char| c.is_ascii_alphabetic()).map_or("", |end| &tail[end + 1..]);
    }
    text.push_str(rest);
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cargo_summaries_are_added() {
        let printed = "test result: ok. 12 passed; 0 failed; 1 ignored; 0 measured\n\
                       test result: \u{1b}[31mFAILED\u{1b}[0m. 3 passed; 2 failed; 0 ignored; 0 filtered out";
        assert_eq!(Tally::of_cargo(printed), Tally { passed: 15, failed: 2 });
        assert_eq!(Tally::of_cargo("error: could not compile"), Tally::default());
    }

    #[test]
    fn node_summaries_are_read_with_and_without_colours() {
        let spec =
            "✔ opens (12ms)\n\u{1b}[34mℹ tests 4\u{1b}[39m\n\u{1b}[34mℹ pass 2\u{1b}[39m\nℹ fail 1\nℹ cancelled 1\n";
        assert_eq!(Tally::of_node(spec), Tally { passed: 2, failed: 2 });
        assert_eq!(Tally::of_node("# tests 3\n# pass 3\n# fail 0\n"), Tally { passed: 3, failed: 0 });
    }
}
