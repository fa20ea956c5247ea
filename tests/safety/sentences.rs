//! Every message with no name, one name and two, with every text of the tables in it, and every paper: no sentence comes out
//! broken.

use crate::made::*;
use hundred_parts::desk::{DocId, OpenDocument, ShelfDocument, read_document};
use hundred_parts::facts::Field;
use hundred_parts::paper::{LABEL_FORMATS, Which};
use hundred_parts::quantity::Timestamp;
use hundred_parts::rules::{Fact, Finding, Grade, Message, MessageId};
use hundred_parts::shelf::{Ingredient, Shelf};
use hundred_parts::words;

/// Signs that follow each other only where something between them is missing, or where a text brought its own.
const BROKEN: [&str; 19] = [
    ": ;", ": ,", ": .", ":.", ":;", ":,", "::", " ;", " ,", " . ", "( ", " )", "()", ",,", ";;", ",.", ";.", "..",
    "  ",
];

/// Words that begin with a vowel and are not spoken with one.
const SPOKEN_OTHERWISE: [&str; 6] = ["eu", "one", "uni", "use", "usu", "ure"];

/// What is broken about a line of text; `texts` are those of tables and makers, which begin with a capital of their own.
fn broken(line: &str, texts: &[String]) -> Option<String> {
    if let Some(sign) = BROKEN.iter().find(|sign| line.contains(*sign)) {
        return Some(format!("\u{201c}{sign}\u{201d}"));
    }
    if line.trim_end().ends_with([';', ',']) {
        return Some("it ends in the middle".to_owned());
    }
    let words: Vec<&str> = line.split_whitespace().collect();
    for pair in words.windows(2) {
        let next = pair[1].trim_start_matches(|c: char| !c.is_alphanumeric());
        let vowel = next.starts_with(['a', 'e', 'i', 'o', 'u'])
            && !SPOKEN_OTHERWISE.iter().any(|start| next.starts_with(start));
        if pair[0] == "a" && vowel {
            return Some(format!("{} {}", pair[0], pair[1]));
        }
        if pair[0] == "an" && next.starts_with(|c: char| c.is_ascii_lowercase() && !"aeiouh".contains(c)) {
            return Some(format!("an {}", pair[1]));
        }
    }
    texts.iter().find_map(|text| {
        let before = line.get(..line.find(text.as_str())?)?.trim_end();
        let inside = before.ends_with(|c: char| c.is_alphanumeric() || ",;(".contains(c));
        inside.then(|| format!("a capital in the middle: {text}"))
    })
}

#[test]
fn broken_sentences_are_known_for_what_they_are() {
    let texts = ["May come from soy".to_owned()];
    for line in [
        "Some microbes are held back only weakly by Rose: ; and Sage feeds them.",
        "This is based on your document: Data sheet..",
        "This is a animal fat.",
        "Glycerin comes from May come from soy.",
        "Made from: .",
        "Wear: , goggles.",
        "It is an wax.",
        "Rose  is in it.",
    ] {
        assert!(broken(line, &texts).is_some(), "{line}");
    }
    for line in ["A unit of one use, an HLB of 7 and an oil.", "Source: May come from soy.", "0.5 % (counted as acid)."]
    {
        assert_eq!(broken(line, &texts), None, "{line}");
    }
}

/// No name, one, two, and names that end in a full stop.
const NAMES: [&str; 4] = ["", "Rose wax", "Alcohol Denat.", "Rose wax, Alcohol Denat."];

#[test]
fn every_message_with_any_number_of_names_is_whole() {
    let mut faults = Vec::new();
    let mut told: Vec<(&str, String)> = Vec::new();
    for (subject, more) in NAMES.iter().flat_map(|subject| NAMES.map(|more| (*subject, more))) {
        for (value, limit) in [("", ""), ("3 %", ""), ("3 %", "5 %")] {
            let word = |name: &str| match name {
                "subject" => subject.to_owned(),
                "value" => value.to_owned(),
                "limit" => limit.to_owned(),
                "as_acid" => String::new(),
                _ => more.to_owned(),
            };
            for said in MessageId::ALL {
                told.extend(words::specimens(*said, &word).into_iter().map(|text| (said.key(), text)));
            }
        }
        let mut finding = Finding::new("rule", Grade::Care, Vec::new(), Fact::Message(Message::LimitUnread));
        finding.detail.subject = subject.to_owned();
        finding.detail.document = (!more.is_empty()).then(|| more.to_owned());
        finding.detail.verified = true;
        told.push(("document", words::finding(&finding, &[], words::DecimalSign::Point)));
    }
    for (key, text) in told {
        let capital = text.starts_with(|c: char| c.is_uppercase() || c.is_numeric());
        if let Some(fault) = broken(&text, &[]).or_else(|| (!capital).then(|| "no capital".to_owned())) {
            faults.push(format!("{key}: {fault}: {text}"));
        }
    }
    assert!(faults.is_empty(), "{}\n{} in all", faults[..faults.len().min(60)].join("\n"), faults.len());
}

/// Figures have the reader's decimal sign wherever a finding tells them; names keep theirs.
#[test]
fn findings_follow_the_decimal_sign_of_the_reader() {
    use hundred_parts::words::DecimalSign::{Comma, Point};
    let made = water(&["phenoxyethanol 1.25", "sodium-benzoate 0.5", "lactic-acid 1.5", "niacinamide 4.5"])
        .phase("oil", "75.5", &["rosehip 5.5", "polysorbate-80 2.5", "bergamot-essential-oil 0.45"])
        .set("target_ph", "3.75");
    let findings = made.findings();
    let split =
        |text: &str| text.as_bytes().windows(3).any(|w| w[0].is_ascii_digit() && w[1] == b'.' && w[2].is_ascii_digit());
    let mut fractions = 0;
    for finding in &findings {
        let [point, comma] = [Point, Comma].map(|sign| words::finding(finding, &["Rose".to_owned()], sign));
        assert!(!split(&comma), "{comma}");
        fractions += usize::from(split(&point));
        assert_eq!(split(&point), point != comma, "{point}");
    }
    assert!(fractions >= 8, "{fractions} of {}", findings.len());
    let over = words::finding(&made.find("above-maximum").unwrap(), &[], Comma);
    assert!(over.contains("1,25\u{202f}%"), "{over}");
}

/// The free texts of an ingredient's row: they begin with a capital and stand in sentences.
fn texts_of(entry: &Ingredient) -> Vec<String> {
    let fields = [Field::AllergenSource, Field::ChildPregnancy, Field::Notes, Field::Solubility];
    let texts = fields.iter().filter_map(|field| entry.text(*field)).map(|text| text.value.to_owned());
    texts.filter(|text| text.contains(' ') && text.starts_with(char::is_uppercase)).collect()
}

/// What is said of a formula anywhere: findings, papers.
pub(crate) fn told(made: &Made) -> Vec<String> {
    let mut shelf = made.shelf.clone();
    let document = read_document(&made.text(), &mut shelf).unwrap();
    let now = Timestamp::from_millis(0);
    let shelf_document = ShelfDocument::from(shelf);
    let open = OpenDocument::new(DocId::random(1), document, shelf_document, now);
    let derived = open.derive();
    let names = |finding: &Finding| -> Vec<String> {
        let line = |id| open.state().formula.line(id);
        let names = finding.lines.iter().filter_map(|id| line(*id));
        names.map(|line| words::choice_name(&line.choice, open.shelf())).collect()
    };
    let mut told: Vec<String> = derived
        .findings
        .iter()
        .map(|finding| words::finding(finding, &names(finding), words::DecimalSign::Point))
        .collect();
    told.extend(derived.findings.iter().map(words::footnote));
    for which in Which::HANDED_OVER {
        let paper = words::paper(which, LABEL_FORMATS[4], &open, &derived).unwrap().text();
        // A table's row has its cells side by side.
        told.extend(paper.lines().flat_map(|line| line.split(" | ")).map(str::to_owned));
    }
    told
}

#[test]
fn every_ingredient_is_told_in_whole_sentences() {
    let mut faults: Vec<String> = Vec::new();
    for entry in Shelf::default().iter() {
        let texts = texts_of(&entry);
        for (audience, area, purpose, ph) in [
            ("under-3", "nappy", "leave-on", "3.7"),
            ("pregnant", "face", "leave-on", ""),
            ("adult", "body", "rinse-off", "7.9"),
        ] {
            let made = water(&["glycerin 2"])
                .phase("oil", "75", &[&format!("{} 6", entry.id())])
                .set("audience", audience)
                .set("area", area)
                .set("use", purpose)
                .set("target_ph", ph)
                .shelf(entry.id().as_str(), Field::Document, "Data sheet of 3 May 2026.");
            for line in told(&made) {
                if let Some(fault) = broken(&line, &texts) {
                    faults.push(format!("{}: {fault}: {line}", entry.id()));
                }
            }
        }
    }
    faults.sort();
    faults.dedup();
    assert!(faults.is_empty(), "{}\n{} in all", faults[..faults.len().min(60)].join("\n"), faults.len());
}

/// The other sentences that are made of lists, with nothing in the list, one and two.
#[test]
fn every_sentence_that_is_made_of_a_list_is_whole() {
    use hundred_parts::facts::Allergens;
    use hundred_parts::formula::LineId;
    use hundred_parts::sheet::{Open, SwapLimit, UsedLot, WhyLeftOut};
    use hundred_parts::words::{DecimalSign, oils};
    let of = |id: &str| {
        let id = hundred_parts::facts::IngredientId::parse(id).unwrap();
        Shelf::default().entry(&id).unwrap().fat().unwrap().allergens.unwrap()
    };
    let (nuts, both) = (of("almond-sweet"), of("almond-sweet").with(of("soybean")));
    let lot = |name: &str| UsedLot {
        line: LineId::of(0),
        material: "Rose oil No. 1.".into(),
        name: name.into(),
        day: None,
        chosen: false,
        of: 1,
        stated: true,
    };
    let mut told = Vec::new();
    for allergens in [Allergens::default(), nuts, both] {
        let carries = words::swap::why_left_out(WhyLeftOut::Carries(allergens));
        told.push(format!("Left out: {carries}."));
        told.push(words::swap::clash(&[SwapLimit::Avoid(allergens), SwapLimit::InHand], DecimalSign::Point));
        told.push(oils::breaks(&[words::swap::limit(&SwapLimit::Avoid(allergens), DecimalSign::Point)]));
        told.extend(oils::allergen_change(allergens, Allergens::default()));
    }
    for limits in [&[][..], &[SwapLimit::InHand], &[SwapLimit::InHand, SwapLimit::MostOils(2)]] {
        told.push(words::swap::clash(limits, DecimalSign::Point));
        told.push(oils::breaks(
            &limits.iter().map(|one| words::swap::limit(one, DecimalSign::Point)).collect::<Vec<_>>(),
        ));
    }
    for lots in [vec![], vec![lot("L7.")], vec![lot(""), lot("L8")]] {
        told.push(format!("Counted from {}.", words::lots(&lots)));
    }
    for names in [vec![], vec!["Secret base.".to_owned()], vec!["A".to_owned(), "B".to_owned()]] {
        told.push(words::label_open(&Open::NamesUnrecognised("Rose oil".into(), names)));
    }
    for text in told {
        assert_eq!(broken(&text, &[]), None, "{text}");
        let end = text.trim_end_matches('.');
        assert!(!end.ends_with([':', ' ']) && !end.ends_with("without"), "{text}");
    }
}
