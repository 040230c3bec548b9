//! The module that a bench loads in a browser: a mark-out task, solved as often as asked.

#[cfg(target_arch = "wasm32")]
use rakeline_core::decide::mark_out::{MarkOutTask, solve};
#[cfg(target_arch = "wasm32")]
use wasm_bindgen::prelude::*;

/// A task that was read.
#[cfg(target_arch = "wasm32")]
#[wasm_bindgen]
pub struct Solver(MarkOutTask);

#[cfg(target_arch = "wasm32")]
#[wasm_bindgen]
impl Solver {
    /// Of a task as JSON.
    ///
    /// # Errors
    /// What does not parse.
    #[wasm_bindgen(constructor)]
    pub fn new(task: &str) -> Result<Self, String> {
        rakeline_core::json::read(task)
            .map(Self)
            .map_err(|fault| fault.to_string())
    }

    /// Finds the three plans; true when there are any.
    #[must_use]
    pub fn solve(&self) -> bool {
        solve(&self.0).is_ok()
    }
}

#[cfg(target_arch = "wasm32")]
fn main() {}

#[cfg(not(target_arch = "wasm32"))]
fn main() {
    eprintln!("This binary runs in a browser: `cargo xtask bench markout` builds and times it.");
}
