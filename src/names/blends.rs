//! Texts that name several substances, and blends that are one ingredient of the table.

use std::sync::LazyLock;

use super::key::{key, words};
use super::lexicon::{NameHit, find};
use super::plain::plain;
use super::reading::Meaning;
use super::recogniser::{Effort, name};
use super::{plants, remarks, tongues};
use crate::facts::{MaterialNames, material_names};

/// The most pieces that are looked at.
const MOST_PIECES: usize = 24;
/// The most pieces that make one name: `1,2-hexanediol` are two at its comma.
const MOST_OF_ONE: usize = 4;

/// Several names of one text, as far as each was recognised.
pub(super) struct Several {
    /// The parts, each once.
    pub(super) parts: Vec<NameHit>,
    /// A piece that nobody knows.
    pub(super) unknown: Option<String>,
}

/// The pieces between signs and words that separate names.
fn pieces(text: &str) -> Vec<String> {
    let mut text = text.replace("(and)", ";").replace("and/or", ";");
    for word in [" and ", " und ", " et ", " in ", " with ", " mit ", " - ", "+", "&", "/", ",", ";", " y "] {
        text = text.replace(word, if word.trim() == "in" { "\u{1}in\u{1}" } else { "\u{1}" });
    }
    let pieces = text.split('\u{1}').map(str::trim).filter(|piece| !piece.is_empty() && *piece != "in");
    // What it has little of is no part of it.
    let little = |piece: &&str| piece.starts_with("low ") && !piece.contains("molecular");
    pieces.filter(|piece| !little(piece)).map(str::to_owned).take(MOST_PIECES + 1).collect()
}

/// The names that a text consists of.
pub(super) fn read(text: &str, effort: &mut Effort) -> Option<Several> {
    let text = &remarks::without_ratios(text);
    let mut pieces = pieces(text);
    if pieces.len() < 2 {
        // A hyphen between two names stands for a blend only where nothing else does.
        pieces = text.split('-').map(|piece| piece.trim().to_owned()).filter(|piece| !piece.is_empty()).collect();
    }
    if !(2..=MOST_PIECES).contains(&pieces.len()) {
        return None;
    }
    complete(&mut pieces);
    let mut several = Several { parts: Vec::new(), unknown: None };
    let mut at = 0;
    while at < pieces.len() {
        let most = MOST_OF_ONE.min(pieces.len() - at);
        let found = (1..=most).rev().find_map(|count| {
            let joined = pieces.get(at..at + count)?.join(" ");
            let hit = if count == 1 && tongues::is_metal(&joined) {
                // `silicate of magnesium and aluminum` is one salt.
                None
            } else if count == 1 {
                name(&remarks::tidy(&joined), effort)
            } else {
                find(&key(&joined)).filter(|hit| !hit.means.iter().any(is_blend))
            };
            hit.map(|hit| (hit, count))
        });
        match found {
            Some((hit, count)) => {
                several.add(hit);
                at += count;
            }
            None => {
                // Where a substance came from, behind its name.
                let source = |piece: &String| at > 0 && plants::is_bare(&words(piece).collect::<Vec<_>>());
                if let Some(piece) = pieces.get(at).filter(|piece| !remarks::is_remark(piece) && !source(piece)) {
                    several.unknown.get_or_insert_with(|| piece.clone());
                }
                at += 1;
            }
        }
    }
    (!several.parts.is_empty()).then_some(several)
}

fn is_blend(means: &Meaning) -> bool {
    BLENDS.iter().any(|blend| means.id() == Some(blend.id))
}

/// Whether a number is that of a blend that a named substance is a part of.
pub(super) fn is_part_of(part: &NameHit, number: &NameHit) -> bool {
    !number.means.is_empty()
        && number.means.iter().all(|one| BLENDS.iter().any(|blend| one.id() == Some(blend.id) && blend.holds(part)))
}

/// A text whose pieces are all names of one substance.
pub(super) fn one(text: &str, effort: &mut Effort) -> Option<NameHit> {
    let several = read(text, effort)?;
    match (several.parts.as_slice(), several.unknown) {
        ([one], None) => Some(one.clone()),
        _ => None,
    }
}

/// `methyl-, ethyl- and propylparaben`, `CI 77491/77492`: what the first or the last piece has and the others leave out.
fn complete(pieces: &mut [String]) {
    if let Some((head, _)) = pieces.first().and_then(|first| first.split_once(' ')).filter(|(head, _)| *head == "ci") {
        let head = head.to_owned();
        for piece in pieces.iter_mut().filter(|piece| piece.len() == 5 && piece.chars().all(|c| c.is_ascii_digit())) {
            *piece = format!("{head} {piece}");
        }
    }
    for at in 0..pieces.len() {
        let Some(stem) = pieces.get(at).and_then(|piece| piece.strip_suffix('-')).map(str::to_owned) else { continue };
        let whole = pieces.iter().skip(at + 1).find(|piece| !piece.ends_with('-')).cloned().unwrap_or_default();
        let ends = whole.char_indices().map(|(start, _)| whole.get(start..).unwrap_or_default());
        let full =
            ends.filter(|end| end.len() > 3).map(|end| format!("{stem}{end}")).find(|full| find(&key(full)).is_some());
        if let (Some(full), Some(piece)) = (full, pieces.get_mut(at)) {
            *piece = full;
        }
    }
}

impl Several {
    /// Adds a part, unless it is there; what a name said with several meanings, another name of the same may decide.
    fn add(&mut self, hit: NameHit) {
        for part in &mut self.parts {
            let common: Vec<_> = part.means.iter().filter(|one| hit.means.contains(one)).cloned().collect();
            if !common.is_empty() {
                part.ask = (part.ask && hit.ask) || common.len() > 1;
                part.means = common;
                part.sureness = part.sureness.max(hit.sureness);
                return;
            }
        }
        self.parts.push(hit);
    }

    /// The ingredients of the table that these parts are.
    pub(super) fn blends(&self) -> Vec<&'static str> {
        let inside: Vec<_> = self.parts.iter().flat_map(|part| &part.means).collect();
        let whole = BLENDS.iter().filter(|blend| blend.is_made_of(&self.parts)).map(|blend| blend.id);
        // A blend by its name, beside parts of it.
        let named = BLENDS.iter().filter(|blend| {
            inside.contains(&&Meaning::Material(blend.id))
                && self.parts.iter().all(|part| part.means.contains(&Meaning::Material(blend.id)) || blend.holds(part))
        });
        let mut ids: Vec<_> = whole.chain(named.map(|blend| blend.id)).collect();
        ids.sort_unstable();
        ids.dedup();
        ids
    }
}

/// An ingredient of the table that is a blend.
struct Blend {
    id: &'static str,
    parts: Vec<Vec<Meaning>>,
    /// Water and what else may be left out.
    carriers: Vec<Vec<Meaning>>,
}

static BLENDS: LazyLock<Vec<Blend>> = LazyLock::new(|| material_names().filter_map(Blend::of).collect());

impl Blend {
    fn of(row: MaterialNames) -> Option<Self> {
        let means = |part: &str| -> Vec<Meaning> {
            part.split(" or ").filter_map(|name| find(&key(&plain(name)))).flat_map(|hit| hit.means).collect()
        };
        let is_carrier = |part: &&str| *part == "Aqua" || part.contains(" or ");
        let all: Vec<&str> = row.inci.split("; ").collect();
        let carriers = all.iter().filter(|part| is_carrier(part)).map(|part| means(part)).collect();
        let parts: Vec<_> = all.iter().filter(|part| !is_carrier(part)).map(|part| means(part)).collect();
        (all.len() > 1 && !parts.iter().any(Vec::is_empty)).then_some(Self { id: row.id, parts, carriers })
    }

    fn holds(&self, part: &NameHit) -> bool {
        self.parts.iter().chain(&self.carriers).any(|means| shared(means, part))
    }

    fn is_made_of(&self, parts: &[NameHit]) -> bool {
        parts.len() > 1
            && self.parts.iter().all(|means| parts.iter().any(|part| shared(means, part)))
            && parts.iter().all(|part| self.holds(part))
    }
}

fn shared(means: &[Meaning], part: &NameHit) -> bool {
    part.means.iter().any(|one| means.contains(one))
}
