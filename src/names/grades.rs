//! What tells one grade of a substance from another, and what tells none: oils of much oleic acid, purities, syntheses.

use super::key::key;
use super::lexicon::{self, NameHit};
use super::reading::{Meaning, Sureness};
use super::{plants, tongues};
use crate::facts::material_names;

/// An oil of a kind of its own.
pub(super) fn special(words: &[&str]) -> Option<NameHit> {
    high_oleic(words).or_else(|| hydrogenated(words))
}

/// An oil of which the table has one of much oleic acid: `Sonnenblumenöl (HO)`, `aceite de girasol alto oleico`.
fn high_oleic(words: &[&str]) -> Option<NameHit> {
    const OLEIC: [&str; 7] = ["oleic", "oleique", "oleico", "oleica", "hocholsaurehaltig", "hocholsaure", "ho"];
    const MUCH: [&str; 11] =
        ["high", "highly", "hoch", "alto", "alta", "haute", "teneur", "en", "acide", "acid", "rich"];
    let has = |list: &[&str]| words.iter().any(|word| list.contains(word));
    if !has(&OLEIC) || has(&["mid", "medium", "low", "linoleic", "and"]) {
        return None;
    }
    let rest: Vec<&str> =
        words.iter().filter(|word| !OLEIC.contains(*word) && !MUCH.contains(*word)).copied().collect();
    let oil = plants::read(&rest)?;
    let rich = oil.means.into_iter().find(|one| one.id().is_some_and(|id| id.ends_with("-high-oleic")))?;
    Some(NameHit::new(rich, Sureness::Synonym))
}

/// An oil that was hydrogenated, in any tongue: `hydriertes Olivenöl`, `huile de coco hydrogénée`.
fn hydrogenated(words: &[&str]) -> Option<NameHit> {
    let says = |word: &str| tongues::is(word, "hydrogenated");
    let rest: Vec<&str> = words.iter().filter(|word| !says(word)).copied().collect();
    if rest.len() == words.len() || words.iter().any(|word| word.bytes().any(|b| b.is_ascii_digit())) {
        return None;
    }
    let oil = plants::read(&rest).filter(NameHit::is_certain)?;
    let id = oil.means.first().and_then(Meaning::id)?;
    let name = material_names().find(|row| row.id == id).map(|row| row.name)?;
    let name = name.split(['(', ',']).next().unwrap_or_default().to_lowercase();
    lexicon::find(&key(&format!("hydrogenated {name}"))).map(|hit| hit.at_most(Sureness::Synonym))
}

/// A name of the tables with the figure of a purity behind it (`citral 95`, `cetyl alcohol 1698`), or of a chemical that says
/// that it was made. What comes from plants may be another thing then.
pub(super) fn read(words: &[&str]) -> Option<NameHit> {
    const MADE: [&str; 8] =
        ["synthetic", "synthetisch", "synthetique", "sintetico", "sintetica", "naturidentisch", "identical", "nature"];
    let rest: Vec<&str> = words.iter().filter(|word| !MADE.contains(*word)).copied().collect();
    if rest.len() < words.len() {
        return lexicon::find(&key(&rest.join(" "))).filter(|hit| hit.means.iter().all(is_aroma_chemical));
    }
    let rest = match words {
        [rest @ .., "hlb", figure] if is_figure(figure) => rest,
        [rest @ .., figure] if is_purity(figure) => rest,
        _ => return None,
    };
    if rest.is_empty() || plants::is_plant(rest) {
        return None;
    }
    lexicon::find(&key(&rest.join(" "))).filter(NameHit::is_certain).filter(|hit| !hit.means.iter().any(comes_in_kinds))
}

fn is_figure(word: &str) -> bool {
    word.bytes().all(|b| b.is_ascii_digit())
}

/// Whether a figure may be a purity: 50 to 99, so many thousandths, or the length of a chain with its percents.
fn is_purity(word: &str) -> bool {
    let ends = |end: &str| word.ends_with(end);
    is_figure(word)
        && match word.len() {
            2 => word >= "50",
            3 => ends("0"),
            4 => word.starts_with("16") || word.starts_with("18"),
            _ => false,
        }
}

/// Whether a figure behind the name tells one kind of it from another.
fn comes_in_kinds(means: &Meaning) -> bool {
    ["carbomer", "glyceryl-stearate", "dimethicone-350", "water", "ethanol"].contains(&means.text())
}

/// Whether it is one substance that smells, and no oil or extract.
fn is_aroma_chemical(means: &Meaning) -> bool {
    let parts = ["Oil", "Extract", "Absolute", "Pinus", "Turpentine"];
    matches!(means, Meaning::Allergen(name) if !parts.iter().any(|part| name.contains(part)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::names::key::words;

    // Names of grades: common practice, no source.
    #[test]
    fn grades_are_told_where_they_are_none() {
        let id = |hit: Option<NameHit>| hit.map(|hit| hit.means[0].text().to_owned());
        let all = |text: &'static str| words(text).collect::<Vec<_>>();
        assert_eq!(id(high_oleic(&all("sonnenblumenoel ho"))).as_deref(), Some("sunflower-high-oleic"));
        assert_eq!(id(high_oleic(&all("mid oleic sunflower oil"))), None);
        assert_eq!(id(high_oleic(&all("ho wood oil"))), None);
        assert_eq!(id(read(&all("citral 95"))).as_deref(), Some("Citral"));
        for text in ["carbomer 940", "castor oil 60", "gms 165", "wintergreen oil synthetic", "cetearyl alcohol 20"] {
            assert_eq!(id(read(&all(text))), None, "{text}");
        }
    }
}
