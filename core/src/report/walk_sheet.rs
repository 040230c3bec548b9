//! A page to walk by: where the pole goes, with boxes to tick.

use chrono::{DateTime, FixedOffset};

use super::{Block, Document, Section};
use crate::decide::walk_test::PointBy;
use crate::drawing::walk_plan;
use crate::job::{
    JobState, WalkKind, WalkTest, offset_words, point_words, walk_cautions, walk_points,
};
use crate::text::{Message, msg};

/// What may sound at a point, as the heads of the columns to tick.
const SOUNDS: [&str; 4] = [
    "walk-sheet-nothing",
    "walk-sheet-slow",
    "walk-sheet-quick",
    "walk-sheet-steady",
];

/// The nine points of the walk test with their distances, to tick by hand.
///
/// # Errors
/// A message while the width of the vehicle is not known.
pub fn walk_sheet(job: &JobState, at: DateTime<FixedOffset>) -> Result<Document, Message> {
    let points = walk_points(job, WalkKind::Nine)?;
    let head = [
        "walk-sheet-number",
        "walk-sheet-across",
        "walk-sheet-behind",
    ];
    let rows = points.iter().zip(1_i64..).map(|(point, number)| {
        let across = match point.by {
            PointBy::Row => offset_words(point.across),
            _ => point_words(point),
        };
        let mut row = vec![
            msg("walk-sheet-figure").count("number", number),
            across,
            msg("sheet-mm").number("mm", point.behind.0, 0),
        ];
        row.extend(SOUNDS.map(|_| msg("walk-sheet-box")));
        row
    });
    let table = Block::Table {
        head: head.into_iter().chain(SOUNDS).map(msg).collect(),
        rows: rows.collect(),
    };
    let test = WalkTest {
        at,
        kind: WalkKind::Nine,
        points,
        taps: Vec::new(),
        void: None,
    };
    let mut blocks: Vec<Block> = walk_plan(job, &test, None)
        .map(Block::Drawing)
        .into_iter()
        .collect();
    blocks.push(table);
    let mut lines = vec![msg("walk-sheet-how")];
    lines.extend(walk_cautions());
    blocks.push(Block::Lines(lines));
    Ok(Document {
        title: msg("walk-sheet-title"),
        sections: vec![Section {
            heading: msg("walk-sheet-job").text("job", job.name.clone()),
            blocks,
        }],
    })
}
