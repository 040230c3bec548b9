//! Photos of mark cards in the place of the tape that is read back.

use super::entry::Field;
use super::measured::plan_curve;
use super::state::JobState;
use super::taken::Taken;
use super::tape_limit::tape_limits;
use crate::estimate::photo::against::against_plan;
use crate::estimate::photo::result::Zero;
use crate::text::{Message, msg};
use crate::units::{COVERAGE_95, Offset};

/// What photos put into the fields of the tape that is read back.
#[derive(Clone, Debug, PartialEq)]
pub struct TapeByPhotos {
    /// Fields with their text: places, and heights where the row has one.
    pub fields: Vec<(Field, String)>,
    /// Marks that the photos do not know well enough, in words.
    pub left: Option<Message>,
}

/// What the photos measured, as the tape would be typed; only what is known
/// within the limits of the check (95 %).
///
/// # Errors
/// Nothing was measured, no card stood on the centre line, or the tape lies
/// along a face whose shape is not known.
pub fn tape_by_photos(job: &JobState) -> Result<TapeByPhotos, Message> {
    let none = || msg("tape-photos-none");
    let outcome = job.card_photos.outcome.as_ref().ok_or_else(none)?;
    let marks = job.marks.as_ref().ok_or_else(|| msg("refused-no-marks"))?;
    let against = against_plan(&outcome.measured, &marks.offsets);
    if against.is_empty() {
        return Err(none());
    }
    if outcome.measured.zero != Zero::CentreMark {
        return Err(msg("tape-photos-no-centre"));
    }
    let limits = tape_limits(job);
    let (mut fields, mut unsure) = (Vec::new(), Vec::new());
    let mut put = |field, spot: usize, value: f64, plus: f64, limit: f64| {
        if plus <= limit {
            fields.push((field, format!("{value:.1}")));
            return;
        }
        let label = job.spots.get(spot).map_or("", |spot| &spot.label);
        unsure.push(
            msg("tape-photos-not-sure")
                .text("label", label.to_owned())
                .number("plus", plus, 1)
                .number("limit", limit, 1),
        );
    };
    let field = |spot: usize| u8::try_from(spot).unwrap_or(u8::MAX);
    for mark in against {
        let at = on_tape(job, mark.at.value)?;
        let plus = mark.at.u.0 * COVERAGE_95;
        let place = Field::TapeMark(field(mark.mark));
        put(place, mark.mark, at.0, plus, limits.mark.0);
    }
    if job.mark_out.row.is_some() {
        for (mark, below) in &outcome.below_line {
            let height = Field::TapeLine(field(*mark));
            let plus = below.expanded().0;
            put(height, *mark, -below.value.0, plus, limits.level.0);
        }
    }
    let left = (!unsure.is_empty()).then(|| msg("tape-photos-left").list("marks", unsure));
    Ok(TapeByPhotos { fields, left })
}

/// A straight place as the tape shows it.
fn on_tape(job: &JobState, straight: Offset) -> Result<Offset, Message> {
    if job.mark_out.taken == Taken::Straight {
        return Ok(straight);
    }
    let no_shape = || msg("taken-no-shape");
    let curve = plan_curve(job).ok_or_else(no_shape)?;
    let along = curve.along(straight).ok_or_else(no_shape)?;
    Ok(Offset(along.value.0))
}
