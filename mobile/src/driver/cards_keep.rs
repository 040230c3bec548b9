//! A photo of mark cards kept with what was measured drawn on it.

use rakeline_core::job::{JobEvent, Photo, PhotoEvent, PhotoOf, notes_on};
use rakeline_core::steps::StepName;
use rakeline_core::text::msg;

use super::intent::{Action, Now};
use super::state::{AppState, Notice, UndoOf};
use super::work::{self, Back};

/// The step whose photos the annotated ones join.
const STEP: &str = "tape-read-back";

/// The annotated photo joins the job's photos of the check, for the job
/// sheet and for whoever drills.
pub(super) fn keep(app: &mut AppState, index: usize, now: &Now) -> Vec<Action> {
    let Some(job) = app.job() else {
        return Vec::new();
    };
    let Some(photo) = job.card_photos.photos.get(index) else {
        return Vec::new();
    };
    let kept = Photo {
        blob: photo.blob.clone(),
        original: None,
        width: photo.seen.width,
        height: photo.seen.height,
        of: PhotoOf::Step(StepName(STEP.to_owned())),
        at: now.at,
        elevation: None,
        notes: notes_on(job, index),
    };
    let mut actions = Vec::new();
    // Kept once: the new one takes the place of the one before.
    if job.photos.iter().any(|other| other.blob == kept.blob) {
        let dropped = PhotoEvent::Dropped(kept.blob.clone());
        actions.extend(work::event(app, JobEvent::Photo(dropped), Back::Step, now));
    }
    let taken = JobEvent::Photo(PhotoEvent::Taken(Box::new(kept)));
    actions.extend(work::event(app, taken, Back::Step, now));
    app.notice = Some(Notice {
        message: msg("cards-kept"),
        undo: Some(UndoOf::Step),
    });
    actions
}
