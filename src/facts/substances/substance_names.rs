//! What a name in a supplier's statement stands for: a fragrance allergen that labels name, another known substance, or nothing
//! that is known here.
//!
//! `data/substance-names.csv` holds further names beside those of the table of allergens, sorted by name: `means` is the name
//! on labels; where that is no allergen's, the substance is known to be none. `positions` are the prefixes of position under
//! which it is the same entry (alpha- and beta-pinene), with `=` where one of them must be there. Prefixes of stereochemistry
//! never matter. What is not recognised is said to be unknown, never guessed at: a mistyped name stays the maker's.

use std::sync::LazyLock;

use super::spelling::{REMARKS, is_stereo, plain, position, without_brackets};
use crate::facts::{
    Allergen, Basis, CsvRow, CsvTable, RowProblem, allergen, allergen_of_cas, basis, fold, limits, material_inci,
};

/// What a name stands for.
#[derive(Debug, Clone, Copy)]
pub enum Named {
    /// A fragrance allergen.
    Allergen(&'static Allergen),
    /// A substance that is no fragrance allergen, with its label name where it has one here.
    Other(Option<&'static str>),
    /// Nothing that is known here.
    Unknown,
}

/// One further name of a substance.
struct Alias {
    means: &'static str,
    positions: Vec<&'static str>,
    /// One of the positions must be there.
    positioned: bool,
    cas: Vec<&'static str>,
}

/// What a name and a CAS number stand for. The name counts first, since one number may belong to several oils; a number that
/// is an allergen's counts before a name that is none.
pub fn recognise(name: &str, cas: Option<&str>) -> Named {
    let plain = plain(name);
    let known = |text: &str| Some(look_up(text)).filter(is_known);
    let named = known(&plain).or_else(|| known(&without_brackets(&plain)));
    match (named, cas.map_or(Named::Unknown, by_cas)) {
        (Some(Named::Allergen(row)), _) | (_, Named::Allergen(row)) => Named::Allergen(row),
        (Some(other), _) => other,
        (None, number) => number,
    }
}

const fn is_known(named: &Named) -> bool {
    !matches!(named, Named::Unknown)
}

fn by_cas(cas: &str) -> Named {
    if let Some(row) = allergen_of_cas(cas) {
        return Named::Allergen(row);
    }
    aliases().iter().find(|(_, alias)| alias.cas.contains(&cas)).map_or(Named::Unknown, |(_, alias)| alias.named())
}

impl Alias {
    fn named(&self) -> Named {
        allergen(self.means).map_or(Named::Other(Some(self.means)), Named::Allergen)
    }

    /// Whether it is this substance under these prefixes of position.
    fn takes(&self, positions: &[&str]) -> bool {
        positions.iter().all(|one| self.positions.contains(one)) && !(self.positioned && positions.is_empty())
    }
}

fn look_up(text: &str) -> Named {
    let key = fold(text);
    let exact = exact(&key);
    if is_known(&exact) {
        return exact;
    }
    let mut rest = key;
    for remark in REMARKS {
        if let Some(left) = rest.strip_suffix(remark) {
            rest = left.to_owned();
        }
    }
    bare(&rest)
}

/// A name as it stands in a table, whatever its spaces and hyphens.
fn exact(folded: &str) -> Named {
    if let Some(row) = allergen(folded) {
        return Named::Allergen(row);
    }
    let key = squeezed(folded);
    if let Some(alias) = alias(&key).filter(|alias| !alias.positioned) {
        return alias.named();
    }
    match material_inci(folded) {
        Some(inci) => allergen(inci).map_or(Named::Other((!inci.is_empty()).then_some(inci)), Named::Allergen),
        None if limits().iter().any(|limit| limit.names.iter().any(|(name, _)| name == folded)) => Named::Other(None),
        None => Named::Unknown,
    }
}

/// A name without its prefixes, which may also stand behind it (`Pinene, alpha-`), and without a plural's s.
fn bare(folded: &str) -> Named {
    let mut words: Vec<&str> = folded.split_whitespace().collect();
    let mut positions = Vec::new();
    let mut take = |word: &str| {
        let position = position(word);
        positions.extend(position);
        position.is_some() || is_stereo(word)
    };
    while words.len() > 1 && words.first().is_some_and(|word| take(word)) {
        words.remove(0);
    }
    while words.len() > 1 && words.last().is_some_and(|word| take(word)) {
        words.pop();
    }
    let name: String = words.concat();
    for name in [name.as_str(), name.strip_suffix('s').unwrap_or_default()] {
        let found = alias(name).filter(|alias| alias.takes(&positions)).map(Alias::named);
        let named = found.or_else(|| label(name).filter(|_| positions.is_empty()).map(Named::Allergen));
        if let Some(named) = named {
            return named;
        }
    }
    Named::Unknown
}

/// One further name of a substance on statements.
#[derive(Debug, Clone)]
pub(crate) struct SubstanceName {
    /// As written.
    pub(crate) name: &'static str,
    /// The name on labels, of an allergen or of what is none.
    pub(crate) means: &'static str,
    /// Prefixes of position under which it is the same.
    pub(crate) positions: Vec<&'static str>,
    /// One of them must be there.
    pub(crate) positioned: bool,
    /// CAS numbers.
    pub(crate) cas: Vec<&'static str>,
}

/// The further names, as the table has them.
pub(crate) fn substance_names() -> Vec<SubstanceName> {
    let names = TABLE.parse(read_row).0.into_iter().map(|(name, alias, _)| SubstanceName {
        name,
        means: alias.means,
        positions: alias.positions,
        positioned: alias.positioned,
        cas: alias.cas,
    });
    names.collect()
}

fn squeezed(folded: &str) -> String {
    folded.split_whitespace().collect()
}

fn alias(key: &str) -> Option<&'static Alias> {
    aliases()
        .binary_search_by(|(known, _)| known.as_str().cmp(key))
        .ok()
        .and_then(|n| aliases().get(n))
        .map(|(_, one)| one)
}

fn label(key: &str) -> Option<&'static Allergen> {
    LABELS.binary_search_by(|(known, _)| known.as_str().cmp(key)).ok().and_then(|n| LABELS.get(n)).map(|(_, row)| *row)
}

fn aliases() -> &'static [(String, Alias)] {
    &ROWS.0
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/substance-names.csv")));
type NameIndex = (Vec<(String, Alias)>, Vec<RowProblem>);

static ROWS: LazyLock<NameIndex> = LazyLock::new(|| {
    let (mut rows, problems) = TABLE.parse(|row| read_row(row).map(|(name, alias, _)| (squeezed(&fold(name)), alias)));
    rows.sort_by(|a, b| a.0.cmp(&b.0));
    (rows, problems)
});

/// The names of the table of allergens without their spaces.
static LABELS: LazyLock<Vec<(String, &'static Allergen)>> = LazyLock::new(|| {
    let names = |row: &'static Allergen| core::iter::once(&row.name).chain(&row.also).map(move |name| (*name, row));
    let mut labels: Vec<_> =
        crate::facts::allergens().iter().flat_map(names).map(|(name, row)| (squeezed(&fold(name)), row)).collect();
    labels.sort_by(|a, b| a.0.cmp(&b.0));
    labels
});

fn read_row(row: CsvRow<'static>) -> Result<(&'static str, Alias, Basis), RowProblem> {
    let positions = row.get("positions")?;
    let alias = Alias {
        means: row.get("means")?,
        positions: positions.trim_start_matches('=').split(' ').filter_map(position).collect(),
        positioned: positions.starts_with('='),
        cas: row.get("cas")?.split(' ').filter(|number| !number.is_empty()).collect(),
    };
    Ok((row.get("name")?, alias, basis(row)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(name: &str, cas: Option<&str>) -> String {
        match recognise(name, cas) {
            Named::Allergen(row) => row.name.to_owned(),
            Named::Other(name) => format!("other {}", name.unwrap_or_default()).trim().to_owned(),
            Named::Unknown => "?".to_owned(),
        }
    }

    #[test]
    fn substance_names_are_read_sorted_sourced_and_each_once() {
        assert_eq!(ROWS.1.iter().map(ToString::to_string).collect::<Vec<_>>(), Vec::<String>::new());
        let rows = TABLE.parse(read_row).0;
        assert!(rows.len() > 400 && rows.is_sorted_by(|a, b| (fold(a.0), a.0) <= (fold(b.0), b.0)));
        for (name, alias, basis) in &rows {
            assert!(!alias.means.is_empty() && !basis.source.is_empty(), "{name}");
        }
        for pair in aliases().windows(2) {
            assert!(pair[0].0 < pair[1].0, "{} twice", pair[0].0);
        }
        // No further name of one allergen is a name of another, nor of what is none.
        for (key, alias) in aliases() {
            if let Some(row) = label(key) {
                assert_eq!(alias.means, row.name, "{key}");
            }
        }
    }

    /// Source: the check digit of CAS registry numbers, and that each number stands for one substance only.
    #[test]
    fn substance_names_numbers_are_right_and_belong_to_one_substance() {
        let mut seen: Vec<(&str, &str)> = Vec::new();
        for (_, alias) in aliases() {
            for cas in &alias.cas {
                let digits: Vec<u32> = cas.chars().filter_map(|c| c.to_digit(10)).collect();
                let (check, body) = digits.split_last().unwrap();
                let sum: u32 = body.iter().rev().zip(1..).map(|(digit, weight)| digit * weight).sum();
                assert_eq!(sum % 10, *check, "{cas}");
                assert!(seen.iter().all(|(known, _)| known != cas), "{cas} twice");
                let allergen = allergen_of_cas(cas).map(|row| row.name);
                assert!(allergen.is_none_or(|name| name == alias.means), "{cas} is of {allergen:?}");
                seen.push((*cas, alias.means));
            }
        }
        assert!(seen.len() > 80);
    }

    // Sources: names and isomers as the annex lists them (Regulation (EC) 1223/2009 Annex III/70, 73, 86, 88, 90, 131, 133,
    // 157, 329, 331 to 333, 338, 341, 343, 371); which spellings suppliers use is common practice, no source.
    #[test]
    fn recognise_reads_prefixes_spellings_and_numbers() {
        for (name, expected) in [
            ("d-Limonene", "Limonene"),
            ("D-LIMONENE", "Limonene"),
            ("(+)-Limonene", "Limonene"),
            ("(R)-(+)-Limonene", "Limonene"),
            ("(4R)-Limonene", "Limonene"),
            ("dl-Limonene", "Limonene"),
            ("Limonene, d-", "Limonene"),
            ("Limonenes", "Limonene"),
            ("Dipentene", "Limonene"),
            ("alpha-Pinene", "Pinene"),
            ("(-)-\u{3b2}-Pinene", "Pinene"),
            ("(1S,5S)-alpha-pinene", "Pinene"),
            ("Pinene (alpha)", "Pinene"),
            ("b-Pinene", "Pinene"),
            ("L-Menthol", "Menthol"),
            ("trans-Anethole", "Anethole"),
            ("(E)-Anethole", "Anethole"),
            ("p-Anethole", "Anethole"),
            ("L-Carvone", "Carvone"),
            ("D-Camphor", "Camphor"),
            ("alpha-Terpineol", "Terpineol"),
            ("\u{3b3}-Terpineol", "Terpineol"),
            ("Caryophyllene", "Beta-Caryophyllene"),
            ("(E)-\u{3b2}-Caryophyllene", "Beta-Caryophyllene"),
            ("\u{df}-Caryophyllene", "Beta-Caryophyllene"),
            ("Linalol", "Linalool"),
            ("(-)-Linalool", "Linalool"),
            ("Oakmoss extract", "Evernia Prunastri Extract"),
            ("Methyleugenol", "other Methyl Eugenol"),
            ("Methyl-eugenol", "other Methyl Eugenol"),
            ("p-Anisyl alcohol", "Anise Alcohol"),
            ("o-Hydroxybenzaldehyde", "Salicylaldehyde"),
            ("\u{3b1}-Isomethyl ionone", "Alpha-Isomethyl Ionone"),
            ("a-Isomethyl ionone", "Alpha-Isomethyl Ionone"),
            ("trans,trans-Farnesol", "Farnesol"),
            ("2E,6E-Farnesol", "Farnesol"),
            ("cis-Isoeugenol", "Isoeugenol"),
            ("Hydroxy-citronellal", "Hydroxycitronellal"),
            ("\u{3b1}-Hexylcinnamaldehyde", "Hexyl Cinnamal"),
            ("\u{3b4}-Damascone", "Rose Ketones"),
            ("Linalool** (from essential oils)", "Linalool"),
            ("Geraniol\u{b0}", "Geraniol"),
            ("Citronellol, natural constituent of essential oil", "Citronellol"),
            ("Citral (neral + geranial)", "Citral"),
            ("Citrus Aurantium (Bergamia) Peel Oil", "Citrus Aurantium Bergamia Peel Oil"),
            ("Citrus Aurantium Dulcis (Orange) Peel Oil", "Citrus Aurantium Peel Oil"),
            ("Eugenia Caryophyllus (Clove) Bud Oil", "Eugenia Caryophyllus Oil"),
            ("Pogostemon Cablin Leaf Oil", "Pogostemon Cablin Oil"),
            ("Mentha Piperita Leaf Oil", "Mentha Piperita Oil"),
            ("Cananga Odorata Oil", "Cananga Odorata Oil/Extract"),
            ("Turpentine Oil", "Turpentine"),
            ("Cymbopogon Citratus Oil", "Lemongrass Oil"),
        ] {
            assert_eq!(told(name, None), expected, "{name}");
        }
        assert_eq!(told("Anything", Some("5989-27-5")), "Limonene");
        assert_eq!(told("5989-27-5", Some("5989-27-5")), "Limonene");
        assert_eq!(told("Anything", Some("93-15-2")), "other Methyl Eugenol");
        assert_eq!(told("Citrus terpenes", Some("106-25-2")), "other Nerol");
    }

    // Source: what Annex III does not list; near names are common practice, no source.
    #[test]
    fn recognise_tells_near_names_apart_and_guesses_nothing() {
        for name in [
            "gamma-Terpinene",
            "alpha-Humulene (alpha-caryophyllene)",
            "alpha-Caryophyllene",
            "alpha-Ionone",
            "Terpinen-4-ol",
            "Terpinyl acetate",
            "Linalool oxide",
            "Caryophyllene oxide",
            "Nerol",
            "Citronellal",
            "Dihydrolinalool",
            "Ethyl vanillin",
            "4-Methylbenzylidene Camphor",
            "Menthone",
            "Eucalyptol",
            "Camphene",
            "Triacetin",
            "Glycerin",
            "Petitgrain oil",
            "Citronella oil",
        ] {
            assert!(told(name, None).starts_with("other"), "{name}: {}", told(name, None));
        }
        for name in [
            "Limonen3",
            "Secret base",
            "Total",
            "Terpinene",
            "o-Anethole",
            "p-Hydroxybenzaldehyde",
            "",
            "d-",
            "Cedarwood oil",
        ] {
            assert_eq!(told(name, None), "?", "{name}");
        }
        // A mistyped number is no number.
        assert_eq!(told("Anything", Some("5989-27-6")), "?");
    }
}
