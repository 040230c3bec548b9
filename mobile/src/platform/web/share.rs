//! Files that leave the browser: to another app, else to the downloads.

use js_sys::{Array, Uint8Array};
use rakeline_core::units::Millis;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{
    Blob, BlobPropertyBag, File, FilePropertyBag, HtmlAnchorElement, ShareData, Url, Window,
};

use super::call::{error_name, error_words, method, settled};
use super::out;
use crate::platform::{LocalFuture, OutFile, OutStream, OwnFuture, Share, Shared};

/// How long a download's address is kept: the browser may ask the fitter
/// first where it goes.
const KEPT: Millis = Millis(120_000.0);

/// The browser's way out for files.
pub(super) struct WebShare(Window);

impl WebShare {
    pub(super) fn new(window: &Window) -> Self {
        Self(window.clone())
    }

    /// Offers the file to other apps; `None` where that cannot be done.
    async fn hand_over(&self, file: &OutFile) -> Option<Shared> {
        let options = FilePropertyBag::new();
        options.set_type(file.mime);
        let parts = Array::of1(&Uint8Array::from(file.bytes.as_slice()));
        let made = File::new_with_u8_array_sequence_and_options(&parts, &file.name, &options);
        let data = ShareData::new();
        data.set_files(&Array::of1(made.ok()?.as_ref()));
        let navigator = self.0.navigator();
        let can = method(&navigator, "canShare", &[&data])?.ok()?;
        if can != JsValue::TRUE {
            return None;
        }
        let asked = method(&navigator, "share", &[&data])?;
        let outcome = match asked {
            Ok(promise) => settled(promise).await,
            Err(fault) => Err(fault),
        };
        match outcome {
            Ok(_) => Some(Shared::HandedOver),
            Err(fault) if error_name(&fault) == "AbortError" => Some(Shared::Dismissed),
            // Too long after the tap, or not for this kind of file.
            Err(_) => None,
        }
    }

    fn download(&self, file: &OutFile) -> Result<(), JsValue> {
        let options = BlobPropertyBag::new();
        options.set_type(file.mime);
        let parts = Array::of1(&Uint8Array::from(file.bytes.as_slice()));
        let blob = Blob::new_with_u8_array_sequence_and_options(&parts, &options)?;
        let address = Url::create_object_url_with_blob(&blob)?;
        click_download(&self.0, &address, &file.name)
    }
}

/// Saves what is at an address of our own among the downloads.
pub(super) fn click_download(window: &Window, address: &str, name: &str) -> Result<(), JsValue> {
    let document = window.document().ok_or(JsValue::NULL)?;
    let link: HtmlAnchorElement = document.create_element("a")?.dyn_into()?;
    link.set_href(address);
    link.set_download(name);
    link.click();
    let address = address.to_owned();
    super::page::after(window, KEPT, move || {
        // Fails for no address of our own.
        let _ = Url::revoke_object_url(&address);
    });
    Ok(())
}

impl Share for WebShare {
    fn begin(&self, name: &str, mime: &'static str) -> OwnFuture<Option<Box<dyn OutStream>>> {
        Box::pin(out::begin(self.0.clone(), name.to_owned(), mime))
    }

    fn empty_out(&self) -> OwnFuture<()> {
        Box::pin(out::empty(self.0.clone()))
    }

    fn save(&self, file: OutFile) -> LocalFuture<'_, Shared> {
        Box::pin(async move {
            if let Some(shared) = self.hand_over(&file).await {
                return shared;
            }
            match self.download(&file) {
                Ok(()) => Shared::Saved,
                Err(fault) => Shared::Failed(error_words(&fault)),
            }
        })
    }
}
