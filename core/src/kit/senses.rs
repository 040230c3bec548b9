//! How a kit hears and learns.

use serde::{Deserialize, Serialize};

use super::Extra;
use crate::units::{Degrees, Millimetres, Millis};

/// How the kit tells that it counted a cycle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Signal {
    /// One or more beeps.
    Beep,
    /// A lamp or the display.
    Light,
    /// Nothing: the cycle is only counted by hand.
    Nothing,
}

/// How the control box learns to ignore a fixed obstacle.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ObstacleLearn {
    /// How many times reverse is engaged.
    #[serde(deserialize_with = "super::rules::whole")]
    pub cycles: u32,
    /// How long the last cycle stays silent, in milliseconds.
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub silent: Millis,
    /// What confirms a cycle.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub confirmed_by: Option<Signal>,
    /// Whether the last cycle beeps as well before its quiet time, or stays
    /// silent from the moment reverse is engaged.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub last_beeps: Option<bool>,
    /// What confirms the end after the quiet time; not given: the quiet
    /// time itself.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ends_with: Option<Signal>,
    /// Shortest time in reverse that counts, in milliseconds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(with = "Option<f64>"))]
    pub shortest_dwell: Option<Millis>,
    /// Longest pause between two cycles, in milliseconds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(with = "Option<f64>"))]
    pub longest_gap: Option<Millis>,
    /// The kit's tone in hertz.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tone_hertz: Option<f64>,
    /// How what was learned is cleared.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cleared_by: Option<String>,
    /// Fields of a newer version.
    #[serde(flatten)]
    pub extra: Extra,
}

/// What the stated beam widths mean at their edge (-6 dB).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum BeamWay {
    /// -6 dB of the sound sent.
    OneWay,
    /// -6 dB of sound sent and heard together.
    TwoWay,
}

/// Range, frequency, beam and ringing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Sensing {
    /// Range at which the test pole is seen in reference air, in millimetres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(with = "Option<f64>"))]
    pub rated_range: Option<Millimetres>,
    /// Frequency in kilohertz.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub frequency_kilohertz: Option<f64>,
    /// Full beam width across, in degrees.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(with = "Option<f64>"))]
    pub beam_across: Option<Degrees>,
    /// Full beam width up and down, in degrees.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(with = "Option<f64>"))]
    pub beam_upright: Option<Degrees>,
    /// Whether the beam widths are one-way or two-way.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub beam_way: Option<BeamWay>,
    /// Ringing time after a pulse, in milliseconds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(with = "Option<f64>"))]
    pub ringing: Option<Millis>,
    /// Fields of a newer version.
    #[serde(flatten)]
    pub extra: Extra,
}
