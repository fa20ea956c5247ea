//! Reads a sentence of the columns of other conditions: what it forbids, what it asks to be confirmed.

use super::Scope;
use super::condition::{Condition, Letters, Maximum, Untold, What};
use super::dates::day_in_words;
use super::figure::{reckoned_as, share};
use super::scope::{MIXED, read_scope};

/// What a sentence may refer to.
pub(super) struct Context<'a> {
    /// What a sub-entry covers.
    pub(super) of_letter: &'a dyn Fn(char) -> Option<Scope>,
}

/// The sentences of a text: a line each, and in a line each that begins with a capital behind a full stop. A list behind a
/// colon belongs to what stands before it.
pub(super) fn sentences(text: &str) -> Vec<&str> {
    let mut found = Vec::new();
    for line in text.split('\n') {
        let mut from = 0;
        for (at, _) in line.match_indices(". ") {
            let next = line.get(at + 2..).unwrap_or_default();
            if next.starts_with(|c: char| c.is_uppercase() || c == '(' || c == '—')
                && !line.get(..at).unwrap_or_default().ends_with("No")
            {
                found.extend(line.get(from..=at));
                from = at + 2;
            }
        }
        found.extend(line.get(from..));
    }
    found
        .into_iter()
        .map(str::trim)
        .filter(|sentence| sentence.chars().any(|c| c.is_alphabetic() || c == '%'))
        .collect()
}

/// The conditions in a text of the columns of other conditions.
pub(super) fn read_other(text: &str, letters: Letters, context: &Context<'_>) -> Vec<Condition> {
    let condition = |what, words: &str| Condition { letters, what, words: words.to_owned() };
    if let Some((before, words, after)) = declaration(text) {
        let mut found = read_other(before, letters, context);
        found.push(condition(declare(words).unwrap_or(What::Unread), words));
        found.extend(read_other(after, letters, context));
        return found;
    }
    let mut found: Vec<Condition> = Vec::new();
    let (mut list, mut headed) = (List::default(), false);
    for sentence in sentences(text) {
        if is_head(sentence) {
            headed = true;
            found.push(condition(What::Note, sentence));
            continue;
        }
        let mut what = list.sort(sentence, classify(sentence, context));
        // Below a head that names one of the substances of the entry, what is forbidden is forbidden for that one.
        if let What::NotFor(scope) = &mut what
            && headed
        {
            scope.sure = Scope::NONE.sure;
        }
        match (found.last_mut(), &what) {
            (Some(before), What::From { available, .. })
                if matches!(before.what, What::From { available: None, .. }) =>
            {
                if let What::From { available: open, .. } = &mut before.what {
                    *open = *available;
                }
                before.words.push(' ');
                before.words.push_str(sentence);
            }
            _ => found.push(condition(what, sentence)),
        }
    }
    found
}

/// A line that only names a substance: `Salicylic acid salts:`.
fn is_head(sentence: &str) -> bool {
    sentence
        .strip_suffix(':')
        .is_some_and(|name| name.split(' ').count() <= 3 && name.chars().all(|c| c.is_alphabetic() || c == ' '))
        && !sentence.starts_with("Purity")
}

/// Keeps the points of a list with the sentence that opens it.
#[derive(Default)]
pub(super) struct List {
    material: bool,
    open: bool,
}

impl List {
    /// What a sentence says, if it is a point of a list of criteria.
    pub(super) fn sort(&mut self, sentence: &str, what: What) -> What {
        let point = sentence.starts_with(['—', '-']) || self.open;
        let forbids = sentence.to_lowercase().contains("not to be used");
        let what = if what == What::Unread && self.material && point && !forbids {
            What::Confirm(Untold::Material)
        } else {
            what
        };
        self.material = what == What::Confirm(Untold::Material);
        self.open = self.material && (self.open || sentence.ends_with(':'));
        what
    }
}

/// Splits a text at the words that ask for a substance to be named in the list of ingredients.
fn declaration(text: &str) -> Option<(&str, &str, &str)> {
    let start = text.find("The presence of the substance")?;
    let behind = text.get(start..)?;
    let last = "rinse-off products";
    let end = behind.find(last)? + last.len();
    let end = end + usize::from(behind.get(end..)?.starts_with('.'));
    Some((text.get(..start)?, behind.get(..end)?, behind.get(end..)?))
}

/// Its two shares, and the name to be used.
fn declare(words: &str) -> Option<What> {
    let (_, behind) = words.split_once("exceed")?;
    let figure = |of: &str| {
        let before = behind.split(of).next()?;
        let number = before.get(..before.rfind('%')?)?.trim_end();
        let start =
            number.char_indices().rev().take_while(|(_, c)| c.is_ascii_digit() || matches!(c, ',' | '.')).last()?.0;
        share(&format!("{}%", number.get(start..)?)).map(|(share, _)| share)
    };
    let name = words.split_once('‘').and_then(|(_, rest)| rest.split_once('’')).map(|(name, _)| name.trim().to_owned());
    Some(What::Declare { leave_on: figure("leave-on products")?, rinse_off: figure("rinse-off products")?, name })
}

/// What one sentence says.
pub(super) fn classify(sentence: &str, context: &Context<'_>) -> What {
    let sentence = sentence.trim().trim_start_matches(['-', '—', '*', ' ']);
    let lower = sentence.to_lowercase();
    if let Some(rest) = ["not to be used in ", "no use in "].iter().find_map(|words| lower.strip_prefix(words)) {
        return read_scope(rest, context.of_letter).map_or(What::Unread, What::NotFor);
    }
    if let Some(what) = dated(sentence) {
        return what;
    }
    if let Some(what) = after_mixing(sentence) {
        return what;
    }
    if lower == "ph" {
        return What::Confirm(Untold::Ph);
    }
    let topics: [(Untold, &[&str]); 6] = [
        (
            Untold::Company,
            &[
                "nitrosating",
                "nitro sating",
                "notrosating",
                "formation of nitrosamines",
                "not be used in combination with",
                "used with secondary",
            ],
        ),
        (
            Untold::Material,
            &[
                "nitrosamine content",
                "nitrosamines content",
                "notrosamine content",
                "nitrite-free",
                "nitritefree",
                "nitritew-free",
                "nitrie-free",
                "purity",
                "peroxide value",
                "free allyl alcohol",
                "impurit",
                "secondary amine content",
                "residual acrylamide",
                "only nanomaterials having",
                "only in the pigmentary form",
                "trace level",
                "ratio of the number",
                "alpha terthienyl",
                "free from ",
                "concentration in the colouring agent",
                "molecular weight average of the peptides",
                "of peanut proteins",
                "tetrachloroazo",
                "only in free acid form",
                "silver content in",
                "agcl (w/w) on tio2",
                "not more than 1% 2-(6-hydroxy",
            ],
        ),
        (Untold::Purpose, &["for purposes other than", "purpose has to be apparent"]),
        (
            Untold::Together,
            &[
                "inclusive of any use",
                "used together",
                "combined use",
                "when mixed with",
                "if mixed with",
                "in combination with",
                "must meet the hydrogen peroxide",
            ],
        ),
        (Untold::Users, &["professional use", "professsional use", "general use"]),
        (Untold::Ph, &["ph <", "ph >", "ph 6", "ph 7", "up to ph"]),
    ];
    if let Some((topic, _)) = topics.iter().find(|(_, marks)| marks.iter().any(|mark| lower.contains(mark))) {
        return What::Confirm(*topic);
    }
    let notes = ["this limit applies to the substance", "(for use as", "for use as a colo", "these limits"];
    if notes.iter().any(|note| lower.contains(note)) { What::Note } else { What::Unread }
}

/// Days from which the entry counts, or until which what it forbids was still allowed.
fn dated(sentence: &str) -> Option<What> {
    let plain = sentence.replace('\n', " ");
    if let Some((day, rest)) =
        plain.strip_prefix("As from ").or_else(|| plain.strip_prefix("as from ")).and_then(day_in_words)
        && rest.trim_matches([':', ' ']).is_empty()
    {
        return Some(What::From { placed: Some(day), available: Some(day) });
    }
    if !plain.contains("on the Union market") {
        return None;
    }
    if let Some((_, rest)) = plain.split_once("placed on the Union market until ") {
        let (placed, rest) = day_in_words(rest)?;
        let available = rest.split_once("on the Union market until ").and_then(|(_, rest)| day_in_words(rest));
        return Some(What::From { placed: Some(placed), available: available.map(|(day, _)| day) });
    }
    let (day, _) = day_in_words(plain.trim_start_matches(['(', '*', ')', ' ']).strip_prefix("From ")?)?;
    let placed = plain.contains("shall not be placed").then_some(day);
    let available = plain.contains("shall not be made available").then_some(day);
    (placed.is_some() || available.is_some()).then_some(What::From { placed, available })
}

/// `After mixing under oxidative conditions the maximum concentration applied to hair must not exceed 2 % …`.
fn after_mixing(sentence: &str) -> Option<What> {
    let lower = sentence.to_lowercase();
    if !lower.contains("mixing") || !lower.contains("xidative") {
        return None;
    }
    let (_, figure) = lower.split_once("exceed")?;
    let (most, rest) = share(figure)?;
    let basis = reckoned_as(rest).map(|(basis, _)| basis);
    let maximum = Maximum { least: most, most, reckoned_as: basis, only: Some(*MIXED), after_mixing: true };
    Some(What::Maximum(maximum))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::law::{Applies, products};
    use crate::quantity::Day;
    use crate::quantity::{Percent, Quantity};
    use proptest::prelude::*;

    fn said(text: &str) -> Vec<What> {
        let context = Context { of_letter: &|_| None };
        read_other(text, Letters::ALL, &context).into_iter().map(|condition| condition.what).collect()
    }

    // Annex III/88, III/376, V/23, III/32 and III/309, as they stand.
    #[test]
    fn sentences_of_the_law_are_sorted() {
        let percent = |text: &str| Percent::from_canonical(text).unwrap();
        let limonene = "The presence of the substance shall be indicated in the list of ingredients referred to in Article 19(1), \
            point (g), when its concentration exceeds: — 0,001 % in leave-on products — 0,01 % in rinse-off products. The \
            peroxide value for each substance shall be less than 20 mmoles/L (This limit applies to the substance and not to the \
            finished cosmetic product).";
        let declared = What::Declare { leave_on: percent("0.001"), rinse_off: percent("0.01"), name: None };
        assert_eq!(said(limonene), [declared, What::Confirm(Untold::Material)]);
        let named = "The presence of the substance must be indicated as ‘Citral’ in the list when its concentration exceeds:\n- 0.001% in leave-on products\n- 0.01% in rinse-off products";
        assert!(matches!(&said(named)[..], [What::Declare { name: Some(name), .. }] if name == "Citral"));
        let retinol = "From 1 November 2025 cosmetic products containing that substance and not complying with the conditions \
            shall not be placed on the Union market. From 1 May 2027 cosmetic products containing that substance and not \
            complying with the conditions shall not be made available on the Union market.";
        assert_eq!(
            said(retinol),
            [What::From { placed: Day::from_calendar(2025, 11, 1), available: Day::from_calendar(2027, 5, 1) }]
        );
        let triclocarban = "Cosmetic products containing that substance that do not comply with the conditions may, provided that \
            they comply with the conditions applicable on 23 April 2024, be placed on the Union market until 31 December 2024 and, \
            if they have already been placed on the market before that date, continue to be made available on the Union market \
            until 31 October 2025.";
        assert_eq!(
            said(triclocarban),
            [What::From { placed: Day::from_calendar(2024, 12, 31), available: Day::from_calendar(2025, 10, 31) }]
        );
        assert_eq!(said("Something that nobody foresaw."), [What::Unread]);
        let [What::NotFor(scope)] = &said("Not to be used in aerosol dispensers (sprays)")[..] else { panic!() };
        assert_eq!(scope.covers(products("body-lotion propellant").sure), Applies::Yes);
    }

    proptest! {
        #[test]
        fn sentences_of_any_text_never_panic(text in ".{0,80}|(The presence of the substance|exceeds|0,1 %|leave-on products|rinse-off products|\\. |\n| ){0,12}") {
            let _ = said(&text);
        }
    }
}
