//! Photographs of samples: as entries of a study, in files, beside what is here, and the room that they take.

use crate::made::{begun, day, entry, study};
use data_encoding::{BASE64, HEXLOWER};
use hundred_parts::batch::EntryId;
use hundred_parts::batch::study::{
    ConditionKind, LEFT_FREE, MOST_BYTES, MOST_KEPT, MOST_SIDE, NoRoom, Photograph, PhotographId, PhotographProblem,
    PullPoint, StorageEstimate, Study, StudyEvent, Tally, attempts, has_room,
};
use hundred_parts::desk::{
    CarriedPhotograph, DocId, Incoming, OpenDocument, Orphans, PhotographFile, Preview, RecordBody, ShelfDocument,
    collection_text, demo, named_photographs, photographs_of, read_export,
};
use hundred_parts::quantity::{Day, Timestamp};
use hundred_parts::shelf::Shelf;
use hundred_parts::words::{DecimalSign, photographs as words};
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

const FILE: &str = include_str!("../formats/everything/version-1-photographs.json");

fn incoming() -> Incoming {
    read_export(FILE).unwrap()
}

/// The photograph that the file carries.
fn carried() -> (PhotographId, Vec<u8>) {
    let CarriedPhotograph { id, bytes } = incoming().photographs.remove(0);
    (id, bytes.unwrap().to_vec())
}

/// A picture as a browser writes it, of this size: its head alone is told apart by `n`.
fn photographed(n: u64, condition: ConditionKind, point: &str, on: &str) -> StudyEvent {
    let photograph = Photograph {
        id: PhotographId::of(&n.to_le_bytes()),
        bytes: 100_000,
        width: 1280,
        height: 960,
        caption: String::new(),
    };
    StudyEvent::Photographed { condition, point: PullPoint::parse(point).unwrap(), on: day(on), photograph }
}

#[test]
fn photograph_is_named_by_what_sha256sum_prints() {
    // `printf abc | sha256sum`: the example of FIPS 180-2, appendix B.1 (memory).
    let text = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
    let id = PhotographId::of(b"abc");
    assert_eq!((id.text().as_str(), PhotographId::parse(text)), (text, Some(id)));
    assert_eq!(id.short(), 0xba78_16bf_8f01_cfea);
    for bad in ["", &text[1..], &text.to_uppercase(), &format!("{text}0"), &text.replace("ba", "é")] {
        assert_eq!(PhotographId::parse(bad), None, "{bad}");
    }
}

#[test]
fn photographs_stand_by_condition_and_day_and_stay_when_they_are_crossed_out() {
    let study = study(vec![
        photographed(1, ConditionKind::Warm, "2w", "2026-12-14"),
        photographed(2, ConditionKind::Room, "1m", "2026-12-30"),
        photographed(3, ConditionKind::Room, "0d", "2026-11-30"),
        photographed(4, ConditionKind::Room, "0d", "2026-11-30"),
        StudyEvent::Struck { entry: EntryId::random(4), reason: "Blurred".into() },
    ]);
    let rows: Vec<(ConditionKind, Vec<u64>)> = study
        .photographs_by_condition()
        .into_iter()
        .map(|(kind, row)| {
            let number = |id: &PhotographId| (1..=4u64).find(|n| PhotographId::of(&n.to_le_bytes()) == *id).unwrap();
            (kind, row.iter().map(|one| number(&one.photograph.id)).collect())
        })
        .collect();
    assert_eq!(rows, [(ConditionKind::Room, vec![3, 4, 2]), (ConditionKind::Warm, vec![1])]);
    let struck: Vec<_> = study.photographs.iter().filter_map(|one| one.struck.as_deref()).collect();
    assert_eq!(struck, ["Blurred"]);
    assert!(study.seen.is_empty(), "a photograph alone is no look at a sample");
    let captions: Vec<String> = study.photographs.iter().map(words::alternative).collect();
    assert_eq!(captions[2], "Room, month 1, 30 December 2026");
    assert!(captions[0].ends_with(", crossed out") || captions[1].ends_with(", crossed out"), "{captions:?}");
}

#[test]
fn file_of_a_release_with_photographs_opens_and_is_written_with_its_number() {
    let incoming = incoming();
    assert_eq!((incoming.documents.len(), incoming.studies.len(), incoming.refused.len()), (0, 1, 0));
    let study = Study::of(&incoming.studies[0].study().unwrap()).unwrap();
    let [fresh, struck] = study.photographs.as_slice() else { panic!("{:?}", study.photographs) };
    assert_eq!((words::caption(fresh).as_str(), &fresh.struck), ("Fresh, smooth and pale", &None));
    assert_eq!(words::caption(struck), "Warm, week 2, 14 December 2026");
    assert_eq!(struck.struck.as_deref(), Some("Wrong jar"));
    let (id, bytes) = carried();
    assert!(fresh.photograph.is_of(&bytes) && fresh.photograph.id == id);
    // Written again, piece by piece, it is the same and other programs read it.
    let text = collection_text([].iter(), &incoming.studies, &incoming.shelf);
    let mut file = PhotographFile::default();
    let again = [PhotographFile::head(&text), file.piece(id, &bytes), file.tail().to_owned()].concat();
    let value: serde_json::Value = serde_json::from_str(&again).unwrap();
    assert_eq!(value["additions"], 8, "an older tab leaves it alone");
    assert_eq!(BASE64.decode(value["photographs"][0]["data"].as_str().unwrap().as_bytes()).unwrap(), bytes);
    assert_eq!(read_export(&again).unwrap(), incoming);
    let none = [PhotographFile::head(&text), PhotographFile::default().tail().to_owned()].concat();
    assert_eq!(none, text, "no file changes without one");
}

#[test]
fn preview_tells_new_here_damaged_and_missing_apart() {
    let (id, bytes) = carried();
    let told = |text: &str, here: &[(PhotographId, usize)]| {
        let preview = Preview::new(read_export(text).unwrap(), &[], &Shelf::default()).beside_photographs(here, None);
        let found = preview.photographs.clone();
        let numbers = [found.new, found.here, found.damaged, found.missing].map(|tally| tally.number);
        (numbers, preview.wanted().photographs.len(), words::incoming(&found, DecimalSign::Point).join("\n"))
    };
    let (numbers, taken, said) = told(FILE, &[]);
    assert_eq!((numbers, taken), ([1, 0, 0, 1], 1));
    assert!(said.contains("1 photograph, 0.1\u{202f}MB \u{2013} new") && said.contains("not in this file"), "{said}");
    assert_eq!((told(FILE, &[(id, bytes.len())]).0, told(FILE, &[(id, bytes.len())]).1), ([0, 1, 0, 1], 0));
    // One flipped bit of the data, or another picture under its name.
    let data = BASE64.encode(&bytes);
    for at in [300, 700, 1000] {
        let mut flipped = data.clone().into_bytes();
        flipped[at] = if flipped[at] == b'A' { b'B' } else { b'A' };
        let flipped = FILE.replace(&data, std::str::from_utf8(&flipped).unwrap());
        assert_ne!(flipped, FILE);
        let (numbers, taken, said) = told(&flipped, &[]);
        assert_eq!((numbers, taken), ([0, 0, 1, 1], 0), "byte {at}");
        assert!(said.contains("damaged in the file"), "{said}");
        assert_eq!(told(&flipped, &[(id, bytes.len())]).0, [0, 1, 0, 1], "here it is whole");
    }
}

#[test]
fn photograph_with_camera_data_is_not_taken_from_a_file() {
    let (_, bytes) = carried();
    let mut exif = bytes[..2].to_vec();
    exif.extend([0xff, 0xe1, 0, 14]);
    exif.extend(b"Exif\0\0GPS 59");
    exif.extend(&bytes[2..]);
    assert_eq!(Photograph::of(&exif, String::new()), Err(PhotographProblem::MoreThanPicture));
    let (old, new) = (carried().0.text(), PhotographId::of(&exif).text());
    let text = FILE.replace(&old, &new).replace(&BASE64.encode(&bytes), &BASE64.encode(&exif));
    assert_eq!(read_export(&text).unwrap().photographs[0].bytes, None);
    assert_eq!(Photograph::of(b"GIF89a", String::new()), Err(PhotographProblem::NotJpeg));
    assert_eq!(
        Photograph::of(&vec![0; MOST_BYTES + 1], String::new()),
        Err(PhotographProblem::TooManyBytes(MOST_BYTES + 1))
    );
    // The width in the head of the frame of the file that the release wrote.
    let mut wide = bytes;
    let frame = wide.windows(2).position(|pair| pair == [0xff, 0xc0]).unwrap();
    wide[frame + 7..frame + 9].copy_from_slice(&1281u16.to_be_bytes());
    assert_eq!(Photograph::of(&wide, String::new()), Err(PhotographProblem::TooLarge(1281, 12)));
}

#[test]
fn hostile_file_is_refused_with_a_sentence() {
    let digest = carried().0.text();
    for (from, to, path) in [
        ("\"photographs\": [", "\"photographs\": 7, \"else\": [", "photographs"),
        (&*format!("[\n   {{\"sha256\": \"{digest}\""), "[\n   {\"sha256\": \"x\"", "photographs[0].sha256"),
        ("\"data\"", "\"dada\"", "photographs[0].data"),
    ] {
        let text = FILE.replacen(from, to, 1);
        assert_ne!(text, FILE, "{from}");
        let problem = read_export(&text).unwrap_err();
        assert!(problem.path.ends_with(path), "{problem}");
    }
    for (from, to, path) in [
        ("\"bytes\": 780", "\"bytes\": 0", "bytes"),
        ("\"width\": 16", "\"width\": 1281", "width"),
        ("\"height\": 12", "\"height\": -1", "height"),
        ("image/jpeg\", \"bytes\"", "image/svg+xml\", \"bytes\"", "type"),
    ] {
        let text = FILE.replacen(from, to, 1);
        assert_ne!(text, FILE, "{from}");
        let refused = read_export(&text).unwrap().refused;
        assert_eq!(refused.len(), 1, "{to}");
        assert!(refused[0].path.ends_with(&format!("entries[1].{path}")), "{}", refused[0]);
    }
    // More than a tablet could read back: refused before anything of it is decoded.
    let one = format!("{{\"sha256\": \"{digest}\", \"data\": \"{}\"}},", "A".repeat(4_000_000));
    let text = FILE.replacen("\"photographs\": [", &format!("\"photographs\": [{}", one.repeat(22)), 1);
    let problem = read_export(&text).unwrap_err().to_string();
    assert!(problem.contains("64 MB") && problem.len() < 300, "{problem}");
}

#[test]
fn study_names_its_photographs_and_is_written_with_their_number() {
    let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), Timestamp::from_millis(0));
    assert!(open.begin_study(DocId::study(7), &entry(1, begun())));
    assert!(open.note_study(&entry(2, photographed(1, ConditionKind::Room, "0d", "2026-11-30"))));
    let body: RecordBody = open.open_study().unwrap().body().clone();
    let names: Vec<_> = photographs_of(&body).collect();
    assert_eq!(names, [(PhotographId::of(&1u64.to_le_bytes()), 100_000)]);
    let text = collection_text([].iter(), std::slice::from_ref(&body), &Shelf::default());
    assert!(text.contains("\"additions\": 8"));
    let broken = text.replace("\"point\": \"0d\"", "\"point\": \"0x\"");
    assert_eq!(read_export(&broken).unwrap().refused.len(), 1, "{broken}");
    assert_eq!(named_photographs([&body, &body]).len(), 1);
}

#[test]
fn room_is_refused_before_the_storage_is_full() {
    let estimate = |free: u64| Some(StorageEstimate { used: 5_000_000, quota: 5_000_000 + free });
    let none = Tally::default();
    let enough = LEFT_FREE + 150_000;
    assert_eq!(has_room(150_000, none, estimate(enough)), Ok(()));
    let no = NoRoom::Browser { needs: enough, free: enough - 1 };
    assert_eq!(has_room(150_000, none, estimate(enough - 1)), Err(no));
    let over = Some(StorageEstimate { used: 9, quota: 1 });
    assert_eq!(has_room(1, none, over), Err(NoRoom::Browser { needs: LEFT_FREE + 1, free: 0 }));
    assert_eq!(has_room(150_000, none, None), Ok(()), "only the write shows");
    let kept = Tally { number: 700, bytes: MOST_KEPT - 150_000 };
    assert_eq!(has_room(150_000, kept, None), Ok(()));
    assert_eq!(has_room(150_001, kept, estimate(enough * 9)), Err(NoRoom::Most { needs: 150_001, kept }));
    let said = words::no_room(NoRoom::Browser { needs: enough, free: 0 }, DecimalSign::Comma);
    assert!(said.contains("has no storage free") && said.contains("10,2\u{202f}MB"), "{said}");
}

#[test]
fn orphan_goes_on_a_later_day_and_never_while_a_study_names_it() {
    let ids: Vec<PhotographId> = (1..=3u64).map(|n| PhotographId::of(&n.to_le_bytes())).collect();
    let named: BTreeMap<PhotographId, usize> = [(ids[0], 1)].into();
    let none = BTreeSet::new();
    let today = day("2026-11-30");
    let (remove, known) = Orphans::default().look(&ids, &named, &none, today);
    assert_eq!(remove, [], "another tab may be between a photograph and its entry");
    let known = Orphans::read(&known.write());
    assert_eq!(known.look(&ids, &named, &none, today).0, [], "still the same day");
    let (remove, left) = known.look(&ids, &named, &none, today.plus_days(1));
    assert_eq!(remove, [ids[1], ids[2]]);
    assert_eq!(left.look(&ids[..1], &named, &none, today.plus_days(2)).0, []);
    // What was named in between waits anew.
    let all: BTreeMap<PhotographId, usize> = ids.iter().map(|id| (*id, 1)).collect();
    let (_, known) = known.look(&ids, &all, &none, today.plus_days(1));
    assert_eq!(known.look(&ids, &named, &none, today.plus_days(2)).0, []);
    // Of a study that has left the bin for good; what another one names stays.
    let left = ids.iter().copied().collect();
    assert_eq!(Orphans::default().look(&ids, &named, &left, today).0, [ids[1], ids[2]]);
    assert_eq!(Orphans::read("what is this 7:8"), Orphans::default());
}

proptest! {
    /// Nothing is enlarged, nothing is longer than it may be, the proportion stays, and each attempt asks for no more.
    #[test]
    fn attempts_fit_and_become_smaller(width in 1u32..20_000, height in 1u32..20_000) {
        let all: Vec<(u32, u32, u8)> = attempts(width, height).collect();
        for (wide, high, quality) in &all {
            prop_assert!(*wide <= width && *high <= height && wide.max(high) <= &MOST_SIDE && wide.min(high) >= &1);
            prop_assert!((1..=100).contains(quality));
            let (across, down) = (u64::from(*wide) * u64::from(height), u64::from(*high) * u64::from(width));
            prop_assert!(across.abs_diff(down) <= u64::from(width.max(height)), "{wide} {high}");
        }
        for pair in all.windows(2) {
            let area = |(wide, high, quality): (u32, u32, u8)| (u64::from(wide) * u64::from(high), quality);
            prop_assert!(area(pair[1]) <= area(pair[0]), "{pair:?}");
        }
    }

    /// Whatever is left out of a file or comes twice in it: each name is in one group, and nothing unnamed is taken.
    #[test]
    fn each_named_photograph_is_told_once(have in prop::collection::vec((0u64..6, any::<bool>()), 0..8), here in prop::collection::vec(0u64..6, 0..4)) {
        let id = |n: &u64| PhotographId::of(&n.to_le_bytes());
        let mut open = OpenDocument::new(DocId::random(1), demo(), ShelfDocument::default(), Timestamp::from_millis(0));
        open.begin_study(DocId::study(7), &entry(1, begun()));
        for n in 0..4 {
            open.note_study(&entry(n + 2, photographed(n, ConditionKind::Room, "0d", "2026-11-30")));
        }
        let photographs: BTreeMap<PhotographId, bool> = have.iter().map(|(n, whole)| (id(n), *whole)).collect();
        let photographs: Vec<CarriedPhotograph> = photographs
            .into_iter()
            .map(|(id, whole)| CarriedPhotograph { id, bytes: whole.then(|| [7u8].as_slice().into()) })
            .collect();
        let studies = vec![open.open_study().unwrap().body().clone()];
        let incoming = Incoming { documents: Vec::new(), studies, photographs, shelf: Shelf::default(), refused: Vec::new() };
        let here: Vec<(PhotographId, usize)> = here.iter().map(|n| (id(n), 1)).collect();
        let preview = Preview::new(incoming, &[], &Shelf::default()).beside_photographs(&here, None);
        let found = &preview.photographs;
        prop_assert_eq!(found.new.number + found.here.number + found.damaged.number + found.missing.number, 4);
        let taken = preview.wanted().photographs;
        prop_assert_eq!(taken.len(), found.new.number);
        prop_assert!(taken.iter().all(|one| (0..4).any(|n| id(&n) == one.id) && here.iter().all(|(known, _)| *known != one.id)));
    }

    /// What a tab marks another one reads.
    #[test]
    fn orphans_are_read_as_they_were_written(ids in prop::collection::btree_map(any::<u64>(), 0i64..30_000, 0..5)) {
        let none = BTreeMap::new();
        let known = ids.iter().fold(Orphans::default(), |known, (n, day)| {
            let kept: Vec<PhotographId> = ids.keys().take_while(|other| *other <= n).map(|n| PhotographId::of(&n.to_le_bytes())).collect();
            known.look(&kept, &none, &BTreeSet::new(), Day::from_number(*day)).1
        });
        prop_assert_eq!(&Orphans::read(&known.write()), &known);
        prop_assert!(known.write().split(' ').all(|part| part.is_empty() || HEXLOWER.decode(&part.as_bytes()[..64]).is_ok()));
    }
}
