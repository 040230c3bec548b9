//! What the jobs took from the shelf, and what of it was bought again: counted
//! part by part, so that what a job takes later is on the list, and a deleted
//! job takes nothing off it.

use chrono::{DateTime, FixedOffset};
use rakeline_core::decide::parts::{Part, PartLine, add, restock, still_to_buy};
use rakeline_core::text::msg;
use serde::{Deserialize, Serialize};

use super::entry::JobEntry;
use super::intent::Action;
use super::state::{AppState, UndoOf};
use super::{keeping, kits};

/// What was bought again, and what jobs took that are gone for good.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Bought {
    /// Bought again, by part.
    pub parts: Vec<PartLine>,
    /// Taken by jobs that are deleted for good.
    pub gone: Vec<PartLine>,
    /// All that was taken up to then was bought again: how it was kept before
    /// parts were counted.
    pub all_until: Option<DateTime<FixedOffset>>,
}

impl Bought {
    fn counts(&self, entry: &JobEntry) -> bool {
        let at = entry.taken_at;
        at.is_some_and(|at| self.all_until.is_none_or(|until| at > until))
    }
}

/// What all jobs took, deleted ones too: a part that is used is used.
fn taken(app: &AppState) -> Vec<PartLine> {
    let bought = &app.settings.bought;
    let jobs = app.jobs.iter().chain(&app.trash);
    let mut all: Vec<Vec<PartLine>> = vec![bought.gone.clone()];
    all.extend(
        jobs.filter(|entry| bought.counts(entry))
            .map(JobEntry::parts),
    );
    restock(all.iter().map(Vec::as_slice))
}

/// What is to be bought.
#[must_use]
pub fn to_buy(app: &AppState) -> Vec<PartLine> {
    still_to_buy(&taken(app), &app.settings.bought.parts)
}

/// All that stands on the list is bought again; it can be taken back.
pub(super) fn all_bought(app: &mut AppState) -> Vec<Action> {
    let list = to_buy(app);
    if list.is_empty() {
        return Vec::new();
    }
    let before = app.settings.bought.clone();
    for line in list {
        add(&mut app.settings.bought.parts, line.part, line.count);
    }
    let undo = UndoOf::Bought(Box::new(before));
    kits::say(app, msg("restock-bought"), Some(undo));
    keep(app)
}

/// It was not bought after all.
pub(super) fn not_bought(app: &mut AppState, before: Bought) -> Vec<Action> {
    app.notice = None;
    app.settings.bought = before;
    keep(app)
}

/// Jobs are gone for good: their parts stay on the list, but for what was
/// typed in words, which goes with the job.
pub(super) fn gone(app: &mut AppState, entries: &[JobEntry]) -> Vec<Action> {
    let bought = &mut app.settings.bought;
    let before = bought.clone();
    for entry in entries.iter().filter(|entry| before.counts(entry)) {
        for line in entry.parts() {
            if matches!(line.part, Part::Other(_)) {
                bought.parts = take_off(&bought.parts, &line);
            } else {
                add(&mut bought.gone, line.part, line.count);
            }
        }
    }
    if *bought == before {
        return Vec::new();
    }
    keep(app)
}

fn take_off(lines: &[PartLine], off: &PartLine) -> Vec<PartLine> {
    still_to_buy(lines, std::slice::from_ref(off))
}

fn keep(app: &mut AppState) -> Vec<Action> {
    let writes = keeping::settings(app);
    kits::commit(app, writes)
}
