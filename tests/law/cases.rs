//! Cases by hand: what the text of an entry means for a product and a share, against what the program answers.
//!
//! `cases.csv` and `craft.csv` were written by reading the text of each chosen entry in the Commission's files (`src/law/annexes/`, kept to 28 August
//! 2026). `limit` and `ruling` are what one of the answers has to be, `verdict` what all come to; `because` says what in the text
//! decides. Which entries those of `cases.csv` are about, `choice.rs` says.

use crate::choice::chosen;
use hundred_parts::facts::{CsvRow, CsvTable};
use hundred_parts::law::{
    Annex, AnnexEntry, Applies, COMPACT, JudgedShare, Judgement, Law, Ruling, Verdict, judge, products, read, verdict,
};
use hundred_parts::quantity::{Percent, Quantity};

/// Chosen by chance.
const CASES: &str = include_str!("cases.csv");
/// Chosen for what is made here: creams, soaps, sprays, for adults and for children.
const CRAFT: &str = include_str!("craft.csv");

fn cell<'a>(row: CsvRow<'a>, column: &str) -> &'a str {
    row.get(column).unwrap_or_else(|problem| panic!("{problem}"))
}

fn percent(text: &str) -> Percent {
    Percent::from_canonical(text).unwrap_or_else(|problem| panic!("{text}: {problem:?}"))
}

fn entry_of<'a>(law: &'a Law, row: CsvRow<'_>) -> &'a AnnexEntry {
    let annex = Annex::from_numeral(cell(row, "annex")).unwrap();
    law.find(annex, cell(row, "reference")).find(|entry| entry.chemical.contains(cell(row, "name"))).unwrap()
}

fn name(ruling: Ruling) -> &'static str {
    match ruling {
        Ruling::Prohibited => "prohibited",
        Ruling::NotAmong => "not-among",
        Ruling::Over => "over",
        Ruling::At => "at",
        Ruling::Under => "under",
        Ruling::Indicate => "indicate",
        Ruling::Print => "print",
        Ruling::Open => "open",
        Ruling::Nothing => "nothing",
    }
}

/// Whether one of the judgements is what the case expects.
fn agrees(judgements: &[Judgement<'_>], row: CsvRow<'_>) -> bool {
    let (ruling, limit) = (cell(row, "ruling"), cell(row, "limit"));
    let limit = (!limit.is_empty()).then(|| percent(limit));
    ruling.is_empty() && judgements.is_empty()
        || judgements.iter().any(|judgement| {
            let about_it = judgement.applies == Applies::Yes || ["nothing", "open", "under"].contains(&ruling);
            name(judgement.ruling) == ruling && about_it && (limit.is_none() || judgement.limit == limit)
        })
}

#[test]
fn law_cases_by_hand_hold() {
    let law = Law::read(COMPACT).unwrap();
    let (cases, craft) = (CsvTable::read(CASES), CsvTable::read(CRAFT));
    assert!(craft.rows().count() > 80);
    let mut wrong = Vec::new();
    for row in cases.rows().chain(craft.rows()) {
        let entry = entry_of(&law, row);
        let product = products(cell(row, "product")).sure;
        assert!(!product.is_none(), "{}", row.line());
        let reckoned = cell(row, "reckoned");
        let share = JudgedShare {
            as_is: percent(cell(row, "share")),
            reckoned: (!reckoned.is_empty()).then(|| percent(reckoned)),
        };
        let reading = read(entry);
        let judgements = judge(&reading, product, share);
        let expected = match cell(row, "verdict") {
            "within" => Verdict::Within,
            "open" => Verdict::Open,
            "against" => Verdict::Against,
            other => panic!("{other}"),
        };
        let found = verdict(&judgements);
        if found != expected || !agrees(&judgements, row) {
            let said: Vec<_> = judgements
                .iter()
                .map(|j| format!("{} {:?} {:?}: {}", name(j.ruling), j.applies, j.limit, j.words))
                .collect();
            let (share, ruling) = (cell(row, "share"), cell(row, "ruling"));
            wrong.push(format!(
                "{} at {share}: expected {ruling}, {expected:?}, found {found:?}: {said:#?}",
                entry.title()
            ));
        }
        // Each carries words of the law.
        for judgement in &judgements {
            assert!(
                judgement.words.chars().any(char::is_alphabetic) || judgement.words.contains('%'),
                "{}",
                entry.title()
            );
        }
    }
    assert!(wrong.is_empty(), "{} wrong\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn law_cases_are_those_that_chance_chose() {
    let law = Law::read(COMPACT).unwrap();
    let (three, one) = chosen(&law);
    let expected: Vec<String> =
        three.iter().flat_map(|entry| [entry; 3]).chain(&one).map(|entry| entry.title()).collect();
    let table = CsvTable::read(CASES);
    let cases: Vec<String> = table.rows().map(|row| entry_of(&law, row).title()).collect();
    assert_eq!(cases, expected);
    let edges = table.rows().filter(|row| ["under", "at", "over"].contains(&cell(*row, "ruling"))).count();
    assert!(cases.len() >= 120 && edges * 2 >= cases.len(), "{edges} of {}", cases.len());
}

/// Substances that are prohibited, by their CAS numbers (from the Commission's files): in a body lotion they are against an entry,
/// however little there is.
#[test]
fn law_substances_that_are_prohibited_are_against_it() {
    let law = Law::read(COMPACT).unwrap();
    let lotion = products("body-lotion still 10").sure;
    for (cas, name) in [
        ("10043-35-3", "boric acid"),
        ("556-67-2", "cyclotetrasiloxane"),
        ("75980-60-8", "trimethylbenzoyl diphenylphosphine oxide"),
        ("79-07-2", "chloroacetamide"),
        ("38304-91-5", "minoxidil"),
        ("84-80-0", "phytonadione"),
        ("36861-47-9", "4-methylbenzylidene camphor"),
        ("8007-45-2", "coal tar"),
        ("81-14-1", "musk ketone: not, it is restricted"),
    ] {
        let share = JudgedShare::of(percent("0.01"));
        let verdicts = law.of_cas(cas).map(|entry| verdict(&judge(&read(entry), lotion, share))).max();
        let expected = if name.contains("restricted") { Verdict::Within } else { Verdict::Against };
        assert_eq!(verdicts, Some(expected), "{name}");
    }
}
