//! The built-in table of fats, read once.
//!
//! `data/fats.csv` holds one row a fat, sorted by id. A fatty acid's cell is its typical per cent of all fatty acids and,
//! behind a space, the range of a standard or study; the last acid cell holds what has no column: per cent, what it is,
//! its mean molar mass and double bonds. `sv` and `iv` are ranges of a standard, specification or study; unsaponifiables
//! are in g/kg, and where no typical amount is given half of the most is assumed. Each group has its source, as keys of
//! `data/fat-sources.csv`, and how well it is known. What can be computed from these is not in the table.

use std::sync::LazyLock;

use super::acid_words::{Word, read_word};
use super::evidence::Evidence;
use super::profile::{OtherAcids, UNKNOWN};
use crate::facts::{
    Allergens, CsvRow, CsvTable, FatClass, FatKind, FattyAcid, Iv, Profile, Provenance, RowProblem, Span, Sv,
};
use crate::quantity::{Celsius, Percent, Quantity};

/// What the usual methods get wrong about a fat.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Doubts {
    /// The oxidation index does not fit its acids.
    pub oxidation: bool,
    /// The Wijs method reads its double bonds wrongly.
    pub iodine: bool,
    /// It is less of a triglyceride than the model takes it for.
    pub model: bool,
}

/// One row of the table.
#[derive(Debug, Clone)]
pub struct FatRow {
    /// The id, which is that of its ingredient too.
    pub id: &'static str,
    /// Its class.
    pub class: FatClass,
    /// Its kind.
    pub kind: FatKind,
    /// Typical fatty acids. For a wax ester these are the acids in it only.
    pub profile: Option<Profile>,
    /// Where they come from.
    pub profile_evidence: Option<Evidence>,
    /// Ranges of a standard or a study, in the order of [`FattyAcid::ALL`].
    pub ranges: [Option<Span<Percent>>; FattyAcid::ALL.len()],
    /// Where those come from.
    pub ranges_evidence: Option<Evidence>,
    /// Measured saponification value.
    pub sv: Span<Sv>,
    /// A typical one, where it was measured and not computed.
    pub sv_typical: Option<Sv>,
    /// Where they come from.
    pub sv_evidence: Evidence,
    /// Measured iodine value.
    pub iv: Span<Iv>,
    /// A typical one, where it was measured and not computed.
    pub iv_typical: Option<Iv>,
    /// Where they come from.
    pub iv_evidence: Evidence,
    /// The most unsaponifiables.
    pub unsaponifiable_max: Percent,
    /// A typical share of them; an assumption for most fats.
    pub unsaponifiable: Percent,
    /// Where the most comes from.
    pub unsaponifiable_evidence: Evidence,
    /// Melting, from and to.
    pub melts: Option<(Celsius, Celsius)>,
    /// Where that comes from.
    pub melts_evidence: Option<Evidence>,
    /// Allergens.
    pub allergens: Allergens,
    /// What methods get wrong about it.
    pub doubts: Doubts,
    /// Anything else worth knowing; may be empty.
    pub note: &'static str,
}

/// Every row, sorted by id.
pub fn fats() -> &'static [FatRow] {
    &FATS.0
}

/// The row of an id.
pub fn fat_row(id: &str) -> Option<&'static FatRow> {
    let all = fats();
    all.binary_search_by(|row| row.id.cmp(id)).ok().and_then(|n| all.get(n))
}

static TABLE: LazyLock<CsvTable> = LazyLock::new(|| CsvTable::read(include_str!("../data/fats.csv")));

static FATS: LazyLock<(Vec<FatRow>, Vec<RowProblem>)> = LazyLock::new(|| TABLE.parse(read_row));

fn read_row(row: CsvRow<'static>) -> Result<FatRow, RowProblem> {
    let (profile, ranges) = read_acids(row)?;
    let unsaponifiable_max = per_kilogram(row, "unsap_max")?.ok_or_else(|| wrong(row, "unsap_max", "g/kg"))?;
    let evidence = |source: &str, seen: &str| read_evidence(row, source, seen);
    let need = |seen: &'static str| {
        evidence("values_source", seen)?
            .ok_or_else(|| wrong(row, "values_source", "a source, and how well it is known"))
    };
    let span_sv = read_with(row, "sv", "a range", &Span::from_canonical)?.ok_or_else(|| wrong(row, "sv", "a range"))?;
    let span_iv = read_with(row, "iv", "a range", &Span::from_canonical)?.ok_or_else(|| wrong(row, "iv", "a range"))?;
    Ok(FatRow {
        id: row.get("id")?,
        class: read_with(row, "class", "oil, butter, wax or animal", &FatClass::from_key)?.unwrap_or(FatClass::Oil),
        kind: read_with(row, "type", "a kind of fat or nothing", &FatKind::from_key)?.unwrap_or_default(),
        profile,
        profile_evidence: evidence("acids_source", "acids_seen")?,
        ranges,
        ranges_evidence: evidence("ranges_source", "ranges_seen")?,
        sv: span_sv,
        sv_typical: read_with(row, "sv_typ", "a value", &|text| Sv::from_canonical(text).ok())?,
        sv_evidence: need("sv_seen")?,
        iv: span_iv,
        iv_typical: read_with(row, "iv_typ", "a value", &|text| Iv::from_canonical(text).ok())?,
        iv_evidence: need("iv_seen")?,
        unsaponifiable_max,
        unsaponifiable: per_kilogram(row, "unsap_typ")?.unwrap_or(Percent::millionths(unsaponifiable_max.units() / 2)),
        unsaponifiable_evidence: need("unsap_seen")?,
        melts: read_with(row, "melts", "one or two temperatures", &read_melts)?,
        melts_evidence: evidence("melts_source", "melts_seen")?,
        allergens: read_with(row, "allergens", "allergens", &read_allergens)?.unwrap_or_default(),
        doubts: read_with(row, "doubts", "cox, wijs or model", &read_doubts)?.unwrap_or_default(),
        note: row.get("note")?,
    })
}

fn wrong(row: CsvRow<'static>, column: &'static str, expected: &'static str) -> RowProblem {
    row.wrong_cell(column, row.get(column).unwrap_or_default(), expected)
}

fn read_with<T>(
    row: CsvRow<'static>,
    column: &'static str,
    expected: &'static str,
    read: &dyn Fn(&'static str) -> Option<T>,
) -> Result<Option<T>, RowProblem> {
    match row.get(column)? {
        "" => Ok(None),
        text => read(text).map(Some).ok_or_else(|| row.wrong_cell(column, text, expected)),
    }
}

fn per_kilogram(row: CsvRow<'static>, column: &'static str) -> Result<Option<Percent>, RowProblem> {
    // 1 g/kg is 0.1 %.
    read_with(row, column, "g/kg", &|text| Some(Percent::millionths(millionths(text)? / 10)))
}

fn read_evidence(row: CsvRow<'static>, source: &str, seen: &str) -> Result<Option<Evidence>, RowProblem> {
    match (row.get(source)?, row.get(seen)?) {
        ("", "") => Ok(None),
        ("", _) => Err(row.wrong_cell(source, "", "a source")),
        (source, _) => Ok(Some(Evidence { source, provenance: Provenance::read(row, seen)? })),
    }
}

fn read_melts(text: &'static str) -> Option<(Celsius, Celsius)> {
    let (low, high) = text.split_once(" to ").unwrap_or((text, text));
    Some((Celsius::from_canonical(low).ok()?, Celsius::from_canonical(high).ok()?))
}

fn read_allergens(text: &'static str) -> Option<Allergens> {
    text.split(' ').map(Allergens::from_key).try_fold(Allergens::NONE, |sum, one| Some(sum.with(one?)))
}

fn read_doubts(text: &'static str) -> Option<Doubts> {
    let mut doubts = Doubts::default();
    for word in text.split(' ') {
        match word {
            "cox" => doubts.oxidation = true,
            "wijs" => doubts.iodine = true,
            "model" => doubts.model = true,
            _ => return None,
        }
    }
    Some(doubts)
}

type Acids = (Option<Profile>, [Option<Span<Percent>>; FattyAcid::ALL.len()]);

fn read_acids(row: CsvRow<'static>) -> Result<Acids, RowProblem> {
    let mut acids = [0.0; FattyAcid::ALL.len()];
    let mut ranges = [None; FattyAcid::ALL.len()];
    for acid in FattyAcid::ALL {
        let cell = row.get(acid.key())?;
        if cell.is_empty() {
            continue;
        }
        let (typical, range) = cell.split_once(' ').unwrap_or((cell, ""));
        let expected = "a per cent, and a range behind a space";
        let read = float(typical).ok_or_else(|| row.wrong_cell(acid.key(), cell, expected))?;
        acids[acid as usize] = read;
        if !range.is_empty() {
            let span = Span::from_canonical(range).ok_or_else(|| row.wrong_cell(acid.key(), cell, expected))?;
            ranges[acid as usize] = Some(span);
        }
    }
    let (rest, rest_is) =
        read_with(row, "other", "per cent, kind, molar mass, double bonds", &read_rest)?.unwrap_or((0.0, UNKNOWN));
    let unknown = if row.get("other")?.contains(" unknown ") { rest } else { 0.0 };
    Ok((Profile::new(acids, rest, rest_is).map(|profile| profile.with_unknown(unknown)), ranges))
}

fn read_rest(text: &'static str) -> Option<(f64, OtherAcids)> {
    let mut words = text.split(' ');
    let percent = float(words.next()?)?;
    let Some(kind) = words.next() else { return Some((percent, UNKNOWN)) };
    let kind = if matches!(kind, "unknown" | "mixed") { "" } else { kind };
    let rate = match read_word(kind) {
        Some(Word::Acid(acid)) => OtherAcids::of(&acid).rate,
        _ => 0.0,
    };
    Some((percent, OtherAcids { kind, molar_mass: float(words.next()?)?, double_bonds: float(words.next()?)?, rate }))
}

/// Reads a decimal through whole millionths: the compiler's own reader of floats is large and is not needed.
fn float(text: &str) -> Option<f64> {
    millionths(text).map(|units| units as f64 / 1e6)
}

fn millionths(text: &str) -> Option<i64> {
    // A mass in grams reads any number that is not negative to six places.
    crate::quantity::Mass::from_canonical(text).ok().map(Quantity::units)
}

#[cfg(test)]
mod tests {
    use super::super::evidence::SOURCES;
    use super::*;

    #[test]
    fn fats_every_row_is_read() {
        let problems: Vec<_> = FATS.1.iter().map(ToString::to_string).collect();
        assert_eq!(problems, Vec::<String>::new());
        assert_eq!(fats().len(), 96);
    }

    #[test]
    fn fats_ids_are_sorted_and_those_of_ingredients() {
        let ids: Vec<_> = TABLE.rows().map(|row| row.get("id").unwrap()).collect();
        for pair in ids.windows(2) {
            assert!(pair[0] < pair[1], "{:?} must stand before {:?}", pair[1], pair[0]);
        }
        for id in ids {
            let ingredient = crate::facts::material(id).unwrap_or_else(|| panic!("{id}: no ingredient"));
            assert_eq!(ingredient.links.fat, Some(id));
        }
    }

    #[test]
    fn fats_every_link_leads_to_a_row() {
        for material in crate::facts::materials() {
            if let Some(fat) = material.links.fat {
                assert!(fat_row(fat).is_some(), "{}: {fat}", material.id);
            }
        }
    }

    #[test]
    fn fats_every_source_is_listed_and_used() {
        let used: Vec<&str> = fats()
            .iter()
            .flat_map(|row| {
                let some = [row.profile_evidence, row.ranges_evidence, row.melts_evidence].into_iter().flatten();
                some.chain([row.sv_evidence, row.iv_evidence, row.unsaponifiable_evidence]).collect::<Vec<_>>()
            })
            .flat_map(|evidence| evidence.source.split(';'))
            .map(|cell| cell.split(' ').next().unwrap())
            .collect();
        for key in &used {
            assert!(SOURCES.iter().any(|(own, _)| own == key), "{key} is not in the list of sources");
        }
        for (key, text) in SOURCES.iter() {
            assert!(used.contains(key) && !text.is_empty(), "{key} is not used");
        }
        assert!(SOURCES.windows(2).all(|pair| pair[0].0 < pair[1].0), "the list of sources is sorted");
    }

    #[test]
    fn fats_profiles_sum_to_a_hundred() {
        for row in fats() {
            let Some(profile) = &row.profile else { continue };
            assert!((profile.total() - 100.0).abs() < 0.06, "{}: {}", row.id, profile.total());
        }
    }

    #[test]
    fn fats_evidence_reads_as_words() {
        let almond = fat_row("almond-sweet").unwrap();
        assert!(almond.profile_evidence.unwrap().text().ends_with("oil, food code 440"));
        assert!(almond.sv_evidence.provenance.is_verified());
        assert!(almond.sv_evidence.text().contains("; European Pharmacopoeia"));
    }
}
