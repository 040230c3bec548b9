//! Evidence about what stands in the field: something fixed, what was
//! learned, the gap between the middle heads.

use super::evidence::{Gathered, is_recorded};
use crate::decide::coverage::ObjectKind;
use crate::decide::mark_out::NoDrillReason;
use crate::job::{Ignores, JobState, Limit, Object, ignores, limit_value, no_longer_seen};
use crate::steps::{Question, Truth};
use crate::text::msg;
use crate::units::Millimetres;

/// Something fixed in the field.
pub(super) fn object(job: &JobState) -> Gathered {
    let mut all = Gathered::default();
    let areas = &job.mark_out.no_drill;
    if areas.iter().any(|area| area.why == NoDrillReason::TowHitch) {
        all.record(8, msg("evidence-tow-hitch"));
    }
    match job.coverage.object {
        Some(ObjectKind::TowBall) => all.record(9, msg("evidence-tow-ball")),
        Some(ObjectKind::SpareWheel) => all.record(9, msg("evidence-spare-wheel")),
        None => {}
    }
    match job.steps.answers.get(&Question::TowBar) {
        Some(Truth::Yes) => all.record(6, msg("evidence-tow-bar-said")),
        Some(Truth::No) => all.record(-3, msg("evidence-no-tow-bar-said")),
        _ => {}
    }
    match learned_object(job) {
        Some(object) => {
            let said = msg("evidence-object-learned").message("what", object.name());
            all.record(-4, said);
        }
        None => all.not_known(msg("unknown-object")),
    }
    all
}

/// What the control box ignores, by the learn's proof or as said.
fn learned_object(job: &JobState) -> Option<Object> {
    match ignores(job) {
        Ignores::This(object) | Ignores::PerhapsThis(object) => Some(object),
        Ignores::NotKnown | Ignores::Tested(_) | Ignores::Cleared => None,
        Ignores::Nothing => Some(job.walk.learned.as_ref()?.what.clone()),
    }
}

/// What was learned is not what is there.
pub(super) fn learned(job: &JobState) -> Gathered {
    let mut all = Gathered::default();
    if ignores(job) == Ignores::NotKnown {
        all.record(10, msg("evidence-learn-not-known"));
        return all;
    }
    match learned_object(job) {
        Some(object) => {
            let said = msg("evidence-learned").message("what", object.name());
            all.record(4, said);
            all.not_known(msg("unknown-learned-same").message("what", object.name()));
        }
        // What it ignores is not known; what it sees was measured since.
        None if matches!(ignores(job), Ignores::Tested(_)) => {
            all.not_known(msg("unknown-learned"));
        }
        None if is_recorded(job) => all.record(-8, msg("evidence-nothing-learned")),
        None => all.not_known(msg("unknown-learned")),
    }
    if let Some(first) = no_longer_seen(job).into_iter().next() {
        all.record(12, first);
    }
    all
}

/// The middle heads are too far apart.
pub(super) fn gap(job: &JobState) -> Gathered {
    let mut all = Gathered::default();
    let heads = job.spots.len();
    let pair = (heads > 1).then(|| ((heads - 1) / 2, heads / 2));
    let marks = job.marks.as_ref().filter(|_| heads.is_multiple_of(2));
    let spacing = marks.zip(pair).and_then(|(marks, (left, right))| {
        Some(*marks.offsets.get(right)? - *marks.offsets.get(left)?)
    });
    let Some(spacing) = spacing else {
        all.not_known(msg("unknown-gap"));
        return all;
    };
    // By the sheet, not by a limit that was changed for this job.
    let sheet = &job.kit.mark_out;
    let inner = sheet.inner * 2.0;
    let greatest = match sheet.spacing_greatest {
        Some(greatest) if greatest < inner => greatest,
        _ => inner,
    };
    let figures = |key: &'static str| msg(key).mm("spacing", spacing.0).mm("greatest", greatest.0);
    if spacing > greatest + Millimetres(1.0) {
        all.record(22, figures("evidence-gap-wide"));
    } else {
        all.record(-10, figures("evidence-gap-right"));
    }
    if limit_value(job, Limit::Inner).is_some_and(|inner| inner > sheet.inner) {
        all.record(3, msg("evidence-limit-changed"));
    }
    all
}
