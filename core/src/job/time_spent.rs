//! Working minutes by stage, from the times of events; the fitter may
//! correct them.

use chrono::{DateTime, Duration, FixedOffset};
use serde::{Deserialize, Serialize};

use super::apply::Refusal;
use super::event::JobEvent;
use super::state::JobState;
use super::{BeforeEvent, CheckEvent, Field, PhotoEvent, PhotoOf, RingsEvent, StepsEvent};
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
    /// The stage that was worked at last.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub last: Option<Stage>,
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

/// Counts the time since the job's last event for the stage of this one. An
/// event that belongs to no stage (a name, a particular) goes on with the
/// stage that was worked at before it.
pub(super) fn count(
    next: &mut JobState,
    event: &JobEvent,
    before: DateTime<FixedOffset>,
    at: DateTime<FixedOffset>,
) {
    let gone = at - before;
    let Some(stage) = stage_of(event).or(next.spent.last) else {
        return;
    };
    next.spent.last = Some(stage);
    if gone <= Duration::zero() || gone > Duration::minutes(PAUSE) {
        return;
    }
    let seconds = u32::try_from(gone.num_seconds()).unwrap_or(0);
    let counted = next.spent.counted.or_default(stage);
    *counted = counted.saturating_add(seconds);
}

/// The stage that an event works at; `None` for what belongs to none. What
/// is recorded at a step works at the step's stage, which the step book
/// knows: `WorkedAt` says it before.
fn stage_of(event: &JobEvent) -> Option<Stage> {
    Some(match event {
        JobEvent::WorkedAt(stage) => *stage,
        JobEvent::Typed(field, _) => stage_of_field(*field)?,
        JobEvent::MarksPlanned { .. }
        | JobEvent::MarkOut(_)
        | JobEvent::TapeLaid
        | JobEvent::Before(BeforeEvent::MarksAsBefore { .. }) => Stage::Marks,
        // A mark is confirmed from behind with the drill in the hand.
        JobEvent::Check(CheckEvent::SeenFromBehind(_) | CheckEvent::NotSeenFromBehind(_)) => {
            Stage::Holes
        }
        JobEvent::Check(_) | JobEvent::Cards(_) => Stage::Check,
        JobEvent::FaceRead { .. }
        | JobEvent::FaceDropped { .. }
        | JobEvent::ReadingTakenOut { .. }
        | JobEvent::Measuring(_) => Stage::Faces,
        JobEvent::Behind(_) => Stage::Behind,
        JobEvent::Rings(RingsEvent::Seated(_) | RingsEvent::Unseated(_)) | JobEvent::Loom(_) => {
            Stage::Loom
        }
        JobEvent::Rings(_) => Stage::Rings,
        JobEvent::Holes(_) => Stage::Holes,
        JobEvent::Learned(_) | JobEvent::Walk(_) => Stage::Prove,
        JobEvent::Quote(_) | JobEvent::Steps(StepsEvent::Answered(..)) => Stage::Survey,
        JobEvent::Photo(PhotoEvent::Taken(photo)) if matches!(photo.of, PhotoOf::Head(_)) => {
            Stage::HandOver
        }
        JobEvent::SheetIssued { .. } => Stage::HandOver,
        _ => return None,
    })
}

fn stage_of_field(field: Field) -> Option<Stage> {
    Some(match field {
        Field::HalfLeft
        | Field::HalfRight
        | Field::NoDrillFrom
        | Field::NoDrillTo
        | Field::NoDrillWhat
        | Field::OldHole
        | Field::MoveTo
        | Field::RowFromLine
        | Field::RowHeight
        | Field::Limit(_) => Stage::Marks,
        Field::FaceAngle
        | Field::GaugePlusMinus
        | Field::SillAngle
        | Field::BayName
        | Field::CornerAngle(_)
        | Field::SweepTape(_) => Stage::Faces,
        Field::HandReason(_) => Stage::Rings,
        Field::TapeMark(_) | Field::TapeLine(_) | Field::AgreedName => Stage::Check,
        Field::Depth(_) | Field::Panel(_) | Field::BehindWords(_) => Stage::Behind,
        Field::OldHoleSize(_)
        | Field::ReachPastTeeth
        | Field::StepDrillReach
        | Field::BumperCelsius => Stage::Holes,
        Field::Route(_)
        | Field::Straight(_)
        | Field::GrommetToBox
        | Field::Slack
        | Field::Volts(_)
        | Field::FuseAmperes => Stage::Loom,
        Field::LearnObject
        | Field::WalkShare
        | Field::WalkStartUp
        | Field::WalkLatency
        | Field::ObjectWhat
        | Field::ObjectAcross
        | Field::ObjectWidth
        | Field::ObjectReach => Stage::Prove,
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{JobId, LearnedEvent, Particular, WalkEvent, apply};

    fn at(minute: i64) -> DateTime<FixedOffset> {
        let start = DateTime::parse_from_rfc3339("2026-03-12T09:00:00+01:00").unwrap();
        start + Duration::minutes(minute)
    }

    fn job() -> JobState {
        let sheet = include_str!("../../../assets/kits/plain-four.json");
        let kit = crate::kit::parse(sheet).unwrap();
        JobState::start(JobId("a1".to_owned()), kit, at(0))
    }

    #[test]
    fn minutes_go_to_the_stage_that_was_worked_at() {
        let mut job = job();
        let typed = |field, text: &str| JobEvent::Typed(field, text.to_owned());
        let named = JobEvent::ParticularTyped(Particular::Plate, "FG 12".to_owned());
        for (minute, event) in [
            (2, typed(Field::HalfLeft, "860")),
            // Six minutes at the learn, then two at the walk.
            (8, JobEvent::Learned(LearnedEvent::GateHeeded)),
            (10, JobEvent::Walk(WalkEvent::GateHeeded)),
            // A plate belongs to no stage: it goes on with the one before.
            (11, named),
            (15, JobEvent::WorkedAt(Stage::Loom)),
            // A pause.
            (60, JobEvent::WorkedAt(Stage::Loom)),
        ] {
            job = apply(&job, event, at(minute)).unwrap();
        }
        let spent = [(Stage::Marks, 2), (Stage::Loom, 4), (Stage::Prove, 9)];
        assert_eq!(stages_spent(&job), spent);
    }
}
