//! Names with so many units of ethylene oxide: `POE (20) stearyl ether`, `hydrogenated castor oil 40 EO`, `macrogol`.

use super::key::key;
use super::lexicon::{NameHit, find};
use super::reading::Sureness;

/// Words for ethylene oxide.
const UNITS: [&str; 9] =
    ["peg", "poe", "polyoxyethylene", "polyoxyl", "polyoxyethylen", "macrogol", "eo", "ethoxylate", "ethoxylated"];

/// Alcohols, and what the nomenclature calls their ethers.
const ETHERS: [(&str, &str); 10] = [
    ("cetostearyl", "ceteareth"),
    ("cetylstearyl", "ceteareth"),
    ("cetearyl", "ceteareth"),
    ("isostearyl", "isosteareth"),
    ("stearyl", "steareth"),
    ("cetyl", "ceteth"),
    ("lauryl", "laureth"),
    ("oleyl", "oleth"),
    ("behenyl", "beheneth"),
    ("isocetyl", "isoceteth"),
];

/// What the words stand for, where they say how many units they have.
pub(super) fn read(words: &[&str]) -> Option<NameHit> {
    let units = words.iter().filter(|word| is_unit(word)).count();
    let mut counts = words.iter().filter(|word| is_count(word));
    let count = counts.next()?;
    if units == 0 || counts.next().is_some() {
        return None;
    }
    let rest: Vec<&str> = words
        .iter()
        .filter(|word| !UNITS.contains(*word) && *word != count)
        .map(|word| word.strip_prefix("mono").filter(|rest| rest.len() > 4).unwrap_or(word))
        .collect();
    let ether = match rest.as_slice() {
        [alkyl, "ether" | "alcohol"] => ETHERS.iter().find(|(name, _)| name == alkyl).map(|(_, ether)| *ether),
        _ => None,
    };
    let name = match ether {
        Some(ether) => format!("{ether} {count}"),
        None if rest.is_empty() => return None,
        None => format!("peg {count} {}", rest.join(" ")),
    };
    find(&key(&name)).map(|hit| hit.at_most(Sureness::Synonym))
}

/// Whether the words say how many units there are of ethylene oxide.
pub(super) fn counts(words: &[&str]) -> bool {
    let counted = |pair: &[&str]| matches!(pair, [unit, count] if is_unit(unit) && is_count(count));
    words.windows(2).any(counted)
}

fn is_unit(word: &str) -> bool {
    UNITS.contains(&word)
}

fn is_count(word: &str) -> bool {
    word.len() <= 3 && word.bytes().all(|b| b.is_ascii_digit())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::names::key::words;

    // Names of ethers and esters: common practice, no source.
    #[test]
    fn ethers_are_found_however_their_units_are_written() {
        let means = |text: &str| read(&words(text).collect::<Vec<_>>()).map(|hit| hit.means[0].text().to_owned());
        for (text, expected) in [
            ("poe (20) stearyl ether", "Steareth-20"),
            ("cetearyl alcohol 25 eo", "Ceteareth-25"),
            ("hydrogenated castor oil 40 eo", "PEG-40 Hydrogenated Castor Oil"),
            ("peg-20 sorbitan monolaurate", "polysorbate-20"),
        ] {
            assert_eq!(means(text).as_deref(), Some(expected), "{text}");
        }
        for text in ["castor oil 40", "peg-40", "cetyl alcohol 95", "peg 20 40 stearate"] {
            assert_eq!(means(text), None, "{text}");
        }
    }
}
