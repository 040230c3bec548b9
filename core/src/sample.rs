//! Raw sensor input made valid.
//!
//! # Frame and signs
//! Device frame as in W3C DeviceOrientation and Android `SensorEvent`: x to
//! the right of the screen, y to its top edge, z out of the screen. At rest
//! the reading points **up**: face up reads z = +9.81 m/s².

use serde::{Deserialize, Serialize};

use crate::text::{Message, msg};
use crate::units::{Degrees, Millis};

/// The unit vector that points up, in the device frame (x right, y to the
/// top edge, z out of the screen).
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct UpVector(pub [f64; 3]);

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

/// Why a raw reading was not taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SampleFault {
    /// A figure is missing or not a number.
    NotANumber,
    /// No direction can be read: acceleration, or quaternion, of length near zero.
    ZeroLength,
    /// The event time went back.
    TimeWentBack,
}

impl SampleFault {
    /// What the fitter is told.
    #[must_use]
    pub fn message(self) -> Message {
        match self {
            Self::NotANumber => msg("sample-not-a-number"),
            Self::ZeroLength => msg("sample-zero-length"),
            Self::TimeWentBack => msg("sample-time-went-back"),
        }
    }
}
