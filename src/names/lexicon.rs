//! All names that are known, by key: those of the tables of facts, of `data/synonyms.csv` and `data/inci.csv`, and those that
//! the annexes list; and the numbers of all of them.
//!
//! `synonyms.csv` holds further names of what the tables have: `means` is the id of an ingredient or `allergen:` and the name
//! on labels; several with `|` between them where the name alone does not tell which. `inci.csv` holds substances that are in
//! no table, so that they are told apart from those that are. `cas.csv` holds the numbers.

use std::borrow::Cow;
use std::sync::LazyLock;

use super::isomers::position;
use super::key::key;
use super::plain::plain;
use super::reading::{Meaning, Sureness};
use super::statement_names::statement_names;
use super::{FILE, annexes, is_ready};
use crate::facts::{CsvTable, Gradual, InPieces, MaterialNames, allergens, material_names};
use crate::quantity::sort_by;

/// What a name or a number stands for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct NameHit {
    /// One meaning, or several where it does not say which.
    pub(super) means: Vec<Meaning>,
    pub(super) sureness: Sureness,
    /// Certain only where this is false and there is one meaning.
    pub(super) ask: bool,
}

impl NameHit {
    pub(super) fn new(means: Meaning, sureness: Sureness) -> Self {
        Self { means: vec![means], sureness, ask: false }
    }

    pub(super) fn is_certain(&self) -> bool {
        !self.ask && self.means.len() == 1
    }

    /// The same, no surer than this.
    pub(super) fn at_most(mut self, sureness: Sureness) -> Self {
        self.sureness = self.sureness.max(sureness);
        self
    }

    /// The same, as a question.
    pub(super) fn asked(mut self) -> Self {
        self.ask = true;
        self
    }
}

/// One name.
#[derive(Clone)]
struct KnownName {
    key: String,
    means: Meaning,
    exact: bool,
    ask: bool,
    /// Prefixes of position under which it is the same.
    positions: Vec<&'static str>,
    /// One of them must be there.
    positioned: bool,
}

/// Everything that can be looked up.
struct Lexicon {
    names: Vec<KnownName>,
    numbers: Vec<(&'static str, Meaning)>,
    /// Ingredients that are also an allergen of the label.
    both: Vec<(&'static str, &'static str)>,
    /// The names as the tables write them.
    written: Vec<&'static str>,
    /// How many pieces of it are built.
    pieces: usize,
}

static SYNONYMS: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(FILE.text("data/synonyms.csv")));
static OTHERS: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(FILE.text("data/inci.csv")));
pub(super) static NUMBERS: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(FILE.text("data/cas.csv")));
static LEXICON: Gradual<Lexicon> = Gradual::new();

/// Builds a piece of the table; false once it is whole.
pub(super) fn build() -> bool {
    LEXICON.build()
}

/// What a key stands for.
pub(super) fn find(key: &str) -> Option<NameHit> {
    find_placed(key, &[])
}

/// What a key stands for whose prefixes of position were taken off.
pub(super) fn find_placed(key: &str, positions: &[&str]) -> Option<NameHit> {
    let all = range(&LEXICON.whole().names, |name| name.key.as_str().cmp(key));
    let taken = all.iter().filter(|name| name.takes(positions));
    let mut hit = NameHit { means: Vec::new(), sureness: Sureness::Exact, ask: false };
    for name in taken {
        hit.ask |= name.ask;
        hit.sureness = hit.sureness.max(if name.exact { Sureness::Exact } else { Sureness::Synonym });
        hit.means.push(name.means.clone());
    }
    LEXICON.whole().settle(&mut hit);
    (!hit.means.is_empty()).then_some(hit)
}

/// The same by its name on labels, where an ingredient of the table is an allergen of the label, too.
pub fn as_label(means: &Meaning) -> Meaning {
    if !is_ready() {
        return means.clone();
    }
    let label =
        LEXICON.whole().both.iter().find(|(id, _)| means.id() == Some(*id)).map(|(_, name)| Meaning::Allergen(name));
    label.unwrap_or_else(|| means.clone())
}

/// What a number of the registry or the inventory stands for.
pub(super) fn numbered(number: &str) -> Option<NameHit> {
    let all = range(&LEXICON.whole().numbers, |(known, _)| (*known).cmp(number));
    let means = all.iter().map(|(_, means)| means.clone()).collect();
    let mut hit = NameHit { means, sureness: Sureness::Number, ask: false };
    LEXICON.whole().settle(&mut hit);
    (!hit.means.is_empty()).then_some(hit)
}

/// The key of a name by its place.
pub(super) fn key_at(at: usize) -> Option<&'static str> {
    LEXICON.whole().names.get(at).map(|name| name.key.as_str())
}

/// The names as the tables write them.
pub(super) fn written() -> impl Iterator<Item = &'static str> {
    LEXICON.whole().written.iter().copied()
}

/// The keys of the names that need no prefix of position, with their places.
pub(super) fn plain_keys() -> impl Iterator<Item = (usize, &'static str)> {
    let names = LEXICON.whole().names.iter().enumerate();
    names.filter(|(_, name)| !name.positioned && name.positions.is_empty()).map(|(at, name)| (at, name.key.as_str()))
}

/// Leaves of several meanings of one name the nearest.
pub(super) fn settle(hit: &mut NameHit) {
    LEXICON.whole().settle(hit);
}

/// The keys of the names that are exactly a meaning's own.
pub(super) fn exact_names(means: &Meaning) -> Vec<&'static str> {
    let own = LEXICON.whole().names.iter().filter(|name| name.exact && !name.ask && name.means == *means);
    own.map(|name| name.key.as_str()).collect()
}

/// The numbers of a meaning.
pub(super) fn numbers_of(means: &Meaning) -> impl Iterator<Item = &'static str> {
    LEXICON.whole().numbers.iter().filter(move |(_, known)| known == means).map(|(number, _)| *number)
}

/// The part of a sorted list that a test finds equal.
pub(super) fn range<T>(sorted: &[T], test: impl Fn(&T) -> core::cmp::Ordering) -> &[T] {
    let start = sorted.partition_point(|one| test(one).is_lt());
    let end = sorted.partition_point(|one| test(one).is_le());
    sorted.get(start..end).unwrap_or_default()
}

impl KnownName {
    fn new(name: &str, means: Meaning, exact: bool) -> Self {
        Self { key: key(&plain(name)), means, exact, ask: false, positions: Vec::new(), positioned: false }
    }

    fn takes(&self, positions: &[&str]) -> bool {
        positions.iter().all(|one| self.positions.contains(one)) && !(self.positioned && positions.is_empty())
    }
}

impl InPieces for Lexicon {
    fn begin() -> Self {
        Self { names: Vec::new(), numbers: Vec::new(), both: Vec::new(), written: Vec::new(), pieces: 0 }
    }

    fn build(&mut self) -> bool {
        const PIECES: [fn(&mut Lexicon); 8] = [
            Lexicon::add_materials,
            Lexicon::add_allergens,
            Lexicon::add_synonyms,
            Lexicon::add_others,
            Lexicon::add_annexes,
            Lexicon::add_numbers,
            |all| {
                all.names.retain(|name| !name.key.is_empty());
                sort_by(&mut all.names, |a, b| (&a.key, &a.means).cmp(&(&b.key, &b.means)));
            },
            |all| {
                sort_by(&mut all.numbers, |a, b| (a.0, &a.1).cmp(&(b.0, &b.1)));
                all.numbers.dedup();
                all.find_both();
            },
        ];
        let Some(piece) = PIECES.get(self.pieces) else { return false };
        self.pieces += 1;
        piece(self);
        true
    }
}

impl Lexicon {
    fn add(&mut self, name: &'static str, means: Meaning, exact: bool) {
        self.written.push(name);
        self.names.push(KnownName::new(name, means, exact));
    }

    /// The name of a substance that is in no table, as itself.
    fn add_inci(&mut self, means: &Meaning) {
        if let Meaning::Inci(Cow::Borrowed(name)) = means {
            self.add(name, means.clone(), true);
        }
    }

    fn add_materials(&mut self) {
        let groups = |row: &MaterialNames| row.inci.is_empty() && row.also.iter().any(|name| is_inci(name));
        // A substance with a row of its own is itself, and not the solution of it that a maker buys.
        let others: Vec<&str> = OTHERS.rows().filter_map(|row| row.get("inci").ok()).collect();
        for row in material_names().filter(|row| !groups(row)) {
            let means = Meaning::Material(row.id);
            if !row.name.contains(" + ") {
                self.add(row.name, means.clone(), true);
                if let Some((name, _)) = row.name.split_once(" (") {
                    self.add(name, means.clone(), true);
                }
            }
            for name in row.also {
                self.add(name, means.clone(), false);
            }
            let parts: Vec<_> = row.inci.split("; ").filter(|part| *part != "Aqua" || row.inci == "Aqua").collect();
            if let [one] = parts.as_slice() {
                for name in one.split(" or ").filter(|name| !others.contains(name)) {
                    self.add(name, means.clone(), true);
                }
            }
        }
    }

    fn add_allergens(&mut self) {
        for row in allergens() {
            let means = Meaning::Allergen(row.name);
            for name in core::iter::once(&row.name).chain(&row.also) {
                self.add(name, means.clone(), true);
            }
            self.numbers.extend(row.cas.iter().map(|cas| (*cas, means.clone())));
        }
        for row in statement_names() {
            let means = label_name(row.means);
            self.written.push(row.name);
            self.numbers.extend(row.cas.iter().map(|cas| (*cas, means.clone())));
            let positions = row.positions.iter().filter_map(|one| position(one)).collect();
            self.names.push(KnownName {
                positions,
                positioned: row.positioned,
                ..KnownName::new(row.name, means.clone(), false)
            });
            self.names.push(KnownName::new(row.means, means, true));
        }
    }

    fn add_synonyms(&mut self) {
        for row in SYNONYMS.rows() {
            let (Ok(means), Ok(names)) = (row.get("means"), row.get("names")) else { continue };
            let all: Vec<_> = means.split('|').map(meaning).collect();
            if let [one] = all.as_slice() {
                self.add_inci(one);
            }
            for name in names.split("; ") {
                self.written.push(name);
                for means in &all {
                    let ask = all.len() > 1;
                    self.names.push(KnownName { ask, ..KnownName::new(name, means.clone(), false) });
                }
            }
        }
    }

    fn add_others(&mut self) {
        for row in OTHERS.rows() {
            let (Ok(inci), Ok(names), Ok(cas)) = (row.get("inci"), row.get("names"), row.get("cas")) else { continue };
            let means = Meaning::Inci(Cow::Borrowed(inci));
            self.add(inci, means.clone(), true);
            for name in names.split("; ") {
                self.add(name, means.clone(), false);
            }
            self.numbers.extend(cas.split(' ').filter(|cas| !cas.is_empty()).map(|cas| (cas, means.clone())));
        }
    }

    fn add_annexes(&mut self) {
        for listed in annexes::names() {
            self.written.push(&listed.name);
            // The parts of a blend have names of their own.
            if listed.name.to_lowercase().contains("(and)") {
                continue;
            }
            // Where an entry tells of which ingredient it is another name, the others need not.
            let told = listed.means.is_none() && annexes::named(&listed.key).any(|other| other.means.is_some());
            if told {
                continue;
            }
            self.names.push(KnownName {
                key: listed.key.clone(),
                means: Meaning::Inci(listed.means.as_ref().unwrap_or(&listed.name).clone()),
                exact: listed.means.is_none(),
                ask: false,
                positions: Vec::new(),
                positioned: false,
            });
        }
    }

    fn add_numbers(&mut self) {
        for row in NUMBERS.rows() {
            let (Ok(means), Ok(part), Ok(cas), Ok(ec)) =
                (row.get("means"), row.get("part"), row.get("cas"), row.get("ec"))
            else {
                continue;
            };
            let means = meaning(means);
            self.add_inci(&means);
            if !part.is_empty() {
                self.add(part, means.clone(), true);
            }
            let numbers = cas.split(' ').chain(ec.split(' ')).filter(|number| number.len() > 1);
            self.numbers.extend(numbers.map(|number| (number, means.clone())));
        }
    }

    fn find_both(&mut self) {
        let mut both = Vec::new();
        for same in self.names.chunk_by(|one, other| one.key == other.key) {
            for one in same.iter().filter(|one| one.exact) {
                let Meaning::Material(id) = one.means else { continue };
                both.extend(same.iter().filter_map(|other| match other.means {
                    Meaning::Allergen(name) if other.exact => Some((id, name)),
                    _ => None,
                }));
            }
        }
        both.dedup();
        self.both = both;
    }

    /// Leaves of several meanings of one name the nearest: an ingredient of the table before the allergen that it is too, and
    /// either before a bare INCI name.
    fn settle(&self, hit: &mut NameHit) {
        let means = &mut hit.means;
        means.sort_unstable();
        means.dedup();
        if hit.ask {
            return;
        }
        if means.iter().any(|one| !matches!(one, Meaning::Inci(_))) {
            means.retain(|one| !matches!(one, Meaning::Inci(_)));
        } else {
            // The annexes write some names in several ways.
            sort_by(means, |a, b| {
                let form = |one: &Meaning| (key(&one.text().to_lowercase()), one.text().len());
                form(a).cmp(&form(b))
            });
            means.dedup_by(|later, earlier| key(&later.text().to_lowercase()) == key(&earlier.text().to_lowercase()));
        }
        let ids: Vec<_> = means.iter().filter_map(Meaning::id).collect();
        means.retain(|one| match one {
            Meaning::Allergen(name) => !self.both.iter().any(|(id, label)| label == name && ids.contains(id)),
            _ => true,
        });
    }
}

fn is_inci(name: &str) -> bool {
    material_names().any(|row| row.inci.split("; ").any(|part| part == name))
}

/// A name of the statement's table: a label name where an allergen has it.
fn label_name(name: &'static str) -> Meaning {
    let own = || material_names().find(|row| row.inci == name).map(|row| Meaning::Material(row.id));
    match allergens().iter().find(|row| row.name == name) {
        Some(row) => Meaning::Allergen(row.name),
        None => own().unwrap_or(Meaning::Inci(Cow::Borrowed(name))),
    }
}

/// The meaning that a cell of a table writes.
pub(super) fn meaning(cell: &'static str) -> Meaning {
    match cell.split_once(':') {
        Some(("allergen", name)) => Meaning::Allergen(name),
        Some(("inci", name)) => Meaning::Inci(Cow::Borrowed(name)),
        _ => Meaning::Material(cell),
    }
}
