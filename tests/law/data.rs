//! The compact data against the files it is made from.

use hundred_parts::facts::CsvTable;
use hundred_parts::law::{Annex, AnnexCell, COMPACT, Export, KNOWN_TO, Law, cas_numbers, differences, pack};
use hundred_parts::quantity::Day;
use proptest::prelude::*;
use sha2::{Digest, Sha256};
use std::path::Path;

fn file(annex: Annex) -> Vec<u8> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/law/annexes");
    std::fs::read(folder.join(format!("annex_{}.csv", annex.numeral()))).unwrap()
}

fn exports() -> Vec<Export> {
    Annex::ALL.into_iter().map(|annex| Export::read(&file(annex)).unwrap()).collect()
}

#[test]
fn law_compact_data_is_what_the_step_makes() {
    let made = pack(&exports()).unwrap();
    assert!(made == COMPACT, "run `cargo task law`");
    assert_eq!(Law::read(COMPACT).unwrap().known_to(), Some(KNOWN_TO), "run `cargo task law`");
}

// The files as they were published, and how many rows they have: counted here by another reader, line by line.
#[test]
fn law_has_every_row_of_the_files() {
    let law = Law::read(COMPACT).unwrap();
    for (annex, rows, digest) in [
        (Annex::II, 1758, "b7105a05bf724bb10cebaac3a3813b6146c3153ae1d07097d35bb1f73cd7283b"),
        (Annex::III, 381, "82263556bab69a05b508b92e42dbeceec56f201a62ded2dd513198f6b029dd53"),
        (Annex::IV, 154, "bed185d597cec2e119b05eb8fb43adc07d3ddc1aa6ed0a2ee64308f790b5b84b"),
        (Annex::V, 58, "e6db8b8b90d4082ec83bcc9d1fffcd8993b501d1e8116de057c772a347d10b12"),
        (Annex::VI, 34, "b672b81a2a090b56bf09bbd554764a6f0c8dd8104761a0e87933e555df775774"),
    ] {
        let bytes = file(annex);
        let found: String = Sha256::digest(&bytes).iter().map(|byte| format!("{byte:02x}")).collect();
        assert_eq!(found, digest, "{annex}");
        let text = String::from_utf8(bytes).unwrap();
        let body = &text[text.find("\"Reference Number\"").unwrap()..];
        let table = CsvTable::read(body);
        let entries: Vec<_> = law.entries().iter().filter(|entry| entry.annex == annex).collect();
        assert_eq!((entries.len(), table.rows().count()), (rows, rows), "{annex}");
        for (row, entry) in table.rows().zip(entries) {
            let words = |text: &str| text.replace('\u{ad}', "").split_whitespace().collect::<Vec<_>>().join(" ");
            assert_eq!(words(row.get("Reference Number").unwrap()), entry.reference);
            for (cell, column) in [
                (AnnexCell::Product, "Product Type, body parts"),
                (AnnexCell::Maximum, "Maximum concentration in ready for use preparation"),
                (AnnexCell::Other, "Other"),
                (AnnexCell::Wording, "Wording of conditions of use and warnings"),
            ] {
                if let Ok(text) = row.get(column) {
                    assert_eq!(words(text), words(entry.get(cell)), "{}, {column}", entry.title());
                }
            }
        }
    }
}

#[test]
fn law_keeps_every_name_and_number_of_the_files() {
    let law = Law::read(COMPACT).unwrap();
    for annex in Annex::ALL {
        let text = String::from_utf8(file(annex)).unwrap();
        let table = CsvTable::read(&text[text.find("\"Reference Number\"").unwrap()..]);
        for (row, entry) in table.rows().zip(law.entries().iter().filter(|entry| entry.annex == annex)) {
            let all = format!("{} {} {}", entry.chemical, entry.glossary, entry.identified).to_lowercase();
            let plain =
                |text: &str| text.to_lowercase().replace('\u{ad}', "").split_whitespace().collect::<Vec<_>>().join(" ");
            let all = plain(&all);
            for column in ["Identified INGREDIENTS or substances e.g.", "Name of Common Ingredients Glossary"] {
                let Ok(cell) = row.get(column) else { continue };
                for word in plain(cell).split([',', ' ', ';', '/']).filter(|word| word.len() > 1) {
                    assert!(all.contains(word), "{}: {word}", entry.title());
                }
            }
            let digits = |text: &str| text.chars().filter(char::is_ascii_digit).collect::<String>();
            assert_eq!(digits(row.get("CAS Number").unwrap()), digits(&entry.cas), "{}", entry.title());
        }
    }
}

#[test]
fn law_is_known_to_the_day_of_the_files() {
    let law = Law::read(COMPACT).unwrap();
    assert_eq!(law.known_to(), Day::from_calendar(2026, 8, 28));
    assert!(law.editions().iter().all(|edition| Some(edition.created) == Day::from_calendar(2026, 9, 9)));
}

#[test]
fn law_entries_are_found_by_number_cas_and_name() {
    let law = Law::read(COMPACT).unwrap();
    assert_eq!(law.find(Annex::V, "12a").map(|entry| entry.reference.as_str()).collect::<Vec<_>>(), ["12 a"]);
    assert_eq!(law.find(Annex::III, "9").count(), 2, "it stands there twice");
    let titles = |cas: &str| law.of_cas(cas).map(|entry| entry.title()).collect::<Vec<_>>();
    assert_eq!(titles("69-72-7"), ["Annex III, 98", "Annex V, 3"]);
    assert!(law.of_name("phenoxyethanol").any(|entry| entry.title() == "Annex V, 29"));
    for entry in law.entries().iter().step_by(11) {
        assert!(cas_numbers(&entry.cas).all(|cas| law.of_cas(&cas).any(|found| found == entry)), "{}", entry.title());
        for name in entry.ingredient_names() {
            assert!(law.of_name(name).any(|found| found == entry), "{}: {name}", entry.title());
        }
    }
}

#[test]
fn law_read_again_does_not_differ_and_a_changed_file_does() {
    let before = exports();
    for export in &before {
        assert_eq!(differences(&export.entries, &export.entries), []);
    }
    let text = String::from_utf8(file(Annex::V)).unwrap();
    let changed =
        Export::read(text.replace("\"2% (acid)\"", "\"1% (acid)\"").replace("2% (acid)", "1% (acid)").as_bytes());
    let said: Vec<_> =
        differences(&before[3].entries, &changed.unwrap().entries).iter().map(ToString::to_string).collect();
    assert_eq!(said.len(), 1, "{said:?}");
    assert!(said[0].starts_with("changed  Annex V, 2: Propionic acid"), "{said:?}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    /// Whatever is dropped into the folder as an export is read or refused with a sentence.
    #[test]
    fn law_export_with_any_damage_is_read_or_refused(at in any::<prop::sample::Index>(), cut in 0usize..200, bytes in prop::collection::vec(any::<u8>(), 0..30)) {
        let mut file = file(Annex::V);
        let at = at.index(file.len());
        file.splice(at..(at + cut).min(file.len()), bytes);
        match Export::read(&file) {
            Ok(export) => prop_assert!(!export.entries.is_empty()),
            Err(unusable) => prop_assert!(unusable.to_string().len() > 20),
        }
    }

    /// Compact data that is damaged on its way is refused or read, never a panic.
    #[test]
    fn law_compact_data_with_any_damage_is_read_or_refused(at in any::<prop::sample::Index>(), cut in 0usize..200, text in "[a-z0-9\n\t#~!^ -]{0,10}") {
        let mut file = COMPACT.as_bytes().to_vec();
        let at = at.index(file.len());
        file.splice(at..(at + cut).min(file.len()), text.bytes());
        if let Ok(file) = String::from_utf8(file) && let Err(damage) = Law::read(&file) {
            prop_assert!(damage.to_string().len() > 20);
        }
    }
}
