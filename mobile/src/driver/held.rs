//! The phone held to something: from what the sensor says to a still
//! reading, whatever it is held to. What follows from the reading is up to
//! the target.

use rakeline_core::estimate::left::{LeftMark, Presence};
use rakeline_core::estimate::rake::{Seat, Side, rake_against_gravity};
use rakeline_core::estimate::still::{StillReading, StillSettings, StillState, StillWindow};
use rakeline_core::estimate::zero::Phone;
use rakeline_core::sample::{Convention, RawSample, SampleFault, SampleGate, TiltSample};
use rakeline_core::text::Message;
use rakeline_core::units::{Degrees, Millis};

use super::intent::{Action, Now};
use super::state::AppState;
pub use super::target::{Beside, BoardWay, Target};
use super::{beside_head, corners, lie, phone, reading, zeroing};
use crate::platform::{MotionEvent, Pulse, SourceName, Tone, Visibility};

/// The tone 'moving' comes at most this often.
const MOVING_EVERY: Millis = Millis(1500.0);

/// What the capture does now.
#[derive(Clone, Debug, PartialEq)]
pub enum Phase {
    /// The sensor has not said anything yet.
    Starting,
    /// The phone still rests where it was just read.
    OnLastMark,
    /// The phone moves.
    Moving,
    /// At rest; the share of the window that is done.
    Settling(f64),
    /// It did not come to rest, or it is not what was asked for.
    NotTaken(Message),
    /// No readings; typing still works.
    NoSensor(Message),
    /// Everything is read, or the fitter stopped.
    Off,
}

/// A running capture.
#[derive(Clone)]
pub struct Held {
    /// What the phone is held to.
    pub target: Target,
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

impl Held {
    pub(super) fn to(target: Target) -> Self {
        Self {
            target,
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

    /// How the phone lies now, as if one sample were a whole window.
    #[must_use]
    pub fn attitude(&self) -> Option<StillReading> {
        self.last.as_ref().map(at_once)
    }

    /// The spot that is read, 0 while something else is.
    #[must_use]
    pub fn spot(&self) -> usize {
        match self.target {
            Target::Spot(spot) => spot,
            _ => 0,
        }
    }
}

impl std::fmt::Debug for Held {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Held")
            .field("target", &self.target)
            .field("phase", &self.phase)
            .finish_non_exhaustive()
    }
}

impl PartialEq for Held {
    fn eq(&self, other: &Self) -> bool {
        self.target == other.target
            && self.phase == other.phase
            && self.live == other.live
            && self.last == other.last
    }
}

/// Starts the sensor for a target; a running one goes on with it.
pub(super) fn start(app: &mut AppState, target: Target) -> Vec<Action> {
    if listening(app).is_some() {
        aim(app, target, None);
        return Vec::new();
    }
    begin(app, target)
}

/// Starts the sensor anew for a target.
pub(super) fn begin(app: &mut AppState, target: Target) -> Vec<Action> {
    app.reading = Some(Held::to(target));
    vec![Action::StartMotion]
}

/// Nothing is captured until a target is chosen.
pub(super) fn rest(app: &mut AppState, target: Target) {
    let mut off = Held::to(target);
    off.phase = Phase::Off;
    app.reading = Some(off);
}

/// Stops the sensor.
pub(super) fn stop(app: &mut AppState) -> Vec<Action> {
    match app.reading.take() {
        Some(_) => vec![Action::StopMotion],
        None => Vec::new(),
    }
}

/// The next target; after a capture the phone has to leave its place first.
pub(super) fn aim(app: &mut AppState, target: Target, after: Option<&StillReading>) {
    if let Some(held) = &mut app.reading {
        held.target = target;
        held.window.again();
        held.left = after.map(LeftMark::new);
        if after.is_some() {
            held.phase = Phase::OnLastMark;
        } else if listens(held) && held.phase != Phase::Starting {
            held.phase = Phase::Moving;
        }
    }
}

/// A capture that was taken, told to hand and ear.
pub(super) fn captured() -> Vec<Action> {
    vec![
        Action::Sound(Tone::Captured),
        Action::Pulse(Pulse::Captured),
    ]
}

/// The last of a series, told to hand and ear.
pub(super) fn done() -> Vec<Action> {
    vec![Action::Sound(Tone::Done), Action::Pulse(Pulse::Done)]
}

/// A refusal, told to hand and ear.
pub(super) fn refused() -> Vec<Action> {
    vec![Action::Sound(Tone::Refused), Action::Pulse(Pulse::Refused)]
}

/// What the sensor said since the last turn.
pub(super) fn motion(app: &mut AppState, events: &[MotionEvent], now: &Now) -> Vec<Action> {
    let mut actions = Vec::new();
    for event in events {
        match event {
            MotionEvent::Using(source) => {
                if let Some(held) = &mut app.reading {
                    held.source = Some(*source);
                    held.window.again();
                    held.phase = Phase::Moving;
                }
            }
            MotionEvent::Fault(fault) => {
                if let Some(held) = &mut app.reading
                    && held.phase != Phase::Off
                {
                    held.phase = Phase::NoSensor(fault.message());
                    held.live = None;
                    actions.extend(refused());
                }
            }
            MotionEvent::Sample(raw) => actions.extend(sample(app, *raw, now)),
        }
    }
    actions
}

fn sample(app: &mut AppState, raw: RawSample, now: &Now) -> Vec<Action> {
    let (phone, _) = phone::in_use(app, now);
    let Some(held) = listening(app) else {
        return Vec::new();
    };
    let tilt = match held.gate.accept(raw) {
        Ok(tilt) => tilt,
        // An old event is left out; the window goes on.
        Err(SampleFault::TimeWentBack) => return Vec::new(),
        // A fault is not a rest: what came before it must not be held on to.
        Err(fault) => {
            held.window.again();
            held.live = None;
            held.phase = Phase::NotTaken(fault.message());
            return Vec::new();
        }
    };
    held.last = Some(tilt);
    show_live(held, &tilt, &phone);
    if held.target == Target::Level {
        held.phase = Phase::Moving;
        return Vec::new();
    }
    if let Some(left) = &mut held.left {
        if left.push(&tilt) == Presence::StillThere {
            return Vec::new();
        }
        held.left = None;
        held.window.again();
    }
    let state = held.window.push(&tilt);
    settle(app, state, now)
}

/// The figures as the phone lies now.
fn show_live(held: &mut Held, tilt: &TiltSample, phone: &Phone) {
    let corrected = match phone {
        Phone::Zeroed(zeroing) => zeroing
            .correct(&at_once(tilt))
            .map(|up| (up, zeroing.seat(Side::Back))),
        Phone::Unzeroed => None,
    };
    let (up, seat) = corrected.unwrap_or((tilt.up, Seat::default()));
    held.live = Some(rake_against_gravity(up, Side::Back, seat));
}

/// One sample as if it were a whole window.
fn at_once(tilt: &TiltSample) -> StillReading {
    StillReading {
        up: tilt.up,
        u_noise: Degrees(0.0),
        u_rounding: Degrees(0.0),
        samples: 1,
        effective: 1.0,
        source: tilt.source,
        raw_mean: tilt.raw,
        azimuth: tilt.azimuth,
        at: tilt.at,
    }
}

/// Time passes: a source that reports only on change is silent while it rests.
pub(super) fn tick(app: &mut AppState, at: Millis, now: &Now) -> Vec<Action> {
    let Some(held) = listening(app) else {
        return Vec::new();
    };
    if held.target == Target::Level || held.live.is_none() {
        return Vec::new();
    }
    if let Some(left) = &mut held.left {
        if left.tick(at) == Presence::StillThere {
            return Vec::new();
        }
        // It went on to the next place and is silent there because it rests.
        held.left = None;
        held.window.again();
        if let Some(last) = held.last {
            held.window.push(&last);
        }
    }
    let state = held.window.tick(at);
    settle(app, state, now)
}

fn listens(held: &Held) -> bool {
    !matches!(held.phase, Phase::Off | Phase::NoSensor(_))
}

fn listening(app: &mut AppState) -> Option<&mut Held> {
    app.reading.as_mut().filter(|held| listens(held))
}

fn settle(app: &mut AppState, state: StillState, now: &Now) -> Vec<Action> {
    let Some(held) = &mut app.reading else {
        return Vec::new();
    };
    match state {
        StillState::Waiting => Vec::new(),
        StillState::Moving => {
            held.phase = Phase::Moving;
            moving_tone(held, now)
        }
        StillState::Settling { share, .. } => {
            held.phase = Phase::Settling(share);
            Vec::new()
        }
        StillState::GaveUp(why) => not_taken(app, why),
        StillState::Still(still) => match taken(app, &still, now) {
            Ok(actions) => actions,
            Err(why) => {
                // What is refused here is not read again until the phone moves.
                if let Some(held) = &mut app.reading {
                    held.left = Some(LeftMark::new(&still));
                    held.window.again();
                }
                not_taken(app, why)
            }
        },
    }
}

/// Hands a finished window to what it is for.
fn taken(app: &mut AppState, still: &StillReading, now: &Now) -> Result<Vec<Action>, Message> {
    let Some(held) = &app.reading else {
        return Ok(Vec::new());
    };
    match held.target {
        Target::Spot(spot) => reading::taken(app, spot, still, now),
        Target::Round(beside) => lie::beside_taken(app, beside, still, now),
        Target::Pose(pose) => zeroing::taken(app, pose, still, now),
        Target::Board(way) => lie::board_taken(app, way, still, now),
        Target::Sill => lie::sill_read(app, still, now),
        Target::Station(place) => corners::taken(app, place, still, now),
        Target::Beside(spot, side) => beside_head::taken(app, (spot, side), still, now),
        Target::Level => Ok(Vec::new()),
    }
}

/// Says once why a reading was not taken; the window waits for the next rest.
fn not_taken(app: &mut AppState, why: Message) -> Vec<Action> {
    let Some(held) = &mut app.reading else {
        return Vec::new();
    };
    let phase = Phase::NotTaken(why.clone());
    if held.phase == phase {
        return Vec::new();
    }
    held.phase = phase;
    let mut actions = refused();
    actions.extend(phone::say(app, why));
    actions
}

/// A soft tone now and then while the phone is near its place but moves.
fn moving_tone(held: &mut Held, now: &Now) -> Vec<Action> {
    let near = held.last.is_some_and(|last| held.target.is_near(last.up));
    let due = held
        .said_moving
        .is_none_or(|said| now.monotonic - said >= MOVING_EVERY);
    if !(near && due) {
        return Vec::new();
    }
    held.said_moving = Some(now.monotonic);
    // No pulse: it would shake what is being read.
    vec![Action::Sound(Tone::Moving)]
}

/// A window that the fitter could not see is thrown away.
pub(super) fn seen(app: &mut AppState, _visibility: Visibility) -> Vec<Action> {
    if let Some(held) = listening(app) {
        held.window.again();
        if held.phase != Phase::Starting && held.left.is_none() {
            held.phase = Phase::Moving;
        }
    }
    Vec::new()
}
