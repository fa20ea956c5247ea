//! A sentence with the names of what is told in braces: the fields of its message, and subject, value and limit of the
//! finding. A name that the message does not have does not compile.

use crate::rules::MessageId;

/// What every finding has.
const COMMON: [&str; 3] = ["subject", "value", "limit"];

/// The sentence of a message.
#[derive(Debug, Clone, Copy)]
pub(super) struct Template {
    /// Whose it is.
    pub(super) of: MessageId,
    pub(super) text: &'static str,
    /// The sentence that stands in its place where a field has something in it.
    pub(super) instead: Option<(&'static str, &'static str)>,
    /// A further one there.
    pub(super) also: Option<(&'static str, &'static str)>,
}

impl Template {
    pub(super) const fn new(of: MessageId, text: &'static str) -> Self {
        assert!(knows_its_names(of, text), "a name in braces is no field of the message");
        Self { of, text, instead: None, also: None }
    }

    /// Another sentence where a field has something in it.
    pub(super) const fn or_with(mut self, field: &'static str, text: &'static str) -> Self {
        assert!(is_one_of(field.as_bytes(), self.of.fields()), "no field of the message");
        assert!(knows_its_names(self.of, text), "a name in braces is no field of the message");
        self.instead = Some((field, text));
        self
    }

    /// A further sentence where a field has something in it.
    pub(super) const fn and_with(mut self, field: &'static str, text: &'static str) -> Self {
        assert!(is_one_of(field.as_bytes(), self.of.fields()), "no field of the message");
        assert!(knows_its_names(self.of, text), "a name in braces is no field of the message");
        self.also = Some((field, text));
        self
    }

    /// Puts words in the place of their names.
    pub(super) fn fill(&self, word: &dyn Fn(&str) -> String) -> String {
        let there = |(field, text): &(&'static str, &'static str)| (!word(field).is_empty()).then_some(*text);
        let mut text = String::new();
        fill(&mut text, self.instead.as_ref().and_then(there).unwrap_or(self.text), word);
        if let Some(also) = self.also.as_ref().and_then(there) {
            fill(&mut text, also, word);
        }
        text
    }
}

/// A word that is not known is told as what it would be, and a full stop that a word brings is not set twice.
fn fill(text: &mut String, template: &str, word: &dyn Fn(&str) -> String) {
    let mut parts = template.split('{');
    text.push_str(parts.next().unwrap_or_default());
    for part in parts {
        let (name, rest) = part.split_once('}').unwrap_or((part, ""));
        let word = word(name);
        let begins = text.is_empty() || text.ends_with(". ");
        match (word.trim(), name) {
            // Right behind a word: `, counted as acid`.
            (_, "as_acid") => text.push_str(&word),
            ("", "value" | "limit") => text.push_str("an amount that is not known"),
            ("", _) if begins => text.push_str("Something without a name"),
            ("", _) => text.push_str("something without a name"),
            (word, _) => text.push_str(word),
        }
        let rest = if text.ends_with('.') { rest.strip_prefix('.').unwrap_or(rest) } else { rest };
        text.push_str(rest);
    }
}

/// Whether every name in braces is one that a message has.
const fn knows_its_names(of: MessageId, text: &str) -> bool {
    let mut rest = text.as_bytes();
    while let [first, behind @ ..] = rest {
        rest = behind;
        if *first == b'{' {
            let mut length = 0;
            while length < rest.len() && rest[length] != b'}' {
                length += 1;
            }
            let (name, behind) = rest.split_at(length);
            if behind.is_empty() || !is_one_of(name, &COMMON) && !is_one_of(name, of.fields()) {
                return false;
            }
            rest = behind;
        }
    }
    true
}

const fn is_one_of(name: &[u8], known: &[&str]) -> bool {
    let mut n = 0;
    while n < known.len() {
        if same(name, known[n].as_bytes()) {
            return true;
        }
        n += 1;
    }
    false
}

const fn same(a: &[u8], b: &[u8]) -> bool {
    let mut n = 0;
    while n < a.len() && n < b.len() && a[n] == b[n] {
        n += 1;
    }
    n == a.len() && n == b.len()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn template_knows_the_fields_of_its_message_and_no_others() {
        assert!(knows_its_names(MessageId::TooHot, "{subject} is {over} over {limit}."));
        for wrong in ["{category} of it", "{subjects}", "{sub", "{}", "{limit} {more}"] {
            assert!(!knows_its_names(MessageId::TooHot, wrong), "{wrong}");
        }
    }
}
