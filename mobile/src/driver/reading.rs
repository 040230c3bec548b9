//! Reading the faces: a reading at each mark, and on to the next one.

use rakeline_core::estimate::rake::{FaceReading, Side};
use rakeline_core::estimate::still::StillReading;
use rakeline_core::job::{self, JobEvent, MeasuringEvent};
use rakeline_core::text::{Message, msg};

use super::held::{self, Phase, Target};
use super::intent::{Action, Now};
use super::phone;
use super::state::{AppState, Notice, UndoOf};
use super::work::{self, Back};
use crate::route::{Route, Step};

fn first_unread(app: &AppState) -> Option<usize> {
    job::faces_open(app.job()?).first().copied()
}

/// Starts the sensor for the first spot that is not read; with every spot
/// read it stays off until one is chosen.
pub(super) fn start(app: &mut AppState) -> Vec<Action> {
    if app.job().is_none_or(|job| job.marks.is_none()) {
        return Vec::new();
    }
    let Some(spot) = first_unread(app) else {
        let running = held::stop(app);
        held::rest(app, Target::Spot(0));
        return running;
    };
    held::begin(app, Target::Spot(spot))
}

/// Starts the sensor again for the spot that is shown.
pub(super) fn restart(app: &mut AppState) -> Vec<Action> {
    if app.job().is_none_or(|job| job.marks.is_none()) {
        return Vec::new();
    }
    match app.reading.as_ref().map(|held| held.target) {
        Some(shown) => held::begin(app, shown),
        None => start(app),
    }
}

/// A job that opens at its faces waits there for a tap: some systems ask
/// for the sensor's permission only then. Typing works at once.
pub(super) fn wait_for_tap(app: &mut AppState) {
    app.reading = None;
    if matches!(app.route, Route::Job(_, Step::Faces)) {
        held::rest(app, Target::Spot(first_unread(app).unwrap_or(0)));
    }
}

/// After a step back: goes on where the first spot is open.
pub(super) fn follow(app: &mut AppState) -> Vec<Action> {
    if !matches!(app.route, Route::Job(_, Step::Faces)) {
        return Vec::new();
    }
    if app.job().is_some_and(|job| job.marks.is_some()) {
        start(app)
    } else {
        held::stop(app)
    }
}

/// Reads this spot next.
pub(super) fn choose(app: &mut AppState, spot: usize) -> Vec<Action> {
    if app.job().is_none_or(|job| spot >= job.spots.len()) {
        return Vec::new();
    }
    app.notice = None;
    held::start(app, Target::Spot(spot))
}

/// Takes a reading back and reads the spot again.
pub(super) fn again(app: &mut AppState, spot: usize, now: &Now) -> Vec<Action> {
    let mut actions = drop_last(app, spot, now);
    actions.extend(once_more(app, spot));
    actions
}

/// Reads a spot once more; the readings there are pooled.
pub(super) fn once_more(app: &mut AppState, spot: usize) -> Vec<Action> {
    let mut actions = Vec::new();
    if !matches!(app.route, Route::Job(_, Step::Faces)) {
        actions.extend(work::go_step(app, Step::Faces));
    }
    actions.extend(choose(app, spot));
    actions
}

fn drop_last(app: &mut AppState, spot: usize, now: &Now) -> Vec<Action> {
    let has = app
        .job()
        .and_then(|job| job.spots.get(spot))
        .is_some_and(|place| place.is_read());
    if has {
        work::event(app, JobEvent::FaceDropped { spot }, Back::Step, now)
    } else {
        Vec::new()
    }
}

/// Takes the last reading at a spot out, with a way back.
pub(super) fn take_last_out(app: &mut AppState, spot: usize, now: &Now) -> Vec<Action> {
    let actions = drop_last(app, spot, now);
    if !actions.is_empty() {
        app.notice = Some(Notice {
            message: msg("reading-taken-out"),
            undo: Some(UndoOf::Step),
        });
    }
    actions
}

/// Takes one reading at a spot out, with a way back.
pub(super) fn take_out(app: &mut AppState, spot: usize, which: usize, now: &Now) -> Vec<Action> {
    let has = app
        .job()
        .and_then(|job| job.spots.get(spot))
        .is_some_and(|place| which < place.readings.len());
    if !has {
        return Vec::new();
    }
    let event = JobEvent::ReadingTakenOut {
        spot,
        reading: which,
    };
    let actions = work::event(app, event, Back::Step, now);
    let number = i64::try_from(which + 1).unwrap_or(i64::MAX);
    app.notice = Some(Notice {
        message: msg("reading-of-taken-out").count("number", number),
        undo: Some(UndoOf::Step),
    });
    actions
}

/// Takes all readings out: another phone, or another case or feet, reads
/// the job from its first mark.
pub(super) fn read_all_again(app: &mut AppState, now: &Now) -> Vec<Action> {
    let event = JobEvent::Measuring(MeasuringEvent::ReadingsDropped);
    let mut actions = work::event(app, event, Back::Step, now);
    actions.extend(once_more(app, 0));
    app.notice = Some(Notice {
        message: msg("readings-taken-out"),
        undo: Some(UndoOf::Step),
    });
    actions
}

/// A still window at a mark.
pub(super) fn taken(
    app: &mut AppState,
    spot: usize,
    still: &StillReading,
    now: &Now,
) -> Result<Vec<Action>, Message> {
    let reading = FaceReading::held(*still, Side::Back)?;
    phone::put_into_job(app, now)?;
    Ok(record(app, spot, reading, Some(still), now))
}

/// Keeps a reading, tells hand and ear, and goes on.
pub(super) fn record(
    app: &mut AppState,
    spot: usize,
    reading: FaceReading,
    still: Option<&StillReading>,
    now: &Now,
) -> Vec<Action> {
    let before = app.job().map(|job| job.revision);
    let mut actions = work::event(app, JobEvent::FaceRead { spot, reading }, Back::Step, now);
    if app.job().map(|job| job.revision) == before {
        return actions;
    }
    match next_after(app, spot) {
        Some(next) => {
            let no_sensor = app
                .reading
                .as_ref()
                .is_some_and(|held| matches!(held.phase, Phase::NoSensor(_)));
            held::aim(app, Target::Spot(next), still);
            actions.extend(held::captured());
            if !no_sensor {
                actions.extend(say_next(app, next));
            }
        }
        None => {
            actions.extend(held::done());
            actions.extend(work::go_step(app, Step::Rings));
            actions.extend(phone::say(app, msg("say-all-read")));
        }
    }
    actions
}

fn say_next(app: &AppState, next: usize) -> Vec<Action> {
    let label = app
        .job()
        .and_then(|job| job.spots.get(next))
        .map(|spot| spot.label.clone());
    label.map_or_else(Vec::new, |label| {
        phone::say(app, msg("say-next-mark").text("label", label))
    })
}

/// The next open spot to the right, else the first open one.
fn next_after(app: &AppState, spot: usize) -> Option<usize> {
    let open = job::faces_open(app.job()?);
    let right = open.iter().find(|index| **index >= spot);
    right.or_else(|| open.first()).copied()
}
