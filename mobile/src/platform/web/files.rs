//! Files of the browser: its own chooser.

use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;
use web_sys::{HtmlInputElement, Window};

use super::call::error_words;
use super::listen::Listener;
use crate::platform::{Files, OpenedFile, OwnFuture};

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
}
