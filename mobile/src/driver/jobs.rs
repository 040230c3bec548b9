//! The list of jobs: start, open, leave, delete with a way back.

use std::cmp::Ordering;

use rakeline_core::job::{FaultEvent, JobEvent, JobId, JobState, apply};
use rakeline_core::kit;
use rakeline_core::order;
use rakeline_core::record;
use rakeline_core::text::{Message, msg};

use super::entry::JobEntry;
use super::intent::{Action, Now, Place};
use super::state::{AppState, Boot, Notice, Saved, UndoOf};
use super::work::{self, Shown};
use super::{again, brief, fit, keeping, kits};
use crate::platform::StorageFault;
use crate::route::{Route, Step};
use crate::sample_job;

/// The kit sheet of the first start.
const FIRST_KIT: &str = include_str!("../../../assets/kits/plain-four.json");

fn newest_first(a: &JobEntry, b: &JobEntry) -> Ordering {
    b.changed.cmp(&a.changed).then_with(|| a.id.cmp(&b.id))
}

pub(super) fn sort(entries: &mut [JobEntry]) {
    order::sort_by(entries, newest_first);
}

/// Puts an entry in its place of a list in order, instead of the one that
/// was there.
pub(super) fn place(entries: &mut Vec<JobEntry>, entry: JobEntry) {
    if let Some(at) = entries.iter().position(|other| other.id == entry.id) {
        entries.remove(at);
    }
    let at = entries.partition_point(|other| newest_first(other, &entry) == Ordering::Less);
    entries.insert(at, entry);
}

/// Starts a job. A second tap while one is being opened starts none.
pub(super) fn start(app: &mut AppState, id: JobId, now: &Now) -> Vec<Action> {
    if app.boot == Boot::Opening || app.route != Route::Jobs || app.open.is_some() {
        return Vec::new();
    }
    if app.backup.is_taking() {
        return say(app, msg("restore-wait"));
    }
    let Some(kit) = app.settings.last_kit.clone().or_else(first_kit) else {
        return say(app, msg("kit-none"));
    };
    app.settings.last_kit = Some(kit.clone());
    let mut job = JobState::start(id, kit, now.at);
    if !app.settings.fitter.is_empty() {
        job.particulars.insert(
            rakeline_core::job::Particular::Fitter,
            app.settings.fitter.clone(),
        );
    }
    fit::prefill(&mut job, &app.settings);
    enter(app, job, Step::Measures)
}

/// Starts the search for a fault on a system that another fitted.
pub(super) fn start_fault(app: &mut AppState, id: JobId, now: &Now) -> Vec<Action> {
    if app.boot == Boot::Opening || app.route != Route::Jobs || app.open.is_some() {
        return Vec::new();
    }
    if app.backup.is_taking() {
        return say(app, msg("restore-wait"));
    }
    let Some(kit) = app.settings.last_kit.clone().or_else(first_kit) else {
        return say(app, msg("kit-none"));
    };
    let job = JobState::start(id, kit, now.at);
    let elsewhere = JobEvent::Fault(FaultEvent::FittedElsewhere);
    match apply(&job, elsewhere, now.at) {
        Ok(job) => enter(app, job, Step::Fault),
        Err(refusal) => say(app, refusal.0),
    }
}

fn first_kit() -> Option<kit::KitSheet> {
    kit::parse(FIRST_KIT).ok()
}

pub(super) fn open_sample(app: &mut AppState, id: JobId, now: &Now) -> Vec<Action> {
    if app.open.is_some() {
        return Vec::new();
    }
    if app.backup.is_taking() {
        return say(app, msg("restore-wait"));
    }
    match first_kit().and_then(|kit| sample_job::build(id, kit, now.at)) {
        Some(job) => enter(app, job, Step::Marks),
        None => Vec::new(),
    }
}

pub(super) fn enter(app: &mut AppState, job: JobState, step: Step) -> Vec<Action> {
    let route = keeping::on_screen(app, job, Saved::Yes, step);
    let mut actions = vec![Action::Push(route)];
    actions.extend(keeping::save(app));
    actions
}

pub(super) fn say(app: &mut AppState, message: Message) -> Vec<Action> {
    app.notice = Some(Notice {
        message,
        undo: None,
    });
    Vec::new()
}

/// Opens a job of the list. A second tap on it opens nothing more.
pub(super) fn open(app: &mut AppState, id: &JobId) -> Vec<Action> {
    let on_its_way = app.opening.as_ref() == Some(id) || is_moving(app, id);
    if app.open.is_some() || on_its_way {
        return Vec::new();
    }
    if app.backup.is_taking() {
        return say(app, msg("restore-wait"));
    }
    if let Some(route) = keeping::reopen(app, id, Step::Measures) {
        return vec![Action::Push(route)];
    }
    load(app, id.clone(), Step::Measures)
}

pub(super) fn load(app: &mut AppState, id: JobId, step: Step) -> Vec<Action> {
    app.opening = Some(id.clone());
    vec![Action::Load(id, step)]
}

/// A record was read. One that is no longer asked for opens nothing.
pub(super) fn loaded(
    app: &mut AppState,
    id: &JobId,
    step: Step,
    found: Result<Option<String>, StorageFault>,
) -> Vec<Action> {
    if app.opening.as_ref() != Some(id) {
        return Vec::new();
    }
    app.opening = None;
    let message = match found {
        Ok(Some(text)) => match read_as(id, &text) {
            Ok(job) => {
                let fresh = app.route == Route::Jobs;
                let route = keeping::on_screen(app, job, Saved::Yes, step);
                let mut actions = vec![if fresh {
                    Action::Push(route)
                } else {
                    Action::Replace(route)
                }];
                actions.extend(work::arrive(app));
                return actions;
            }
            Err(message) => message,
        },
        Ok(None) => msg("job-not-here").text("id", id.0.clone()),
        Err(fault) => fault.message(),
    };
    app.route = Route::Jobs;
    say(app, message);
    vec![Action::Replace(Route::Jobs)]
}

/// The job of a record, if it is the one whose key it stands under.
pub(super) fn read_as(id: &JobId, text: &str) -> Result<JobState, Message> {
    let job = record::read(text).map_err(|fault| fault.message())?;
    if job.id == *id {
        Ok(job)
    } else {
        Err(msg("record-of-another-job").text("id", job.id.0))
    }
}

/// A job opens where its work stands, or where the address says.
pub(super) fn best_step(job: &JobState, asked: Step) -> Step {
    if asked != Step::Measures {
        return asked;
    }
    let read = job.read_count();
    match &job.marks {
        None => Step::Measures,
        Some(_) if read == job.spots.len() => Step::Rings,
        Some(_) if read > 0 => Step::Faces,
        Some(_) => Step::Marks,
    }
}

pub(super) fn go_list(app: &mut AppState) -> Vec<Action> {
    if app.route == Route::Jobs {
        return Vec::new();
    }
    go_to(app, Route::Jobs)
}

/// Shows a screen outside jobs as a new step of the history.
pub(super) fn go_to(app: &mut AppState, route: Route) -> Vec<Action> {
    let Some(mut actions) = keeping::leave(app) else {
        return Vec::new();
    };
    app.opening = None;
    app.route = route.clone();
    app.notice = None;
    kits::arrive(app);
    let recall = again::arrive(app);
    let next = keeping::bring_back(app).unwrap_or_else(|| vec![Action::Push(route)]);
    actions.extend(next);
    actions.extend(recall);
    actions
}

/// The fitter went back or forward. From a job that is not kept there is no
/// way: its address comes back.
pub(super) fn popped(app: &mut AppState, path: &str) -> Vec<Action> {
    let to = Route::of(path);
    if let Route::Job(id, step) = &to
        && app.job().is_some_and(|job| job.id == *id)
    {
        return work::show(app, *step, Shown::Already);
    }
    if matches!(to, Route::Job(..)) && app.backup.is_taking() {
        say(app, msg("restore-wait"));
        return vec![Action::Push(app.route.clone())];
    }
    let Some(mut actions) = keeping::leave(app) else {
        return vec![Action::Push(app.route.clone())];
    };
    app.opening = None;
    app.route = to.clone();
    kits::arrive(app);
    actions.extend(again::arrive(app));
    if let Some(back) = keeping::bring_back(app) {
        actions.extend(back);
    } else if let Route::Job(id, step) = to {
        match keeping::reopen(app, &id, step) {
            Some(route) => {
                actions.push(Action::Replace(route));
                actions.extend(work::arrive(app));
            }
            None => actions.extend(load(app, id, step)),
        }
    }
    actions
}

/// Moves a job to the deleted ones; the notice offers the way back.
pub(super) fn delete(app: &mut AppState, id: &JobId, now: &Now) -> Vec<Action> {
    shift(app, id, Place::Trash, now)
}

/// Moves a deleted job back.
pub(super) fn restore(app: &mut AppState, id: &JobId, now: &Now) -> Vec<Action> {
    app.notice = None;
    shift(app, id, Place::Jobs, now)
}

fn is_moving(app: &AppState, id: &JobId) -> bool {
    app.moving.iter().any(|entry| entry.id == *id)
}

/// Whether a job's record rests: it is not on the screen, not on its way
/// there, not being kept, moved or deleted.
pub(super) fn rests(app: &AppState, id: &JobId) -> bool {
    !is_moving(app, id)
        && app.opening.as_ref() != Some(id)
        && app.job().is_none_or(|job| job.id != *id)
        && !app.left.iter().any(|left| left.job.id == *id)
        && !app.store.erasing.iter().any(|one| one.id == *id)
}

/// Moves a record that rests, once, and never onto one that can't be read or
/// onto another that is there.
fn shift(app: &mut AppState, id: &JobId, to: Place, now: &Now) -> Vec<Action> {
    let (from, there, deleted) = match to {
        Place::Trash => (&app.jobs, &app.trash, Some(now.at)),
        Place::Jobs => (&app.trash, &app.jobs, None),
    };
    let Some(entry) = from.iter().find(|entry| entry.id == *id) else {
        return Vec::new();
    };
    if !rests(app, id) {
        return Vec::new();
    }
    if app.backup.is_taking() {
        return say(app, msg("restore-wait"));
    }
    let key = to.key(id);
    if app.unreadable.iter().any(|record| record.key == key) {
        return say(app, msg("record-kept").text("key", key));
    }
    if there.iter().any(|other| other.id == *id) {
        return say(app, msg("record-twice"));
    }
    let mut entry = entry.clone();
    entry.deleted = deleted;
    app.moving.push(entry.clone());
    vec![Action::Move(Box::new(entry))]
}

pub(super) fn moved(
    app: &mut AppState,
    id: &JobId,
    outcome: Result<(), StorageFault>,
) -> Vec<Action> {
    let Some(at) = app.moving.iter().position(|entry| entry.id == *id) else {
        return Vec::new();
    };
    let entry = app.moving.remove(at);
    if let Err(fault) = outcome {
        return say(app, fault.message());
    }
    let to = brief::place(&entry);
    let (from, into) = match to {
        Place::Trash => (&mut app.jobs, &mut app.trash),
        Place::Jobs => (&mut app.trash, &mut app.jobs),
    };
    from.retain(|other| other.id != *id);
    place(into, entry);
    if to == Place::Trash {
        app.notice = Some(Notice {
            message: msg("job-deleted"),
            undo: Some(UndoOf::Deletion(id.clone())),
        });
    }
    Vec::new()
}
