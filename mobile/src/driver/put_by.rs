//! What was put by of jobs: as they were before a visit, or before a backup
//! took their place. Jobs as their sheets were issued are not among them:
//! those are opened again from the sheet. Each can be kept as a job of its own.

use chrono::{DateTime, FixedOffset};
use rakeline_core::job::{JobId, JobState};
use rakeline_core::order;
use rakeline_core::record;
use rakeline_core::text::msg;

use super::intent::{Action, Now};
use super::jobs;
use super::state::AppState;
use super::{KEPT_JOB_PREFIX, KEPT_RESTORED_PREFIX, KEPT_SHEET_PREFIX};
use crate::platform::StorageFault;
use crate::route::Step;

/// Why a job was put by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PutByWhy {
    /// The vehicle came again.
    Visit,
    /// A backup's took its place.
    Restored,
}

/// A job that was put by.
#[derive(Clone, Debug, PartialEq)]
pub struct PutBy {
    /// Its key in the store.
    pub key: String,
    /// Why it was.
    pub why: PutByWhy,
    /// As it was; `None` where its text can't be read.
    pub job: Option<Box<JobState>>,
}

impl PutBy {
    /// Its last change.
    #[must_use]
    pub fn changed(&self) -> Option<DateTime<FixedOffset>> {
        self.job.as_ref().map(|job| job.changed)
    }
}

/// The newest first, those that can't be read last.
pub(super) fn found(
    app: &mut AppState,
    found: Result<Vec<(String, String)>, StorageFault>,
) -> Vec<Action> {
    let found = match found {
        Ok(found) => found,
        Err(fault) => return jobs::say(app, fault.message()),
    };
    let mut all: Vec<PutBy> = found
        .into_iter()
        .filter_map(|(key, text)| {
            let rest = key.strip_prefix(KEPT_JOB_PREFIX).unwrap_or(&key);
            let part = rest.split_once('/').map_or("", |(_, part)| part);
            if part.starts_with(KEPT_SHEET_PREFIX) {
                return None;
            }
            let why = match part.starts_with(KEPT_RESTORED_PREFIX) {
                true => PutByWhy::Restored,
                false => PutByWhy::Visit,
            };
            let job = record::read(&text).ok().map(Box::new);
            Some(PutBy { key, why, job })
        })
        .collect();
    order::sort_by(&mut all, |a, b| b.changed().cmp(&a.changed()));
    app.store.put_by = Some(all);
    Vec::new()
}

/// A job of its own out of one that was put by, which stays as it is. Its
/// pictures are the same ones.
pub(super) fn own_job(app: &mut AppState, key: &str, id: JobId, now: &Now) -> Vec<Action> {
    if app.open.is_some() {
        return Vec::new();
    }
    if app.backup.is_taking() {
        return jobs::say(app, msg("restore-wait"));
    }
    let mut all = app.store.put_by.iter().flatten();
    let kept = all.find(|kept| kept.key == key);
    let Some(mut job) = kept.and_then(|kept| kept.job.clone()) else {
        return Vec::new();
    };
    job.id = id;
    job.changed = now.at;
    jobs::enter(app, *job, Step::Measures)
}
