//! What is answered and done at the car on the screens of look-behind, ring
//! sets, holes, loom, parts: each press is one event of the job.

use rakeline_core::job::{Asked, FaultEvent, Field, JobEvent, JobState, QuoteEvent};

use super::intent::{Action, Now};
use super::kits;
use super::state::{AppState, Settings};
use super::work::{self, Back};

/// Applies one event of these screens. Typing is no step of its own.
pub(super) fn event(app: &mut AppState, event: JobEvent, now: &Now) -> Vec<Action> {
    if let JobEvent::Quote(QuoteEvent::PriceTyped(part, typed)) = &event {
        app.settings.prices.retain(|(other, _)| other != part);
        app.settings.prices.push((part.clone(), typed.clone()));
        return work::event(app, event, Back::Typing, now);
    }
    app.notice = None;
    let cleared = event == JobEvent::Fault(FaultEvent::Cleared);
    let actions = work::event(app, event, Back::Step, now);
    if cleared {
        // At the next visit every question is open again.
        app.drafts.walk.passed.clear();
    }
    actions
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

/// Tools and prices that the workshop typed before stand in a new job.
pub(super) fn prefill(job: &mut JobState, settings: &Settings) {
    for (field, typed) in &settings.workshop {
        job.typed.insert(*field, typed.clone());
    }
    job.quote.prices.clone_from(&settings.prices);
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
