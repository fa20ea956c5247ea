//! The label: what is missing, dates, contents, letters, warnings, the order of its list.

use crate::workshop::*;
use hundred_parts::desk::{Action, demo, document_text};
use hundred_parts::facts::{Field, IngredientId};
use hundred_parts::formula::{PaperField, Region};
use hundred_parts::paper::{Block, Caution, Gap, Keeps, LABEL_FORMATS, LabelLine, fits};
use hundred_parts::shelf::Shelf;
use hundred_parts::words;

// Source: Regulation (EC) 1223/2009 Article 19(1), items (a) to (g), from national authorities' pages.
#[test]
fn label_names_what_is_missing() {
    let gaps = Workshop::new().label().gaps;
    for gap in [Gap::Responsible, Gap::Address, Gap::NetContent, Gap::BatchCode, Gap::BestBefore, Gap::Function] {
        assert!(gaps.contains(&gap), "{gap:?}");
    }
    assert!(!gaps.contains(&Gap::Contact), "asked for in the United States only");
    let mut whole = complete();
    let id = IngredientId::parse("sodium-phytate").unwrap();
    whole.shelf.set(&id, Field::Components, "sodium phytate 50; water 50");
    assert_eq!(whole.label().gaps, []);
    assert!(complete().act(Action::Region(Region::Us)).label().gaps.contains(&Gap::Contact));
}

// Source: the name is that of the material's own row of the INCI (CosIng, from memory): it stands for the ester and the soap
// in it, of which the supplier alone knows which alkali it has.
#[test]
fn label_prints_no_name_that_leaves_two_things_open() {
    let of = |shelf: &str| {
        let text = format!(
            r#"{{"format":"hundred-parts","version":1,"shelf":[{shelf}],"formula":{{"phases":[{{"lines":[
            {{"ingredient":"water","percent":"95"}},{{"ingredient":"glyceryl-stearate-se","percent":"5"}}]}}]}}}}"#
        );
        let report: serde_json::Value =
            serde_json::from_str(&hundred_parts::report::sheet_report(&text).unwrap()).unwrap();
        let list =
            |key: &str| report["label"][key].as_array().unwrap().iter().map(ToString::to_string).collect::<Vec<_>>();
        (list("ingredients"), list("missing"))
    };
    let (names, missing) = of("");
    assert_eq!(names, [r#""Aqua""#, r#""Glyceryl Stearate SE""#]);
    assert!(missing.iter().all(|one| !one.contains("tearate")), "{missing:?}");
    // What a maker leaves open is listed as missing.
    let typed = r#"{"id":"glyceryl-stearate-se","own":false,"values":{"components":"glyceryl stearate 95; potassium or sodium stearate 5"}}"#;
    let (_, missing) = of(typed);
    assert!(missing.iter().any(|one| one.contains("Potassium or sodium stearate") && one.contains("which of the two")));
    let said = r#"{"id":"glyceryl-stearate-se","own":false,"values":{"components":"glyceryl stearate 95; sodium stearate 5"}}"#;
    assert!(of(said).1.iter().all(|one| !one.contains("which of the two")));
}

// Source: Commission page on the period after opening and the Irish authority's labelling page: up to thirty months a date,
// above that the months after opening.
#[test]
fn label_thirty_months_decide_between_date_and_opening() {
    let made = |months: &str, opened: &str, date: &str| {
        Workshop::new()
            .paper(PaperField::Durability, months)
            .paper(PaperField::AfterOpening, opened)
            .paper(PaperField::BestBefore, date)
            .label()
    };
    for (months, keeps) in [("29", false), ("30", false), ("31", true), ("", false)] {
        let label = made(months, "12", "");
        assert_eq!(matches!(label.keeps, Keeps::AfterOpening(_)), keeps, "{months}");
        assert_eq!(label.gaps.contains(&Gap::BestBefore), !keeps, "{months}");
    }
    assert!(made("36", "", "").gaps.contains(&Gap::AfterOpening));
    assert_eq!(made("12", "", "06/2027").keeps, Keeps::Until("06/2027".into()));
    assert!(matches!(made("12", "6", "06/2027").keeps, Keeps::Both(..)));
}

// Source: the international avoirdupois ounce (28.349523125 g) and the US fluid ounce (29.5735295625 mL), by definition.
#[test]
fn label_content_has_the_units_of_its_region() {
    use hundred_parts::formula::Content;
    use hundred_parts::quantity::{Mass, Quantity, Volume};
    let mass = |grams: &str| Content::Mass(Mass::from_canonical(grams).unwrap());
    let volume = |ml: &str| Content::Volume(Volume::from_canonical(ml).unwrap());
    for (content, region, expected) in [
        (mass("50"), Region::Eu, "50\u{202f}g"),
        (mass("1500"), Region::Eu, "1.5\u{202f}kg"),
        (volume("250"), Region::Gb, "250\u{202f}mL"),
        (volume("1000"), Region::Eu, "1\u{202f}L"),
        (mass("50"), Region::Us, "Net wt. 1.76\u{202f}oz (50\u{202f}g)"),
        (mass("453.592370"), Region::Us, "Net wt. 16\u{202f}oz (453.59237\u{202f}g)"),
        (volume("100"), Region::Us, "3.38\u{202f}fl. oz (100\u{202f}mL)"),
    ] {
        assert_eq!(words::content(content, region), expected);
    }
}

#[test]
fn label_too_small_for_its_text_sends_to_a_leaflet() {
    let facts = complete().label();
    let small = words::label_paper(&facts, LABEL_FORMATS[1]);
    let large = words::label_paper(&facts, LABEL_FORMATS[4]);
    let leaflet = "Warnings and ingredients: see the leaflet.";
    assert!(small.text().contains(leaflet) && !large.text().contains(leaflet));
    // Whichever it is, nothing is cut: the list is in full on the label or on the leaflet.
    for paper in [&small, &large] {
        let list = format!("Ingredients: {}", facts.ingredients.join(", "));
        assert!(paper.text().contains(&list));
    }
    assert!(matches!(&small.parts[0], Block::Labels(labels) if labels.ruler_mm == 50 && labels.letter_um >= 1_200));
}

// Worked by hand for a label of 38.1 mm by 63.5 mm: 34.1 mm are free. Letters of 2.4 mm make rows of 2.88 mm with 0.3 mm
// behind a paragraph: ten paragraphs of one row take 31.8 mm, eleven 34.98 mm. In 59.5 mm are 41 letters.
#[test]
fn label_lines_are_counted_in_rows() {
    let line = |text: &str| LabelLine::plain(text.to_owned());
    let fits = |count: usize, text: &str| fits(&vec![line(text); count], LABEL_FORMATS[1].label_um, 2_400);
    assert!(fits(10, &"x".repeat(41)) && !fits(11, "x"));
    assert!(fits(5, &"x".repeat(42)) && !fits(6, &"x".repeat(42)), "a letter more is a row more");
    assert!(!fits(6, "two\nrows"));
}

#[test]
fn label_letters_grow_where_there_is_room_and_a_label_too_small_says_so() {
    let labels = |made: &Workshop, n: usize| match &words::label_paper(&made.label(), LABEL_FORMATS[n]).parts[0] {
        Block::Labels(labels) => labels.clone(),
        _ => panic!(),
    };
    let made = complete();
    assert!(labels(&made, 4).letter_um > labels(&made, 0).letter_um);
    assert!(LABEL_FORMATS.iter().enumerate().all(|(n, _)| !labels(&made, n).too_small));
    let long = complete().paper(PaperField::Address, &"A very long lane with a long name, ".repeat(20));
    assert!(labels(&long, 1).too_small);
    assert!(words::label_paper(&long.label(), LABEL_FORMATS[1]).text().contains(words::LABEL_TOO_SMALL));
    assert!(!words::label_paper(&made.label(), LABEL_FORMATS[1]).text().contains(words::LABEL_TOO_SMALL));
}

// Source: 21 CFR 701.3 (1996): letters of at least 1/16 inch; the figures of a net content after Directive 76/211/EEC, from
// memory: 2 mm to 50, 3 mm to 200, 4 mm to 1000, then 6 mm.
#[test]
fn label_letters_and_figures_are_high_enough() {
    assert_eq!(complete().act(Action::Region(Region::Us)).label().letter_um, 1_587);
    for (content, figure) in [
        ("50 g", 2_000),
        ("50.3 mL", 3_000),
        ("50.000001 g", 3_000),
        ("200 g", 3_000),
        ("200.5 mL", 4_000),
        ("1 kg", 4_000),
        ("1000.1 g", 6_000),
        ("1001 g", 6_000),
    ] {
        assert_eq!(complete().paper(PaperField::NetContent, content).label().figure_um, Some(figure), "{content}");
    }
}

#[test]
fn label_carries_the_cautions_of_the_rules() {
    let mut made = complete();
    assert_eq!(made.label().cautions, []);
    add(&mut made, "retinyl-palmitate", "0.05");
    add(&mut made, "dmdm-hydantoin", "0.1");
    add(&mut made, "salicylic-acid", "0.1");
    let cautions = made.label().cautions;
    assert_eq!(cautions, [Caution::Formaldehyde, Caution::NotUnderThree, Caution::VitaminA]);
    let text = words::label_paper(&made.label(), LABEL_FORMATS[4]).text();
    for caution in cautions {
        assert!(text.contains(words::caution(caution)));
    }
}

/// The contract of the command line: findings and label with their keys.
#[test]
fn report_has_findings_and_label() {
    let text = document_text(&demo(), &Shelf::default());
    let report: serde_json::Value = serde_json::from_str(&hundred_parts::report::sheet_report(&text).unwrap()).unwrap();
    for finding in report["findings"].as_array().unwrap() {
        for key in ["rule", "grade", "lines", "value", "limit", "source", "verified", "message"] {
            assert!(finding.get(key).is_some(), "{key}");
        }
        assert!(["stop", "care", "unknown", "fine"].contains(&finding["grade"].as_str().unwrap()));
    }
    let label = &report["label"];
    assert_eq!(label["ingredients"][0], "Aqua");
    assert_eq!(label["allergens"][0]["name"], "Benzyl Alcohol");
    assert_eq!(report["rules_known_to"], "2026-08-28");
}

// Source: Regulation (EC) 1223/2009 Article 19(1)(g): names of ingredients in the form of nanomaterials are followed by the
// word "nano" in brackets.
#[test]
fn label_list_marks_what_is_in_nano_form() {
    let made = |answer: &str| {
        let mut made = complete().paper(PaperField::Nano, answer);
        add(&mut made, "zinc-oxide", "3");
        add(&mut made, "titanium-dioxide", "0.5");
        made
    };
    let asks = |made: &Workshop| made.label().gaps.iter().any(|gap| gap.field() == Some(PaperField::Nano));
    let marked = |made: &Workshop| -> Vec<String> {
        made.label().ingredients.into_iter().filter(|name| name.contains("(nano)")).collect()
    };
    for open in ["", "perhaps", "yes?", "the zinc oxide is"] {
        assert!(asks(&made(open)) && marked(&made(open)).is_empty(), "{open}");
    }
    assert!(!asks(&made("no")) && marked(&made("no")).is_empty());
    for yes in ["yes", " Yes "] {
        assert!(!asks(&made(yes)));
        assert_eq!(marked(&made(yes)), ["Zinc Oxide (CI 77947) (nano)", "CI 77891 (nano)"]);
    }
    let us = made("yes").act(Action::Region(Region::Us));
    assert_eq!(marked(&us), ["Zinc Oxide (nano)", "Titanium Dioxide (nano)"]);
    assert!(
        words::label_paper(&us.label(), LABEL_FORMATS[4])
            .text()
            .contains("\u{201c}Zinc Oxide (nano)\u{201d}: not read in the law (unverified)")
    );
}

// Source: Regulation (EC) 1223/2009 Article 19(1)(g), read in part: falling order, below one percent any order, colourants
// last, "Parfum", allergens named.
#[test]
fn label_list_is_in_the_order_of_the_law() {
    let mut made = complete();
    for (id, share) in [("lavender-essential-oil", "0.3"), ("iron-oxide", "2"), ("titanium-dioxide", "3")] {
        add(&mut made, id, share);
    }
    let lavender = IngredientId::parse("lavender-essential-oil").unwrap();
    made.shelf.set(&lavender, Field::AllergenStatement, "Linalool 35\nLinalyl acetate 40");
    let (sheet, _) = made.derive();
    let names = sheet.label.names();
    let place =
        |name: &str| names.iter().position(|known| *known == name).unwrap_or_else(|| panic!("{name}: {names:?}"));
    assert_eq!(place("Aqua"), 0);
    assert!(place("CI 77891") > place("Linalool") && place("CI 77491") > place("Dehydroacetic Acid"));
    assert!(place("Linalool") > place("Parfum") && place("Lavandula Oil/Extract") > place("Parfum"));
    assert!(!names.contains(&"Lavandula Angustifolia Oil"), "the oil stands as Parfum");
    let above: Vec<_> = sheet.label.ingredients.iter().take_while(|one| !one.under_one).collect();
    assert!(above.windows(2).all(|pair| pair[0].share >= pair[1].share));
    let us = made.act(Action::Region(Region::Us));
    let (sheet, _) = us.derive();
    assert_eq!((sheet.label.names()[0], sheet.label.names().contains(&"Fragrance")), ("Water", true));
}
