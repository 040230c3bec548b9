//! The open job: what was typed, planned and taped, one step back, the sheet.

use rakeline_core::decide::mark_out::PlanKind;
use rakeline_core::job::{
    self, BeforeEvent, Field, HalfWidths, JobEvent, JobState, MarksFrom, Particular, Tape,
};
use rakeline_core::text::{Message, msg};
use rakeline_core::units::Millis;

use super::intent::{Action, Now};
use super::state::{AppState, Notice, UndoOf};
use super::{cards, fit, guide, held, keeping, learn, level, photos, reading, sight, walk};
use crate::route::{Route, Step};

/// How many steps back are kept.
const UNDO_DEPTH: usize = 50;

/// Two taps within this print once.
const PRINT_ONCE: Millis = Millis(1500.0);

/// Whether the address already shows the step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Shown {
    /// The fitter went there through the history.
    Already,
    /// It becomes a new step of the history.
    NotYet,
}

/// Whether an event can be taken back as a step of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Back {
    /// It is a step.
    Step,
    /// Typing: the field itself is the way back.
    Typing,
}

/// Applies an event to the open job and saves it. A refusal is said at the
/// foot and changes nothing.
pub(super) fn event(app: &mut AppState, event: JobEvent, back: Back, now: &Now) -> Vec<Action> {
    let Some(open) = &mut app.open else {
        return Vec::new();
    };
    match job::apply(&open.job, event, now.at) {
        Ok(next) => {
            let before = std::mem::replace(&mut open.job, next);
            if back == Back::Step {
                open.after.clear();
                open.before.push(before);
                let over = open.before.len().saturating_sub(UNDO_DEPTH);
                open.before.drain(..over);
            }
            let mut actions = keeping::save(app);
            actions.extend(sight::follow(app));
            actions
        }
        Err(refusal) => {
            refuse(app, refusal.0);
            Vec::new()
        }
    }
}

fn refuse(app: &mut AppState, message: Message) {
    app.notice = Some(Notice {
        message,
        undo: None,
    });
}

pub(super) fn go_step(app: &mut AppState, step: Step) -> Vec<Action> {
    show(app, step, Shown::NotYet)
}

/// Shows a step of the open job; the faces start the sensor.
pub(super) fn show(app: &mut AppState, step: Step, shown: Shown) -> Vec<Action> {
    let Some(id) = app.job().map(|job| job.id.clone()) else {
        return Vec::new();
    };
    let route = Route::Job(id, step);
    if route == app.route && shown == Shown::NotYet {
        return Vec::new();
    }
    let mut actions = leave_screen(app);
    app.notice = None;
    app.route = route.clone();
    if shown == Shown::NotYet {
        actions.push(Action::Push(route));
    }
    match step {
        Step::Faces => actions.extend(reading::start(app)),
        _ => actions.extend(arrive(app)),
    }
    actions
}

/// Starts what the screen of a job needs that has just come up, by a tap or
/// by its address; but not the sensor, which some browsers give to taps only.
pub(super) fn arrive(app: &mut AppState) -> Vec<Action> {
    let Route::Job(_, step) = app.route else {
        return Vec::new();
    };
    match step {
        Step::Level => level::start(app),
        Step::Cards => cards::open(app),
        Step::Sight | Step::Sheet => sight::follow(app),
        _ => Vec::new(),
    }
}

/// Stops what only the screen that is left needs.
pub(super) fn leave_screen(app: &mut AppState) -> Vec<Action> {
    let mut actions = held::stop(app);
    actions.extend(level::leave(app));
    actions.extend(walk::stop(app));
    actions.extend(photos::leave(app));
    actions.extend(cards::leave(app));
    actions.extend(guide::leave(app));
    actions.extend(learn::leave(app));
    let photos = app.drafts.photos.kept();
    let cards = app.drafts.cards.kept();
    app.drafts = super::measure::Drafts::default();
    app.drafts.photos = photos;
    app.drafts.cards = cards;
    actions
}

pub(super) fn rename(app: &mut AppState, name: String, now: &Now) -> Vec<Action> {
    event(app, JobEvent::Named(name), Back::Typing, now)
}

pub(super) fn particular(
    app: &mut AppState,
    which: Particular,
    text: String,
    now: &Now,
) -> Vec<Action> {
    if which == Particular::Fitter {
        app.settings.fitter.clone_from(&text);
    }
    event(
        app,
        JobEvent::ParticularTyped(which, text),
        Back::Typing,
        now,
    )
}

pub(super) fn typed(app: &mut AppState, field: Field, text: String, now: &Now) -> Vec<Action> {
    fit::remember(&mut app.settings, field, &text);
    event(app, JobEvent::Typed(field, text), Back::Typing, now)
}

/// Shows the marks. Where none were planned for what is typed, the proposed
/// plan is taken; where none is proposed, the screen asks for a pick.
pub(super) fn show_marks(app: &mut AppState, now: &Now) -> Vec<Action> {
    let Some(job) = app.job() else {
        return Vec::new();
    };
    if job.marks.is_some() && !job::marks_are_stale(job) {
        return show(app, Step::Marks, Shown::NotYet);
    }
    let mut refused = None;
    if let (HalfWidths::Ready { left, right, .. }, job::Agrees::Yes) =
        (job::half_widths(job), job::halves_agree(job))
    {
        let as_before = JobEvent::Before(BeforeEvent::MarksAsBefore {
            half_left: left,
            half_right: right,
        });
        let mut actions = event(app, as_before, Back::Step, now);
        if !actions.is_empty() {
            actions.extend(show(app, Step::Marks, Shown::NotYet));
            return actions;
        }
        refused = app.notice.take().map(|notice| notice.message);
    }
    let Some(job) = app.job() else {
        return Vec::new();
    };
    let actions = match job::plans(job) {
        Some(Ok(plans)) => match plans.proposed {
            Some(kind) => plan_marks(app, kind, now),
            None => show(app, Step::Marks, Shown::NotYet),
        },
        _ => Vec::new(),
    };
    if let (Some(why), None) = (refused, &app.notice) {
        let words = msg("before-marks-anew").message("why", why);
        refuse(app, words);
    }
    actions
}

/// Plans the marks from what stands in the two fields and shows them. The
/// same marks again are no new step. Where there are none, it is said why.
pub(super) fn plan_marks(app: &mut AppState, kind: PlanKind, now: &Now) -> Vec<Action> {
    let Some(job) = app.job() else {
        return Vec::new();
    };
    let (left, right) = match job::half_widths(job) {
        HalfWidths::Ready { left, right, .. } => (left, right),
        HalfWidths::Open { left, right } => {
            let why = left.or(right);
            refuse(app, why.unwrap_or_else(|| msg("half-widths-first")));
            return Vec::new();
        }
    };
    let plans = match job::plans(job) {
        Some(Ok(plans)) => plans,
        Some(Err(none)) => {
            if let Some(why) = job::no_plan_messages(job, &none).into_iter().next() {
                refuse(app, why);
            }
            return Vec::new();
        }
        None => return Vec::new(),
    };
    let offsets = plans.get(kind).marks.clone();
    let same = job.marks.as_ref().is_some_and(|marks| {
        marks.offsets == offsets
            && marks.from == MarksFrom::Plan(kind)
            && marks.half_left == left
            && marks.half_right == right
    });
    let lost = job::readings_lost(job, &offsets);
    let mut actions = Vec::new();
    if !same {
        actions = event(
            app,
            JobEvent::MarksPlanned {
                half_left: left,
                half_right: right,
                kind,
                offsets,
            },
            Back::Step,
            now,
        );
        if actions.is_empty() {
            // Refused, and said why.
            return actions;
        }
    }
    // What was said of an earlier try holds no more.
    app.notice = None;
    actions.extend(show(app, Step::Marks, Shown::NotYet));
    if let Some(message) = lost {
        app.notice = Some(Notice {
            message,
            undo: Some(UndoOf::Step),
        });
    }
    actions
}

/// Tape is on: said once, it stays said; the faces follow.
pub(super) fn tape_on(app: &mut AppState, now: &Now) -> Vec<Action> {
    let said = |job: &JobState| {
        job.marks
            .as_ref()
            .is_some_and(|marks| marks.tape != Tape::NotYet)
    };
    let mut actions = if app.job().is_some_and(said) {
        Vec::new()
    } else {
        event(app, JobEvent::TapeLaid, Back::Step, now)
    };
    if app.job().is_some_and(|job| job.marks.is_some()) {
        actions.extend(show(app, Step::Faces, Shown::NotYet));
    }
    actions
}

/// Brings back the open job as it was before its last step. What was typed
/// since stays.
pub(super) fn undo(app: &mut AppState, now: &Now) -> Vec<Action> {
    let Some(open) = &mut app.open else {
        return Vec::new();
    };
    let Some(before) = open.before.pop() else {
        return Vec::new();
    };
    let back = job::step_back(&open.job, &before, now.at);
    open.after.push(std::mem::replace(&mut open.job, back));
    followed(app)
}

/// Does the step again that was taken back last.
pub(super) fn redo(app: &mut AppState, now: &Now) -> Vec<Action> {
    let Some(open) = &mut app.open else {
        return Vec::new();
    };
    let Some(after) = open.after.pop() else {
        return Vec::new();
    };
    let again = job::step_again(&open.job, &after, now.at);
    open.before.push(std::mem::replace(&mut open.job, again));
    followed(app)
}

/// Keeps a job that went a step back or forward; the sensor follows.
fn followed(app: &mut AppState) -> Vec<Action> {
    app.notice = None;
    let mut actions = keeping::save(app);
    actions.extend(reading::follow(app));
    actions.extend(sight::follow(app));
    actions
}

/// Issues the job sheet and prints it. As long as the job does not change,
/// the same issue is printed again; a second tap at once prints nothing.
/// Gives the job as it is a sheet number, unless it has one.
pub(super) fn issue(app: &mut AppState, now: &Now) -> Vec<Action> {
    if app.job().is_none_or(|job| job.issued().is_some()) {
        return Vec::new();
    }
    let zone = now.zone.clone();
    event(app, JobEvent::SheetIssued { zone }, Back::Typing, now)
}

pub(super) fn issue_sheet(app: &mut AppState, now: &Now) -> Vec<Action> {
    let mut actions = issue(app, now);
    if !actions.is_empty() {
        app.printed = None;
    }
    if app.job().is_some_and(|job| job.issued().is_some()) {
        actions.extend(print_once(app, now));
    }
    actions
}

/// Opens the print view of what is on the screen; a second tap at once
/// prints nothing.
pub(super) fn print_once(app: &mut AppState, now: &Now) -> Vec<Action> {
    let again = |printed| now.monotonic - printed < PRINT_ONCE;
    if app.printed.is_some_and(again) {
        return Vec::new();
    }
    app.printed = Some(now.monotonic);
    vec![Action::Print]
}
