//! No capped line is weighed above its cap, and what the scale makes of a formula is judged.

use crate::work::*;
use hundred_parts::quantity::Quantity;
use hundred_parts::rules::Grade;
use hundred_parts::words;

fn masses(lines: &[&str], batch: &str) -> Vec<String> {
    let sheet = report(&document(&one_phase(lines), batch));
    let lines = sheet["weigh"]["lines"].as_array().unwrap_or_else(|| panic!("{sheet}"));
    lines.iter().map(|line| line["mass_g"].as_str().unwrap().to_owned()).collect()
}

/// Source: Regulation (EC) 1223/2009 Annex V entries 3, 13, 29, 34. Worked: 187.4 g in steps of 0.1 g: 0.937, 1.1244, 1.874
/// and 1.874 g go down to 0.9, 1.1, 1.8 and 1.8 g, 0.2094 g together, and water takes 181.5906 g and two steps.
#[test]
fn fill_up_line_takes_as_many_steps_as_the_caps_need_and_says_so() {
    let lines =
        ["water fill-up", "salicylic-acid 0.5", "dehydroacetic-acid 0.6", "phenoxyethanol 1", "benzyl-alcohol 1"];
    let batch = r#"{"mass_g":"187.4","readability_g":"0.1"}"#;
    assert_eq!(masses(&lines, batch), ["181.8", "0.9", "1.1", "1.8", "1.8"]);
    let sheet = report(&document(&one_phase(&lines), batch));
    assert_eq!(sheet["weigh"]["lines"][0]["takes_steps"], 2);
    let worked = work(&document(&one_phase(&lines), batch));
    let paper = hundred_parts::paper::weigh_facts(&worked.formula, worked.weighed(), &worked.shelf);
    let style = words::SheetStyle {
        unit: hundred_parts::quantity::MassUnit::Gram,
        sign: words::DecimalSign::Point,
        step: paper.step,
    };
    let said = words::rounding_of(&paper.blocks[0].rows[0], style).unwrap();
    assert!(said.starts_with("Takes 2 steps of the scale more (0.2\u{202f}g)"), "{said}");
}

/// Worked: a third each of three capped lines of 100 g in steps of 1 g: someone has to take the gram that is left.
#[test]
fn cap_that_cannot_be_kept_is_named() {
    let lines = ["phenoxyethanol 33.3", "benzyl-alcohol 33.3", "salicylic-acid 33.4"];
    // So much is far over every cap whichever way it is rounded; small shares beside a capped rest are what this is about.
    assert_eq!(masses(&lines, r#"{"mass_g":"100","readability_g":"1"}"#), ["33", "33", "34"]);
    let lines = ["sodium-benzoate-potassium-sorbate 98.5", "salicylic-acid 0.5", "phenoxyethanol 1"];
    let worked = work(&document(&one_phase(&lines), r#"{"mass_g":"150","readability_g":"1"}"#));
    let weighed = worked.weighed();
    let raised: Vec<&str> = weighed.raised.iter().map(|line| worked.id(*line)).collect();
    // 147.75 g, 0.75 g and 1.5 g: a gram and a gram are left over.
    assert_eq!(raised, ["sodium-benzoate-potassium-sorbate", "salicylic-acid"]);
    let sheet = report(&document(&one_phase(&lines), r#"{"mass_g":"150","readability_g":"1"}"#));
    assert_eq!(sheet["weigh"]["lines"][1]["rounded_up_without_room"], true);
    let finding = worked.find("above-cap").unwrap();
    assert_eq!(finding.grade, Grade::Stop, "{finding:?}");
    let text = words::finding(finding, &[], words::DecimalSign::Point);
    assert!(text.contains("0.666667\u{202f}%") && text.contains("in steps of 1\u{202f}g"), "{text}");
    assert!(text.contains("Use a finer scale, or make a line without a maximum the fill-up line"), "{text}");
}

/// Source: worked by hand: 0.9 % of 57 g is 0.513 g; a scale with steps of 1 g would make 1.75 % or nothing of it.
#[test]
fn preservative_that_weighs_nothing_does_not_preserve() {
    let lines = ["water fill-up", "glycerin 5", "phenoxyethanol 0.9", "xanthan-gum 0.3"];
    let fine = work(&document(&one_phase(&lines), r#"{"mass_g":"1000","readability_g":"0.1"}"#));
    assert!(fine.find("preserved").is_some() && fine.find("within-maximum").is_some());
    let coarse = work(&document(&one_phase(&lines), r#"{"mass_g":"57","readability_g":"1"}"#));
    let finding = coarse.find("unpreserved").unwrap();
    assert_eq!(finding.grade, Grade::Stop);
    assert!(finding.detail.remedies.is_empty(), "the formula is not at fault");
    let text = words::finding(finding, &[], words::DecimalSign::Point);
    // 41 steps of 2 × 0.41 d ÷ 2 % at 0.9 %: 41 g ÷ 0.009.
    assert!(
        text.contains("in steps of 1\u{202f}g") && text.contains("make a batch of 4556\u{202f}g or more"),
        "{text}"
    );
    for well in ["preserved", "within-maximum", "near-maximum"] {
        assert!(coarse.find(well).is_none(), "{well}");
    }
    let small = coarse
        .findings
        .iter()
        .find(|finding| finding.rule == "too-small-for-the-scale" && coarse.id(finding.lines[0]) == "phenoxyethanol");
    let text = words::finding(small.unwrap(), &["Phenoxyethanol".to_owned()], words::DecimalSign::Point);
    assert!(text.contains("0.513\u{202f}g") && text.contains("comes out as nothing"), "{text}");
    let agent = &coarse.sheet.preservation.as_ref().unwrap().agents[0];
    assert_eq!(agent.works, hundred_parts::sheet::Works::TooLittle);
}

/// A step up that would carry an ingredient over the most that its maker typed is not taken either.
#[test]
fn most_of_the_shelf_is_kept_by_every_line() {
    // Source: the table: xanthan gum up to 1 %. 1 % of 455 g is 4.55 g.
    assert_eq!(masses(&["water 99", "xanthan-gum 1"], r#"{"mass_g":"455","readability_g":"0.1"}"#), ["450.5", "4.5"]);
    assert_eq!(
        masses(&["xanthan-gum 1", "water fill-up"], r#"{"mass_g":"455","readability_g":"0.1"}"#),
        ["4.5", "450.5"]
    );
}

/// Typed and weighed are both judged: what is over its cap as typed stays a Stop though it is rounded down to the cap.
#[test]
fn typed_share_over_its_cap_stays_a_stop() {
    let lines = ["water fill-up", "phenoxyethanol 1.01"];
    let worked = work(&document(&one_phase(&lines), r#"{"mass_g":"100","readability_g":"0.1"}"#));
    let line = worked.weighed().lines[1].line;
    assert_eq!(worked.weighed().line(line).unwrap().on_scale.canonical(), "1");
    let finding = worked.find("above-maximum").unwrap();
    assert_eq!((finding.grade, finding.detail.on_the_scale), (Grade::Stop, None));
    assert!(worked.find("within-maximum").is_none());
}
