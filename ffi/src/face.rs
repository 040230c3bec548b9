//! From sensor readings to a face angle.

use rakeline_core::estimate::contact::{self, Contact};
use rakeline_core::estimate::rake::{self, Around, Turn, estimate_rake};
use rakeline_core::estimate::reading;
use rakeline_core::estimate::seating::Seating;
use rakeline_core::estimate::still::{StillReading, StillSettings, StillState, StillWindow};
use rakeline_core::sample::{Convention, RawSample, SampleGate, Source, UpVector};
use rakeline_core::text::msg;
use rakeline_core::units::{Degrees, Millimetres, Millis};
use rakeline_words::say;

use crate::zero::phone_of;
use crate::{Fault, Ground, Measured};

/// One raw reading of an accelerometer, gravity included.
#[derive(Clone, Copy, Debug, PartialEq, uniffi::Record)]
pub struct Acceleration {
    /// Event time, monotonic milliseconds.
    pub at_ms: f64,
    /// m/s² to the right of the screen.
    pub x: f64,
    /// m/s² to its top edge.
    pub y: f64,
    /// m/s² out of the screen; face up at rest reads +9.81.
    pub z: f64,
}

/// Three parts in the device's frame: right of the screen, its top edge, out
/// of it.
#[derive(Clone, Copy, Debug, PartialEq, uniffi::Record)]
pub struct Xyz {
    /// To the right of the screen.
    pub x: f64,
    /// To its top edge.
    pub y: f64,
    /// Out of the screen.
    pub z: f64,
}

impl From<[f64; 3]> for Xyz {
    fn from([x, y, z]: [f64; 3]) -> Self {
        Self { x, y, z }
    }
}

impl From<Xyz> for [f64; 3] {
    fn from(of: Xyz) -> Self {
        [of.x, of.y, of.z]
    }
}

/// What kind of sensor a still reading comes from.
#[derive(Clone, Copy, Debug, PartialEq, uniffi::Enum)]
pub enum StillSource {
    /// Raw acceleration with its rounding step, m/s².
    Acceleration {
        /// Rounding step, m/s².
        step: f64,
    },
    /// A quaternion normalised inside the system.
    Quaternion {
        /// Rounding step, degrees.
        step: f64,
    },
    /// Euler angles normalised inside the system.
    Euler {
        /// Rounding step, degrees.
        step: f64,
    },
}

/// The mean of readings while the phone lay still.
#[derive(Clone, Copy, Debug, PartialEq, uniffi::Record)]
pub struct Still {
    /// Where up is, a unit vector in the device's frame.
    pub up: Xyz,
    /// Standard uncertainty from noise, degrees.
    pub u_noise: f64,
    /// Standard uncertainty from rounding, degrees.
    pub u_rounding: f64,
    /// Readings taken.
    pub samples: u32,
    /// Independent readings that tell as much.
    pub effective: f64,
    /// Where they come from.
    pub source: StillSource,
    /// Mean acceleration in m/s², where the sensor gives it.
    pub acceleration: Option<Xyz>,
    /// Azimuth of the screen's normal, degrees anticlockwise seen from above.
    pub azimuth: Option<f64>,
    /// When it ended, monotonic milliseconds.
    pub at_ms: f64,
}

impl From<StillReading> for Still {
    fn from(still: StillReading) -> Self {
        Self {
            up: still.up.0.into(),
            u_noise: still.u_noise.0,
            u_rounding: still.u_rounding.0,
            samples: u32::try_from(still.samples).unwrap_or(u32::MAX),
            effective: still.effective,
            source: match still.source {
                Source::Acceleration { step } => StillSource::Acceleration { step },
                Source::Quaternion { step } => StillSource::Quaternion { step: step.0 },
                Source::Euler { step } => StillSource::Euler { step: step.0 },
            },
            acceleration: still.raw_mean.map(Xyz::from),
            azimuth: still.azimuth.map(|azimuth| azimuth.0),
            at_ms: still.at.0,
        }
    }
}

impl Still {
    pub(crate) fn reading(self) -> Result<StillReading, Fault> {
        let up = UpVector::of(self.up.into());
        let no_number = || Fault::invalid(&msg("sample-not-a-number"));
        let figures = [self.u_noise, self.u_rounding, self.effective, self.at_ms];
        let raw_mean = self.acceleration.map(<[f64; 3]>::from);
        let raw = raw_mean.unwrap_or_default();
        if figures.iter().chain(&raw).any(|figure| !figure.is_finite()) {
            return Err(no_number());
        }
        Ok(StillReading {
            up: up.ok_or_else(no_number)?,
            u_noise: Degrees(self.u_noise),
            u_rounding: Degrees(self.u_rounding),
            samples: self.samples as usize,
            effective: self.effective,
            source: match self.source {
                StillSource::Acceleration { step } => Source::Acceleration { step },
                StillSource::Quaternion { step } => Source::Quaternion {
                    step: Degrees(step),
                },
                StillSource::Euler { step } => Source::Euler {
                    step: Degrees(step),
                },
            },
            raw_mean,
            azimuth: self.azimuth.map(Degrees),
            at: Millis(self.at_ms),
        })
    }
}

/// The still reading of a run of raw readings. `step` is the sensor's
/// rounding, m/s²; 0 when it does not round.
///
/// # Errors
/// [`Fault::Invalid`] when a reading makes no sense or its time goes back,
/// [`Fault::Impossible`] when the phone was not still for long enough.
#[uniffi::export]
pub fn read_still(readings: &[Acceleration], step: f64) -> Result<Still, Fault> {
    let mut gate = SampleGate::new(Convention::PointsUp);
    let mut window = StillWindow::new(StillSettings::default());
    for reading in readings {
        let sample = gate.accept(RawSample::Acceleration {
            at: Millis(reading.at_ms),
            xyz: [reading.x, reading.y, reading.z],
            step,
        });
        let sample = sample.map_err(|fault| Fault::invalid(&fault.message()))?;
        match window.push(&sample) {
            StillState::Still(still) => return Ok(still.into()),
            StillState::GaveUp(why) => return Err(Fault::impossible(&why)),
            _ => {}
        }
    }
    Err(Fault::impossible(&msg("ffi-not-still")))
}

/// Which side of the phone lay on the face.
#[derive(Clone, Copy, Debug, PartialEq, Eq, uniffi::Enum)]
pub enum Side {
    /// Its back.
    Back,
    /// Its screen.
    Screen,
}

/// One reading at a spot.
#[derive(Clone, Copy, Debug, PartialEq, uniffi::Enum)]
pub enum FaceReading {
    /// The phone held against the face.
    Held {
        /// The still reading.
        still: Still,
        /// Side that touched.
        side: Side,
    },
    /// Typed off an angle gauge.
    Typed {
        /// Face angle against gravity, + faces up.
        angle: f64,
        /// The gauge's ± (95 %).
        plus_minus: f64,
    },
}

impl FaceReading {
    fn taken(self) -> Result<reading::FaceReading, Fault> {
        let taken = match self {
            Self::Held { still, side } => reading::FaceReading::held(
                still.reading()?,
                match side {
                    Side::Back => reading::Side::Back,
                    Side::Screen => reading::Side::Screen,
                },
            ),
            Self::Typed { angle, plus_minus } => reading::FaceReading::typed(
                Degrees(angle),
                Degrees(plus_minus),
                reading::Against::Level,
                Millis(0.0),
            ),
        };
        taken.map_err(|why| Fault::invalid(&why))
    }
}

/// The three stick-on feet on the phone's back.
#[derive(Clone, Copy, Debug, PartialEq, Eq, uniffi::Enum)]
pub enum Feet {
    /// On.
    On,
    /// Not on.
    Off,
}

impl From<Feet> for contact::Feet {
    fn from(feet: Feet) -> Self {
        match feet {
            Feet::On => Self::On,
            Feet::Off => Self::None,
        }
    }
}

/// How round the face is, up and down, at the spot.
#[derive(Clone, Copy, Debug, PartialEq, uniffi::Enum)]
pub enum Roundness {
    /// Radius above 2 m.
    Flat,
    /// Radius about 0.8 m.
    Rounded,
    /// Radius about 0.4 m.
    Tight,
    /// As measured.
    Radius {
        /// Radius, mm.
        radius: f64,
    },
}

/// The corner angle at a spot: 0 is straight back, + to the right.
pub type CornerAngle = Measured;

/// What stands around the readings at a spot.
#[derive(Clone, Copy, Debug, PartialEq, uniffi::Record)]
pub struct Surroundings {
    /// How the ground lies.
    pub ground: Ground,
    /// Feet on the phone.
    pub feet: Feet,
    /// Roundness of the face.
    pub roundness: Roundness,
    /// Corner angle; nothing where it is not known.
    pub corner_angle: Option<CornerAngle>,
}

impl Surroundings {
    fn around(&self) -> Around {
        Around {
            ground: self.ground.ground(),
            contact: Contact {
                feet: self.feet.into(),
                roundness: match self.roundness {
                    Roundness::Flat => contact::Roundness::Flat,
                    Roundness::Rounded => contact::Roundness::Rounded,
                    Roundness::Tight => contact::Roundness::Tight,
                    Roundness::Radius { radius } => {
                        contact::Roundness::Measured(Millimetres(radius))
                    }
                },
            },
            turn: self
                .corner_angle
                .map_or(Turn::NotKnown, |turn| Turn::Known(turn.degrees())),
            seating: Seating::Assumed,
        }
    }
}

/// One part of an uncertainty.
#[derive(Clone, Debug, PartialEq, uniffi::Record)]
pub struct UncertaintyPart {
    /// What it comes from.
    pub name: String,
    /// Standard uncertainty, degrees.
    pub u: f64,
    /// What would shrink it.
    pub shrink: String,
}

/// A face angle.
#[derive(Clone, Debug, PartialEq, uniffi::Record)]
pub struct FaceAngle {
    /// Against the ground, degrees, + faces up.
    pub rake: Measured,
    /// Against gravity, as read, degrees.
    pub against_gravity: f64,
    /// Readings pooled.
    pub readings: u32,
    /// The parts of its uncertainty.
    pub parts: Vec<UncertaintyPart>,
    /// What goes with every angle of a phone that is not zeroed.
    pub caveat: Option<String>,
}

impl From<rake::RakeEstimate> for FaceAngle {
    fn from(found: rake::RakeEstimate) -> Self {
        Self {
            rake: found.rake.into(),
            against_gravity: found.against_gravity.0,
            readings: u32::try_from(found.readings).unwrap_or(u32::MAX),
            caveat: found.caveat().map(|caveat| say(&caveat)),
            parts: found
                .budget
                .items
                .iter()
                .map(|item| UncertaintyPart {
                    name: say(&item.name()),
                    u: item.u.0,
                    shrink: say(&item.shrink),
                })
                .collect(),
        }
    }
}

/// The face angle from all readings at one spot. Typed readings count when
/// there are any, else the held ones. `zeroing` is what [`crate::zero_phone`]
/// gave, nothing for a phone as it came.
///
/// # Errors
/// [`Fault::Invalid`] when a reading can't be a bumper's face or there is
/// none, [`Fault::Unreadable`] when the zeroing is none.
#[uniffi::export]
pub fn face_angle(
    readings: &[FaceReading],
    zeroing: Option<String>,
    surroundings: &Surroundings,
) -> Result<FaceAngle, Fault> {
    let taken: Result<Vec<_>, Fault> = readings.iter().map(|reading| reading.taken()).collect();
    let phone = phone_of(zeroing.as_deref())?;
    let found = estimate_rake(&taken?, &phone, &surroundings.around());
    found
        .map(FaceAngle::from)
        .ok_or_else(|| Fault::invalid(&msg("ffi-no-reading")))
}
