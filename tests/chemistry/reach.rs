//! A target is praised only where the formula as it stands reaches it, by the estimate.

use crate::formula::{formula, line};
use hundred_parts::desk::read_document;
use hundred_parts::facts::Adjusts;
use hundred_parts::formula::Formula;
use hundred_parts::quantity::Quantity;
use hundred_parts::rules::{Grade, check, of_ph};
use hundred_parts::sheet::{Sheet, compute};
use hundred_parts::shelf::Shelf;
use hundred_parts::words::{self, DecimalSign, bench};

/// What the card says in its one line, with its grade, and the finding's sentence with its own.
fn said(formula: &Formula, sheet: &Sheet) -> (String, Grade, Option<(String, Grade)>) {
    let findings = check(formula, sheet, &Shelf::default());
    let target = formula.about.target_ph.value();
    let name = |_| "it".to_owned();
    let card = bench::ph_summary(sheet, target, &name, DecimalSign::Point);
    let found = findings.iter().find(|finding| finding.rule == "ph-reach");
    let told = found.map(|found| (words::finding(found, &[], words::DecimalSign::Point), found.grade));
    (card, of_ph(&findings, sheet, target), told)
}

fn of(lines: &[(&str, &str)], target: &str) -> (Sheet, String, Grade, Option<(String, Grade)>) {
    let lines: Vec<String> = lines.iter().map(|(id, share)| line(id, share)).collect();
    let (formula, sheet) = formula(&lines.join(","), &format!(r#""target_ph":"{target}","#));
    let (card, grade, told) = said(&formula, &sheet);
    (sheet, card, grade, told)
}

/// What was met: "Target 5.2 suits all" with a tick, beside an estimate around 2.7.
#[test]
fn card_of_the_example_does_not_praise_a_target_that_it_does_not_reach() {
    let document = read_document(include_str!("../../src/desk/demo.json"), &mut Shelf::default()).unwrap();
    let state = &document.state;
    let sheet = compute(&state.formula, &state.plan, &state.lye, &Shelf::default());
    let (card, grade, told) = said(&state.formula, &sheet);
    assert!(card.starts_with("Target 5.2 lies within all windows"), "{card}");
    assert!(card.contains("the estimate, pH 2.6 to 3.0, is far below it: a base is needed, by readings"), "{card}");
    assert_ne!(grade, Grade::Fine);
    // Its chelator, its gum and its oats could not be counted: that is not judged, but said.
    let (text, grade) = told.unwrap();
    assert_eq!(grade, Grade::Unknown);
    for part in
        ["pH 2.6 to 3.0", "target of 5.2", "without Lactic acid", "sodium hydroxide", "Not counted", "Xanthan gum"]
    {
        assert!(text.contains(part), "{part}: {text}");
    }
}

/// Worked by hand: 0.5 % sodium benzoate (144.105 g/mol) in 0.81 kg of water are 0.0427 mol/kg, and a salt of a weak acid has
/// pH 7 + (4.203 + log 0.0427) / 2 = 8.4 (Henderson and Hasselbalch; constant of the CRC Handbook).
#[test]
fn benzoate_alone_needs_an_acid_and_a_line_for_it_is_named() {
    let (sheet, card, grade, told) = of(&[("sodium-benzoate", "0.5")], "5");
    let missed = sheet.ph_missed.unwrap();
    assert_eq!((missed.way, missed.less_is_enough), (Adjusts::Down, false));
    assert!((310..=330).contains(&missed.by), "{missed:?}");
    let (text, care) = told.unwrap();
    assert_eq!((grade, care), (Grade::Care, Grade::Care));
    assert!(
        text.contains("An acid is needed, such as lactic or citric acid") && card.contains("an acid is needed"),
        "{text}"
    );
    // A line that is there for it, without a share or with none, is what more is needed of.
    for share in ["0", "0.005"] {
        let (sheet, _, _, told) = of(&[("sodium-benzoate", "0.5"), ("citric-acid", share)], "5");
        assert_eq!(sheet.ph_missed.unwrap().helpers.len(), 1);
        assert!(told.unwrap().0.contains("Citric acid (anhydrous or monohydrate) is there to lower it"), "{share}");
    }
}

/// Worked by hand: 5 % of lactic acid of 80 to 90 % (90.078 g/mol) are 0.472 mol, of which 9.44 % of lye of 10 % (39.997 g/mol)
/// take half: the pH is then the constant, 3.86 (CRC Handbook; Henderson and Hasselbalch). Without the lye it is near
/// (3.86 - log 0.55) / 2 = 2.1.
#[test]
fn lactic_acid_alone_needs_less_or_a_base_and_with_enough_lye_neither() {
    let acid = ("lactic-acid", "5");
    let (sheet, card, grade, told) = of(&[acid], "4.6");
    assert!(sheet.ph_missed.unwrap().less_is_enough);
    assert!(card.contains("less acid or a base is needed") && grade != Grade::Fine, "{card}");
    let (text, _) = told.unwrap();
    assert!(text.contains("takes it too low") && text.contains("a base is needed"), "{text}");
    let (sheet, _, _, told) = of(&[acid, ("sodium-hydroxide", "2")], "3.7");
    assert_eq!(sheet.ph_missed.unwrap().helpers.len(), 1);
    assert!(told.unwrap().0.contains("is there to raise it"));
    let (sheet, _, _, told) = of(&[acid, ("sodium-hydroxide", "9.44")], "3.7");
    assert_eq!((sheet.ph_missed, told), (None, None));
}

/// Where nothing is known to move the pH there is no estimate, and no tick.
#[test]
fn target_without_an_estimate_is_not_praised() {
    let (sheet, card, grade, told) = of(&[("glycerin", "4")], "5.2");
    assert_eq!((sheet.ph, told), (None, None));
    assert!(card.ends_with("no estimate, a reading decides") && grade == Grade::Unknown, "{card}");
}

/// What could not be counted is named, and makes it Unknown: lye is there for carbomer, and no constant tells how much of it
/// carbomer takes up. Of a soap the water says nothing.
#[test]
fn estimate_that_could_not_count_all_does_not_take_care() {
    let lines = [("carbomer", "0.3"), ("sodium-hydroxide", "0.5")];
    let (text, grade) = of(&lines, "6").3.unwrap();
    assert!(
        grade == Grade::Unknown && text.contains("Not counted, though it moves or buffers the pH: Carbomer"),
        "{text}"
    );
    assert_eq!(of(&[("sodium-hydroxide", "0.5")], "6").3.unwrap().1, Grade::Care);
    let about = r#""use":"rinse-off","pack":"bar","target_ph":"9.5","#;
    let (formula, sheet) = formula(&line("sodium-hydroxide", "8"), about);
    assert!(sheet.ph.is_some() && sheet.ph_missed.is_none() && said(&formula, &sheet).2.is_none());
}

/// Worked by hand: 1 % lactic acid (90.08 g/mol, pKa 3.86; as sold 88 to 92 % of it) in 0.81 kg of water is 0.1 mol/kg of product; at
/// pH 5 93 % of it is lactate, which takes 0.1 × 0.93 × 40.0 = 3.8 to 4.1 g of sodium hydroxide a kilogram.
#[test]
fn finding_says_about_how_much_is_needed_and_that_readings_decide() {
    let (sheet, ..) = of(&[("lactic-acid", "1")], "5");
    let needs = sheet.ph_missed.unwrap().needs;
    assert!(needs.least < needs.most && needs.least.units() < 400_000 && needs.most.units() > 340_000, "{needs:?}");
    // Not much wider than what lactic acid and the model leave open.
    assert!(needs.most.units() - needs.least.units() < 150_000, "{needs:?}");
    let (_, _, _, told) = of(&[("sodium-benzoate", "0.5")], "5");
    let (text, _) = told.unwrap();
    assert!(
        text.contains("Citric") && text.contains("about 0.") && text.contains("readings of the batch decide"),
        "{text}"
    );
}
