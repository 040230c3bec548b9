//! Raw sensor input made valid.
//!
//! # Frame and signs
//! Device frame as in W3C DeviceOrientation and Android `SensorEvent`: x to
//! the right of the screen, y to its top edge, z out of the screen. At rest
//! the reading points **up**: face up reads z = +9.81 m/s². A source with
//! the opposite sign (raw iOS CoreMotion, which also counts in g) is turned
//! round by its [`Convention`].

mod check_line;
mod up;

use serde::{Deserialize, Serialize};

use crate::text::{Message, msg};
use crate::units::{Degrees, Millis};

pub use check_line::{CHECK_LINE, CHECK_LINE_OFF, CHECK_LINE_TRUE, CheckLine, U_CHECK_LINE};
pub(crate) use up::length;
pub use up::{UpVector, azimuth_change};

/// Standard gravity in m/s²: CGPM 1901, as in ISO 80000-3.
pub const STANDARD_GRAVITY: f64 = 9.806_65;

/// An acceleration shorter than this, in m/s², shows no direction.
const LEAST_GRAVITY: f64 = 0.5;
/// At rest one axis never shows this much; chips end at 2 g = 19.6 m/s².
const SATURATION: f64 = 19.5;
/// Length at rest, in the source's unit, taken as g.
const LOOKS_LIKE_G: core::ops::Range<f64> = 0.8..1.2;
/// Length at rest, in the source's unit, taken as m/s².
const LOOKS_LIKE_METRES: core::ops::Range<f64> = 7.8..11.8;
/// So many readings in a row that look like m/s² overrule g.
const CONTRARY_RUN: u8 = 3;
/// Below this horizontal share of the screen's normal (5.7 degrees from
/// flat) its azimuth has no meaning.
const LEAST_HORIZONTAL: f64 = 0.1;

/// What kind of sensor a sample came from, with the step to which the
/// source rounds (0 when it does not).
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Source {
    /// Raw acceleration with gravity in m/s²; offset and scale are the chip's own.
    Acceleration {
        /// Rounding step in m/s² on each axis.
        step: f64,
    },
    /// Quaternion device -> world, normalised inside the system.
    Quaternion {
        /// Rounding step in degrees.
        step: Degrees,
    },
    /// W3C Euler angles, normalised inside the system.
    Euler {
        /// Rounding step in degrees.
        step: Degrees,
    },
}

impl Source {
    /// The source's step as an angle near level: step/g for acceleration.
    #[must_use]
    pub fn step_angle(self) -> Degrees {
        match self {
            Self::Acceleration { step } => Degrees((step / STANDARD_GRAVITY).to_degrees()),
            Self::Quaternion { step } | Self::Euler { step } => step,
        }
    }

    /// Standard uncertainty from rounding: step/sqrt(12) (JCGM 100:2008,
    /// F.2.2.1).
    #[must_use]
    pub fn u_rounding(self) -> Degrees {
        self.step_angle() * (1.0 / 12f64.sqrt())
    }
}

/// One reading as a sensor hands it over; nothing about it is trusted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RawSample {
    /// Acceleration with gravity, in m/s² by the convention of this module.
    Acceleration {
        /// Event time, monotonic.
        at: Millis,
        /// x, y, z in m/s².
        xyz: [f64; 3],
        /// Rounding step in m/s².
        step: f64,
    },
    /// Quaternion device -> world as x, y, z, w.
    Quaternion {
        /// Event time, monotonic.
        at: Millis,
        /// x, y, z, w.
        xyzw: [f64; 4],
        /// Rounding step in degrees.
        step: Degrees,
    },
    /// W3C Euler angles in degrees: alpha about z, beta about x, gamma about y.
    Euler {
        /// Event time, monotonic.
        at: Millis,
        /// Azimuth part; `None` where the device gives none.
        alpha: Option<f64>,
        /// -180 to 180.
        beta: f64,
        /// -90 to 90.
        gamma: f64,
        /// Rounding step in degrees.
        step: Degrees,
    },
}

/// A valid attitude sample.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TiltSample {
    /// Event time, monotonic.
    pub at: Millis,
    /// Where up is, in the device frame.
    pub up: UpVector,
    /// Raw acceleration in m/s², where the source gives it.
    pub raw: Option<[f64; 3]>,
    /// Azimuth of the screen's outward normal in the world, in degrees,
    /// anticlockwise seen from above; `None` without an orientation source
    /// or with the phone flat.
    pub azimuth: Option<Degrees>,
    /// Where it came from.
    pub source: Source,
}

/// Which way an acceleration source points at rest.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Convention {
    /// W3C and Android: face up reads +z.
    #[default]
    PointsUp,
    /// Raw iOS CoreMotion: face up reads -z.
    PointsDown,
}

impl Convention {
    /// Finds the convention by a raw reading taken together with an
    /// orientation; `None` while the two disagree by more than 37 degrees
    /// either way (the phone is being moved).
    #[must_use]
    pub fn seen_beside(raw: [f64; 3], orientation: UpVector) -> Option<Self> {
        let cosine = UpVector::of(raw)?.dot(orientation.0);
        if cosine > 0.8 {
            Some(Self::PointsUp)
        } else if cosine < -0.8 {
            Some(Self::PointsDown)
        } else {
            None
        }
    }
}

/// The unit an acceleration source turned out to use.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
enum Unit {
    /// No reading near rest was seen yet; taken as m/s².
    #[default]
    NotSeen,
    Metres,
    G,
}

/// The check at the door: turns [`RawSample`]s of one source into
/// [`TiltSample`]s. Start a new gate for a new source.
#[derive(Clone, Debug, Default)]
pub struct SampleGate {
    convention: Convention,
    unit: Unit,
    contrary: u8,
    last: Option<Millis>,
}

impl SampleGate {
    /// A gate for one source with the convention it keeps.
    #[must_use]
    pub fn new(convention: Convention) -> Self {
        Self {
            convention,
            ..Self::default()
        }
    }

    /// Conversions in use, to be shown with the source.
    #[must_use]
    pub fn conversions(&self) -> Vec<Message> {
        let unit = (self.unit == Unit::G).then(|| msg("sample-converted-from-g"));
        let sign = (self.convention == Convention::PointsDown).then(|| msg("sample-turned-round"));
        unit.into_iter().chain(sign).collect()
    }

    /// Checks one reading and converts it to the convention of this module.
    ///
    /// # Errors
    /// [`SampleFault`] says why the reading was left out; the gate stays
    /// usable.
    pub fn accept(&mut self, sample: RawSample) -> Result<TiltSample, SampleFault> {
        let taken = match sample {
            RawSample::Acceleration { at, xyz, step } => self.acceleration(at, xyz, step)?,
            RawSample::Quaternion { at, xyzw, step } => quaternion(at, xyzw, step)?,
            RawSample::Euler {
                at,
                alpha,
                beta,
                gamma,
                step,
            } => euler(at, alpha, [beta, gamma], step)?,
        };
        if !taken.at.0.is_finite() {
            return Err(SampleFault::NotANumber);
        }
        if self.last.is_some_and(|last| taken.at < last) {
            return Err(SampleFault::TimeWentBack);
        }
        self.last = Some(taken.at);
        Ok(taken)
    }

    fn acceleration(
        &mut self,
        at: Millis,
        xyz: [f64; 3],
        step: f64,
    ) -> Result<TiltSample, SampleFault> {
        finite(&xyz)?;
        finite(&[step])?;
        let seen = length(xyz);
        self.learn_unit(seen);
        let unit = match self.unit {
            Unit::G => STANDARD_GRAVITY,
            Unit::Metres | Unit::NotSeen => 1.0,
        };
        let factor = match self.convention {
            Convention::PointsUp => unit,
            Convention::PointsDown => -unit,
        };
        let raw = xyz.map(|c| c * factor);
        if length(raw) < LEAST_GRAVITY {
            return Err(SampleFault::ZeroLength);
        }
        if raw.iter().any(|c| c.abs() >= SATURATION) {
            return Err(SampleFault::Saturated);
        }
        Ok(TiltSample {
            at,
            up: UpVector::of(raw).ok_or(SampleFault::ZeroLength)?,
            raw: Some(raw),
            azimuth: None,
            source: Source::Acceleration {
                step: step.abs() * unit,
            },
        })
    }

    /// The first reading that looks like rest decides; only a run of
    /// readings that look like m/s² takes g back (one may be a blow).
    fn learn_unit(&mut self, seen: f64) {
        let metres = LOOKS_LIKE_METRES.contains(&seen);
        self.contrary = match self.unit {
            Unit::G if metres => self.contrary + 1,
            _ => 0,
        };
        if metres && (self.unit == Unit::NotSeen || self.contrary >= CONTRARY_RUN) {
            self.unit = Unit::Metres;
        } else if self.unit == Unit::NotSeen && LOOKS_LIKE_G.contains(&seen) {
            self.unit = Unit::G;
        }
    }
}

fn quaternion(at: Millis, xyzw: [f64; 4], step: Degrees) -> Result<TiltSample, SampleFault> {
    finite(&xyzw)?;
    finite(&[step.0])?;
    let norm = xyzw.iter().map(|c| c * c).sum::<f64>().sqrt();
    if norm < 0.1 {
        return Err(SampleFault::ZeroLength);
    }
    let [x, y, z, w] = xyzw.map(|c| c / norm);
    Ok(TiltSample {
        at,
        up: UpVector::from_quaternion([x, y, z, w]),
        raw: None,
        azimuth: azimuth(2.0 * (x * z + w * y), 2.0 * (y * z - w * x)),
        source: Source::Quaternion { step: step.abs() },
    })
}

fn euler(
    at: Millis,
    alpha: Option<f64>,
    [beta, gamma]: [f64; 2],
    step: Degrees,
) -> Result<TiltSample, SampleFault> {
    finite(&[beta, gamma, step.0])?;
    let alpha = alpha.filter(|a| a.is_finite());
    let (b, g) = (Degrees(beta), Degrees(gamma));
    Ok(TiltSample {
        at,
        up: UpVector::from_euler(b, g),
        raw: None,
        azimuth: alpha.and_then(|alpha| {
            let a = Degrees(alpha);
            azimuth(
                a.cos() * g.sin() + a.sin() * b.sin() * g.cos(),
                a.sin() * g.sin() - a.cos() * b.sin() * g.cos(),
            )
        }),
        source: Source::Euler { step: step.abs() },
    })
}

/// Azimuth of the screen's normal from its horizontal parts, anticlockwise
/// seen from above; `None` when the phone lies flat.
fn azimuth(x: f64, y: f64) -> Option<Degrees> {
    (x.hypot(y) >= LEAST_HORIZONTAL).then(|| Degrees(y.atan2(x).to_degrees()))
}

fn finite(figures: &[f64]) -> Result<(), SampleFault> {
    if figures.iter().all(|f| f.is_finite()) {
        Ok(())
    } else {
        Err(SampleFault::NotANumber)
    }
}

/// Why a raw reading was not taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SampleFault {
    /// A figure is missing or not a number.
    NotANumber,
    /// No direction can be read: acceleration, or quaternion, of length near zero.
    ZeroLength,
    /// The event time went back.
    TimeWentBack,
    /// An axis shows the end of its range: a blow, or a broken chip.
    Saturated,
}

impl SampleFault {
    /// What the fitter is told.
    #[must_use]
    pub fn message(self) -> Message {
        match self {
            Self::NotANumber => msg("sample-not-a-number"),
            Self::ZeroLength => msg("sample-zero-length"),
            Self::TimeWentBack => msg("sample-time-went-back"),
            Self::Saturated => msg("sample-saturated"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn acceleration(at: f64, xyz: [f64; 3]) -> RawSample {
        RawSample::Acceleration {
            at: Millis(at),
            xyz,
            step: 0.0,
        }
    }

    fn close(a: [f64; 3], b: [f64; 3]) -> bool {
        a.iter().zip(b).all(|(p, q)| (p - q).abs() < 1e-9)
    }

    #[test]
    fn a_missing_figure_is_refused() {
        let mut gate = SampleGate::new(Convention::PointsUp);
        let bad = acceleration(0.0, [f64::NAN, 0.0, 9.8]);
        assert_eq!(gate.accept(bad), Err(SampleFault::NotANumber));
        let bad = acceleration(f64::INFINITY, [0.0, 0.0, 9.8]);
        assert_eq!(gate.accept(bad), Err(SampleFault::NotANumber));
        assert!(gate.accept(acceleration(0.0, [0.0, 0.0, 9.8])).is_ok());
    }

    #[test]
    fn free_fall_and_an_empty_quaternion_show_no_direction() {
        let mut gate = SampleGate::new(Convention::PointsUp);
        let none = acceleration(0.0, [0.0, 0.0, 0.0]);
        assert_eq!(gate.accept(none), Err(SampleFault::ZeroLength));
        let none = RawSample::Quaternion {
            at: Millis(0.0),
            xyzw: [0.0; 4],
            step: Degrees(0.1),
        };
        assert_eq!(gate.accept(none), Err(SampleFault::ZeroLength));
    }

    #[test]
    fn an_older_time_is_left_out_and_the_next_is_taken() {
        let mut gate = SampleGate::new(Convention::PointsUp);
        assert!(gate.accept(acceleration(50.0, [0.0, 9.8, 0.0])).is_ok());
        let older = acceleration(49.0, [0.0, 9.8, 0.0]);
        assert_eq!(gate.accept(older), Err(SampleFault::TimeWentBack));
        assert!(gate.accept(acceleration(51.0, [0.0, 9.8, 0.0])).is_ok());
    }

    #[test]
    fn readings_in_g_are_converted_and_said_so() {
        let mut gate = SampleGate::new(Convention::PointsUp);
        let taken = gate.accept(acceleration(0.0, [0.0, 0.0, 1.0])).unwrap();
        assert!(close(taken.raw.unwrap(), [0.0, 0.0, STANDARD_GRAVITY]));
        assert_eq!(gate.conversions(), vec![msg("sample-converted-from-g")]);
    }

    #[test]
    fn a_weak_moment_of_a_source_in_metres_is_not_taken_for_g() {
        let mut gate = SampleGate::new(Convention::PointsUp);
        gate.accept(acceleration(0.0, [0.0, 0.0, 9.8])).unwrap();
        let taken = gate.accept(acceleration(1.0, [0.0, 0.0, 1.0])).unwrap();
        assert!(close(taken.raw.unwrap(), [0.0, 0.0, 1.0]));
        assert!(gate.conversions().is_empty());
    }

    #[test]
    fn the_opposite_sign_is_turned_round_and_found_beside_an_orientation() {
        let mut gate = SampleGate::new(Convention::PointsDown);
        let taken = gate.accept(acceleration(0.0, [0.0, 0.0, -9.8])).unwrap();
        assert!(close(taken.up.0, [0.0, 0.0, 1.0]));
        assert_eq!(gate.conversions(), vec![msg("sample-turned-round")]);
        let upright = UpVector([0.0, 1.0, 0.0]);
        let seen = Convention::seen_beside([0.0, -9.8, 0.3], upright);
        assert_eq!(seen, Some(Convention::PointsDown));
        let seen = Convention::seen_beside([0.0, 9.8, 0.3], upright);
        assert_eq!(seen, Some(Convention::PointsUp));
        assert_eq!(Convention::seen_beside([9.8, 0.0, 0.3], upright), None);
    }

    #[test]
    fn the_end_of_the_range_is_not_an_angle() {
        let mut gate = SampleGate::new(Convention::PointsUp);
        let blow = acceleration(0.0, [0.0, 19.6, 0.3]);
        assert_eq!(gate.accept(blow), Err(SampleFault::Saturated));
    }

    #[test]
    fn a_flat_phone_has_no_azimuth_and_an_upright_one_has() {
        let mut gate = SampleGate::new(Convention::PointsUp);
        let euler = |beta| RawSample::Euler {
            at: Millis(0.0),
            alpha: Some(30.0),
            beta,
            gamma: 0.0,
            step: Degrees(0.1),
        };
        assert_eq!(gate.accept(euler(0.0)).unwrap().azimuth, None);
        let upright = gate.accept(euler(90.0)).unwrap().azimuth.unwrap();
        assert!((upright.0 - (30.0 - 90.0)).abs() < 1e-9);
    }

    #[test]
    fn one_step_of_a_tenth_near_level_is_worth_a_sixth_of_a_degree() {
        // 0.1 m/s² = 0.584 degree, u = 0.169 degree.
        let source = Source::Acceleration { step: 0.1 };
        assert!((source.u_rounding().0 - 0.169).abs() < 0.001);
    }
}
