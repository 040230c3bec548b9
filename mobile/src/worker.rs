//! What the worker does: heavy work, from a task to bytes.
//!
//! **Boundary:** started only through `platform::work`; it knows no screen,
//! no store and no clock.

use rakeline_core::drawing::{SightAsked, sight};
use rakeline_core::estimate::photo::centre::centre;
use rakeline_core::estimate::photo::decode::decode;
use rakeline_core::estimate::photo::detect::{Flow, look};
use rakeline_core::estimate::photo::measured::Given;
use rakeline_core::estimate::photo::outcome::{by_plane, outcome};
use rakeline_core::estimate::photo::result::{Print, U_TIP};
use rakeline_core::job::JobState;
use rakeline_core::report::{
    Document, Pages, Pictures, for_paper, mark_cards, pdf, sheet_pdf, template, workshop_sheet,
};
use rakeline_core::text::{Message, msg};

use crate::platform::Task;
use crate::texts::{inches, say};

/// Share of looking at a photo that decoding takes.
const DECODED: f32 = 0.3;

/// Does a task; `progress` hears the share that is done.
///
/// # Errors
/// What the fitter is told when it came to nothing.
pub fn work(task: &Task, progress: &dyn Fn(f32)) -> Result<Vec<u8>, Message> {
    // Of what comes many times a second nobody wants to hear how far it is.
    if !matches!(task, Task::Sight { .. } | Task::Backup { .. }) {
        progress(0.0);
    }
    let pages: Pages = match task {
        Task::Sheet {
            document,
            look,
            predicted,
            pictures,
            files,
        } => {
            let pictures = on_paper(pictures, files, progress);
            let document = with_prediction(document, predicted.as_deref());
            inches(look.inches);
            let sheet = sheet_pdf(&document, look, &pictures, &say);
            inches(false);
            return sheet.map_err(|fault| fault.message());
        }
        Task::Template { facts, paper } => template(facts, *paper),
        Task::MarkCards { marks, paper } => mark_cards(*marks, *paper),
        Task::Sight { job, asked } => return seen(job, asked),
        Task::SheetData { job, document } => {
            let document = with_prediction(document, Some(job));
            return Ok(crate::backup::sheet_data(job, &document).into_bytes());
        }
        Task::Backup { session, step } => return crate::backup::work(*session, step),
        Task::SeePhoto { marks, file } => return see_photo(*marks, file, progress),
        Task::SolvePhotos {
            photos,
            marks,
            line,
            taps,
        } => {
            let given = Given {
                marks: *marks,
                print: Print::new(*line)?,
                u_tip: U_TIP,
            };
            return as_json(&outcome(photos, &given, taps)?);
        }
        Task::Centre { at, radius, file } => {
            let luma = decode(file).map_err(|fault| fault.message())?;
            return as_json(&centre(&luma, *at, *radius));
        }
        Task::FlatLength { photo, flat, taps } => return as_json(&by_plane(photo, *flat, taps)?),
    };
    progress(0.1);
    pdf(&pages, &say).map_err(|fault| fault.message())
}

/// What the job's heads will see at the end of its sheet, as they are to
/// point, in the air that was typed; whatever the screen was last asked.
fn with_prediction(document: &Document, job: Option<&JobState>) -> Document {
    let mut document = document.clone();
    if let Some(sight) = job.and_then(|job| sight(job, &SightAsked::default()).ok()) {
        document.sections.extend(workshop_sheet(&sight).sections);
    }
    document
}

/// Pictures made ready for paper, one at a time. One that is none is left
/// out; the sheet shows a frame that says so.
fn on_paper(listed: &[(String, usize)], files: &[u8], progress: &dyn Fn(f32)) -> Pictures {
    let mut pictures = Pictures::new();
    let mut from = 0_usize;
    for (done, (key, length)) in listed.iter().enumerate() {
        let file = files.get(from..from.saturating_add(*length)).unwrap_or(&[]);
        from = from.saturating_add(*length);
        if let Ok(picture) = for_paper(file) {
            pictures.insert(key.clone(), picture);
        }
        progress(0.9 * (done + 1) as f32 / listed.len() as f32);
    }
    pictures
}

/// A `PhotoSeen` as JSON. It is given up by ending the worker, so nothing
/// asks for a stop in between.
fn see_photo(marks: usize, file: &[u8], progress: &dyn Fn(f32)) -> Result<Vec<u8>, Message> {
    let luma = decode(file).map_err(|fault| fault.message())?;
    progress(DECODED);
    let failed = |why: String| msg("photo-failed").text("why", why);
    let looked = look(&luma, &mut |done| {
        progress(DECODED + (1.0 - DECODED) * done.0);
        Flow::Go
    });
    let mut seen = looked.map_err(|stopped| failed(format!("{stopped:?}")))?;
    seen.for_job(marks);
    as_json(&seen)
}

fn as_json<T: serde::Serialize>(of: &T) -> Result<Vec<u8>, Message> {
    let text = rakeline_core::json::write(of);
    text.map(String::into_bytes)
        .map_err(|fault| msg("work-stopped").text("why", fault.to_string()))
}

/// What the heads of a job will see, as JSON.
fn seen(job: &JobState, asked: &SightAsked) -> Result<Vec<u8>, Message> {
    as_json(&sight(job, asked)?)
}
