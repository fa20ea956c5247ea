//! The few options that the commands take.

use std::str::FromStr;

use crate::failure::{Done, Failure};

/// The words after the command; what no one asked for by the end is an error.
pub(crate) struct Arguments {
    words: Vec<String>,
}

impl Arguments {
    pub(crate) fn new(words: &[String]) -> Self {
        Self { words: words.to_vec() }
    }

    /// Whether the word `name` stands there.
    pub(crate) fn flag(&mut self, name: &str) -> bool {
        match self.words.iter().position(|word| word == name) {
            Some(index) => {
                self.words.remove(index);
                true
            }
            None => false,
        }
    }

    /// The value after the word `name`.
    pub(crate) fn value<T: FromStr>(&mut self, name: &str) -> Done<Option<T>> {
        let Some(index) = self.words.iter().position(|word| word == name) else {
            return Ok(None);
        };
        self.words.remove(index);
        if index == self.words.len() {
            return Err(Failure::usage(format!("{name} needs a value")));
        }
        let text = self.words.remove(index);
        let value = text.parse().map_err(|_| Failure::usage(format!("{name} cannot be `{text}`")))?;
        Ok(Some(value))
    }

    pub(crate) fn finish(self) -> Done {
        match self.words.first() {
            None => Ok(()),
            Some(word) => Err(Failure::usage(format!("`{word}` is not an option here"))),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn arguments(line: &str) -> Arguments {
        Arguments { words: line.split_whitespace().map(str::to_owned).collect() }
    }

    #[test]
    fn flags_and_values_come_in_any_order() {
        let mut words = arguments("--port 9000 --lan");
        assert!(words.flag("--lan"));
        assert_eq!(words.value::<u16>("--port").unwrap(), Some(9000));
        assert!(words.finish().is_ok());
    }

    #[test]
    fn what_is_not_understood_is_refused() {
        assert!(arguments("--port").value::<u16>("--port").is_err());
        assert!(arguments("--port 70000").value::<u16>("--port").is_err());
        assert_eq!(arguments("--prot 1").finish().unwrap_err().status(), 2);
    }
}
