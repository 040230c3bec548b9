//! What is answered and done at the car on the screens of look-behind, ring
//! sets, holes, loom, parts: each press is one event of the job.

use rakeline_core::job::{
    self, Asked, FaultEvent, Field, JobEvent, JobState, MarkOutEvent, PhotoEvent, PhotoOf,
    QuoteEvent, StepsEvent, WaitEvent, read_length,
};

use super::intent::{Action, Now};
use super::kits;
use super::state::{AppState, Settings};
use super::work::{self, Back};
use crate::steps::book;

/// Applies one event of these screens. Typing is no step of its own.
pub(super) fn event(app: &mut AppState, event: JobEvent, now: &Now) -> Vec<Action> {
    if let JobEvent::Quote(QuoteEvent::PriceTyped(part, typed)) = &event {
        app.settings.prices.retain(|(other, _)| other != part);
        app.settings.prices.push((part.clone(), typed.clone()));
        return work::event(app, event, Back::Typing, now);
    }
    app.notice = None;
    worked_at(app, &event, now);
    let cleared = event == JobEvent::Fault(FaultEvent::Cleared);
    let actions = work::event(app, event, Back::Step, now);
    if cleared {
        // At the next visit every question is open again.
        app.drafts.walk.passed.clear();
    }
    actions
}

/// What is recorded at a step was worked at in the step's stage.
pub(super) fn worked_at(app: &mut AppState, event: &JobEvent, now: &Now) {
    let at_step = match event {
        JobEvent::Steps(
            StepsEvent::Done(name)
            | StepsEvent::Skipped(name, _)
            | StepsEvent::Reopened(name)
            | StepsEvent::Written(name, _),
        )
        | JobEvent::Wait(
            WaitEvent::Started(name, _) | WaitEvent::Corrected(name, _) | WaitEvent::Ended(name),
        ) => Some(name),
        JobEvent::Steps(StepsEvent::DoneAsUsual(names)) => names.first(),
        JobEvent::Photo(PhotoEvent::Taken(photo)) => match &photo.of {
            PhotoOf::Step(name) => Some(name),
            PhotoOf::Head(_) => None,
        },
        _ => None,
    };
    let Some((stage, _)) = at_step.and_then(|name| book().step(name)) else {
        return;
    };
    // One that is refused changes nothing.
    if let Some(open) = &mut app.open
        && let Ok(next) = job::apply(&open.job, JobEvent::WorkedAt(stage), now.at)
        && job::apply(&next, event.clone(), now.at).is_ok()
    {
        open.job = next;
    }
}

/// Puts what is typed for the asked fields on the job's sheet, and on the
/// library's where that is the same sheet.
pub(super) fn fill(app: &mut AppState, asked: Vec<Asked>, now: &Now) -> Vec<Action> {
    let Some(was) = app.job().map(|job| job.kit.clone()) else {
        return Vec::new();
    };
    let mut actions = event(app, JobEvent::KitFilled(asked), now);
    actions.extend(kits::follow_job(app, &was));
    actions
}

/// Tools, prices and limits that the workshop typed before stand in a new job.
pub(super) fn prefill(job: &mut JobState, settings: &Settings) {
    for (field, typed) in &settings.workshop {
        job.typed.insert(*field, typed.clone());
    }
    job.quote.prices.clone_from(&settings.prices);
    // One that makes no sense with this kit leaves the sheet's.
    for (limit, typed) in &settings.limits {
        let value = read_length(typed).ok();
        let changed = value.map(|value| MarkOutEvent::LimitChanged(*limit, value));
        let changed = changed.map(JobEvent::MarkOut);
        if let Some(Ok(next)) = changed.map(|event| job::apply(job, event, job.created)) {
            *job = next;
        }
    }
}

/// What is typed once for the workshop is kept for the next jobs.
pub(super) fn remember(settings: &mut Settings, field: Field, typed: &str) {
    let kept = [
        Field::ReachPastTeeth,
        Field::StepDrillReach,
        Field::QuoteAnHour,
    ];
    if kept.contains(&field) {
        settings.workshop.retain(|(other, _)| *other != field);
        settings.workshop.push((field, typed.to_owned()));
    }
}
