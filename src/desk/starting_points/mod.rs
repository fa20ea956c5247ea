//! Formulas to start from, beside the empty one: for which skin and climate each is made, and why.
//!
//! `starting-points.json` holds them as documents of the open format, each with its `key`, with `why` in one sentence, and with
//! how well it fits each of `skins` and `climates`, from 1 to 3 (what is not named there: 0). They are invented, to be changed;
//! what goes into them, how much of it, and what they fit: common practice, no source.
//!
//! Their text belongs to the second part of the page: nothing of the first may ask for it.

#[cfg(test)]
mod tests;

use super::Document;
use super::read::document_of_tables;
use super::read_cursor::{JsonCursor, ReadResult, parse};
use super::texts::{MOST_NAME, MOST_NOTE};
use crate::quantity::keyed;
use core::cmp::Reverse;

keyed! {
    /// For which skin.
    Skin {
        /// Dry skin.
        Dry = "dry",
        /// Normal skin.
        Normal = "normal",
        /// Oily skin.
        Oily = "oily",
        /// Sensitive skin.
        Sensitive = "sensitive",
    }
}

keyed! {
    /// In which climate.
    Climate {
        /// Cold and dry air.
        ColdDry = "cold-dry",
        /// Neither.
        Temperate = "temperate",
        /// Hot and humid air.
        HotHumid = "hot-humid",
    }
}

/// How well it fits one kind of skin, or one climate.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Fit<T> {
    of: T,
    /// From 1 to 3.
    grade: u64,
}

/// The best grade.
const BEST: u64 = 3;
/// From this grade on it is said to suit.
const SUITS: u64 = 2;

/// A formula to start from.
#[derive(Debug, Clone, PartialEq)]
pub struct StartingPoint {
    /// Its key, which never changes.
    pub key: String,
    /// The formula with its plan, under its own title: a document of its own wherever it is used.
    pub document: Document,
    /// Why it suits, in a sentence or two.
    pub why: String,
    skins: Vec<Fit<Skin>>,
    climates: Vec<Fit<Climate>>,
}

impl StartingPoint {
    /// The kinds of skin that it suits, the best suited first.
    pub fn skins(&self) -> Vec<Skin> {
        suits(&self.skins)
    }

    /// The climates that it suits, the best suited first; none where that makes no difference.
    pub fn climates(&self) -> Vec<Climate> {
        suits(&self.climates)
    }

    /// How well it fits both: what fits one of them well and the other not at all stands behind what fits both fairly.
    fn fit(&self, skin: Skin, climate: Climate) -> u64 {
        (1 + grade(&self.skins, skin)) * (1 + grade(&self.climates, climate))
    }
}

fn grade<T: PartialEq>(fits: &[Fit<T>], of: T) -> u64 {
    fits.iter().find(|fit| fit.of == of).map_or(0, |fit| fit.grade)
}

fn suits<T: Copy>(fits: &[Fit<T>]) -> Vec<T> {
    let mut suited: Vec<_> = fits.iter().filter(|fit| fit.grade >= SUITS).collect();
    suited.sort_by_key(|fit| Reverse(fit.grade));
    suited.into_iter().map(|fit| fit.of).collect()
}

/// All of them, in the order of the file.
pub fn starting_points() -> Vec<StartingPoint> {
    // A test sees to it that each can be read.
    read_all(include_str!("starting-points.json")).into_iter().filter_map(Result::ok).collect()
}

/// All of them, those that fit best first.
pub fn suited(skin: Skin, climate: Climate) -> Vec<StartingPoint> {
    let mut points = starting_points();
    points.sort_by_key(|point| Reverse(point.fit(skin, climate)));
    points
}

fn read_all(text: &str) -> Vec<ReadResult<StartingPoint>> {
    let points = parse(text).and_then(|value| {
        let root = JsonCursor { value: &value, path: "$".into() };
        Ok(root.need("starting_points", "a list")?.list(MOST)?.iter().map(one).collect())
    });
    points.unwrap_or_else(|problem| vec![Err(problem)])
}

/// More than anybody reads through.
const MOST: usize = 100;

fn one(at: &JsonCursor<'_>) -> ReadResult<StartingPoint> {
    Ok(StartingPoint {
        key: at.need("key", "a key")?.text(MOST_NAME)?,
        document: document_of_tables(at)?,
        why: at.need("why", "a sentence")?.text(MOST_NOTE)?,
        skins: fits(&at.need("skins", "grades of skins")?, Skin::from_key)?,
        climates: fits(&at.need("climates", "grades of climates")?, Climate::from_key)?,
    })
}

fn fits<T>(at: &JsonCursor<'_>, from_key: impl Fn(&str) -> Option<T>) -> ReadResult<Vec<Fit<T>>> {
    let one = |(key, value): (&String, &serde_json::Value)| {
        let grade = value.as_u64().filter(|grade| (1..=BEST).contains(grade));
        Some(Fit { of: from_key(key)?, grade: grade? })
    };
    let all: Option<Vec<_>> = at.object()?.iter().map(one).collect();
    all.map_or_else(|| at.wrong("known keys with grades from 1 to 3"), Ok)
}
