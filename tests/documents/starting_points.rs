//! Starting points as documents of their own: in files, in links, and apart from each other.

use hundred_parts::desk::{
    Action, DocId, OpenDocument, ShelfDocument, Snapshot, decode, demo, document_text, encode, encode_for_qr,
    read_export, starting_points,
};
use hundred_parts::quantity::Timestamp;
use hundred_parts::shelf::Shelf;

#[test]
fn starting_points_come_back_from_a_file_as_they_were() {
    for point in starting_points() {
        let incoming = read_export(&document_text(&point.document, &Shelf::default())).unwrap();
        assert!(incoming.refused.is_empty() && incoming.documents.len() == 1, "{}", point.key);
        assert_eq!(incoming.documents[0].state.write(), point.document.state.write(), "{}", point.key);
        assert!(incoming.documents[0].versions.is_empty() && incoming.documents[0].batches.is_empty());
    }
}

#[test]
fn starting_points_come_back_from_a_link_and_a_qr_code() {
    for point in starting_points() {
        let state = &point.document.state;
        let shelf = Shelf::default();
        for link in [encode(state, &shelf, true).unwrap(), encode_for_qr(state, &shelf, true).unwrap()] {
            assert_eq!(decode(&link).unwrap().documents[0].state.write(), state.write(), "{}", point.key);
        }
        assert!(encode(state, &shelf, false).unwrap().len() <= 600, "{}", point.key);
    }
}

#[test]
fn document_made_from_a_starting_point_is_its_own() {
    let now = Timestamp::from_millis(0);
    for (n, point) in starting_points().into_iter().enumerate() {
        let before = point.document.clone();
        let mut open = OpenDocument::new(DocId::random(1), point.document, ShelfDocument::default(), now);
        let line = open.state().formula.lines().next().unwrap().1.id;
        open.act(Action::Title("Mine".into()), now);
        open.act(Action::ShareLine(line, "1".into()), now);
        assert!(open.undo(now) && open.undo(now) && open.state().write() == before.state.write());
        assert_eq!(starting_points()[n].document, before);
    }
}

#[test]
fn starting_points_have_titles_of_their_own() {
    let mut titles: Vec<String> =
        starting_points().into_iter().map(|point| point.document.state.formula.about.title).collect();
    titles.push(demo().state.formula.about.title);
    let all = titles.len();
    titles.sort();
    titles.dedup();
    assert!(titles.len() == all && titles.iter().all(|title| !title.is_empty()), "{titles:?}");
}
