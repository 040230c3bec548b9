//! The list of jobs: start, open, leave, delete with a way back.

use rakeline_core::job::{FaultEvent, JobEvent, JobId, JobState, apply};
use rakeline_core::json;
use rakeline_core::kit;
use rakeline_core::order;
use rakeline_core::record;
use rakeline_core::text::{Message, msg};

use super::intent::{Action, Now, Place};
use super::state::{AppState, Boot, JobEntry, Notice, Saved, Settings, UndoOf, Unreadable};
use super::work::{self, Shown};
use super::{JOB_PREFIX, TRASH_PREFIX, again, fit, keeping, kits};
use crate::platform::StorageFault;
use crate::route::{Route, Step};
use crate::sample_job;

/// The kit sheet of the first start.
const FIRST_KIT: &str = include_str!("../../../assets/kits/plain-four.json");

pub(super) fn booted(
    app: &mut AppState,
    jobs: Vec<(String, String)>,
    trash: Vec<(String, String)>,
    settings: Option<&str>,
    path: &str,
) -> Vec<Action> {
    let mut unreadable = Vec::new();
    app.jobs = entries(jobs, JOB_PREFIX, &mut unreadable);
    app.trash = entries(trash, TRASH_PREFIX, &mut unreadable);
    app.unreadable = unreadable;
    read_settings(app, settings);
    app.boot = Boot::Ready;
    match Route::of(path) {
        Route::Job(id, step) => {
            app.route = Route::Job(id.clone(), step);
            load(app, id, step)
        }
        other => {
            app.route = other;
            kits::arrive(app);
            again::arrive(app)
        }
    }
}

fn entries(
    records: Vec<(String, String)>,
    prefix: &str,
    unreadable: &mut Vec<Unreadable>,
) -> Vec<JobEntry> {
    let mut entries = Vec::new();
    for (key, text) in records {
        let id = JobId(key.strip_prefix(prefix).unwrap_or(&key).to_owned());
        match read_as(&id, &text) {
            Ok(job) => entries.push(JobEntry::of(&job)),
            Err(why) => unreadable.push(Unreadable { key, why }),
        }
    }
    sort(&mut entries);
    entries
}

/// What can be read of the settings. Where something can't, the text is put
/// by with the first commit.
fn read_settings(app: &mut AppState, text: Option<&str>) {
    let Some(text) = text else { return };
    match json::read::<Settings>(text) {
        Ok(settings) => app.settings = settings,
        Err(_) => {
            let settings = json::parse(text).unwrap_or_default();
            let fitter = settings.get("fitter").and_then(|fitter| fitter.as_str());
            app.settings.fitter = fitter.unwrap_or_default().to_owned();
            app.broken_settings = Some(text.to_owned());
        }
    }
}

pub(super) fn sort(entries: &mut [JobEntry]) {
    order::sort_by(entries, |a, b| {
        b.changed.cmp(&a.changed).then_with(|| a.id.cmp(&b.id))
    });
}

pub(super) fn boot_failed(app: &mut AppState, fault: &StorageFault) -> Vec<Action> {
    app.boot = Boot::NoStorage(fault.message());
    Vec::new()
}

/// Starts a job. A second tap while one is being opened starts none.
pub(super) fn start(app: &mut AppState, id: JobId, now: &Now) -> Vec<Action> {
    if app.boot == Boot::Opening || app.route != Route::Jobs || app.open.is_some() {
        return Vec::new();
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
    let on_its_way = app.opening.as_ref() == Some(id) || app.moving.contains(id);
    if app.open.is_some() || on_its_way {
        return Vec::new();
    }
    if let Some(route) = keeping::reopen(app, id, Step::Measures) {
        return vec![Action::Push(route)];
    }
    load(app, id.clone(), Step::Measures)
}

fn load(app: &mut AppState, id: JobId, step: Step) -> Vec<Action> {
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
                return vec![if fresh {
                    Action::Push(route)
                } else {
                    Action::Replace(route)
                }];
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
fn read_as(id: &JobId, text: &str) -> Result<JobState, Message> {
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
            Some(route) => actions.push(Action::Replace(route)),
            None => actions.extend(load(app, id, step)),
        }
    }
    actions
}

/// Moves a job to the deleted ones; the notice offers the way back.
pub(super) fn delete(app: &mut AppState, id: &JobId) -> Vec<Action> {
    shift(app, id, Place::Trash)
}

/// Moves a deleted job back.
pub(super) fn restore(app: &mut AppState, id: &JobId) -> Vec<Action> {
    app.notice = None;
    shift(app, id, Place::Jobs)
}

/// Moves a record that rests, once, and never onto one that can't be read.
fn shift(app: &mut AppState, id: &JobId, to: Place) -> Vec<Action> {
    let from = match to {
        Place::Trash => &app.jobs,
        Place::Jobs => &app.trash,
    };
    let busy = app.moving.contains(id)
        || app.opening.as_ref() == Some(id)
        || app.job().is_some_and(|job| job.id == *id)
        || app.left.iter().any(|left| left.job.id == *id);
    if busy || !from.iter().any(|entry| entry.id == *id) {
        return Vec::new();
    }
    let key = to.key(id);
    if app.unreadable.iter().any(|record| record.key == key) {
        return say(app, msg("record-kept").text("key", key));
    }
    app.moving.push(id.clone());
    vec![Action::Move(id.clone(), to)]
}

pub(super) fn moved(
    app: &mut AppState,
    id: &JobId,
    to: Place,
    outcome: Result<(), StorageFault>,
) -> Vec<Action> {
    app.moving.retain(|moving| moving != id);
    if let Err(fault) = outcome {
        return say(app, fault.message());
    }
    let (from, into) = match to {
        Place::Trash => (&mut app.jobs, &mut app.trash),
        Place::Jobs => (&mut app.trash, &mut app.jobs),
    };
    let Some(place) = from.iter().position(|entry| entry.id == *id) else {
        return Vec::new();
    };
    let entry = from.remove(place);
    into.push(entry);
    sort(into);
    if to == Place::Trash {
        app.notice = Some(Notice {
            message: msg("job-deleted"),
            undo: Some(UndoOf::Deletion(id.clone())),
        });
    }
    Vec::new()
}
