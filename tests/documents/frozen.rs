//! What every stored version and every released link comes to, word for word: a change of the code behind a sheet must not
//! change the sheet by accident. A change that is meant is written down with `FROZEN=write cargo test --test documents frozen`,
//! and read in the commit's diff.

use hundred_parts::desk::{decode, demo, document_text, read_export};
use hundred_parts::report::sheet_report;
use hundred_parts::shelf::Shelf;
use std::path::{Path, PathBuf};

const FORMATS: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/formats");

/// The text of the document that a fixture holds: a file as it is, a link as the file that it would be saved as.
fn document(path: &Path) -> String {
    let text = std::fs::read_to_string(path).unwrap();
    if path.extension().is_some_and(|ending| ending == "json") {
        read_export(&text).unwrap_or_else(|problem| panic!("{}: {problem}", path.display()));
        return text;
    }
    let incoming = decode(text.trim()).unwrap_or_else(|problem| panic!("{}: {problem:?}", path.display()));
    document_text(&incoming.documents[0], &incoming.shelf)
}

fn fixtures() -> Vec<PathBuf> {
    let mut paths: Vec<PathBuf> = std::fs::read_dir(FORMATS).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.is_file());
    paths.sort();
    paths
}

#[test]
fn every_fixture_comes_to_the_sheet_that_it_came_to() {
    let mut documents: Vec<(String, String)> = fixtures()
        .iter()
        .map(|path| (path.file_stem().unwrap().to_string_lossy().into_owned(), document(path)))
        .collect();
    documents.push(("demo".to_owned(), document_text(&demo(), &Shelf::default())));
    let folder = Path::new(FORMATS).join("sheets");
    let write = std::env::var("FROZEN").is_ok_and(|mode| mode == "write");
    for (name, text) in &documents {
        let now = sheet_report(text).unwrap_or_else(|problem| panic!("{name}: {problem}")) + "\n";
        let path = folder.join(format!("{name}.json"));
        if write {
            std::fs::create_dir_all(&folder).unwrap();
            std::fs::write(&path, &now).unwrap();
        }
        let frozen = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
        assert!(
            now == frozen,
            "{name} comes to another sheet than {}:\n{}",
            path.display(),
            first_difference(&frozen, &now)
        );
    }
    let kept = std::fs::read_dir(&folder).unwrap().count();
    assert_eq!(kept, documents.len(), "each fixture has one sheet, and no other stays");
}

fn first_difference(frozen: &str, now: &str) -> String {
    let other = |(a, b): &(&str, &str)| a != b;
    frozen.lines().zip(now.lines()).find(other).map_or_else(
        || "one of them ends earlier".to_owned(),
        |(was, is)| format!("was {}\nis  {}", was.trim(), is.trim()),
    )
}
