//! Deleting for good: one job, all deleted ones, a customer's all, and what
//! was among the deleted ones for its days.

use chrono::{DateTime, FixedOffset};
use rakeline_core::job::JobId;
use rakeline_core::text::{Message, msg};

use super::entry::JobEntry;
use super::intent::{Action, Now, Place};
use super::jobs::{self, rests};
use super::keys::{KeySet, job_of};
use super::restock;
use super::state::AppState;
use super::stored::Erased;
use super::{brief, loose};
use crate::platform::StorageFault;

/// So long a deleted job can come back, days.
pub const TRASH_DAYS: i64 = 30;

/// Farther than that beyond the last change of anything the phone's clock is
/// not believed, days: nothing goes by it.
const CLOCK_DAYS: i64 = 365;

/// A file that was handed out so short ago may still be on its way to the
/// downloads, minutes.
const OUT_MINUTES: i64 = 10;

/// What is to be deleted for good.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum EraseWhat {
    /// One of the deleted jobs.
    Job(JobId),
    /// All deleted jobs.
    Trash,
    /// Every job of a customer, deleted or not.
    Customer(String),
    /// Pictures whose jobs are gone.
    Pictures,
}

impl EraseWhat {
    fn means(&self, entry: &JobEntry) -> bool {
        match self {
            Self::Job(id) => entry.deleted.is_some() && entry.id == *id,
            Self::Trash => entry.deleted.is_some(),
            Self::Customer(name) => same_customer(&entry.customer, name),
            Self::Pictures => false,
        }
    }

    /// What is asked before.
    #[must_use]
    pub fn question(&self, app: &AppState) -> Message {
        let count = |n: usize| i64::try_from(n).unwrap_or(i64::MAX);
        let all = count(meant(app, self).count());
        match self {
            Self::Customer(name) => {
                let asked = msg("erase-customer")
                    .count("jobs", all)
                    .text("customer", name.clone());
                match app.unreadable.len() {
                    0 => asked,
                    records => msg("erase-customer-unreadable")
                        .message("asked", asked)
                        .count("records", count(records)),
                }
            }
            Self::Job(_) | Self::Trash => msg("erase-jobs").count("jobs", all),
            Self::Pictures => msg("erase-pictures").count("photos", count(app.store.bereft.len())),
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

/// Entries whose record is gone go too, where all of a customer's do: they
/// hold the name.
fn meant<'a>(app: &'a AppState, what: &'a EraseWhat) -> impl Iterator<Item = &'a JobEntry> {
    let lost = match what {
        EraseWhat::Customer(_) => &app.lost[..],
        _ => &[],
    };
    let all = app.jobs.iter().chain(&app.trash).chain(lost);
    all.filter(move |entry| what.means(entry))
}

/// Deletes what was asked for and confirmed. A job that does not rest (one
/// that is being kept or moved) stays, and so nothing at all is deleted.
pub(super) fn erase(app: &mut AppState, what: &EraseWhat) -> Vec<Action> {
    if app.backup.is_taking() {
        return jobs::say(app, msg("restore-wait"));
    }
    if *what == EraseWhat::Pictures {
        return loose::drop_bereft(app);
    }
    let ids: Vec<JobId> = meant(app, what).map(|entry| entry.id.clone()).collect();
    if ids.is_empty() {
        return Vec::new();
    }
    if !ids.iter().all(|id| rests(app, id)) {
        return jobs::say(app, msg("erase-busy"));
    }
    begin(app, |entry| what.means(entry))
}

/// Deletes the entries that are meant, with the pictures that no other job
/// has.
fn begin(app: &mut AppState, means: impl Fn(&JobEntry) -> bool) -> Vec<Action> {
    let everything = || app.jobs.iter().chain(&app.trash).chain(&app.lost);
    let others = || everything().filter(|entry| !means(entry));
    let kept = KeySet::of_all(others().flat_map(|entry| &entry.blobs));
    let all: Vec<Erased> = everything()
        .filter(|entry| means(entry))
        .map(|entry| {
            let mut blobs = entry.blobs.clone();
            blobs.retain(|blob| !kept.has(blob));
            Erased {
                id: entry.id.clone(),
                place: brief::place(entry),
                blobs,
            }
        })
        .collect();
    if all.is_empty() {
        return Vec::new();
    }
    // Pictures taken for one of them that another job has as well.
    let ids = KeySet::of_all(all.iter().map(|one| &one.id.0));
    let shared = others().flat_map(|entry| &entry.blobs);
    let shared = shared.filter(|blob| job_of(blob).is_some_and(|id| ids.has(id)));
    let shared: Vec<String> = shared.cloned().collect();
    app.store.erasing.extend(all.iter().cloned());
    vec![Action::Erase(all, shared)]
}

/// When something was last changed or deleted here, or backed up.
fn newest(app: &AppState) -> Option<DateTime<FixedOffset>> {
    let all = app.jobs.iter().chain(&app.trash);
    let said = all.flat_map(|entry| [Some(entry.changed), entry.deleted]);
    said.flatten().chain(app.settings.backed_up).max()
}

/// Deleted jobs whose days are over go for good, unless the phone's clock
/// stands so far ahead of everything that it must be wrong.
pub(super) fn expired(app: &mut AppState, now: &Now) -> Vec<Action> {
    let days = |since| now.at.signed_duration_since(since).num_days();
    if newest(app).is_some_and(|newest| days(newest) > CLOCK_DAYS) {
        return Vec::new();
    }
    begin(app, |entry| {
        let over = |at: DateTime<FixedOffset>| days(at) >= TRASH_DAYS;
        entry.deleted.is_some_and(over)
    })
}

/// The records are gone, or all are still there.
pub(super) fn done(
    app: &mut AppState,
    all: &[Erased],
    outcome: Result<(), StorageFault>,
    now: &Now,
) -> Vec<Action> {
    let of = |place: Place| {
        let there = all.iter().filter(move |one| one.place == place);
        KeySet::of_all(there.map(|one| &one.id.0))
    };
    let (in_jobs, in_trash) = (of(Place::Jobs), of(Place::Trash));
    let has = |place: Place, id: &JobId| match place {
        Place::Jobs => in_jobs.has(&id.0),
        Place::Trash => in_trash.has(&id.0),
    };
    app.store.erasing.retain(|one| !has(one.place, &one.id));
    if let Err(fault) = outcome {
        return jobs::say(app, fault.message());
    }
    let gone: Vec<JobEntry> = {
        let jobs = app.jobs.iter().chain(&app.trash).chain(&app.lost);
        let erased = jobs.filter(|entry| has(brief::place(entry), &entry.id));
        erased.cloned().collect()
    };
    for list in [&mut app.jobs, &mut app.trash, &mut app.lost] {
        list.retain(|entry| !has(brief::place(entry), &entry.id));
    }
    let count = i64::try_from(all.len()).unwrap_or(i64::MAX);
    jobs::say(app, msg("erased").count("jobs", count));
    let mut actions = restock::gone(app, &gone);
    actions.push(Action::AskRoom);
    let minutes = |at| now.at.signed_duration_since(at).num_minutes();
    if app
        .backup
        .handed
        .is_none_or(|at| minutes(at) >= OUT_MINUTES)
    {
        actions.push(Action::EmptyOut);
    }
    actions
}
