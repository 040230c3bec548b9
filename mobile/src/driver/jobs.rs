//! The list of jobs: start, open, delete with a way back, and the store's
//! answers.

use rakeline_core::job::{JobId, JobState};
use rakeline_core::kit;
use rakeline_core::record;
use rakeline_core::text::{Message, msg};

use super::SETTINGS_KEY;
use super::intent::{Action, Now, Place};
use super::state::{
    AppState, Boot, JobEntry, Notice, OpenJob, Saved, Settings, UndoOf, Unreadable,
};
use super::work::{self, Shown};
use crate::platform::{StorageFault, Write};
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
    app.jobs = entries(jobs, &mut unreadable);
    app.trash = entries(trash, &mut unreadable);
    app.unreadable = unreadable;
    app.settings = settings
        .and_then(|text| serde_json::from_str::<Settings>(text).ok())
        .unwrap_or_default();
    app.boot = Boot::Ready;
    match Route::of(path) {
        Route::Jobs => Vec::new(),
        Route::Job(id, step) => vec![Action::Load(id, step)],
    }
}

fn entries(records: Vec<(String, String)>, unreadable: &mut Vec<Unreadable>) -> Vec<JobEntry> {
    let mut entries = Vec::new();
    for (key, text) in records {
        match record::read(&text) {
            Ok(job) => entries.push(JobEntry::of(&job)),
            Err(fault) => unreadable.push(Unreadable {
                key,
                why: fault.message(),
            }),
        }
    }
    sort(&mut entries);
    entries
}

fn sort(entries: &mut [JobEntry]) {
    entries.sort_by(|a, b| b.changed.cmp(&a.changed).then_with(|| a.id.cmp(&b.id)));
}

pub(super) fn boot_failed(app: &mut AppState, fault: &StorageFault) -> Vec<Action> {
    app.boot = Boot::NoStorage(fault.message());
    Vec::new()
}

/// Starts a job. A second tap while one is being opened starts none.
pub(super) fn start(app: &mut AppState, id: JobId, now: &Now) -> Vec<Action> {
    if app.route != Route::Jobs || app.open.is_some() {
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
    enter(app, job, Step::Measures)
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

fn enter(app: &mut AppState, job: JobState, step: Step) -> Vec<Action> {
    let route = Route::Job(job.id.clone(), step);
    app.open = Some(OpenJob {
        job,
        before: Vec::new(),
        saved: Saved::Yes,
    });
    app.route = route.clone();
    app.notice = None;
    let mut actions = vec![Action::Push(route)];
    actions.extend(save(app));
    actions
}

/// One atomic step with the open job and the settings as they are now.
pub(super) fn save(app: &mut AppState) -> Vec<Action> {
    let Some(open) = &mut app.open else {
        return Vec::new();
    };
    app.commits += 1;
    open.saved = Saved::Saving(app.commits);
    let entry = JobEntry::of(&open.job);
    app.jobs.retain(|other| other.id != entry.id);
    let mut writes = vec![Write::Put {
        key: Place::Jobs.key(&entry.id),
        value: record::write(&open.job),
    }];
    app.jobs.push(entry);
    sort(&mut app.jobs);
    if let Ok(value) = serde_json::to_string(&app.settings) {
        writes.push(Write::Put {
            key: SETTINGS_KEY.to_owned(),
            value,
        });
    }
    vec![Action::Commit(app.commits, writes)]
}

pub(super) fn save_again(app: &mut AppState) -> Vec<Action> {
    app.notice = None;
    save(app)
}

pub(super) fn committed(
    app: &mut AppState,
    number: u64,
    outcome: Result<(), StorageFault>,
) -> Vec<Action> {
    let left = app.leaving.take_if(|(left, _)| *left == number);
    let Err(fault) = outcome else {
        if let Some(open) = &mut app.open
            && open.saved == Saved::Saving(number)
        {
            open.saved = Saved::Yes;
        }
        return Vec::new();
    };
    match (left, &mut app.open) {
        // Left before it was kept: it comes back to the screen.
        (Some((_, job)), None) => {
            let route = Route::Job(job.id.clone(), best_step(&job, Step::Measures));
            app.open = Some(OpenJob {
                job,
                before: Vec::new(),
                saved: Saved::No(fault.message()),
            });
            app.route = route.clone();
            vec![Action::Push(route)]
        }
        (_, Some(open)) => {
            open.saved = Saved::No(fault.message());
            Vec::new()
        }
        (None, None) => say(app, fault.message()),
    }
}

fn say(app: &mut AppState, message: Message) -> Vec<Action> {
    app.notice = Some(Notice {
        message,
        undo: None,
    });
    Vec::new()
}

pub(super) fn open(app: &mut AppState, id: &JobId) -> Vec<Action> {
    if app.open.is_some() {
        return Vec::new();
    }
    vec![Action::Load(id.clone(), Step::Measures)]
}

pub(super) fn loaded(
    app: &mut AppState,
    id: &JobId,
    step: Step,
    found: Result<Option<String>, StorageFault>,
) -> Vec<Action> {
    let message = match found {
        Ok(Some(text)) => match record::read(&text) {
            Ok(job) => {
                let step = best_step(&job, step);
                let route = Route::Job(job.id.clone(), step);
                let fresh = app.route == Route::Jobs;
                app.open = Some(OpenJob {
                    job,
                    before: Vec::new(),
                    saved: Saved::Yes,
                });
                app.route = route.clone();
                app.notice = None;
                return vec![if fresh {
                    Action::Push(route)
                } else {
                    Action::Replace(route)
                }];
            }
            Err(fault) => fault.message(),
        },
        Ok(None) => msg("job-not-here").text("id", id.0.clone()),
        Err(fault) => fault.message(),
    };
    app.open = None;
    app.route = Route::Jobs;
    say(app, message);
    vec![Action::Replace(Route::Jobs)]
}

/// A job opens where its work stands, or where the address says.
fn best_step(job: &JobState, asked: Step) -> Step {
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
    match leave(app) {
        Ok(mut actions) => {
            app.route = Route::Jobs;
            actions.push(Action::Push(Route::Jobs));
            actions
        }
        Err(stays) => stays,
    }
}

/// Closes the open job. One that could not be kept stays on the screen, so
/// that nothing typed is lost; then the actions are in `Err`.
fn leave(app: &mut AppState) -> Result<Vec<Action>, Vec<Action>> {
    let Some(open) = app.open.take() else {
        return Ok(Vec::new());
    };
    match open.saved {
        Saved::No(_) => {
            app.open = Some(open);
            app.notice = Some(Notice {
                message: msg("leave-not-saved"),
                undo: None,
            });
            Err(vec![Action::Push(app.route.clone())])
        }
        Saved::Saving(number) => {
            app.leaving = Some((number, open.job));
            Ok(work::leave_screen(app))
        }
        Saved::Yes => Ok(work::leave_screen(app)),
    }
}

pub(super) fn popped(app: &mut AppState, path: &str) -> Vec<Action> {
    let to = Route::of(path);
    if let Route::Job(id, step) = &to
        && app.job().is_some_and(|job| job.id == *id)
    {
        return work::show(app, *step, Shown::Already);
    }
    let mut actions = match leave(app) {
        Ok(actions) => actions,
        Err(stays) => return stays,
    };
    app.route = to.clone();
    if let Route::Job(id, step) = to {
        actions.push(Action::Load(id, step));
    }
    actions
}

/// Moves a job to the deleted ones; the notice offers the way back.
pub(super) fn delete(app: &mut AppState, id: &JobId) -> Vec<Action> {
    shift(&app.jobs, id, Place::Trash)
}

/// Moves a deleted job back.
pub(super) fn restore(app: &mut AppState, id: &JobId) -> Vec<Action> {
    app.notice = None;
    shift(&app.trash, id, Place::Jobs)
}

fn shift(from: &[JobEntry], id: &JobId, to: Place) -> Vec<Action> {
    if from.iter().any(|entry| entry.id == *id) {
        vec![Action::Move(id.clone(), to)]
    } else {
        Vec::new()
    }
}

pub(super) fn moved(
    app: &mut AppState,
    id: &JobId,
    to: Place,
    outcome: Result<(), StorageFault>,
) -> Vec<Action> {
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
