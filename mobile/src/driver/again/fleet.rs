//! Fleets: several vehicles from one job.

use rakeline_core::again::{
    self, FLEET_GREATEST, Fleet, FleetParts, Lesson, Likeness, VehicleName, fleet_parts, lesson,
};
use rakeline_core::decide::parts::PartLine;
use rakeline_core::job::{JobId, JobState, Particular};
use rakeline_core::text::msg;

use super::{begun, enter};
use crate::driver::intent::{Action, Now};
use crate::driver::state::{AppState, Notice, UndoOf};
use crate::driver::{jobs, keeping};
use crate::route::Route;

/// A fleet as its screen shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct FleetView {
    /// The fleet.
    pub fleet: Fleet,
    /// Its vehicles' jobs, in the order in which they were begun.
    pub jobs: Vec<JobState>,
    /// Parts of all of them.
    pub parts: FleetParts,
}

impl FleetView {
    /// The fleet of that name, with its jobs as they were read.
    #[must_use]
    pub fn of(app: &AppState, name: &str) -> Option<Self> {
        let mut fleet = app.settings.fleets.iter().find(|f| f.id == name)?.clone();
        fleet.jobs.retain(|id| is_kept(app, id));
        let read = |id: &JobId| app.again.jobs.iter().find(|job| job.id == *id).cloned();
        let jobs: Vec<JobState> = fleet.jobs.iter().filter_map(read).collect();
        let parts = fleet_parts(&fleet, &jobs, &model(app, &fleet));
        Some(Self { fleet, jobs, parts })
    }
}

/// By what a fitter in the yard tells a vehicle from the others: its plate,
/// else what its job is called; `None` where neither is typed.
#[must_use]
pub fn told_apart_by(job: &JobState) -> Option<String> {
    let said = [job.particular(Particular::Plate), &job.name];
    let mut said = said.into_iter().map(str::trim);
    said.find(|text| !text.is_empty()).map(str::to_owned)
}

/// Whether a vehicle's job is among the jobs; a deleted one is begun anew.
fn is_kept(app: &AppState, id: &JobId) -> bool {
    app.jobs.iter().any(|entry| entry.id == *id) || app.job().is_some_and(|job| job.id == *id)
}

/// What one vehicle of the fleet is expected to take: as its first job did.
fn model(app: &AppState, fleet: &Fleet) -> Vec<PartLine> {
    let mut from = fleet.from.iter();
    let first = from.find_map(|id| app.again.jobs.iter().find(|job| job.id == *id));
    let own = first.and_then(lesson);
    let known = own.or_else(|| theirs(app, fleet, &[]).into_iter().next());
    known.map_or_else(Vec::new, |lesson| lesson.parts)
}

/// What the colleagues' jobs teach that the fleet was planned from.
fn theirs(app: &AppState, fleet: &Fleet, own: &[Lesson]) -> Vec<Lesson> {
    let model = VehicleName::read(&fleet.vehicle);
    let of_fleet = |(key, lesson): &(String, Lesson)| {
        let name = VehicleName::read(&lesson.vehicle);
        fleet.theirs.contains(key) && name.likeness(&model) != Likeness::Other
    };
    let all = app.again.theirs_beside(own).into_iter().filter(of_fleet);
    all.map(|(_, lesson)| lesson).collect()
}

/// So many vehicles from what is offered; the first one starts.
pub(super) fn start(app: &mut AppState, id: JobId, now: &Now) -> Vec<Action> {
    if app.backup.is_taking() {
        return jobs::say(app, msg("restore-wait"));
    }
    let typed = app.again.fleet_typed.trim();
    let count = match typed.parse::<u16>() {
        Ok(count) if (1..=FLEET_GREATEST).contains(&count) => count,
        _ => {
            let message = msg("fleet-count-wrong")
                .text("typed", typed)
                .count("most", i64::from(FLEET_GREATEST));
            return jobs::say(app, message);
        }
    };
    let Some(offer) = app.again.offer.clone() else {
        return Vec::new();
    };
    let job = match begun(app, id, now) {
        Some(Ok(job)) => job,
        Some(Err(why)) => return jobs::say(app, why),
        None => return Vec::new(),
    };
    let id = job.id.clone();
    let own = offer.from.iter().filter(|from| from.theirs.is_none());
    let keys = offer.from.iter().filter(|from| from.theirs.is_some());
    let mut keys: Vec<String> = keys
        .filter_map(|from| Some(from.id.rsplit_once('/')?.0.to_owned()))
        .collect();
    keys.dedup();
    app.settings.fleets.push(Fleet {
        id: id.0.clone(),
        vehicle: job.particular(Particular::Vehicle).to_owned(),
        count,
        from: own.map(|from| JobId(from.id.clone())).collect(),
        jobs: vec![id],
        theirs: keys,
        left_out: app.again.left_out.clone(),
    });
    enter(app, job)
}

pub(super) fn go(app: &mut AppState, name: String) -> Vec<Action> {
    jobs::go_to(app, Route::Fleet(name))
}

/// The next vehicle starts from all jobs of the fleet so far.
pub(super) fn next(app: &mut AppState, id: JobId, now: &Now) -> Vec<Action> {
    if app.backup.is_taking() {
        return jobs::say(app, msg("restore-wait"));
    }
    let Route::Fleet(name) = app.route.clone() else {
        return Vec::new();
    };
    let Some(at) = app.settings.fleets.iter().position(|f| f.id == name) else {
        return Vec::new();
    };
    let mut fleet = app.settings.fleets[at].clone();
    fleet.jobs.retain(|id| is_kept(app, id));
    if app.again.waiting || fleet.left() == 0 {
        return Vec::new();
    }
    let mut lessons: Vec<Lesson> = app.again.jobs.iter().filter_map(lesson).collect();
    let theirs = theirs(app, &fleet, &lessons);
    lessons.extend(theirs);
    let wanted = VehicleName::read(&fleet.vehicle);
    let vehicle = fleet.vehicle.clone();
    app.again.offer = again::offer(&wanted, &lessons).map(std::rc::Rc::new);
    app.again.left_out.clone_from(&fleet.left_out);
    app.again.typed = vehicle;
    match begun(app, id.clone(), now) {
        Some(Ok(job)) => {
            fleet.jobs.push(id);
            app.settings.fleets[at] = fleet;
            enter(app, job)
        }
        Some(Err(why)) => jobs::say(app, why),
        None => jobs::say(app, msg("fleet-nothing-known")),
    }
}

/// The fleet taken off last comes back.
pub(super) fn bring_back(app: &mut AppState) -> Vec<Action> {
    let Some(fleet) = app.again.ended.take() else {
        return Vec::new();
    };
    app.notice = None;
    app.settings.fleets.push(fleet);
    let writes = keeping::settings(app);
    app.commits += 1;
    vec![Action::Commit(app.commits, writes)]
}

/// The fleet is taken off the list; its jobs stay among the jobs.
pub(super) fn end(app: &mut AppState) -> Vec<Action> {
    let Route::Fleet(name) = app.route.clone() else {
        return Vec::new();
    };
    let Some(at) = app.settings.fleets.iter().position(|f| f.id == name) else {
        return Vec::new();
    };
    app.again.ended = Some(app.settings.fleets.remove(at));
    let writes = keeping::settings(app);
    app.commits += 1;
    let mut actions = vec![Action::Commit(app.commits, writes)];
    actions.extend(jobs::go_to(app, Route::Again));
    app.notice = Some(Notice {
        message: msg("fleet-ended"),
        undo: Some(UndoOf::Fleet),
    });
    actions
}
