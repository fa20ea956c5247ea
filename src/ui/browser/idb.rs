//! The journal in IndexedDB: three stores, one transaction a call.
//!
//! `heads` and `bodies` are keyed by document id, `steps` by id and number. Heads are JSON text, so that a list of all
//! documents never reads a body.

use super::may_write;
use hundred_parts::desk::{Commit, DocId, Head, Journal, Slot, StoreError, Verdict};
use js_sys::{Array, Promise};
use std::cell::{Cell, RefCell};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{IdbDatabase, IdbFactory, IdbKeyRange, IdbObjectStore, IdbRequest, IdbTransaction, IdbTransactionMode};

const NAME: &str = "hundred-parts";
const HEADS: &str = "heads";
const BODIES: &str = "bodies";
const STEPS: &str = "steps";

type Stored<T> = Result<T, StoreError>;

fn failed(error: JsValue) -> StoreError {
    let text = error.dyn_ref::<js_sys::Error>().map(|error| String::from(error.message()));
    StoreError(text.unwrap_or_else(|| "the browser gave no reason".to_owned()))
}

/// The open database, opened at first use.
#[derive(Default)]
pub(crate) struct IdbJournal {
    database: RefCell<Option<IdbDatabase>>,
    newer: Cell<bool>,
}

impl IdbJournal {
    /// True if a newer version of the program has changed the shape of the journal itself.
    pub(crate) fn is_newer(&self) -> bool {
        self.newer.get()
    }

    async fn open(&self) -> Stored<IdbDatabase> {
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

    async fn open_anew(&self) -> Stored<IdbDatabase> {
        let request = factory()?.open_with_u32(NAME, 1).map_err(failed)?;
        let upgrade = {
            let request = request.clone();
            Closure::once(move || {
                let Some(database) = request.result().ok().and_then(|result| result.dyn_into::<IdbDatabase>().ok())
                else {
                    return;
                };
                for store in [HEADS, BODIES, STEPS] {
                    let _ = database.create_object_store(store);
                }
            })
        };
        request.set_onupgradeneeded(Some(upgrade.as_ref().unchecked_ref()));
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

    async fn begin(&self, mode: IdbTransactionMode) -> Stored<Transaction> {
        let stores = Array::of3(&HEADS.into(), &BODIES.into(), &STEPS.into());
        let of = |database: IdbDatabase| database.transaction_with_str_sequence_and_mode(&stores, mode).map_err(failed);
        let transaction = match of(self.open().await?) {
            Ok(transaction) => transaction,
            Err(_) => {
                // The browser closed it by itself, as it does when it clears what is stored: opened anew, once.
                self.database.take();
                of(self.open().await?)?
            }
        };
        let store = |name| transaction.object_store(name).map_err(failed);
        Ok(Transaction { heads: store(HEADS)?, bodies: store(BODIES)?, steps: store(STEPS)?, transaction })
    }
}

fn factory() -> Stored<IdbFactory> {
    let factory = web_sys::window().and_then(|window| window.indexed_db().ok().flatten());
    factory.ok_or(StoreError("no IndexedDB".to_owned()))
}

struct Transaction {
    transaction: IdbTransaction,
    heads: IdbObjectStore,
    bodies: IdbObjectStore,
    steps: IdbObjectStore,
}

impl Transaction {
    /// Waits until everything of it is committed.
    async fn end(self) -> Stored<()> {
        let transaction = self.transaction;
        let promise = Promise::new(&mut |resolve, reject| {
            transaction.set_oncomplete(Some(&resolve));
            transaction.set_onabort(Some(&reject));
            transaction.set_onerror(Some(&reject));
        });
        let ended = JsFuture::from(promise).await;
        let reason = transaction.error().map(|error| error.message());
        ended.map(|_| ()).map_err(|_| StoreError(reason.unwrap_or_else(|| "the write was not completed".to_owned())))
    }

    async fn head(&self, id: &DocId) -> Stored<Option<Head>> {
        let text = done(&self.heads.get(&id.as_str().into()).map_err(failed)?).await?;
        Ok(text.as_string().map(|text| Head::stored(id, &text)))
    }

    fn cut_steps(&self, id: &DocId, from: f64, to: f64) -> Stored<()> {
        self.steps.delete(&range(id, from, to)?).map_err(failed)?;
        Ok(())
    }
}

fn step_key(id: &DocId, number: f64) -> JsValue {
    Array::of2(&id.as_str().into(), &number.into()).into()
}

fn range(id: &DocId, from: f64, to: f64) -> Stored<JsValue> {
    IdbKeyRange::bound(&step_key(id, from), &step_key(id, to)).map(JsValue::from).map_err(failed)
}

/// The result of a request.
async fn done(request: &IdbRequest) -> Stored<JsValue> {
    let promise = Promise::new(&mut |resolve, reject| {
        request.set_onsuccess(Some(&resolve));
        request.set_onerror(Some(&reject));
    });
    match JsFuture::from(promise).await {
        Ok(_) => request.result().map_err(failed),
        Err(_) => Err(StoreError(
            request.error().ok().flatten().map_or_else(|| "the request failed".to_owned(), |error| error.message()),
        )),
    }
}

impl Journal for IdbJournal {
    async fn heads(&self) -> Stored<Vec<Head>> {
        let transaction = self.begin(IdbTransactionMode::Readonly).await?;
        let keys: Array = done(&transaction.heads.get_all_keys().map_err(failed)?).await?.into();
        let texts: Array = done(&transaction.heads.get_all().map_err(failed)?).await?.into();
        let head = |(key, text): (JsValue, JsValue)| {
            Some(Head::stored(&DocId::from(key.as_string()?), &text.as_string().unwrap_or_default()))
        };
        Ok(keys.iter().zip(texts.iter()).filter_map(head).collect())
    }

    async fn read(&self, id: &DocId) -> Stored<Option<Slot>> {
        let transaction = self.begin(IdbTransactionMode::Readonly).await?;
        let Some(head) = transaction.head(id).await? else { return Ok(None) };
        let body = done(&transaction.bodies.get(&id.as_str().into()).map_err(failed)?).await?;
        // A body that is missing is damage too.
        Ok(Some(Slot { head, body: body.as_string().unwrap_or_default() }))
    }

    async fn steps(&self, id: &DocId) -> Stored<Vec<(u64, String)>> {
        let transaction = self.begin(IdbTransactionMode::Readonly).await?;
        let range = range(id, 0.0, f64::MAX)?;
        let keys: Array = done(&transaction.steps.get_all_keys_with_key(&range).map_err(failed)?).await?.into();
        let texts: Array = done(&transaction.steps.get_all_with_key(&range).map_err(failed)?).await?.into();
        let number = |key: JsValue| Array::from(&key).get(1).as_f64().map(|number| number as u64);
        Ok(keys.iter().zip(texts.iter()).filter_map(|(key, text)| Some((number(key)?, text.as_string()?))).collect())
    }

    async fn commit(&self, commit: &Commit) -> Stored<Verdict> {
        may_write()?;
        let head = &commit.slot.head;
        let transaction = self.begin(IdbTransactionMode::Readwrite).await?;
        if transaction.head(&head.id).await?.map(|head| head.rev) != commit.expected {
            return Ok(Verdict::Conflict);
        }
        let key = JsValue::from_str(head.id.as_str());
        let text = serde_json::to_string(head).map_err(|error| StoreError(error.to_string()))?;
        transaction.heads.put_with_key(&text.into(), &key).map_err(failed)?;
        transaction.bodies.put_with_key(&commit.slot.body.as_str().into(), &key).map_err(failed)?;
        let steps = &commit.steps;
        if steps.first > 0 {
            transaction.cut_steps(&head.id, 0.0, steps.first as f64 - 1.0)?;
        }
        transaction.cut_steps(&head.id, steps.last as f64 + 1.0, f64::MAX)?;
        for (number, text) in &steps.put {
            transaction
                .steps
                .put_with_key(&text.as_str().into(), &step_key(&head.id, *number as f64))
                .map_err(failed)?;
        }
        transaction.end().await?;
        Ok(Verdict::Written)
    }

    async fn remove(&self, id: &DocId) -> Stored<()> {
        may_write()?;
        let transaction = self.begin(IdbTransactionMode::Readwrite).await?;
        let key = JsValue::from_str(id.as_str());
        transaction.heads.delete(&key).map_err(failed)?;
        transaction.bodies.delete(&key).map_err(failed)?;
        transaction.cut_steps(id, 0.0, f64::MAX)?;
        transaction.end().await
    }
}
