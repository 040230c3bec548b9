//! The module of the web app's worker; `work.js` starts it and speaks for it.

#[cfg(target_arch = "wasm32")]
use rakeline_core::json;
#[cfg(target_arch = "wasm32")]
use wasm_bindgen::prelude::*;

/// Does a task given as JSON, with the file that goes with it, if any;
/// `progress` is called with the share done.
///
/// # Errors
/// A message as JSON, when the task came to nothing.
#[cfg(target_arch = "wasm32")]
#[wasm_bindgen]
pub fn work(task: &str, file: Vec<u8>, progress: &js_sys::Function) -> Result<Vec<u8>, String> {
    let say = |message| json::write(&message).unwrap_or_default();
    let mut task: rakeline::platform::Task = json::read(task).map_err(|fault| {
        say(rakeline_core::text::msg("pdf-failed").text("why", fault.to_string()))
    })?;
    task.put_file(file);
    let tell = |share: f32| {
        // A page that went away hears nothing.
        let _ = progress.call1(&JsValue::NULL, &JsValue::from_f64(f64::from(share)));
    };
    rakeline::worker::work(&task, &tell).map_err(say)
}

/// The ear of one run of the microphone; `hear.js` has one.
#[cfg(target_arch = "wasm32")]
#[wasm_bindgen]
pub struct Ear(rakeline::ear::Ear);

#[cfg(target_arch = "wasm32")]
#[wasm_bindgen]
impl Ear {
    /// For a device of so many samples a second.
    #[wasm_bindgen(constructor)]
    #[must_use]
    pub fn new(rate: f64) -> Self {
        Self(rakeline::ear::Ear::new(rate))
    }

    /// The kit's tone in hertz; 0 for any.
    pub fn gate(&mut self, tone_hz: f64) {
        use rakeline_core::estimate::beep::ToneGate;
        self.0.set_gate(if tone_hz > 0.0 {
            ToneGate::Near(tone_hz)
        } else {
            ToneGate::Any
        });
    }

    /// Begin and end of a tone of the app's own, then its frequencies.
    pub fn own(&mut self, numbers: &[f64]) {
        if let [start_ms, end_ms, tones_hz @ ..] = numbers {
            self.0.own_tone(rakeline_core::estimate::beep::OwnTone {
                start_ms: *start_ms,
                end_ms: *end_ms,
                tones_hz: tones_hz.to_vec(),
            });
        }
    }

    /// Frames, one channel after the other; gives what was heard as numbers.
    pub fn hear(&mut self, planar: &[f32], channels: usize, first: f64, arrived: f64) -> Vec<f64> {
        self.0.hear(planar, channels, first, arrived).to_numbers()
    }
}

#[cfg(target_arch = "wasm32")]
fn main() {}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    eprintln!("This binary is the web app's worker: `cargo xtask run` builds and serves it.");
}
