//! What goes into the bumper: heads, rings, inserts, holes.

use serde::{Deserialize, Serialize};

use super::Extra;
use crate::units::{Degrees, Millimetres};

/// Tolerance of a lift where the sheet gives none: ± degrees, rectangular
/// (our own figure).
pub const DEFAULT_LIFT_TOLERANCE: Degrees = Degrees(0.5);

pub(super) fn default_lift_tolerance() -> Degrees {
    DEFAULT_LIFT_TOLERANCE
}

/// What the panel at a spot is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Material {
    /// A plastic bumper skin.
    Plastic,
    /// Glass or carbon fibre in resin.
    Fibre,
    /// Steel or aluminium: a head needs an insert that keeps it off the metal.
    Metal,
}

/// Thickness of panel that a head grips, in millimetres.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Grip {
    /// Thinnest panel.
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub least: Millimetres,
    /// Thickest panel.
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub greatest: Millimetres,
    /// Fields of a newer version.
    #[serde(flatten)]
    pub extra: Extra,
}

/// The sensor heads of a kit.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Heads {
    /// Labels in order, left to right seen from behind.
    pub labels: Vec<String>,
    /// Name of the ring that every head comes with.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub comes_with: Option<String>,
    /// What the head itself adds upward without ring and insert, in degrees.
    #[serde(default)]
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub bare_lift: Degrees,
    /// Diameter of the head's body in the hole.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(with = "Option<f64>"))]
    pub diameter: Option<Millimetres>,
    /// Diameter of the flange that covers the hole's edge.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(with = "Option<f64>"))]
    pub flange_diameter: Option<Millimetres>,
    /// Panel thickness that the head grips.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub grip: Option<Grip>,
    /// Depth behind the face, without connector and bend.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(with = "Option<f64>"))]
    pub depth: Option<Millimetres>,
    /// Largest diameter of the connector that must pass the hole.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(with = "Option<f64>"))]
    pub connector_diameter: Option<Millimetres>,
    /// Length of the connector behind the head.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(with = "Option<f64>"))]
    pub connector_length: Option<Millimetres>,
    /// Room that the lead needs to bend behind the connector.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(with = "Option<f64>"))]
    pub bend: Option<Millimetres>,
    /// Colours that the heads are supplied in.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub colours: Vec<String>,
    /// Fields of a newer version.
    #[serde(flatten)]
    pub extra: Extra,
}

/// A ring that sits between head and panel and tilts the head upward.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Ring {
    /// What is printed on it, or what the workshop calls it.
    pub name: String,
    /// What it adds upward, in degrees.
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub lift: Degrees,
    /// Thickness that it adds under the flange.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(with = "Option<f64>"))]
    pub thickness: Option<Millimetres>,
    /// Whether it may be painted; not given counts as yes, which is the careful reading.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub paintable: Option<bool>,
    /// How it comes off.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub comes_off: Option<String>,
    /// How it seats, and how one feels that it did.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seats: Option<String>,
    /// Fields of a newer version.
    #[serde(flatten)]
    pub extra: Extra,
}

/// An insert that lines the hole: it takes a larger hole than the bare head.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Insert {
    /// What is printed on it, or what the workshop calls it.
    pub name: String,
    /// What it adds upward, in degrees.
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub lift: Degrees,
    /// The hole it needs, diameter.
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub hole: Millimetres,
    /// Materials in which a head must have this insert.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub needed_for: Vec<Material>,
    /// Largest old hole that it covers, diameter; not given: its own hole.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(with = "Option<f64>"))]
    pub covers_old_hole: Option<Millimetres>,
    /// Fields of a newer version.
    #[serde(flatten)]
    pub extra: Extra,
}

impl Insert {
    /// The largest old hole that disappears under it.
    #[must_use]
    pub fn largest_old_hole(&self) -> Millimetres {
        self.covers_old_hole.unwrap_or(self.hole)
    }
}

/// The lift of a whole combination as it was measured, bare head included.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct MeasuredTotal {
    /// Name of the ring.
    pub ring: String,
    /// Name of the insert, if any.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub insert: Option<String>,
    /// What head, ring and insert add together, in degrees.
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub lift: Degrees,
    /// Fields of a newer version.
    #[serde(flatten)]
    pub extra: Extra,
}

/// The hole of a head without an insert in one material.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct HoleFor {
    /// The material.
    pub material: Material,
    /// The hole's diameter.
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub diameter: Millimetres,
    /// Fields of a newer version.
    #[serde(flatten)]
    pub extra: Extra,
}

/// Hole sizes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Holes {
    /// The hole of a head without an insert, diameter.
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub head: Millimetres,
    /// Where a material wants another one.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub by_material: Vec<HoleFor>,
    /// The pilot drill, diameter.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(with = "Option<f64>"))]
    pub pilot: Option<Millimetres>,
    /// Fields of a newer version.
    #[serde(flatten)]
    pub extra: Extra,
}
