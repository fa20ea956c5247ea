//! Reads what the law says about products: `Rinse-off hair products`, `Face products with the exception of …`.
//!
//! A phrase is read only if `data/product-types.csv` knows all of its words; what it does not know stays unread, which is an
//! answer too. Phrases are tried from the longest to the shortest.
//!
//! A row with the place `after` narrows down all that stands before it in its list; the others are names of products. `sure` and
//! `may` are made of groups of `data/kinds.csv`, kinds, forms and ages: a space means both, `|` either, `!` not. A group with a
//! question mark takes a kind in perhaps.
//!
//! The law names product types and defines few of them; which kinds of this program a type covers is in both tables `custom`,
//! a reading of ours. Nobody else has checked it.

use std::sync::LazyLock;

use super::{FILE, ProductForm, ProductKind, Products, Scope, Youngest};
use crate::facts::CsvTable;

static KINDS: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(FILE.text("data/kinds.csv")));
static PHRASES: LazyLock<Vec<Phrase>> = LazyLock::new(read_phrases);

struct Phrase {
    text: String,
    /// It narrows down what stands before it.
    after: bool,
    scope: Scope,
}

fn read_phrases() -> Vec<Phrase> {
    let table = CsvTable::read(FILE.text("data/product-types.csv"));
    let mut phrases: Vec<Phrase> = table
        .rows()
        .filter_map(|row| {
            let text = row.get("phrase").ok()?;
            let sure = expression(row.get("sure").ok()?);
            let may = expression(row.get("may").ok()?);
            let scope = Scope { sure: sure.sure, may: sure.may.or(may.may) };
            Some(Phrase { text: text.to_owned(), after: row.get("place") == Ok("after"), scope })
        })
        .collect();
    phrases.sort_by_key(|phrase| core::cmp::Reverse(phrase.text.len()));
    phrases
}

/// Reads `rinse-off hair|shampoo !propellant`. No word means no product, which leaves a phrase to its other column.
fn expression(text: &str) -> Scope {
    text.split('|').filter(|all| !all.trim().is_empty()).fold(Scope::NONE, |either, all| {
        let both = all.split_whitespace().fold(Scope::ALL, |both, word| match word.strip_prefix('!') {
            Some(word) => both.without(group(word)),
            None => both.and(group(word)),
        });
        either.or(both)
    })
}

fn group(word: &str) -> Scope {
    if word == "all" {
        return Scope::ALL;
    }
    if let Some(kind) = ProductKind::from_key(word) {
        return Scope::exactly(Products::of_kinds(&[kind]));
    }
    if let Some(form) = ProductForm::from_key(word) {
        return Scope::exactly(Products::of_forms(&[form]));
    }
    if let Some(youngest) = Youngest::from_key(word) {
        return Scope::exactly(Products::of_youngest(|of| of == youngest));
    }
    let of = |wanted: &[&str]| {
        let rows = KINDS
            .rows()
            .filter(|row| row.get("groups").is_ok_and(|groups| groups.split(' ').any(|group| wanted.contains(&group))));
        let kinds: Vec<ProductKind> = rows.filter_map(|row| ProductKind::from_key(row.get("kind").ok()?)).collect();
        Products::of_kinds(&kinds)
    };
    let perhaps = format!("{word}?");
    Scope { sure: of(&[word]), may: of(&[word, &perhaps]) }
}

/// The products of some groups, forms or ages, as the tables of this room write them: `leave-on body`, `hair|scalp`.
pub fn products(text: &str) -> Scope {
    expression(text)
}

/// Products that stay on; asked for with every substance that is to be indicated.
pub(super) static LEAVE_ON: LazyLock<Scope> = LazyLock::new(|| products("leave-on"));
/// Products that are mixed before they are used.
pub(super) static MIXED: LazyLock<Scope> = LazyLock::new(|| products("hair-dye-oxidative|eyelash-dye"));

/// What stands before products that are left out.
const BUT: [&str; 7] =
    ["with the exception of", "except for", "except in", "except", "other than", "excluding", "excepted"];
/// What stands between two phrases.
const AND: [&str; 9] = [", and", "; and", ",", ";", "/", "and", "or", "in", "including"];

/// Reads a phrase on products; `of_letter` gives what a sub-entry covers that the phrase names, such as `(d)`.
///
/// None where any of its words is not understood.
pub(super) fn read_scope(text: &str, of_letter: &dyn Fn(char) -> Option<Scope>) -> Option<Scope> {
    let plain = plain(text);
    let (scope, rest) = list(&plain, of_letter)?;
    rest.trim().is_empty().then_some(scope)
}

/// Small letters, one kind of apostrophe, no quotes, no marks of footnotes.
fn plain(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '’' | '\u{2018}' => plain.push('\''),
            '“' | '”' | '"' | '*' => {}
            '\n' => plain.push_str(", "),
            '\u{2010}' | '\u{2011}' | '–' => plain.push('-'),
            c => plain.extend(c.to_lowercase()),
        }
    }
    let plain = plain.replace("end user's", "end-user's").replace("()", "").replace("  ", " ");
    let plain = without_notes(&plain);
    plain.trim().trim_end_matches(['.', ';', ',', ':', ' ', '\'']).to_owned()
}

/// Without `(13)`: a footnote whose text is not in the files.
fn without_notes(text: &str) -> String {
    let mut rest = text;
    let mut plain = String::with_capacity(text.len());
    while let Some(open) = rest.find('(') {
        let (before, after) = rest.split_at(open);
        plain.push_str(before);
        let inner = after.get(1..).and_then(|inner| inner.split(')').next()).unwrap_or_default();
        let note = !inner.trim().is_empty() && inner.trim().chars().all(|c| c.is_ascii_digit());
        let skip = if note { inner.len() + 2 } else { 1 };
        if !note {
            plain.push('(');
        }
        rest = after.get(skip..).unwrap_or_default();
    }
    plain.push_str(rest);
    plain
}

type Found<'a> = (Scope, &'a str);

/// A list of phrases, up to a closing bracket or the end.
fn list<'a>(text: &'a str, of_letter: &dyn Fn(char) -> Option<Scope>) -> Option<Found<'a>> {
    let (mut scope, mut rest) = item(text, of_letter)?;
    loop {
        rest = rest.trim_start();
        if rest.is_empty() || rest.starts_with(')') {
            return Some((scope, rest));
        }
        let bare = rest.trim_start_matches([',', ' ']);
        if let Some((narrower, after)) = phrase(bare, true).filter(|_| phrase(bare, false).is_none()) {
            scope = scope.and(narrower);
            rest = after;
        } else if let Some(after) = BUT.iter().find_map(|word| after_word(bare, word)) {
            let (but, end) = list(after, of_letter)?;
            scope = scope.without(but);
            rest = end;
        } else {
            let after = AND.iter().find_map(|word| after_word(rest, word))?;
            let (more, end) = item(after, of_letter)?;
            scope = scope.or(more);
            rest = end;
        }
    }
}

/// One phrase with what narrows it down in brackets.
fn item<'a>(text: &'a str, of_letter: &dyn Fn(char) -> Option<Scope>) -> Option<Found<'a>> {
    let text = text.trim_start();
    let text = text.strip_prefix("in ").unwrap_or(text);
    let (mut scope, mut rest) = phrase(text, false).or_else(|| letter(text, of_letter))?;
    while let Some(inner) = rest.trim_start().strip_prefix('(') {
        let inner = inner.trim_start();
        let (next, end) = if let Some(after) = BUT.iter().find_map(|word| after_word(inner, word)) {
            let (but, end) = list(after, of_letter)?;
            (scope.without(but), end)
        } else {
            let (narrower, end) = phrase(inner, true)?;
            (scope.and(narrower), end)
        };
        scope = next;
        rest = end.trim_start().strip_prefix(')')?;
    }
    Some((scope, rest))
}

/// A sub-entry, which a phrase may name before its products: `(d) “Toothpaste”`.
fn letter<'a>(text: &'a str, of_letter: &dyn Fn(char) -> Option<Scope>) -> Option<Found<'a>> {
    let mut inner = text.strip_prefix('(')?.chars();
    let letter = inner.next()?;
    let rest = inner.as_str().strip_prefix(')')?;
    let scope = of_letter(letter)?;
    let named = phrase(rest.trim_start(), false).map_or(rest, |(_, rest)| rest);
    Some((scope, named))
}

fn phrase(text: &str, after: bool) -> Option<Found<'_>> {
    PHRASES
        .iter()
        .filter(|phrase| phrase.after == after)
        .find_map(|phrase| Some((phrase.scope, after_word(text, &phrase.text)?)))
}

/// The text behind a word or phrase, if it stands there whole. Commas within a narrowing phrase are not told apart.
fn after_word<'a>(text: &'a str, word: &str) -> Option<&'a str> {
    let mut rest = text;
    for (n, part) in word.split(' ').enumerate() {
        if n > 0 {
            let trimmed = rest.trim_start_matches([' ', ',']);
            if trimmed.len() == rest.len() {
                return None;
            }
            rest = trimmed;
        }
        rest = rest.strip_prefix(part)?;
    }
    let letters = word.ends_with(char::is_alphanumeric);
    (!letters || !rest.starts_with(|c: char| c.is_alphanumeric() || c == '-')).then_some(rest)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::law::Applies;
    use proptest::prelude::*;

    #[test]
    fn scope_tables_are_read_whole() {
        assert!(KINDS.rows().map(|row| row.get("kind").unwrap()).eq(ProductKind::ALL.iter().map(|kind| kind.key())));
        let custom = |table: &CsvTable| table.rows().all(|row| row.get("source") == Ok("custom"));
        assert!(custom(&KINDS) && custom(&CsvTable::read(FILE.text("data/product-types.csv"))));
        let mut groups: Vec<&str> = vec!["all"];
        groups.extend(
            KINDS.rows().flat_map(|row| row.get("groups").unwrap().split(' ')).map(|group| group.trim_end_matches('?')),
        );
        groups.extend(ProductKind::ALL.iter().map(|kind| kind.key()));
        groups.extend(ProductForm::ALL.iter().map(|form| form.key()));
        groups.extend(Youngest::ALL.iter().map(|youngest| youngest.key()));
        let table = CsvTable::read(FILE.text("data/product-types.csv"));
        let (rows, problems) =
            table.parse(|row| Ok((row.get("phrase")?, row.get("place")?, row.get("sure")?, row.get("may")?)));
        assert_eq!(problems, []);
        for (text, place, sure, may) in rows {
            assert!(["", "after"].contains(&place), "{text}");
            for word in format!("{sure} {may}").split([' ', '|']).filter(|word| !word.is_empty()) {
                assert!(groups.contains(&word.trim_start_matches('!')), "{text}: {word}");
            }
            let phrase = PHRASES.iter().find(|phrase| phrase.text == text).unwrap();
            assert!(!phrase.scope.may.is_none() && phrase.scope.sure.all_in(phrase.scope.may), "{text}");
            assert_eq!(
                PHRASES.iter().filter(|phrase| phrase.text == text && phrase.after == (place == "after")).count(),
                1,
                "{text}"
            );
        }
    }

    fn covers(text: &str, product: &str) -> Option<Applies> {
        Some(read_scope(text, &|_| None)?.covers(products(product).sure))
    }

    // Phrases of Annex III/98, III/324, III/380, V/1, V/56, VI/3 and VI/4, worked by hand.
    #[test]
    fn scope_phrases_of_the_law_cover_what_they_say() {
        use Applies::{No, Unknown, Yes};
        let other = "Other products except body lotion, eye shadow, mascara, eyeliner, lipstick, roll-on deodorant";
        let skin = "Leave-on skin products (except face makeup, spray/aerosol body lotion, spray/aerosol deodorant and \
                    hydroalcoholic-based fragrances) and leave on hair products (except spray/aerosol products)";
        let rinse = "All rinse-off products (except shower gel/bath products, hand wash, hair conditioner and shampoo intended \
                     for children below 3 years of age)";
        let face = "Face products, hand products, and lip products, excluding propellant and pump spray products";
        for (text, product, expected) in [
            (skin, "body-lotion still", Yes),
            (skin, "body-lotion pump", No),
            (skin, "hair-lotion still", Yes),
            (skin, "hair-styling propellant", No),
            (skin, "eau-de-toilette", No),
            (skin, "shampoo", No),
            (rinse, "shampoo 10", Yes),
            (rinse, "shampoo under-3", No),
            (rinse, "face-wash under-3", Yes),
            (face, "face-cream still", Yes),
            (face, "face-cream pump", No),
            (face, "lipstick still", Yes),
            (face, "body-lotion still", No),
            ("Rinse-off products, except oral care products", "toothpaste", No),
            ("Rinse-off products, except oral care products", "hand-wash", Yes),
            ("Face products with the exception of propellent spray products", "face-cream pump", Yes),
            ("Body lotion", "body-other", Unknown),
            (
                "products for children under 3 years of age, except in bath products / shower gels and shampoos",
                "shampoo under-3",
                No,
            ),
            (
                "products for children under 3 years of age, except in bath products / shower gels and shampoos",
                "hand-wash under-3",
                Yes,
            ),
            (
                "products for children under 3 years of age, except in bath products / shower gels and shampoos",
                "hand-wash 3",
                No,
            ),
            ("aerosol dispensers (sprays)", "body-lotion pump", Unknown),
            ("body lotion and body cream (13)", "body-lotion", Yes),
        ] {
            assert_eq!(covers(text, product), Some(expected), "{text}: {product}");
        }
        // What is not known is not guessed at.
        for text in [other, "Solvent", "Rust inhibitor", "Toothpaste for connoisseurs", "", "and"] {
            assert_eq!(covers(text, "toothpaste"), None, "{text}");
        }
    }

    proptest! {
        #[test]
        fn scope_of_any_text_never_panics(text in "[a-z(),/ \n]{0,60}|.{0,60}") {
            let _ = read_scope(&text, &|_| Some(Scope::ALL));
        }
    }
}
