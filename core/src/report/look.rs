//! How a sheet is printed.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::Paper;
use crate::text::Message;

/// How many pages a sheet may take.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Length {
    /// As many as it needs.
    AsNeeded,
    /// Exactly one: the lettering shrinks until it fits.
    OnePage,
}

/// The workshop's logo: a picture in the store.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Logo {
    /// Key of the picture in the blob store.
    pub blob: String,
    /// Width and height, pixels.
    pub size: (u32, u32),
}

/// How a sheet is printed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SheetLook {
    /// The paper, standing.
    pub paper: Paper,
    /// How many pages.
    pub length: Length,
    /// Lines of the workshop: name, address, licence; may be empty.
    pub workshop: Vec<String>,
    /// The workshop's logo, among the pictures.
    pub logo: Option<Logo>,
    /// Whether inches stand beside millimetres.
    #[serde(default)]
    pub inches: bool,
    /// What stands small at the foot of every page.
    pub foot: Message,
    /// The moment that the sheet is of; it becomes the file's date.
    pub at: DateTime<FixedOffset>,
}
