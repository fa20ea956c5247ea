//! The journal in IndexedDB: three stores, one transaction a call.
//!
//! `heads` and `bodies` are keyed by document id, `steps` by id and number. Heads are JSON text, so that a list of all
//! documents never reads a body. Notes lie among the bodies under names of their own, where no list looks: a store of their
//! own would be another version of the database, which no tab of an earlier release could open.
//!
//! A browser may never answer. What is not answered in time counts as failed, and for a while nothing more is asked.

use super::{clock, may_write};
use hundred_parts::desk::{Commit, CommitOutcome, DocId, DocumentMeta, Journal, StoreError, StoredDocument};
use js_sys::{Array, Function, Promise, Reflect};
use std::cell::{Cell, RefCell};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{IdbDatabase, IdbFactory, IdbKeyRange, IdbObjectStore, IdbRequest, IdbTransaction, IdbTransactionMode};

const NAME: &str = "hundred-parts";
const HEADS: &str = "heads";
const BODIES: &str = "bodies";
const STEPS: &str = "steps";
const NOTE: &str = "note.";

/// How long an answer may take, in milliseconds.
const PATIENCE: i32 = 3000;
/// How long nothing is asked after an answer that did not come, in milliseconds.
const SILENCE: f64 = 15_000.0;

pub(super) type IdbResult<T> = Result<T, StoreError>;

pub(super) fn failed(error: JsValue) -> StoreError {
    let text = error.dyn_ref::<js_sys::Error>().map(|error| String::from(error.message()));
    StoreError(text.unwrap_or_else(|| "the browser gave no reason".to_owned()))
}

/// The open database, opened at first use.
#[derive(Default)]
pub(crate) struct IdbJournal {
    database: RefCell<Option<IdbDatabase>>,
    newer: Cell<bool>,
}

thread_local! {
    /// Until then nothing is asked, by the browser's clock.
    static SILENT_UNTIL: Cell<f64> = const { Cell::new(0.0) };
}

/// Waits for what the browser promised, but not for ever.
async fn answer(promise: Promise) -> Result<JsValue, JsValue> {
    let late = Promise::new(&mut |_, reject| {
        let window = web_sys::window();
        let _ = window.map(|window| window.set_timeout_with_callback_and_timeout_and_arguments_0(&reject, PATIENCE));
    });
    let answer = JsFuture::from(Promise::race(&Array::of2(&promise, &late))).await;
    // Nothing but the timer gives no reason at all.
    if answer.as_ref().is_err_and(JsValue::is_undefined) {
        SILENT_UNTIL.set(clock() + SILENCE);
    }
    answer
}

impl IdbJournal {
    /// True if a newer version of the program has changed the shape of the journal itself.
    pub(crate) fn is_newer(&self) -> bool {
        self.newer.get()
    }

    async fn open(&self) -> IdbResult<IdbDatabase> {
        if let Some(database) = self.database.borrow().clone() {
            return Ok(database);
        }
        let mut database = self.open_anew().await?;
        if database.object_store_names().length() == 0 {
            // Something else made it, such as a page that only looked whether it is there. There is nothing in it to lose.
            database.close();
            let request = factory()?.delete_database(NAME).map_err(failed)?;
            done(&request).await?;
            database = self.open_anew().await?;
        }
        *self.database.borrow_mut() = Some(database.clone());
        Ok(database)
    }

    async fn open_anew(&self) -> IdbResult<IdbDatabase> {
        let request = factory()?.open_with_u32(NAME, 1).map_err(failed)?;
        let asked = request.clone();
        // Handed over to the browser: it may come to it after nobody waits any more.
        let upgrade = Closure::once_into_js(move || {
            let database = asked.result().ok().and_then(|result| result.dyn_into::<IdbDatabase>().ok());
            for (database, store) in
                database.iter().flat_map(|database| [HEADS, BODIES, STEPS].map(|name| (database, name)))
            {
                let _ = database.create_object_store(store);
            }
        });
        request.set_onupgradeneeded(Some(upgrade.unchecked_ref()));
        let opened = done(&request).await;
        self.newer.set(request.error().ok().flatten().is_some_and(|error| error.name() == "VersionError"));
        let database: IdbDatabase = opened?.dyn_into().map_err(failed)?;
        // Another version of the page may upgrade: this one then stops writing instead of blocking it.
        let close = database.clone();
        let stop = Closure::<dyn Fn()>::new(move || close.close());
        database.set_onversionchange(Some(stop.as_ref().unchecked_ref()));
        stop.forget();
        Ok(database)
    }

    async fn begin(&self, mode: IdbTransactionMode) -> IdbResult<Transaction> {
        if clock() < SILENT_UNTIL.get() {
            return Err(no_answer());
        }
        let stores = Array::of3(&HEADS.into(), &BODIES.into(), &STEPS.into());
        let of = |database: IdbDatabase| begun(&database, &stores, mode);
        let transaction = match of(self.open().await?) {
            Ok(transaction) => transaction,
            Err(_) => {
                // The browser closed it by itself, as it does when it clears what is stored: opened anew, once.
                self.database.take();
                of(self.open().await?)?
            }
        };
        let store = |name| transaction.object_store(name).map_err(failed);
        Ok(Transaction { metas: store(HEADS)?, bodies: store(BODIES)?, steps: store(STEPS)?, transaction })
    }

    async fn all_metas(&self) -> IdbResult<Vec<DocumentMeta>> {
        let transaction = self.begin(IdbTransactionMode::Readonly).await?;
        let keys: Array = done(&transaction.metas.get_all_keys().map_err(failed)?).await?.into();
        let texts: Array = done(&transaction.metas.get_all().map_err(failed)?).await?.into();
        let meta = |(key, text): (JsValue, JsValue)| {
            Some(DocumentMeta::stored(&DocId::from(key.as_string()?), &text.as_string().unwrap_or_default()))
        };
        Ok(keys.iter().zip(texts.iter()).filter_map(meta).collect())
    }

    async fn whole(&self, id: &DocId) -> IdbResult<Option<StoredDocument>> {
        let transaction = self.begin(IdbTransactionMode::Readonly).await?;
        let Some(meta) = transaction.meta(id).await? else { return Ok(None) };
        let body = done(&transaction.bodies.get(&id.as_str().into()).map_err(failed)?).await?;
        // A body that is missing is damage too.
        Ok(Some(StoredDocument::new(meta, body.as_string().unwrap_or_default())))
    }

    async fn all_steps(&self, id: &DocId) -> IdbResult<Vec<(u64, String)>> {
        let transaction = self.begin(IdbTransactionMode::Readonly).await?;
        let range = range(id, 0.0, f64::MAX)?;
        let keys: Array = done(&transaction.steps.get_all_keys_with_key(&range).map_err(failed)?).await?.into();
        let texts: Array = done(&transaction.steps.get_all_with_key(&range).map_err(failed)?).await?.into();
        let number = |key: JsValue| Array::from(&key).get(1).as_f64().map(|number| number as u64);
        Ok(keys.iter().zip(texts.iter()).filter_map(|(key, text)| Some((number(key)?, text.as_string()?))).collect())
    }

    /// Writes all, if each is of the revision that it expects; none, if one is not.
    async fn write(&self, commits: &[Commit]) -> IdbResult<CommitOutcome> {
        let transaction = self.begin(IdbTransactionMode::Readwrite).await?;
        for commit in commits {
            if transaction.meta(&commit.stored.meta.id).await?.map(|meta| meta.revision) != commit.expected {
                let _ = transaction.transaction.abort();
                return Ok(CommitOutcome::Conflict);
            }
        }
        if let Err(error) = commits.iter().try_for_each(|commit| transaction.put(commit)) {
            // What was put so far would be committed all the same.
            let _ = transaction.transaction.abort();
            return Err(error);
        }
        transaction.end().await?;
        Ok(CommitOutcome::Written)
    }

    async fn write_note(&self, name: &str, text: &str) -> IdbResult<()> {
        let transaction = self.begin(IdbTransactionMode::Readwrite).await?;
        transaction.bodies.put_with_key(&text.into(), &note_key(name)).map_err(failed)?;
        transaction.end().await
    }

    async fn read_note(&self, name: &str) -> IdbResult<Option<String>> {
        let transaction = self.begin(IdbTransactionMode::Readonly).await?;
        Ok(done(&transaction.bodies.get(&note_key(name)).map_err(failed)?).await?.as_string())
    }

    async fn delete(&self, id: &DocId) -> IdbResult<()> {
        let transaction = self.begin(IdbTransactionMode::Readwrite).await?;
        let key = JsValue::from_str(id.as_str());
        transaction.metas.delete(&key).map_err(failed)?;
        transaction.bodies.delete(&key).map_err(failed)?;
        transaction.cut_steps(id, 0.0, f64::MAX)?;
        transaction.end().await
    }
}

/// A transaction on some stores of a database.
pub(super) fn begun(database: &IdbDatabase, stores: &Array, mode: IdbTransactionMode) -> IdbResult<IdbTransaction> {
    // What is called saved is on the disk, not on its way there: it outlives a power cut. Browsers that do not know the
    // option pass it over.
    let options = js_sys::Object::new();
    Reflect::set(&options, &"durability".into(), &"strict".into()).map_err(failed)?;
    // `web-sys` knows the method with its options only behind a flag for all that builds on it.
    let begin = Reflect::get(database, &"transaction".into()).and_then(|begin| begin.dyn_into::<Function>());
    let begun = begin.and_then(|begin| begin.call3(database, stores, &mode.into(), &options));
    begun.and_then(|begun| begun.dyn_into()).map_err(failed)
}

fn no_answer() -> StoreError {
    StoreError("its store does not answer".to_owned())
}

fn note_key(name: &str) -> JsValue {
    format!("{NOTE}{name}").into()
}

pub(super) fn factory() -> IdbResult<IdbFactory> {
    let factory = web_sys::window().and_then(|window| window.indexed_db().ok().flatten());
    factory.ok_or(StoreError("no IndexedDB".to_owned()))
}

struct Transaction {
    transaction: IdbTransaction,
    metas: IdbObjectStore,
    bodies: IdbObjectStore,
    steps: IdbObjectStore,
}

impl Transaction {
    /// Waits until everything of it is committed.
    async fn end(self) -> IdbResult<()> {
        ended(&self.transaction).await
    }

    async fn meta(&self, id: &DocId) -> IdbResult<Option<DocumentMeta>> {
        let text = done(&self.metas.get(&id.as_str().into()).map_err(failed)?).await?;
        Ok(text.as_string().map(|text| DocumentMeta::stored(id, &text)))
    }

    fn put(&self, commit: &Commit) -> IdbResult<()> {
        let meta = &commit.stored.meta;
        let key = JsValue::from_str(meta.id.as_str());
        let text = serde_json::to_string(meta).map_err(|error| StoreError(error.to_string()))?;
        self.metas.put_with_key(&text.into(), &key).map_err(failed)?;
        self.bodies.put_with_key(&commit.stored.body.as_str().into(), &key).map_err(failed)?;
        let steps = &commit.steps;
        if steps.first > 0 {
            self.cut_steps(&meta.id, 0.0, steps.first as f64 - 1.0)?;
        }
        self.cut_steps(&meta.id, steps.last as f64 + 1.0, f64::MAX)?;
        for (number, text) in &steps.put {
            self.steps.put_with_key(&text.as_str().into(), &step_key(&meta.id, *number as f64)).map_err(failed)?;
        }
        Ok(())
    }

    fn cut_steps(&self, id: &DocId, from: f64, to: f64) -> IdbResult<()> {
        self.steps.delete(&range(id, from, to)?).map_err(failed)?;
        Ok(())
    }
}

/// Waits until everything of a transaction is committed.
pub(super) async fn ended(transaction: &IdbTransaction) -> IdbResult<()> {
    let promise = Promise::new(&mut |resolve, reject| {
        transaction.set_oncomplete(Some(&resolve));
        transaction.set_onabort(Some(&reject));
        transaction.set_onerror(Some(&reject));
    });
    let ended = answer(promise).await;
    let reason = transaction.error().map(|error| StoreError(error.message()));
    ended.map(|_| ()).map_err(|_| reason.unwrap_or_else(no_answer))
}

fn step_key(id: &DocId, number: f64) -> JsValue {
    Array::of2(&id.as_str().into(), &number.into()).into()
}

fn range(id: &DocId, from: f64, to: f64) -> IdbResult<JsValue> {
    IdbKeyRange::bound(&step_key(id, from), &step_key(id, to)).map(JsValue::from).map_err(failed)
}

/// The result of a request.
pub(super) async fn done(request: &IdbRequest) -> IdbResult<JsValue> {
    let promise = Promise::new(&mut |resolve, reject| {
        request.set_onsuccess(Some(&resolve));
        request.set_onerror(Some(&reject));
    });
    match answer(promise).await {
        Ok(_) => request.result().map_err(failed),
        // Of a request without an answer there is no error to be had.
        Err(_) => Err(request.error().ok().flatten().map_or_else(no_answer, |error| StoreError(error.message()))),
    }
}

impl Journal for IdbJournal {
    async fn metas(&self) -> IdbResult<Vec<DocumentMeta>> {
        self.all_metas().await
    }

    async fn read(&self, id: &DocId) -> IdbResult<Option<StoredDocument>> {
        self.whole(id).await
    }

    async fn steps(&self, id: &DocId) -> IdbResult<Vec<(u64, String)>> {
        self.all_steps(id).await
    }

    async fn commit(&self, commit: &Commit) -> IdbResult<CommitOutcome> {
        may_write()?;
        self.write(core::slice::from_ref(commit)).await
    }

    async fn commit_new(&self, commits: &[Commit]) -> IdbResult<()> {
        may_write()?;
        match self.write(commits).await? {
            CommitOutcome::Written => Ok(()),
            CommitOutcome::Conflict => Err(StoreError("an id was taken".to_owned())),
        }
    }

    async fn remove(&self, id: &DocId) -> IdbResult<()> {
        may_write()?;
        self.delete(id).await
    }

    async fn note(&self, name: &str) -> IdbResult<Option<String>> {
        self.read_note(name).await
    }

    async fn set_note(&self, name: &str, text: &str) -> IdbResult<()> {
        may_write()?;
        self.write_note(name, text).await
    }
}
