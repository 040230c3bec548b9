//! The walk test and the search for a fault: which point, which head, which
//! question; and the voice that leads from point to point.
//!
//! The voice only leads. What sounded is tapped; a time that runs out says
//! the point again and never stands for an answer.

use rakeline_core::decide::walk_test::Sounded;
use rakeline_core::job::{
    self, Answered, FaultEvent, Finding, JobEvent, RingWay, WalkEvent, WalkKind,
};
use rakeline_core::text::{Message, msg};
use rakeline_core::units::Millis;

use super::held;
use super::intent::{Action, Now};
use super::state::{AppState, Notice};
use super::work::{self, Back};
use crate::platform::Tone;

/// Time to carry the pole to a point (our own figure).
const CARRY: Millis = Millis(8000.0);
/// Time to listen before the point is said again (our own figure).
const LISTEN: Millis = Millis(8000.0);

/// What the fitter says on these screens.
#[derive(Clone, Debug, PartialEq)]
pub enum WalkIntent {
    /// Starts a walk test.
    Start(WalkKind),
    /// This sounded at the point.
    Sounded(Sounded),
    /// That point next.
    Choose(u16),
    /// The voice leads, or not.
    Lead,
    /// That head next.
    Head(u8),
    /// That head answered so.
    Answer(Answered),
    /// A question that cannot be answered now.
    Pass(Finding, Option<u8>),
    /// That fitted head's aim is to be found.
    AimOf(u8),
    /// What is typed beside it counts.
    AimTaken(RingWay),
}

/// What the voice waits for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pace {
    /// The pole is carried there.
    Carry,
    /// What sounds there is listened for.
    Listen,
}

/// The voice that leads.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lead {
    /// What it waits for.
    pub pace: Pace,
    /// Until when, monotonic.
    pub until: Millis,
    /// Whole seconds left.
    pub seconds: i64,
}

/// What is under way on these screens and not yet a fact of the job.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct WalkDraft {
    /// A point chosen out of turn.
    pub point: Option<u16>,
    /// The voice, while it leads.
    pub lead: Option<Lead>,
    /// A head chosen out of turn.
    pub head: Option<u8>,
    /// Questions put by.
    pub passed: Vec<(Finding, Option<u8>)>,
    /// The fitted head whose aim is to be found.
    pub aim_of: Option<u8>,
}

/// The point that is walked now.
#[must_use]
pub fn point_now(app: &AppState) -> Option<u16> {
    let test = app.job()?.walk.test.as_ref()?;
    let next = || u16::try_from(test.next_point()?).ok();
    app.drafts.walk.point.or_else(next)
}

/// The head that is approached now: the chosen one, else the first open one.
#[must_use]
pub fn head_now(app: &AppState) -> Option<u8> {
    let job = app.job()?;
    let open = (0_u8..)
        .zip(&job.spots)
        .map(|(spot, _)| spot)
        .find(|spot| !job.walk.heads.iter().any(|head| head.spot == *spot));
    app.drafts.walk.head.or(open)
}

pub(super) fn handle(app: &mut AppState, said: WalkIntent, now: &Now) -> Vec<Action> {
    match said {
        WalkIntent::Start(kind) => {
            app.drafts.walk.point = None;
            let actions = event(app, WalkEvent::Started(kind), now);
            prompted(app, actions, now)
        }
        WalkIntent::Sounded(sounded) => tap(app, sounded, now),
        WalkIntent::Choose(point) => {
            app.drafts.walk.point = Some(point);
            prompted(app, Vec::new(), now)
        }
        WalkIntent::Lead => lead(app, now),
        WalkIntent::Head(spot) => {
            app.drafts.walk.head = Some(spot);
            Vec::new()
        }
        WalkIntent::Answer(answered) => {
            let Some(spot) = head_now(app) else {
                return Vec::new();
            };
            app.drafts.walk.head = None;
            event(app, WalkEvent::HeadAnswered { spot, answered }, now)
        }
        WalkIntent::Pass(finding, spot) => {
            app.drafts.walk.passed.push((finding, spot));
            Vec::new()
        }
        WalkIntent::AimOf(spot) => {
            app.drafts.walk.aim_of = Some(spot);
            Vec::new()
        }
        WalkIntent::AimTaken(way) => aim_taken(app, way, now),
    }
}

fn event(app: &mut AppState, event: WalkEvent, now: &Now) -> Vec<Action> {
    app.notice = None;
    work::event(app, JobEvent::Walk(event), Back::Step, now)
}

fn tap(app: &mut AppState, sounded: Sounded, now: &Now) -> Vec<Action> {
    let Some(point) = point_now(app) else {
        return Vec::new();
    };
    app.drafts.walk.point = None;
    let mut actions = event(app, WalkEvent::Sounded { point, sounded }, now);
    if app.notice.is_some() {
        // Refused: the notice says why.
        return actions;
    }
    let whole = app
        .job()
        .and_then(|job| job.walk.test.as_ref())
        .is_some_and(job::WalkTest::is_whole);
    if whole {
        actions.extend(held::done());
        actions.extend(stop(app));
    } else {
        actions.extend(held::captured());
    }
    prompted(app, actions, now)
}

/// Turns the voice on or off.
fn lead(app: &mut AppState, now: &Now) -> Vec<Action> {
    if app.drafts.walk.lead.is_some() {
        return stop(app);
    }
    if point_now(app).is_none() {
        return Vec::new();
    }
    let mut actions = vec![Action::StartTurns];
    wait(app, Pace::Carry, CARRY, now.monotonic);
    actions.extend(say_point(app));
    actions
}

fn wait(app: &mut AppState, pace: Pace, how_long: Millis, now: Millis) {
    let until = now + how_long;
    let seconds = whole_seconds(how_long);
    app.drafts.walk.lead = Some(Lead {
        pace,
        until,
        seconds,
    });
}

fn whole_seconds(left: Millis) -> i64 {
    (left.0 / 1000.0).ceil().max(0.0) as i64
}

/// Stops the voice. Called as well when the screen is left.
pub(super) fn stop(app: &mut AppState) -> Vec<Action> {
    match app.drafts.walk.lead.take() {
        Some(_) => vec![Action::StopTurns],
        None => Vec::new(),
    }
}

/// The next point is said while the voice leads.
fn prompted(app: &mut AppState, mut actions: Vec<Action>, now: &Now) -> Vec<Action> {
    if app.drafts.walk.lead.is_some() && point_now(app).is_some() {
        wait(app, Pace::Carry, CARRY, now.monotonic);
        actions.extend(say_point(app));
    }
    actions
}

/// Time passes: after the carrying comes the listening, after that the
/// point is said again.
pub(super) fn tick(app: &mut AppState, at: Millis) -> Vec<Action> {
    let Some(lead) = &mut app.drafts.walk.lead else {
        return Vec::new();
    };
    let left = lead.until - at;
    lead.seconds = whole_seconds(left);
    if left.0 > 0.0 {
        return Vec::new();
    }
    match lead.pace {
        Pace::Carry => {
            wait(app, Pace::Listen, LISTEN, at);
            vec![
                Action::Sound(Tone::Moving),
                Action::Say(msg("walk-say-listen")),
            ]
        }
        Pace::Listen => {
            wait(app, Pace::Carry, CARRY, at);
            say_point(app).into_iter().collect()
        }
    }
}

fn say_point(app: &AppState) -> Option<Action> {
    let point = usize::from(point_now(app)?);
    let test = app.job()?.walk.test.as_ref()?;
    let place = test.points.get(point)?;
    let number = i64::try_from(point).unwrap_or(i64::MAX).saturating_add(1);
    let words = msg("walk-say-point")
        .count("number", number)
        .message("point", job::point_words(place));
    Some(Action::Say(words))
}

fn aim_taken(app: &mut AppState, way: RingWay, now: &Now) -> Vec<Action> {
    let (Some(job), Some(spot)) = (app.job(), app.drafts.walk.aim_of) else {
        return Vec::new();
    };
    match job::fitted_typed(job, spot, way) {
        Ok(aim) => {
            app.notice = None;
            let event = FaultEvent::AimFound {
                spot,
                aim: Box::new(aim),
            };
            work::event(app, JobEvent::Fault(event), Back::Step, now)
        }
        Err(why) => refuse(app, why),
    }
}

fn refuse(app: &mut AppState, message: Message) -> Vec<Action> {
    app.notice = Some(Notice {
        message,
        undo: None,
    });
    held::refused()
}
