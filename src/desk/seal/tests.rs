//! A seal holds through files, joins and corrections, and nothing else.

use super::*;
use crate::batch::is_after_seals;
use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use serde_json::json;

/// A batch with every kind of entry, as an export has it, but for the seal that was made up there.
fn whole() -> RecordBody {
    let file: Value = serde_json::from_str(include_str!("../../../tests/formats/version-1-methods.json")).unwrap();
    let mut record = file["records"][0].clone();
    record["entries"].as_array_mut().unwrap().pop();
    RecordBody::read(&record).unwrap()
}

fn at(minute: u32) -> Timestamp {
    Timestamp::read(&format!("2026-11-29T10:{minute:02}:00Z")).unwrap()
}

fn note(body: &mut RecordBody, id: u64, minute: u32, event: Event) {
    let entry = BatchEntry { id: EntryId::random(id), at: at(minute), event };
    assert!(body.append(entry_value(&entry).unwrap().0));
}

fn close(body: &mut RecordBody, id: u64, minute: u32) {
    let event = seal(body, &EntryId::random(id), at(minute)).expect("something to seal");
    note(body, id, minute, event);
}

fn sealed() -> RecordBody {
    let mut body = whole();
    close(&mut body, 1, 30);
    body
}

fn states(body: &RecordBody) -> Vec<SealState> {
    check(body).into_iter().map(|seal| seal.state).collect()
}

fn changed(change: impl FnOnce(&mut Value)) -> Vec<SealState> {
    let mut value = sealed().value();
    change(&mut value);
    states(&RecordBody::read(&value).unwrap())
}

#[test]
fn seal_holds_through_files_and_is_about_every_entry() {
    let body = sealed();
    assert_eq!(states(&body), [SealState::Intact]);
    assert_eq!(check(&body)[0].covers.len() + 1, body.len());
    let text = body.value().to_string();
    let again = RecordBody::read(&serde_json::from_str(&text).unwrap()).unwrap();
    assert_eq!((states(&again), again.value().to_string()), (vec![SealState::Intact], text));
    assert!(again.record().is_ok());
}

// Worked with `printf 'hundred-parts record 1\n\n{"at":"2026-11-29T10:01:00Z","event":"remark","id":"a","text":"Thin."}\nb\n2026-11-29T10:02:00Z\na\n' | sha256sum`.
#[test]
fn digest_is_that_of_the_lines_which_anyone_can_hash() {
    let entry = json!({"id": "a", "at": "2026-11-29T10:01:00Z", "event": "remark", "text": "Thin."});
    let body = RecordBody::read(&json!({"entries": [entry]})).unwrap();
    let Some(Event::Sealed { digest, .. }) = seal(&body, &EntryId::parse("b").unwrap(), at(2)) else { panic!() };
    assert_eq!(digest, "833090dba9fa43ccf845e8cfa484550273308e7aac503612ab0daa9f30edcb9b");
}

#[test]
fn every_change_of_what_was_closed_is_seen() {
    assert_eq!(changed(|_| {}), [SealState::Intact]);
    assert_eq!(changed(|value| value["entries"][3]["actual_g"] = "426.6".into()), [SealState::Changed], "an entry");
    assert_eq!(changed(|value| value["made_from"]["batch_g"] = "619".into()), [SealState::Changed], "the formula");
    let gone = |value: &mut Value| drop(value.as_object_mut().unwrap().remove("made_from"));
    assert_eq!(changed(gone), [SealState::Changed], "no formula");
    let missing = |value: &mut Value| drop(value["entries"].as_array_mut().unwrap().remove(20));
    assert_eq!(changed(missing), [SealState::Changed], "an entry less");
    assert_eq!(changed(|value| value["entries"].as_array_mut().unwrap().swap(16, 17)), [SealState::Changed], "order");
    let late = |value: &mut Value| {
        let entries = value["entries"].as_array_mut().unwrap();
        let last = entries.len() - 1;
        entries.swap(last - 1, last);
    };
    assert_eq!(changed(late), [SealState::Changed], "moved behind the seal");
    let shorter = |value: &mut Value| {
        let last = value["entries"].as_array().unwrap().len() - 1;
        drop(value["entries"][last]["entries"].as_array_mut().unwrap().pop());
    };
    assert_eq!(changed(shorter), [SealState::Changed], "what it is about");
}

#[test]
fn correction_comes_after_the_seal_and_can_be_sealed_in_its_turn() {
    let mut body = sealed();
    assert_eq!(seal(&body, &EntryId::random(2), at(31)), None, "nothing new");
    let first = check(&body).remove(0).covers.remove(0);
    note(&mut body, 2, 31, Event::Struck { entry: first, reason: "Wrong code".into() });
    let seals = check(&body);
    assert_eq!(states(&body), [SealState::Intact]);
    assert!(is_after_seals(&seals, &EntryId::random(2)) && !is_after_seals(&seals, &EntryId::random(1)));
    assert_eq!(seal(&body, &EntryId::random(2), at(32)), None, "an id that is taken");
    close(&mut body, 3, 32);
    assert_eq!(states(&body), [SealState::Intact; 2]);
    assert!(!is_after_seals(&check(&body), &EntryId::random(2)));
    assert_eq!(seal(&RecordBody::default(), &EntryId::random(1), at(1)), None, "nothing was noted");
}

#[test]
fn seals_of_two_tabs_hold_when_their_records_are_joined() {
    let (mut here, mut there) = (whole(), whole());
    // By its clock the other tab noted this before the seal, and had not heard of that.
    note(&mut there, 7, 29, Event::Remark { text: "Lid was loose.".into() });
    close(&mut here, 1, 30);
    close(&mut there, 8, 33);
    for (mine, other) in [(here.clone(), &there), (there.clone(), &here)] {
        let mut joined = mine;
        joined.join(other);
        assert_eq!(states(&joined), [SealState::Intact; 2]);
    }
    let mut joined = sealed();
    let mut other = whole();
    note(&mut other, 7, 29, Event::Remark { text: "Lid was loose.".into() });
    joined.join(&other);
    assert!(is_after_seals(&check(&joined), &EntryId::random(7)), "shown as not under the seal");
}

/// One byte of the record's text is another one: the text cannot be read any more, or the seal says so.
#[test]
fn ten_thousand_mutations_of_a_byte_are_all_seen() {
    let text = sealed().value().to_string().into_bytes();
    let length = text.len();
    let mut runner =
        TestRunner::new_with_rng(Config::with_cases(10_000), TestRng::deterministic_rng(RngAlgorithm::ChaCha));
    let any = (0..length, any::<u8>());
    let result = runner.run(&any, |(place, byte)| {
        let mut text = text.clone();
        prop_assume!(text[place] != byte);
        text[place] = byte;
        let Ok(value) = serde_json::from_slice::<Value>(&text) else { return Ok(()) };
        let Some(body) = RecordBody::read(&value) else { return Ok(()) };
        let seen = body.record().is_err() || states(&body) == [SealState::Changed];
        prop_assert!(seen, "{place}: {}", String::from_utf8_lossy(&text));
        Ok(())
    });
    result.unwrap();
}
