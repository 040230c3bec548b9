//! Ring choices of a job, from its readings and its kit sheet.

use super::state::{JobState, Spot};
use crate::decide::ring_set::{RingChoice, SpotFacts, choose};

/// The ring choice at a spot; `None` until its face angle is read.
#[must_use]
pub fn ring_choice(job: &JobState, spot: &Spot) -> Option<RingChoice> {
    let face = spot.face.as_ref()?;
    Some(choose(&job.kit, &facts(job, face)))
}

fn facts(_job: &JobState, _face: &super::state::FaceReading) -> SpotFacts { unimplemented!() }
