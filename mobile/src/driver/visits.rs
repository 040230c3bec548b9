//! A vehicle that comes again: the file stays as it was, the visit is added.

use rakeline_core::job::{JobEvent, StandingEvent};
use rakeline_core::record;

use super::intent::{Action, Now};
use super::state::AppState;
use super::{KEPT_JOB_PREFIX, fit};
use crate::platform::Write;

/// Adds a visit; the job as it was before goes under a key of its own, in
/// the same atomic step.
pub(super) fn came_again(app: &mut AppState, why: String, now: &Now) -> Vec<Action> {
    let Some(was) = app.job().cloned() else {
        return Vec::new();
    };
    let event = JobEvent::Standing(StandingEvent::CameAgain(why));
    let mut actions = fit::event(app, event, now);
    let visits = app.job().map_or(0, |job| job.visits.len());
    if visits <= was.visits.len() {
        return actions;
    }
    let kept = record::write(&was).ok();
    for action in &mut actions {
        if let (Action::Commit(_, writes), Some(value)) = (action, &kept) {
            writes.push(Write::Put {
                key: format!("{KEPT_JOB_PREFIX}{}/{visits}", was.id.0),
                value: value.clone(),
            });
        }
    }
    actions
}
