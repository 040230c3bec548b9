//! The browser's voice.

use js_sys::{Array, Function, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::Window;

use super::call::{method, property, set};
use crate::platform::Speech;

/// Speech synthesis where the browser has it.
pub(super) struct WebSpeech(Window);

impl WebSpeech {
    pub(super) fn new(window: &Window) -> Self {
        Self(window.clone())
    }

    fn utterance(&self, words: &str) -> Option<JsValue> {
        let class: Function = property(&self.0, "SpeechSynthesisUtterance")?
            .dyn_into()
            .ok()?;
        let utterance = Reflect::construct(&class, &Array::of1(&JsValue::from_str(words))).ok()?;
        set(&utterance, "lang", &JsValue::from_str("en"));
        Some(utterance)
    }
}

impl Speech for WebSpeech {
    fn say(&self, words: &str) {
        let Some(voice) = property(&self.0, "speechSynthesis") else {
            return;
        };
        self.hush();
        if let Some(utterance) = self.utterance(words) {
            // A voice that is not allowed stays silent; the screen says the same.
            let _ = method(&voice, "speak", &[&utterance]);
        }
    }

    fn hush(&self) {
        if let Some(voice) = property(&self.0, "speechSynthesis") {
            let _ = method(&voice, "cancel", &[]);
        }
    }
}
