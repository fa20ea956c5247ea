//! A place in a document that is being read, and what is said where it is wrong.

use super::format::{FORMAT, VERSION};
use super::texts::{MOST_NAME, clean, fits};
use crate::quantity::{Quantity, Typed};
use serde_json::{Map, Value};

/// Where a document is wrong, what stands there, and what should.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadProblem {
    /// Path of the value, such as `formula.phases[0].lines[2].percent`.
    pub path: String,
    /// What was found there, cut to a readable length.
    pub found: String,
    /// What was expected.
    pub expected: String,
}

impl core::fmt::Display for ReadProblem {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{}: found {}, expected {}", self.path, self.found, self.expected)
    }
}

pub(super) type ReadResult<T> = Result<T, ReadProblem>;

/// A value and where it stands.
#[derive(Clone)]
pub(super) struct JsonCursor<'a> {
    pub(super) value: &'a Value,
    pub(super) path: String,
}

/// As it can stand in a sentence: the file may hold anything, in its keys too.
fn shorten(text: &str) -> String {
    let text = clean(text);
    if text.chars().count() <= 60 { text.into_owned() } else { text.chars().take(57).chain("...".chars()).collect() }
}

impl<'a> JsonCursor<'a> {
    pub(super) fn wrong<T>(&self, expected: impl Into<String>) -> ReadResult<T> {
        Err(ReadProblem { path: self.path.clone(), found: shorten(&self.value.to_string()), expected: expected.into() })
    }

    pub(super) fn object(&self) -> ReadResult<&'a Map<String, Value>> {
        self.value.as_object().map_or_else(|| self.wrong("an object"), Ok)
    }

    pub(super) fn get(&self, key: &str) -> ReadResult<Option<JsonCursor<'a>>> {
        let found = self.object()?.get(key).filter(|value| !value.is_null());
        Ok(found.map(|value| JsonCursor { value, path: self.path_to(key) }))
    }

    fn path_to(&self, key: &str) -> String {
        let key = shorten(key);
        if self.path == "$" { key } else { format!("{}.{key}", self.path) }
    }

    pub(super) fn need(&self, key: &str, expected: &str) -> ReadResult<JsonCursor<'a>> {
        let nothing = || ReadProblem { path: self.path_to(key), found: "nothing".into(), expected: expected.into() };
        self.get(key)?.ok_or_else(nothing)
    }

    pub(super) fn list(&self, most: usize) -> ReadResult<Vec<JsonCursor<'a>>> {
        let Some(list) = self.value.as_array() else { return self.wrong("a list") };
        if list.len() > most {
            return Err(ReadProblem {
                path: self.path.clone(),
                found: format!("{} entries", list.len()),
                expected: format!("at most {most}"),
            });
        }
        Ok(list
            .iter()
            .enumerate()
            .map(|(n, value)| JsonCursor { value, path: format!("{}[{n}]", self.path) })
            .collect())
    }

    pub(super) fn text(&self, most: usize) -> ReadResult<String> {
        match self.value.as_str() {
            Some(text) if fits(text, most) => Ok(clean(text).into_owned()),
            Some(text) => Err(ReadProblem {
                path: self.path.clone(),
                found: format!("{} characters", text.encode_utf16().count()),
                expected: format!("at most {most}"),
            }),
            None => self.wrong("text"),
        }
    }

    pub(super) fn text_or_empty(&self, key: &str, most: usize) -> ReadResult<String> {
        self.get(key)?.map_or_else(|| Ok(String::new()), |at| at.text(most))
    }

    pub(super) fn index(&self) -> ReadResult<usize> {
        self.value.as_u64().and_then(|n| usize::try_from(n).ok()).map_or_else(|| self.wrong("a whole number"), Ok)
    }

    /// One of a fixed set of values by their names; the default where it is missing.
    pub(super) fn pick<T: Copy + Default>(&self, key: &str, names: &[&str], all: &[T]) -> ReadResult<T> {
        let at = self.get(key)?;
        let place = at.map_or(Ok(None), |at| at.place_among(names).map(Some))?;
        Ok(place.and_then(|place| all.get(place).copied()).unwrap_or_default())
    }

    /// The place of a name in a fixed set.
    pub(super) fn place_among(&self, names: &[&str]) -> ReadResult<usize> {
        let place = names.iter().position(|name| self.value.as_str() == Some(name));
        place.map_or_else(|| self.wrong(format!("one of {}", names.join(", "))), Ok)
    }

    /// A decimal as text under `key`, and what was typed under `key_typed`.
    pub(super) fn typed<T: Quantity>(&self, key: &str, example: &str) -> ReadResult<Typed<T>> {
        let typed = self.text_or_empty(&format!("{key}_typed"), MOST_NAME)?;
        let Some(at) = self.get(key)? else { return Ok(Typed::new(typed)) };
        let text = at.value.as_str().unwrap_or_default();
        let Ok(value) = T::from_canonical(text) else {
            return at.wrong(format!("a decimal as text, such as \"{example}\""));
        };
        let kept = [typed.as_str(), text].into_iter().map(Typed::<T>::new).find(|typed| typed.value() == Some(value));
        Ok(kept.unwrap_or_else(|| Typed::of(value)))
    }
}

pub(super) fn parse(text: &str) -> ReadResult<Value> {
    serde_json::from_str(text).map_err(|error| ReadProblem {
        path: "$".into(),
        found: format!("text that is no JSON at line {} column {}", error.line(), error.column()),
        expected: "a Hundred Parts document".into(),
    })
}

pub(super) fn check_head(root: &JsonCursor<'_>) -> ReadResult<()> {
    let format = root.need("format", "\"hundred-parts\"")?;
    if format.value.as_str() != Some(FORMAT) {
        return format.wrong("\"hundred-parts\"");
    }
    let version = root.need("version", "1")?;
    if version.value.as_u64() == Some(VERSION) {
        Ok(())
    } else {
        version.wrong("version 1: this program knows no newer one")
    }
}
