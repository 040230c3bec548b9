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
pub(super) fn learned_object(job: &JobState) -> Option<Object> {
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

/// The spacing of the two middle heads and the most that the sheet allows.
#[derive(Clone, Copy)]
pub(super) struct MiddleSpacing {
    pub spacing: Millimetres,
    pub greatest: Millimetres,
}

impl MiddleSpacing {
    /// Whether it is more than the sheet allows, marks being whole millimetres.
    pub fn is_wide(self) -> bool {
        self.spacing > self.greatest + Millimetres(1.0)
    }
}

/// By the sheet, not by a limit that was changed for this job. `None` without
/// marks, or where a head sits in the middle.
pub(super) fn middle_spacing(job: &JobState) -> Option<MiddleSpacing> {
    let heads = job.spots.len();
    let marks = job.marks.as_ref()?;
    if heads < 2 || !heads.is_multiple_of(2) {
        return None;
    }
    let at = |head: usize| marks.offsets.get(head).copied();
    let spacing = at(heads / 2)? - at(heads / 2 - 1)?;
    let sheet = &job.kit.mark_out;
    let inner = sheet.inner * 2.0;
    let greatest = match sheet.spacing_greatest {
        Some(greatest) if greatest < inner => greatest,
        _ => inner,
    };
    Some(MiddleSpacing { spacing, greatest })
}

/// The middle heads are too far apart.
pub(super) fn gap(job: &JobState) -> Gathered {
    let mut all = Gathered::default();
    let Some(middle) = middle_spacing(job) else {
        all.not_known(msg("unknown-gap"));
        return all;
    };
    let figures = |key: &'static str| {
        msg(key)
            .mm("spacing", middle.spacing.0)
            .mm("greatest", middle.greatest.0)
    };
    if middle.is_wide() {
        all.record(22, figures("evidence-gap-wide"));
    } else {
        all.record(-10, figures("evidence-gap-right"));
    }
    if limit_value(job, Limit::Inner).is_some_and(|inner| inner > job.kit.mark_out.inner) {
        all.record(3, msg("evidence-limit-changed"));
    }
    all
}
