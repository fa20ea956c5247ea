//! The name by which formulas and tables know a material.

use core::fmt;

/// A kebab-case name: 1 to 64 of `a-z`, `0-9` and inner hyphens. It never changes, whatever the material is called.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct IngredientId(String);

/// Why a text is no [`IngredientId`].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum IdProblem {
    /// Nothing there.
    Empty,
    /// More than [`IngredientId::LONGEST`] characters.
    TooLong,
    /// A character other than `a-z`, `0-9` and `-`.
    Character(char),
    /// A hyphen at the start or the end.
    Edge,
}

impl fmt::Display for IdProblem {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(out, "found nothing, expected an id"),
            Self::TooLong => write!(out, "expected at most {} characters", IngredientId::LONGEST),
            Self::Character(c) => write!(out, "found `{c}`, expected a-z, 0-9 and -"),
            Self::Edge => write!(out, "found - at the start or the end"),
        }
    }
}

impl core::error::Error for IdProblem {}

impl IngredientId {
    /// The most characters an id may have.
    pub const LONGEST: usize = 64;

    /// Reads an id as files and links hold it.
    ///
    /// # Errors
    /// The first thing that is wrong with the text.
    pub fn parse(text: &str) -> Result<Self, IdProblem> {
        if text.is_empty() {
            return Err(IdProblem::Empty);
        }
        if let Some(c) = text.chars().find(|c| !matches!(c, 'a'..='z' | '0'..='9' | '-')) {
            return Err(IdProblem::Character(c));
        }
        if text.len() > Self::LONGEST {
            return Err(IdProblem::TooLong);
        }
        if text.starts_with('-') || text.ends_with('-') {
            return Err(IdProblem::Edge);
        }
        Ok(Self(text.to_owned()))
    }

    /// The id of an entry called `name`, the `n`th of that name: accents dropped, words joined by hyphens, `-2`, `-3` …
    /// behind all but the first. A name without a Latin letter or digit becomes `own`.
    pub(crate) fn slug(name: &str, n: usize) -> Self {
        let suffix = if n < 2 { String::new() } else { format!("-{n}") };
        let room = Self::LONGEST - suffix.len();
        let mut slug = String::new();
        for word in crate::facts::fold(name).split(|c: char| !c.is_ascii_alphanumeric()).filter(|word| !word.is_empty())
        {
            if !slug.is_empty() {
                slug.push('-');
            }
            slug.push_str(word);
            if slug.len() > room {
                slug.truncate(room);
                break;
            }
        }
        let slug = slug.trim_end_matches('-');
        Self(if slug.is_empty() { format!("own{suffix}") } else { format!("{slug}{suffix}") })
    }

    /// As a name, for what is known by its id alone: `plum-kernel-oil` is "Plum kernel oil".
    pub fn spelled_out(&self) -> String {
        let words = self.0.replace('-', " ");
        let mut letters = words.chars();
        letters.next().map_or_else(String::new, |first| first.to_ascii_uppercase().to_string() + letters.as_str())
    }

    /// As text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for IngredientId {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn id_kebab_case_is_read() {
        for text in ["water", "1-2-hexanediol", "a", &"a".repeat(64)] {
            assert_eq!(IngredientId::parse(text).map(|id| id.to_string()), Ok(text.to_owned()));
        }
    }

    #[test]
    fn id_other_text_says_why() {
        for (text, problem) in [
            ("", IdProblem::Empty),
            ("Water", IdProblem::Character('W')),
            ("a b", IdProblem::Character(' ')),
            ("<b>", IdProblem::Character('<')),
            ("karité", IdProblem::Character('é')),
            ("-a", IdProblem::Edge),
            ("a-", IdProblem::Edge),
            (&"a".repeat(65), IdProblem::TooLong),
        ] {
            assert_eq!(IngredientId::parse(text), Err(problem), "{text:?}");
        }
    }

    #[test]
    fn slug_of_a_name_is_readable() {
        for (name, n, slug) in [
            ("Crème de Karité", 1, "creme-de-karite"),
            ("Shea butter", 2, "shea-butter-2"),
            ("  5 % <Öl> ", 1, "5-ol"),
            ("Вода", 1, "own"),
            ("", 3, "own-3"),
        ] {
            assert_eq!(IngredientId::slug(name, n).as_str(), slug, "{name:?}");
        }
    }

    proptest! {
        #[test]
        fn slug_of_any_name_is_an_id(name in ".{0,200}", n in 0usize..100_000) {
            let slug = IngredientId::slug(&name, n);
            prop_assert_eq!(IngredientId::parse(slug.as_str()), Ok(slug.clone()));
        }
    }
}
