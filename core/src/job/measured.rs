//! What follows from how a job's angles are measured: what stands around
//! the readings of a spot, what repeats and mirror spots say, the shape
//! from above, level in a photo.

use super::card_photos::{ShapeFrom, shape_of};
use super::measuring::{LevelPhoto, PictureLine};
use super::rings::rake_at;
use super::state::{JobState, Spot, TakenReading};
use super::taken::along_known;
use crate::estimate::contact::{Contact, Feet, Roundness};
use crate::estimate::ground::{Ground, GroundHow};
use crate::estimate::level::{LaidLine, line_against_level, vehicle_level_in_picture};
use crate::estimate::rake::{Around, FaceReading, Seat, Side, Turn, rake_against_gravity};
use crate::estimate::repeats::{Repeats, compare_mirror, judge_repeats};
use crate::estimate::seating::Seating;
use crate::estimate::shape::PlanCurve;
use crate::estimate::still::StillReading;
use crate::estimate::turn::{ClosedSweep, close_sweep};
use crate::estimate::zero::Phone;
use crate::text::{Message, msg};
use crate::units::{Degrees, Estimate};

/// Fewer degrees of freedom than this say less about seating than the
/// usual figure does: t95 would widen one pair of repeats more than
/// sixfold, and reading once more would make a result worse.
pub const POOL_FROM: usize = 4;

/// What stands around the readings at a spot.
#[must_use]
pub fn around(job: &JobState, spot: &Spot) -> Around {
    let index = job.spots.iter().position(|other| other.label == spot.label);
    Around {
        ground: job.ground.clone(),
        contact: contact(job),
        turn: index.map_or(Turn::NotKnown, |index| corner_angle(job, index)),
        seating: seating(job),
    }
}

/// Feet and roundness.
#[must_use]
pub fn contact(job: &JobState) -> Contact {
    Contact {
        feet: job
            .measuring
            .profile
            .as_ref()
            .map_or(Feet::None, |profile| profile.feet),
        roundness: job.measuring.roundness,
    }
}

/// The held angles at a spot against gravity, by the phone's zeroing where
/// it holds for them.
#[must_use]
pub fn held_angles(job: &JobState, spot: &Spot) -> Vec<Degrees> {
    spot.readings
        .iter()
        .filter_map(|taken| match taken.reading {
            FaceReading::Held { still, side } => Some(held_angle(job, &still, side)),
            FaceReading::Typed { .. } => None,
        })
        .collect()
}

fn plain(still: &StillReading, side: Side) -> Degrees {
    rake_against_gravity(still.up, side, Seat::default())
}

/// Seating pooled from the repeats of all spots, from [`POOL_FROM`] degrees
/// of freedom on.
#[must_use]
pub fn seating(job: &JobState) -> Seating {
    let lists: Vec<_> = job
        .spots
        .iter()
        .map(|spot| held_angles(job, spot))
        .collect();
    let extra: usize = lists.iter().map(|list| list.len().saturating_sub(1)).sum();
    if extra < POOL_FROM {
        return Seating::Assumed;
    }
    Seating::pooled(&lists)
}

/// The phone with its poses weighed by how it turned out to sit.
#[must_use]
pub fn phone_as_seated(job: &JobState) -> Phone {
    match (&job.phone, seating(job)) {
        (Phone::Zeroed(zeroing), pooled @ Seating::Pooled { .. }) => {
            let seated = zeroing.seated(pooled);
            Phone::Zeroed(seated.map_or_else(|_| zeroing.clone(), Box::new))
        }
        (phone, _) => phone.clone(),
    }
}

/// The sweep, closed on the ground as it is known now; `None` without one.
#[must_use]
pub fn sweep(job: &JobState) -> Option<Result<ClosedSweep, Message>> {
    (!job.measuring.stations.is_empty()).then(|| close_sweep(&job.measuring.stations, &job.ground))
}

/// The shape from above: by photos where that was chosen, else where a sweep
/// gave one.
#[must_use]
pub fn plan_curve(job: &JobState) -> Option<PlanCurve> {
    match job.card_photos.shape {
        ShapeFrom::Photos => shape_of(&job.card_photos),
        ShapeFrom::Angles => PlanCurve::from_sweep(&sweep(job)?.ok()?).ok(),
    }
}

/// The corner angle at a spot: typed, else from the sweep, else not known.
#[must_use]
pub fn corner_angle(job: &JobState, spot: usize) -> Turn {
    if let Some(typed) = job.measuring.typed_turn(spot) {
        return Turn::Known(typed);
    }
    let swept = || {
        let offset = *job.marks.as_ref()?.offsets.get(spot)?;
        let curve = plan_curve(job)?;
        Some(curve.turn_at(curve.along(offset)?.value))
    };
    swept().map_or(Turn::NotKnown, Turn::Known)
}

/// A corner angle in words: 'turned 32.0° to the right ± 2.4°'.
#[must_use]
pub fn corner_words(turn: Turn) -> Message {
    let Turn::Known(Estimate { value, u }) = turn else {
        return msg("corner-not-known");
    };
    let key = if value.abs().0 < 0.05 {
        "corner-straight"
    } else if value.0 > 0.0 {
        "corner-right"
    } else {
        "corner-left"
    };
    super::rings::with_plus_minus(
        msg(key).deg("angle", value.abs().0),
        u * crate::units::COVERAGE_95,
    )
}

/// Each mark straight and along the face, where the shape is known there.
#[must_use]
pub fn along_the_face(job: &JobState) -> Vec<Message> {
    let (Some(curve), Some(marks)) = (plan_curve(job), &job.marks) else {
        return Vec::new();
    };
    let row = |(spot, offset): (&Spot, &crate::units::Offset)| {
        let along = along_known(&curve, *offset)?;
        Some(
            msg("along-mark")
                .text("label", spot.label.clone())
                .mm("straight", offset.0.abs())
                .mm("along", along.value.abs().0)
                .number("plus", along.expanded().0, 1),
        )
    };
    job.spots
        .iter()
        .zip(&marks.offsets)
        .filter_map(row)
        .collect()
}

/// Each station of the sweep, along the face and straight.
#[must_use]
pub fn stations_straight(job: &JobState) -> Vec<Message> {
    let Some(curve) = plan_curve(job) else {
        return Vec::new();
    };
    let row = |knot: &crate::estimate::shape::Knot| {
        let straight = curve.straight(knot.along);
        msg("along-station")
            .mm("along", knot.along.0)
            .number("straight", straight.value.0, 0)
            .number("plus", straight.u.0 * crate::units::COVERAGE_95, 1)
            .message("corner", corner_words(Turn::Known(knot.turn)))
    };
    curve.knots().iter().map(row).collect()
}

/// Each reading at a spot in words, oldest first: its number, and the angle
/// as read, before the ground is taken off.
#[must_use]
pub fn reading_words(job: &JobState, spot: &Spot) -> Vec<Message> {
    let words = |(at, taken): (usize, &TakenReading)| {
        let angle = match taken.reading {
            FaceReading::Held { still, side } => held_angle(job, &still, side),
            FaceReading::Typed { angle, .. } => angle,
        };
        msg("reading-of")
            .count("number", i64::try_from(at + 1).unwrap_or(i64::MAX))
            .message("face", super::rings::facing_words(angle))
    };
    spot.readings.iter().enumerate().map(words).collect()
}

fn held_angle(job: &JobState, still: &StillReading, side: Side) -> Degrees {
    match &job.phone {
        Phone::Zeroed(zeroing) => zeroing
            .rake(still, side)
            .map_or_else(|| plain(still, side), |rake| rake.value),
        Phone::Unzeroed => plain(still, side),
    }
}

/// What the repeats at a spot say; nothing while they agree.
#[must_use]
pub fn repeats_at(job: &JobState, spot: &Spot) -> Option<Message> {
    let angles = held_angles(job, spot);
    if angles.len() < 2 {
        return None;
    }
    // Not the pooled figure: an outlier would hide itself in it.
    match judge_repeats(&angles, Seating::Assumed) {
        Repeats::Agree => None,
        Repeats::Outliers { message, .. } | Repeats::Contradict(message) => Some(message),
    }
}

/// Mirror spots whose face angles differ beyond their uncertainty.
#[must_use]
pub fn mirrors(job: &JobState) -> Vec<Message> {
    let n = job.spots.len();
    (0..n / 2)
        .filter_map(|i| {
            let (left, right) = (job.spots.get(i)?, job.spots.get(n - 1 - i)?);
            let differs = compare_mirror(&rake_at(job, left)?, &rake_at(job, right)?)?;
            Some(
                msg("mirror-pair")
                    .text("left", left.label.clone())
                    .text("right", right.label.clone())
                    .message("what", differs),
            )
        })
        .collect()
}

/// How the ground was found, in few words.
#[must_use]
pub fn ground_words(ground: &Ground) -> Message {
    match &ground.how {
        GroundHow::LooksLevel => msg("ground-is-level"),
        GroundHow::Board | GroundHow::GaugeOnBoard => msg("ground-is-board"),
        GroundHow::Bay { name, .. } => msg("ground-is-bay").text("name", name.clone()),
        GroundHow::Sill => msg("ground-is-sill"),
    }
}

/// How the ground lies, with figures.
#[must_use]
pub fn ground_figures(ground: &Ground) -> Message {
    let way = |value: Degrees, up: &'static str, down: &'static str| {
        msg(if value.0 < 0.0 { down } else { up }).deg("angle", value.abs().0)
    };
    let nose = way(ground.nose_up.value, "ground-nose-up", "ground-nose-down");
    let lean = way(ground.right_up.value, "ground-right-up", "ground-left-up");
    msg("ground-figures")
        .message("nose", nose)
        .deg("nose_plus", ground.nose_up.expanded().0)
        .message("lean", lean)
        .deg("lean_plus", ground.right_up.expanded().0)
}

/// The phone in few words.
#[must_use]
pub fn phone_words(phone: &Phone) -> Message {
    match phone {
        Phone::Unzeroed => msg("phone-not-zeroed"),
        Phone::Zeroed(_) => msg("phone-zeroed"),
    }
}

/// How round the face is, in few words.
#[must_use]
pub fn roundness_words(roundness: Roundness) -> Message {
    match roundness {
        Roundness::Flat => msg("round-flat"),
        Roundness::Rounded => msg("round-rounded"),
        Roundness::Tight => msg("round-tight"),
        Roundness::Measured(radius) => msg("round-measured").mm("radius", radius.0),
    }
}

/// Angle of the vehicle's level in a photo, anticlockwise; `None` where the
/// phone's attitude is not known or the camera looked away.
#[must_use]
pub fn level_in_photo(job: &JobState, photo: &LevelPhoto) -> Option<Estimate<Degrees>> {
    vehicle_level_in_picture(&photo.held?, photo.turn, &job.ground).ok()
}

/// A line laid over a photo against the vehicle's level.
#[must_use]
pub fn line_in_photo(
    job: &JobState,
    photo: &LevelPhoto,
    line: PictureLine,
) -> Option<Estimate<Degrees>> {
    let laid = LaidLine {
        ends: line,
        height: f64::from(photo.height) / f64::from(photo.width.max(1)),
    };
    line_against_level(laid, &photo.held?, photo.turn, &job.ground).ok()
}

/// The line on a level photo against level, in words; `None` without a line
/// or an attitude.
#[must_use]
pub fn line_on_photo(job: &JobState, photo: &LevelPhoto) -> Option<Message> {
    let off = line_in_photo(job, photo, photo.line?)?;
    let key = if off.value.abs().0 < 0.05 {
        "level-line-level"
    } else if off.value.0 > 0.0 {
        "level-line-right-high"
    } else {
        "level-line-left-high"
    };
    Some(super::rings::with_plus_minus(
        msg(key).deg("angle", off.value.abs().0),
        off.expanded(),
    ))
}
