//! A visible message when the app stops on a fault of its own.

use std::panic::PanicHookInfo;

use wasm_bindgen::JsValue;
use web_sys::{Document, console};

/// What the fitter reads when the app stopped.
#[derive(Clone, Copy, Debug)]
pub struct TroubleWords {
    /// What happened and what is safe.
    pub stopped: &'static str,
    /// The words on the link that opens the app again.
    pub reload: &'static str,
}

/// From now on a panic shows these words, and its own message small below,
/// in the page's `#trouble` instead of leaving a dead screen. Call it after
/// anything that sets a panic hook of its own.
pub fn show_trouble_on_panic(words: TroubleWords) {
    std::panic::set_hook(Box::new(move |info| {
        let detail = detail(info);
        console::error_1(&JsValue::from_str(&detail));
        if let Some(document) = web_sys::window().and_then(|window| window.document()) {
            // Nothing more can be done where the page itself is gone.
            let _ = show(&document, words, &detail);
        }
    }));
}

/// The panic's message with file name and line, without folders.
fn detail(info: &PanicHookInfo<'_>) -> String {
    let said = info.payload_as_str().unwrap_or("panic");
    match info.location() {
        Some(place) => {
            let file = place.file().rsplit(['/', '\\']).next().unwrap_or_default();
            format!("{said} ({file}:{})", place.line())
        }
        None => said.to_owned(),
    }
}

fn show(document: &Document, words: TroubleWords, detail: &str) -> Result<(), JsValue> {
    let Some(trouble) = document.get_element_by_id("trouble") else {
        return Ok(());
    };
    trouble.set_text_content(None);
    for (tag, text) in [("p", words.stopped), ("a", words.reload), ("small", detail)] {
        let part = document.create_element(tag)?;
        part.set_text_content(Some(text));
        if tag == "a" {
            part.set_attribute("href", "")?;
        }
        trouble.append_child(&part)?;
    }
    trouble.remove_attribute("hidden")
}
