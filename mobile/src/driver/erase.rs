//! Deleting for good: one job, all deleted ones, a customer's all, and what
//! was among the deleted ones for its days.

use rakeline_core::job::JobId;
use rakeline_core::text::{Message, msg};

use super::brief;
use super::entry::JobEntry;
use super::intent::{Action, Now};
use super::jobs::{self, rests};
use super::restock;
use super::state::AppState;
use super::stored::Erased;
use crate::platform::StorageFault;

/// So long a deleted job can come back, days.
pub const TRASH_DAYS: i64 = 30;

/// What is to be deleted for good.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum EraseWhat {
    /// One of the deleted jobs.
    Job(JobId),
    /// All deleted jobs.
    Trash,
    /// Every job of a customer, deleted or not.
    Customer(String),
}

impl EraseWhat {
    fn means(&self, entry: &JobEntry) -> bool {
        match self {
            Self::Job(id) => entry.deleted.is_some() && entry.id == *id,
            Self::Trash => entry.deleted.is_some(),
            Self::Customer(name) => same_customer(&entry.customer, name),
        }
    }

    /// What is asked before.
    #[must_use]
    pub fn question(&self, app: &AppState) -> Message {
        let all = i64::try_from(meant(app, self).count()).unwrap_or(i64::MAX);
        match self {
            Self::Customer(name) => msg("erase-customer")
                .count("jobs", all)
                .text("customer", name.clone()),
            Self::Job(_) | Self::Trash => msg("erase-jobs").count("jobs", all),
        }
    }
}

/// Whether two typed names are one customer's: capitals and gaps aside.
fn same_customer(a: &str, b: &str) -> bool {
    let words =
        |name: &str| -> Vec<String> { name.split_whitespace().map(str::to_lowercase).collect() };
    let a = words(a);
    !a.is_empty() && a == words(b)
}

/// The customers of all jobs with how many jobs each has, by name.
#[must_use]
pub fn customers(app: &AppState) -> Vec<(String, usize)> {
    let mut all: Vec<(String, String)> = app
        .jobs
        .iter()
        .chain(&app.trash)
        .filter(|entry| !entry.customer.is_empty())
        .map(|entry| {
            let words: Vec<&str> = entry.customer.split_whitespace().collect();
            (words.join(" ").to_lowercase(), entry.customer.clone())
        })
        .collect();
    rakeline_core::order::sort_by(&mut all, |a, b| a.0.cmp(&b.0));
    let mut counted: Vec<(String, usize)> = Vec::new();
    let mut last = None;
    for (key, name) in all {
        match counted.last_mut() {
            Some((_, count)) if last.as_ref() == Some(&key) => *count += 1,
            _ => counted.push((name, 1)),
        }
        last = Some(key);
    }
    counted
}

fn meant<'a>(app: &'a AppState, what: &'a EraseWhat) -> impl Iterator<Item = &'a JobEntry> {
    let all = app.jobs.iter().chain(&app.trash);
    all.filter(move |entry| what.means(entry))
}

/// Deletes what was asked for and confirmed. A job that does not rest (one
/// that is being kept or moved) stays, and so nothing at all is deleted.
pub(super) fn erase(app: &mut AppState, what: &EraseWhat) -> Vec<Action> {
    let ids: Vec<JobId> = meant(app, what).map(|entry| entry.id.clone()).collect();
    if ids.is_empty() {
        return Vec::new();
    }
    if !ids.iter().all(|id| rests(app, id)) {
        return jobs::say(app, msg("erase-busy"));
    }
    let all = meant(app, what)
        .map(|entry| erased(app, what, entry))
        .collect();
    begin(app, all)
}

fn erased(app: &AppState, what: &EraseWhat, entry: &JobEntry) -> Erased {
    let others = || {
        let all = app.jobs.iter().chain(&app.trash).chain(&app.lost);
        all.filter(|other| !what.means(other))
    };
    let mut blobs = entry.blobs.clone();
    blobs.retain(|blob| !others().any(|other| other.blobs.contains(blob)));
    Erased {
        id: entry.id.clone(),
        place: brief::place(entry),
        blobs,
    }
}

fn begin(app: &mut AppState, all: Vec<Erased>) -> Vec<Action> {
    app.store.erasing.extend(all.iter().cloned());
    vec![Action::Erase(all)]
}

/// Deleted jobs whose days are over go for good.
pub(super) fn expired(app: &mut AppState, now: &Now) -> Vec<Action> {
    let over = |entry: &&JobEntry| {
        let since = entry.deleted.map(|at| now.at.signed_duration_since(at));
        since.is_some_and(|since| since.num_days() >= TRASH_DAYS)
    };
    let over: Vec<JobId> = app
        .trash
        .iter()
        .filter(over)
        .map(|e| e.id.clone())
        .collect();
    let all: Vec<Erased> = over
        .into_iter()
        .filter_map(|id| {
            let what = EraseWhat::Job(id);
            let entry = meant(app, &what).next()?;
            Some(erased(app, &what, entry))
        })
        .collect();
    if all.is_empty() {
        return Vec::new();
    }
    begin(app, all)
}

/// The records are gone, or all are still there.
pub(super) fn done(
    app: &mut AppState,
    all: &[Erased],
    outcome: Result<(), StorageFault>,
) -> Vec<Action> {
    app.store.erasing.retain(|one| !all.contains(one));
    if let Err(fault) = outcome {
        return jobs::say(app, fault.message());
    }
    let gone: Vec<JobEntry> = {
        let erased = |entry: &&JobEntry| all.iter().any(|one| one.id == entry.id);
        let jobs = app.jobs.iter().chain(&app.trash);
        jobs.filter(erased).cloned().collect()
    };
    for one in all {
        let list = match one.place {
            super::Place::Jobs => &mut app.jobs,
            super::Place::Trash => &mut app.trash,
        };
        list.retain(|entry| entry.id != one.id);
    }
    let count = i64::try_from(all.len()).unwrap_or(i64::MAX);
    jobs::say(app, msg("erased").count("jobs", count));
    let mut actions = restock::gone(app, &gone);
    actions.push(Action::AskRoom);
    actions
}
