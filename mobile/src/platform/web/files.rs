//! Files of the browser: its own chooser, and downloads.

use js_sys::Array;
use rakeline_core::units::Millis;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, BlobPropertyBag, HtmlAnchorElement, HtmlInputElement, Url, Window};

use super::call::error_words;
use super::listen::Listener;
use super::page::once_after;
use crate::platform::{Files, OpenedFile, OwnFuture};

/// How long a download may take to begin before its address is given back.
const DOWNLOAD_BEGINS: Millis = Millis(20_000.0);

/// The browser's files.
pub(super) struct WebFiles {
    window: Window,
}

impl WebFiles {
    pub(super) fn new(window: &Window) -> Self {
        Self {
            window: window.clone(),
        }
    }

    /// A hidden field of the page that opens the chooser.
    fn chooser(&self) -> Option<HtmlInputElement> {
        let document = self.window.document()?;
        let input: HtmlInputElement = document.create_element("input").ok()?.dyn_into().ok()?;
        input.set_type("file");
        input.set_accept(".json,application/json");
        input.set_hidden(true);
        document.body()?.append_child(&input).ok()?;
        Some(input)
    }
}

impl Files for WebFiles {
    fn open_text(&self, most: usize) -> OwnFuture<OpenedFile> {
        let Some(input) = self.chooser() else {
            return Box::pin(async { OpenedFile::Nothing });
        };
        let (tell, told) = futures_channel::mpsc::unbounded();
        let on = |name| {
            let tell = tell.clone();
            // Nobody hears after the app's end.
            Listener::new(&input, name, move |_| drop(tell.unbounded_send(())))
        };
        let listeners = [on("change"), on("cancel")];
        input.click();
        Box::pin(async move {
            let (_first, _rest) = futures_util::StreamExt::into_future(told).await;
            drop(listeners);
            let file = input.files().and_then(|files| files.get(0));
            input.remove();
            let Some(file) = file else {
                return OpenedFile::Nothing;
            };
            let bytes = file.size() as usize;
            if bytes > most {
                return OpenedFile::TooLarge { bytes };
            }
            let name = file.name();
            match JsFuture::from(file.text()).await {
                Ok(text) => OpenedFile::Text {
                    name,
                    text: text.as_string().unwrap_or_default(),
                },
                Err(fault) => OpenedFile::NotText(error_words(&fault)),
            }
        })
    }

    fn save_json(&self, name: &str, text: &str) {
        // A browser that cannot make a file of text downloads nothing; there
        // is no other way to hand one out.
        let _ = save(&self.window, name, text);
    }
}

fn save(window: &Window, name: &str, text: &str) -> Result<(), JsValue> {
    let kind = BlobPropertyBag::new();
    kind.set_type("application/json");
    let parts = Array::of1(&JsValue::from_str(text));
    let blob = Blob::new_with_str_sequence_and_options(&parts, &kind)?;
    let address = Url::create_object_url_with_blob(&blob)?;
    let document = window.document().ok_or(JsValue::NULL)?;
    let anchor: HtmlAnchorElement = document.create_element("a")?.dyn_into()?;
    anchor.set_href(&address);
    anchor.set_download(name);
    anchor.click();
    once_after(window, DOWNLOAD_BEGINS, move || {
        // Fails only for an address that was given back before.
        let _ = Url::revoke_object_url(&address);
    });
    Ok(())
}
