//! The house rules that one package cannot have the compiler check: which room may import which.

use std::fs;
use std::path::{Path, PathBuf};

/// Rooms in order: each may import only from those before it (and from itself).
const ROOMS: [&str; 9] = ["quantity", "facts", "formula", "sheet", "rules", "batch", "paper", "desk", "words"];

/// Files of exact rooms that hold a physical model, which reckons in floats and rounds once at its end.
const MODELS: [&str; 9] = [
    "src/sheet/fats.rs",
    "src/sheet/lye_acids.rs",
    "src/sheet/ph/",
    "src/sheet/preservation.rs",
    "src/sheet/swap/answer.rs",
    "src/sheet/swap/few.rs",
    "src/sheet/swap/mixture.rs",
    "src/sheet/swap/nearest.rs",
    "src/sheet/swap/simplex.rs",
];

fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display())) {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files.extend(sources(&path));
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            files.push(path);
        }
    }
    files
}

/// The sources of a room; a room without any would make every rule hold.
fn room(path: &str) -> Vec<PathBuf> {
    let files = sources(&root().join(path));
    assert!(!files.is_empty(), "no source in {path}");
    files
}

fn code_lines(path: &Path) -> Vec<(usize, String)> {
    let text = fs::read_to_string(path).unwrap();
    text.lines()
        .enumerate()
        .map(|(n, line)| (n + 1, line.to_owned()))
        .filter(|(_, line)| !line.trim_start().starts_with("//"))
        .collect()
}

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

#[test]
fn rooms_import_only_from_rooms_before_them() {
    let mut wrong = Vec::new();
    for (n, name) in ROOMS.iter().enumerate() {
        for path in room(&format!("src/{name}")) {
            for (line, text) in code_lines(&path) {
                for later in &ROOMS[n + 1..] {
                    if text.contains(&format!("crate::{later}")) {
                        wrong.push(format!("{}:{line}: {name} must not use {later}", path.display()));
                    }
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn domain_has_no_clock_no_randomness_no_input_and_no_floats_for_amounts() {
    let banned = [
        "std::time",
        "std::fs",
        "std::net",
        "std::env",
        "println!",
        "eprintln!",
        "web_sys",
        "leptos",
        "js_sys",
        "gloo",
    ];
    let mut wrong = Vec::new();
    for name in ROOMS {
        for path in room(&format!("src/{name}")) {
            let exact = ["quantity", "formula", "sheet"].contains(&name)
                && !MODELS.iter().any(|model| path.to_string_lossy().contains(model));
            for (line, text) in code_lines(&path) {
                let floats = exact && (text.contains("f64") || text.contains("f32"));
                if floats || banned.iter().any(|word| text.contains(word)) {
                    wrong.push(format!("{}:{line}: {}", path.display(), text.trim()));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn page_cannot_panic_by_choice_and_writes_no_raw_markup() {
    let banned =
        [".unwrap()", ".expect(", "panic!", "todo!", "unimplemented!", "dbg!", "inner_html", "type=\"number\""];
    let mut wrong = Vec::new();
    for path in room("src/ui").into_iter().filter(|path| !path.ends_with("tests.rs")) {
        for (line, text) in code_lines(&path) {
            if banned.iter().any(|word| text.contains(word)) {
                wrong.push(format!("{}:{line}: {}", path.display(), text.trim()));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Each crate that the package names, and why it is there.
#[test]
fn every_dependency_has_its_reason_in_the_table() {
    let manifest = fs::read_to_string(root().join("Cargo.toml")).unwrap();
    let guide = fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let table = guide.split("## Dependencies").nth(1).and_then(|rest| rest.split("\n## ").next()).unwrap();
    let mut section = "";
    let mut named = Vec::new();
    for line in manifest.lines() {
        if line.starts_with('[') {
            section = line;
        } else if section.contains("dependencies")
            && let Some((name, _)) = line.split_once(" = ")
            && name.chars().all(|c| c.is_ascii_alphanumeric() || "-_".contains(c))
        {
            named.push(name);
        }
    }
    assert!(named.len() > 10, "{named:?}");
    let missing: Vec<_> = named.iter().filter(|name| !table.contains(&format!("`{name}`"))).collect();
    assert!(missing.is_empty(), "no reason in DEVELOPERS.md for {missing:?}");
    let rows = table.lines().filter(|line| line.starts_with("| `"));
    let gone: Vec<_> = rows
        .flat_map(|row| row.split('|').nth(1).unwrap_or_default().split(','))
        .map(|name| name.trim().trim_matches('`'))
        .filter(|name| !named.contains(name))
        .collect();
    assert!(gone.is_empty(), "in the table, and no dependency any more: {gone:?}");
}

#[test]
fn every_source_file_says_what_it_is() {
    let bare: Vec<_> = room("src")
        .into_iter()
        .filter(|path| !fs::read_to_string(path).unwrap().starts_with("//!"))
        .map(|path| path.display().to_string())
        .collect();
    assert!(bare.is_empty(), "without a module doc: {}", bare.join(", "));
}

/// Between number and unit stands a space at which no line ends (U+202F), never the one at which it may (U+2009).
#[test]
fn no_line_ends_between_number_and_unit() {
    let reads_it = root().join("src/quantity/decimal.rs");
    let mut wrong = Vec::new();
    for path in room("src").into_iter().filter(|path| *path != reads_it) {
        for (line, text) in code_lines(&path) {
            if text.contains("\\u{2009}") || text.contains('\u{2009}') {
                wrong.push(format!("{}:{line}", path.display()));
            }
        }
    }
    // In a sentence of the page, a unit behind a figure or a place for one never hangs on a plain space.
    for path in room("src/words") {
        let text = fs::read_to_string(&path).unwrap();
        let code = text.split("#[cfg(test)]").next().unwrap_or_default();
        for (line, text) in code.lines().enumerate().filter(|(_, text)| !text.trim_start().starts_with("//")) {
            let hangs = |unit: &str| {
                text.match_indices(unit).any(|(at, _)| {
                    let behind = text[at + unit.len()..].chars().next();
                    text[..at].ends_with(|c: char| c.is_ascii_digit() || c == '}')
                        && !behind.is_some_and(char::is_alphanumeric)
                })
            };
            if [" %", " g", " kg", " mL", " L", " mm", " \\u{b0}C", " ppm", " kDa", " oz"]
                .iter()
                .any(|unit| hangs(unit))
            {
                wrong.push(format!("{}:{}: {}", path.display(), line + 1, text.trim()));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
