//! Starting points: what the checks say of them, on their own plans and with an empty shelf.

use crate::made::{key, shown};
use hundred_parts::desk::{Derived, DocId, OpenDocument, ShelfDocument, StartingPoint, starting_points};
use hundred_parts::formula::Use;
use hundred_parts::quantity::{Percent, Quantity, Timestamp};
use hundred_parts::rules::{Finding, Grade};
use hundred_parts::sheet::{Dose, Works};

/// A Care that no formula can be without: which, of which ingredient, and why it may stay.
const MAY_STAY: [(&str, &str, &str); 2] = [
    ("rich-cream", "origin-open", "tocopherol comes from soy or sunflower, and only its supplier says from which"),
    ("balm", "origin-open", "tocopherol comes from soy or sunflower, and only its supplier says from which"),
];

fn opened(point: &StartingPoint) -> OpenDocument {
    let (document, now) = (point.document.clone(), Timestamp::from_millis(0));
    OpenDocument::new(DocId::random(1), document, ShelfDocument::default(), now)
}

/// Each with what follows from it.
fn each() -> Vec<(StartingPoint, OpenDocument, Derived)> {
    let all = starting_points().into_iter().map(|point| {
        let open = opened(&point);
        let derived = open.derive();
        (point, open, derived)
    });
    all.collect()
}

fn of_grade(derived: &Derived, grade: Grade) -> Vec<&Finding> {
    derived.findings.iter().filter(|finding| finding.grade == grade).collect()
}

#[test]
fn starting_points_sum_to_a_hundred_with_a_line_that_fills_up() {
    for (point, open, derived) in each() {
        assert!(derived.sheet.totals.complete() && derived.sheet.totals.is_whole(), "{}", point.key);
        assert_eq!(derived.sheet.totals.total, Percent::from_canonical("100").unwrap(), "{}", point.key);
        assert!(open.state().formula.fill_up().is_some(), "{}", point.key);
    }
}

#[test]
fn starting_points_are_weighed_by_their_own_plans() {
    for (point, open, derived) in each() {
        let sheet = derived.sheet.weigh.as_ref().unwrap_or_else(|why| panic!("{}: {why:?}", point.key));
        let lines: usize = open.state().formula.phases().iter().map(|phase| phase.lines.len()).sum();
        assert_eq!(sheet.lines.len(), lines, "{}", point.key);
    }
}

#[test]
fn starting_points_have_no_stop_and_no_care_of_their_own() {
    let mut cares = Vec::new();
    for (point, _, derived) in each() {
        assert!(of_grade(&derived, Grade::Stop).is_empty(), "{}: {:#?}", point.key, shown(&derived.findings));
        cares.extend(of_grade(&derived, Grade::Care).into_iter().map(|finding| (point.key.clone(), key(finding))));
    }
    assert_eq!(cares, MAY_STAY.map(|(point, said, _)| (point.to_owned(), said)));
}

/// What only a supplier, the words of the law or a reading of the batch can settle.
#[test]
fn what_is_unknown_of_starting_points_is_for_others_to_say() {
    for (point, _, derived) in each() {
        for finding in of_grade(&derived, Grade::Unknown) {
            let known = ["no-document", "annexes-open", "base-too-much"].contains(&key(finding));
            assert!(known, "{}: {:#?}", point.key, shown(&derived.findings));
        }
    }
}

#[test]
fn starting_points_with_water_and_oil_have_an_emulsifier_of_a_usual_dose() {
    for (point, _, derived) in each() {
        let dose = derived.sheet.emulsion.as_ref().and_then(|emulsion| emulsion.dose);
        let expected = ["light-lotion", "rich-cream", "gel-cream"].contains(&&*point.key).then_some(Dose::Good);
        assert_eq!(dose, expected, "{}", point.key);
    }
}

#[test]
fn starting_points_with_water_are_preserved_against_everything_at_their_ph() {
    for (point, open, derived) in each() {
        let about = &open.state().formula.about;
        let says =
            |said: &str| derived.findings.iter().any(|finding| key(finding) == said && finding.grade == Grade::Fine);
        let Some(target) = about.target_ph.value() else {
            assert!(["balm", "bar-soap"].contains(&&*point.key) && says("no-water"), "{}", point.key);
            continue;
        };
        assert!(says("preserved") && says("spectrum-broad"), "{}: {:#?}", point.key, shown(&derived.findings));
        let preservation = derived.sheet.preservation.as_ref().unwrap();
        assert!(preservation.agents.iter().all(|agent| agent.works == Works::Yes), "{}", point.key);
        let window = &derived.sheet.window;
        assert!(window.meeting.is_ok() && window.against(target).is_empty(), "{}: {window:?}", point.key);
    }
}

#[test]
fn soap_among_the_starting_points_has_its_lye_with_a_discount_at_every_saponification_value() {
    for (point, open, derived) in each() {
        assert_eq!(derived.sheet.lye.is_some(), open.state().formula.about.purpose == Use::Soap, "{}", point.key);
        let Some(lye) = derived.sheet.lye else { continue };
        let lye = lye.unwrap();
        let percent = |text: &str| Percent::from_canonical(text).unwrap();
        assert!((percent("5")..=percent("8")).contains(&lye.discount) && lye.margins.low >= percent("5"), "{lye:#?}");
        assert!(lye.notes.is_empty() && !open.state().lye.no_margin.is_given(), "{lye:#?}");
    }
}

/// The shares that a maker looks at first: what each kind of product is.
#[test]
fn starting_points_are_what_they_are_called() {
    let oil = |wanted: &str| {
        let (_, _, derived) = each().into_iter().find(|(point, ..)| point.key == wanted).unwrap();
        derived.sheet.emulsion.map(|emulsion| emulsion.oil.canonical())
    };
    assert_eq!(oil("light-lotion").as_deref(), Some("10"));
    assert_eq!(oil("gel-cream").as_deref(), Some("10"));
    assert_eq!(oil("rich-cream").as_deref(), Some("18.8"));
    let cold = starting_points().into_iter().find(|point| point.key == "gel-cream").unwrap();
    assert!(cold.document.state.formula.phases().iter().all(|phase| phase.heat.is_empty()), "made cold");
}
