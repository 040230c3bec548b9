//! What the worker does: heavy work, from a task to bytes.
//!
//! **Boundary:** started only through `platform::work`; it knows no screen,
//! no store and no clock.

use rakeline_core::estimate::photo::decode::decode;
use rakeline_core::estimate::photo::detect::{Flow, look};
use rakeline_core::report::{Pages, mark_cards, pdf, template};
use rakeline_core::text::{Message, msg};

use crate::platform::Task;
use crate::texts::say;

/// Share of looking at a photo that decoding takes.
const DECODED: f32 = 0.3;

/// Does a task; `progress` hears the share that is done.
///
/// # Errors
/// What the fitter is told when it came to nothing.
pub fn work(task: &Task, progress: &dyn Fn(f32)) -> Result<Vec<u8>, Message> {
    progress(0.0);
    match task {
        Task::Template { facts, paper } => printed(&template(facts, *paper), progress),
        Task::MarkCards { marks, paper } => printed(&mark_cards(*marks, *paper), progress),
        Task::SeePhoto { marks, file } => see(*marks, file, progress),
    }
}

fn printed(pages: &Pages, progress: &dyn Fn(f32)) -> Result<Vec<u8>, Message> {
    progress(0.1);
    pdf(pages, &say).map_err(|fault| fault.message())
}

/// A `PhotoSeen` as JSON. It is given up by ending the worker, so nothing
/// asks for a stop in between.
fn see(marks: usize, file: &[u8], progress: &dyn Fn(f32)) -> Result<Vec<u8>, Message> {
    let luma = decode(file).map_err(|fault| fault.message())?;
    progress(DECODED);
    let failed = |why: String| msg("photo-failed").text("why", why);
    let looked = look(&luma, &mut |done| {
        progress(DECODED + (1.0 - DECODED) * done.0);
        Flow::Go
    });
    let mut seen = looked.map_err(|stopped| failed(format!("{stopped:?}")))?;
    seen.for_job(marks);
    serde_json::to_vec(&seen).map_err(|fault| failed(fault.to_string()))
}
