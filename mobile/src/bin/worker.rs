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

#[cfg(target_arch = "wasm32")]
fn main() {}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    eprintln!("This binary is the web app's worker: `cargo xtask run` builds and serves it.");
}
