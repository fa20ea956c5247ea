//! What stands beside a name and says nothing of the substance: labels, bullets, amounts, grades, functions, where it is from.

use super::isomers::position;
use super::key::words;
use super::vocabulary::{self, WordKind};
use crate::law::without_footnote;

/// Words from which on a text tells of something else: what the substance is kept with, comes from or is for.
const ASIDES: [&str; 22] = [
    "contains ",
    "preserved with ",
    "preserved by ",
    "preserved using ",
    "stabilised with ",
    "stabilized with ",
    "standardised to ",
    "standardized to ",
    "source:",
    "source ",
    "derived from ",
    "sourced from ",
    "obtained from ",
    "extracted from ",
    "made from ",
    "produced from ",
    "distilled from ",
    "from ",
    "natural constituent",
    "as a ",
    "as preservative",
    "for ",
];

/// Labels before a name.
const LABELS: [&str; 9] = [
    "inci name:",
    "inci:",
    "inci ",
    "inci-",
    "ingredients:",
    "ingredient:",
    "contains:",
    "may contain:",
    "(may contain):",
];

/// A plain text without bullets, labels, amounts and asides.
pub(super) fn tidy(plain: &str) -> String {
    let mut text = plain.trim_matches([' ', '-', ';', ',', '.', ':', '+', '/', '>', '~', '=', '_', '?', '!', '\'']);
    loop {
        let before = text;
        for label in LABELS {
            text = text.strip_prefix(label).unwrap_or(text).trim_start();
        }
        text = text.strip_prefix("may contain ").unwrap_or(text);
        text = enumerated(text).trim_start_matches([' ', '-', '/', '+', ':']);
        if text == before {
            break;
        }
    }
    let text = [" ad 100", " to 100", " q.s.p. 100", " qsp 100", " q.s. 100"]
        .iter()
        .fold(text, |text, filling| text.strip_suffix(filling).unwrap_or(text));
    let mut text = without_amounts(&without_absences(without_footnote(text)));
    for aside in ASIDES {
        text = without_aside(&text, aside);
    }
    text.trim_matches([' ', '-', ';', ',', '.', ':', '/', '+', '_', '&', '\'']).to_owned()
}

/// Without the number of a list, as in `3. ` or `3) `.
fn enumerated(text: &str) -> &str {
    let rest = text.trim_start_matches(|c: char| c.is_ascii_digit());
    let number = text.len() - rest.len();
    match rest.strip_prefix(". ").or_else(|| rest.strip_prefix(") ")) {
        Some(rest) if (1..=2).contains(&number) => rest,
        _ => text,
    }
}

/// Without what follows an aside, up to the bracket that closes it. Something must stand before it.
fn without_aside(text: &str, aside: &str) -> String {
    let begins = |at: &usize| *at > 0 && !text.get(..*at).unwrap_or_default().ends_with(char::is_alphanumeric);
    let Some(at) = text.match_indices(aside).map(|(at, _)| at).find(begins) else { return text.to_owned() };
    let (before, rest) = text.split_at(at);
    let behind = rest.find(')').and_then(|end| rest.get(end..)).unwrap_or_default();
    format!("{before}{behind}")
}

/// Words with which a note of a maker begins.
const INSTRUCTIONS: &str = "above add alternative always at avoid batch bbd below best bought buy careful caution check \
    cool corrosive danger dark dilute disperse dissolve dissolves do don't exp expires expiry \
    handle heat hydrate if in instead irritant keep keeps lot max melt melts min new not old on \
    only open opened order ordered please refrigerate sample see shake slowly smells soak sprinkle \
    stir store test to up use vegan warm wear weigh";

/// A plain text without what a maker noted behind the name: how to use and keep it, its lot and day. A note begins behind a sign
/// with a word that begins no name.
pub(super) fn without_instructions(text: &str) -> String {
    let begins = |at: usize| {
        let rest = text.get(at..).unwrap_or_default().trim_start_matches(|c: char| !c.is_alphanumeric());
        let word = rest.split(|c: char| !c.is_alphanumeric() && c != '\'').next().unwrap_or_default();
        INSTRUCTIONS.split_whitespace().any(|first| first == word)
    };
    let sign = |at: usize, c: char| match c {
        // A hyphen within a name has no space before it.
        '-' => text.get(..at).is_some_and(|before| before.ends_with(' ')),
        ',' | ';' | '!' | '.' | ':' | '(' => true,
        _ => false,
    };
    let behind_sign = text.char_indices().find(|(at, c)| *at > 0 && sign(*at, *c) && begins(*at)).map(|(at, _)| at);
    let marked = [" ex ", " lot ", " batch ", " exp ", " expires ", " best before ", " bbd ", " mhd "];
    let behind_mark = marked.iter().filter_map(|mark| text.find(mark)).min();
    match behind_sign.into_iter().chain(behind_mark).min() {
        Some(at) => tidy(text.get(..at).unwrap_or_default()),
        None => text.to_owned(),
    }
}

/// Without what a grade says that it is not: `non-nano`, `non-SE`.
fn without_denied(mut text: String) -> String {
    const ABSENT: [&str; 10] = [
        "non-nano",
        "non nano",
        "non-se",
        "non se",
        "non-self-emulsifying",
        "non self-emulsifying",
        "non self emulsifying",
        "not self-emulsifying",
        "non-gmo",
        "non gmo",
    ];
    for absent in ABSENT {
        let whole = text.find(absent).map(|at| (at, at + absent.len()));
        if let Some((at, end)) =
            whole.filter(|(_, end)| !text.get(*end..).unwrap_or_default().starts_with(char::is_alphanumeric))
        {
            text.replace_range(at..end, "");
        }
    }
    text
}

/// Without what is said not to be in it: `soy-free`, `free of nano`. Alcohol is part of some names.
fn without_absences(text: &str) -> String {
    let mut text = without_denied(text.replace("-free", " free"));
    while let Some(at) = text
        .find(" free")
        .filter(|at| !text.get(at + 5..).unwrap_or_default().starts_with(|c: char| c.is_alphanumeric()))
    {
        let before = text.get(..at).unwrap_or_default();
        let start = before.rfind(|c: char| !c.is_alphanumeric()).map_or(0, |at| at + 1);
        if before == "alcohol" && text.len() == at + 5 {
            return String::new();
        }
        if before.get(start..) == Some("alcohol") {
            break;
        }
        text.replace_range(start..at + 5, "");
    }
    text
}

/// Without masses, volumes and counts of units: `250 g`, `1.7 MIU/g`.
fn without_amounts(text: &str) -> String {
    const UNITS: [&str; 40] = [
        "g", "kg", "mg", "ml", "l", "cl", "oz", "lb", "lbs", "gr", "gram", "grams", "gal", "liter", "litre", "litres",
        "miu", "iu", "ie", "ppm", "pcs", "kilo", "cst", "cs", "mpas", "cps", "cp", "mpa", "kda", "da", "dalton",
        "mesh", "um", "nm", "micron", "microns", "degree", "degrees", "moles", "mol",
    ];
    let mut kept: Vec<&str> = Vec::new();
    let mut gap = false;
    for word in text.split(' ') {
        let number = word.trim_end_matches(|c: char| c.is_alphabetic() || "/.,;".contains(c)).trim_start_matches('(');
        let is_number = number.starts_with(|c: char| c.is_ascii_digit())
            && number.chars().all(|c| c.is_ascii_digit() || c == '.' || c == ',');
        let unit = if is_number { word.get(word.len() - (word.len() - number.len())..).unwrap_or(word) } else { word };
        let unit = unit.trim_start_matches(number).trim_end_matches([')', ',', ';', '.']);
        let unit = unit.split('/').next().unwrap_or_default();
        let measured = UNITS.contains(&unit);
        if is_number && measured {
            continue;
        }
        if measured && gap && kept.pop().is_some() {
            gap = false;
            continue;
        }
        gap = is_number;
        kept.push(word);
    }
    kept.join(" ")
}

/// Whether nothing in the text speaks of a substance.
pub(super) fn is_remark(text: &str) -> bool {
    let mut all = words(text);
    let first = words(text).find(|word| vocabulary::kind(word) != Some(WordKind::Remark)).unwrap_or_default();
    let aside = ASIDES.iter().any(|aside| text.trim_start().starts_with(aside));
    if vocabulary::kind(first) == Some(WordKind::Function) || aside {
        return true;
    }
    all.all(|word| is_removable(word) || is_colour(word) || is_figure(word) || is_letter(word))
}

/// Whether a word is a colour: behind a comma it says how a thing looks, before a plant which plant it is.
pub(super) fn is_colour(word: &str) -> bool {
    vocabulary::kind(word) == Some(WordKind::Colour)
}

/// Whether a word says nothing of the substance.
pub(super) fn is_removable(word: &str) -> bool {
    matches!(vocabulary::kind(word), Some(WordKind::Remark | WordKind::Function | WordKind::Form))
}

/// Whether a word is one letter that is no prefix of position.
fn is_letter(word: &str) -> bool {
    word.len() == 1 && position(word).is_none()
}

fn is_figure(word: &str) -> bool {
    word.chars().all(|c| c.is_ascii_digit())
}

/// The words of a name without those that say nothing of the substance. What is milled stays a powder where the powder is
/// another thing (juice, fruit), and figures of a grade go with both of their numbers: `40/42`, `50:50`.
pub(super) fn bare<'a>(words: &[&'a str]) -> Vec<&'a str> {
    const WET: [&str; 14] = [
        "water", "juice", "milk", "extract", "leaf", "root", "fruit", "seed", "shell", "flower", "peel", "bark",
        "aloe", "honey",
    ];
    let wet = words.iter().any(|word| WET.contains(word));
    let keep = |word: &&&str| match vocabulary::kind(word) {
        Some(WordKind::Form | WordKind::Product("Powder")) => wet,
        Some(WordKind::Part("Needle")) => false,
        Some(WordKind::Remark | WordKind::Function) => false,
        _ => true,
    };
    words.iter().filter(keep).copied().collect()
}

/// A text without figures of a grade: `lavender oil 40/42`, `cetearyl alcohol 50:50`.
pub(super) fn without_ratios(text: &str) -> String {
    let kept: Vec<&str> = text.split(' ').filter(|word| !is_ratio(word)).collect();
    kept.join(" ")
}

/// Two numbers of which neither is one: `200:1` is a concentrate.
fn is_ratio(word: &str) -> bool {
    let word = word.trim_matches(['(', ')', ',', ';']);
    let number = |text: &str| (1..=3).contains(&text.len()) && is_figure(text) && text != "1";
    let range = word
        .split_once('-')
        .is_some_and(|(one, other)| one.len() == 2 && other.len() == 2 && number(one) && number(other));
    range || word.split_once([':', '/']).is_some_and(|(one, other)| number(one) && number(other))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn remarks_on_how_to_use_it_go() {
        for (text, expected) in [
            ("niacinamide - add to the water phase, ph 6", "niacinamide"),
            ("borage oil (keep in the fridge", "borage oil"),
            ("jojoba oil lot 2231", "jojoba oil"),
            ("glycerin, not tested on animals", "glycerin"),
            ("sodium hydroxide !! corrosive, wear goggles", "sodium hydroxide"),
            ("1,2-hexanediol", "1,2-hexanediol"),
            ("olive oil, hydrogenated", "olive oil, hydrogenated"),
        ] {
            assert_eq!(without_instructions(text), expected, "{text}");
        }
    }

    #[test]
    fn remarks_go_and_names_stay() {
        for (text, expected) in [
            ("- xanthan gum", "xanthan gum"),
            ("inci: cetearyl alcohol", "cetearyl alcohol"),
            ("+/- (may contain): titanium dioxide", "titanium dioxide"),
            ("beeswax pellets 250g bag", "beeswax pellets bag"),
            ("shea butter 1 kg", "shea butter"),
            ("aloe vera juice preserved with sodium benzoate", "aloe vera juice"),
            ("cetyl alcohol (from coconut) flakes", "cetyl alcohol () flakes"),
            ("1,2-hexanediol", "1,2-hexanediol"),
            ("3. glycerin", "glycerin"),
            ("retinyl palmitate 1.7 miu/g", "retinyl palmitate"),
            ("vitamin e", "vitamin e"),
        ] {
            assert_eq!(tidy(text), expected, "{text}");
        }
        assert_eq!(without_ratios("lavender oil 40/42"), "lavender oil");
        assert_eq!(without_ratios("aloe vera 200:1"), "aloe vera 200:1");
    }
}
