//! Which entries of the annexes of Regulation (EC) No 1223/2009 list a name or a number.
//!
//! The names are those of the room of law: of the glossary, the identified ingredients, and of the chemical names those that
//! someone would write. What cannot be read there is left as it stands, never corrected.

use std::borrow::Cow;

use super::key::key;
use super::plain::plain;
use super::titled::titled;
use crate::facts::{Gradual, InPieces};
use crate::law::{self, AnnexEntry};
use crate::quantity::sort_by;

/// A name that an entry lists.
#[derive(Clone)]
pub(super) struct ListedName {
    pub(super) key: String,
    /// The name as it stands there, in the letters of the nomenclature.
    pub(super) name: Cow<'static, str>,
    /// The one ingredient that the entry is about, where the name is another one of it.
    pub(super) means: Option<Cow<'static, str>>,
    pub(super) entry: &'static AnnexEntry,
}

struct Annexes {
    names: Vec<ListedName>,
    /// Whole chemical names by their keys, which nobody misspells and looks for.
    chemicals: Vec<(String, &'static AnnexEntry)>,
    numbers: Vec<(String, &'static AnnexEntry)>,
    /// Entries that are not taken in yet.
    left: &'static [AnnexEntry],
    is_sorted: bool,
}

/// The longest chemical name that someone would write, and the longest that is looked for whole.
const MOST_WRITTEN: usize = 34;
const MOST_WHOLE: usize = 160;

static ANNEXES: Gradual<Annexes> = Gradual::new();

/// Builds a piece of the table; false once it is whole.
pub(super) fn build() -> bool {
    ANNEXES.build()
}

/// Entries in one piece.
const PIECE: usize = 100;

impl InPieces for Annexes {
    fn begin() -> Self {
        let left = law::shipped().map(law::Law::entries).unwrap_or_default();
        Self { names: Vec::new(), chemicals: Vec::new(), numbers: Vec::new(), left, is_sorted: false }
    }

    fn build(&mut self) -> bool {
        if self.is_sorted {
            return false;
        }
        if self.left.is_empty() {
            sort_by(&mut self.names, |a, b| a.key.cmp(&b.key));
            sort_by(&mut self.chemicals, |a, b| a.0.cmp(&b.0));
            sort_by(&mut self.numbers, |a, b| a.0.cmp(&b.0));
            self.is_sorted = true;
        }
        let (some, left) = self.left.split_at(PIECE.min(self.left.len()));
        self.left = left;
        some.iter().for_each(|entry| self.add(entry));
        true
    }
}

impl Annexes {
    fn add(&mut self, entry: &'static AnnexEntry) {
        if entry.is_gone() {
            return;
        }
        let listed: Vec<Cow<'static, str>> =
            entry.ingredient_names().map(|name| titled(name.trim_matches(SIGNS))).collect();
        let common = common_names(&entry.chemical);
        // The one ingredient may be a salt, where the entry is about all of them.
        let several = ["salt", "ester", "derivative", "isomer"].iter().any(|word| entry.chemical.contains(word));
        let only = match listed.as_slice() {
            [] => common.first(),
            [one] if !several => Some(one),
            _ => None,
        };
        for name in listed.iter().chain(&common) {
            let means = only.filter(|only| *only != name).cloned();
            self.names.push(ListedName { key: key(&plain(name)), name: name.clone(), means, entry });
        }
        if entry.chemical.len() <= MOST_WHOLE {
            self.chemicals.push((key(&plain(&entry.chemical)), entry));
        }
        self.numbers.extend(entry.cas_numbers().map(|number| (number, entry)));
    }
}

/// Signs that the files leave around names.
const SIGNS: [char; 3] = [',', '.', ' '];

/// Of a chemical name the parts that someone would write: no mixtures, fractions of oil or long names of structure.
fn common_names(cell: &str) -> Vec<Cow<'static, str>> {
    const PETROLEUM: [&str; 8] =
        ["petroleum", "coal)", "shale", "gases", "distillates", "residues", "extracts (", "hydrocarbons"];
    const TAILS: [&str; 9] =
        [" and its ", ", its salts", " and their ", ", except", ", if ", " when used", " (CAS", ", with ", " (*)"];
    let lower = cell.to_lowercase();
    if PETROLEUM.iter().any(|word| lower.contains(word)) {
        return Vec::new();
    }
    let mut text = cell.replace('\n', " ");
    for mark in ["(INNM)", "(INN)", "(ISO)", "(INCI)", "[1]", "[2]", "[3]", "[4]", "[5]", "[6]"] {
        text = text.replace(mark, "");
    }
    let text = TAILS.iter().fold(text.as_str(), |text, tail| text.split(tail).next().unwrap_or_default());
    let mut parts: Vec<String> = Vec::new();
    for part in text.split(';').flat_map(|part| part.split(" / ")) {
        let name = part.split_whitespace().collect::<Vec<_>>().join(" ");
        match name.strip_suffix(')').and_then(|name| name.rsplit_once(" (")) {
            Some((outside, inside)) if inside.len() > 4 => parts.extend([outside.to_owned(), inside.to_owned()]),
            _ => parts.push(name),
        }
    }
    parts.retain(|name| (4..=MOST_WRITTEN).contains(&name.len()) && name.is_ascii());
    parts.into_iter().map(Cow::Owned).collect()
}

/// All names that someone would write, sorted by key.
pub(super) fn names() -> &'static [ListedName] {
    &ANNEXES.whole().names
}

/// The names with a key.
pub(super) fn named(key: &str) -> impl Iterator<Item = &'static ListedName> {
    equal(&ANNEXES.whole().names, |listed| listed.key.as_str().cmp(key)).iter()
}

/// The entries that list a key.
pub(super) fn entries_named(key: &str) -> impl Iterator<Item = &'static AnnexEntry> {
    let whole = equal(&ANNEXES.whole().chemicals, |(known, _)| known.as_str().cmp(key));
    named(key).map(|listed| listed.entry).chain(whole.iter().map(|(_, entry)| *entry))
}

/// The entries that list a CAS number.
pub(super) fn entries_numbered(cas: &str) -> impl Iterator<Item = &'static AnnexEntry> {
    equal(&ANNEXES.whole().numbers, |(number, _)| number.as_str().cmp(cas)).iter().map(|(_, entry)| *entry)
}

/// The part of a sorted list that a test finds equal.
fn equal<T>(sorted: &[T], test: impl Fn(&T) -> core::cmp::Ordering) -> &[T] {
    let start = sorted.partition_point(|one| test(one).is_lt());
    let end = sorted.partition_point(|one| test(one).is_le());
    sorted.get(start..end).unwrap_or_default()
}
