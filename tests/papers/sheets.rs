//! Safety sheet and bundle: what they hold, whose answers, what differs by region, what is from memory.

use crate::workshop::*;
use hundred_parts::desk::{Action, document_text, read_export};
use hundred_parts::facts::{Field, IngredientId};
use hundred_parts::formula::{Answer, Audience, PaperField, Region};
use hundred_parts::paper::{LABEL_FORMATS, bundle_facts};
use hundred_parts::quantity::{Day, Timestamp};
use hundred_parts::rules::{Grade, KNOWN_TO, Standing, standing};
use hundred_parts::sheet::Trust;
use hundred_parts::words;

/// All three papers as text.
fn papers(made: &Workshop) -> [String; 3] {
    [words::label_paper(&made.label(), LABEL_FORMATS[4]).text(), made.safety(), made.bundle()]
}

#[test]
fn safety_sheet_holds_what_the_sheet_holds() {
    let made = complete().act(Action::Audience(Audience::Pregnant));
    let (sheet, _) = made.derive();
    let text = made.safety();
    for listed in &sheet.label.ingredients {
        assert!(text.contains(&listed.name), "{}", listed.name);
    }
    for expected in [
        "For use in pregnancy: leave-on",
        "Causes severe skin burns and eye damage. (H314)",
        "hot oil",
        "midwife",
        "Stick blender",
        "never clean with chlorine bleach",
        "poison centre",
        words::NO_ASSESSMENT,
        "Rules as known on 2026-08-28",
        "The hazards of ",
    ] {
        assert!(text.contains(expected), "{expected}");
    }
}

#[test]
fn bundle_names_every_section_and_what_is_not_there() {
    let mut made = complete();
    let id = IngredientId::parse("glycerin").unwrap();
    made.shelf.set(&id, Field::Document, "Data sheet of 3 May 2026");
    made.shelf.set(&id, Field::Lot, "G-118");
    let text = made.bundle();
    for expected in [
        "Formula by INCI name",
        "Data sheet of 3 May 2026",
        "G-118",
        "Water phase, 72",
        "5.2 (target)",
        "No challenge test (ISO 11930) is entered.",
        "not assessed",
        "Batch records: none was kept here",
        "It does not say that the product may be sold.",
        "usual range (unverified)",
        words::NO_ASSESSMENT,
    ] {
        assert!(text.contains(expected), "{expected}");
    }
}

/// A substance of several lines is as well known as the least known of them, and inside only if all of it is.
#[test]
fn bundle_takes_the_weakest_of_what_it_sums() {
    let mut made = complete();
    let facts = |made: &Workshop, name: &str| {
        let (sheet, findings) = made.derive();
        let facts = bundle_facts(&made.open.state().formula, &sheet, &findings, &made.shelf);
        facts.substances.into_iter().find(|one| one.name == name).unwrap_or_else(|| panic!("{name}"))
    };
    add(&mut made, "phenoxyethanol", "0.2");
    assert_eq!(facts(&made, "Phenoxyethanol").trust, Trust::Plain);
    let functions = facts(&made, "Phenoxyethanol").functions;
    add(&mut made, "phenoxyethanol-ethylhexylglycerin", "0.3");
    let found = facts(&made, "Phenoxyethanol");
    assert_eq!((found.trust, found.functions), (Trust::Table, functions));
    let scent = IngredientId::parse("lavender-essential-oil").unwrap();
    made.shelf.set(&scent, Field::AllergenStatement, "Geraniol 5");
    add(&mut made, "lavender-essential-oil", "0.2");
    assert!(facts(&made, "Geraniol").inside);
    let own = made.shelf.add_own("Geraniol, pure");
    made.shelf.set(&own, Field::Inci, "Geraniol");
    add(&mut made, own.as_str(), "0.01");
    assert!(!facts(&made, "Geraniol").inside);
}

#[test]
fn papers_never_call_anything_safe() {
    let made = complete();
    for text in [made.safety(), made.bundle(), words::label_paper(&made.label(), LABEL_FORMATS[0]).text()] {
        // Where the word stands, it is denied.
        let text = text.to_lowercase();
        let text = text
            .replace("no test shows that a product is safe.", "")
            .replace("does not say that anything is safe.", "");
        for claim in
            ["is safe.", "is safe,", "certified", "approved", "guarantee", "hypoallergenic", "dermatologically"]
        {
            assert!(!text.contains(claim), "{claim}");
        }
    }
}

/// A Stop is answered with a reason and a name; the answer is kept, shown on paper, undone, and lapses with another value.
#[test]
fn answers_to_stops_are_kept_shown_undone_and_lapse() {
    let now = Timestamp::from_millis(0);
    let mut made = complete();
    add(&mut made, "phenoxyethanol", "1.2");
    let stop = made.derive().1.into_iter().find(|finding| finding.grade == Grade::Stop).unwrap();
    let formula = &made.open.state().formula;
    assert_eq!(standing(&stop, formula), Some(Standing::Open));
    let answer = Answer {
        finding: stop.key(formula),
        value: stop.value().unwrap_or_default(),
        reason: "Rinsed off by the maker after a minute, a test of her own.".into(),
        person: "Ada Reedman".into(),
        day: Day::read("2026-11-25"),
    };
    made.open.act(Action::Answer(Answer { person: String::new(), ..answer.clone() }), now);
    assert!(matches!(standing(&stop, &made.open.state().formula), Some(Standing::Unfinished(_))));
    made.open.act(Action::Answer(answer), now);
    assert!(matches!(standing(&stop, &made.open.state().formula), Some(Standing::Answered(_))));
    let bundle = made.bundle();
    assert!(bundle.contains("Accepted by Ada Reedman, 2026-11-25: Rinsed off by the maker"), "{bundle}");
    // It comes back from a file as it was.
    let text = document_text(made.open.document(), &made.shelf);
    let again = read_export(&text).unwrap();
    assert_eq!(again.documents[0].state.formula.papers, made.open.state().formula.papers);
    // A graver value is another finding.
    let line = made.open.state().formula.phases()[2].lines.last().unwrap().id;
    made.open.act(Action::ShareLine(line, "1.3".into()), now);
    let graver = made
        .derive()
        .1
        .into_iter()
        .find(|finding| finding.key(&made.open.state().formula) == stop.key(&made.open.state().formula))
        .unwrap();
    assert!(matches!(standing(&graver, &made.open.state().formula), Some(Standing::Lapsed(_))));
    assert!(made.open.undo(now) && made.open.undo(now));
    assert_eq!(standing(&stop, &made.open.state().formula), Some(Standing::Open));
}

#[test]
fn papers_texts_survive_export_and_a_link_without_notes_drops_them() {
    let made = complete().act(Action::Region(Region::Gb)).paper(PaperField::WaterActivity, "0,97");
    let again = read_export(&document_text(made.open.document(), &made.shelf)).unwrap();
    let formula = &again.documents[0].state.formula;
    assert_eq!((formula.about.region, &formula.papers), (Region::Gb, &made.open.state().formula.papers));
    let link = |notes| {
        hundred_parts::desk::decode(&hundred_parts::desk::encode(made.open.state(), made.open.shelf(), notes).unwrap())
            .unwrap()
    };
    assert_eq!(link(false).documents[0].state.formula.papers.texts().count(), 0);
    assert_eq!(link(true).documents[0].state.formula.papers, made.open.state().formula.papers);
    let bad = document_text(made.open.document(), &made.shelf).replace("\"batch_code\"", "\"batch_colour\"");
    assert!(read_export(&bad).unwrap_err().to_string().starts_with("formula.papers.batch_colour: found"));
}

#[test]
fn papers_say_up_to_when_the_law_is_known_and_what_differs_where() {
    for region in [Region::Eu, Region::Gb, Region::Us, Region::Elsewhere] {
        for text in papers(&complete().act(Action::Region(region))) {
            assert!(text.contains(&format!("Rules as known on {KNOWN_TO}")), "{region:?}: {text}");
            assert!(text.contains(words::region(region)), "{region:?}: {text}");
            for other in [Region::Gb, Region::Us, Region::Elsewhere] {
                let said = text.contains(words::differs(other).unwrap());
                assert_eq!(said, other == region, "{region:?} {other:?}: {text}");
            }
        }
    }
    // What could not be judged is named once, however often it was found.
    let mut made = complete().act(Action::Region(Region::Us));
    add(&mut made, "lavender-essential-oil", "0.2");
    add(&mut made, "parfum", "0.2");
    assert!(
        made.safety().contains("only in part: annexes, allergens, ph-reach, identity, region."),
        "{}",
        made.safety()
    );
    let elsewhere = words::differs(Region::Elsewhere).unwrap();
    assert!(elsewhere.starts_with("The rules of the place where you sell this or give it away were not checked."));
    assert_eq!(words::differs(Region::Eu), None, "its law is the measure");
}

#[test]
fn papers_show_who_answered_a_stop_and_that_nobody_did() {
    let now = Timestamp::from_millis(0);
    let mut made = complete();
    add(&mut made, "phenoxyethanol", "1.2");
    let stop = made.derive().1.into_iter().find(|finding| finding.grade == Grade::Stop).unwrap();
    let [label, safety, bundle] = papers(&made);
    assert!(label.contains("has not been answered"), "{label}");
    assert!(safety.contains("Not answered yet."), "{safety}");
    assert!(bundle.contains("without an answer"), "{bundle}");
    let answer = Answer {
        finding: stop.key(&made.open.state().formula),
        value: stop.value().unwrap_or_default(),
        reason: "A wash that is neutralised at the basin.".into(),
        person: "Ada Reedman".into(),
        day: Day::read("2026-11-25"),
    };
    made.open.act(Action::Answer(answer), now);
    for text in papers(&made) {
        assert!(text.contains("Accepted by Ada Reedman, 2026-11-25: A wash that is neutralised"), "{text}");
        assert!(text.contains(&words::finding(&stop, &[], words::DecimalSign::Point)), "the Stop itself stays: {text}");
    }
}

/// What was a Stop in an earlier release and advises now: what somebody wrote to it then is not lost.
#[test]
fn an_answer_to_what_advises_now_stays_on_paper() {
    let mut made = complete().act(Action::TargetPh("7.8".into()));
    let wanted = |finding: &hundred_parts::rules::Finding| {
        finding.message() == Some(hundred_parts::rules::MessageId::TooAlkaline)
    };
    let care = made.derive().1.into_iter().find(wanted).unwrap();
    assert_eq!((care.grade, standing(&care, &made.open.state().formula)), (Grade::Care, None), "nobody is asked");
    let answer = Answer {
        finding: care.key(&made.open.state().formula),
        value: care.value().unwrap_or_default(),
        reason: "A soap cream for hands.".into(),
        person: "Ada Reedman".into(),
        day: Day::read("2026-11-25"),
    };
    made.open.act(Action::Answer(answer), Timestamp::from_millis(0));
    assert!(matches!(standing(&care, &made.open.state().formula), Some(Standing::Answered(_))));
    let [label, safety, bundle] = papers(&made);
    for text in [&label, &bundle] {
        assert!(text.contains("Accepted by Ada Reedman, 2026-11-25: A soap cream"), "{text}");
    }
    assert!(!label.contains("has not been answered") && !safety.contains("Not answered yet"));
}

#[test]
fn papers_mark_wordings_and_names_from_memory() {
    let mut made = complete();
    add(&mut made, "retinyl-palmitate", "0.05");
    add(&mut made, "salicylic-acid", "0.1");
    add(&mut made, "beeswax", "0.5");
    let [label, safety, _] = papers(&made);
    // Read in the Official Journal, and from memory.
    let read = "\u{201c}Not to be used for children under 3 years of age.\u{201d}: Regulation (EC) 1223/2009 Annex V";
    let memory = "\u{201c}Contains vitamin A.\u{201d}: not read in the law (unverified).";
    assert!(label.contains(read) && label.contains(memory), "{label}");
    assert!(safety.contains("Contains vitamin A. Consider your daily intake before use. (Wording unverified.)"));
    assert!(safety.contains("Not to be used for children under 3 years of age.\n"), "{safety}");
    let [label, ..] = papers(&made.act(Action::Region(Region::Us)));
    assert!(
        label.contains("\u{201c}Beeswax\u{201d}: not read in the law (unverified)")
            && label.contains("\u{201c}Water\u{201d}: Page of"),
        "{label}"
    );
    assert!(
        !label.contains(
            "Warning\u{2014}The safety of this product has not been determined.\u{201d}: not read in the law"
        )
    );
}

/// Source: 21 CFR 740.10 and the guidance of January 2005, read word for word.
#[test]
fn cautions_have_the_words_of_their_source() {
    use hundred_parts::paper::Caution;
    for caution in Caution::ALL {
        assert!(!words::caution(caution).is_empty(), "{caution:?}");
    }
    assert_eq!(
        words::caution(Caution::NotDetermined),
        "Warning\u{2014}The safety of this product has not been determined."
    );
    assert!(
        words::caution(Caution::Sunburn)
            .starts_with("Sunburn Alert: This product contains an alpha hydroxy acid (AHA)")
    );
}

/// What the command line computes stands on the papers: the list, the allergens, every finding that is not Fine with its
/// source, the shares of the raw materials.
#[test]
fn papers_hold_what_the_report_holds() {
    let mut made = complete();
    add(&mut made, "lavender-essential-oil", "0.5");
    add(&mut made, "phenoxyethanol", "1.2");
    let lavender = IngredientId::parse("lavender-essential-oil").unwrap();
    made.shelf.set(&lavender, Field::AllergenStatement, "Linalool 35 %\nGeraniol 2 %");
    let text = document_text(made.open.document(), &made.shelf);
    let report: serde_json::Value = serde_json::from_str(&hundred_parts::report::sheet_report(&text).unwrap()).unwrap();
    let texts = |value: &serde_json::Value| -> Vec<String> {
        value.as_array().unwrap().iter().map(|one| one.as_str().unwrap().to_owned()).collect()
    };
    let [label, safety, bundle] = papers(&made);
    let list = texts(&report["label"]["ingredients"]).join(", ");
    assert!(list.contains("Linalool") && list.contains("Geraniol"), "{list}");
    for paper in [&label, &safety, &bundle] {
        assert!(paper.contains(&list), "{paper}");
    }
    for missing in texts(&report["label"]["missing"]) {
        assert!(label.contains(&missing), "{missing}");
    }
    for allergen in report["label"]["allergens"].as_array().unwrap() {
        let name = allergen["name"].as_str().unwrap();
        assert_eq!(safety.contains(name), allergen["named"].as_bool().unwrap(), "{name}");
    }
    let (mut open, mut fine) = (0, 0);
    for finding in report["findings"].as_array().unwrap() {
        let [grade, message, source] = ["grade", "message", "source"].map(|key| finding[key].as_str().unwrap());
        if grade == "fine" {
            fine += 1;
            continue;
        }
        open += 1;
        assert!(bundle.contains(message), "{message}");
        assert!(bundle.contains(source.trim_end_matches('.')), "{source}");
        assert!(bundle.contains(finding["verification"].as_str().unwrap()), "{finding}");
        assert_eq!(safety.contains(message), grade == "stop", "{message}");
    }
    assert!(open >= 3 && fine >= 3, "{open} {fine}");
    assert!(bundle.contains(&format!("{fine} more checks found no problem.")));
    for line in report["weigh"]["lines"].as_array().into_iter().flatten() {
        assert!(bundle.contains(line["percent"].as_str().unwrap()), "{line}");
    }
}
