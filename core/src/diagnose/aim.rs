//! Evidence about where heads point: aim, ring, arrow, load, height.
//!
//! An aim below a limit by z standard uncertainties is worth 7.4 z decibans:
//! the odds of a normal value being below it, by the logistic curve that lies
//! closest to the normal one (factor 1.702; Johnson and Kotz, Continuous
//! Univariate Distributions 2, 1970, section 22).

use super::cause::Cause;
use super::evidence::{Gathered, label};
use super::seen;
use crate::decide::ring_set::{Candidate, aim_words};
use crate::job::{JobState, RingWay, TakenBy, fitted_aim, ring_choice, set_taken, sinks_typed};
use crate::text::msg;
use crate::units::{Degrees, Estimate};

/// Decibans a standard uncertainty: 10 / ln 10 times 1.702.
const A_SIGMA: f64 = 7.39;
/// Decibans of a likelihood ratio of two normal values, a squared sigma:
/// 10 / ln 10 / 2.
const A_SQUARE: f64 = 2.17;
/// Wheelbase and overhang together where a sinking rear is turned into an
/// angle, mm (our own figure).
const WHEELBASE: f64 = 2700.0;
/// What a measured aim may weigh at most, either way.
const FOUND: (f64, f64) = (-25.0, 28.0);
/// What a planned aim may weigh: a plan is not yet what is fitted.
const PLANNED: (f64, f64) = (-8.0, 22.0);

fn weigh(z: f64, limits: (f64, f64)) -> i16 {
    if z.is_finite() {
        (A_SIGMA * z).clamp(limits.0, limits.1).round() as i16
    } else {
        0
    }
}

/// What the head would do with the set that goes in by the record.
fn planned(job: &JobState, spot: u8) -> Option<Candidate> {
    let spot = usize::from(spot);
    let taken = set_taken(job, spot)?;
    let choice = ring_choice(job, job.spots.get(spot)?)?;
    choice.candidate(&job.kit, &taken.set).cloned()
}

enum Aim {
    Found(Estimate<Degrees>),
    Planned(Estimate<Degrees>),
}

impl Aim {
    fn estimate(&self) -> Estimate<Degrees> {
        match self {
            Self::Found(aim) | Self::Planned(aim) => *aim,
        }
    }

    fn limits(&self) -> (f64, f64) {
        match self {
            Self::Found(_) => FOUND,
            Self::Planned(_) => PLANNED,
        }
    }
}

fn aim(job: &JobState, spot: u8) -> Option<Aim> {
    let found = fitted_aim(job, spot).map(Aim::Found);
    found.or_else(|| planned(job, spot).map(|set| Aim::Planned(set.aim)))
}

/// The aim of a head: as found at the car, else with the set that goes in.
pub(super) fn known(job: &JobState, spot: u8) -> Option<Estimate<Degrees>> {
    aim(job, spot).map(|aim| aim.estimate())
}

/// What is known of a head's aim, ring and arrow.
pub(super) fn at_head(job: &JobState, cause: Cause, spot: u8) -> Gathered {
    match cause {
        Cause::AimBelowLevel => against(job, spot, |aim| job.kit.aim.least - aim),
        Cause::AimTooHigh => against(job, spot, |aim| aim - job.kit.aim.greatest),
        Cause::RingWrong => ring(job, spot),
        Cause::HeadUpsideDown => arrow(job, spot),
        _ => Gathered::default(),
    }
}

/// The aim against a limit; `over` is by how much it is broken.
fn against(job: &JobState, spot: u8, over: impl Fn(Degrees) -> Degrees) -> Gathered {
    let mut all = Gathered::default();
    let name = label(job, spot);
    let Some(aim) = aim(job, spot) else {
        no_set(job, spot, &mut all, &over);
        return all;
    };
    let estimate = aim.estimate();
    let z = over(estimate.value).0 / estimate.u.0.max(0.05);
    let points = weigh(z, aim.limits());
    let said = match aim {
        Aim::Found(_) => msg("evidence-aim-found"),
        Aim::Planned(_) => msg("evidence-aim-planned"),
    };
    let said = said
        .text("label", name)
        .message("aim", aim_words(estimate.value))
        .deg("plus", estimate.expanded().0);
    match aim {
        Aim::Found(_) => all.car(points, said),
        Aim::Planned(_) => all.record(points, said),
    }
    all
}

/// No set was taken: nothing serves the face, or the face was not read.
fn no_set(job: &JobState, spot: u8, all: &mut Gathered, over: &impl Fn(Degrees) -> Degrees) {
    let name = label(job, spot);
    let place = job.spots.get(usize::from(spot));
    let Some(choice) = place.and_then(|place| ring_choice(job, place)) else {
        all.not_known(msg("unknown-aim").text("label", name));
        return;
    };
    // By the set that breaks the limit least.
    let z = choice
        .candidates
        .iter()
        .map(|set| over(set.aim.value).0 / set.aim.u.0.max(0.05))
        .fold(f64::INFINITY, f64::min);
    if z > 0.0 && z.is_finite() {
        let said = msg("evidence-no-set-serves").text("label", name);
        all.record(weigh(z, PLANNED), said);
    } else {
        all.not_known(msg("unknown-ring").text("label", name));
    }
}

/// The ring against what the record says and what was found beside the head.
fn ring(job: &JobState, spot: u8) -> Gathered {
    let mut all = Gathered::default();
    let name = label(job, spot);
    let fitted = job.fault.aims.get(&spot);
    if let Some(fitted) = fitted {
        match fitted.way {
            RingWay::Lowers => {
                all.car(28, msg("evidence-ring-lowers").text("label", name.clone()));
            }
            RingWay::Lifts => all.car(-6, msg("evidence-ring-lifts").text("label", name.clone())),
        }
    }
    let Some(set) = planned(job, spot) else {
        if fitted.is_none() {
            all.not_known(msg("unknown-ring").text("label", name));
        }
        return all;
    };
    if by_hand_against_the_rule(job, spot) {
        all.record(14, msg("evidence-ring-by-hand").text("label", name.clone()));
    }
    match fitted_aim(job, spot) {
        Some(found) => {
            let points = other_ring(job, &set, found);
            let said = msg("evidence-aim-differs")
                .text("label", name)
                .message("planned", aim_words(set.aim.value))
                .message("found", aim_words(found.value));
            all.car(points, said);
        }
        None => all.not_known(msg("unknown-ring-seen").text("label", name)),
    }
    all
}

fn by_hand_against_the_rule(job: &JobState, spot: u8) -> bool {
    let spot = usize::from(spot);
    let Some(taken) = set_taken(job, spot) else {
        return false;
    };
    let choice = job.spots.get(spot).and_then(|spot| ring_choice(job, spot));
    let by_rule = choice.as_ref().and_then(|choice| choice.set());
    matches!(taken.by, TakenBy::Hand(_)) && by_rule != Some(&taken.set)
}

/// How much better the found aim fits the planned ring upside down, or
/// another ring of the sheet either way up, than the planned one.
fn other_ring(job: &JobState, planned: &Candidate, found: Estimate<Degrees>) -> i16 {
    let off = found.value.0 - planned.aim.value.0;
    let u = found.u.0.hypot(planned.aim.u.0).max(0.2);
    let bare = planned.lift.value.0;
    let rings = job
        .kit
        .rings
        .iter()
        .flat_map(|ring| [ring.lift.0, -ring.lift.0]);
    let own = job
        .kit
        .rings
        .get(usize::from(planned.ring))
        .map_or(bare, |ring| ring.lift.0);
    let best = rings
        .map(|lift| (off - (lift - own)).abs() / u)
        .fold(f64::INFINITY, f64::min);
    let as_planned = off.abs() / u;
    let points = A_SQUARE * (as_planned * as_planned - best * best);
    // The planned ring is among the candidates: the difference is never
    // below zero, so close agreement is said by hand.
    if as_planned < 1.0 {
        -10
    } else {
        points.clamp(0.0, 26.0).round() as i16
    }
}

fn arrow(job: &JobState, spot: u8) -> Gathered {
    let mut all = Gathered::default();
    let name = label(job, spot);
    if job.rings.seated.contains_key(&spot) {
        all.record(-6, msg("evidence-seated").text("label", name));
    } else {
        if !job.rings.seated.is_empty() {
            all.record(4, msg("evidence-not-seated").text("label", name.clone()));
        }
        all.not_known(msg("unknown-arrow").text("label", name.clone()));
        if let (Some(set), Some(found)) = (planned(job, spot), fitted_aim(job, spot)) {
            // Head and ring turned over together lower as much as they should lift.
            let off = found.value.0 - set.aim.value.0 + 2.0 * set.lift.value.0;
            let u = found.u.0.hypot(set.aim.u.0).max(0.2);
            if set.lift.value.0 > 2.0 * u && off.abs() < 2.0 * u {
                all.car(8, msg("evidence-turned-over").text("label", name));
            }
        }
    }
    all
}

/// Load: does the lowest head stay level once the rear sinks?
pub(super) fn load(job: &JobState) -> Gathered {
    let mut all = Gathered::default();
    let heads = 0..u8::try_from(job.spots.len()).unwrap_or(u8::MAX);
    let lowest = heads
        .filter_map(|spot| Some((spot, aim(job, spot)?.estimate())))
        .min_by(|a, b| a.1.value.0.total_cmp(&b.1.value.0));
    let typed = sinks_typed(job).and_then(Result::ok);
    let sinks = typed.map(|mm| Degrees((mm.0 / WHEELBASE).atan().to_degrees()));
    let Some((spot, lowest)) = lowest else {
        all.not_known(msg("unknown-load-aim"));
        return all;
    };
    let lower = sinks.unwrap_or(job.load_allowance);
    let over = job.kit.aim.least - (lowest.value - lower);
    // By the allowance alone it is a guess how far the rear sinks.
    let limits = if typed.is_some() {
        (-5.0, 12.0)
    } else {
        (-3.0, 8.0)
    };
    let points = weigh(over.0 / lowest.u.0.max(0.05), limits);
    let said = msg("evidence-load")
        .text("label", label(job, spot))
        .message("aim", aim_words(lowest.value))
        .deg("lower", lower.0);
    all.record(points, said);
    if typed.is_none() {
        all.not_known(msg("unknown-load"));
    } else {
        all.join(seen::ground_loaded(job, spot, lower));
    }
    all
}

/// Height of the row against the sheet.
pub(super) fn height(job: &JobState) -> Gathered {
    let mut all = Gathered::default();
    let row = job.mark_out.row.and_then(|row| row.above_ground);
    let (Some(range), Some(height)) = (&job.kit.height, row) else {
        all.not_known(msg("unknown-height"));
        return all;
    };
    let figures = |key: &'static str| {
        msg(key)
            .mm("height", height.0)
            .mm("least", range.least.0)
            .mm("greatest", range.greatest.0)
    };
    if height < range.least {
        all.record(22, figures("evidence-height-low"));
    } else if height > range.greatest {
        all.record(22, figures("evidence-height-high"));
    } else {
        all.record(-15, figures("evidence-height-right"));
    }
    all
}
