//! Every paper of every starting point.

use hundred_parts::desk::{DocId, OpenDocument, ShelfDocument, StartingPoint, starting_points};
use hundred_parts::formula::{Papers, Use};
use hundred_parts::paper::{LABEL_FORMATS, Which};
use hundred_parts::quantity::Timestamp;
use hundred_parts::words;

fn opened(point: &StartingPoint) -> OpenDocument {
    let (document, now) = (point.document.clone(), Timestamp::from_millis(0));
    OpenDocument::new(DocId::random(1), document, ShelfDocument::default(), now)
}

#[test]
fn starting_points_have_all_their_papers() {
    for point in starting_points() {
        let open = opened(&point);
        let (formula, derived) = (&open.state().formula, open.derive());
        for which in Which::ALL {
            for format in LABEL_FORMATS {
                let paper = words::paper(which, format, &open, &derived);
                let expected = match which {
                    Which::Lye => formula.about.purpose == Use::Soap,
                    Which::Record => false,
                    _ => true,
                };
                assert_eq!(paper.is_ok(), expected, "{}: {which:?}", point.key);
                assert!(paper.is_ok_and(|paper| !paper.text().is_empty()) || !expected, "{}: {which:?}", point.key);
            }
        }
    }
}

#[test]
fn safety_sheet_of_a_starting_point_knows_the_hazards_of_its_surfactants() {
    let point = starting_points().into_iter().find(|point| point.key == "cleanser").unwrap();
    let (open, which) = (opened(&point), Which::Safety);
    let text = words::paper(which, LABEL_FORMATS[0], &open, &open.derive()).unwrap().text();
    for surfactant in ["Coco-glucoside", "Cocamidopropyl betaine"] {
        assert!(text.contains(surfactant), "{text}");
    }
    assert!(text.contains("Causes serious eye damage. (H318)"), "{text}");
}

/// What was invented for everybody says nothing of one maker.
#[test]
fn starting_points_bring_no_text_for_the_papers() {
    for point in starting_points() {
        let texts = &point.document.state.formula.papers;
        assert_eq!(*texts, Papers::default(), "{}", point.key);
    }
}
