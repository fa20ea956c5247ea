//! Photographs in IndexedDB: a database of their own, since another store in that of the journal would be another version of
//! it, which no tab of an earlier release could open. Their sizes stand apart from their bytes, so that counting them reads
//! none.

use super::by_name::{ask, call, get, number, set, window};
use super::idb::{IdbResult, begun, done, ended, factory, failed};
use super::may_write;
use hundred_parts::batch::study::{MEDIA_TYPE, PhotographId, StorageEstimate};
use js_sys::{Array, Function, Promise, Uint8Array};
use std::cell::RefCell;
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{IdbDatabase, IdbTransaction, IdbTransactionMode};

const NAME: &str = "hundred-parts-photographs";
const SIZES: &str = "sizes";
const BYTES: &str = "bytes";

/// The database, open for one call: while none is made it stands in nobody's way.
struct Database(IdbDatabase);

impl Drop for Database {
    fn drop(&mut self) {
        self.0.close();
    }
}

async fn open() -> IdbResult<Database> {
    let request = factory()?.open_with_u32(NAME, 1).map_err(failed)?;
    let asked = request.clone();
    let upgrade = Closure::once_into_js(move || {
        let database = asked.result().ok().and_then(|result| result.dyn_into::<IdbDatabase>().ok());
        for (database, store) in database.iter().flat_map(|database| [SIZES, BYTES].map(|name| (database, name))) {
            let _ = database.create_object_store(store);
        }
    });
    request.set_onupgradeneeded(Some(upgrade.unchecked_ref()));
    Ok(Database(done(&request).await?.dyn_into().map_err(failed)?))
}

fn begin(database: &Database, mode: IdbTransactionMode) -> IdbResult<IdbTransaction> {
    begun(&database.0, &Array::of2(&SIZES.into(), &BYTES.into()), mode)
}

fn key(id: PhotographId) -> JsValue {
    id.text().into()
}

/// Each photograph that is kept, with how many bytes it has.
pub(crate) async fn kept_photographs() -> IdbResult<Vec<(PhotographId, usize)>> {
    let database = open().await?;
    let sizes = begin(&database, IdbTransactionMode::Readonly)?.object_store(SIZES).map_err(failed)?;
    let keys: Array = done(&sizes.get_all_keys().map_err(failed)?).await?.into();
    let found: Array = done(&sizes.get_all().map_err(failed)?).await?.into();
    let one = |(key, size): (JsValue, JsValue)| {
        Some((PhotographId::parse(&key.as_string()?)?, size.as_f64().map_or(0, |size| size as usize)))
    };
    Ok(keys.iter().zip(found.iter()).filter_map(one).collect())
}

/// The bytes of one; nothing if it is not here.
pub(crate) async fn photograph(id: PhotographId) -> IdbResult<Option<Vec<u8>>> {
    let database = open().await?;
    let bytes = begin(&database, IdbTransactionMode::Readonly)?.object_store(BYTES).map_err(failed)?;
    let found = done(&bytes.get(&key(id)).map_err(failed)?).await?;
    Ok((!found.is_undefined()).then(|| Uint8Array::new(&found).to_vec()))
}

/// Keeps some, all or none of them.
pub(crate) async fn keep_photographs(all: &[(PhotographId, &[u8])]) -> IdbResult<()> {
    may_write()?;
    let database = open().await?;
    let transaction = begin(&database, IdbTransactionMode::Readwrite)?;
    let put = |(id, bytes): &(PhotographId, &[u8])| -> IdbResult<()> {
        let store = |name| transaction.object_store(name).map_err(failed);
        store(BYTES)?.put_with_key(&Uint8Array::from(*bytes), &key(*id)).map_err(failed)?;
        store(SIZES)?.put_with_key(&(bytes.len() as f64).into(), &key(*id)).map_err(failed)?;
        Ok(())
    };
    if let Err(error) = all.iter().try_for_each(put) {
        // What was put so far would be committed all the same.
        let _ = transaction.abort();
        return Err(error);
    }
    ended(&transaction).await
}

/// Removes some.
pub(crate) async fn remove_photographs(all: &[PhotographId]) -> IdbResult<()> {
    may_write()?;
    let database = open().await?;
    let transaction = begin(&database, IdbTransactionMode::Readwrite)?;
    for store in [SIZES, BYTES] {
        let store = transaction.object_store(store).map_err(failed)?;
        for id in all {
            store.delete(&key(*id)).map_err(failed)?;
        }
    }
    ended(&transaction).await
}

/// An address under which an image can show bytes, until it is hidden again.
pub(crate) fn show_photograph(bytes: &[u8]) -> Option<String> {
    let options = web_sys::BlobPropertyBag::new();
    options.set_type(MEDIA_TYPE);
    let parts = Array::of1(&Uint8Array::from(bytes));
    let blob = web_sys::Blob::new_with_str_sequence_and_options(&parts, &options).ok()?;
    web_sys::Url::create_object_url_with_blob(&blob).ok()
}

/// Takes such an address back.
pub(crate) fn hide_photograph(address: &str) {
    let _ = web_sys::Url::revoke_object_url(address);
}

/// What the browser says of the storage of this page; nothing where it does not say.
pub(crate) async fn estimate() -> Option<StorageEstimate> {
    let storage = get(&get(&window(), "navigator").ok()?, "storage").ok()?;
    let told = ask(&storage, "estimate", &[]).await.ok()?;
    Some(StorageEstimate { used: number(&told, "usage")?, quota: number(&told, "quota")? })
}

/// A lock on the photographs of all tabs, until it is dropped.
pub(crate) struct PhotographLock(Option<Function>);

impl Drop for PhotographLock {
    fn drop(&mut self) {
        if let Some(release) = &self.0 {
            let _ = release.call0(&JsValue::NULL);
        }
    }
}

/// Waits for a lock that a tab holds from before it stores a photograph until the entry that names it is stored; several may.
/// `alone`: the one of who removes photographs, or nothing at once where any tab holds one, or where there are no locks.
pub(crate) async fn lock_photographs(alone: bool) -> Option<PhotographLock> {
    let locks = get(&get(&window(), "navigator").ok()?, "locks").ok()?;
    if locks.is_undefined() {
        return (!alone).then_some(PhotographLock(None));
    }
    let options: JsValue = js_sys::Object::new().into();
    set(&options, "mode", &(if alone { "exclusive" } else { "shared" }).into()).ok()?;
    set(&options, "ifAvailable", &alone.into()).ok()?;
    let release: Rc<RefCell<Option<Function>>> = Rc::default();
    let kept = release.clone();
    let given = Promise::new(&mut |resolve, _| {
        let kept = kept.clone();
        let held = Closure::once_into_js(move |lock: JsValue| -> JsValue {
            let until = Promise::new(&mut |end, _| *kept.borrow_mut() = Some(end));
            let there = !lock.is_null();
            let _ = resolve.call1(&JsValue::NULL, &there.into());
            if there { until.into() } else { JsValue::UNDEFINED }
        });
        let _ = call(&locks, "request", &[&NAME.into(), &options, &held]);
    });
    let given = JsFuture::from(given).await.ok()?.as_bool() == Some(true);
    let release = release.borrow_mut().take();
    given.then(|| PhotographLock(release))
}
