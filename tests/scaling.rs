//! Scaling and weighing through documents, against sources outside the project.

use hundred_parts::desk::{Action, DocId, OpenDocument, ShelfDocument, demo};
use hundred_parts::quantity::{Quantity, Timestamp};
use hundred_parts::report::sheet_report;
use hundred_parts::sheet::PlanField;
use proptest::prelude::*;
use serde_json::Value;

fn sheet(document: &str) -> Value {
    serde_json::from_str(&sheet_report(document).unwrap_or_else(|problem| panic!("{problem}"))).unwrap()
}

fn document(lines: &str, batch: &str) -> String {
    format!(
        r#"{{"format":"hundred-parts","version":1,"formula":{{"title":"T","phases":[{{"name":"W","kind":"water","lines":[{lines}]}}]}},"batch":{batch}}}"#
    )
}

const LOTION: &str = r#"{"ingredient":"water","percent":"fill-up"},{"ingredient":"glycerin","percent":"4.00"},{"ingredient":"phenoxyethanol","percent":"0.9"}"#;

fn micrograms(text: &str) -> i64 {
    let (whole, fraction) = text.split_once('.').unwrap_or((text, ""));
    format!("{whole}{fraction:0<6}").parse().unwrap()
}

fn sum(sheet: &Value, key: &str) -> i64 {
    sheet["weigh"]["lines"].as_array().unwrap().iter().map(|line| micrograms(line[key].as_str().unwrap())).sum()
}

/// Source: worked by hand, N × fill × (1 + loss): 12 × 100 g × 1.03 = 1236 g; 24 × 118.3 g × 1.08 = 3066.336 g, which a
/// scale of 0.01 g weighs as 3066.34 g so that every jar can be filled.
#[test]
fn jars_with_loss_come_to_the_batch() {
    for (batch, expected) in [
        (r#"{"jars":12,"fill_g":"100","loss_percent":"3","readability_g":"0.01"}"#, "1236"),
        (r#"{"jars":24,"fill_g":"118.3","loss_percent":"8","readability_g":"0.01"}"#, "3066.34"),
        (r#"{"jars":12,"fill_ml":"50","density_g_per_ml":"0.985","readability_g":"0.1"}"#, "591"),
        (r#"{"vessel_ml":"2000","head_room_percent":"25","density_g_per_ml":"0.9","readability_g":"1"}"#, "1350"),
        (r#"{"mass_g":"100","readability_g":"0.01"}"#, "100"),
    ] {
        let sheet = sheet(&document(LOTION, batch));
        assert_eq!(sheet["weigh"]["batch_g"], expected, "{batch}");
        assert_eq!(sum(&sheet, "mass_g"), micrograms(expected), "{batch}");
    }
}

/// Source: common practice, no source: at a batch of 100 g, percent and grams are the same number.
#[test]
fn hundred_grams_are_percent() {
    let sheet = sheet(&document(LOTION, r#"{"mass_g":"100","readability_g":"0.01"}"#));
    for line in sheet["weigh"]["lines"].as_array().unwrap() {
        assert_eq!(line["mass_g"], line["percent"]);
    }
}

#[test]
fn batch_sums_exactly_at_every_readability() {
    for step in ["0.001", "0.002", "0.005", "0.01", "0.02", "0.05", "0.1", "0.2", "0.5", "1", "2", "5"] {
        let sheet = sheet(&document(LOTION, &format!(r#"{{"mass_g":"1237","readability_g":"{step}"}}"#)));
        let batch = micrograms(sheet["weigh"]["batch_g"].as_str().unwrap());
        assert_eq!(sum(&sheet, "mass_g"), batch, "{step}");
        assert_eq!(sum(&sheet, "on_the_scale_g"), batch, "{step}");
        assert!((batch - micrograms("1237")).abs() * 2 <= micrograms(step), "{step}");
    }
}

/// Source: USP chapter <41>, minimum weight 2 × 0.41 d ÷ p, as summarised by two balance makers: 0.41 g for d = 0.01 g
/// and 2 %, 8.2 g for 0.1 %, 4.1 g for d = 0.1 g and 2 %.
#[test]
fn least_weighable_follows_usp_41() {
    for (step, tolerance, least) in
        [("0.01", "2", "0.41"), ("0.01", "0.1", "8.2"), ("0.1", "2", "4.1"), ("1", "5", "16.4"), ("0.01", "5", "0.17")]
    {
        let batch = format!(r#"{{"mass_g":"1000","readability_g":"{step}","tolerance_percent":"{tolerance}"}}"#);
        let sheet = sheet(&document(LOTION, &batch));
        // Rounded up to a step of the scale: 0.164 g is 0.17 g at 0.01 g, 16.4 g is 17 g at 1 g.
        let expected = if step == "1" { "17" } else { least };
        assert_eq!(sheet["weigh"]["least_weighable_g"], expected, "{step} {tolerance}");
    }
}

/// Source: USP chapter <41>, as summarised by two balance makers: minimum weight 2 s ÷ 0.10 %, so 2000 s, where the
/// repeatability s is more than 0.41 d; never below 820 d.
#[test]
fn least_weighable_follows_the_repeatability_where_that_is_more() {
    for (repeatability, least) in [("0.02", "40"), ("0.0041", "8.2"), ("0.001", "8.2"), ("0.0042", "8.4")] {
        let batch = format!(
            r#"{{"mass_g":"1000","readability_g":"0.01","repeatability_g":"{repeatability}","tolerance_percent":"0.1"}}"#
        );
        let sheet = sheet(&document(LOTION, &batch));
        assert_eq!(sheet["weigh"]["least_weighable_g"], least, "{repeatability}");
    }
}

/// Source: worked by hand with the same rule: 0.05 g at d = 0.01 g and 2 % is diluted 1 in 10, 0.41 g + 3.69 g, and
/// 0.50 g of that is the dose; the carrier gives 0.45 g of it.
#[test]
fn dose_too_small_gets_a_premix_that_keeps_the_totals() {
    let lines = r#"{"ingredient":"water","percent":"fill-up"},{"ingredient":"panthenol-75","percent":"0.05"}"#;
    let sheet = sheet(&document(lines, r#"{"mass_g":"100","readability_g":"0.01","tolerance_percent":"2"}"#));
    let premix = &sheet["weigh"]["premixes"][0];
    assert_eq!(premix["carrier"], "water");
    assert_eq!(premix["times"], 10);
    assert_eq!(
        (&premix["active_g"], &premix["carrier_g"], &premix["portion_g"]),
        (&"0.41".into(), &"3.69".into(), &"0.5".into())
    );
    assert_eq!(premix["carrier_line_g"], "99.5");
    assert_eq!(sum(&sheet, "on_the_scale_g"), micrograms("100"));
}

#[test]
fn in_hand_names_what_runs_out_first_and_never_asks_for_more() {
    let lines = r#"{"ingredient":"water","percent":"fill-up"},{"ingredient":"olive","percent":"15"},{"ingredient":"shea","percent":"3"}"#;
    let batch =
        r#"{"in_hand":[{"phase":0,"line":1,"mass_g":"230"},{"phase":0,"line":2,"mass_g":"40"}],"readability_g":"0.1"}"#;
    let sheet = sheet(&document(lines, batch));
    let lines = sheet["weigh"]["lines"].as_array().unwrap();
    // 40 g at 3 % allows 1333.3 g; 230 g at 15 % would allow 1533.3 g.
    assert_eq!(sheet["weigh"]["batch_g"], "1333.3");
    assert!(micrograms(lines[1]["mass_g"].as_str().unwrap()) <= micrograms("230"));
    assert!(micrograms(lines[2]["mass_g"].as_str().unwrap()) <= micrograms("40"));
}

#[test]
fn formula_that_is_not_whole_is_not_weighed() {
    let lines = r#"{"ingredient":"water","percent":"90"},{"ingredient":"glycerin","percent":"8.7"}"#;
    let sheet = sheet(&document(lines, r#"{"mass_g":"100"}"#));
    assert!(sheet.get("weigh").is_none());
    assert_eq!(sheet["totals"]["short"], "1.3");
    assert_eq!(sheet["findings"][0]["grade"], "stop");
}

#[test]
fn bad_document_says_where_what_and_what_was_expected() {
    let check = |lines: &str, wanted: &str| {
        let problem = sheet_report(&document(lines, "{}")).unwrap_err().to_string();
        assert!(problem.starts_with(wanted), "{problem}");
        assert!(!problem.contains('\n'), "{problem}");
    };
    check(
        r#"{"ingredient":"water","percent":"1e3"}"#,
        "formula.phases[0].lines[0].percent: found \"1e3\", expected a percent",
    );
    check(r#"{"ingredient":"water","percent":4.5}"#, "formula.phases[0].lines[0].percent: found 4.5, expected");
    check(
        r#"{"ingredient":"no-such-thing","percent":"1"}"#,
        "formula.phases[0].lines[0].ingredient: found \"no-such-thing\", expected",
    );
    check(
        r#"{"ingredient":"water","percent":"fill-up"},{"ingredient":"glycerin","percent":"fill-up"}"#,
        "formula.phases[0].lines[1].percent: found \"fill-up\", expected",
    );
    assert!(sheet_report("{").unwrap_err().to_string().starts_with("$: found text that is no JSON at line 1"));
    assert!(sheet_report("[]").unwrap_err().to_string().starts_with("$: found [], expected an object"));
    assert!(
        sheet_report(r#"{"format":"hundred-parts","version":2}"#)
            .unwrap_err()
            .to_string()
            .starts_with("version: found 2")
    );
}

/// A step that no scale has is told and not taken for another; the largest batch there is comes out or is refused, and
/// nothing stops.
#[test]
fn steps_are_those_of_scales_and_the_largest_batch_is_no_end() {
    let lines = r#"{"ingredient":"water","percent":"fill-up"},{"name":"A pinch","percent":"0.01"},{"name":"Dust","percent":"0.000001"}"#;
    for step in ["3", "0.25", "0.0011"] {
        let sheet = sheet(&document(lines, &format!(r#"{{"jars":1,"fill_g":"1000000","readability_g":"{step}"}}"#)));
        assert!(sheet.get("weigh").is_none(), "{step}");
        assert!(
            sheet["weigh_missing"].as_str().is_some_and(|text| text.contains("the smallest step of the scale")),
            "{sheet}"
        );
    }
    for step in ["5", "0.001"] {
        let batch = format!(r#"{{"jars":1,"fill_g":"1000000","readability_g":"{step}"}}"#);
        let sheet = sheet(&document(lines, &batch));
        assert_eq!(sheet["weigh"]["batch_g"], "1000000");
        let over = batch.replace("\"1000000\"", "\"1000000\",\"loss_percent\":\"0.000001\"");
        assert!(self::sheet(&document(lines, &over)).get("weigh").is_none(), "more than a mass can hold");
    }
}

/// Source: Regulation (EC) 1223/2009 Annex V entry 29: phenoxyethanol up to 1.0 %. Worked: 455 g at steps of 0.1 g: 4.55 g
/// are weighed as 4.5 g, since 4.6 g would be 1.011 %.
#[test]
fn rounding_never_carries_a_preservative_over_its_cap() {
    let line = |lines: &str, batch: &str, n: usize| {
        let sheet = sheet(&document(lines, batch));
        assert_eq!(sum(&sheet, "mass_g"), micrograms(sheet["weigh"]["batch_g"].as_str().unwrap()));
        sheet["weigh"]["lines"][n]["mass_g"].as_str().unwrap().to_owned()
    };
    let batch = r#"{"mass_g":"455","readability_g":"0.1"}"#;
    let filled = r#"{"ingredient":"water","percent":"fill-up"},{"ingredient":"phenoxyethanol","percent":"1"}"#;
    assert_eq!(line(filled, batch, 1), "4.5");
    let stated = r#"{"ingredient":"water","percent":"95"},{"ingredient":"phenoxyethanol","percent":"1"},{"ingredient":"glycerin","percent":"4"}"#;
    assert_eq!(line(stated, batch, 1), "4.5");
    // Without a cap the nearest step counts. A capped line comes out as nothing before it goes over its cap, which is a
    // finding: 0.8 g are 1 %, and 1 g would be 1.25 %.
    assert_eq!(line(&filled.replace("phenoxyethanol", "glycerin"), batch, 1), "4.6");
    assert_eq!(line(filled, r#"{"mass_g":"80","readability_g":"1"}"#, 1), "0");
    // The most of an ingredient on the shelf: xanthan gum up to 1 %.
    let gum = |share: &str| filled.replace("phenoxyethanol", "xanthan-gum").replace("\"1\"", &format!("\"{share}\""));
    assert_eq!(line(&gum("1"), batch, 1), "4.5");
    assert_eq!(line(&gum("0.5"), r#"{"mass_g":"457","readability_g":"0.1"}"#, 1), "2.3", "far below its most");
}

proptest! {
    #[test]
    fn scaling_is_linear_where_the_scale_can_show_it(factor in 1i64..50) {
        let now = Timestamp::from_millis(0);
        let masses = |jars: i64| {
            let mut bench = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now);
            bench.act(Action::PlanText(PlanField::Jars, jars.to_string()), now);
            bench.act(Action::PlanText(PlanField::Fill, "100".into()), now);
            bench.act(Action::PlanText(PlanField::Loss, String::new()), now);
            bench.derive().sheet.weigh.unwrap().lines.iter().map(|line| line.mass.units()).collect::<Vec<_>>()
        };
        // The demo's shares are multiples of 0.05 %, so 100 g at 0.01 g is weighed exactly.
        let one = masses(1);
        prop_assert_eq!(masses(factor), one.iter().map(|mass| mass * factor).collect::<Vec<_>>());
    }
}
