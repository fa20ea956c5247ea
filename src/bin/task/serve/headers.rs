//! The headers of `_headers`, read as static hosts read it: so there is one list of them, and serving tries it out.

use std::path::Path;

/// The rules in the order of the file.
#[derive(Default)]
pub(super) struct HeaderRules {
    rules: Vec<Rule>,
}

struct Rule {
    pattern: String,
    changes: Vec<Change>,
}

enum Change {
    Set(String, String),
    Drop(String),
}

impl HeaderRules {
    /// The rules of a file; none where there is no file.
    pub(super) fn read(file: &Path) -> Self {
        std::fs::read_to_string(file).map(|text| Self::parse(&text)).unwrap_or_default()
    }

    fn parse(text: &str) -> Self {
        let mut rules: Vec<Rule> = Vec::new();
        for line in text.lines().filter(|line| !line.trim().is_empty() && !line.starts_with('#')) {
            if !line.starts_with(char::is_whitespace) {
                rules.push(Rule { pattern: line.trim().to_owned(), changes: Vec::new() });
            } else if let (Some(rule), Some(change)) = (rules.last_mut(), Change::parse(line.trim())) {
                rule.changes.push(change);
            }
        }
        Self { rules }
    }

    /// The headers for a path, as name and value.
    pub(super) fn for_path(&self, path: &str) -> Vec<(&str, &str)> {
        let mut headers: Vec<(&str, &str)> = Vec::new();
        for change in self.rules.iter().filter(|rule| rule.fits(path)).flat_map(|rule| &rule.changes) {
            match change {
                Change::Set(name, value) => headers.push((name, value)),
                Change::Drop(name) => headers.retain(|(there, _)| !there.eq_ignore_ascii_case(name)),
            }
        }
        headers
    }
}

impl Rule {
    fn fits(&self, path: &str) -> bool {
        match self.pattern.strip_suffix('*') {
            Some(start) => path.starts_with(start),
            None => path == self.pattern,
        }
    }
}

impl Change {
    fn parse(line: &str) -> Option<Self> {
        if let Some(name) = line.strip_prefix('!') {
            return Some(Self::Drop(name.trim().to_owned()));
        }
        let (name, value) = line.split_once(':')?;
        Some(Self::Set(name.trim().to_owned(), value.trim().to_owned()))
    }
}

#[cfg(test)]
mod tests {
    use super::HeaderRules;

    #[test]
    fn a_later_rule_can_take_back() {
        let rules = HeaderRules::parse("# note\n/*\n  A: 1\n  B: x: y\n/assets/*\n  ! A\n  A: 2\n");
        assert_eq!(rules.for_path("/"), [("A", "1"), ("B", "x: y")]);
        assert_eq!(rules.for_path("/assets/f.js"), [("B", "x: y"), ("A", "2")]);
    }
}
