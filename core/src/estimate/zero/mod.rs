//! Zero the phone: its own error, found by reversal.
//!
//! A chip reads a = S u + b (in g, u the true up-vector); the back sits on
//! a flat face with the normal (wx, wy, 1), the screen with (rx, ry, 1).
//! A reading afterwards: u = normalise(S⁻¹(a - b)); a source normalised
//! inside the system gives only the direction of a, so its length k comes
//! first from |S⁻¹(k a - b)| = 1.

pub mod poses;
pub mod solve;

use serde::{Deserialize, Serialize};

use crate::estimate::contact::Feet;
use crate::estimate::propagate::propagate;
use crate::estimate::rake::{Seat, Side, rake_against_gravity};
use crate::estimate::seating::Seating;
use crate::estimate::still::StillReading;
use crate::estimate::zero::poses::PoseReading;
use crate::estimate::zero::solve::{ZeroFault, zero_phone};
use crate::sample::{STANDARD_GRAVITY, Source, UpVector, length};
use crate::text::{Message, msg};
use crate::units::{Degrees, Estimate, Millis};

/// Unknowns of a phone: offset (3), scale error (3), back seat (2), screen
/// seat (2), in this order.
pub const UNKNOWNS: usize = 10;

/// Days after which zeroing is asked for again.
pub const RENEW_AFTER: Millis = Millis(30.0 * 86_400_000.0);

/// Whether the source hands over lengths or only directions.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum SourceKind {
    /// Raw acceleration.
    Raw,
    /// Normalised inside the system.
    Normalised,
}

impl From<Source> for SourceKind {
    fn from(source: Source) -> Self {
        match source {
            Source::Acceleration { .. } => Self::Raw,
            Source::Quaternion { .. } | Source::Euler { .. } => Self::Normalised,
        }
    }
}

/// Which phone it is and what it wears: a change asks for zeroing again.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct PhoneProfile {
    /// Name given to this phone.
    pub name: String,
    /// Its case, in the fitter's words; empty for none.
    pub case: String,
    /// Feet on its back.
    pub feet: Feet,
}

/// What zeroing found; see the module.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Zeroing {
    /// Phone, case and feet it holds for.
    pub profile: PhoneProfile,
    /// Kind of source it holds for.
    pub kind: SourceKind,
    /// Offset, scale error, back seat, screen seat: offsets in g, scale as
    /// a share, seats in sines.
    pub unknowns: [f64; UNKNOWNS],
    /// Covariance of the unknowns, rows one after the other.
    pub covariance: Vec<f64>,
    /// Poses it was found from, so that it can be solved again.
    pub poses: Vec<PoseReading>,
    /// Root mean square of what is left after the fit, one direction.
    pub spread: Degrees,
    /// Face angle at an upright face with the phone's back, before zeroing
    /// minus after it.
    pub was_off_by: Degrees,
    /// When, in milliseconds since 1970 (UTC).
    pub at: Millis,
}

/// The phone in use.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub enum Phone {
    /// As it came.
    #[default]
    Unzeroed,
    /// Zeroed.
    Zeroed(Box<Zeroing>),
}

impl Phone {
    /// The same phone, its zeroing solved again with how well it turned out
    /// to sit in the job's repeats.
    #[must_use]
    pub fn seated(&self, seating: Seating) -> Self {
        match self {
            Self::Unzeroed => Self::Unzeroed,
            Self::Zeroed(zeroing) => {
                let again = zeroing.seated(seating).ok();
                Self::Zeroed(again.map_or_else(|| zeroing.clone(), Box::new))
            }
        }
    }
}

impl Zeroing {
    /// Seat of a side.
    #[must_use]
    pub fn seat(&self, side: Side) -> Seat {
        seat_of(&self.unknowns, side)
    }

    /// Up-vector of a reading with the phone's own error taken off; `None`
    /// when the reading comes from another kind of source.
    #[must_use]
    pub fn correct(&self, still: &StillReading) -> Option<UpVector> {
        (self.kind == still.source.into())
            .then(|| corrected(&self.unknowns, still))
            .flatten()
    }

    /// Face angle against gravity with its uncertainty from zeroing alone.
    #[must_use]
    pub fn rake(&self, still: &StillReading, side: Side) -> Option<Estimate<Degrees>> {
        if self.kind != still.source.into() || self.covariance.len() != UNKNOWNS * UNKNOWNS {
            return None;
        }
        let at = |unknowns: &[f64; UNKNOWNS]| {
            let up = corrected(unknowns, still)?;
            Some([rake_against_gravity(up, side, seat_of(unknowns, side)).0])
        };
        let mut covariance = [[0.0; UNKNOWNS]; UNKNOWNS];
        for (row, kept) in covariance
            .iter_mut()
            .zip(self.covariance.chunks_exact(UNKNOWNS))
        {
            row.copy_from_slice(kept);
        }
        let ([value], [[variance]]) = propagate(at, &self.unknowns, &covariance)?;
        Some(Estimate::new(
            Degrees(value),
            Degrees(variance.max(0.0).sqrt()),
        ))
    }

    /// The same poses solved again, with how well the phone turned out to
    /// sit in the job's repeats.
    ///
    /// # Errors
    /// When the poses do not fit by that seating.
    pub fn seated(&self, seating: Seating) -> Result<Self, ZeroFault> {
        zero_phone(&self.poses, self.profile.clone(), seating, self.at)
    }

    /// Why zeroing should be done again; `None` while it holds.
    #[must_use]
    pub fn renewal(&self, phone: &PhoneProfile, now: Millis) -> Option<Message> {
        let days = (now - self.at).0 / 86_400_000.0;
        if phone.name != self.profile.name {
            Some(msg("zero-renew-phone").text("profile", self.profile.name.clone()))
        } else if phone.case != self.profile.case {
            Some(msg("zero-renew-case"))
        } else if phone.feet != self.profile.feet {
            Some(msg("zero-renew-feet"))
        } else if now - self.at > RENEW_AFTER {
            Some(msg("zero-renew-age").count("days", days as i64))
        } else {
            None
        }
    }
}

/// Seat of a side among the unknowns.
pub(crate) fn seat_of(unknowns: &[f64; UNKNOWNS], side: Side) -> Seat {
    let [.., wx, wy, rx, ry] = *unknowns;
    match side {
        Side::Back => Seat { x: wx, y: wy },
        Side::Screen => Seat { x: rx, y: ry },
    }
}

fn corrected(unknowns: &[f64; UNKNOWNS], still: &StillReading) -> Option<UpVector> {
    match (still.source.into(), still.raw_mean) {
        (SourceKind::Raw, Some(raw)) => correct_raw(unknowns, raw.map(|c| c / STANDARD_GRAVITY)),
        (SourceKind::Raw, None) => None,
        (SourceKind::Normalised, _) => correct_direction(unknowns, still.up),
    }
}

pub(crate) fn unscaled(unknowns: &[f64; UNKNOWNS], a: [f64; 3]) -> [f64; 3] {
    [0, 1, 2].map(|i| (a[i] - unknowns[i]) / (1.0 + unknowns[3 + i]))
}

/// u = normalise(S⁻¹(a - b)), a in g.
pub(crate) fn correct_raw(unknowns: &[f64; UNKNOWNS], a: [f64; 3]) -> Option<UpVector> {
    UpVector::of(unscaled(unknowns, a))
}

/// First k from |S⁻¹(k d - b)| = 1, the positive root, then as raw.
pub(crate) fn correct_direction(unknowns: &[f64; UNKNOWNS], d: UpVector) -> Option<UpVector> {
    let p = [0, 1, 2].map(|i| d.0[i] / (1.0 + unknowns[3 + i]));
    let q = [0, 1, 2].map(|i| unknowns[i] / (1.0 + unknowns[3 + i]));
    let dot = |a: [f64; 3], b: [f64; 3]| a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
    let (pp, pq) = (dot(p, p), dot(p, q));
    let inside = pq * pq - pp * (dot(q, q) - 1.0);
    if inside < 0.0 || length(d.0) < 0.5 {
        return None;
    }
    let k = (pq + inside.sqrt()) / pp;
    UpVector::of([0, 1, 2].map(|i| k * p[i] - q[i]))
}
