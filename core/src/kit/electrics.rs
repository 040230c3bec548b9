//! What goes behind the bumper and into the cabin: leads, control box, supply.

use serde::{Deserialize, Serialize};

use super::Extra;
use crate::units::Millimetres;

/// One kind of lead.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Lead {
    /// Its length.
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub length: Millimetres,
    /// Length that the kit's extension adds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(with = "Option<f64>"))]
    pub extension: Option<Millimetres>,
    /// Length in the long variant for load carriers.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(with = "Option<f64>"))]
    pub long: Option<Millimetres>,
    /// Fields of a newer version.
    #[serde(flatten)]
    pub extra: Extra,
}

/// The leads of a kit.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Leads {
    /// Head to control box.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub head: Option<Lead>,
    /// Display to control box.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub display: Option<Lead>,
    /// Speaker to control box.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub speaker: Option<Lead>,
    /// Take-off to control box.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub supply: Option<Lead>,
    /// Fields of a newer version.
    #[serde(flatten)]
    pub extra: Extra,
}

/// A socket of the control box.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Socket {
    /// What is printed beside it.
    pub label: String,
    /// Label of the head that goes into it, or what else does.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub takes: Option<String>,
    /// Fields of a newer version.
    #[serde(flatten)]
    pub extra: Extra,
}

/// How the near zone is moved out for something fixed behind the vehicle.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ZoneShift {
    /// How it is set (a switch, a plug, a wire).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub how: Option<String>,
    /// By how much the near zone moves out.
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub distance: Millimetres,
    /// Fields of a newer version.
    #[serde(flatten)]
    pub extra: Extra,
}

/// The control box.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct ControlBox {
    /// Its sockets.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub sockets: Vec<Socket>,
    /// The zone shift.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub zone_shift: Option<ZoneShift>,
    /// Fields of a newer version.
    #[serde(flatten)]
    pub extra: Extra,
}

/// What the supply must give.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct SupplyNeeds {
    /// Least supply voltage in volts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub least_volts: Option<f64>,
    /// Greatest supply voltage in volts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub greatest_volts: Option<f64>,
    /// Current of the whole kit in amperes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub amperes: Option<f64>,
    /// Fuse at the take-off in amperes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fuse_amperes: Option<f64>,
    /// Fields of a newer version.
    #[serde(flatten)]
    pub extra: Extra,
}

/// How loud, and where that is set.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Volume {
    /// Where the control is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<String>,
    /// How it is set.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub how: Option<String>,
    /// Number of steps.
    #[serde(
        default,
        deserialize_with = "super::rules::some_whole",
        skip_serializing_if = "Option::is_none"
    )]
    pub steps: Option<u32>,
    /// Fields of a newer version.
    #[serde(flatten)]
    pub extra: Extra,
}

/// What tells the driver.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum OutputKind {
    /// A display only.
    Display,
    /// A speaker only.
    Speaker,
    /// Display and speaker.
    Both,
}

/// Display or speaker.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Output {
    /// Which of the two.
    pub kind: OutputKind,
    /// Anything worth knowing, such as how it is held.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// Fields of a newer version.
    #[serde(flatten)]
    pub extra: Extra,
}
