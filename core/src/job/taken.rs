//! How the fitter's tape lies: straight across, or along the face. What is
//! taken along the face is turned into straight by the shape from above.

use serde::{Deserialize, Serialize};

use super::entry::{Field, read_half_width, read_length, read_offset};
use super::marks::{offset_words, planned_place};
use super::measured::plan_curve;
use super::state::JobState;
use crate::estimate::shape::PlanCurve;
use crate::text::{Message, msg};
use crate::units::{COVERAGE_95, Estimate, Millimetres, Offset};

/// So far beyond its outermost place the shape from above still counts, mm:
/// a face that turns 20 degrees in 100 mm is off by about a millimetre there
/// (our own figure).
pub const SHAPE_REACH: Millimetres = Millimetres(50.0);

/// How distances across the bumper are taken.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Taken {
    /// Straight across, as the eye sees it from behind.
    #[default]
    Straight,
    /// With a tape laid along the face.
    AlongFace,
}

impl Taken {
    /// Both, in the order in which they are shown.
    pub const ALL: [Self; 2] = [Self::Straight, Self::AlongFace];

    /// Its words.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::Straight => "taken-straight",
            Self::AlongFace => "taken-along",
        })
    }
}

/// Why figures along the face cannot be used yet; `None` where they can.
#[must_use]
pub fn no_shape(job: &JobState) -> Option<Message> {
    let needed = job.mark_out.taken == Taken::AlongFace && plan_curve(job).is_none();
    needed.then(|| msg("taken-no-shape"))
}

/// How far the shape from above counts along the face, left and right of the
/// centre line, mm.
fn reach(curve: &PlanCurve) -> (f64, f64) {
    let places = || curve.knots().iter().map(|knot| knot.along.0);
    let left = places().fold(0.0, f64::min) - SHAPE_REACH.0;
    let right = places().fold(0.0, f64::max) + SHAPE_REACH.0;
    (left, right)
}

/// The place along the face of a straight offset; `None` where the shape from
/// above does not reach it: more than [`SHAPE_REACH`] beyond its outermost
/// place nothing is guessed.
#[must_use]
pub fn along_known(curve: &PlanCurve, straight: Offset) -> Option<Estimate<Millimetres>> {
    let (left, right) = reach(curve);
    let along = curve.along(straight)?;
    (left..=right).contains(&along.value.0).then_some(along)
}

/// A place along the face as straight offset.
fn straightened(job: &JobState, along: Offset) -> Result<Estimate<Offset>, Message> {
    let curve = plan_curve(job).ok_or_else(|| msg("taken-no-shape"))?;
    let (left, right) = reach(&curve);
    if (left..=right).contains(&along.0) {
        return Ok(curve.straight(Millimetres(along.0)));
    }
    let end = if along.0 < 0.0 { left } else { right };
    Err(msg("taken-beyond-shape")
        .mm("typed", along.abs().0)
        .mm("end", end.abs()))
}

/// Turns a distance from the centre line, as the tape gave it, into straight.
pub(super) fn as_taken(job: &JobState, typed: Offset) -> Result<Offset, Message> {
    match job.mark_out.taken {
        Taken::Straight => Ok(typed),
        Taken::AlongFace => straightened(job, typed).map(|straight| straight.value),
    }
}

/// A half width as typed, straight.
pub(super) fn half_width(job: &JobState, field: Field) -> Result<Millimetres, Message> {
    let typed = job.typed(field);
    if job.mark_out.taken == Taken::Straight {
        return read_half_width(typed);
    }
    let side = if field == Field::HalfLeft { -1.0 } else { 1.0 };
    let along = read_half_width(typed)?;
    let straight = straightened(job, Offset(along.0 * side))?.value;
    let half = Millimetres((straight.0 * side).round());
    // A face that turns away that far has its outer edge nearer.
    read_half_width(&half.0.to_string())
}

/// The offset from the centre line in a field, straight; in whole
/// millimetres where it was taken along the face: the shape is not known finer.
///
/// # Errors
/// No length, too far out, or taken along a face whose shape is not known.
pub fn typed_offset(job: &JobState, field: Field) -> Result<Offset, Message> {
    let straight = as_taken(job, read_offset(job.typed(field))?)?;
    Ok(match job.mark_out.taken {
        Taken::Straight => straight,
        Taken::AlongFace => Offset(straight.0.round()),
    })
}

/// Where the mark of a spot belongs, as the tape shows it; where the shape
/// from above does not reach it, straight, and it says so.
#[must_use]
pub fn place_on_tape(job: &JobState, spot: usize) -> Message {
    let straight = planned_place(job, spot);
    let offsets = job.marks.as_ref().map(|marks| &marks.offsets);
    let offset = offsets.and_then(|offsets| offsets.get(spot));
    let Some(offset) = offset.filter(|_| job.mark_out.taken == Taken::AlongFace) else {
        return straight;
    };
    match plan_curve(job).and_then(|curve| along_known(&curve, *offset)) {
        Some(along) => offset_words(Offset(along.value.0.round())),
        None => msg("taken-place-straight").message("place", straight),
    }
}

/// What a field's figure along the face is straight, with its ±; `None`
/// where the tape is straight, nothing fits, or nothing is typed.
#[must_use]
pub fn straight_words(job: &JobState, field: Field) -> Option<Message> {
    if job.mark_out.taken == Taken::Straight {
        return None;
    }
    let along = match field {
        Field::HalfLeft => read_length(job.typed(field)).ok()? * -1.0,
        Field::HalfRight => read_length(job.typed(field)).ok()?,
        _ => Millimetres(read_offset(job.typed(field)).ok()?.0),
    };
    let straight = straightened(job, Offset(along.0)).ok()?;
    Some(
        msg("taken-is-straight")
            .mm("straight", straight.value.abs().0)
            .number("plus", straight.u.0 * COVERAGE_95, 1),
    )
}
