//! Fed motion sensors: how the phone is held.

use std::time::Duration;

use serde_json::{Value, json};

use super::Phone;

/// Standard gravity, m/s² (CGPM 1901).
const G: f64 = 9.80665;

/// How the phone lies in space, as W3C Device Orientation has it: turned from
/// the east-north-up frame by `alpha` about z, then `beta` about the new x,
/// then `gamma` about the new y. Degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Attitude {
    /// About z.
    pub alpha: f64,
    /// About x: 90 is upright in portrait.
    pub beta: f64,
    /// About y.
    pub gamma: f64,
}

impl Attitude {
    /// On the table, screen up.
    pub const FACE_UP: Self = Self {
        alpha: 0.0,
        beta: 0.0,
        gamma: 0.0,
    };

    /// Upright in portrait with the back on a face of this rake in degrees
    /// (+ faces up): sin(rake) = u · (0, 0, 1).
    #[must_use]
    pub fn back_on_face(rake: f64) -> Self {
        Self {
            alpha: 0.0,
            beta: 90.0 - rake,
            gamma: 0.0,
        }
    }

    /// The same, turned by `alpha` degrees about the vertical.
    #[must_use]
    pub fn turned(self, alpha: f64) -> Self {
        Self { alpha, ..self }
    }

    /// The rotation device -> world as a quaternion (x, y, z, w).
    #[must_use]
    pub fn quaternion(&self) -> [f64; 4] {
        let half = |degrees: f64| (degrees.to_radians() / 2.0).sin_cos();
        let (sa, ca) = half(self.alpha);
        let (sb, cb) = half(self.beta);
        let (sg, cg) = half(self.gamma);
        [
            ca * sb * cg - sa * cb * sg,
            ca * cb * sg + sa * sb * cg,
            ca * sb * sg + sa * cb * cg,
            ca * cb * cg - sa * sb * sg,
        ]
    }

    /// The reading at rest, m/s² in the device frame: it points up.
    #[must_use]
    pub fn acceleration(&self) -> [f64; 3] {
        let (sb, cb) = self.beta.to_radians().sin_cos();
        let (sg, cg) = self.gamma.to_radians().sin_cos();
        [-G * cb * sg, G * sb, G * cb * cg]
    }
}

/// What the phone's motion sensors do when a page asks for them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SensorState {
    /// They work; the phone is held so.
    Held(Attitude),
    /// The phone has none.
    Missing,
    /// The phone has them, their permission is refused.
    Refused,
}

const TYPES: [&str; 6] = [
    "accelerometer",
    "gravity",
    "linear-acceleration",
    "gyroscope",
    "relative-orientation",
    "absolute-orientation",
];

impl Phone {
    /// Puts the sensors into a state.
    ///
    /// A page that already listens may notice a missing or refused sensor
    /// only after it starts anew: say so in the setup, or `goto` after this.
    ///
    /// # Panics
    /// If the browser refuses.
    pub fn set_sensors(&self, state: SensorState) {
        let setting = match state {
            SensorState::Refused => "denied",
            SensorState::Held(_) | SensorState::Missing => "granted",
        };
        for name in ["accelerometer", "gyroscope", "magnetometer"] {
            self.set_permission(name, setting);
        }
        self.note_sensors(state);
        let available = state != SensorState::Missing;
        for kind in TYPES {
            self.cdp(
                "Emulation.setSensorOverrideEnabled",
                json!({ "enabled": false, "type": kind }),
            );
            self.cdp(
                "Emulation.setSensorOverrideEnabled",
                json!({ "enabled": true, "type": kind, "metadata": {
                    "available": available, "minimumFrequency": 1, "maximumFrequency": 60 } }),
            );
        }
        match state {
            SensorState::Held(attitude) => self.feed(attitude),
            SensorState::Refused => self.feed(Attitude::FACE_UP),
            SensorState::Missing => {}
        }
    }

    /// The phone has no motion sensor.
    ///
    /// # Panics
    /// As [`Phone::set_sensors`].
    pub fn sensor_missing(&self) {
        self.set_sensors(SensorState::Missing);
    }

    /// The motion sensors' permission is refused.
    ///
    /// # Panics
    /// As [`Phone::set_sensors`].
    pub fn sensor_refused(&self) {
        self.set_sensors(SensorState::Refused);
    }

    /// Holds the phone so: one change, then silence, as Chromium sends
    /// events only when the rounded value changes.
    ///
    /// # Panics
    /// If the sensors are missing.
    pub fn hold(&self, attitude: Attitude) {
        self.note_sensors(SensorState::Held(attitude));
        self.feed(attitude);
    }

    fn feed(&self, attitude: Attitude) {
        let xyz = |[x, y, z]: [f64; 3]| json!({ "xyz": { "x": x, "y": y, "z": z } });
        let [x, y, z, w] = attitude.quaternion();
        let turned = json!({ "quaternion": { "x": x, "y": y, "z": z, "w": w } });
        let up = xyz(attitude.acceleration());
        let still = xyz([0.0; 3]);
        let readings: [&Value; 6] = [&up, &up, &still, &still, &turned, &turned];
        for (kind, reading) in TYPES.iter().zip(readings) {
            self.cdp(
                "Emulation.setSensorOverrideReadings",
                json!({ "type": kind, "reading": reading }),
            );
        }
    }

    /// Holds the phone by its W3C angles in degrees.
    ///
    /// # Panics
    /// As [`Phone::hold`].
    pub fn set_orientation(&self, alpha: f64, beta: f64, gamma: f64) {
        self.hold(Attitude { alpha, beta, gamma });
    }

    /// Holds the upright phone with its back on a face of this rake in
    /// degrees (+ faces up), dead still.
    ///
    /// # Panics
    /// As [`Phone::hold`].
    pub fn hold_at_face(&self, rake: f64) {
        self.hold(Attitude::back_on_face(rake));
    }

    /// As [`Phone::hold_at_face`], by a hand that trembles by ±0.2° at about
    /// 25 Hz for so many seconds.
    ///
    /// # Panics
    /// As [`Phone::hold`].
    pub fn hold_trembling(&self, rake: f64, seconds: f64) {
        let steps = (seconds / 0.04).ceil() as usize;
        for step in 0..steps {
            let tremble = [0.0, 0.2, 0.0, -0.2][step % 4];
            self.hold_at_face(rake + tremble);
            self.rest(Duration::from_millis(40));
        }
        self.hold_at_face(rake);
    }

    /// Carries the phone to the next mark: half a second of clear movement.
    ///
    /// # Panics
    /// As [`Phone::hold`].
    pub fn carry_between_marks(&self) {
        for step in 0..10_u8 {
            let swing = f64::from(step) * 6.0;
            self.set_orientation(swing, 90.0 - swing, swing / 2.0);
            self.rest(Duration::from_millis(50));
        }
    }
}
