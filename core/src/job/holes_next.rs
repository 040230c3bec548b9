//! What to do next at the holes.

use super::holes::{Hole, hole, seen_from_behind};
use super::marks::marks_fault;
use super::state::JobState;

/// What to do next at the holes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AtHoles {
    /// The cautions are read and heeded.
    Heed,
    /// It is seen that nothing is behind this mark.
    Confirm(usize),
    /// This hole is made.
    Drill(usize),
    /// This head goes in.
    Seat(usize),
    /// The marks are put right.
    Marks,
    /// Somebody looks behind.
    Look,
    /// The tool's reach is typed.
    Type,
    /// All is done here.
    Onward,
}

/// All holes come before the first head: the loom is laid in between.
#[must_use]
pub fn next_at_holes(job: &JobState) -> AtHoles {
    let (mut any_made, mut any_shut, mut tool) = (false, false, false);
    let mut out = None;
    for spot in 0..job.spots.len() {
        match hole(job, spot) {
            Hole::Plan(_) if job.holes.cautions.is_none() => return AtHoles::Heed,
            Hole::Plan(_) if !seen_from_behind(job, spot) => return AtHoles::Confirm(spot),
            Hole::Plan(_) => return AtHoles::Drill(spot),
            Hole::Drilled(_) => {
                any_made = true;
                if !is_seated(job, spot) {
                    out = out.or(Some(spot));
                }
            }
            shut @ Hole::Shut(_) => {
                any_shut = true;
                tool |= shut.waits_for_the_tool();
            }
        }
    }
    if let Some(spot) = out {
        AtHoles::Seat(spot)
    } else if any_shut && marks_fault(job).is_some() {
        AtHoles::Marks
    } else if tool {
        AtHoles::Type
    } else if any_made {
        AtHoles::Onward
    } else {
        AtHoles::Look
    }
}

/// Whether the head of a spot is in.
#[must_use]
pub fn is_seated(job: &JobState, spot: usize) -> bool {
    let spot = u8::try_from(spot).unwrap_or(u8::MAX);
    job.rings.seated.contains_key(&spot)
}
