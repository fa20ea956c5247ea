//! The folded texts by which an ingredient is found.

use crate::facts::fold;

/// What of an ingredient matched a query: the best of several, or what the query's first word was found in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Matched {
    /// Its name.
    Name,
    /// Its INCI names.
    Inci,
    /// Another common name.
    Also,
    /// Its id.
    Id,
}

/// The folded texts of one ingredient.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct SearchKeys {
    pub(crate) name: String,
    pub(crate) inci: String,
    pub(crate) also: Vec<String>,
    pub(crate) id: String,
}

impl SearchKeys {
    pub(crate) fn new(id: &str, name: &str, inci: &str, also: &[&str]) -> Self {
        Self {
            name: fold(beginning(name)),
            inci: fold(beginning(inci)),
            also: also.iter().map(|name| fold(name)).collect(),
            id: fold(id),
        }
    }

    /// All texts with what they are, best first.
    pub(crate) fn all(&self) -> impl Iterator<Item = (Matched, &str)> {
        let also = self.also.iter().map(|key| (Matched::Also, key.as_str()));
        core::iter::once((Matched::Name, self.name.as_str()))
            .chain(also)
            .chain([(Matched::Inci, self.inci.as_str()), (Matched::Id, self.id.as_str())])
    }
}

/// Longest name that is shown or searched, in bytes. A file may bring longer ones, by the hundred.
const MOST_SHOWN: usize = 400;

/// What is shown of a text in lists and rows: all of it, unless it is longer than any name.
pub fn beginning(text: &str) -> &str {
    let end = (0..=MOST_SHOWN).rev().find(|at| text.is_char_boundary(*at));
    end.filter(|_| text.len() > MOST_SHOWN).map_or(text, |end| &text[..end])
}
