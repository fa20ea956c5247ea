//! The names and numbers of the annexes, read from the Commission's files by a reader of its own.
//!
//! Of each entry: the names of the glossary and the identified ingredients, of Annex II also its common names (INN, ISO and
//! other short chemical names), and the CAS numbers. What cannot be read is left as it stands, never corrected.

use hundred_parts::facts::CsvTable;

/// The annexes with the file of each.
pub(crate) const ANNEXES: [(&str, &str); 5] = [
    ("II", include_str!("../../src/law/annexes/annex_II.csv")),
    ("III", include_str!("../../src/law/annexes/annex_III.csv")),
    ("IV", include_str!("../../src/law/annexes/annex_IV.csv")),
    ("V", include_str!("../../src/law/annexes/annex_V.csv")),
    ("VI", include_str!("../../src/law/annexes/annex_VI.csv")),
];

/// One entry as the files have it.
pub(crate) struct Entry {
    pub(crate) entry: String,
    /// Glossary names and identified ingredients.
    pub(crate) names: Vec<String>,
    /// Common names among the chemical ones, of Annex II.
    pub(crate) common: Vec<String>,
    pub(crate) cas: Vec<String>,
}

/// All entries of all annexes that still stand.
pub(crate) fn entries() -> Vec<Entry> {
    let mut all = Vec::new();
    for (annex, text) in ANNEXES {
        let start = text.find("\"Reference Number\"").expect("the row of column names");
        let table = CsvTable::read(&text[start..]);
        let glossary = table.header().iter().find(|column| column.contains("Glossary")).cloned();
        let chemical = table.header().iter().find(|column| column.starts_with("Chemical name")).cloned().unwrap();
        for row in table.rows() {
            let cell = |column: &str| row.get(column).unwrap();
            if cell(&chemical).to_lowercase().starts_with("moved or deleted") {
                continue;
            }
            let mut names: Vec<String> = Vec::new();
            let listed = split_names(glossary.as_deref().map_or("", cell))
                .into_iter()
                .chain(split_names(cell("Identified INGREDIENTS or substances e.g.")));
            for name in listed {
                if !names.iter().any(|known| known.eq_ignore_ascii_case(&name)) {
                    names.push(name);
                }
            }
            let common = if annex == "II" { common_names(cell(&chemical)) } else { Vec::new() };
            let entry = format!("{annex}/{}", cell("Reference Number").trim());
            all.push(Entry { entry, names, common, cas: numbers(cell("CAS Number")) });
        }
    }
    all
}

/// Names between line breaks, semicolons, slashes with spaces, and commas that are not of a name.
fn split_names(cell: &str) -> Vec<String> {
    let text = cell.replace('\u{ad}', "").replace(['\n', '\r', ';'], "\u{1}");
    let text = text.replace(" / ", "\u{1}").replace(" /", "\u{1}").replace("/ ", "\u{1}");
    let letters: Vec<char> = text.chars().collect();
    let text: String =
        (0..letters.len()).map(|n| if is_separator(&letters, n) { '\u{1}' } else { letters[n] }).collect();
    let names = text.split('\u{1}').map(|name| name.split_whitespace().collect::<Vec<_>>().join(" "));
    names.map(|name| name.trim_matches([',', '.', ' ']).to_owned()).filter(|name| name.len() > 1).collect()
}

/// A comma between digits or single letters (`1,3-`, `N,N-`) is of the name.
fn is_separator(letters: &[char], n: usize) -> bool {
    if letters[n] != ',' {
        return false;
    }
    let before = n.checked_sub(1).map(|n| letters[n]).unwrap_or(' ');
    let after = letters.get(n + 1).copied().unwrap_or(' ');
    let single = n < 2 || !letters[n - 2].is_alphanumeric();
    let locant = |c: char| c.is_ascii_digit() || c == '\'';
    let hyphen = letters[n + 1..].iter().find(|c| !(locant(**c) || **c == ',')).is_some_and(|c| *c == '-');
    let inner = (locant(before) && locant(after) && hyphen) || (before == 'N' && single && "NO".contains(after));
    !inner
}

/// Of a chemical name the parts that someone would write: no mixtures, fractions of oil or long names of structure.
fn common_names(cell: &str) -> Vec<String> {
    let petroleum = ["petroleum", "coal)", "shale", "gases", "distillates", "residues", "extracts (", "hydrocarbons"];
    let lower = cell.to_lowercase();
    if petroleum.iter().any(|word| lower.contains(word)) {
        return Vec::new();
    }
    let mut text = cell.replace('\n', " ");
    for mark in ["(INNM)", "(INN)", "(ISO)", "(INCI)", "[1]", "[2]", "[3]", "[4]", "[5]", "[6]"] {
        text = text.replace(mark, "");
    }
    for tail in [" and its ", ", its salts", " and their ", ", except", ", if ", " when used", " (CAS", ", with "] {
        text = text.split(tail).next().unwrap_or_default().to_owned();
    }
    let mut parts: Vec<String> = Vec::new();
    for part in text.split([';']).flat_map(|part| part.split(" / ")) {
        let name = part.split_whitespace().collect::<Vec<_>>().join(" ");
        match name.strip_suffix(')').and_then(|name| name.rsplit_once(" (")) {
            Some((outside, inside)) if inside.len() > 4 => parts.extend([outside.to_owned(), inside.to_owned()]),
            _ => parts.push(name),
        }
    }
    parts.retain(|name| (4..=34).contains(&name.len()) && name.chars().all(|c| c.is_ascii() && c != '|'));
    parts
}

/// The CAS numbers of a cell.
fn numbers(cell: &str) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    let groups = cell.split(|c: char| !(c.is_ascii_digit() || c == '-')).map(|text| text.trim_matches('-'));
    for number in groups {
        let parts: Vec<usize> = number.split('-').map(str::len).collect();
        if matches!(parts.as_slice(), [2..=7, 2, 1]) && !all.iter().any(|known| known == number) {
            all.push(number.to_owned());
        }
    }
    all
}
