//! The start: the lists, the settings, and what the address says.

use rakeline_core::job::{JobId, JobState};
use rakeline_core::json;
use rakeline_core::text::Message;

use super::entry::JobEntry;
use super::intent::{Action, Now};
use super::jobs::{load, read_as, sort};
use super::state::{AppState, Boot, Settings, Unreadable};
use super::stored::Stored;
use super::{JOB_PREFIX, TRASH_PREFIX, again, brief, erase, keeping, kits};
use crate::platform::StorageFault;
use crate::route::Route;

pub(super) fn booted(app: &mut AppState, stored: Stored, path: &str, now: &Now) -> Vec<Action> {
    app.boot = Boot::Ready;
    let mut actions = fill(app, stored, now);
    actions.extend(erase::expired(app, now));
    if let Some(back) = left_before(app) {
        actions.extend(back);
        return actions;
    }
    match Route::of(path) {
        Route::Job(id, step) => {
            app.route = Route::Job(id.clone(), step);
            actions.extend(load(app, id, step));
        }
        other => {
            app.route = other;
            kits::arrive(app);
            actions.extend(again::arrive(app));
        }
    }
    actions
}

/// The lists as the store has them; records without a brief get theirs.
pub(super) fn fill(app: &mut AppState, stored: Stored, now: &Now) -> Vec<Action> {
    read_settings(app, stored.settings.as_deref());
    app.lost = stored.lost;
    app.store.half = stored.restoring;
    let bereft = stored.bereft.unwrap_or_default();
    app.store.bereft = bereft.lines().map(str::to_owned).collect();
    app.unreadable = Vec::new();
    let mut entries = stored.entries;
    let mut writes = Vec::new();
    for (key, text) in stored.records {
        match entry_of(&key, &text, now) {
            Ok(entry) => {
                writes.push(brief::put(&entry));
                entries.push(entry);
            }
            Err(why) => app.unreadable.push(Unreadable::of(key, &text, why)),
        }
    }
    let in_trash = |entry: &JobEntry| entry.deleted.is_some();
    (app.trash, app.jobs) = entries.into_iter().partition(in_trash);
    sort(&mut app.jobs);
    sort(&mut app.trash);
    writes.extend(keeping::put_by(app));
    keeping::commit(app, writes)
}

/// A job that this page could not keep before another took over comes back,
/// unless the other has changed it since.
fn left_before(app: &mut AppState) -> Option<Vec<Action>> {
    let jobs = &app.jobs;
    let newer = |job: &JobState| {
        let mut stored = jobs.iter().filter(|entry| entry.id == job.id);
        stored.any(|entry| entry.changed > job.changed)
    };
    app.left.retain(|left| !newer(&left.job));
    keeping::bring_back(app)
}

/// The entry of a record that had no brief.
fn entry_of(key: &str, text: &str, now: &Now) -> Result<JobEntry, Message> {
    let (id, deleted) = match key.strip_prefix(TRASH_PREFIX) {
        // Nobody knows since when; its days begin now.
        Some(id) => (id, Some(now.at)),
        None => (key.strip_prefix(JOB_PREFIX).unwrap_or(key), None),
    };
    let job = read_as(&JobId(id.to_owned()), text)?;
    let mut entry = JobEntry::of(&job, text);
    entry.deleted = deleted;
    Ok(entry)
}

/// What can be read of the settings. Where something can't, the text is put
/// by at once: their logo is named nowhere else.
fn read_settings(app: &mut AppState, text: Option<&str>) {
    let Some(text) = text else { return };
    match json::read::<Settings>(text) {
        Ok(settings) => {
            app.settings = settings.taken_over();
            app.broken_settings = None;
        }
        Err(_) => {
            let settings = json::parse(text).unwrap_or_default();
            let fitter = settings.get("fitter").and_then(|fitter| fitter.as_str());
            app.settings.fitter = fitter.unwrap_or_default().to_owned();
            app.broken_settings = Some(text.to_owned());
        }
    }
}

pub(super) fn boot_failed(app: &mut AppState, fault: &StorageFault) -> Vec<Action> {
    app.boot = Boot::NoStorage(fault.message());
    Vec::new()
}
