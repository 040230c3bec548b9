//! Keeping jobs: commits, their answers, and what happens to a job that was
//! left before its commit was done.

use rakeline_core::job::JobState;
use rakeline_core::json;
use rakeline_core::record;
use rakeline_core::text::msg;

use super::cards_draft::CardsDraft;
use super::entry::JobEntry;
use super::intent::Action;
use super::jobs::{best_step, place, say};
use super::state::{AppState, Boot, LeftHow, LeftJob, Notice, OpenJob, Saved};
use super::{KEPT_SETTINGS_KEY, SETTINGS_KEY, brief, issues, paper, reading, work};
use crate::platform::{StorageFault, Write};
use crate::route::{Route, Step};

/// One atomic step with the open job, the settings as they are now, and
/// jobs left before whose commit failed.
pub(super) fn save(app: &mut AppState) -> Vec<Action> {
    let Some(open) = &mut app.open else {
        return Vec::new();
    };
    let value = match record::write(&open.job) {
        Ok(value) => value,
        Err(fault) => {
            open.saved = Saved::No(fault.message());
            return Vec::new();
        }
    };
    app.commits += 1;
    open.saved = Saved::Saving(app.commits);
    let entry = JobEntry::of(&open.job, &value);
    let issued = issues::kept(&open.job, &value);
    let mut writes = put(&entry, value).to_vec();
    writes.extend(issued);
    place(&mut app.jobs, entry);
    writes.extend(left_again(app));
    writes.extend(settings(app));
    note_put_by(app, &writes);
    vec![Action::Commit(app.commits, writes)]
}

/// The steps that keep a record and its entry.
#[must_use]
pub fn put(entry: &JobEntry, record: String) -> [Write; 2] {
    let record = Write::Put {
        key: brief::place(entry).key(&entry.id),
        value: record,
    };
    [record, brief::put(entry)]
}

/// One atomic step beside the open job; none where there is nothing to do.
pub(super) fn commit(app: &mut AppState, writes: Vec<Write>) -> Vec<Action> {
    if writes.is_empty() {
        return Vec::new();
    }
    app.commits += 1;
    note_put_by(app, &writes);
    vec![Action::Commit(app.commits, writes)]
}

/// Settings that can't be read count as put by once a commit that holds them
/// is done, not with any other.
fn note_put_by(app: &mut AppState, writes: &[Write]) {
    let holds = |write: &Write| matches!(write, Write::Put { key, .. } if key == KEPT_SETTINGS_KEY);
    if writes.iter().any(holds) {
        app.putting_by = app.commits;
    }
}

/// The step that puts by settings that can't be read; none where all can.
pub(super) fn put_by(app: &AppState) -> Option<Write> {
    app.broken_settings.clone().map(|value| Write::Put {
        key: KEPT_SETTINGS_KEY.to_owned(),
        value,
    })
}

/// Jobs whose last commit failed go along with this one.
fn left_again(app: &mut AppState) -> Vec<Write> {
    let number = app.commits;
    let failed = |left: &&mut LeftJob| matches!(left.how, LeftHow::NotKept(_));
    app.left
        .iter_mut()
        .filter(failed)
        .filter_map(|left| {
            let value = record::write(&left.job).ok()?;
            left.how = LeftHow::Saving(number);
            Some(put(&JobEntry::of(&left.job, &value), value))
        })
        .flatten()
        .collect()
}

/// The settings; those that could not be read at the start are put by first.
/// Settings that were never read are not written.
pub(super) fn settings(app: &AppState) -> Vec<Write> {
    if !matches!(app.boot, Boot::Ready) {
        return Vec::new();
    }
    let now = json::write(&app.settings).ok();
    let now = now.map(|value| Write::Put {
        key: SETTINGS_KEY.to_owned(),
        value,
    });
    put_by(app).into_iter().chain(now).collect()
}

pub(super) fn save_again(app: &mut AppState) -> Vec<Action> {
    app.notice = None;
    save(app)
}

/// Takes the store's answer to a commit. An older commit that failed is
/// made good by a newer one of the same job, which holds all of it.
pub(super) fn committed(
    app: &mut AppState,
    number: u64,
    outcome: Result<(), StorageFault>,
) -> Vec<Action> {
    let Err(fault) = outcome else {
        if let Some(open) = &mut app.open
            && open.saved == Saved::Saving(number)
        {
            open.saved = Saved::Yes;
        }
        app.left.retain(|left| left.how != LeftHow::Saving(number));
        if app.putting_by == number {
            app.broken_settings = None;
        }
        return Vec::new();
    };
    let mut left_behind = false;
    for left in &mut app.left {
        if left.how == LeftHow::Saving(number) {
            left.how = LeftHow::NotKept(fault.message());
            left_behind = true;
        }
    }
    let Some(open) = &mut app.open else {
        return bring_back(app).unwrap_or_default();
    };
    if open.saved == Saved::Saving(number) {
        open.saved = Saved::No(fault.message());
    }
    if left_behind {
        say(app, msg("left-not-saved").message("why", fault.message()));
    }
    Vec::new()
}

/// Closes the open job. One that could not be kept stays on the screen, so
/// that nothing typed is lost: `None`.
pub(super) fn leave(app: &mut AppState) -> Option<Vec<Action>> {
    let Some(open) = app.open.take() else {
        return Some(Vec::new());
    };
    match open.saved {
        Saved::No(_) => {
            app.open = Some(open);
            app.notice = Some(Notice {
                message: msg("leave-not-saved"),
                undo: None,
            });
            return None;
        }
        Saved::Saving(number) => app.left.push(LeftJob {
            job: open.job,
            how: LeftHow::Saving(number),
        }),
        Saved::Yes => {}
    }
    app.notice = None;
    let mut actions = work::leave_screen(app);
    // Another job's photos they must not become.
    app.drafts.cards = CardsDraft::default();
    actions.extend(paper::stop(app));
    Some(actions)
}

/// A job that was left and could not be kept comes back to the screen.
pub(super) fn bring_back(app: &mut AppState) -> Option<Vec<Action>> {
    let not_kept = |left: &LeftJob| matches!(left.how, LeftHow::NotKept(_));
    let place = app.left.iter().position(not_kept)?;
    let left = app.left.remove(place);
    let route = show_left(app, left, Step::Measures);
    Some(vec![Action::Push(route)])
}

/// A job that was left and is not kept yet opens as it was left, not as it
/// is stored.
pub(super) fn reopen(
    app: &mut AppState,
    id: &rakeline_core::job::JobId,
    step: Step,
) -> Option<Route> {
    let place = app.left.iter().position(|left| left.job.id == *id)?;
    let left = app.left.remove(place);
    Some(show_left(app, left, step))
}

fn show_left(app: &mut AppState, left: LeftJob, step: Step) -> Route {
    let saved = match left.how {
        LeftHow::Saving(number) => Saved::Saving(number),
        LeftHow::NotKept(why) => Saved::No(why),
    };
    on_screen(app, left.job, saved, step)
}

/// Puts a job on the screen, where its work stands or where the address says.
pub(super) fn on_screen(app: &mut AppState, job: JobState, saved: Saved, step: Step) -> Route {
    let route = Route::Job(job.id.clone(), best_step(&job, step));
    app.open = Some(OpenJob {
        job,
        before: Vec::new(),
        after: Vec::new(),
        saved,
    });
    app.opening = None;
    app.route = route.clone();
    app.notice = None;
    reading::wait_for_tap(app);
    route
}
