//! The page in a real browser: fields keep what was typed, the journal compares and sets.

use super::browser::{self, IdbJournal};
use super::desk::{Desk, LazyChunk, first_document};
use hundred_parts::desk::{Commit, CommitOutcome, DocId, DocumentMeta, Journal, StepsChange, StoredDocument};
use leptos::prelude::*;
use leptos::task::tick;
use std::time::Duration;
use wasm_bindgen::prelude::Closure;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};
use web_sys::{HtmlElement, HtmlInputElement};

wasm_bindgen_test_configure!(run_in_browser);

/// What the browser refused.
type Outcome<T = ()> = Result<T, JsValue>;

/// Mounts the app in an element of its own, and waits until all lines stand.
async fn mount_app() -> Outcome<HtmlElement> {
    let holder: HtmlElement = document().create_element("div")?.unchecked_into();
    document().body().ok_or("a page without a body")?.append_child(&holder)?;
    super::put_into(holder.clone(), first_document());
    while holder.query_selector(".formula:not(.growing)")?.is_none() {
        browser::pause(Duration::from_millis(20)).await;
    }
    Ok(holder)
}

fn shares(app: &HtmlElement) -> Outcome<Vec<HtmlInputElement>> {
    let found = app.query_selector_all(".share input")?;
    Ok((0..found.length()).filter_map(|n| found.get(n)).map(|node| node.unchecked_into()).collect())
}

/// What a keystroke does: the browser changes the text, then says so.
fn type_into(input: &HtmlInputElement, text: &str) -> Outcome {
    input.set_value(text);
    input.dispatch_event(&web_sys::Event::new("input")?)?;
    Ok(())
}

#[wasm_bindgen_test]
async fn share_half_typed_stays_as_typed_and_the_fill_up_follows() -> Outcome {
    let app = mount_app().await?;
    tick().await;
    for (text, rest) in [("1.", "72.2"), ("1,5", "71.7"), ("1.5x", "73.2"), ("", "73.2")] {
        type_into(&shares(&app)?[1], text)?;
        tick().await;
        let fields = shares(&app)?;
        assert_eq!(fields[1].value(), text);
        assert_eq!(fields[0].value().replace(',', "."), rest, "after {text:?}");
    }
    app.remove();
    Ok(())
}

#[wasm_bindgen_test]
async fn share_caret_stays_in_the_middle_of_the_text() -> Outcome {
    let app = mount_app().await?;
    tick().await;
    let field = shares(&app)?[1].clone();
    field.focus()?;
    field.set_value("12.5");
    field.set_selection_range(2, 2)?;
    field.dispatch_event(&web_sys::Event::new("input")?)?;
    tick().await;
    assert_eq!(field.selection_start()?, Some(2));
    app.remove();
    Ok(())
}

fn commit(id: &DocId, expected: Option<u64>, revision: u64, body: &str) -> Commit {
    let meta =
        DocumentMeta { id: id.clone(), revision, title: "T".into(), changed: 0, binned: None, step: revision, crc: 0 };
    let steps = StepsChange { first: 1, last: revision, put: vec![(revision, body.to_owned())] };
    Commit { expected, stored: StoredDocument::new(meta, body.into()).sealed(), steps }
}

#[wasm_bindgen_test]
async fn journal_compares_and_sets_and_keeps_steps() {
    let journal = IdbJournal::default();
    let id = DocId::random(js_sys::Date::now() as u64);
    assert_eq!(journal.commit(&commit(&id, None, 1, "a")).await, Ok(CommitOutcome::Written));
    assert_eq!(journal.commit(&commit(&id, None, 1, "b")).await, Ok(CommitOutcome::Conflict));
    assert_eq!(journal.commit(&commit(&id, Some(1), 2, "c")).await, Ok(CommitOutcome::Written));
    let stored = journal.read(&id).await;
    assert!(matches!(&stored, Ok(Some(stored)) if stored.is_whole() && stored.body == "c"), "{stored:?}");
    assert_eq!(journal.steps(&id).await, Ok(vec![(1, "a".to_owned()), (2, "c".to_owned())]));
    assert_eq!(journal.remove(&id).await, Ok(()));
    assert_eq!(journal.read(&id).await, Ok(None));
    assert_eq!(journal.steps(&id).await, Ok(Vec::new()));
}

#[wasm_bindgen_test]
async fn task_that_the_lazy_chunk_cannot_run_is_an_error_in_the_log() -> Outcome {
    let console = js_sys::Reflect::get(&js_sys::global(), &"console".into())?;
    let before = js_sys::Reflect::get(&console, &"error".into())?;
    let said = js_sys::Array::new();
    let list = said.clone();
    let note = Closure::<dyn Fn(JsValue)>::new(move |text: JsValue| {
        list.push(&text);
    });
    js_sys::Reflect::set(&console, &"error".into(), note.as_ref())?;
    let broken = LazyChunk { fetch: || Box::pin(async { true }), run: |_, _| false };
    let holder: HtmlElement = document().create_element("div")?.unchecked_into();
    mount_to(holder, move || {
        Desk::start(broken, first_document());
    })
    .forget();
    for _ in 0..100 {
        if said.length() > 1 {
            break;
        }
        browser::pause(Duration::from_millis(20)).await;
    }
    js_sys::Reflect::set(&console, &"error".into(), &before)?;
    let said: Vec<String> = said.iter().filter_map(|text| text.as_string()).collect();
    for task in ["recompute", "tidy"] {
        let expected = ["the lazy chunk could not run: ", task].concat();
        assert!(said.contains(&expected), "{task} is not among {said:?}");
    }
    Ok(())
}
