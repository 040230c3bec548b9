//! A microphone that hears what the test plays, when it plays it.

use std::time::Duration;

use serde_json::json;

use super::Phone;

/// Answers for the microphone with quiet noise and a tone that sounds on
/// demand; all that comes after it in the app is real.
const SCRIPT: &str = include_str!("sound.js");

impl Phone {
    /// From the next page on the microphone hears a tone of so many hertz
    /// whenever [`Phone::beep`] says so.
    pub fn hear_beeps(&self, hertz: f64) {
        let source = format!("({})({hertz})", SCRIPT.trim());
        self.cdp(
            "Page.addScriptToEvaluateOnNewDocument",
            json!({ "source": source }),
        );
    }

    /// The microphone hears a beep of this length now.
    pub fn beep(&self, long: Duration) {
        let seconds = long.as_secs_f64();
        self.eval(&format!("window.playBeep({seconds})"));
    }
}
