//! A head in its place, and how many decibels it has to spare.

use super::air::Air;
use super::beam::Beam;
use super::bessel::directivity;
use super::echo::{DIRECTIVITY_LEAST, Mirror, POLE_RADIUS, Target, spread};
use super::near::too_close;
use crate::kit::BeamWay;
use crate::text::{Message, msg};
use crate::units::{Decibels, Degrees, Millimetres, Millis, Offset};

/// What all heads of a kit have in common.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sensor {
    /// The beam.
    pub beam: Beam,
    /// The calibration C, dB: 0 to spare on the axis for the test pole at
    /// the rated range in reference air.
    pub calibration: f64,
    /// How long a head rings after its pulse.
    pub ringing: Millis,
}

impl Sensor {
    /// From the sheet's figures.
    ///
    /// # Errors
    /// A message when the rated range does not reach beyond the pole's own
    /// radius, or a beam width or frequency is none.
    pub fn new(
        rated_range: Millimetres,
        kilohertz: f64,
        widths: [Degrees; 2],
        way: BeamWay,
        ringing: Millis,
    ) -> Result<Self, Message> {
        let [across, upright] = widths;
        let beam =
            Beam::new(kilohertz, across, upright, way).ok_or_else(|| msg("coverage-no-beam"))?;
        let range = rated_range.0 / 1e3 - POLE_RADIUS;
        if !(range > 0.0 && range.is_finite()) {
            return Err(msg("coverage-no-range").mm("typed", rated_range.0));
        }
        if !(ringing.0 >= 0.0 && ringing.0.is_finite()) {
            return Err(msg("coverage-no-ringing"));
        }
        let alpha = Air::REFERENCE.absorption(beam.hertz);
        let pole = 10.0 * spread(Some(POLE_RADIUS), range).log10();
        Ok(Self {
            beam,
            calibration: 20.0 * (2.0 * range).log10() - pole + 2.0 * alpha * range,
            ringing,
        })
    }
}

/// One head where it sits and points.
#[derive(Clone, Debug, PartialEq)]
pub struct HeadInPlace {
    /// Its label from the kit sheet.
    pub label: String,
    /// Straight offset from the centre line.
    pub offset: Offset,
    /// How far forward of the bumper's rearmost point it sits (shape from
    /// above), 0 where that is not known.
    pub forward: Millimetres,
    /// Height above the ground.
    pub height: Millimetres,
    /// Elevation of its axis, + up.
    pub aim: Degrees,
    /// Corner angle of its axis, + to the right.
    pub turn: Degrees,
    /// The kit's beam and calibration.
    pub sensor: Sensor,
}

/// A place behind the vehicle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Straight offset from the centre line, + to the right.
    pub across: Offset,
    /// Distance behind the bumper's rearmost point.
    pub behind: Millimetres,
}

/// What one head has to spare for an object.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeadLevel {
    /// Decibels to spare: seen from 0 on. `None` where the object lies
    /// behind the head's own face.
    pub level: Option<Decibels>,
    /// How far the head is from the object's surface.
    pub range: Millimetres,
    /// Whether that is inside the head's too-close zone.
    pub too_close: bool,
}

impl HeadLevel {
    /// Whether the head sees the object.
    #[must_use]
    pub fn seen(&self) -> bool {
        self.level.is_some_and(|level| level.0 >= 0.0)
    }
}

/// A head in metres with what is the same for every place worked out.
#[derive(Clone, Copy, Debug)]
pub(super) struct Ready {
    pub at: [f64; 3],
    pub axis: [f64; 3],
    /// k a_h h and k a_v v: their products with a direction are the two
    /// parts of x.
    pub across: [f64; 3],
    pub upright: [f64; 3],
    pub alpha: f64,
    pub calibration: f64,
    pub near: f64,
}

impl HeadInPlace {
    /// Whether it looks away from the vehicle at all.
    #[must_use]
    pub fn faces_out(&self) -> bool {
        self.axis()[1] < 0.0
    }

    fn axis(&self) -> [f64; 3] {
        let (aim, turn) = (self.aim, self.turn);
        [aim.cos() * turn.sin(), -aim.cos() * turn.cos(), aim.sin()]
    }

    pub(super) fn ready(&self, air: &Air) -> Ready {
        let a = self.axis();
        let h = [self.turn.cos(), self.turn.sin(), 0.0];
        let v = [
            a[1] * h[2] - a[2] * h[1],
            a[2] * h[0] - a[0] * h[2],
            a[0] * h[1] - a[1] * h[0],
        ];
        let beam = self.sensor.beam;
        let k = beam.wave_number(air);
        Ready {
            at: [
                self.offset.0 / 1e3,
                self.forward.0 / 1e3,
                self.height.0 / 1e3,
            ],
            axis: a,
            across: h.map(|part| k * beam.across * part),
            upright: v.map(|part| k * beam.upright * part),
            alpha: air.absorption(beam.hertz),
            calibration: self.sensor.calibration,
            near: too_close(self.sensor.ringing, air).0 / 1e3,
        }
    }
}

pub(super) fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

impl Ready {
    /// Decibels to spare for a mirror point; `None` behind the face.
    pub(super) fn level(&self, mirror: &Mirror) -> Option<f64> {
        if dot(mirror.direction, self.axis) <= 0.0 {
            return None;
        }
        let across = dot(mirror.direction, self.across);
        let upright = dot(mirror.direction, self.upright);
        let d = directivity(across * across + upright * upright);
        let d = d.abs().max(DIRECTIVITY_LEAST);
        let r = mirror.range;
        let body = spread(mirror.first, r) * spread(mirror.second, r);
        // 40 log10 D - 20 log10 2r + 10 log10 body as one logarithm.
        let ratio = d.powi(4) * body / (4.0 * r * r);
        Some(10.0 * ratio.log10() - 2.0 * self.alpha * r + self.calibration - mirror.loss)
    }
}

/// What each head has to spare for the target at a place, in the order of
/// the heads.
#[must_use]
pub fn predict(heads: &[HeadInPlace], target: &Target, at: Place, air: &Air) -> Vec<HeadLevel> {
    let (x, y) = (at.across.0 / 1e3, -at.behind.0 / 1e3);
    heads
        .iter()
        .map(|head| {
            let ready = head.ready(air);
            let mirror = target.mirror(ready.at, x, y);
            HeadLevel {
                level: ready.level(&mirror).map(Decibels),
                range: Millimetres(mirror.range * 1e3),
                too_close: mirror.range < ready.near,
            }
        })
        .collect()
}
