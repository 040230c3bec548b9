//! Limits of a kit: where a head may point, where heads may sit.

use serde::{Deserialize, Serialize};

use super::Extra;
use crate::units::{Degrees, Millimetres};

/// Greatest corner gap where the sheet gives none (our own figure).
pub const DEFAULT_CORNER_GAP_GREATEST: Millimetres = Millimetres(450.0);
/// Least spacing where the sheet gives none (our own figure).
pub const DEFAULT_SPACING_LEAST: Millimetres = Millimetres(150.0);
/// How far an odd head may sit off the centre line where the sheet gives nothing (our own figure).
pub const DEFAULT_ODD_HEAD_WITHIN: Millimetres = Millimetres(15.0);
/// Clearance from a hole's edge to a no-drill area where the sheet gives none (our own figure).
pub const DEFAULT_CLEARANCE: Millimetres = Millimetres(5.0);

fn corner_gap_greatest() -> Millimetres {
    DEFAULT_CORNER_GAP_GREATEST
}

fn spacing_least() -> Millimetres {
    DEFAULT_SPACING_LEAST
}

fn odd_head_within() -> Millimetres {
    DEFAULT_ODD_HEAD_WITHIN
}

fn clearance() -> Millimetres {
    DEFAULT_CLEARANCE
}

/// Where a head may point: elevation of its axis, + up, in degrees.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct AimLimits {
    /// Least aim, before the allowance for load.
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub least: Degrees,
    /// Greatest aim.
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub greatest: Degrees,
    /// The aim to be near to.
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub target: Degrees,
    /// Fields of a newer version.
    #[serde(flatten)]
    pub extra: Extra,
}

/// Where heads may sit along the bumper. All straight, as seen from behind.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct MarkOutLimits {
    /// The head or heads nearest the centre line sit within this of it.
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub inner: Millimetres,
    /// Least distance from the outer head to the outer edge.
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub corner_gap_least: Millimetres,
    /// Greatest distance from the outer head to the outer edge.
    #[serde(default = "corner_gap_greatest")]
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub corner_gap_greatest: Millimetres,
    /// Least distance between neighbouring heads.
    #[serde(default = "spacing_least")]
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub spacing_least: Millimetres,
    /// Greatest distance between neighbouring heads.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(with = "Option<f64>"))]
    pub spacing_greatest: Option<Millimetres>,
    /// With an odd number of heads the middle one sits within this of the centre line.
    #[serde(default = "odd_head_within")]
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub odd_head_within: Millimetres,
    /// Free room from a hole's edge to a no-drill area.
    #[serde(default = "clearance")]
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub clearance: Millimetres,
    /// Fields of a newer version.
    #[serde(flatten)]
    pub extra: Extra,
}

/// Height of the heads above ground, in millimetres.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct HeightRange {
    /// Lowest.
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub least: Millimetres,
    /// Highest.
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub greatest: Millimetres,
    /// Fields of a newer version.
    #[serde(flatten)]
    pub extra: Extra,
}
