//! Kit sheets: the description of a kit as versioned JSON.
//!
//! [`parse`] is the only way in: what it returns is valid, so that the
//! decisions below need not check again. What a sheet does not say is `None`
//! ('not given'); whoever needs it asks then. Fields that this version does
//! not know are kept in `extra` and written back.
//!
//! Lengths are millimetres, angles degrees (a lift is + upward), times
//! milliseconds.

mod clashes;
mod draft;
mod electrics;
mod fault;
mod fields;
pub mod library;
mod limits;
mod lines;
mod parse;
mod parts;
mod quick;
mod quick_so_far;
mod rules;
#[cfg(feature = "schema")]
mod schema;
mod senses;

pub use draft::{Draft, check_typed};
pub use electrics::{
    ControlBox, Lead, Leads, Output, OutputKind, Socket, SupplyNeeds, Volume, ZoneShift,
};
pub use fault::{SheetFault, Why};
pub use fields::{Entry, FieldInfo, FieldNeed, fields};
pub use limits::{
    AimLimits, DEFAULT_CLEARANCE, DEFAULT_CORNER_GAP_GREATEST, DEFAULT_ODD_HEAD_WITHIN,
    DEFAULT_SPACING_LEAST, HeightRange, MarkOutLimits,
};
pub use lines::{Line, LineGroup, LineKind, line_groups, word};
pub use parse::{LARGEST_SHEET, parse, to_json};
pub use parts::{
    DEFAULT_LIFT_TOLERANCE, Grip, Heads, HoleFor, Holes, Insert, Material, MeasuredTotal, Ring,
};
pub use quick::{QuickField, QuickSheet};
pub use rules::Unit;
#[cfg(feature = "schema")]
pub use schema::{json_schema, json_schema_file};
pub use senses::{BeamWay, ObstacleLearn, Sensing, Signal};

use serde::{Deserialize, Serialize};

use crate::units::{Degrees, Millimetres};

/// Fields of a newer version, kept as they are.
pub type Extra = serde_json::Map<String, serde_json::Value>;

/// The version of kit sheets that this code reads and writes.
pub const VERSION: u32 = 1;

/// The description of a kit: heads, rings, inserts, holes, leads, limits.
///
/// Made by [`parse`]. Two sheets are the same kit when they are equal; a job
/// keeps its own copy, as it was when fitted.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct KitSheet {
    /// Version of the sheet's format, 1.
    #[serde(deserialize_with = "rules::whole")]
    pub rakeline_kit: u32,
    /// What the kit is called in the workshop.
    pub name: String,
    /// Unit of all lengths: always "mm" where it is written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub units: Option<String>,
    /// Anything worth knowing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// The sensor heads.
    pub heads: Heads,
    /// The rings; every head has exactly one.
    pub rings: Vec<Ring>,
    /// The inserts; a head has at most one.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub inserts: Vec<Insert>,
    /// Lifts that were measured for a combination; they beat the sum.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub totals: Vec<MeasuredTotal>,
    /// Where a head may point.
    pub aim: AimLimits,
    /// Tolerance of a ring's or an insert's lift, ± degrees, rectangular.
    #[serde(default = "parts::default_lift_tolerance")]
    #[cfg_attr(feature = "schema", schemars(with = "f64"))]
    pub lift_tolerance: Degrees,
    /// Where heads may sit.
    pub mark_out: MarkOutLimits,
    /// Hole sizes.
    pub holes: Holes,
    /// Leads of heads, display, speaker and supply.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub leads: Option<Leads>,
    /// The control box.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub control_box: Option<ControlBox>,
    /// What the supply must give.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub supply: Option<SupplyNeeds>,
    /// How loud, and where that is set.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub volume: Option<Volume>,
    /// Display, speaker or both.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub output: Option<Output>,
    /// How the control box learns to ignore a fixed obstacle.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub obstacle_learn: Option<ObstacleLearn>,
    /// Range, frequency, beam, ringing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sensing: Option<Sensing>,
    /// Height of the heads above ground.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub height: Option<HeightRange>,
    /// Greatest thickness of all paint on a head, in millimetres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "schema", schemars(with = "Option<f64>"))]
    pub paint_limit: Option<Millimetres>,
    /// Fields of a newer version.
    #[serde(flatten)]
    pub extra: Extra,
}

impl KitSheet {
    /// The ring of that name.
    #[must_use]
    pub fn ring(&self, name: &str) -> Option<&Ring> {
        self.rings.iter().find(|r| r.name == name)
    }

    /// The insert of that name.
    #[must_use]
    pub fn insert(&self, name: &str) -> Option<&Insert> {
        self.inserts.iter().find(|i| i.name == name)
    }

    /// How many heads the kit has.
    #[must_use]
    pub fn head_count(&self) -> usize {
        self.heads.labels.len()
    }

    /// The hole for a head without an insert in that material.
    #[must_use]
    pub fn head_hole(&self, material: Material) -> Millimetres {
        self.holes
            .by_material
            .iter()
            .find(|h| h.material == material)
            .map_or(self.holes.head, |h| h.diameter)
    }
}
