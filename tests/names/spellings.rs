//! Names as suppliers write them, with what they mean (key: `spellings.md`).

use hundred_parts::facts::CsvTable;
use hundred_parts::names::{Meaning, NameReading, as_label, recognise};

/// What came of one row.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Outcome {
    /// Certain, and right.
    Right,
    /// A question, with the right answer among the candidates.
    Asked,
    /// A question without it.
    Silent,
    /// Certain, and wrong.
    Wrong,
}

struct Row {
    text: String,
    means: String,
    kind: String,
}

/// The tables, each with its name.
const TABLES: [(&str, &str); 7] = [
    ("spellings", include_str!("spellings.csv")),
    ("spellings-2", include_str!("spellings-2.csv")),
    ("spellings-3", include_str!("spellings-3.csv")),
    ("spellings-4", include_str!("spellings-4.csv")),
    ("spellings-5", include_str!("spellings-5.csv")),
    ("spellings-6", include_str!("spellings-6.csv")),
    ("spellings-7", include_str!("spellings-7.csv")),
];

fn rows(table: &str) -> Vec<Row> {
    let table = CsvTable::read(table);
    let cell = |row: hundred_parts::facts::CsvRow<'_>, column| row.get(column).unwrap().to_owned();
    table
        .rows()
        .map(|row| Row { text: cell(row, "text"), means: cell(row, "means"), kind: cell(row, "kind") })
        .collect()
}

fn written(means: &Meaning) -> String {
    match &as_label(means) {
        Meaning::Material(id) => (*id).to_owned(),
        Meaning::Allergen(name) => format!("allergen:{name}"),
        Meaning::Inci(name) => format!("inci:{name}"),
    }
}

fn all(means: &[Meaning]) -> Vec<String> {
    let mut all: Vec<String> = means.iter().map(written).collect();
    all.sort();
    all
}

impl Row {
    fn is_trap(&self) -> bool {
        self.means.starts_with("not:")
    }

    /// Several rows of the table answer to the name, and only the maker knows which: asking is right.
    fn is_open(&self) -> bool {
        let several: Vec<&str> = self.means.split('|').collect();
        self.kind == "ambiguous" || several.iter().filter(|one| !one.starts_with("allergen:")).count() > 1
    }

    fn outcome(&self, reading: &NameReading) -> Outcome {
        let (told, offered) = (all(&reading.means), all(&reading.candidates));
        if let Some(never) = self.means.strip_prefix("not:") {
            let fell = never.split('|').any(|one| told.iter().any(|means| means == one));
            return if fell { Outcome::Wrong } else { Outcome::Right };
        }
        let answers = self.means.split('|').map(|answer| {
            let mut parts: Vec<String> = answer.split('+').map(str::to_owned).collect();
            parts.sort();
            parts
        });
        let answers: Vec<_> = answers.collect();
        if !told.is_empty() {
            return if answers.contains(&told) { Outcome::Right } else { Outcome::Wrong };
        }
        let among = answers.iter().any(|parts| parts.iter().all(|part| offered.contains(part)));
        if among { Outcome::Asked } else { Outcome::Silent }
    }
}

#[derive(Default)]
struct Score {
    certain: usize,
    asked: usize,
    open: usize,
    silent: Vec<String>,
    wrong: Vec<String>,
    positive: usize,
    traps: usize,
    fell: Vec<String>,
    asks: Vec<String>,
}

fn score(rows: &[Row]) -> Score {
    let mut score = Score::default();
    for row in rows {
        let reading = recognise(&row.text, None);
        let outcome = row.outcome(&reading);
        let line = format!(
            "{} | {} => {} | told {:?} | offered {:?} {:?}",
            row.kind,
            row.text,
            row.means,
            all(&reading.means),
            all(&reading.candidates),
            reading.doubt
        );
        if row.is_trap() {
            score.traps += 1;
            if outcome == Outcome::Wrong {
                score.fell.push(line);
            }
            continue;
        }
        score.positive += 1;
        match outcome {
            Outcome::Right => score.certain += 1,
            Outcome::Asked if row.is_open() => score.open += 1,
            Outcome::Asked => {
                score.asked += 1;
                score.asks.push(line);
            }
            Outcome::Silent => score.silent.push(line),
            Outcome::Wrong => score.wrong.push(line),
        }
    }
    score
}

impl Score {
    fn print(&self, name: &str) {
        println!(
            "{name}: {} positive rows, {} certain and right, {} rightly asked, {} asked, {} silent, {} wrong; {} traps, {} fell for",
            self.positive,
            self.certain,
            self.open,
            self.asked,
            self.silent.len(),
            self.wrong.len(),
            self.traps,
            self.fell.len()
        );
    }
}

impl Score {
    fn print_lines(&self) {
        for (name, lines) in
            [("WRONG", &self.wrong), ("FELL", &self.fell), ("SILENT", &self.silent), ("ASKED", &self.asks)]
        {
            for line in lines {
                println!("{name} {line}");
            }
        }
    }
}

#[test]
fn names_as_suppliers_write_them_are_recognised() {
    for (name, table) in TABLES {
        let all = score(&rows(table));
        all.print(name);
        if std::env::var_os("LINES").is_some() {
            all.print_lines();
        }
        assert!(all.wrong.is_empty(), "{}", all.wrong.join("\n"));
        assert!(all.fell.is_empty(), "{}", all.fell.join("\n"));
        assert!(
            (all.certain + all.open) * 100 >= all.positive * 97,
            "{name}: {} and {} of {}",
            all.certain,
            all.open,
            all.positive
        );
    }
}
