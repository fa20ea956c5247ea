//! What is read as text: the manifest and the guide, the first line of a file, the spaces in sentences.

use crate::hold;
use crate::source::{Source, root};
use hundred_parts::facts::CsvTable;
use std::fs;

/// The lines of a source that are no comments, numbered.
fn code_lines(text: &str) -> impl Iterator<Item = (usize, &str)> {
    text.lines().enumerate().map(|(n, line)| (n + 1, line)).filter(|(_, line)| !line.trim_start().starts_with("//"))
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

/// What the guide says of the columns of a table: each in its place, with `?` exactly where a cell is empty.
fn columns_told(name: &str, guide: &str) -> Vec<String> {
    let names = |line: &&str| line.split('|').nth(1).is_some_and(|cell| cell.contains(&format!("`{name}`")));
    let Some(row) = guide.lines().filter(|line| line.starts_with("| `")).find(names) else { return Vec::new() };
    let parts: Vec<&str> = row.split('|').skip(2).flat_map(|cell| cell.split('`')).collect();
    let told = parts.windows(2).skip(1).step_by(2);
    told.map(|pair| if pair[1].starts_with('?') { format!("{}?", pair[0]) } else { pair[0].to_owned() }).collect()
}

#[test]
fn guide_tells_the_columns_of_every_table() {
    let guide = fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let (mut tables, mut wrong) = (0, Vec::new());
    for folder in ["src/facts/data", "src/law/data", "src/names/data"] {
        for entry in fs::read_dir(root().join(folder)).unwrap() {
            let path = entry.unwrap().path();
            if path.extension().is_none_or(|kind| kind != "csv") {
                continue;
            }
            let table = CsvTable::read(&fs::read_to_string(&path).unwrap());
            let told = columns_told(path.file_name().unwrap().to_str().unwrap(), &guide);
            let columns = table.header().iter().map(|column| {
                let empty = table.rows().any(|row| row.get(column).is_ok_and(str::is_empty));
                if empty { format!("{column}?") } else { column.clone() }
            });
            wrong.extend(columns.filter(|column| !told.contains(column)).map(|column| format!("{path:?}: {column}")));
            tables += 1;
        }
    }
    assert!(wrong.is_empty() && tables > 30, "the guide does not tell of {wrong:#?}");
}

#[test]
fn column_that_the_guide_leaves_out_is_found() {
    let guide = "| `a.csv`, `b.csv` | `id`, `also`? (names), `heat`? (`?`) |\n| `c.csv` | `id` |";
    assert_eq!(columns_told("b.csv", guide), ["id", "also?", "heat?", "?"]);
    assert_eq!(columns_told("c.csv", guide), ["id"]);
    assert_eq!(columns_told("d.csv", guide), Vec::<String>::new());
}

/// Says so if a file does not begin with what it is.
fn nameless(source: &Source) -> Vec<String> {
    if source.text.starts_with("//!") { Vec::new() } else { vec![source.at(1, "without a module doc")] }
}

/// Between number and unit stands a space at which no line ends (U+202F), never the one at which it may (U+2009).
fn thin_spaces(source: &Source) -> Vec<String> {
    let thin = |text: &str| text.contains("\\u{2009}") || text.contains('\u{2009}');
    let wrong = code_lines(&source.text).filter(|(_, text)| thin(text));
    wrong.map(|(line, text)| source.at(line, text.trim())).collect()
}

const UNITS: [&str; 10] = [" %", " g", " kg", " mL", " L", " mm", " \\u{b0}C", " ppm", " kDa", " oz"];

/// In a sentence of the page, a unit behind a figure or a place for one never hangs on a plain space.
fn hanging_units(source: &Source) -> Vec<String> {
    let hangs = |text: &str, unit: &str| {
        text.match_indices(unit).any(|(at, _)| {
            let behind = text[at + unit.len()..].chars().next();
            text[..at].ends_with(|c: char| c.is_ascii_digit() || c == '}') && !behind.is_some_and(char::is_alphanumeric)
        })
    };
    let code = source.text.split("#[cfg(test)]").next().unwrap_or_default();
    let wrong = code_lines(code).filter(|(_, text)| UNITS.iter().any(|unit| hangs(text, unit)));
    wrong.map(|(line, text)| source.at(line, text.trim())).collect()
}

/// Words that texts do without, and what they say (DEVELOPERS.md, "Write a text").
const OTHERWISE: [(&str, &str); 8] = [
    ("from memory", "unverified"),
    ("mend ", "correct, change"),
    ("anew", "again"),
    ("reckon", "calculate"),
    ("take less", "use less"),
    ("exchange", "replace"),
    ("turn rancid", "go rancid"),
    ("!", "a full stop"),
];

/// A sentence that says something otherwise than all others; a name of code beside it is none.
fn otherwise(source: &Source) -> Vec<String> {
    let code = source.text.split("#[cfg(test)]").next().unwrap_or_default();
    let said = |line: &str| {
        let lower = line.to_lowercase();
        let mut texts = lower.split('"').skip(1).step_by(2).filter(|text| text.contains(' '));
        texts.any(|text| OTHERWISE.iter().any(|(word, _)| text.contains(word)))
    };
    let wrong = code_lines(code).filter(|(_, line)| said(line));
    wrong.map(|(line, text)| source.at(line, text.trim())).collect()
}

#[test]
fn texts_speak_with_one_voice() {
    hold("src/words", otherwise);
    for (word, _) in OTHERWISE {
        assert_eq!(
            otherwise(&Source::new("src/words/a.rs", &format!("const A: &str = \"Say {word} it\";"))).len(),
            1,
            "{word}"
        );
    }
    assert_eq!(
        otherwise(&Source::new("src/words/a.rs", "fn f() { let reckoned = \"{} of it\"; }")),
        Vec::<String>::new()
    );
}

#[test]
fn every_source_file_says_what_it_is() {
    hold("src", nameless);
}

#[test]
fn no_line_ends_between_number_and_unit() {
    // This one reads it.
    hold("src", |source| if source.path == "src/quantity/decimal.rs" { Vec::new() } else { thin_spaces(source) });
    hold("src/words", hanging_units);
}

#[test]
fn file_without_a_doc_and_plain_spaces_are_found() {
    assert_eq!(nameless(&Source::new("src/a.rs", "// Not a doc.\nfn f() {}")).len(), 1);
    assert_eq!(nameless(&Source::new("src/a.rs", "//! What it is.\n")).len(), 0);
    for thin in ["const A: &str = \"1\u{2009}g\";", "const A: &str = \"1\\u{2009}g\";"] {
        assert_eq!(thin_spaces(&Source::new("src/a.rs", thin)).len(), 1, "{thin}");
    }
    for hanging in ["const A: &str = \"1 g\";", "const A: &str = \"{} % of it\";", "const A: &str = \"20 \\u{b0}C\";"] {
        assert_eq!(hanging_units(&Source::new("src/words/a.rs", hanging)).len(), 1, "{hanging}");
    }
    for good in ["const A: &str = \"1\\u{202f}g\";", "const A: &str = \"2 grams\";", "// 1 g"] {
        assert_eq!(hanging_units(&Source::new("src/words/a.rs", good)).len(), 0, "{good}");
    }
}
