//! What the heads will see: a prediction by acoustics, calibrated to the
//! sheet's rated range. A prediction, not a promise.
//!
//! Vehicle frame in metres inside: x right, y forward, z up; what lies
//! behind the bumper has a negative y. Levels are decibels to spare: 0 is
//! just seen.

mod air;
mod beam;
mod bessel;
mod echo;
mod ground;
mod head;
mod map;
mod near;
mod object;
mod row;
mod summary;

pub use air::{
    Air, CELSIUS_GREATEST, CELSIUS_LEAST, Celsius, HECTOPASCALS_GREATEST, HECTOPASCALS_LEAST,
    HUMIDITY_GREATEST, HUMIDITY_LEAST, Hectopascals, Humidity, relaxation, saturation,
};
pub use beam::{Beam, MAIN_LOBE_END, ONE_WAY_EDGE, TWO_WAY_EDGE};
pub use bessel::{directivity, j1};
pub use echo::{
    BALL_RADIUS, DIRECTIVITY_LEAST, KERB_LOSS, POLE_RADIUS, RANGE_LEAST, Target, WHEEL_GREATEST,
    WHEEL_LEAST, wheel_radius,
};
pub use ground::{ground_pickup, ground_pickup_change};
pub use head::{HeadInPlace, HeadLevel, Place, Sensor, predict};
pub use map::{
    Area, CELLS_GREATEST, CoverageMap, DETECTION_FAR, DETECTION_NEAR, NO_ECHO, NO_HEAD, TEST_CELL,
    View, map,
};
pub use near::too_close;
pub use object::{Advice, FixedObject, ObjectKind, advise};
pub use summary::{Gap, Summary, Weakest, summary};
