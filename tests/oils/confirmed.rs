//! A typed saponification value that stands out: it counts for lye only with the maker's reason.

use crate::{id, near};
use hundred_parts::desk::{DocId, OpenDocument, ShelfAction, ShelfDocument, document_text, read_document, read_export};
use hundred_parts::facts::{Field, IngredientId, Span, Sv};
use hundred_parts::paper::lye_facts;
use hundred_parts::quantity::Timestamp;
use hundred_parts::report::sheet_report;
use hundred_parts::rules::{Fact, Grade};
use hundred_parts::sheet::{LyeNote, NoLye};
use hundred_parts::shelf::{Shelf, SvFrom};
use hundred_parts::words::lye::note;
use serde_json::Value;

fn soap(values: &str) -> String {
    format!(
        r#"{{"format":"hundred-parts","version":1,"shelf":[{{"id":"olive","own":false,"values":{{{values}}}}}],
        "formula":{{"title":"Quay bar","use":"soap","pack":"bar","phases":[{{"kind":"oil","lines":[{{"ingredient":"olive","percent":"100"}}]}}]}},
        "batch":{{"mass_g":"1000","readability_g":"0.1"}},"lye":{{"naoh_purity_percent":"100","discount_percent":"0.000001"}}}}"#
    )
}

fn report(values: &str) -> Value {
    serde_json::from_str(&sheet_report(&soap(values)).unwrap()).unwrap()
}

fn grams(report: &Value) -> f64 {
    report["lye"]["alkalis"][0]["weigh_g"].as_str().unwrap_or_else(|| panic!("{report}")).parse().unwrap()
}

/// Source: Codex CXS 33-1981, olive oil: 184 to 196 mg KOH/g, that is 131.2 to 139.7 g NaOH for 1,000 g (by 39.9971 / 56.1056).
#[test]
fn slip_of_a_digit_does_not_make_a_caustic_soap() {
    let slip = r#""sv_low":"291","sv_high":"296""#;
    let report = report(slip);
    near(grams(&report), 131.1, 0.11, "NaOH at the low end of the table");
    let notes = report["lye"]["notes"].as_array().unwrap();
    let said = notes[0].as_str().unwrap();
    assert!(said.contains("291 to 296") && said.contains("184 to 196") && said.contains("lower one counts"), "{said}");
    let found =
        report["findings"].as_array().unwrap().iter().find(|one| one["message"] == notes[0]).expect("a finding");
    assert_eq!(found["grade"], "care");
    // A typed value beside the table's is used as it is.
    near(grams(&self::report(r#""sv_low":"192","sv_high":"196""#)), 136.8, 0.11, "NaOH at 192");
    assert!(!self::report(r#""sv_low":"192""#)["lye"]["notes"].to_string().contains("is entered, but"));
}

#[test]
fn lower_value_counts_whichever_it_is() {
    let low = report(r#""sv_low":"170","sv_high":"175""#);
    near(grams(&low), 121.1, 0.11, "NaOH at 170");
    assert!(low["lye"]["notes"][0].as_str().unwrap().contains("170 to 175"));
    // One end too high: the other is that of the lot.
    let end = report(r#""sv_low":"190","sv_high":"296""#);
    near(grams(&end), 131.1, 0.11, "NaOH");
    let only = report(r#""sv_high":"296""#);
    near(grams(&only), 131.1, 0.11, "NaOH");
}

/// Source: the exact form of AOCS Cd 3a-94: 192.6 for the acids of olive oil (Forina 1983), less nothing that does not
/// saponify; 2.6 % to the low side is 187.6.
#[test]
fn value_of_an_own_oil_is_compared_with_its_acids() {
    let mut shelf = Shelf::default();
    let own = shelf.add_own("Harbour oil");
    shelf.set(&own, Field::FattyAcids, "16:0 13.2; 18:0 2.4; 18:1 74; 18:2 9.8; 18:3 0.6");
    let fat = |shelf: &Shelf| shelf.entry(&own).unwrap().fat().unwrap();
    for (typed, apart) in
        [("187", false), ("198", false), ("186", true), ("199", true), ("219", true), ("291", true), ("170", true)]
    {
        shelf.set(&own, Field::SvLow, typed);
        assert_eq!(fat(&shelf).sv_apart.is_some(), apart, "{typed}: {:?}", fat(&shelf).computed_sv());
    }
    shelf.set(&own, Field::SvLow, "291");
    let found = fat(&shelf);
    assert_eq!(found.sv_apart.as_ref().map(|(apart, _)| apart.from), Some(SvFrom::Acids));
    near(found.sv_band().unwrap().low.float(), 187.6, 0.7, "low end that counts");
    // What no triglyceride has is refused as ever, and cannot be confirmed.
    shelf.set(&own, Field::SvLow, "420");
    shelf.set(&own, Field::SvReason, "the paper says so");
    assert!(
        fat(&shelf).sv_apart.is_none() && fat(&shelf).sv == Some(Span { low: Sv::whole(420), high: Sv::whole(420) })
    );
}

#[test]
fn confirmation_counts_with_its_reason_on_screen_and_paper() {
    let confirmed = report(r#""sv_low":"205","sv_high":"208","sv_reason":"lot 7, titrated twice""#);
    near(grams(&confirmed), 146.1, 0.11, "NaOH at 205");
    let said = confirmed["lye"]["notes"][0].as_str().unwrap();
    assert!(said.contains("205 to 208") && said.contains("Reason: lot 7, titrated twice."), "{said}");
    assert!(confirmed["findings"].to_string().contains("lot 7, titrated twice"));
    // A blank reason is none; one for another value has lapsed.
    near(grams(&report(r#""sv_low":"205","sv_high":"208","sv_reason":"  ""#)), 131.1, 0.11, "blank");
    let other = r#""sv_low":"205","sv_high":"208","sv_reason":"lot 6","sv_confirmed":"204-208""#;
    near(grams(&report(other)), 131.1, 0.11, "lapsed");
    let document = read_document(&soap(r#""sv_low":"205","sv_reason":"lot 7""#), &mut Shelf::default());
    assert!(document.is_ok());
}

fn opened() -> (OpenDocument, IngredientId, Timestamp) {
    let now = Timestamp::from_millis(0);
    let document = read_document(&soap(r#""sv_low":"205""#), &mut Shelf::default()).unwrap();
    let mut open = OpenDocument::new(DocId::random(1), document, ShelfDocument::default(), now);
    let olive = id("olive");
    open.act_on_shelf(ShelfAction::Set(olive.clone(), Field::SvLow, "205".into()), now);
    (open, olive, now)
}

fn counts(open: &OpenDocument) -> &'static str {
    let derived = open.derive();
    let Some(Ok(lye)) = &derived.sheet.lye else { panic!("{:?}", derived.sheet.lye) };
    let paper = lye_facts(&open.state().formula, lye, open.shelf());
    let (found, name) = paper.notes.iter().find(|(note, _)| note.is_of_a_value()).expect("a note");
    assert_eq!(name, "Olive oil");
    let finding = derived.findings.iter().find(|one| one.fact == Fact::Lye(found.clone())).expect("a finding");
    assert_eq!(finding.grade, Grade::Care);
    assert!(note(found, name, hundred_parts::words::DecimalSign::Point).contains("205"));
    match found {
        LyeNote::SvConfirmed(..) => "typed",
        _ => "lower",
    }
}

#[test]
fn confirmation_is_undone_and_lapses_with_the_value() {
    let (mut open, olive, now) = opened();
    let set = |open: &mut OpenDocument, field, text: &str| {
        open.act_on_shelf(ShelfAction::Set(olive.clone(), field, text.into()), now);
    };
    assert_eq!(counts(&open), "lower");
    set(&mut open, Field::SvReason, "titrated twice");
    assert_eq!(counts(&open), "typed");
    open.undo_shelf(now);
    assert_eq!(counts(&open), "lower");
    open.redo_shelf(now);
    assert_eq!(counts(&open), "typed");
    // The same value typed again stays confirmed; another one is not, nor is the old one when it comes back.
    set(&mut open, Field::SvLow, "205");
    assert_eq!(counts(&open), "typed");
    set(&mut open, Field::SvHigh, "2055");
    set(&mut open, Field::SvHigh, "");
    assert_eq!(counts(&open), "lower");
    set(&mut open, Field::SvReason, "titrated twice");
    set(&mut open, Field::SvReason, "");
    assert_eq!(counts(&open), "lower");
    assert!(open.shelf().entry(&olive).unwrap().sv_reason().is_none());
}

/// Exported, and a tab of an older release leaves what it does not know alone.
#[test]
fn confirmation_is_exported_and_belongs_to_its_value() {
    let (mut open, olive, now) = opened();
    open.act_on_shelf(ShelfAction::Set(olive.clone(), Field::SvReason, "titrated twice".into()), now);
    let document = read_document(&soap(r#""sv_low":"205""#), &mut Shelf::default()).unwrap();
    let text = document_text(&document, open.shelf());
    let stored = open.stored(&DocId::shelf()).and_then(|shelf| shelf.take_commit()).unwrap().stored;
    let value: Value = serde_json::from_str(&stored.body).unwrap();
    assert_eq!(value["additions"], 1, "a tab of an earlier release leaves such a shelf alone");
    let incoming = read_export(&text).unwrap();
    assert_eq!(incoming.shelf.entry(&olive).unwrap().sv_reason(), Some("titrated twice"));
    // Two tabs: one changed the value, one the reason. Joined, the reason is not that of the new value.
    let mut base = Shelf::default();
    base.set(&olive, Field::SvLow, "205");
    let (mut mine, mut theirs) = (base.clone(), base.clone());
    mine.set(&olive, Field::SvReason, "titrated twice");
    theirs.set(&olive, Field::SvLow, "291");
    let reason = |shelf: &Shelf| shelf.entry(&olive).unwrap().sv_reason().map(str::to_owned);
    assert_eq!(reason(&mine.joined_since(&base, &theirs)), None);
    assert_eq!(reason(&theirs.joined_since(&base, &mine)), None);
    // One changed the value of what was confirmed, the other the reason.
    let base = mine.clone();
    mine.set(&olive, Field::SvReason, "by the paper of lot 7");
    theirs = base.clone();
    theirs.set(&olive, Field::SvLow, "291");
    assert_eq!(reason(&mine.joined_since(&base, &theirs)), None);
    assert_eq!(reason(&theirs.joined_since(&base, &mine)), None);
}

#[test]
fn value_that_is_impossible_is_refused_all_the_same() {
    let refused = sheet_report(&soap(r#""sv_low":"420","sv_reason":"so it says""#)).unwrap();
    let refused: Value = serde_json::from_str(&refused).unwrap();
    assert!(refused["lye_missing"].as_str().unwrap().contains("420"), "{refused}");
    assert_eq!(NoLye::SvImpossible(hundred_parts::formula::LineId::of(1), Sv::whole(420)).key(), "value-impossible");
}
