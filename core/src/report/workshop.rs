//! The workshop's part of the report: what is for the workshop's file and
//! never on the customer's page.

use super::{Block, Document, Section};
use crate::drawing::Sight;
use crate::text::msg;

/// The workshop's part: what the heads will see. A prediction, not a
/// promise.
#[must_use]
pub fn workshop_sheet(sight: &Sight) -> Document {
    let mut lines = vec![msg("sight-why"), sight.headline.clone()];
    lines.extend(sight.lines.iter().cloned());
    lines.extend(sight.ground.iter().cloned());
    lines.extend(sight.object.iter().cloned());
    lines.extend(sight.troubles.iter().cloned());
    Document {
        title: msg("workshop-title"),
        sections: vec![
            Section {
                heading: msg("step-sight"),
                blocks: vec![Block::Lines(lines)],
            },
            Section {
                heading: msg("sight-based"),
                blocks: vec![Block::Lines(sight.based.clone())],
            },
        ],
    }
}
