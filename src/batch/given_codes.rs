//! The codes that were given to batches: none is ever given twice, also once its batch is gone.

use super::{BatchCode, CodePattern};
use crate::quantity::Day;

/// Codes, each once, as they are kept on a device: a line each.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct GivenCodes(Vec<String>);

impl GivenCodes {
    /// What was kept.
    pub fn read(text: &str) -> Self {
        Self(text.lines().map(str::trim).filter(|code| !code.is_empty()).map(str::to_owned).collect())
    }

    /// As it is kept.
    pub fn text(&self) -> String {
        self.0.join("\n")
    }

    /// Whether a code was given, in capitals or not.
    pub fn holds(&self, code: &BatchCode) -> bool {
        self.0.iter().any(|known| code.is(known))
    }

    /// The code for the next batch of a day, by the maker's pattern; by the usual one where that cannot be read.
    pub fn next(&self, pattern: Option<&str>, day: Day) -> Option<BatchCode> {
        let own = pattern.and_then(|text| CodePattern::read(text).ok());
        let pattern = own.or_else(|| CodePattern::read(CodePattern::DEFAULT).ok())?;
        let taken: Vec<&str> = self.0.iter().map(String::as_str).collect();
        Some(pattern.next(day, &taken))
    }

    /// One more.
    pub fn add(&mut self, code: &BatchCode) {
        if !self.holds(code) {
            self.0.push(code.as_str().to_owned());
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_code_is_given_twice() {
        let day = Day::read("2026-11-28").unwrap();
        let mut given = GivenCodes::read("261128-1\n\n h7 \n");
        assert_eq!(given.next(None, day).unwrap().as_str(), "261128-2");
        assert_eq!(given.next(Some("{nonsense"), day).unwrap().as_str(), "261128-2");
        assert_eq!(given.next(Some("H{n}"), day).unwrap().as_str(), "H8");
        let code = BatchCode::read("H7").unwrap();
        assert!(given.holds(&code));
        given.add(&code);
        given.add(&given.next(None, day).unwrap());
        assert_eq!(given.text(), "261128-1\nh7\n261128-2");
        assert_eq!(GivenCodes::read(&given.text()), given);
    }
}
