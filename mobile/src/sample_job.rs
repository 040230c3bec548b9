//! The sample job, in an invented scenario: a van of an invented make at an
//! invented workshop.

use chrono::{DateTime, FixedOffset};
use rakeline_core::decide::mark_out::PlanKind;
use rakeline_core::job::{self, Field, JobEvent, JobId, JobState, Particular};
use rakeline_core::kit::KitSheet;

/// Half width of the sample bumper as it is typed, mm.
const HALF_WIDTH: &str = "864";

/// Builds the sample job: measured and marked out, faces still to be read.
/// `None` only if the sample figures broke the rules of the kit.
#[must_use]
pub fn build(id: JobId, kit: KitSheet, at: DateTime<FixedOffset>) -> Option<JobState> {
    let mut job = JobState::start(id, kit, at);
    let typed = [
        JobEvent::Named(crate::texts::t("sample-job-name")),
        JobEvent::ParticularTyped(Particular::Vehicle, crate::texts::t("sample-vehicle")),
        JobEvent::ParticularTyped(Particular::Customer, crate::texts::t("sample-customer")),
        JobEvent::ParticularTyped(Particular::Plate, crate::texts::t("sample-plate")),
        JobEvent::Typed(Field::HalfLeft, HALF_WIDTH.to_owned()),
        JobEvent::Typed(Field::HalfRight, HALF_WIDTH.to_owned()),
    ];
    for event in typed {
        job = job::apply(&job, event, at).ok()?;
    }
    let job::HalfWidths::Ready { left, right, .. } = job::half_widths(&job) else {
        return None;
    };
    let plans = job::plans(&job)?.ok()?;
    let planned = JobEvent::MarksPlanned {
        half_left: left,
        half_right: right,
        kind: PlanKind::Symmetric,
        offsets: plans.get(PlanKind::Symmetric).marks.clone(),
    };
    job::apply(&job, planned, at).ok()
}
