//! Same again: a job from earlier ones on the model, fleets, and what is
//! passed on to and received from colleagues.

mod draft;
mod fleet;
mod passing;

pub use draft::{AgainDraft, Group, Own, RECALLED_GREATEST};
pub use fleet::{FleetView, told_apart_by};
pub use passing::pass_words;

use chrono::{DateTime, FixedOffset};
use rakeline_core::again::{self, Likeness, Line, VehicleName};
use rakeline_core::job::{BeforeEvent, JobEvent, JobId, JobState, Particular, apply};
use rakeline_core::record;
use rakeline_core::text::{Message, msg};

use self::draft::Received;
use super::intent::{Action, Now};
use super::state::{AppState, Boot};
use super::{fit, jobs, photos};
use crate::platform::OpenedFile;
use crate::route::{Route, Step};

/// Key of a file that a colleague passed on.
pub const PASSED_PREFIX: &str = "again/";

/// Records of jobs and files of colleagues, as the store holds them.
#[derive(Clone, Debug, PartialEq)]
pub struct Recalled {
    /// Records of the jobs asked for, in that order; `None` where none is.
    pub jobs: Vec<(JobId, Option<String>)>,
    /// Colleagues' files by key.
    pub files: Vec<(String, String)>,
}

/// Something on the screens of same again.
#[derive(Clone, Debug, PartialEq)]
pub enum AgainIntent {
    /// To the models that were fitted before.
    Go,
    /// To what earlier jobs of this vehicle's model offer.
    GoFor(String),
    /// What was asked of the store is here, or why it is not.
    Recalled(Result<Recalled, Message>),
    /// A vehicle was typed.
    Typed(String),
    /// The jobs of a model, by its key.
    Open(String),
    /// The jobs of another model count as well: it is the same, spelt
    /// differently.
    CountToo(String),
    /// Another of the kinds under the name is offered.
    Kind(usize),
    /// Back to the models.
    Close,
    /// A line of the offer is left out.
    Leave(Line),
    /// It is taken after all.
    Take(Line),
    /// A job starts from what is offered.
    Start(JobId),
    /// How many vehicles was typed.
    FleetTyped(String),
    /// So many vehicles from what is offered; the first one starts.
    FleetStart(JobId),
    /// To a fleet, by its name.
    FleetGo(String),
    /// The next vehicle of the fleet on the screen starts.
    FleetNext(JobId),
    /// The fleet on the screen is taken off the list; its jobs stay.
    FleetEnd,
    /// The fleet taken off last comes back.
    FleetBringBack,
    /// What the model is called in the file was typed.
    PassModel(String),
    /// Whether the workshop's name goes along.
    SayWorkshop(Said),
    /// Whether the fitter's name goes along.
    SayFitter(Said),
    /// What these jobs teach goes out as a file.
    PassOn,
    /// A colleague's file is to be chosen.
    Bring,
    /// It was.
    Brought(String, OpenedFile),
    /// What a colleague passed on is removed, by key.
    Drop(String),
    /// It comes back.
    BringBack,
}

/// Whether a name goes along.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Said {
    /// It stays here.
    #[default]
    No,
    /// It goes along.
    Yes,
}

pub(super) fn handle(app: &mut AppState, intent: AgainIntent, now: &Now) -> Vec<Action> {
    match intent {
        AgainIntent::Go => go(app),
        AgainIntent::GoFor(vehicle) => go_for(app, vehicle),
        AgainIntent::Recalled(found) => recalled(app, found),
        AgainIntent::Typed(text) => {
            app.again.typed = text;
            app.again.offered();
            Vec::new()
        }
        AgainIntent::Open(key) => {
            app.again.left_out.clear();
            app.again.kind = 0;
            app.again.pass_model = None;
            app.again.chosen = vec![key];
            recall_chosen(app)
        }
        AgainIntent::CountToo(key) => {
            if !app.again.chosen.contains(&key) {
                app.again.chosen.push(key);
            }
            app.again.kind = 0;
            recall_chosen(app)
        }
        AgainIntent::Kind(kind) => {
            app.again.kind = kind;
            app.again.offered();
            Vec::new()
        }
        AgainIntent::Close => {
            app.again.close();
            Vec::new()
        }
        AgainIntent::Leave(line) => {
            app.again.leave(line);
            Vec::new()
        }
        AgainIntent::Take(line) => {
            app.again.take(line);
            Vec::new()
        }
        AgainIntent::Start(id) => start(app, id, now),
        AgainIntent::FleetTyped(text) => {
            app.again.fleet_typed = text;
            Vec::new()
        }
        AgainIntent::FleetStart(id) => fleet::start(app, id, now),
        AgainIntent::FleetGo(name) => fleet::go(app, name),
        AgainIntent::FleetNext(id) => fleet::next(app, id, now),
        AgainIntent::FleetEnd => fleet::end(app),
        AgainIntent::FleetBringBack => fleet::bring_back(app),
        AgainIntent::PassModel(text) => {
            app.again.pass_model = Some(text);
            Vec::new()
        }
        AgainIntent::SayWorkshop(said) => {
            app.again.say_workshop = said;
            Vec::new()
        }
        AgainIntent::SayFitter(said) => {
            app.again.say_fitter = said;
            Vec::new()
        }
        AgainIntent::PassOn => passing::pass_on(app),
        AgainIntent::Bring => vec![Action::OpenPassed(again::passed::PASSED_LARGEST)],
        AgainIntent::Brought(id, file) => passing::brought(app, &id, file),
        AgainIntent::Drop(key) => passing::remove(app, &key),
        AgainIntent::BringBack => passing::bring_back(app),
    }
}

/// How many other jobs the open one's model has that teach, and when the
/// newest was worked on; `None` without one, and once this job has marks.
#[must_use]
pub fn fitted_before(app: &AppState) -> Option<(usize, DateTime<FixedOffset>)> {
    let job = app.job().filter(|job| job.marks.is_none())?;
    let name = VehicleName::read(job.particular(Particular::Vehicle));
    if name.is_empty() || !job.before.from.is_empty() {
        return None;
    }
    let alike = app.jobs.iter().filter(|entry| {
        let other = VehicleName::read(&entry.vehicle);
        entry.id != job.id && entry.read > 0 && name.likeness(&other) == Likeness::Same
    });
    let all: Vec<_> = alike.map(|entry| entry.changed).collect();
    Some((all.len(), all.into_iter().max()?))
}

/// To what earlier jobs of this vehicle's model offer. The job that was left
/// for it takes it over, as long as it can: one vehicle has one job.
fn go_for(app: &mut AppState, vehicle: String) -> Vec<Action> {
    let can = |job: &&JobState| job.marks.is_none() && job.before.from.is_empty();
    let into = app.job().filter(can).cloned();
    let mut actions = go(app);
    if app.route == Route::Again {
        let name = VehicleName::read(&vehicle);
        let groups = app.again.groups.iter();
        let same = groups.filter(|group| group.name.likeness(&name) == Likeness::Same);
        app.again.chosen = same.map(|group| group.key.clone()).collect();
        app.again.typed = vehicle;
        app.again.into = into;
        actions.extend(recall_chosen(app));
    }
    actions
}

fn go(app: &mut AppState) -> Vec<Action> {
    if app.route == Route::Again {
        return Vec::new();
    }
    jobs::go_to(app, Route::Again)
}

/// Asks the store for what a screen of same again needs as it is shown.
pub(super) fn arrive(app: &mut AppState) -> Vec<Action> {
    let mut actions = photos::leave(app);
    if !actions.is_empty() {
        app.drafts.photos = app.drafts.photos.kept();
    }
    app.again.into = None;
    actions.extend(asked_for(app));
    actions
}

fn asked_for(app: &mut AppState) -> Vec<Action> {
    if app.boot == Boot::Opening {
        return Vec::new();
    }
    match app.route.clone() {
        Route::Again => {
            app.again.close();
            app.again.typed.clear();
            app.again.group(&app.jobs);
            recall(app, Vec::new())
        }
        Route::Fleet(name) => {
            app.again.close();
            let fleet = app.settings.fleets.iter().find(|fleet| fleet.id == name);
            let ids = fleet.map_or_else(Vec::new, |fleet| {
                let from = fleet.from.iter().filter(|id| !fleet.jobs.contains(id));
                fleet.jobs.iter().chain(from).cloned().collect()
            });
            recall(app, ids)
        }
        _ => Vec::new(),
    }
}

fn recall(app: &mut AppState, ids: Vec<JobId>) -> Vec<Action> {
    app.again.asked.clone_from(&ids);
    app.again.waiting = true;
    vec![Action::Recall(ids)]
}

fn recall_chosen(app: &mut AppState) -> Vec<Action> {
    let ids = app.again.ids_chosen();
    recall(app, ids)
}

fn recalled(app: &mut AppState, found: Result<Recalled, Message>) -> Vec<Action> {
    let found = match found {
        Ok(found) => found,
        Err(why) => {
            app.again.waiting = false;
            return jobs::say(app, why);
        }
    };
    // What was asked before is answered late: it is not what is shown.
    let asked = found.jobs.iter().map(|(id, _)| id);
    if !asked.eq(app.again.asked.iter()) {
        return Vec::new();
    }
    app.again.waiting = false;
    let texts = found.jobs.iter().filter_map(|(_, text)| text.as_deref());
    let read: Vec<_> = texts.map(record::read).collect();
    app.again.not_read = read.iter().filter(|job| job.is_err()).count();
    app.again.jobs = read.into_iter().flatten().collect();
    // Sorting ten thousand jobs by model again is seen; they are the same.
    let received = app.again.receive(found.files);
    if received == Received::Anew || !app.again.holds(app.jobs.len()) {
        app.again.group(&app.jobs);
    }
    app.again.offered();
    Vec::new()
}

fn start(app: &mut AppState, id: JobId, now: &Now) -> Vec<Action> {
    if app.backup.is_taking() {
        return jobs::say(app, msg("restore-wait"));
    }
    match begun(app, id, now) {
        Some(Ok(job)) => enter(app, job),
        Some(Err(why)) => jobs::say(app, why),
        None => Vec::new(),
    }
}

/// A new job, or the one that was left for it, with what is offered and was
/// not left out; `None` where nothing is offered or a job is open already.
fn begun(app: &mut AppState, id: JobId, now: &Now) -> Option<Result<JobState, Message>> {
    if app.open.is_some() {
        return None;
    }
    let offer = app.again.offer.clone()?;
    let mut handed = offer.handed(&app.again.left_out);
    handed.vehicle = app.again.vehicle(&handed.vehicle);
    let into = app.again.into.clone();
    let fresh = into.is_none();
    let job = into.unwrap_or_else(|| {
        let mut job = JobState::start(id, offer.kit.clone(), now.at);
        if !app.settings.fitter.is_empty() {
            let fitter = app.settings.fitter.clone();
            job.particulars.insert(Particular::Fitter, fitter);
        }
        fit::prefill(&mut job, &app.settings);
        job
    });
    let taken = JobEvent::Before(BeforeEvent::TakenOver(Box::new(handed)));
    let job = apply(&job, taken, now.at).map_err(|refusal| refusal.0);
    if let Ok(job) = &job {
        if fresh {
            app.settings.last_kit = Some(offer.kit.clone());
        }
        // As it was left, it is on its way to the store; now it says more.
        app.left.retain(|left| left.job.id != job.id);
    }
    Some(job)
}

/// Puts a begun job on the screen; one that was there before can go back to
/// what it was.
fn enter(app: &mut AppState, job: JobState) -> Vec<Action> {
    let was = app.again.into.take();
    let actions = jobs::enter(app, job, Step::Measures);
    if let Some(open) = &mut app.open {
        open.before.extend(was);
    }
    actions
}
