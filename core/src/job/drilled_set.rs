//! The set that goes into a hole that is there: whether it fits, and how the
//! head goes in with it.

use super::apply::Refusal;
use super::rings_chosen::set_taken;
use super::state::JobState;
use crate::decide::drill::fitting_steps;
use crate::decide::ring_set::RingSet;
use crate::text::{Message, msg};

/// Why a set does not go into the hole that is drilled at a spot; `None`
/// where it does, or nothing is drilled.
pub(super) fn other_hole(job: &JobState, spot: u8, set: &RingSet) -> Option<Message> {
    let drilled = job.holes.drilled.get(&spot)?;
    let (kit, material) = (&job.kit, job.behind.material);
    let needs = set.hole(kit, material)?;
    (!set.fits_hole(kit, material, drilled.diameter)).then(|| {
        msg("refused-other-hole")
            .number("drilled", drilled.diameter.0, 1)
            .number("needs", needs.0, 1)
    })
}

/// Why the set that goes in now at a drilled spot needs another hole: a face
/// read again, another load or a pair may change it. `None` where it fits.
#[must_use]
pub fn set_needs_other_hole(job: &JobState, spot: usize) -> Option<Message> {
    let taken = set_taken(job, spot)?;
    let other = other_hole(job, u8::try_from(spot).ok()?, &taken.set)?;
    Some(
        msg("set-needs-other-hole")
            .message("set", taken.set.name())
            .message("why", other),
    )
}

/// Refuses what would make a set need another hole than the one drilled.
pub(super) fn holes_stay(before: &JobState, next: &JobState) -> Result<(), Refusal> {
    let newly = |spot: usize| {
        let why = set_needs_other_hole(next, spot)?;
        set_needs_other_hole(before, spot).is_none().then_some(why)
    };
    match (0..next.spots.len()).find_map(newly) {
        Some(why) => Err(Refusal(why)),
        None => Ok(()),
    }
}

/// How the head at a spot goes in with its set, from the ring that comes off
/// first; empty until a set is taken.
#[must_use]
pub fn fitting_at(job: &JobState, spot: usize) -> Vec<Message> {
    let Some(taken) = set_taken(job, spot) else {
        return Vec::new();
    };
    let sat_with = u8::try_from(spot)
        .ok()
        .and_then(|spot| job.rings.sat_with.get(&spot))
        .map(|set| set.ring.as_str());
    let on_head = sat_with.or(job.kit.heads.comes_with.as_deref());
    fitting_steps(&job.kit, &taken.set, on_head)
}
