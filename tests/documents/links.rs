//! Links: what goes out comes in again, and nothing from outside breaks anything.

use crate::work::{action, worked_on};
use hundred_parts::desk::{
    Action, DocId, Document, LinkProblem, OpenDocument, ShelfAction, ShelfDocument, Snapshot, collection_text, crc32,
    decode, demo, document_text, encode, encode_for_qr, read_export,
};
use hundred_parts::facts::{Field, IngredientId};
use hundred_parts::quantity::Timestamp;
use hundred_parts::sheet::{CostField, CostTexts, PlanField};
use hundred_parts::shelf::Shelf;
use proptest::prelude::*;

proptest! {
    #[test]
    fn link_brings_the_same_formula(steps in prop::collection::vec(action(), 0..30)) {
        let open = worked_on(steps);
        for fragment in [encode(open.state(), open.shelf(), true).unwrap(), encode_for_qr(open.state(), open.shelf(), true).unwrap()] {
            let incoming = decode(&fragment).map_err(|problem| TestCaseError::fail(format!("{problem:?}")))?;
            // All but what it costs.
            let mut state = open.state().clone();
            state.plan.costs = CostTexts::default();
            let plain = read_export(&document_text(&Document { state, ..Document::default() }, &Shelf::default()));
            let plain = plain.map_err(|problem| TestCaseError::fail(problem.to_string()))?;
            prop_assert_eq!(incoming.documents[0].state.write(), plain.documents[0].state.write());
        }
    }

    #[test]
    fn any_text_into_the_link_decoder_gives_a_value_or_an_error(text in "\\PC{0,200}") {
        let _ = decode(&text);
        let _ = decode(&format!("#1.{text}"));
    }

    #[test]
    fn any_bytes_in_a_link_give_a_value_or_an_error(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        let _ = decode(&format!("#1.{}", data_encoding::BASE64URL_NOPAD.encode(&bytes)));
        // With a right checksum the bytes reach the reader itself.
        let mut whole = crc32(&bytes).to_le_bytes().to_vec();
        whole.extend(miniz_oxide::deflate::compress_to_vec(&bytes, 6));
        let _ = decode(&format!("#1.{}", data_encoding::BASE64URL_NOPAD.encode(&whole)));
    }
}

#[test]
fn link_cut_anywhere_is_refused() {
    let whole = encode(&demo().state, &Shelf::default(), false).unwrap();
    for end in 3..whole.len() - 1 {
        assert!(decode(&whole[..end]).is_err(), "cut at {end}");
    }
    assert!(matches!(decode("#3.AAAA"), Err(LinkProblem::Newer)));
    assert!(matches!(decode("#/batch"), Err(LinkProblem::NotALink)));
}

#[test]
fn link_of_a_bomb_is_refused() {
    let zeros = vec![0u8; 10_000_000];
    let mut bytes = crc32(&zeros).to_le_bytes().to_vec();
    bytes.extend(miniz_oxide::deflate::compress_to_vec(&zeros, 9));
    assert!(matches!(
        decode(&format!("1.{}", data_encoding::BASE64URL_NOPAD.encode(&bytes))),
        Err(LinkProblem::Damaged)
    ));
}

/// Source: RFC 4648 section 5 (the URL-safe alphabet) and RFC 1951 (raw deflate): the link is taken apart here with the
/// standard's parts alone.
#[test]
fn link_is_base64url_of_a_checksum_and_raw_deflate() {
    let link = encode(&demo().state, &Shelf::default(), false).unwrap();
    let body = link.strip_prefix("2.").unwrap();
    assert!(body.bytes().all(|b| b.is_ascii_alphanumeric() || b == b'-' || b == b'_'), "RFC 4648 section 5");
    let bytes = data_encoding::BASE64URL_NOPAD.decode(body.as_bytes()).unwrap();
    let text = miniz_oxide::inflate::decompress_to_vec(&bytes[4..]).unwrap();
    assert_eq!(crc32(&text).to_le_bytes(), bytes[..4]);
}

/// Twenty lines of the longest names are the worst that a maker writes.
#[test]
fn criterion_16_a_formula_of_twenty_lines_makes_a_short_link() {
    let now = Timestamp::from_millis(0);
    let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now);
    let phase = open.state().formula.phases()[1].id;
    for (id, share) in [
        ("jojoba", "2.5"),
        ("squalane", "2"),
        ("propanediol", "1.5"),
        ("allantoin", "0.3"),
        ("niacinamide", "2"),
        ("urea", "3"),
    ] {
        open.act(Action::AddLine(phase, 0), now);
        let line = open.state().formula.phases()[1].lines[0].id;
        open.act(Action::ChooseLine(line, IngredientId::parse(id).unwrap()), now);
        open.act(Action::ShareLine(line, share.into()), now);
    }
    assert_eq!(open.state().formula.lines().count(), 20);
    let link = encode(open.state(), open.shelf(), false).unwrap();
    println!(
        "twenty lines: {} characters, {} for a QR code",
        link.len(),
        encode_for_qr(open.state(), open.shelf(), false).unwrap().len()
    );
    // The rest of 700 is for the address of the page.
    assert!(link.len() <= 600, "{} characters", link.len());
    assert_eq!(decode(&link).unwrap().documents[0].state.formula.lines().count(), 20);
}

#[test]
fn criterion_18_a_link_has_names_of_own_ingredients_and_nothing_else_of_the_shelf() {
    let now = Timestamp::from_millis(0);
    let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), now);
    let id = open.act_on_shelf(ShelfAction::Add("Quince seed oil".into()), now).unwrap();
    for (field, text) in
        [(Field::Inci, "Cydonia Seed Oil"), (Field::Lot, "SECRET-LOT"), (Field::Document, "SECRET-SUPPLIER")]
    {
        open.act_on_shelf(ShelfAction::Set(id.clone(), field, text.into()), now);
    }
    open.act_on_shelf(ShelfAction::Add("Not in the formula".into()), now);
    let line = open.state().formula.lines().nth(4).unwrap().1.id;
    open.act(Action::ChooseLine(line, id.clone()), now);
    open.act(Action::Notes("SECRET-NOTE".into()), now);
    open.act(Action::PlanText(PlanField::Cost(CostField::Pack), "SECRET-COST".into()), now);
    open.act_on_shelf(ShelfAction::Set(id.clone(), Field::Price, "SECRET-PRICE".into()), now);
    open.act(Action::NoteLine(line, "SECRET-LINE-NOTE".into()), now);
    for (with_notes, secrets) in [(false, 0), (true, 2)] {
        let incoming = decode(&encode(open.state(), open.shelf(), with_notes).unwrap())
            .expect("a link with an own ingredient opens elsewhere");
        assert_eq!(incoming.shelf.entry(&id).unwrap().inci().unwrap().value, "Cydonia Seed Oil");
        assert_eq!(incoming.shelf.own_ids().count(), 1);
        let all = collection_text(incoming.documents.iter(), &[], &incoming.shelf);
        assert_eq!(all.matches("SECRET").count(), secrets, "{all}");
    }
}

/// Links live in mails and on jars: each version that was ever made opens for ever.
#[test]
fn criterion_12_released_links_open() {
    for (link, lines) in [
        (include_str!("../formats/link-1.txt"), 2),
        (include_str!("../formats/link-1q.txt"), 2),
        (include_str!("../formats/link-2.txt"), 14),
    ] {
        let incoming = decode(link.trim()).unwrap();
        assert_eq!(incoming.documents[0].state.formula.lines().count(), lines, "{link}");
    }
}
