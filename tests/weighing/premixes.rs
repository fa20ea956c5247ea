//! Premixes come where they are wanted or nothing else helps, and can be made.

use crate::work::*;
use hundred_parts::desk::{Action, DocId, Document, OpenDocument, ShelfDocument, document_text, read_export};
use hundred_parts::quantity::Timestamp;
use hundred_parts::sheet::Premixes;

const FINE: &str = r#"{"mass_g":"100","readability_g":"0.01"}"#;

/// What goes onto the scale is the big figure: 0.05 g of panthenol as 0.5 g of a premix 1 in 10.
///
/// Source: worked by hand with the rule of USP <41>, m ≥ 2 × 0.41 d ÷ 2 %: 0.41 g + 3.69 g.
#[test]
fn what_goes_onto_the_scale_is_the_mass_of_a_line() {
    let sheet = report(&document(&one_phase(&["water fill-up", "panthenol-75 0.05"]), FINE));
    let lines = &sheet["weigh"]["lines"];
    assert_eq!((&lines[0]["mass_g"], &lines[0]["in_the_batch_g"]), (&"99.5".into(), &"99.95".into()));
    assert_eq!((&lines[1]["mass_g"], &lines[1]["in_the_batch_g"]), (&"0.5".into(), &"0.05".into()));
    assert_eq!(lines[1]["on_the_scale_g"], "0.5");
}

/// The worst line is the worst as weighed. Worked: 0.054 g is 0.05 g on the scale, 7.4 % off; of its premix 1 in 10 the
/// portion is 0.54 g, exactly. 0.336 g of citric acid, 0.34 g on the scale, is then the worst by 1.19 %.
#[test]
fn worst_line_is_the_worst_as_weighed() {
    let sheet = report(&document(&one_phase(&["water fill-up", "panthenol-75 0.054", "citric-acid 0.336"]), FINE));
    assert_eq!(sheet["weigh"]["premixes"].as_array().unwrap().len(), 1, "{sheet}");
    assert_eq!(sheet["weigh"]["lines"][1]["rounding_error_percent"], "0");
    assert_eq!(sheet["weigh"]["weighed_furthest_from_its_share"], "citric-acid");
    assert_eq!(sheet["weigh"]["largest_rounding_error_percent"], "1.190476");
}

fn premixes(phases: &[(&str, Vec<String>)], batch: &str) -> Vec<(String, String, i64)> {
    let sheet = report(&document(phases, batch));
    let text = |value: &serde_json::Value| value.as_str().unwrap().to_owned();
    let one = |premix: &serde_json::Value| {
        (text(&premix["ingredient"]), text(&premix["carrier"]), premix["times"].as_i64().unwrap())
    };
    sheet["weigh"]["premixes"].as_array().unwrap().iter().map(one).collect()
}

fn wanted(batch: &str, wish: &str) -> String {
    batch.replace('}', &format!(r#","premixes":"{wish}"}}"#))
}

/// Gums, carbomer, waxes and fatty alcohols get none however small the dose and however much it is wanted; the sheet says
/// from which batch on they can be weighed.
#[test]
fn what_cannot_be_made_is_not_proposed() {
    for (kind, carrier, id) in [
        ("water", "water", "xanthan-gum"),
        ("water", "water", "carbomer"),
        ("water", "glycerin", "guar-gum"),
        ("oil", "mct", "cetyl-alcohol"),
        ("oil", "mct", "beeswax"),
        ("oil", "mct", "shea"),
        ("oil", "mct", "stearic-acid"),
    ] {
        let phases = vec![(kind, vec![format!("{carrier} fill-up"), format!("{id} 0.05")])];
        let batch = wanted(FINE, "wanted");
        assert_eq!(premixes(&phases, &batch), [], "{id}");
        let sheet = report(&document(&phases, &batch));
        assert_eq!(sheet["weigh"]["lines"][1]["weighed_well_from_batch_g"], "820", "0.41 g are 0.05 % of 820 g");
    }
}

/// By itself a premix comes only where the scale cannot weigh the dose to a tenth: 2 × 0.41 d ÷ 10 %, 0.09 g on a scale of
/// 0.01 g.
#[test]
fn premix_comes_by_itself_only_where_the_scale_shows_too_little() {
    let phases = |share: &str| one_phase(&["water fill-up", &format!("niacinamide {share}")]);
    let [plain, all, none] = [FINE.to_owned(), wanted(FINE, "wanted"), wanted(FINE, "none")];
    for (share, by_itself, on_wish) in [("0.08", 1, 1), ("0.09", 0, 1), ("0.4", 0, 1), ("0.41", 0, 0)] {
        assert_eq!(premixes(&phases(share), &plain).len(), by_itself, "{share}");
        assert_eq!(premixes(&phases(share), &all).len(), on_wish, "{share}");
        assert_eq!(premixes(&phases(share), &none).len(), 0, "{share}");
    }
}

/// What is added to the cool emulsion takes nothing out of a phase that was heated before it.
#[test]
fn carrier_comes_from_the_same_phase() {
    let cold = |carrier: &str| {
        vec![
            ("water", vec!["water fill-up".to_owned()]),
            ("cool-down", vec![format!("{carrier} 5"), "panthenol-75 0.05".to_owned()]),
        ]
    };
    assert_eq!(premixes(&cold("glycerin"), FINE), [("panthenol-75".to_owned(), "glycerin".to_owned(), 10)]);
    assert_eq!(premixes(&cold("mct"), FINE), []);
}

/// A premix is no larger than its carrier's line: 1 in 100 of 0.41 g is 41 g.
#[test]
fn premix_is_no_larger_than_its_carrier() {
    let phases = |water: &str| {
        vec![
            ("water", vec![format!("water {water}"), "panthenol-75 0.005".to_owned()]),
            ("oil", vec!["mct fill-up".to_owned()]),
        ]
    };
    assert_eq!(premixes(&phases("41"), FINE).len(), 1);
    assert_eq!(premixes(&phases("40"), FINE), []);
    // Two of them share it.
    let two = vec![
        ("water", vec!["water 81".to_owned(), "panthenol-75 0.005".to_owned(), "niacinamide 0.005".to_owned()]),
        ("oil", vec!["mct fill-up".to_owned()]),
    ];
    assert_eq!(premixes(&two, FINE).len(), 1);
}

/// Hyaluronate goes into water at 1 % and no stronger, also where less dilution would be enough for the scale.
#[test]
fn strength_is_that_of_the_table() {
    let phases = |id: &str| one_phase(&["water fill-up", &format!("{id} 0.08")]);
    assert_eq!(premixes(&phases("panthenol-75"), FINE)[0].2, 10);
    assert_eq!(premixes(&phases("sodium-hyaluronate"), FINE)[0].2, 100);
}

/// What is in hand must do for the whole premix, of which a part stays over.
#[test]
fn premix_needs_what_is_in_hand() {
    let batch = |grams: &str| {
        format!(r#"{{"basis":"in-hand","in_hand":[{{"phase":0,"line":1,"mass_g":"{grams}"}}],"readability_g":"0.01"}}"#)
    };
    let phases = one_phase(&["water fill-up", "panthenol-75 0.05"]);
    assert_eq!(premixes(&phases, &batch("0.06")), [], "0.41 g are not there");
}

#[test]
fn wish_for_premixes_is_kept_exported_and_undone() {
    let now = Timestamp::from_millis(0);
    let mut open = OpenDocument::new(DocId::random(1), Document::default(), ShelfDocument::default(), now);
    let text = |open: &OpenDocument| document_text(open.document(), open.shelf());
    assert!(!text(&open).contains("premixes"), "written only where it says something");
    for wish in [Premixes::Wanted, Premixes::Without] {
        open.act(Action::Premixes(wish), now);
        assert!(
            text(&open).contains(&format!("\"premixes\": \"{}\"", wish.key()))
                || text(&open).contains(&format!("\"premixes\":\"{}\"", wish.key()))
        );
        assert_eq!(read_export(&text(&open)).unwrap().documents[0].state.plan.premixes, wish);
    }
    assert!(open.undo(now) && open.undo(now));
    assert_eq!(open.state().plan.premixes, Premixes::Needed);
    let bad = document(&one_phase(&["water fill-up"]), r#"{"premixes":"maybe"}"#);
    let problem = hundred_parts::report::sheet_report(&bad).unwrap_err().to_string();
    assert!(problem.starts_with("batch.premixes: found \"maybe\", expected one of needed, wanted, none"), "{problem}");
}
