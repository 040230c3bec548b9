//! Pictures as files of the origin's private file system (OPFS).

use js_sys::{Object, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::Window;

use super::call::{error_name, method, property, set, settled};
use super::database::{During, fault};
use crate::platform::StorageFault;

const FOLDER: &str = "blobs";

pub(super) fn using(error: JsValue) -> StorageFault {
    fault(&error, During::Using)
}

/// Calls a method that gives a promise; a missing one is a refusal.
pub(super) async fn ask(of: &JsValue, name: &str, args: &[&JsValue]) -> Result<JsValue, JsValue> {
    match method(of, name, args) {
        Some(asked) => settled(asked?).await,
        None => Err(JsValue::NULL),
    }
}

pub(super) fn creating() -> Object {
    let options = Object::new();
    set(&options, "create", &JsValue::TRUE);
    options
}

async fn folder(window: &Window) -> Result<JsValue, StorageFault> {
    folder_of(window, FOLDER).await
}

/// A folder of the private file system, made if it is new.
pub(super) async fn folder_of(window: &Window, name: &str) -> Result<JsValue, StorageFault> {
    let storage = property(&window.navigator(), "storage").ok_or(StorageFault::Refused)?;
    let root = ask(&storage, "getDirectory", &[])
        .await
        .map_err(|error| fault(&error, During::Opening))?;
    let name = JsValue::from_str(name);
    ask(&root, "getDirectoryHandle", &[&name, &creating()])
        .await
        .map_err(using)
}

fn is_missing(error: &JsValue) -> bool {
    error_name(error) == "NotFoundError"
}

/// Writes a file; it is there when this is done, whole or not at all.
pub(super) async fn put(window: &Window, key: &str, bytes: &[u8]) -> Result<(), StorageFault> {
    let folder = folder(window).await?;
    let name = JsValue::from_str(key);
    let file = ask(&folder, "getFileHandle", &[&name, &creating()])
        .await
        .map_err(using)?;
    let writer = ask(&file, "createWritable", &[]).await.map_err(using)?;
    let array = Uint8Array::from(bytes);
    let written = ask(&writer, "write", &[&array]).await;
    if let Err(error) = written {
        let _ = ask(&writer, "abort", &[]).await;
        return Err(using(error));
    }
    // The bytes take the file's place only here.
    ask(&writer, "close", &[]).await.map_err(using)?;
    Ok(())
}

/// The bytes of a file.
pub(super) async fn get(window: &Window, key: &str) -> Result<Option<Vec<u8>>, StorageFault> {
    let folder = folder(window).await?;
    let handle = ask(&folder, "getFileHandle", &[&JsValue::from_str(key)]).await;
    let handle = match handle {
        Ok(handle) => handle,
        Err(error) if is_missing(&error) => return Ok(None),
        Err(error) => return Err(using(error)),
    };
    let file = ask(&handle, "getFile", &[]).await.map_err(using)?;
    let buffer = ask(&file, "arrayBuffer", &[]).await.map_err(using)?;
    Ok(Some(Uint8Array::new(&buffer).to_vec()))
}

/// Whether a file is not there, or holds nothing.
pub(super) async fn is_empty(window: &Window, key: &str) -> Result<bool, StorageFault> {
    let folder = folder(window).await?;
    let handle = ask(&folder, "getFileHandle", &[&JsValue::from_str(key)]).await;
    let handle = match handle {
        Ok(handle) => handle,
        Err(error) if is_missing(&error) => return Ok(true),
        Err(error) => return Err(using(error)),
    };
    let file = ask(&handle, "getFile", &[]).await.map_err(using)?;
    let size = property(&file, "size").and_then(|size| size.as_f64());
    Ok(size == Some(0.0))
}

/// The names of all files.
pub(super) async fn list(window: &Window) -> Result<Vec<String>, StorageFault> {
    names(&folder(window).await?).await
}

async fn names(folder: &JsValue) -> Result<Vec<String>, StorageFault> {
    let names = method(folder, "keys", &[])
        .ok_or(StorageFault::Refused)?
        .map_err(using)?;
    let mut all = Vec::new();
    loop {
        let next = ask(&names, "next", &[]).await.map_err(using)?;
        match property(&next, "value").and_then(|name| name.as_string()) {
            Some(name) => all.push(name),
            None => return Ok(all),
        }
    }
}

/// Removes all files of a folder, as far as the system lets go of them.
pub(super) async fn empty(folder: &JsValue) {
    for name in names(folder).await.unwrap_or_default() {
        let _ = ask(folder, "removeEntry", &[&JsValue::from_str(&name)]).await;
    }
}

/// Removes a file.
pub(super) async fn delete(window: &Window, key: &str) -> Result<(), StorageFault> {
    let folder = folder(window).await?;
    match ask(&folder, "removeEntry", &[&JsValue::from_str(key)]).await {
        Err(error) if !is_missing(&error) => Err(using(error)),
        _ => Ok(()),
    }
}

/// Bytes as an object that the screen can be pointed to.
pub(super) fn as_blob(bytes: &[u8]) -> Option<JsValue> {
    let parts = js_sys::Array::of1(&Uint8Array::from(bytes));
    let class: js_sys::Function = property(&js_sys::global(), "Blob")?.dyn_into().ok()?;
    js_sys::Reflect::construct(&class, &js_sys::Array::of1(&parts)).ok()
}
