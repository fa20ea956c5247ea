//! Fatty acids as laboratories and suppliers write them: shorthand with places and shapes of double bonds, trivial and
//! systematic names.
//!
//! `data/fatty-acids.csv` holds names by shorthand; a number behind a name counts the carbons from the last double bond
//! to the end (n-9), `any` holds names that say nothing of it. Three rows are no acids: words for what was not told
//! apart, for sums of groups, and for other figures on the same paper. What is not understood gives nothing: the caller
//! says so.

use std::sync::LazyLock;

use super::acid_told::Told;
use crate::facts::{CsvRow, CsvTable, FattyAcid, RowProblem, read_sources, sources_of};

/// How the double bonds of an acid lie, and what else is on its chain.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Form {
    /// One CH₂ between double bonds, as in most oils, or nothing is said.
    Plain,
    /// Double bonds side by side.
    Conjugated,
    /// So many pairs of them have one CH₂ between them, the others lie farther apart.
    Apart(u8),
    /// A hydroxy group.
    Hydroxy,
    /// An epoxy group.
    Epoxy,
}

/// An acid.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct NamedAcid {
    /// The column in which it counts, if it has one.
    pub(crate) column: Option<FattyAcid>,
    pub(crate) carbons: u8,
    pub(crate) bonds: u8,
    pub(crate) form: Form,
    /// Its row's key, where it has no column; empty if it has no row either.
    pub(crate) kind: &'static str,
    /// Which of its isomers it is; empty if that is not said.
    pub(crate) isomer: String,
    /// Stands for all of its isomers.
    pub(crate) total: bool,
}

/// What a name on a supplier's paper stands for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Word {
    Acid(NamedAcid),
    /// What was not told apart.
    Rest,
    /// A sum of several acids, which stand there by themselves.
    Group,
    /// Another figure of the paper.
    Figure,
}

struct TableName {
    letters: String,
    key: &'static str,
    family: Option<u8>,
    any: bool,
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/fatty-acids.csv")));
static SOURCES: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/fatty-acid-sources.csv")));
static NAMES: LazyLock<(Vec<Vec<TableName>>, Vec<RowProblem>)> = LazyLock::new(|| {
    let sources = read_sources(&SOURCES);
    TABLE.parse(|row| read_row(row, &sources))
});

fn read_row(row: CsvRow<'static>, sources: &[(&str, &'static str)]) -> Result<Vec<TableName>, RowProblem> {
    let key = row.get("key")?;
    sources_of(row, sources)?;
    if key.contains(':') && shorthand(key).is_none() {
        return Err(row.wrong_cell("key", key, "shorthand of an acid"));
    }
    let mut names = Vec::new();
    for (column, any) in [("names", false), ("any", true)] {
        for name in row.get(column)?.split("; ").filter(|name| !name.is_empty()) {
            let letters: String = name.chars().filter(char::is_ascii_alphabetic).collect();
            let family = name.rsplit(' ').next().and_then(|last| last.parse().ok());
            names.push(TableName { letters, key, family, any });
        }
    }
    Ok(names)
}

fn named(letters: &str) -> Option<&'static TableName> {
    NAMES.0.iter().flatten().find(|name| name.letters == letters)
}

fn shorthand(key: &str) -> Option<NamedAcid> {
    resolve(&Told::of(key)?, None)
}

/// What a text without its share stands for: `C18:1 n-9 cis`, `18:3n3`, `alpha-linolenic acid`, `(9Z,12Z)-octadeca-9,12-dienoic
/// acid`, `Oleic acid (C18:1)`, `total trans fatty acids`.
pub(crate) fn read_word(text: &str) -> Option<Word> {
    let mut told = Told::of(text)?;
    let names = told.names()?;
    let first = names.first().map(|name| name.key);
    // What stands behind the name of a figure or of free acids says how it was measured.
    let free = names.iter().any(|name| matches!(name.letters.as_str(), "ffa" | "free"));
    match first {
        Some("figure") => return Some(Word::Figure),
        _ if free => return Some(Word::Group),
        None if told.shape.is_none() => {
            let group = told.places.is_empty() && (told.family.is_some() || told.bent || told.total);
            return group.then_some(Word::Group);
        }
        Some(key @ ("rest" | "group")) if told.shape.is_none() && names.iter().all(|name| name.key == key) => {
            return Some(if key == "rest" { Word::Rest } else { Word::Group });
        }
        _ => {}
    }
    let mut resolved = names.iter().map(|name| resolve(&told, Some(name)));
    let Some(first) = resolved.next() else { return resolve(&told, None).map(Word::Acid) };
    // Several names must be those of one acid; the one that says most counts.
    let one = resolved.try_fold(first?, |known, other| {
        let other = other?;
        let same = (known.carbons, known.bonds, known.form) == (other.carbons, other.bonds, other.form);
        same.then_some(if known.isomer.len() >= other.isomer.len() { known } else { other })
    })?;
    Some(Word::Acid(one))
}

impl Told {
    /// The rows of its words, the longest runs of words first; nothing if one of them is in no row.
    fn names(&mut self) -> Option<Vec<&'static TableName>> {
        let words = core::mem::take(&mut self.words);
        let (mut names, mut at) = (Vec::new(), 0);
        while at < words.len() {
            let run = (at + 1..=words.len()).rev().find_map(|end| {
                let letters = words[at..end].concat();
                let acid = || self.ester.then(|| letters.strip_suffix("ate").map(|stem| format!("{stem}ic"))).flatten();
                let name = named(&letters).or_else(|| named(&acid()?))?;
                Some((end, name))
            });
            match (run, words[at].as_str()) {
                (Some((end, name)), _) => {
                    names.push(name);
                    at = end;
                }
                (None, "alpha") if self.shape.is_some() => (self.greek, at) = (Some('a'), at + 1),
                (None, "gamma") if self.shape.is_some() => (self.greek, at) = (Some('g'), at + 1),
                _ => return None,
            }
        }
        Some(names)
    }
}

/// One acid from all that was told of it; nothing where that contradicts itself.
fn resolve(told: &Told, name: Option<&'static TableName>) -> Option<NamedAcid> {
    let known = name.map(|name| shorthand(name.key));
    let known = match known {
        None => None,
        Some(known) => Some(known?),
    };
    let shape = (known.as_ref().map(|known| (known.carbons, known.bonds)), told.shape);
    let (carbons, bonds) = match shape {
        (Some(by_name), Some(by_number)) if by_name != by_number => return None,
        (Some(shape), _) | (None, Some(shape)) => shape,
        (None, None) => return None,
    };
    let form = known.as_ref().map(|known| known.form).filter(|form| *form != Form::Plain).or(told.form);
    let (form, by_places) = match form {
        Some(form) => (form, None),
        None => form_of(told, carbons, bonds)?,
    };
    let stated = told.family.or(by_places);
    let by_name = name.and_then(|name| name.family);
    // `oleic n-6` is none; a trans isomer keeps the name's family.
    if stated.zip(by_name).is_some_and(|(stated, by_name)| stated != by_name) {
        return None;
    }
    let family = stated.or(by_name);
    if bonds == 0 && (family.is_some() || !told.bends.is_empty()) {
        return None;
    }
    let fits = |family: u8| family > 0 && i32::from(carbons) - i32::from(family) - 3 * (i32::from(bonds) - 1) >= 2;
    if form == Form::Plain && family.is_some_and(|family| !fits(family)) {
        return None;
    }
    let gamma =
        told.greek == Some('g') || known.as_ref().is_some_and(|known| known.column == Some(FattyAcid::GammaLinolenic));
    let column = column((carbons, bonds), form, family, gamma);
    let own = name.filter(|name| !name.any && name.family.is_none()).map(|name| name.letters.as_str());
    Some(NamedAcid {
        column,
        carbons,
        bonds,
        form,
        kind: match name.zip(known) {
            _ if column.is_some() => "",
            Some((name, known)) if known.form == form => name.key,
            _ => kind(carbons, bonds, form),
        },
        isomer: isomer(told, family, own.filter(|_| bonds > 0)),
        total: told.total,
    })
}

/// How the double bonds lie, and the family that follows from their places.
fn form_of(told: &Told, carbons: u8, bonds: u8) -> Option<(Form, Option<u8>)> {
    // `(9Z)-octadec-9-enoic`: said twice.
    let half = told.places.len() / 2;
    let twice = half == usize::from(bonds) && told.places.get(..half) == told.places.get(half..);
    let places = if twice && half > 0 { &told.places[half..] } else { told.places.as_slice() };
    if places.is_empty() {
        return Some((Form::Plain, None));
    }
    if bonds == 0 || places.len() != usize::from(bonds) || places.iter().any(|place| *place < 2 || *place >= carbons) {
        return None;
    }
    let gaps: Vec<i32> = places.windows(2).map(|pair| i32::from(pair[1]) - i32::from(pair[0])).collect();
    let family = places.last().map(|last| carbons - last);
    if gaps.iter().any(|gap| *gap < 2) {
        return None;
    }
    if gaps.contains(&2) {
        return Some((Form::Conjugated, family));
    }
    let near = gaps.iter().filter(|gap| **gap == 3).count();
    let form = if near == gaps.len() { Form::Plain } else { Form::Apart(near as u8) };
    Some((form, family))
}

fn column(shape: (u8, u8), form: Form, family: Option<u8>, gamma: bool) -> Option<FattyAcid> {
    match (form, shape) {
        (Form::Hydroxy, (18, 1)) => Some(FattyAcid::Ricinoleic),
        (Form::Plain, (18, 3)) => match family {
            Some(3) if !gamma => Some(FattyAcid::AlphaLinolenic),
            Some(6) => Some(FattyAcid::GammaLinolenic),
            Some(_) => None,
            None if gamma => Some(FattyAcid::GammaLinolenic),
            None => Some(FattyAcid::AlphaLinolenic),
        },
        (Form::Plain, shape) => FattyAcid::ALL
            .into_iter()
            .find(|acid| *acid != FattyAcid::Ricinoleic && (acid.carbons(), acid.double_bonds()) == shape),
        _ => None,
    }
}

/// The key of the row of an acid without a column.
fn kind(carbons: u8, bonds: u8, form: Form) -> &'static str {
    let same = |key: &&'static str| {
        Told::of(key).is_some_and(|told| {
            let as_told = told.form.or_else(|| form_of(&told, carbons, bonds).map(|(form, _)| form));
            told.shape == Some((carbons, bonds)) && as_told == Some(form)
        })
    };
    TABLE.rows().filter_map(|row| row.get("key").ok()).find(same).unwrap_or_default()
}

fn isomer(told: &Told, family: Option<u8>, name: Option<&str>) -> String {
    let mut isomer = family.map(|family| format!("n{family}")).unwrap_or_default();
    if told.bends.contains('t') {
        isomer.push_str(&told.bends);
    }
    if let Some(greek) = told.greek {
        isomer.push(greek);
    }
    if told.branched {
        isomer.push_str("branched");
    }
    isomer + name.unwrap_or_default()
}
