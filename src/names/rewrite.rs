//! Other ways of writing one chemical name: without prefixes of stereochemistry and position, without water of crystals, a salt
//! or an ester by its acid, a plural, the word behind the comma first.

use super::isomers::{is_stereo, position};
use super::key::{american, key};
use super::lexicon::{NameHit, find, find_placed};
use super::reading::Sureness;
use super::tongues;

/// What the words stand for in another way of writing.
pub(super) fn read(words: &[&str], comma: Option<usize>) -> Option<NameHit> {
    let hit = positions(words)
        .or_else(|| hydrate(words))
        .or_else(|| salt(words))
        .or_else(|| turned(words, comma))
        .or_else(|| plural(words))
        .or_else(|| base_last(words))
        .or_else(|| single(words))
        .or_else(|| chain(words));
    hit.map(|hit| hit.at_most(Sureness::Synonym))
}

fn joined(words: &[&str]) -> String {
    let mut key = String::new();
    for word in words {
        american(word, &mut key);
    }
    key
}

/// `ortho` for `o`; and without all that stands before or behind a name and says which isomer it is.
fn positions(words: &[&str]) -> Option<NameHit> {
    let short: Vec<&str> =
        words.iter().map(|word| if word.len() > 1 { position(word).unwrap_or(word) } else { word }).collect();
    let full: Vec<&str> = words.iter().map(|word| position(word).unwrap_or(word)).collect();
    if let Some(hit) = [short, full].iter().filter(|one| one.as_slice() != words).find_map(|one| find(&joined(one))) {
        return Some(hit);
    }
    let mut rest = words;
    let mut positions = Vec::new();
    let mut take = |word: &str| {
        let position = position(word);
        positions.extend(position);
        position.is_some() || is_stereo(word)
    };
    while let [first, more @ ..] = rest
        && !more.is_empty()
        && take(first)
    {
        rest = more;
    }
    while let [more @ .., last] = rest
        && !more.is_empty()
        && take(last)
    {
        rest = more;
    }
    if rest.len() == words.len() {
        return None;
    }
    find_placed(&joined(rest), &positions).or_else(|| {
        let single = rest.split_last().and_then(|(last, more)| Some([more, &[last.strip_suffix('s')?]].concat()));
        find_placed(&joined(&single?), &positions)
    })
}

/// Crystals of a salt or an acid hold water or none; the substance is the same.
fn hydrate(words: &[&str]) -> Option<NameHit> {
    const WATER: [&str; 16] = [
        "anhydrous",
        "hydrous",
        "wasserfrei",
        "anhydre",
        "anhidro",
        "anhidra",
        "anidro",
        "anidra",
        "anhydricum",
        "anhydricus",
        "anhydricas",
        "hydricum",
        "hydricus",
        "h2o",
        "monoidrato",
        "diidrato",
    ];
    const ENDS: [&str; 6] = ["hydrate", "hydrat", "hidrato", "hydricum", "hydricus", "hydricas"];
    let figure = |word: &str| word.trim_start_matches(|c: char| c.is_ascii_digit()) == "h2o" || word.ends_with("xh2o");
    let water = |word: &&&str| WATER.contains(*word) || ENDS.iter().any(|end| word.ends_with(end)) || figure(word);
    let dry: Vec<&str> = words.iter().filter(|word| !water(word)).copied().collect();
    if dry.len() == words.len() || dry.is_empty() {
        return None;
    }
    find(&joined(&dry)).or_else(|| salt(&dry)).or_else(|| tongues::read(&dry))
}

/// `PCA zinc`, `EDTA tetrasodium salt`: the base behind its salt.
fn base_last(words: &[&str]) -> Option<NameHit> {
    let words: Vec<&str> = words.iter().filter(|word| **word != "salt").copied().collect();
    let (last, rest) = words.split_last().filter(|(last, rest)| !rest.is_empty() && tongues::is_base(last))?;
    find(&joined(&[&[*last], rest].concat()))
}

/// `monostearate` is `stearate`, esters of `glycerol` are those of `glyceryl`, `tetraglyceryl` is `polyglyceryl-4`, and the
/// atom on which a group stands (`N-cocoyl-L-glutamate`) may be left out.
fn single(words: &[&str]) -> Option<NameHit> {
    // A citrate without a number is the salt of all three acids.
    let acid_salt = words.iter().any(|word| word.strip_prefix("mono").is_some_and(tongues::is_base));
    if acid_salt && words.contains(&"citrate") {
        return None;
    }
    let esters = words.last().is_some_and(|last| last.ends_with("ate"));
    let plain = |word: &&str| match word.strip_prefix("mono").filter(|rest| rest.len() > 4) {
        Some(rest) => rest.to_owned(),
        None if ["glycerol", "glycerin", "glycerine"].contains(word) && esters => "glyceryl".to_owned(),
        None => many_glyceryls(word).unwrap_or_else(|| (*word).to_owned()),
    };
    // `mono` may also stand alone.
    let passed = |word: &&&str| ["mono", "n", "l", "d", "dl"].contains(*word);
    let all: Vec<String> = words.iter().filter(|word| !passed(word)).map(plain).collect();
    let all: Vec<&str> = all.iter().map(String::as_str).collect();
    if all == words { None } else { find(&joined(&all)) }
}

fn many_glyceryls(word: &str) -> Option<String> {
    const MANY: [(&str, u8); 7] =
        [("di", 2), ("tri", 3), ("tetra", 4), ("penta", 5), ("hexa", 6), ("octa", 8), ("deca", 10)];
    let many = word.strip_suffix("glyceryl")?;
    MANY.iter().find(|(known, _)| *known == many).map(|(_, count)| format!("polyglyceryl{count}"))
}

/// `dodecan-1-ol` is `dodecanol`, `hexan-1,2-diol` is `1,2-hexanediol`.
fn chain(words: &[&str]) -> Option<NameHit> {
    let figure = |word: &&str| word.bytes().all(|b| b.is_ascii_digit());
    let figures: Vec<&str> = words.iter().filter(|word| figure(word)).copied().collect();
    let letters: Vec<&str> = words.iter().filter(|word| !figure(word)).copied().collect();
    let (stem, end) = match letters.as_slice() {
        [stem, end @ ("ol" | "diol")] => ((*stem).to_owned(), *end),
        [one] => (one.strip_suffix("diol")?.to_owned(), "diol"),
        _ => return None,
    };
    let stem = stem.strip_suffix("ane").or(stem.strip_suffix("an")).or(stem.strip_suffix("a"))?;
    match (figures.as_slice(), end) {
        (["1"], "ol") => find(&key(&format!("{stem}anol"))).or_else(|| find(&key(&format!("1-{stem}anol")))),
        ([_, _], "diol") => find(&key(&format!("{}-{stem}anediol", figures.join("-")))),
        _ => None,
    }
}

/// `lactic acid sodium salt`, `sodium salt of lactic acid`, `salicylic acid methyl ester`: sodium lactate, methyl salicylate.
fn salt(words: &[&str]) -> Option<NameHit> {
    let without: Vec<&str> =
        words.iter().filter(|word| !["of", "salt", "ester", "salts"].contains(*word)).copied().collect();
    if without.len() == words.len() {
        return None;
    }
    let acid = without.iter().position(|word| *word == "acid").filter(|at| *at > 0)?;
    let stem = without.get(acid - 1)?.strip_suffix("ic")?;
    let others = |from: usize, to: usize| without.get(from..to).unwrap_or_default().concat();
    // The other one stands behind the acid, or before it with `of` between.
    let behind = others(acid + 1, without.len());
    let before = others(0, acid - 1);
    let (base, first) = if behind.is_empty() { (before, String::new()) } else { (behind, before) };
    find(&key(&format!("{base} {first}{stem}ate")))
}

/// `wheat protein, hydrolysed`.
fn turned(words: &[&str], comma: Option<usize>) -> Option<NameHit> {
    let (before, behind) = words.split_at_checked(comma?)?;
    find(&joined(&[behind, before].concat()))
}

fn plural(words: &[&str]) -> Option<NameHit> {
    let single: Vec<&str> = words
        .iter()
        .map(|word| if word.len() > 4 && !word.ends_with("ss") { word.strip_suffix('s').unwrap_or(word) } else { word })
        .collect();
    let last: Option<Vec<&str>> = words.split_last().map(|(last, more)| {
        let mut all = more.to_vec();
        all.push(if last.len() > 3 { last.strip_suffix('s').unwrap_or(last) } else { last });
        all
    });
    let plural = || words.split_last().map(|(last, more)| [more, &[format!("{last}s").as_str()]].concat().concat());
    [Some(single), last]
        .into_iter()
        .flatten()
        .filter(|one| one.as_slice() != words)
        .find_map(|one| find(&joined(&one)))
        .or_else(|| find(&plural()?))
}
