//! A file that leaves the browser piece by piece: written in the origin's
//! private file system, then handed to the downloads from there, so that
//! memory never holds it whole.

use js_sys::Uint8Array;
use wasm_bindgen::JsValue;
use web_sys::{Blob, Url, Window};

use super::blobs::{ask, creating, folder_of, using};
use super::call::{error_words, method};
use super::share::click_download;
use crate::platform::{LocalFuture, OutStream, OwnFuture, Shared, StorageFault};

/// Where files on their way out lie. Those of before are removed when the
/// next one begins, at the next start, and when jobs are deleted for good: a
/// download may take its time.
const FOLDER: &str = "out";

struct WebOut {
    window: Window,
    handle: JsValue,
    writer: Option<JsValue>,
    name: String,
    mime: &'static str,
}

/// Begins a file; `None` where the browser writes no files of its own.
pub(super) async fn begin(
    window: Window,
    name: String,
    mime: &'static str,
) -> Option<Box<dyn OutStream>> {
    let folder = folder_of(&window, FOLDER).await.ok()?;
    super::blobs::empty(&folder).await;
    let key = JsValue::from_str(&name);
    let handle = ask(&folder, "getFileHandle", &[&key, &creating()])
        .await
        .ok()?;
    let writer = ask(&handle, "createWritable", &[]).await.ok()?;
    Some(Box::new(WebOut {
        window,
        handle,
        writer: Some(writer),
        name,
        mime,
    }))
}

/// Removes the files of before.
pub(super) async fn empty(window: Window) {
    if let Ok(folder) = folder_of(&window, FOLDER).await {
        super::blobs::empty(&folder).await;
    }
}

impl OutStream for WebOut {
    fn write(&mut self, bytes: Vec<u8>) -> LocalFuture<'_, Result<(), StorageFault>> {
        Box::pin(async move {
            let writer = self.writer.as_ref().ok_or(StorageFault::Refused)?;
            let bytes = Uint8Array::from(bytes.as_slice());
            let written = ask(writer, "write", &[&bytes]).await;
            written.map(|_| ()).map_err(using)
        })
    }

    fn finish(mut self: Box<Self>) -> OwnFuture<Shared> {
        Box::pin(async move {
            match self.hand_out().await {
                Ok(()) => Shared::Saved,
                Err(fault) => Shared::Failed(error_words(&fault)),
            }
        })
    }
}

impl WebOut {
    async fn hand_out(&mut self) -> Result<(), JsValue> {
        let writer = self.writer.take().ok_or(JsValue::NULL)?;
        ask(&writer, "close", &[]).await?;
        let file = ask(&self.handle, "getFile", &[]).await?;
        let file: Blob = wasm_bindgen::JsCast::unchecked_into(file);
        // The same bytes under the kind that the downloads go by.
        let end = file.size();
        let typed = file.slice_with_f64_and_f64_and_content_type(0.0, end, self.mime)?;
        let address = Url::create_object_url_with_blob(&typed)?;
        click_download(&self.window, &address, &self.name)
    }
}

impl Drop for WebOut {
    fn drop(&mut self) {
        if let Some(writer) = self.writer.take() {
            // What was written so far is thrown away.
            let _ = method(&writer, "abort", &[]);
        }
    }
}
