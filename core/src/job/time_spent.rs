//! Working minutes by stage, from the times of events; the fitter may
//! correct them.

use chrono::{DateTime, Duration, FixedOffset};
use serde::{Deserialize, Serialize};

use super::apply::Refusal;
use super::event::JobEvent;
use super::state::JobState;
use super::{Field, StepsEvent};
use crate::steps::Stage;
use crate::table::Table;
use crate::text::msg;

/// A pause longer than this between two events is not counted as work,
/// minutes (our own figure: a hole with its filing takes less).
pub const PAUSE: i64 = 15;

/// Most minutes that a stage is corrected to: a week of days and nights.
pub const SPENT_GREATEST: u32 = 10_080;

/// Working time of a job.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct TimeSpent {
    /// Seconds by stage, counted.
    pub counted: Table<Stage, u32>,
    /// Minutes by stage, corrected by the fitter.
    pub corrected: Table<Stage, u32>,
}

/// The fitter corrected a stage's minutes; `None` goes back to the count.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct TimeCorrected(pub Stage, pub Option<u32>);

pub(super) fn apply(next: &mut JobState, event: TimeCorrected) -> Result<(), Refusal> {
    match event {
        TimeCorrected(stage, Some(minutes)) if minutes <= SPENT_GREATEST => {
            next.spent.corrected.insert(stage, minutes);
        }
        TimeCorrected(_, Some(_)) => {
            let most = i64::from(SPENT_GREATEST);
            return Err(Refusal(msg("spent-too-much").count("most", most)));
        }
        TimeCorrected(stage, None) => {
            next.spent.corrected.remove(&stage);
        }
    }
    Ok(())
}

/// Counts the time since the job's last event for the stage of this one.
pub(super) fn count(
    next: &mut JobState,
    event: &JobEvent,
    before: DateTime<FixedOffset>,
    at: DateTime<FixedOffset>,
) {
    let gone = at - before;
    let Some(stage) = stage_of(event) else { return };
    if gone <= Duration::zero() || gone > Duration::minutes(PAUSE) {
        return;
    }
    let seconds = u32::try_from(gone.num_seconds()).unwrap_or(0);
    let counted = next.spent.counted.or_default(stage);
    *counted = counted.saturating_add(seconds);
}

/// The stage that an event works at; `None` for what belongs to none.
fn stage_of(event: &JobEvent) -> Option<Stage> {
    Some(match event {
        JobEvent::Typed(field, _) => stage_of_field(*field)?,
        JobEvent::MarksPlanned { .. } | JobEvent::MarkOut(_) | JobEvent::TapeLaid => Stage::Marks,
        JobEvent::Check(_) | JobEvent::Cards(_) => Stage::Check,
        JobEvent::FaceRead { .. } | JobEvent::FaceDropped { .. } | JobEvent::Measuring(_) => {
            Stage::Faces
        }
        JobEvent::Behind(_) => Stage::Behind,
        JobEvent::Rings(_) => Stage::Rings,
        JobEvent::Holes(_) => Stage::Holes,
        JobEvent::Loom(_) => Stage::Loom,
        JobEvent::Quote(_) | JobEvent::Steps(StepsEvent::Answered(..)) => Stage::Survey,
        JobEvent::SheetIssued { .. } => Stage::HandOver,
        _ => return None,
    })
}

fn stage_of_field(field: Field) -> Option<Stage> {
    Some(match field {
        Field::HalfLeft | Field::HalfRight => Stage::Marks,
        Field::FaceAngle => Stage::Faces,
        Field::QuoteMinutes | Field::QuoteAnHour => Stage::Survey,
        _ => return None,
    })
}

/// Minutes of a stage: as corrected, else as counted, rounded.
#[must_use]
pub fn minutes_spent(job: &JobState, stage: Stage) -> u32 {
    let counted = job.spent.counted.get(&stage).copied().unwrap_or(0);
    let corrected = job.spent.corrected.get(&stage).copied();
    corrected.unwrap_or((counted + 30) / 60)
}

/// All stages with minutes, in the order of the work.
#[must_use]
pub fn stages_spent(job: &JobState) -> Vec<(Stage, u32)> {
    let mut stages: Vec<Stage> = job.spent.counted.keys().copied().collect();
    stages.extend(job.spent.corrected.keys());
    stages.sort_unstable();
    stages.dedup();
    let with = |stage| (stage, minutes_spent(job, stage));
    stages
        .into_iter()
        .map(with)
        .filter(|(_, m)| *m > 0)
        .collect()
}
