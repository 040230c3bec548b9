//! Supply: voltage drop, typed readings, lamp circuits, the fuse.

mod drop;
mod fuse;
mod readings;

pub use drop::{
    COPPER_PER_KELVIN, CrossSection, arrives_too_low, kit_not_for, too_high_for_kit, voltage_drop,
};
pub use fuse::{DEFAULT_FUSE, Fuse, FuseAnswer, RatingFrom, fuse, fuse_missing};
pub use readings::{Judged, NEVER_ABOVE, Reading, ReadingLimits, System, judge};

use serde::{Deserialize, Serialize};

use crate::text::{Message, msg};

/// Volts.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Volts(pub f64);

/// Amperes.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Amperes(pub f64);

/// Degrees Celsius.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Celsius(pub f64);

/// How the vehicle feeds its reversing lamp.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum LampCircuit {
    /// A bulb on a plain switched feed.
    Plain,
    /// Pulsed: the vehicle checks for a failed lamp, or dims by pulses.
    Pulsed,
    /// An LED lamp.
    Led,
    /// Switched by a control unit over a data bus.
    BusControlled,
    /// Not known.
    NotKnown,
}

impl LampCircuit {
    /// What to do; `None` for a plain feed. Never 'just tap it'.
    #[must_use]
    pub fn message(self) -> Option<Message> {
        match self {
            Self::Plain => None,
            Self::Pulsed => Some(msg("supply-lamp-pulsed")),
            Self::Led => Some(msg("supply-lamp-led")),
            Self::BusControlled => Some(msg("supply-lamp-bus")),
            Self::NotKnown => Some(msg("supply-lamp-not-known")),
        }
    }
}

/// What to heed at the supply, in one picture with one press.
#[must_use]
pub fn cautions() -> Vec<Message> {
    vec![
        msg("supply-caution-maker"),
        msg("supply-caution-earth-point"),
        msg("supply-caution-meter"),
        msg("supply-caution-orange"),
        msg("supply-caution-trailer"),
    ]
}
