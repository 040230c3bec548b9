//! What the heads will see: asked of the worker, one picture at a time. What
//! changes while one is under way is asked for once it is there.

use std::rc::Rc;

use rakeline_core::drawing::{Day, Probe, Sight, SightAsked, Squares, Standing};
use rakeline_core::text::{Message, msg};

use super::intent::Action;
use super::state::AppState;
use crate::platform::{Task, WorkEvent};
use crate::route::{Route, Step};

/// The prediction on the screen.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SightDraft {
    /// What is asked.
    pub asked: SightAsked,
    /// What was computed last.
    pub shown: Option<Rc<Sight>>,
    /// Why there is nothing to show.
    pub trouble: Option<Message>,
    /// Number of the worker's task under way.
    number: Option<u64>,
    /// What is under way is no longer what is asked.
    stale: bool,
}

impl SightDraft {
    /// How far the chosen heads are tilted, degrees, + up; `None` where all
    /// are chosen and they differ.
    #[must_use]
    pub fn tilt(&self) -> Option<f64> {
        let tilted = &self.asked.tilted;
        match self.asked.only {
            Some(head) => Some(tilted.get(head).copied().unwrap_or_default()),
            None => {
                let first = tilted.first().copied().unwrap_or_default();
                tilted.iter().all(|by| *by == first).then_some(first)
            }
        }
    }
}

/// What the fitter asks of the prediction.
#[derive(Clone, Debug, PartialEq)]
pub enum SightIntent {
    /// One head alone, or all together.
    Only(Option<usize>),
    /// The chosen heads point so much higher (+) than they are to, degrees.
    Tilt(f64, Squares),
    /// Whose air.
    Day(Day),
    /// What stands there.
    Standing(Standing),
    /// A place is asked about.
    Probe(Probe),
    /// Once more after a failure.
    Again,
}

/// Greatest tilt that is tried, degrees either way.
pub const TILT_GREATEST: f64 = 10.0;

pub(super) fn handle(app: &mut AppState, said: SightIntent) -> Vec<Action> {
    let heads = app.job().map_or(0, |job| job.spots.len());
    let asked = &mut app.drafts.sight.asked;
    match said {
        SightIntent::Tilt(by, _) if by.is_nan() => return Vec::new(),
        SightIntent::Only(head) => asked.only = head.filter(|head| *head < heads),
        SightIntent::Tilt(by, squares) => {
            let by = by.clamp(-TILT_GREATEST, TILT_GREATEST);
            asked.squares = squares;
            asked.tilted.resize(heads, 0.0);
            match asked.only {
                Some(head) => asked
                    .tilted
                    .iter_mut()
                    .skip(head)
                    .take(1)
                    .for_each(|t| *t = by),
                None => asked.tilted.fill(by),
            }
        }
        SightIntent::Day(day) => asked.day = day,
        SightIntent::Standing(standing) => asked.standing = standing,
        SightIntent::Probe(probe) => asked.probe = Some(probe),
        SightIntent::Again => {}
    }
    ask(app)
}

/// After a change of the job: asks again where the prediction is shown.
pub(super) fn follow(app: &mut AppState) -> Vec<Action> {
    match app.route {
        Route::Job(_, Step::Sight | Step::Sheet) => ask(app),
        _ => Vec::new(),
    }
}

/// Asks the worker, unless it is busy; then once it is not.
fn ask(app: &mut AppState) -> Vec<Action> {
    let Some(job) = app.job().filter(|job| job.marks.is_some()).cloned() else {
        app.drafts.sight.trouble = Some(msg("coverage-no-marks"));
        return Vec::new();
    };
    let draft = &mut app.drafts.sight;
    if draft.number.is_some() || app.making.is_some() {
        draft.stale = true;
        return Vec::new();
    }
    app.worked += 1;
    draft.number = Some(app.worked);
    draft.stale = false;
    let task = Task::Sight {
        job: Box::new(job),
        asked: draft.asked.clone(),
    };
    vec![Action::StartWork(app.worked, task)]
}

/// Asks for what had to wait.
pub(super) fn catch_up(app: &mut AppState) -> Vec<Action> {
    if app.drafts.sight.stale {
        ask(app)
    } else {
        Vec::new()
    }
}

/// The sheets' task took the worker: what was under way is asked for after
/// it.
pub(super) fn give_way(app: &mut AppState) {
    let draft = &mut app.drafts.sight;
    draft.stale |= draft.number.take().is_some();
}

/// What the worker said, where it is about a prediction.
pub(super) fn worked(app: &mut AppState, number: u64, event: &WorkEvent) -> Option<Vec<Action>> {
    let draft = &mut app.drafts.sight;
    if draft.number != Some(number) {
        return None;
    }
    match event {
        WorkEvent::Progress(_) => return Some(Vec::new()),
        WorkEvent::Done(bytes) => {
            let sight = std::str::from_utf8(bytes).ok();
            match sight.map(rakeline_core::json::read::<Sight>) {
                Some(Ok(sight)) => {
                    draft.shown = Some(Rc::new(sight));
                    draft.trouble = None;
                }
                _ => draft.trouble = Some(msg("sight-unreadable")),
            }
        }
        WorkEvent::Failed(message) => draft.trouble = Some(message.clone()),
    }
    draft.number = None;
    Some(catch_up(app))
}
