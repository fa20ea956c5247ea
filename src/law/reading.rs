//! Reads an entry as far as a program can.

use super::condition::{Condition, EntryReading, Letters, UseOf, What};
use super::letters::{letters_of, segments};
use super::maximum::read_maximum;
use super::prohibited::read_prohibited;
use super::scope::read_scope;
use super::sentence::{Context, read_other};
use super::wording::read_wording;
use super::{Annex, AnnexEntry, Scope};

/// Reads an entry. Nothing is left out: words that are not understood become [`What::Unread`].
pub fn read(entry: &AnnexEntry) -> EntryReading<'_> {
    if entry.is_gone() {
        return EntryReading { entry, uses: Vec::new(), conditions: Vec::new() };
    }
    if entry.annex == Annex::II {
        return EntryReading { entry, uses: Vec::new(), conditions: vec![read_prohibited(entry)] };
    }
    let columns = Columns::of(entry);
    let mut letters = letters_of(columns.product);
    if letters == Letters::NONE {
        letters = letters_of(columns.maximum);
    }
    let (mut uses, mut conditions) = read_uses(columns.product, letters);
    let of_letter = |letter: char| uses.iter().find(|of| of.letter == Some(letter)).and_then(|of| of.scope);
    let context = Context { of_letter: &of_letter };
    conditions.extend(maximums(columns.maximum, letters, &context));
    for segment in segments(columns.other, letters, false) {
        conditions.extend(read_other(segment.text, segment.letters, &context));
    }
    for segment in segments(columns.wording, letters, false) {
        conditions.extend(read_wording(segment, &context));
    }
    if uses.is_empty() {
        uses.extend(use_of_maximums(columns.maximum, &conditions));
    }
    EntryReading { entry, uses, conditions }
}

/// Where only the figures name products, it is allowed in those; not where a figure is for a use among others.
fn use_of_maximums(cell: &str, conditions: &[Condition]) -> Option<UseOf> {
    let maximums = conditions.iter().filter_map(|condition| match &condition.what {
        What::Maximum(maximum) => Some(maximum.only.filter(|_| !condition.words.contains("when used in"))),
        _ => None,
    });
    let scopes = maximums.collect::<Option<Vec<Scope>>>().filter(|scopes| !scopes.is_empty())?;
    let scope = scopes.into_iter().fold(Scope::NONE, Scope::or);
    Some(UseOf { letter: None, scope: Some(scope), words: cell.to_owned() })
}

/// The conditions of the column of maximums.
fn maximums(cell: &str, letters: Letters, context: &Context<'_>) -> Vec<Condition> {
    // What all figures of the cell are reckoned as stands once behind them.
    let (figures, reckoned) = match cell.split_once("The abovementioned percentages are calculated as ") {
        Some((figures, basis)) => (figures, Some(basis.trim_end_matches(['.', ' ', '\n']))),
        None => (cell, None),
    };
    let segments = segments(figures, letters, true);
    let read =
        segments.iter().flat_map(|segment| read_maximum(segment.text, segment.letters, segment.narrower, context));
    let mut found: Vec<Condition> = read.collect();
    let named = found
        .iter()
        .filter_map(|condition| if let What::Maximum(maximum) = &condition.what { maximum.only } else { None });
    let others = Scope::ALL.without(named.fold(Scope::NONE, Scope::or));
    let mut rest_of = Vec::new();
    for condition in &mut found {
        if let What::Maximum(maximum) = &mut condition.what {
            maximum.reckoned_as = maximum.reckoned_as.take().or_else(|| reckoned.map(str::to_owned));
            if condition.words.trim_end().ends_with("in other products") {
                maximum.only = Some(others);
                rest_of.push(condition.words.clone());
            }
        }
    }
    found.retain(|condition| condition.what != What::Unread || !rest_of.contains(&condition.words));
    found
}

/// The columns by what stands in them.
struct Columns<'a> {
    product: &'a str,
    maximum: &'a str,
    other: &'a str,
    wording: &'a str,
}

impl<'a> Columns<'a> {
    /// Most rows of Annex IV stand one column too far to the right from the product type on: their maximum is words, without
    /// a figure, and their figure stands among the other conditions.
    fn of(entry: &'a AnnexEntry) -> Self {
        let moved =
            entry.annex == Annex::IV && entry.product.is_empty() && !entry.maximum.chars().any(|c| c.is_ascii_digit());
        if moved {
            return Self { product: &entry.maximum, maximum: &entry.other, other: &entry.wording, wording: "" };
        }
        Self { product: &entry.product, maximum: &entry.maximum, other: &entry.other, wording: &entry.wording }
    }
}

/// The product types, and the conditions that stand among them.
fn read_uses(cell: &str, letters: Letters) -> (Vec<UseOf>, Vec<Condition>) {
    let (mut uses, mut conditions) = (Vec::new(), Vec::new());
    let none = Context { of_letter: &|_| None };
    for segment in segments(cell, letters, true) {
        let letter = (segment.letters != Letters::ALL).then(|| segment.letters.iter().next()).flatten();
        let mut types: Vec<&str> = Vec::new();
        for line in segment.text.split('\n') {
            let lower = line.to_lowercase();
            let condition =
                lower.starts_with("not to be used") || lower.contains("union market") || lower.starts_with("note:");
            if condition {
                conditions.extend(read_other(line, segment.letters, &none));
            } else {
                types.push(line);
            }
        }
        let words = types.join("\n");
        if words.chars().any(char::is_alphanumeric) {
            let before =
                |letter: char| uses.iter().find(|of: &&UseOf| of.letter == Some(letter)).and_then(|of| of.scope);
            let scope = read_scope(&words, &before);
            uses.push(UseOf { letter, scope, words });
        }
    }
    complete(&mut uses);
    narrow(&mut uses);
    (uses, conditions)
}

const OTHER: [&str; 6] = [
    "other products",
    "others products",
    "other produts",
    "other uses",
    "other cosmetic products",
    "all other products",
];

/// `Other products` are those that the other sub-entries do not cover. First those of a group, such as `other hair products`.
fn complete(uses: &mut [UseOf]) {
    let is_other = |of: &UseOf| of.scope.is_none() && rest_of_other(&of.words).is_some();
    for bare in [false, true] {
        for at in 0..uses.len() {
            let Some(within) = uses.get(at).filter(|of| of.scope.is_none()).and_then(|of| rest_of_other(&of.words))
            else {
                continue;
            };
            if (within == Scope::ALL) != bare {
                continue;
            }
            let others =
                uses.iter().enumerate().filter(|(other, of)| *other != at && !is_other(of)).map(|(_, of)| of.scope);
            let Some(taken) = others.collect::<Option<Vec<Scope>>>() else { continue };
            let scope = within.without(taken.into_iter().fold(Scope::NONE, Scope::or));
            if let Some(of) = uses.get_mut(at) {
                of.scope = Some(scope);
            }
        }
    }
}

/// A sub-entry on some of the products of another one stands for them in its place: `Toothpaste` beside `Oral products`.
fn narrow(uses: &mut [UseOf]) {
    let scopes: Vec<Option<Scope>> = uses.iter().map(|of| of.scope).collect();
    for of in uses.iter_mut().filter(|of| of.letter.is_some()) {
        let Some(own) = of.scope else { continue };
        let inner = |other: &Scope| other.may.all_in(own.may) && other.may != own.may;
        let inside =
            scopes.iter().flatten().filter(|other| inner(other)).fold(Scope::NONE, |all, other| all.or(*other));
        of.scope = Some(own.without(inside));
    }
}

/// What `other …` is said of: all products, or those of a group; less what it excepts.
fn rest_of_other(words: &str) -> Option<Scope> {
    let lower = words.to_lowercase().replace('\n', ", ");
    let words = lower.trim().trim_end_matches(['.', ';', ' ', '*']);
    if OTHER.contains(&words) {
        return Some(Scope::ALL);
    }
    if let Some(rest) = OTHER.iter().find_map(|other| words.strip_prefix(other)) {
        let but = ["except ", "with the exception of ", "excluding "];
        let excepted = but.iter().find_map(|word| rest.trim_start_matches([' ', ',', '(']).strip_prefix(word))?;
        return Some(Scope::ALL.without(read_scope(excepted, &|_| None)?));
    }
    read_scope(words.strip_prefix("all other ").or_else(|| words.strip_prefix("other "))?, &|_| None)
}

impl EntryReading<'_> {
    /// Whether any of its words is one that no program has understood.
    pub fn has_unread(&self) -> bool {
        self.conditions.iter().any(|condition| condition.what == What::Unread)
            || self.uses.iter().any(|of| of.scope.is_none())
    }
}
