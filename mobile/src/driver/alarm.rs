//! The end of a wait, told to ear, hand and eye once, wherever in the app
//! the fitter is by then.

use chrono::{DateTime, FixedOffset};
use rakeline_core::job::{Wait, WaitStands};
use rakeline_core::text::msg;

use super::intent::{Action, Now};
use super::jobs;
use super::state::AppState;
use super::{held, phone};
use crate::route::{Route, Step};
use crate::steps::book;

/// A wait that has been over for longer was seen to, or belongs to a job
/// that lay for a while; it is not told any more, seconds.
const LATE: i64 = 2 * 60 * 60;

/// Waits of the open job that have come to their end and were not told yet.
/// None while the phone reads a face or listens: a tone would spoil it.
fn over(app: &AppState, now: DateTime<FixedOffset>) -> impl Iterator<Item = &Wait> {
    let job = app.job().filter(|job| {
        let listens = job.learned.running.is_some();
        app.reading.is_none() && !listens
    });
    let waits = job.into_iter().flat_map(|job| &job.waits);
    waits.filter(move |wait| {
        let over = matches!(wait.stands(now), WaitStands::Over(since) if since < LATE);
        over && wait.ended.is_none() && !app.rung.contains(&wait.from)
    })
}

/// Whether there is one to be told.
#[must_use]
pub fn rings(app: &AppState, now: DateTime<FixedOffset>) -> bool {
    over(app, now).next().is_some()
}

/// Whether a screen that shows a wait is to count its seconds: one of the
/// open job's waits runs, on the screen of all steps or of the holes.
#[must_use]
pub fn counts(app: &AppState, now: DateTime<FixedOffset>) -> bool {
    let shows = matches!(app.route, Route::Job(_, Step::Whole | Step::Holes));
    let mut waits = app.job().into_iter().flat_map(|job| &job.waits);
    shows
        && waits.any(|wait| wait.ended.is_none() && matches!(wait.stands(now), WaitStands::Left(_)))
}

pub(super) fn ring(app: &mut AppState, now: &Now) -> Vec<Action> {
    let Some(wait) = over(app, now.at).next() else {
        return Vec::new();
    };
    let what = match book().step(&wait.step) {
        Some((_, step)) => step.what(),
        None => msg("literal").text("text", wait.step.0.clone()),
    };
    app.rung.push(wait.from);
    let told = msg("wait-rings").message("what", what);
    let mut actions = held::done();
    actions.extend(phone::say(app, told.clone()));
    actions.extend(jobs::say(app, told));
    actions
}
