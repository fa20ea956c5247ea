//! Soaps in files and in the printed report.

use crate::{line, near};
use hundred_parts::desk::{
    Action, DocId, Document, OpenDocument, ShelfDocument, document_text, read_document, read_export,
};
use hundred_parts::formula::Use;
use hundred_parts::quantity::Timestamp;
use hundred_parts::report::sheet_report;
use hundred_parts::sheet::{Acknowledgement, AlkaliChoice, LyeField, NoLye, Saponified, SvBasis, WaterBy};
use hundred_parts::shelf::Shelf;
use serde_json::Value;

const SOAP: &str = r#"{"format":"hundred-parts","version":1,"formula":{"title":"Quay bar","use":"soap","pack":"bar","phases":[
 {"name":"Fats","kind":"oil","lines":[{"ingredient":"olive","percent":"60"},{"ingredient":"coconut","percent":"25"},
 {"ingredient":"shea","percent":"10"},{"ingredient":"jojoba","percent":"5"}]}]},
 "batch":{"mass_g":"1000","readability_g":"0.1"},
 "lye":{"naoh_purity_percent":"98","discount_percent":"5","concentration_percent":"33"}}"#;

fn sheet(document: &str) -> Value {
    serde_json::from_str(&sheet_report(document).unwrap_or_else(|problem| panic!("{problem}"))).unwrap()
}

/// Source: by hand from the low ends of the table (olive 184, coconut 248, shea 160, jojoba 80): 600 × 184 + 250 × 248 +
/// 100 × 160 + 50 × 80 = 192.4 g KOH; × 0.7128896 × 0.95 / 0.98 = 132.96 g NaOH; water × 67 / 33 = 269.9 g.
#[test]
fn sheet_of_a_soap_prints_fats_and_lye() {
    let sheet = sheet(SOAP);
    let lye = &sheet["lye"];
    assert_eq!(lye["alkalis"][0]["weigh_g"], "132.9");
    let water: f64 = lye["water_g"].as_str().unwrap().parse().unwrap();
    near(water, 269.8, 0.2, "water");
    assert_eq!(lye["basis"], "low");
    assert_eq!(lye["cautions"].as_array().unwrap().len(), 13);
    let said =
        |needle: &str| lye["cautions"].as_array().unwrap().iter().any(|one| one.as_str().unwrap().contains(needle));
    for needle in ["goggles", "gloves", "lye to cold water", "children and pets", "window", "No vinegar", "15 minutes"]
    {
        assert!(said(needle), "{needle}");
    }
    assert!(lye["alkalis"][0]["label"].as_str().unwrap().contains("H314"));
    let fats = &sheet["fats"];
    assert_eq!(fats["uncounted"][0]["ingredient"], "jojoba");
    assert!(fats["profile"]["18:1"].is_string() && fats["oxidation_index"].is_string());
    assert!(fats["methods"]["iodine_value"].as_str().unwrap().contains("AOCS Cd 1c-85"));
}

/// What no lye is counted for stands on the sheet, in the report and among the findings. Source: common practice, no
/// source: fatty alcohols stay in the soap as they are.
#[test]
fn soap_names_what_its_lye_does_not_count() {
    let with = |line: &str| {
        sheet(&SOAP.replace(r#"{"ingredient":"jojoba","percent":"5"}"#, &format!(r#"{line},"percent":"5"}}"#)))
    };
    let said = |sheet: &Value, name: &str| {
        let note = |text: &Value| text.as_str().is_some_and(|text| text.starts_with(&format!("{name} is not counted")));
        let found = sheet["findings"].as_array().unwrap().iter();
        let found =
            found.filter(|one| one["rule"] == "lye").any(|one| note(&one["message"]) && one["grade"] == "unknown");
        (sheet["lye"]["notes"].as_array().unwrap().iter().any(note), found)
    };
    for (line, name) in [
        (r#"{"ingredient":"cetyl-alcohol""#, "Cetyl alcohol"),
        (r#"{"name":"olive oil from the market""#, "olive oil from the market"),
    ] {
        assert_eq!(said(&with(line), name), (true, true), "{name}");
    }
    for (line, name) in [
        (r#"{"ingredient":"water""#, "Water"),
        (r#"{"ingredient":"titanium-dioxide""#, "Titanium dioxide"),
        (r#"{"ingredient":"jojoba""#, "Jojoba"),
    ] {
        let sheet = with(line);
        assert_eq!(said(&sheet, name), (false, false), "{name}");
        assert!(!sheet["lye"].to_string().contains("is not counted:"), "{name}");
    }
}

/// No stored source gives the names of saponified fats, so the label says that they are to be had elsewhere.
#[test]
fn label_of_a_soap_says_that_its_fats_stand_as_weighed() {
    let missing = |document: &str| {
        let sheet = sheet(document);
        let all = sheet["label"]["missing"].as_array().unwrap().clone();
        all.iter()
            .filter(|said| said.as_str().unwrap().contains("suppliers\u{2019} documents, and ask your assessor"))
            .count()
    };
    assert_eq!(missing(SOAP), 1);
    let lotion = SOAP.replace("\"soap\"", "\"leave-on\"");
    assert_eq!(missing(&lotion), 0);
    // A part of a lotion that is saponified is soap all the same.
    let part = lotion.replace("\"lye\":{", "\"lye\":{\"lines\":[{\"phase\":0,\"line\":1}],");
    assert_eq!(missing(&part), 1);
}

#[test]
fn sheet_of_a_lotion_has_no_lye_and_without_fats_no_fats() {
    let lotion = SOAP.replace("\"soap\"", "\"leave-on\"");
    let lotion = sheet(&lotion);
    assert!(lotion.get("lye").is_none() && lotion.get("lye_missing").is_none());
    let water = sheet(
        r#"{"format":"hundred-parts","version":1,"formula":{"phases":[{"lines":[{"ingredient":"water","percent":"100"}]}]}}"#,
    );
    assert!(water.get("fats").is_none());
}

#[test]
fn sheet_says_why_there_is_no_lye() {
    let zero = sheet(&SOAP.replace("\"discount_percent\":\"5\"", "\"discount_percent\":\"0\""));
    assert!(zero.get("lye").is_none());
    assert!(zero["lye_missing"].as_str().unwrap().contains("no margin"));
    let findings = zero["findings"].as_array().unwrap();
    assert!(findings.iter().any(|one| one["rule"] == "lye" && one["grade"] == "care"), "{findings:?}");
    let own = SOAP
        .replace("\"lye\":", r#""shelf":[{"id":"odd","values":{"sv_low":"420"}}],"lye":"#)
        .replace("\"shea\"", "\"odd\"");
    assert!(sheet(&own)["lye_missing"].as_str().unwrap().contains("420"));
}

#[test]
fn soap_document_comes_back_as_it_was_and_others_are_as_ever() {
    let text = SOAP.replace("\"lye\":{", r#""lye":{"alkali":"both","naoh_mole_percent":"60","lines":[{"phase":0,"line":1}],"discount_percent_typed":"5 %","#);
    let document = read_document(&text, &mut Shelf::default()).unwrap();
    assert_eq!(document.state.formula.about.purpose, Use::Soap);
    assert_eq!(document.state.lye.part, Saponified::Lines(vec![line(&document.state.formula, 1)]));
    let once = document_text(&document, &Shelf::default());
    let again = read_export(&once).unwrap();
    assert_eq!(again.documents[0].state.lye, document.state.lye);
    assert_eq!(document_text(&again.documents[0], &Shelf::default()), once);
    // A plan that was never touched is not written.
    assert!(!document_text(&Document::default(), &Shelf::default()).contains("\"lye\""));
    for wrong in [r#""alkali":"lime""#, r#""lines":[{"phase":9,"line":0}]"#, r#""no_margin_acknowledged":"yes""#] {
        let text = SOAP.replace("\"lye\":{", &format!("\"lye\":{{{wrong},"));
        let problem = read_document(&text, &mut Shelf::default()).unwrap_err();
        assert!(problem.path.starts_with("lye."), "{problem}");
    }
}

#[test]
fn acknowledgement_does_not_travel_and_ends_when_the_discount_is_typed_anew() {
    let now = Timestamp::from_millis(0);
    let text = SOAP.replace("\"lye\":{", "\"lye\":{\"no_margin_acknowledged\":true,");
    assert!(!read_export(&text).unwrap().documents[0].state.lye.no_margin.is_given());
    let document = read_document(&text, &mut Shelf::default()).unwrap();
    let mut open = OpenDocument::new(DocId::random(1), document, ShelfDocument::default(), now);
    assert!(open.state().lye.no_margin.is_given());
    open.act(Action::LyeText(LyeField::Discount, "-1".into()), now);
    assert!(matches!(open.derive().sheet.lye, Some(Err(NoLye::Unacknowledged(_)))));
    open.act(Action::LyeNoMargin(Acknowledgement::Given), now);
    assert!(matches!(open.derive().sheet.lye, Some(Ok(_))));
    open.undo(now);
    open.undo(now);
    assert_eq!(open.state().lye.discount.text(), "5");
}

#[test]
fn lye_actions_are_undone_one_by_one() {
    let now = Timestamp::from_millis(0);
    let document = read_document(SOAP, &mut Shelf::default()).unwrap();
    let mut open = OpenDocument::new(DocId::random(1), document, ShelfDocument::default(), now);
    let before = open.state().clone();
    let target = line(&before.formula, 0);
    let actions = [
        Action::Alkali(AlkaliChoice::Both),
        Action::LyeText(LyeField::SodiumShare, "60".into()),
        Action::LyeText(LyeField::PotassiumPurity, "90".into()),
        Action::LyeText(LyeField::SodiumPurity, "97".into()),
        Action::LyeText(LyeField::Concentration, "30".into()),
        Action::LyeWater(WaterBy::Ratio),
        Action::LyeText(LyeField::Ratio, "2.5".into()),
        Action::LyeBasis(SvBasis::Typical),
        Action::Saponify(Saponified::Lines(vec![target])),
    ];
    let count = actions.len();
    for action in actions {
        open.act(action, now);
    }
    let Some(Ok(lye)) = open.derive().sheet.lye else { panic!("no lye") };
    assert_eq!((lye.fats.len(), lye.alkalis.len()), (1, 2));
    for _ in 0..count {
        assert!(open.undo(now));
    }
    assert_eq!(open.state(), &before);
    assert!(!open.can_undo());
}
