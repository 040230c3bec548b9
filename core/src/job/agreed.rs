//! Whether this vehicle agrees with the earlier ones, by what is measured on
//! it: the two half widths and two face angles. What agrees keeps the rest
//! as measured before; what does not opens the steps that depend on it.
//! Nothing of this is stored: another reading decides anew.

use super::before::{ExpectedFace, Instrument};
use super::marks::{HalfWidths, half_widths};
use super::rings::rake_read;
use super::state::JobState;
use crate::estimate::budget::{Budget, Part};
use crate::estimate::rake::{Origin, RakeEstimate};
use crate::text::{Message, msg};
use crate::units::{COVERAGE_95, Degrees, Estimate, Millimetres};

/// Standard uncertainty of a half width by tape, mm (our own figure: edge
/// and centre line are each found to about a millimetre and a half).
pub const U_HALF_WIDTH: Millimetres = Millimetres(2.0);

/// A mark so near an earlier one is on the same face, mm (our own figure: as
/// far off its mark as a phone without feet is taken to touch).
pub const MARK_NEAR: Millimetres = Millimetres(10.0);

/// Faces that are read before the rest counts as measured before.
pub const FACES_ASKED: usize = 2;

/// Whether what is measured agrees with what was expected.
#[derive(Clone, Debug, PartialEq)]
pub enum Agrees {
    /// Not measured yet, or nothing is expected.
    NotYet,
    /// Within the ± of both.
    Yes,
    /// It does not, and by how much.
    No(Vec<Message>),
}

/// The half widths against those expected: of the marks, else as typed.
#[must_use]
pub fn halves_agree(job: &JobState) -> Agrees {
    let Some(expected) = &job.before.halves else {
        return Agrees::NotYet;
    };
    let (left, right) = match (&job.marks, half_widths(job)) {
        (_, HalfWidths::Ready { left, right, .. }) => (left, right),
        (Some(marks), HalfWidths::Open { .. }) => (marks.half_left, marks.half_right),
        (None, HalfWidths::Open { .. }) => return Agrees::NotYet,
    };
    let off = |side: &'static str, measured: Millimetres, expected: Estimate<Millimetres>| {
        let by = measured - expected.value;
        let allowed = expected.u.0.hypot(U_HALF_WIDTH.0) * COVERAGE_95;
        (by.0.abs() > allowed).then(|| {
            msg("before-half-off")
                .message("side", msg(side))
                .mm("measured", measured.0)
                .mm("before", expected.value.0)
                .mm("by", by.0.abs())
                .number("allowed", allowed, 0)
        })
    };
    let faults: Vec<Message> = [
        off("side-left", left, expected.left),
        off("side-right", right, expected.right),
    ]
    .into_iter()
    .flatten()
    .collect();
    if faults.is_empty() {
        Agrees::Yes
    } else {
        Agrees::No(faults)
    }
}

/// What is expected at a spot, as long as its mark is near where it was.
fn expected_at(job: &JobState, spot: usize) -> Option<&ExpectedFace> {
    let marks = job.marks.as_ref()?;
    let (now, then) = (marks.offsets.get(spot)?, job.before.offsets.get(spot)?);
    if (*now - *then).abs() > MARK_NEAR {
        return None;
    }
    job.before.faces.get(spot)?.as_ref()
}

/// The faces that were read against those expected. At least
/// [`FACES_ASKED`] have to agree, and none may not.
#[must_use]
pub fn faces_agree(job: &JobState) -> Agrees {
    if halves_agree(job) != Agrees::Yes {
        return Agrees::NotYet;
    }
    let mut agreeing = 0;
    let mut faults = Vec::new();
    for (spot, place) in job.spots.iter().enumerate() {
        let (Some(expected), Some(read)) = (expected_at(job, spot), rake_read(job, place)) else {
            continue;
        };
        let by = read.rake.value - expected.rake;
        let allowed = allowed(job, expected, &read);
        if by.0.abs() <= allowed.0 {
            agreeing += 1;
        } else {
            faults.push(
                msg("before-face-off")
                    .text("label", place.label.clone())
                    .message("read", crate::decide::ring_set::face_words(read.rake.value))
                    .message("before", crate::decide::ring_set::face_words(expected.rake))
                    .deg("by", by.0.abs())
                    .deg("allowed", allowed.0),
            );
        }
    }
    if !faults.is_empty() {
        Agrees::No(faults)
    } else if agreeing >= FACES_ASKED.min(job.spots.len()) {
        Agrees::Yes
    } else {
        Agrees::NotYet
    }
}

/// By how much a reading may be off what is expected (95 %). The error of
/// one phone that was never zeroed is in both and drops out.
fn allowed(job: &JobState, expected: &ExpectedFace, read: &RakeEstimate) -> Degrees {
    let instrument = read
        .budget
        .part(Part::Zeroing)
        .0
        .hypot(read.budget.part(Part::Gauge).0);
    let all = read.budget.total().0;
    let own = (all * all - instrument * instrument).max(0.0).sqrt();
    let same = read_by(job, read).is_some_and(|by| {
        matches!(by, Instrument::Unzeroed(_)) && expected.read_by.as_ref() == Some(&by)
    });
    let mut u = expected.u.0.hypot(expected.u_ground.0).hypot(own);
    if !same {
        u = u.hypot(expected.u_instrument.0).hypot(instrument);
    }
    Degrees(u * COVERAGE_95)
}

/// What read a face angle; `None` where it was not read on this vehicle.
#[must_use]
pub fn read_by(job: &JobState, read: &RakeEstimate) -> Option<Instrument> {
    match read.origin {
        Origin::Zeroed { .. } => Some(Instrument::Zeroed),
        Origin::Unzeroed => {
            let profile = job.measuring.profile.as_ref();
            let name = profile.map_or_else(String::new, |profile| profile.name.clone());
            Some(Instrument::Unzeroed(name))
        }
        Origin::Typed { .. } => Some(Instrument::Gauge),
        Origin::Before { .. } => None,
    }
}

/// The face angle of a spot that counts as measured before: this vehicle
/// agrees with the earlier ones, and the spot was not read on it.
#[must_use]
pub fn measured_before(job: &JobState, spot: usize) -> Option<RakeEstimate> {
    if job.before.faces.is_empty() || job.spots.get(spot)?.is_read() {
        return None;
    }
    let expected = expected_at(job, spot)?;
    if faces_agree(job) != Agrees::Yes {
        return None;
    }
    let budget = Budget::default()
        .with(Part::Vehicles, expected.u, "budget-shrink-vehicles")
        .with(Part::Ground, expected.u_ground, "budget-shrink-vehicles")
        .with(
            Part::Zeroing,
            expected.u_instrument,
            "budget-shrink-vehicles",
        );
    Some(RakeEstimate {
        rake: expected.estimate(),
        against_gravity: expected.rake,
        budget,
        origin: Origin::Before {
            vehicles: expected.vehicles,
            zeroed: !matches!(expected.read_by, Some(Instrument::Unzeroed(_))),
        },
        readings: 0,
    })
}

/// Faces that have to agree before the rest counts as measured before.
fn faces_needed(job: &JobState) -> usize {
    FACES_ASKED.min(job.spots.len())
}

/// The spots whose face angle is still to be read, left to right: as many as
/// have to agree where the rest may count as measured before, and those of
/// which nothing is known.
#[must_use]
pub fn faces_open(job: &JobState) -> Vec<usize> {
    let is_read = |spot: &usize| {
        job.spots
            .get(*spot)
            .is_some_and(super::state::Spot::is_read)
    };
    let is_known = |spot: &usize| expected_at(job, *spot).is_some();
    let all = 0..job.spots.len();
    let needed = faces_needed(job);
    let mut open: Vec<usize> = all.clone().filter(|spot| !is_read(spot)).collect();
    match faces_agree(job) {
        Agrees::Yes => open.retain(|spot| !is_known(spot)),
        Agrees::NotYet
            if halves_agree(job) == Agrees::Yes
                && all.clone().filter(is_known).count() >= needed =>
        {
            let agreeing = all.clone().filter(|at| is_known(at) && is_read(at)).count();
            // One at the edge and one inside, on either side of the middle.
            let mut asked: Vec<usize> = Vec::new();
            for spot in [0, job.spots.len() / 2].into_iter().chain(all) {
                if is_known(&spot) && !is_read(&spot) && !asked.contains(&spot) {
                    asked.push(spot);
                }
            }
            asked.truncate(needed.saturating_sub(agreeing));
            open.retain(|spot| !is_known(spot) || asked.contains(spot));
        }
        Agrees::NotYet | Agrees::No(_) => {}
    }
    open
}

/// What is to be read once the half widths agree.
fn what_is_asked(job: &JobState) -> Message {
    let heads = job.spots.len();
    let is_known = |spot: &usize| {
        if job.marks.is_some() {
            expected_at(job, *spot).is_some()
        } else {
            job.before.faces.get(*spot).is_some_and(Option::is_some)
        }
    };
    let is_read = |spot: &usize| {
        job.spots
            .get(*spot)
            .is_some_and(super::state::Spot::is_read)
    };
    let known: Vec<usize> = (0..heads).filter(is_known).collect();
    let needed = faces_needed(job);
    if known.len() < needed || heads == needed {
        return msg("before-halves-agree-all");
    }
    let agreeing = known.iter().filter(|spot| is_read(spot)).count();
    let faces = i64::try_from(needed.saturating_sub(agreeing)).unwrap_or(i64::MAX);
    let unknown: Vec<String> = (0..heads)
        .filter(|spot| !is_known(spot) && !is_read(spot))
        .filter_map(|spot| Some(job.spots.get(spot)?.label.clone()))
        .collect();
    if unknown.is_empty() {
        msg("before-halves-agree").count("faces", faces)
    } else {
        msg("before-halves-agree-some")
            .count("faces", faces)
            .text("labels", unknown.join(", "))
    }
}

/// How this vehicle stands against the earlier ones, in words: what agrees,
/// or by how much it does not and what is open because of it. Empty for a
/// job of its own.
#[must_use]
pub fn agreement_words(job: &JobState) -> Vec<Message> {
    if job.before.halves.is_none() {
        return Vec::new();
    }
    match (halves_agree(job), faces_agree(job)) {
        (Agrees::NotYet, _) => vec![msg("before-compare-halves")],
        (Agrees::No(mut why), _) => {
            why.push(msg("before-opens-marks"));
            why
        }
        (Agrees::Yes, Agrees::No(mut why)) => {
            why.push(msg("before-opens-faces"));
            why
        }
        (Agrees::Yes, Agrees::Yes) => vec![msg("before-agrees")],
        (Agrees::Yes, Agrees::NotYet) => vec![what_is_asked(job)],
    }
}
