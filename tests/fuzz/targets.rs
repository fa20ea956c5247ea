//! One function a reader: it takes any text, must come back soon and without a panic, and checks what must hold of what
//! was read. It tells whether the text was taken, so that the runs show how far they reach.

use hundred_parts::batch::{Tools, adjusters};
use hundred_parts::desk::{
    Backups, BinDays, DocId, Document, DocumentMeta, MemoryJournal, MemoryMirror, OpenDocument, Opened, Persist,
    PhotographFile, RecordDocument, Reopen, Screen, ShelfDocument, Snapshot, State, StoredDocument, collection_text,
    crc32, decode, encode, encode_for_qr, open_document, read_export, stored_shelf,
};
use hundred_parts::desk::{Commit, Journal, LocalMirror, StepsChange};
use hundred_parts::facts::{CsvTable, Field, Hlb, IngredientId, Iv, Months, Sv, fold};
use hundred_parts::formula::{Choice, Formula, PhaseKind, Share};
use hundred_parts::law::{self, Export, Products, judge, read, verdict};
use hundred_parts::quantity::{Celsius, Count, Density, Mass, Parsed, Percent, Ph, Quantity, Timestamp, Typed, Volume};
use hundred_parts::sheet::{LyeDiscount, WaterRatio, composition, totals};
use hundred_parts::shelf::{Shelf, check, read_certificate, read_composition};
use std::task::{Context, Poll, Waker};

/// A link, with whatever stands in it.
pub(crate) fn link(text: &str) -> bool {
    let Ok(incoming) = decode(text) else { return false };
    for document in &incoming.documents {
        let Some(link) = encode(&document.state, &incoming.shelf, true) else { continue };
        let again = decode(&link).expect("a link made here opens");
        assert_eq!(again.documents[0].state.formula, document.state.formula);
        let code = encode_for_qr(&document.state, &incoming.shelf, false);
        assert!(code.is_none_or(|code| decode(&code).is_ok()));
    }
    true
}

/// The document in a link, sealed and packed as a link is: without that nearly no change would get past the checksum.
/// Either version of links, the one in which bytes below 32 stand for words too.
pub(crate) fn link_inside(text: &str) -> bool {
    let (start, words) =
        if text.len().is_multiple_of(2) { ("1.", false) } else { ("2.", text.bytes().any(|byte| byte < 32)) };
    let mut bytes = crc32(text.as_bytes()).to_le_bytes().to_vec();
    bytes.extend(miniz_oxide::deflate::compress_to_vec(text.as_bytes(), 1));
    let packed = data_encoding::BASE64URL_NOPAD.encode(&bytes);
    let inside = decode(&format!("#{start}{packed}"));
    assert!(words || inside.is_ok() == read_export(text).is_ok(), "a link takes what a file takes");
    inside.is_ok()
}

/// A file of the open format: one document, a collection, a shelf.
pub(crate) fn document(text: &str) -> bool {
    match read_export(text) {
        Ok(incoming) => {
            let text = collection_text(incoming.documents.iter(), &incoming.studies, &incoming.shelf);
            let mut file = PhotographFile::default();
            let whole = incoming.photographs.iter().filter_map(|one| Some(file.piece(one.id, one.bytes.as_deref()?)));
            let photographs: String = whole.collect();
            let written = [PhotographFile::head(&text), photographs, file.tail().to_owned()].concat();
            let again = read_export(&written).unwrap_or_else(|problem| panic!("{problem} in {written}"));
            assert_eq!(again.documents, incoming.documents);
            assert_eq!(again.shelf, incoming.shelf);
            assert!(again.photographs.iter().all(|one| incoming.photographs.contains(one)));
            true
        }
        Err(problem) => {
            assert!(problem.to_string().len() < 1000, "a sentence, not a book");
            false
        }
    }
}

/// A step of the history.
pub(crate) fn step(text: &str) -> bool {
    let Some(state) = <State as Snapshot>::read(text) else { return false };
    assert_eq!(State::read(&state.write()).as_ref(), Some(&state));
    true
}

/// What is stored of the shelf.
pub(crate) fn shelf(text: &str) -> bool {
    let stored = StoredDocument::new(meta(), text.to_owned());
    let shelf_document = ShelfDocument::open(&stored, vec![(0, text.to_owned())]).unwrap_or_default();
    let open = OpenDocument::new(DocId::random(1), Document::default(), shelf_document, Timestamp::default());
    assert!(open.shelf().knows(&IngredientId::parse("water").expect("an id")), "the tables stay, whatever was stored");
    stored_shelf(&stored).is_some_and(|shelf| shelf != Shelf::default())
}

/// What is stored of the record of a batch.
pub(crate) fn record(text: &str) -> bool {
    let stored = StoredDocument::new(meta(), text.to_owned());
    let Some(record) = RecordDocument::open(&stored, Vec::new()) else { return false };
    let written = StoredDocument::new(meta(), record.write().body);
    let again = RecordDocument::open(&written, Vec::new()).expect("a record that was written opens");
    assert_eq!(again.body(), record.body(), "nothing that was noted is lost");
    let Ok(read) = record.body().record() else { return false };
    read.ph().is_some_and(|setting| setting.entries.len() == setting.log.events.len())
}

fn meta() -> DocumentMeta {
    DocumentMeta { id: DocId::random(1), revision: 3, title: "T".into(), changed: 0, binned: None, step: 0, crc: 0 }
}

/// An entry of the journal or of the local mirror: a head, or a whole stored document.
pub(crate) fn entry(text: &str) -> bool {
    let stored = DocumentMeta::stored(&DocId::random(1), text);
    assert_eq!(stored.id, DocId::random(1));
    if let Ok(meta) = serde_json::from_str::<DocumentMeta>(text) {
        let days = BinDays::read(text).used(Timestamp::from_millis(i64::MAX), core::slice::from_ref(&meta));
        let _ = (days.over(&meta.id), BinDays::read(&days.write()).used(Timestamp::from_millis(i64::MIN), &[]));
        return true;
    }
    let Ok(stored) = serde_json::from_str::<StoredDocument>(text) else { return false };
    let sealed = stored.sealed();
    assert!(sealed.is_whole());
    let _ = OpenDocument::open(&sealed, Vec::new());
    true
}

fn now<T>(future: impl Future<Output = T>) -> T {
    match std::pin::pin!(future).poll(&mut Context::from_waker(Waker::noop())) {
        Poll::Ready(value) => value,
        Poll::Pending => panic!("a twin in memory waited"),
    }
}

/// A document in journal and local mirror of which either is damaged: it opens, or its bytes are handed back.
pub(crate) fn rescue(text: &str) -> bool {
    let (journal, mirror) = (MemoryJournal::default(), MemoryMirror::default());
    let (body, step) = text.split_once('\n').unwrap_or((text, ""));
    let sealed = body.len() % 2 == 0;
    let mut stored = StoredDocument::new(meta(), body.to_owned());
    if sealed {
        stored = stored.sealed();
    }
    let steps = StepsChange { first: 0, last: 0, put: vec![(0, step.to_owned())] };
    now(journal.commit(&Commit { expected: None, stored: stored.clone(), steps })).expect("a twin takes all");
    if step.len() % 3 == 0 {
        let ahead = StoredDocument::new(DocumentMeta { revision: 4, ..meta() }, step.to_owned());
        let _ = mirror.write(&ahead);
    }
    match now(open_document::<OpenDocument>(&journal, &mirror, &DocId::random(1))) {
        Opened::Whole(_) => true,
        Opened::Rescued(_, bad) | Opened::Newer(bad) | Opened::Lost(bad) => {
            assert!(bad.body == body || bad.body == step, "the bytes are handed back as they were");
            false
        }
        other => panic!("{other:?}"),
    }
}

fn quantity<T: Quantity>(text: &str) -> bool {
    let typed = Typed::<T>::new(text);
    assert_eq!(typed.text(), text, "typed text is never rewritten");
    let same = |value: T| {
        assert!((T::MIN..=T::MAX).contains(&value.units()), "{value:?}");
        assert_eq!(T::from_canonical(&value.canonical()), Ok(value));
        assert_eq!(Typed::new(Typed::of(value).text()).value(), Some(value));
    };
    match typed.reading() {
        Parsed::Value(value) => same(*value),
        Parsed::Ambiguous { decimal, thousands } => {
            decimal.iter().copied().for_each(same);
            same(*thousands);
        }
        Parsed::Empty | Parsed::Unread(_) => {}
    }
    let _ = T::from_canonical(text);
    typed.value().is_some()
}

pub(crate) fn percent(text: &str) -> bool {
    quantity::<Percent>(text) | matches!(Share::read(text), Share::FillUp)
}

pub(crate) fn mass(text: &str) -> bool {
    quantity::<Mass>(text)
}

pub(crate) fn temperature(text: &str) -> bool {
    quantity::<Celsius>(text)
}

/// Every other quantity, of the trade and of the tables.
pub(crate) fn quantities(text: &str) -> bool {
    quantity::<Ph>(text)
        | quantity::<Volume>(text)
        | quantity::<Density>(text)
        | quantity::<Count>(text)
        | quantity::<Hlb>(text)
        | quantity::<Months>(text)
        | quantity::<Sv>(text)
        | quantity::<Iv>(text)
        | quantity::<LyeDiscount>(text)
        | quantity::<WaterRatio>(text)
}

/// A supplier's statement of what is in a material, and a certificate, as pasted.
pub(crate) fn statement(text: &str) -> bool {
    let composition = read_composition(text);
    for item in &composition.items {
        assert!(item.low <= item.high && item.high <= Percent::WHOLE, "{item:?}");
        let _ = item.allergen();
    }
    assert!(composition.unread.iter().all(|line| line.chars().count() <= 200));
    let _ = read_certificate(text);
    !composition.items.is_empty()
}

/// A formula of one line whose ingredient is the maker's own, with a text on its shelf.
fn own(field: Field, text: &str) -> (Formula, Shelf) {
    let mut shelf = Shelf::default();
    let id = shelf.add_own("Quince");
    shelf.set(&id, field, text);
    let mut formula = Formula::default();
    let phase = formula.add_phase(PhaseKind::Oil, String::new(), 0);
    if let Some(line) = formula.add_line(phase, 0).and_then(|line| formula.line_mut(line)) {
        line.choice = Choice::Known(id);
        line.share = Share::Typed(Typed::new("5"));
    }
    (formula, shelf)
}

/// What a bought mixture is made of, as its supplier writes it.
pub(crate) fn components(text: &str) -> bool {
    let (formula, shelf) = own(Field::Components, text);
    let found = composition(&formula, &totals(&formula), &shelf);
    found.most(&|_| true) > Percent::ZERO
}

/// The fatty acids of a laboratory's statement.
pub(crate) fn fatty_acids(text: &str) -> bool {
    let (_, shelf) = own(Field::FattyAcids, text);
    let id = shelf.own_ids().next().cloned().expect("one of the maker's own");
    let fat = shelf.entry(&id).and_then(|entry| entry.fat());
    fat.is_some_and(|fat| {
        let _ = (fat.computed_sv(), fat.computed_iv(), fat.typical_sv(), fat.class());
        fat.triglyceride().is_some()
    })
}

/// Any value of the shelf.
pub(crate) fn shelf_value(text: &str) -> bool {
    Field::ALL.into_iter().filter(|field| check(*field, text).is_ok()).count() > 12
}

/// A CSV table.
pub(crate) fn table(text: &str) -> bool {
    let table = CsvTable::read(text);
    let width = table.header().len();
    let (rows, problems) = table.parse(|row| {
        for column in table.header() {
            row.get(column)?;
        }
        Ok(row.line())
    });
    assert!(problems.iter().all(|problem| !problem.to_string().is_empty()));
    width > 1 && !rows.is_empty()
}

/// An export of an annex: it is refused with a sentence, or every row of it is read and judged.
pub(crate) fn law(text: &str) -> bool {
    let export = match Export::read(text.as_bytes()) {
        Ok(export) => export,
        Err(unusable) => {
            assert!((20..400).contains(&unusable.to_string().len()), "a sentence, not a book: {unusable}");
            return false;
        }
    };
    for entry in &export.entries {
        let reading = read(entry);
        let judgements = judge(&reading, Products::ALL, law::JudgedShare::of(Percent::WHOLE));
        assert!(judgements.iter().all(|judgement| judgement.entry == entry));
        let _ = (verdict(&judgements), reading.extent(), entry.ingredient_names().count());
    }
    true
}

/// What local storage, the address and the clock give: ids, times, preferences.
pub(crate) fn small(text: &str) -> bool {
    let backups = Backups::read(text);
    assert_eq!(Backups::read(&backups.write()), backups);
    let _ = backups.saved(Timestamp::from_millis(0)).due(Timestamp::from_millis(i64::MAX));
    let moment = Timestamp::read(text);
    assert!(moment.is_none_or(|moment| moment.text() == text));
    let id = IngredientId::parse(text);
    assert!(id.as_ref().is_ok_and(|id| id.as_str() == text) || id.is_err());
    let _ = (Screen::at(text), fold(&fold(text)));
    thread_local! { static ADJUSTERS: Vec<hundred_parts::batch::Adjuster> = adjusters(&Shelf::default()); }
    let tools = ADJUSTERS.with(|all| Tools::read(text, all));
    id.is_ok() || moment.is_some() || tools.is_some() || backups != Backups::default()
}

/// Everything that follows from a document that came in: sums, chemistry, findings.
pub(crate) fn derived(text: &str) -> bool {
    let Ok(incoming) = read_export(text) else { return false };
    for document in incoming.documents {
        let shelf_document = ShelfDocument::from(incoming.shelf.clone());
        let _ = OpenDocument::new(DocId::random(1), document, shelf_document, Timestamp::default()).derive();
    }
    true
}
