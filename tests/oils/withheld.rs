//! What too little is known of is withheld, and said wherever the figure would stand.

use crate::{formula_of, id, line, near, own};
use hundred_parts::facts::{Field, OxidationOutlook};
use hundred_parts::quantity::{Percent, Quantity};
use hundred_parts::report::sheet_report;
use hundred_parts::rules::{Finding, Grade, check};
use hundred_parts::sheet::{
    FatCard, Limits, LyePlan, NoSwap, Plan, Sheet, Weighting, WhyLeftOut, WhyUncounted, compute, oil_phase, swap,
    totals,
};
use hundred_parts::shelf::Shelf;
use hundred_parts::words::{DecimalSign, oils};

fn shelf(acids: &str) -> Shelf {
    let mut shelf = Shelf::default();
    shelf.set(&id("soybean"), Field::FattyAcids, acids);
    shelf.set(&id("olive"), Field::FattyAcids, acids);
    shelf
}

fn computed(lines: &[(&str, &str)], shelf: &Shelf) -> (Sheet, Vec<Finding>) {
    let formula = formula_of(lines);
    let sheet = compute(&formula, &Plan::default(), &LyePlan::default(), shelf);
    let findings = check(&formula, &sheet, shelf);
    (sheet, findings)
}

fn said<'a>(findings: &'a [Finding], key: &str) -> Option<&'a Finding> {
    findings.iter().find(|finding| match &finding.fact {
        hundred_parts::rules::Fact::Message(said) => said.key() == key,
        hundred_parts::rules::Fact::SupplierSheet(odd) => odd.key() == key,
        _ => false,
    })
}

const DARK: &str = "16:0 10; 18:0 4; 18:1 24; mystery acid 62";

#[test]
fn figures_of_a_fat_of_which_too_little_is_known_are_withheld() {
    let fat = own("16:0 10; 18:0 4; 18:1 24; 18:2 56; other 6");
    assert!(fat.profile.is_some() && fat.computed_iv().is_none() && fat.computed_sv().is_none());
    assert_eq!((fat.outlook(), fat.untold()), (None, Some(Percent::millionths(6_000_000))));
    let fat = own("16:0 10; 18:0 4; 18:1 24; 18:2 57; other 5");
    assert_eq!((fat.outlook(), fat.untold()), (Some(OxidationOutlook::Short), None));
    // A lye cannot rest on acids that are not known either.
    assert!(own(DARK).sv_band().is_none());
}

/// The question of an antioxidant does not go with the answer.
#[test]
fn unknown_keeping_is_a_finding_where_oils_weigh() {
    let lines = [("olive", "10"), ("mct", "90")];
    let (_, findings) = computed(&lines, &shelf(DARK));
    let found = said(&findings, "keeping-unknown").expect("a finding");
    assert_eq!(found.grade, Grade::Unknown);
    assert!(found.detail.subject.contains("Olive"));
    assert_eq!(said(&findings, "acids-unknown").map(|found| found.grade), Some(Grade::Unknown));
    // Under the share from which an antioxidant is usual, or beside one, nothing of it.
    assert!(said(&computed(&[("olive", "2.9"), ("mct", "97.1")], &shelf(DARK)).1, "keeping-unknown").is_none());
    let kept = [("olive", "10"), ("mct", "89.5"), ("tocopherol", "0.5")];
    assert!(said(&computed(&kept, &shelf(DARK)).1, "keeping-unknown").is_none());
    // Both together reach it, and what is known to turn by itself is said as ever.
    let both = [("rosehip", "2"), ("olive", "1"), ("mct", "97")];
    assert!(said(&computed(&both, &shelf(DARK)).1, "keeping-unknown").is_some());
    let fast = [("rosehip", "3"), ("olive", "1"), ("mct", "96")];
    assert!(said(&computed(&fast, &shelf(DARK)).1, "no-antioxidant").is_some());
}

/// Source: by hand. 62 % of an oil that is a tenth of the fats is 6.2 % of all; at a twentieth it is 3.1 %.
#[test]
fn oil_phase_is_withheld_where_the_unknown_part_weighs() {
    let phase = |lines: &[(&str, &str)]| computed(lines, &shelf(DARK)).0.fats;
    let much = phase(&[("soybean", "10"), ("sunflower-linoleic", "90")]);
    let figures = much.figures.clone().unwrap();
    assert!(figures.reckoned.is_none() && figures.oxidizability().is_none());
    near(figures.unknown.canonical().parse().unwrap(), 6.2, 0.05, "unknown");
    assert_eq!(much.untold.len(), 1);
    let summary = oils::phase_summary(&much, DecimalSign::Point);
    assert!(summary.contains("were not recognised"), "{summary}");
    let rows = oils::phase_numbers(&much, DecimalSign::Point);
    assert!(rows.iter().any(|(name, text)| *name == oils::COX && text.contains("not calculated")), "{rows:?}");
    let little = phase(&[("soybean", "5"), ("sunflower-linoleic", "95")]);
    assert!(little.figures.unwrap().reckoned.is_some());
    // What cannot be used at all is as unknown as what was not understood.
    let formula = formula_of(&[("olive", "10"), ("sunflower-linoleic", "90")]);
    let none = oil_phase(&formula, &totals(&formula), &shelf("not stated"));
    assert_eq!(none.uncounted, [(line(&formula, 0), WhyUncounted::NoAcids)]);
    assert!(none.figures.unwrap().reckoned.is_none());
}

/// Values of a mixture are those of all of it, or none.
#[test]
fn values_of_a_mixture_are_not_those_of_a_part() {
    let mut shelf = Shelf::default();
    let own = shelf.add_own("Harbour oil");
    shelf.set(&own, Field::FattyAcids, DARK);
    let values = |share: &str, rest: &str| {
        let formula = formula_of(&[(own.as_str(), share), ("olive", rest)]);
        oil_phase(&formula, &totals(&formula), &shelf).values
    };
    assert_eq!(values("6", "94"), None);
    assert!(values("5", "95").is_some_and(|values| values.iv.is_some() && values.sv.is_some()));
}

#[test]
fn swap_neither_replaces_nor_offers_what_is_not_known() {
    let shelf = shelf(DARK);
    let asked = |oil: &str| swap(&shelf, &id(oil), &Limits::default(), Weighting::default());
    assert_eq!(asked("olive").unwrap_err(), NoSwap::AcidsUnknown(Percent::millionths(62_000_000)));
    let answer = asked("almond-sweet").unwrap();
    let out = answer.left_out.iter().find(|out| out.id == id("olive")).expect("left out");
    assert_eq!(out.why, WhyLeftOut::AcidsUnknown(Percent::millionths(62_000_000)));
    assert!(answer.singles.iter().all(|single| single.id != id("olive")));
}

#[test]
fn report_and_table_say_what_is_withheld() {
    let text = r#"{"format":"hundred-parts","version":1,
        "shelf":[{"id":"soybean","own":false,"values":{"fatty_acids":"16:0 10; 18:0 4; 18:1 24; mystery acid 62"}}],
        "formula":{"phases":[{"kind":"oil","lines":[{"ingredient":"soybean","percent":"100"}]}]}}"#;
    let report: serde_json::Value = serde_json::from_str(&sheet_report(text).unwrap()).unwrap();
    let fats = &report["fats"];
    assert!(fats.get("oxidation_index").is_none() && fats.get("iodine_value_of_acids").is_none(), "{fats}");
    assert!(fats.get("outlook").is_none());
    assert!(fats["withheld"].as_str().unwrap().starts_with("62\u{202f}%"), "{fats}");
    assert_eq!(fats["untold"][0]["unknown_acids_percent"], "62");
    let findings = report["findings"].as_array().unwrap();
    assert!(findings.iter().any(|one| one["grade"] == "unknown" && one["message"].as_str().unwrap().contains("62")));
    let card = FatCard::of(&shelf(DARK).entry(&id("olive")).unwrap()).unwrap();
    let rows = oils::card_values(&card, DecimalSign::Point);
    assert!(rows.iter().any(|(name, text)| *name == oils::COX && text.starts_with("not calculated: 62")), "{rows:?}");
}

#[test]
fn sentences_have_the_right_article() {
    use hundred_parts::facts::{FatClass, FatKind};
    use hundred_parts::sheet::Hint;
    use hundred_parts::words::fats::hint;
    use hundred_parts::words::swap::no_swap;
    let said = |class| hint(&Hint::Firmness(id("lard"), class), "Lard").0;
    assert!(said(FatClass::Animal).contains("is an animal fat,"));
    assert!(said(FatClass::Butter).contains("is a butter,"));
    assert!(no_swap(NoSwap::NotTriglyceride(FatKind::WaxEster), DecimalSign::Point).contains("This is a wax ester"));
}
