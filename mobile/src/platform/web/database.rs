//! One IndexedDB database with one object store.
//!
//! Written on the plain bindings: the wrappers at hand lose the reason of an
//! aborted transaction, and with it 'no room left', and none asks for strict
//! durability, without which 'saved' would not mean written.

use js_sys::{Array, Object};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{
    IdbDatabase, IdbFactory, IdbKeyRange, IdbObjectStore, IdbOpenDbRequest, IdbRequest,
    IdbTransaction, Window,
};

use super::call::{error_name, error_words, method, property, set};
use super::listen::{Listener, first_of};
use crate::platform::{StorageFault, Write};

const NAME: &str = "rakeline";
const STORE: &str = "records";
const VERSION: u32 = 1;

/// Greater than every character that a key may hold: the end of a prefix.
const LAST: &str = "\u{ffff}";

/// Where the fault came up decides what a refusal is.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum During {
    Opening,
    Using,
}

/// The fault that an exception means.
pub(super) fn fault(error: &JsValue, during: During) -> StorageFault {
    match error_name(error).as_str() {
        "QuotaExceededError" => StorageFault::Full,
        "SecurityError" | "NotAllowedError" => StorageFault::Refused,
        // Private windows of older browsers open nothing and say so thus.
        "InvalidStateError" if during == During::Opening => StorageFault::Refused,
        _ => StorageFault::Failed(error_words(error)),
    }
}

fn using(error: JsValue) -> StorageFault {
    fault(&error, During::Using)
}

/// An exception that a request or transaction holds, null when it has none.
fn held_error(of: &JsValue) -> JsValue {
    property(of, "error").unwrap_or(JsValue::NULL)
}

/// Opens the database, making it if it is new.
pub(super) async fn open(window: &Window) -> Result<IdbDatabase, StorageFault> {
    let opening = |error: JsValue| fault(&error, During::Opening);
    let factory: IdbFactory = property(window, "indexedDB")
        .ok_or(StorageFault::Refused)?
        .unchecked_into();
    let request: IdbOpenDbRequest = factory.open_with_u32(NAME, VERSION).map_err(opening)?;
    let fresh = request.clone();
    let upgrade = Listener::new(&request, "upgradeneeded", move |_| {
        // A failure here aborts the opening, which then says so.
        if let Ok(database) = fresh.result() {
            let database: IdbDatabase = database.unchecked_into();
            let _ = database.create_object_store(STORE);
        }
    });
    let end = first_of(&request, &["success", "error"]).await;
    drop(upgrade);
    if end == "success" {
        Ok(request.result().map_err(opening)?.unchecked_into())
    } else {
        Err(opening(held_error(&request)))
    }
}

fn store(
    database: &IdbDatabase,
    mode: &str,
) -> Result<(IdbTransaction, IdbObjectStore), StorageFault> {
    let options = Object::new();
    set(&options, "durability", &JsValue::from_str("strict"));
    let names = Array::of1(&JsValue::from_str(STORE));
    let transaction: IdbTransaction = method(
        database,
        "transaction",
        &[&names, &JsValue::from_str(mode), &options],
    )
    .unwrap_or(Err(JsValue::NULL))
    .map_err(using)?
    .unchecked_into();
    let store = transaction.object_store(STORE).map_err(using)?;
    Ok((transaction, store))
}

async fn answer(request: &IdbRequest) -> Result<JsValue, StorageFault> {
    match first_of(request, &["success", "error"]).await {
        "success" => request.result().map_err(using),
        _ => Err(using(held_error(request))),
    }
}

/// The text under a key.
pub(super) async fn get(database: &IdbDatabase, key: &str) -> Result<Option<String>, StorageFault> {
    let (_, store) = store(database, "readonly")?;
    let request = store.get(&JsValue::from_str(key)).map_err(using)?;
    Ok(answer(&request).await?.as_string())
}

/// All keys under a prefix with their texts.
pub(super) async fn list(
    database: &IdbDatabase,
    prefix: &str,
) -> Result<Vec<(String, String)>, StorageFault> {
    let range = IdbKeyRange::bound(
        &JsValue::from_str(prefix),
        &JsValue::from_str(&format!("{prefix}{LAST}")),
    )
    .map_err(using)?;
    let (_, store) = store(database, "readonly")?;
    let keys = store.get_all_keys_with_key(&range).map_err(using)?;
    let values = store.get_all_with_key(&range).map_err(using)?;
    // One transaction: the values come after the keys and belong to them.
    let values = Array::from(&answer(&values).await?);
    let keys = Array::from(&keys.result().map_err(using)?);
    let pairs = keys.iter().zip(values.iter());
    Ok(pairs
        .filter_map(|(key, value)| Some((key.as_string()?, value.as_string()?)))
        .collect())
}

/// All keys under a prefix.
pub(super) async fn keys(
    database: &IdbDatabase,
    prefix: &str,
) -> Result<Vec<String>, StorageFault> {
    let range = IdbKeyRange::bound(
        &JsValue::from_str(prefix),
        &JsValue::from_str(&format!("{prefix}{LAST}")),
    )
    .map_err(using)?;
    let (_, store) = store(database, "readonly")?;
    let keys = store.get_all_keys_with_key(&range).map_err(using)?;
    let keys = Array::from(&answer(&keys).await?);
    Ok(keys.iter().filter_map(|key| key.as_string()).collect())
}

/// All changes in one transaction; done when it is complete on the disk.
pub(super) async fn commit(database: &IdbDatabase, writes: &[Write]) -> Result<(), StorageFault> {
    let (transaction, store) = store(database, "readwrite")?;
    for write in writes {
        let asked = match write {
            Write::Put { key, value } => {
                store.put_with_key(&JsValue::from_str(value), &JsValue::from_str(key))
            }
            Write::Delete { key } => store.delete(&JsValue::from_str(key)),
        };
        if let Err(error) = asked {
            // Half a commit is none.
            let _ = transaction.abort();
            return Err(using(error));
        }
    }
    match first_of(&transaction, &["complete", "abort"]).await {
        "complete" => Ok(()),
        _ => Err(using(held_error(&transaction))),
    }
}
