//! Files of the browser: its own chooser.

use std::rc::Rc;

use js_sys::Uint8Array;
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{File, HtmlInputElement, Window};

use super::call::error_words;
use super::listen::Listener;
use crate::platform::{Files, InFile, LocalFuture, OpenedFile, OwnFuture};

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
    fn chooser(&self, accept: &str) -> Option<HtmlInputElement> {
        let document = self.window.document()?;
        let input: HtmlInputElement = document.create_element("input").ok()?.dyn_into().ok()?;
        input.set_type("file");
        input.set_accept(accept);
        input.set_hidden(true);
        document.body()?.append_child(&input).ok()?;
        Some(input)
    }

    /// Opens the chooser; `None` where no file was chosen.
    fn choose(&self, accept: &str) -> OwnFuture<Option<File>> {
        let Some(input) = self.chooser(accept) else {
            return Box::pin(async { None });
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
            file
        })
    }
}

/// A chosen file.
struct WebInFile(File);

impl InFile for WebInFile {
    fn name(&self) -> String {
        self.0.name()
    }

    fn size(&self) -> u64 {
        self.0.size() as u64
    }

    fn read(&self, from: u64, most: usize) -> LocalFuture<'_, Result<Vec<u8>, String>> {
        Box::pin(async move {
            let (start, end) = (from as f64, from as f64 + most as f64);
            let failed = |fault: JsValue| error_words(&fault);
            let piece = self.0.slice_with_f64_and_f64(start, end).map_err(failed)?;
            let bytes = JsFuture::from(piece.array_buffer()).await.map_err(failed)?;
            Ok(Uint8Array::new(&bytes).to_vec())
        })
    }
}

impl Files for WebFiles {
    fn open_file(&self) -> OwnFuture<Option<Rc<dyn InFile>>> {
        // Phones grey out endings that they do not know: no filter.
        let chosen = self.choose("");
        Box::pin(async move {
            let file = chosen.await?;
            Some(Rc::new(WebInFile(file)) as Rc<dyn InFile>)
        })
    }

    fn open_text(&self, most: usize) -> OwnFuture<OpenedFile> {
        let chosen = self.choose(".json,application/json");
        Box::pin(async move {
            let Some(file) = chosen.await else {
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
}
