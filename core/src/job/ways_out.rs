//! Ways out: of a bumper on which no marks keep every rule, and of a spot
//! whose face no ring set serves.

use super::apply::Refusal;
use super::labels::labelled;
use super::limit::{Limit, limit_value};
use super::mark_out::is_drilled;
use super::marks::{plans, task_of};
use super::state::JobState;
use crate::decide::mark_out::{Lock, MarkOutTask, NoDrill, NoPlan, Plan, Rule, solve};
use crate::text::{Message, msg};
use crate::units::{Millimetres, Offset};

/// How far a spot that no ring set serves moves at least, mm: about one
/// flange's width, so that the head sits on another stretch of the face (ours).
pub const MOVE_AT_LEAST: Millimetres = Millimetres(30.0);

/// The area that a spot which no ring set serves keeps clear, so that its
/// mark moves by [`MOVE_AT_LEAST`] or more.
///
/// # Errors
/// No marks, or no such spot.
pub fn away_from(job: &JobState, spot: usize) -> Result<NoDrill, Refusal> {
    let marks = job.marks.as_ref();
    let marks = marks.ok_or_else(|| Refusal(msg("refused-no-marks")))?;
    let at = marks.offsets.get(spot);
    let at = at.ok_or_else(|| super::apply::no_such_spot(job, spot))?;
    Ok(NoDrill::around_spot(*at, MOVE_AT_LEAST))
}

/// Where the mark of a spot goes when it alone may move and every other mark
/// stays; `None` where there is no place for it.
#[must_use]
pub fn moved_alone(job: &JobState, spot: usize) -> Option<Offset> {
    let marks = job.marks.as_ref()?;
    let mut task = task_of(job)?;
    let places = marks.offsets.iter().enumerate();
    let lock = |(head, at): (usize, &Offset)| Lock { head, at: *at };
    task.locks = places.filter(|(head, _)| *head != spot).map(lock).collect();
    solve(&task).ok()?.symmetric.marks.get(spot).copied()
}

/// What one tap changes so that there are marks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WayChange {
    /// A limit becomes this, for the job.
    Limit(Limit, Millimetres),
    /// A mark may move again.
    Unlock(usize),
}

/// One way out of a bumper without marks: a single rule loosened by the
/// least that helps, and the marks then.
#[derive(Clone, Debug, PartialEq)]
pub struct WayOut {
    /// What gives, and by how much.
    pub words: Message,
    /// The marks then.
    pub plan: Plan,
    /// What one tap changes; `None` where the bumper or the areas have to be
    /// looked at again.
    pub change: Option<WayChange>,
}

/// The ways out for what was typed, the least change first. Empty where
/// there are marks, or where no single change helps.
#[must_use]
pub fn ways_out(job: &JobState) -> Vec<WayOut> {
    match plans(job) {
        Some(Err(none)) => ways_out_of(job, &none),
        _ => Vec::new(),
    }
}

/// The ways out where there are no marks for this reason.
#[must_use]
pub fn ways_out_of(job: &JobState, none: &NoPlan) -> Vec<WayOut> {
    let Some(task) = task_of(job) else {
        return Vec::new();
    };
    match none {
        NoPlan::Invalid(_) => unlocked(job, &task),
        NoPlan::Impossible { ways, .. } => ways
            .iter()
            .map(|way| WayOut {
                words: labelled(job, way.message(&task)),
                change: loosened(job, &task, way.rule, way.by),
                plan: way.plan.clone(),
            })
            .collect(),
    }
}

/// The locks without any one of which there are marks.
fn unlocked(job: &JobState, task: &MarkOutTask) -> Vec<WayOut> {
    let without = |head: usize| {
        let mut task = task.clone();
        task.locks.retain(|lock| lock.head != head);
        let plan = solve(&task).ok()?.symmetric;
        let label = job.spots.get(head).map_or("", |spot| &spot.label);
        Some(WayOut {
            words: msg("loosen-by-unlocking").text("label", label.to_owned()),
            plan,
            change: Some(WayChange::Unlock(head)),
        })
    };
    let locks = task.locks.iter();
    let locks = locks.filter(|lock| !is_drilled(job, lock.head));
    locks.filter_map(|lock| without(lock.head)).collect()
}

fn loosened(job: &JobState, task: &MarkOutTask, rule: Rule, by: Millimetres) -> Option<WayChange> {
    let (limit, change) = match rule {
        Rule::Locked(k) => return Some(WayChange::Unlock(task.locks.get(k)?.head)),
        Rule::Inner => (Limit::Inner, by),
        Rule::CornerGapLeast => (Limit::CornerGapLeast, -by),
        Rule::CornerGapGreatest => (Limit::CornerGapGreatest, by),
        Rule::SpacingLeast => (Limit::SpacingLeast, -by),
        Rule::SpacingGreatest => (Limit::SpacingGreatest, by),
        Rule::OddHeadWithin => (Limit::OddHeadWithin, by),
        _ => return None,
    };
    Some(WayChange::Limit(limit, limit_value(job, limit)? + change))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::MarkOutEvent;
    use crate::job::{Field, JobEvent, JobId, apply};
    use crate::kit;

    /// The plain kit on a bumper of half width 864 with an area over its
    /// middle that the inner limit of the sheet does not let the heads pass.
    fn shut() -> JobState {
        let sheet = include_str!("../../../assets/kits/plain-four.json");
        let at = chrono::DateTime::parse_from_rfc3339("2026-03-12T09:30:00+01:00").unwrap();
        let mut job = JobState::start(JobId("a".to_owned()), kit::parse(sheet).unwrap(), at);
        for field in [Field::HalfLeft, Field::HalfRight] {
            job = apply(&job, JobEvent::Typed(field, "864".to_owned()), at).unwrap();
        }
        let area = NoDrill {
            from: Offset(-290.0),
            to: Offset(290.0),
            why: crate::decide::mark_out::NoDrillReason::Plate,
        };
        apply(
            &job,
            JobEvent::MarkOut(MarkOutEvent::NoDrillAdded(area)),
            at,
        )
        .unwrap()
    }

    #[test]
    fn a_limit_that_is_a_way_out_changed_by_it_gives_these_marks() {
        let job = shut();
        assert!(matches!(plans(&job), Some(Err(NoPlan::Impossible { .. }))));
        let ways = ways_out(&job);
        let way = ways.iter().find(|way| way.change.is_some()).unwrap();
        let Some(WayChange::Limit(limit, value)) = way.change else {
            panic!("a limit gives: {way:?}");
        };
        assert_eq!(limit, Limit::Inner);
        let at = job.changed;
        let changed = JobEvent::MarkOut(MarkOutEvent::LimitChanged(limit, value));
        let after = apply(&job, changed, at).unwrap();
        let solved = plans(&after).unwrap().unwrap();
        assert_eq!(solved.symmetric.marks, way.plan.marks);
    }

    #[test]
    fn a_bumper_with_marks_needs_no_way_out() {
        let mut job = shut();
        job.mark_out.no_drill.clear();
        assert!(ways_out(&job).is_empty());
    }
}
