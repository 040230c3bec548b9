//! Reading the faces: from what the sensor says to a reading at a mark, and
//! on to the next one.

use rakeline_core::estimate::left::{LeftMark, Presence};
use rakeline_core::estimate::rake::{FaceReading, Seat, Side, plausible, rake_against_gravity};
use rakeline_core::estimate::still::{StillReading, StillSettings, StillState, StillWindow};
use rakeline_core::job::JobEvent;
use rakeline_core::sample::{Convention, RawSample, SampleFault, SampleGate, TiltSample, UpVector};
use rakeline_core::text::Message;
use rakeline_core::units::{Degrees, Millis};

use super::intent::{Action, Now};
use super::state::AppState;
use super::work::{self, Back};
use crate::platform::{MotionEvent, Pulse, SourceName, Tone, Visibility};
use crate::route::{Route, Step};

/// The tone 'moving' comes at most this often.
const MOVING_EVERY: Millis = Millis(1500.0);

/// What the reading does now.
#[derive(Clone, Debug, PartialEq)]
pub enum Phase {
    /// The sensor has not said anything yet.
    Starting,
    /// The phone still rests on the mark that was just read.
    OnLastMark,
    /// The phone moves.
    Moving,
    /// At rest; the share of the window that is done.
    Settling(f64),
    /// It did not come to rest, or what it rests on is no bumper face.
    NotTaken(Message),
    /// No readings; typing still works.
    NoSensor(Message),
    /// Every spot is read, or the fitter stopped.
    Off,
}

/// A running series of readings.
#[derive(Clone)]
pub struct Reading {
    /// The spot that is read next, 0 for the leftmost.
    pub spot: usize,
    /// What it does now.
    pub phase: Phase,
    /// The face angle as the phone lies now, not yet a reading.
    pub live: Option<Degrees>,
    /// Where the figures come from.
    pub source: Option<SourceName>,
    gate: SampleGate,
    window: StillWindow,
    left: Option<LeftMark>,
    last: Option<TiltSample>,
    said_moving: Option<Millis>,
}

impl Reading {
    fn at(spot: usize) -> Self {
        Self {
            spot,
            phase: Phase::Starting,
            live: None,
            source: None,
            gate: SampleGate::new(Convention::PointsUp),
            window: StillWindow::new(StillSettings::default()),
            left: None,
            last: None,
            said_moving: None,
        }
    }
}

impl std::fmt::Debug for Reading {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Reading")
            .field("spot", &self.spot)
            .field("phase", &self.phase)
            .finish_non_exhaustive()
    }
}

impl PartialEq for Reading {
    fn eq(&self, other: &Self) -> bool {
        self.spot == other.spot && self.phase == other.phase && self.live == other.live
    }
}

fn first_unread(app: &AppState) -> Option<usize> {
    app.job()?.spots.iter().position(|spot| !spot.is_read())
}

/// Starts the sensor for the first spot that is not read; with every spot
/// read it stays off until one is chosen.
pub(super) fn start(app: &mut AppState) -> Vec<Action> {
    if app.job().is_none_or(|job| job.marks.is_none()) {
        return Vec::new();
    }
    let Some(spot) = first_unread(app) else {
        let running = stop(app);
        let mut off = Reading::at(0);
        off.phase = Phase::Off;
        app.reading = Some(off);
        return running;
    };
    app.reading = Some(Reading::at(spot));
    vec![Action::StartMotion]
}

/// Starts the sensor again for the spot that is shown.
pub(super) fn restart(app: &mut AppState) -> Vec<Action> {
    let shown = app.reading.as_ref().map(|reading| reading.spot);
    let actions = start(app);
    if let (Some(reading), Some(spot)) = (&mut app.reading, shown) {
        reading.spot = spot;
    }
    actions
}

/// A job that opens at its faces waits there for a tap: some systems ask
/// for the sensor's permission only then. Typing works at once.
pub(super) fn wait_for_tap(app: &mut AppState) {
    let mut off = Reading::at(first_unread(app).unwrap_or(0));
    off.phase = Phase::Off;
    app.reading = matches!(app.route, Route::Job(_, Step::Faces)).then_some(off);
}

/// Stops the sensor.
pub(super) fn stop(app: &mut AppState) -> Vec<Action> {
    match app.reading.take() {
        Some(_) => vec![Action::StopMotion],
        None => Vec::new(),
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
        stop(app)
    }
}

/// Reads this spot next.
pub(super) fn choose(app: &mut AppState, spot: usize) -> Vec<Action> {
    if app.job().is_none_or(|job| spot >= job.spots.len()) {
        return Vec::new();
    }
    let was_off = app
        .reading
        .as_ref()
        .is_none_or(|reading| matches!(reading.phase, Phase::Off | Phase::NoSensor(_)));
    app.notice = None;
    if was_off {
        app.reading = Some(Reading::at(spot));
        return vec![Action::StartMotion];
    }
    if let Some(reading) = &mut app.reading {
        reading.spot = spot;
        reading.window.again();
        reading.left = None;
        reading.phase = Phase::Moving;
    }
    Vec::new()
}

/// Takes a reading back and reads the spot again.
pub(super) fn again(app: &mut AppState, spot: usize, now: &Now) -> Vec<Action> {
    let has = app
        .job()
        .and_then(|job| job.spots.get(spot))
        .is_some_and(|place| place.is_read());
    let mut actions = Vec::new();
    if has {
        actions = work::event(app, JobEvent::FaceDropped { spot }, Back::Step, now);
    }
    if !matches!(app.route, Route::Job(_, Step::Faces)) {
        actions.extend(work::go_step(app, Step::Faces));
    }
    actions.extend(choose(app, spot));
    actions
}

/// The face angle against gravity as the phone lies now.
fn as_it_lies(up: UpVector) -> Degrees {
    rake_against_gravity(up, Side::Back, Seat::default())
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
            if let Some(reading) = &mut app.reading {
                reading.spot = next;
                reading.window.again();
                reading.left = still.map(LeftMark::new);
                if still.is_some() {
                    reading.phase = Phase::OnLastMark;
                }
            }
            actions.push(Action::Sound(Tone::Captured));
            actions.push(Action::Pulse(Pulse::Captured));
        }
        None => {
            actions.push(Action::Sound(Tone::Done));
            actions.push(Action::Pulse(Pulse::Done));
            actions.extend(work::go_step(app, Step::Rings));
        }
    }
    actions
}

/// The next open spot to the right, else the first open one.
fn next_after(app: &AppState, spot: usize) -> Option<usize> {
    let spots = &app.job()?.spots;
    let open = |index: &usize| spots.get(*index).is_some_and(|place| !place.is_read());
    (spot..spots.len())
        .find(open)
        .or_else(|| (0..spot).find(open))
}

/// What the sensor said since the last turn.
pub(super) fn motion(app: &mut AppState, events: &[MotionEvent], now: &Now) -> Vec<Action> {
    let mut actions = Vec::new();
    for event in events {
        match event {
            MotionEvent::Using(source) => {
                if let Some(reading) = &mut app.reading {
                    reading.source = Some(*source);
                    reading.window.again();
                    reading.phase = Phase::Moving;
                }
            }
            MotionEvent::Fault(fault) => {
                if let Some(reading) = &mut app.reading
                    && reading.phase != Phase::Off
                {
                    reading.phase = Phase::NoSensor(fault.message());
                    reading.live = None;
                }
            }
            MotionEvent::Sample(raw) => actions.extend(sample(app, *raw, now)),
        }
    }
    actions
}

fn sample(app: &mut AppState, raw: RawSample, now: &Now) -> Vec<Action> {
    let Some(reading) = listening(app) else {
        return Vec::new();
    };
    let tilt = match reading.gate.accept(raw) {
        Ok(tilt) => tilt,
        // An old event is left out; the window goes on.
        Err(SampleFault::TimeWentBack) => return Vec::new(),
        // A fault is not a rest: what came before it must not be held on to.
        Err(fault) => {
            reading.window.again();
            reading.live = None;
            reading.phase = Phase::NotTaken(fault.message());
            return Vec::new();
        }
    };
    reading.last = Some(tilt);
    reading.live = Some(as_it_lies(tilt.up));
    if let Some(left) = &mut reading.left {
        if left.push(&tilt) == Presence::StillThere {
            return Vec::new();
        }
        reading.left = None;
        reading.window.again();
    }
    let state = reading.window.push(&tilt);
    settle(app, state, now)
}

/// Time passes: a source that reports only on change is silent while it rests.
pub(super) fn tick(app: &mut AppState, at: Millis, now: &Now) -> Vec<Action> {
    let Some(reading) = listening(app) else {
        return Vec::new();
    };
    if reading.live.is_none() {
        return Vec::new();
    }
    if let Some(left) = &mut reading.left {
        if left.tick(at) == Presence::StillThere {
            return Vec::new();
        }
        // It went on to the next mark and is silent there because it rests.
        reading.left = None;
        reading.window.again();
        if let Some(last) = reading.last {
            reading.window.push(&last);
        }
    }
    let state = reading.window.tick(at);
    settle(app, state, now)
}

fn listening(app: &mut AppState) -> Option<&mut Reading> {
    app.reading
        .as_mut()
        .filter(|reading| !matches!(reading.phase, Phase::Off | Phase::NoSensor(_)))
}

fn settle(app: &mut AppState, state: StillState, now: &Now) -> Vec<Action> {
    let Some(reading) = &mut app.reading else {
        return Vec::new();
    };
    match state {
        StillState::Waiting => Vec::new(),
        StillState::Moving => {
            reading.phase = Phase::Moving;
            moving_tone(reading, now)
        }
        StillState::Settling { share, up } => {
            reading.live = Some(as_it_lies(up));
            reading.phase = Phase::Settling(share);
            Vec::new()
        }
        StillState::GaveUp(why) => not_taken(reading, why),
        StillState::Still(still) => {
            let spot = reading.spot;
            match FaceReading::held(still, Side::Back) {
                Ok(held) => record(app, spot, held, Some(&still), now),
                Err(why) => {
                    // Nothing new is read until it is lifted from there.
                    reading.left = Some(LeftMark::new(&still));
                    reading.window.again();
                    not_taken(reading, why)
                }
            }
        }
    }
}

/// Says once why a reading was not taken; the window waits for the next rest.
fn not_taken(reading: &mut Reading, why: Message) -> Vec<Action> {
    let phase = Phase::NotTaken(why);
    if reading.phase == phase {
        return Vec::new();
    }
    reading.phase = phase;
    vec![Action::Sound(Tone::Refused), Action::Pulse(Pulse::Refused)]
}

/// A soft tone now and then while the phone is held to a face but moves.
fn moving_tone(reading: &mut Reading, now: &Now) -> Vec<Action> {
    let near_a_face = reading.live.is_some_and(|rake| plausible(rake).is_ok());
    let due = reading
        .said_moving
        .is_none_or(|said| now.monotonic - said >= MOVING_EVERY);
    if !(near_a_face && due) {
        return Vec::new();
    }
    reading.said_moving = Some(now.monotonic);
    vec![Action::Sound(Tone::Moving)]
}

/// A window that the fitter could not see is thrown away.
pub(super) fn seen(app: &mut AppState, _visibility: Visibility) -> Vec<Action> {
    if let Some(reading) = listening(app) {
        reading.window.again();
        if reading.phase != Phase::Starting {
            reading.phase = Phase::Moving;
        }
    }
    Vec::new()
}
