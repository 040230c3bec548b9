//! A face angle typed off a gauge.

use rakeline_core::estimate::rake::FaceReading;
use rakeline_core::job::{self, Facing, Field, JobEvent};
use rakeline_core::text::Message;

use super::intent::{Action, Now};
use super::reading::record;
use super::state::{AppState, Notice};
use super::work::{self, Back};
use crate::platform::{Pulse, Tone};

/// The typed face angle of the chosen spot counts. A wrong one stays in its
/// field with what is wrong; the screen shows that itself.
pub(super) fn take_typed(app: &mut AppState, facing: Facing, now: &Now) -> Vec<Action> {
    let (Some(job), Some(reading)) = (app.job(), &app.reading) else {
        return Vec::new();
    };
    let spot = reading.spot();
    let read = job::read_typed_face(
        job.typed(Field::FaceAngle),
        facing,
        job.typed(Field::GaugePlusMinus),
    );
    let (rake, plus_minus) = match read {
        Ok(read) => read,
        Err(message) => return refuse(app, message),
    };
    let against = job.measuring.gauge;
    let typed = match FaceReading::typed(rake, plus_minus, against, now.monotonic) {
        Ok(typed) => typed,
        Err(message) => return refuse(app, message),
    };
    app.notice = None;
    let before = app.job().map(|job| job.revision);
    let mut actions = record(app, spot, typed, None, now);
    // Cleared after it counts: a phone that dies in between loses nothing.
    if app.job().map(|job| job.revision) != before {
        let cleared = JobEvent::Typed(Field::FaceAngle, String::new());
        actions.extend(work::event(app, cleared, Back::Typing, now));
    }
    actions
}

fn refuse(app: &mut AppState, message: Message) -> Vec<Action> {
    app.notice = Some(Notice {
        message,
        undo: None,
    });
    vec![Action::Sound(Tone::Refused), Action::Pulse(Pulse::Refused)]
}
