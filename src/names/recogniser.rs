//! From a text to its reading.

use std::borrow::Cow;

use super::blends::{self, Several};
use super::key::{key, words};
use super::lexicon::{self, NameHit};
use super::numbers::{self, Numbers};
use super::plain::plain;
use super::reading::{Doubt, Meaning, NameReading, Sureness};
use super::shares::{self, Strength, stocked};
use super::{
    annexes, brackets, ethers, grades, is_ready, isomers, plants, remarks, repair, rewrite, spellings, tongues,
};
use crate::law::{AnnexEntry, without_footnote};

/// The most characters that are read; what is longer is no name.
const MOST_CHARACTERS: usize = 600;
/// The most look-ups of whole names that one text may ask for.
const MOST_STEPS: usize = 160;

/// What is left of the work that one text may make.
pub(super) struct Effort {
    left: usize,
}

impl Effort {
    fn new() -> Self {
        Self { left: MOST_STEPS }
    }

    /// Takes one step, if there is one left.
    pub(super) fn spend(&mut self) -> bool {
        self.left = self.left.saturating_sub(1);
        self.left > 0
    }
}

/// What a text names, with a number of the registry that stands beside it, if there is one.
///
/// Never fails: what is not certain is a question with candidates, or unknown; so is everything before [`is_ready`].
///
/// # Example
/// ```
/// use hundred_parts::names::{Meaning, recognise};
/// let reading = recognise("Butyrospermum Parkii (Shea) Butter*", None);
/// assert_eq!(reading.means, [Meaning::Material("shea")]);
/// assert!(recognise("Hydrogenated something", None).means.is_empty());
/// ```
pub fn recognise(text: &str, cas: Option<&str>) -> NameReading {
    if !is_ready() {
        return NameReading::unknown();
    }
    let beginning: String = text.chars().take(MOST_CHARACTERS).collect();
    let written = plain(&beginning);
    let (named, mut found) = numbers::take(&written);
    found.add_cas(&plain(cas.unwrap_or_default()));
    let mut reading = read(&named, &found);
    for text in [written.as_str(), without_footnote(&written)] {
        reading.entries.extend(annexes::entries_named(&key(text)));
    }
    reading.entries.extend(found.cas.iter().flat_map(|number| annexes::entries_numbered(number)));
    reading.entries.sort_by_key(|entry| core::ptr::from_ref::<AnnexEntry>(entry));
    reading.entries.dedup_by(|later, earlier| core::ptr::eq(*later, *earlier));
    reading
}

fn read(named: &str, found: &Numbers) -> NameReading {
    let (rest, mut strength) = shares::take(named);
    let mut tidy = remarks::tidy(&rest);
    let mut effort = Effort::new();
    let mut parts = text(&tidy, &mut effort).unwrap_or_default();
    if !parts.iter().all(NameHit::is_certain) || parts.is_empty() {
        let bare = remarks::tidy(&isomers::without_descriptors(&remarks::without_instructions(&tidy)));
        let of_bare = if bare == tidy { None } else { text(&bare, &mut effort) };
        if let Some(hits) = of_bare.filter(|hits| hits.iter().all(NameHit::is_certain)) {
            parts = hits.into_iter().map(|hit| hit.at_most(Sureness::Synonym)).collect();
        }
        if parts.is_empty() {
            tidy = bare;
        }
    }
    if parts.is_empty() {
        let (dry, solution) = without_solution(&tidy);
        strength.solution = solution && !is_liquid_only(&tidy, &dry);
        parts = if solution { text(&dry, &mut effort).unwrap_or_default() } else { Vec::new() };
    }
    if parts.is_empty() {
        parts = spellings::find_loose(&tidy).map_or_else(|| repair::read(&tidy, &mut effort), |hit| vec![hit]);
    }
    strength.dry = words(&tidy).any(|word| ["powder", "crystals", "dry", "pulver", "poudre"].contains(&word));
    for part in &mut parts {
        *part = strong(part, strength);
    }
    if let [NameHit { means, .. }] = parts.as_slice()
        && let [Meaning::Material(id)] = means.as_slice()
    {
        strength.solution |= stocked(id).is_some_and(|row| row.dissolves && strength.contradicts(row));
    }
    if strength.solution
        && let [NameHit { means, .. }] = parts.as_slice()
        && !means.iter().any(|one| matches!(one, Meaning::Material(id) if stocked(id).is_some_and(|row| row.wet)))
    {
        parts.push(NameHit::new(Meaning::Material("water"), Sureness::Synonym));
    }
    let unknown = if parts.is_empty() { unknown_part(&tidy, &mut effort) } else { None };
    conclude(parts, found, strength, unknown, tidy.is_empty())
}

/// The parts of a text, or nothing if any of it is not known.
pub(super) fn text(tidy: &str, effort: &mut Effort) -> Option<Vec<NameHit>> {
    if let Some(hit) = name(tidy, effort) {
        return Some(vec![hit]);
    }
    let several = blends::read(tidy, effort).filter(|several| several.unknown.is_none())?;
    Some(whole(several))
}

/// The parts, or the ingredient of the table that they are.
fn whole(several: Several) -> Vec<NameHit> {
    let ids = several.blends();
    let sureness = several.parts.iter().map(|part| part.sureness).max().unwrap_or(Sureness::Synonym);
    if ids.is_empty() {
        return several.parts;
    }
    let ask = ids.len() > 1;
    vec![NameHit { means: ids.into_iter().map(Meaning::Material).collect(), sureness, ask }]
}

/// What one name stands for.
pub(super) fn name(tidy: &str, effort: &mut Effort) -> Option<NameHit> {
    if tidy.is_empty() || !effort.spend() {
        return None;
    }
    if let Some(hit) = lexicon::find(&key(tidy)) {
        return Some(hit);
    }
    let all: Vec<&str> = words(tidy).collect();
    if let Some(hit) = plants::read(&all) {
        return Some(hit);
    }
    if let Some(hit) = grades::special(&all).or_else(|| ethers::read(&all)) {
        return Some(hit);
    }
    // A bracket that counts units of an ether is no remark.
    if tidy.contains('(') && ethers::counts(&all) {
        return None;
    }
    if tidy.contains(['(', ')']) {
        return brackets::read(tidy, effort);
    }
    coded(&all, effort).or_else(|| reduced(tidy)).map(|hit| hit.at_most(Sureness::Synonym))
}

/// What a name stands for without remarks and figures of a grade, or written in another way.
fn reduced(tidy: &str) -> Option<NameHit> {
    let without = remarks::without_ratios(tidy);
    let all: Vec<&str> = words(&without).collect();
    let comma = without
        .find(", ")
        .map(|at| remarks::bare(&words(without.get(..at).unwrap_or_default()).collect::<Vec<_>>()).len());
    let bare = remarks::bare(&all);
    // What names a plant whole names another one without its first word.
    let shorter = (bare.len() < words(tidy).count() && !plants::is_bare(&all))
        .then(|| lexicon::find(&key(&bare.join(" "))).or_else(|| plants::read(&bare)));
    let rewritten = || rewrite::read(&bare, comma).or_else(|| tongues::read(&bare)).or_else(|| colourless(&bare));
    match all.as_slice() {
        // `i` before a name stands for `iso`, else for a grade.
        ["i", first, rest @ ..] => return lexicon::find(&key(&format!("iso{first} {}", rest.join(" ")))),
        // The letter of a vitamin is no remark, and `vitamine` no vitamin E.
        ["vitamine" | "vitamin" | "provitamine" | "provitamin", letter] if letter.len() == 1 => {
            return tongues::read(&all);
        }
        _ if denies(&all) => return None,
        _ => {}
    }
    shorter.flatten().or_else(rewritten).or_else(|| grades::read(&bare))
}

/// Whether it says that something is not there that is more than a remark: `non-hydrogenated`.
fn denies(words: &[&str]) -> bool {
    words.windows(2).any(|pair| matches!(pair, ["non", denied] if !remarks::is_removable(denied)))
}

/// A name of the tables with a colour before or behind it: `white petrolatum`. Plants are named by theirs.
fn colourless(words: &[&str]) -> Option<NameHit> {
    let mut rest = words;
    while let [first, more @ ..] = rest
        && remarks::is_colour(first)
    {
        rest = more;
    }
    while let [more @ .., last] = rest
        && remarks::is_colour(last)
    {
        rest = more;
    }
    // Beads of jojoba are no oil.
    if rest.len() == words.len() || plants::is_bare(rest) {
        return None;
    }
    // Clay is of the table where it is white.
    let white = |word: &&str| ["white", "weiss", "blanc", "bianc"].iter().any(|white| word.starts_with(white));
    let clay = |hit: &NameHit| hit.means.iter().any(|one| one.id() == Some("kaolin"));
    lexicon::find(&key(&rest.join(" "))).filter(|hit| !clay(hit) || words.iter().any(white))
}

/// A name with its E or Colour Index number before or behind it, of which each must mean what the other does.
fn coded(words: &[&str], effort: &mut Effort) -> Option<NameHit> {
    let is_code = |words: &[&str]| match words {
        ["e" | "ci", number] | [number] => {
            let digits = number.trim_start_matches("ci").trim_start_matches('e').trim_end_matches(char::is_alphabetic);
            (3..=5).contains(&digits.len())
                && digits.bytes().all(|b| b.is_ascii_digit())
                && words.concat().starts_with(['e', 'c'])
        }
        _ => false,
    };
    let parted = [2, 1].into_iter().filter(|count| words.len() > *count).find_map(|count| {
        let (first, rest) = words.split_at(count);
        let (before, last) = words.split_at(words.len() - count);
        let found = [(first, rest), (last, before)].into_iter().find(|(code, _)| is_code(code));
        found.map(|(code, name)| (code.concat(), name.join(" ")))
    });
    let (code, rest) = parted?;
    let (code, named) = (lexicon::find(&code)?, name(&rest, effort)?);
    let means: Vec<Meaning> = named.means.into_iter().filter(|one| code.means.contains(one)).collect();
    (!means.is_empty()).then_some(NameHit { ask: means.len() > 1, means, sureness: Sureness::Synonym })
}

/// A text without the words that say that it is dissolved in water.
fn without_solution(tidy: &str) -> (String, bool) {
    const WORDS: [&str; 10] =
        ["gel", "solution", "aqueous", "aq", "soln", "losung", "liquid", "sol", "lye", "dilution"];
    let kept: Vec<&str> =
        tidy.split([' ', '.']).filter(|word| !WORDS.contains(&word.trim_matches(['(', ')', ',']))).collect();
    let kept = kept.join(" ");
    let kept = kept.strip_suffix(" in water").unwrap_or(&kept).to_owned();
    let solution = kept.len() < tidy.trim_end_matches('.').len();
    (remarks::tidy(&kept), solution)
}

/// Whether all that spoke of a solution was that it is liquid: so are melted fats and what holds no water.
fn is_liquid_only(tidy: &str, dry: &str) -> bool {
    let liquid = words(tidy).any(|word| word == "liquid");
    liquid && words(tidy).filter(|word| *word != "liquid").eq(words(dry))
}

/// Of several rows of one substance the one whose strength the text states; of one row of another strength the substance.
fn strong(hit: &NameHit, strength: Strength) -> NameHit {
    if let Some(hit) = diluted(hit, strength) {
        return hit;
    }
    let rows: Vec<(&Meaning, shares::Stocked)> = hit
        .means
        .iter()
        .filter_map(|one| match one {
            Meaning::Material(id) => stocked(id).map(|row| (one, row)),
            _ => None,
        })
        .collect();
    if rows.is_empty() {
        return hit.clone();
    }
    let supported: Vec<_> = rows.iter().filter(|(_, row)| strength.supports(*row)).collect();
    if let [(one, _)] = supported.as_slice()
        && hit.means.len() > 1
    {
        return NameHit { means: vec![(*one).clone()], ask: false, ..hit.clone() };
    }
    if rows.len() == hit.means.len()
        && rows.iter().all(|(_, row)| strength.contradicts(*row) && !row.otherwise.is_empty())
    {
        let otherwise = rows.first().map_or("", |(_, row)| row.otherwise);
        return NameHit { means: vec![Meaning::Inci(Cow::Borrowed(otherwise))], ask: false, ..hit.clone() };
    }
    hit.clone()
}

/// The solution of a substance where its strength is stated, and the substance where not.
fn diluted(hit: &NameHit, strength: Strength) -> Option<NameHit> {
    let ids = || hit.means.iter().filter_map(Meaning::id);
    if let Some(id) = ids().find_map(|id| shares::diluted(id, strength)) {
        return Some(NameHit { means: vec![Meaning::Material(id)], ask: false, ..hit.clone() });
    }
    let mut means = hit.means.clone();
    means.retain(|one| one.id().and_then(stocked).is_none_or(|row| !ids().any(|id| id == row.instead_of)));
    (means.len() < hit.means.len()).then(|| NameHit { ask: means.len() > 1, means, ..hit.clone() })
}

/// Of a text that names several the part that nobody knows.
fn unknown_part(tidy: &str, effort: &mut Effort) -> Option<Several> {
    blends::read(tidy, effort).filter(|several| several.unknown.is_some())
}

/// Joins what the name says with what the number says.
fn conclude(
    mut parts: Vec<NameHit>,
    found: &Numbers,
    strength: Strength,
    partly: Option<Several>,
    empty: bool,
) -> NameReading {
    let mut reading = NameReading {
        means: Vec::new(),
        candidates: Vec::new(),
        sureness: None,
        doubt: None,
        share: strength.share,
        entries: Vec::new(),
    };
    let numbered: Vec<NameHit> =
        found.cas.iter().chain(&found.ec).filter_map(|number| lexicon::numbered(number)).collect();
    let disagrees = by_number(&mut parts, &numbered);
    reading.sureness = parts.iter().map(|part| part.sureness).max();
    let certain = !parts.is_empty() && parts.iter().all(NameHit::is_certain);
    let number = || found.cas.first().or(found.ec.first()).cloned().unwrap_or_default();
    reading.doubt = if let Some(mistyped) = &found.mistyped {
        Some(Doubt::Mistyped(mistyped.clone()))
    } else if disagrees {
        Some(Doubt::Disagree(number()))
    } else if certain {
        None
    } else if let Some(unknown) = partly.as_ref().and_then(|several| several.unknown.clone()) {
        Some(Doubt::Part(unknown))
    } else if parts.is_empty() {
        Some(if empty && found.is_empty() { Doubt::Empty } else { Doubt::Unknown })
    } else if parts.iter().any(|part| part.sureness == Sureness::Likely || part.means.len() < 2) {
        Some(Doubt::Near)
    } else {
        Some(Doubt::Several)
    };
    let means =
        parts.into_iter().chain(partly.into_iter().flat_map(|several| several.parts)).flat_map(|part| part.means);
    if reading.doubt.is_none() {
        reading.means = means.collect();
    } else {
        reading.candidates = means.chain(numbered.into_iter().flat_map(|hit| hit.means)).collect();
        let mut seen = Vec::new();
        reading.candidates.retain(|one| {
            !seen.contains(one) && {
                seen.push(one.clone());
                true
            }
        });
    }
    reading
}

/// Lets numbers decide what a name left open, or stand where there is no name. Whether they contradict it.
fn by_number(parts: &mut Vec<NameHit>, numbered: &[NameHit]) -> bool {
    match (parts.as_mut_slice(), numbered) {
        (_, []) => false,
        ([], [one]) => {
            parts.push(one.clone());
            false
        }
        ([part], [number, ..]) => {
            let common: Vec<_> = part.means.iter().filter(|one| number.means.contains(one)).cloned().collect();
            if blends::is_part_of(part, number) {
                *part = number.clone();
                return false;
            }
            if !common.is_empty() && !part.is_certain() {
                part.ask &= number.ask;
                part.ask |= common.len() > 1;
                part.means = common;
                return false;
            }
            common.is_empty()
        }
        _ => false,
    }
}
