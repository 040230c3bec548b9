//! What a finger and a keyboard do on a [`Phone`].

use std::time::{Duration, Instant};

use chromiumoxide::keys;
use serde_json::{Value, json};

use super::Phone;

impl Phone {
    /// Taps the one button, link, summary or choice with this name.
    ///
    /// The name is what a screen reader says or what stands there: the whole
    /// text, else one line of it, else its beginning.
    ///
    /// # Panics
    /// If it does not come within the patience of the setup, is not alone, disabled, covered, off
    /// the screen, or smaller than 48 px.
    pub fn tap_named(&self, name: &str) {
        self.tap(name, None);
    }

    /// Taps the `nth` (from 0, in reading order) of several with one name.
    ///
    /// # Panics
    /// As [`Phone::tap_named`].
    pub fn tap_nth(&self, name: &str, nth: usize) {
        self.tap(name, Some(nth));
    }

    fn tap(&self, name: &str, nth: Option<usize>) {
        let (x, y) = self.target("tap", name, nth);
        self.touch(x, y);
        self.count_tap();
    }

    /// Taps twice as fast as a nervous finger, at one place.
    ///
    /// # Panics
    /// As [`Phone::tap_named`].
    pub fn tap_twice(&self, name: &str) {
        let (x, y) = self.target("tap", name, None);
        self.touch(x, y);
        self.touch(x, y);
        self.count_tap();
        self.count_tap();
    }

    /// Replaces what stands in the field with this label; not counted as tap.
    ///
    /// # Panics
    /// As [`Phone::tap_named`], or if the field does not take the text.
    pub fn type_into(&self, label: &str, text: &str) {
        let (x, y) = self.target("type", label, None);
        self.touch(x, y);
        self.until(&format!("the field '{label}' has the focus"), || {
            self.eval("document.activeElement === window.rakelineFound") == json!(true)
        });
        self.eval("window.rakelineFound.select()");
        if text.is_empty() {
            self.press("Backspace");
        } else {
            self.cdp("Input.insertText", json!({ "text": text }));
        }
    }

    /// What stands in the field with this label.
    ///
    /// # Panics
    /// As [`Phone::tap_named`].
    #[must_use]
    pub fn typed(&self, label: &str) -> String {
        self.target("type", label, None);
        let value = self.eval("window.rakelineFound.value");
        value.as_str().unwrap_or_default().to_owned()
    }

    /// Chooses an option (by its text) of the select with this label.
    ///
    /// # Panics
    /// As [`Phone::tap_named`], or if there is no such option.
    pub fn choose(&self, label: &str, option: &str) {
        self.target("choose", label, None);
        let script = format!(
            "(() => {{ const el = window.rakelineFound;
               const i = [...el.options].findIndex((o) => o.text.trim() === {});
               if (i < 0) return false;
               el.selectedIndex = i;
               for (const e of ['input', 'change']) el.dispatchEvent(new Event(e, {{ bubbles: true }}));
               return true; }})()",
            json!(option)
        );
        assert_eq!(
            self.eval(&script),
            json!(true),
            "'{label}' has no option '{option}'"
        );
        self.count_tap();
    }

    /// Presses a key by its DOM name: `Enter`, `Tab`, `Escape`, `Backspace`.
    ///
    /// # Panics
    /// If there is no such key.
    pub fn press(&self, key: &str) {
        let definition =
            keys::get_key_definition(key).unwrap_or_else(|| panic!("no key is called '{key}'"));
        let mut event = json!({
            "type": if definition.text.is_some() { "keyDown" } else { "rawKeyDown" },
            "key": definition.key,
            "code": definition.code,
            "windowsVirtualKeyCode": definition.key_code,
        });
        if let Some(text) = definition.text {
            event["text"] = json!(text);
        }
        self.cdp("Input.dispatchKeyEvent", event.clone());
        event["type"] = json!("keyUp");
        self.cdp("Input.dispatchKeyEvent", event);
    }

    /// Moves the focus on by Tab until it is on what has this name.
    ///
    /// # Panics
    /// If 60 steps do not lead there, or the focus cannot be seen there.
    pub fn tab_to(&self, name: &str) {
        let script = format!(
            "(() => {{ const el = document.activeElement;
               const label = el.labels && el.labels[0] ? el.labels[0].innerText : '';
               const own = el.getAttribute('aria-label') || label || el.innerText || '';
               const here = own.replace(/\\s+/g, ' ').trim() === {};
               return here && (getComputedStyle(el).outlineStyle === 'none' ? 'unseen' : 'here'); }})()",
            json!(name)
        );
        for _ in 0..60 {
            self.press("Tab");
            let here = self.eval(&script);
            assert_ne!(here, json!("unseen"), "the focus on '{name}' is not shown");
            if here == json!("here") {
                return;
            }
        }
        panic!(
            "60 Tabs do not lead to '{name}'; on the screen:\n{}",
            self.text()
        );
    }

    /// Types where the focus is.
    ///
    /// # Panics
    /// If the browser refuses.
    pub fn write(&self, text: &str) {
        self.cdp("Input.insertText", json!({ "text": text }));
    }

    /// One touch of a finger, down and up.
    fn touch(&self, x: f64, y: f64) {
        let points = json!([{ "x": x, "y": y }]);
        let down = json!({ "type": "touchStart", "touchPoints": points });
        self.cdp("Input.dispatchTouchEvent", down);
        let up = json!({ "type": "touchEnd", "touchPoints": [] });
        self.cdp("Input.dispatchTouchEvent", up);
    }

    /// Where the target is, once it can be touched and has come to rest.
    fn target(&self, kind: &str, name: &str, nth: Option<usize>) -> (f64, f64) {
        let script = format!(
            "({})({}, {}, {})",
            include_str!("find.js").trim(),
            json!(kind),
            json!(name),
            json!(nth)
        );
        let started = Instant::now();
        let mut before = Value::Null;
        loop {
            let found = self
                .try_eval(&script)
                .unwrap_or_else(|error| json!({ "trouble": error }));
            if let Some(fault) = found["fault"].as_str() {
                panic!("{fault}");
            }
            if let (Some(x), Some(y), true) =
                (found["x"].as_f64(), found["y"].as_f64(), found == before)
            {
                return (x, y);
            }
            if started.elapsed() > self.patience() {
                let trouble = found["trouble"]
                    .as_str()
                    .unwrap_or("it does not come to rest");
                panic!("{trouble}\non the screen:\n{}", self.text());
            }
            before = found;
            self.rest(Duration::from_millis(40));
        }
    }
}
