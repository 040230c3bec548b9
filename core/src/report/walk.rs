//! Walk test and function check: what was measured, for job sheet and
//! customer's page; measured against predicted, for the workshop alone.

use super::{Block, Document, Section};
use crate::drawing::walk_plan;
use crate::job::{
    Ignores, JobState, VoidWhy, WalkTest, against_prediction, head_check_lines, ignores,
    no_longer_seen, point_words, share_words, swapped_words, times_said, walk_half,
};
use crate::moment;
use crate::text::{Message, msg};

/// The section, once anything was walked or approached.
pub(super) fn walk(job: &JobState) -> Option<Section> {
    let mut blocks = Vec::new();
    if let Some(test) = &job.walk.test
        && !test.taps.is_empty()
    {
        blocks.extend(measured(job, test));
    }
    let mut lines = head_check_lines(job);
    lines.extend(swapped_words(job));
    lines.extend(times_said(job));
    lines.extend(no_longer_seen(job));
    // What a proved learn ignores stands in its own section.
    if let Some(object) = &job.walk.learned
        && ignores(job) == Ignores::Nothing
    {
        lines.push(msg("sheet-walk-ignored").message("what", object.what.name()));
    }
    if !lines.is_empty() {
        blocks.push(Block::Lines(lines));
    }
    if blocks.is_empty() {
        return None;
    }
    blocks.push(Block::Lines(vec![msg("sheet-walk-caution")]));
    Some(Section {
        heading: msg("sheet-walk"),
        blocks,
    })
}

/// The workshop's part of a walk test: each point measured and predicted,
/// misses and surprises, and what the prediction assumes. `None` before the
/// first tap.
#[must_use]
pub fn workshop_walk(job: &JobState) -> Option<Document> {
    let test = job
        .walk
        .test
        .as_ref()
        .filter(|test| !test.taps.is_empty())?;
    let mut blocks = Vec::new();
    match against_prediction(job, test) {
        Err(why) => blocks.push(Block::Lines(vec![why])),
        Ok(found) => {
            let rows = found.points.iter().map(|one| {
                let predicted = msg(if one.predicted {
                    "walk-predicted-seen"
                } else {
                    "walk-predicted-not-seen"
                });
                vec![point_words(&one.point), one.sounded.message(), predicted]
            });
            let head = [
                "walk-column-point",
                "walk-column-measured",
                "walk-column-predicted",
            ];
            blocks.push(Block::Table {
                head: head.into_iter().map(msg).collect(),
                rows: rows.collect(),
            });
            let mut lines = found.misses;
            lines.extend(found.surprises);
            lines.push(msg("walk-predicted-why"));
            lines.extend(found.assumed);
            blocks.push(Block::Lines(lines));
        }
    }
    Some(Document {
        title: msg("workshop-walk-title"),
        sections: vec![Section {
            heading: msg("sheet-walk"),
            blocks,
        }],
    })
}

fn measured(job: &JobState, test: &WalkTest) -> Vec<Block> {
    let mut blocks: Vec<Block> = walk_plan(job, test, None)
        .map(Block::Drawing)
        .into_iter()
        .collect();
    blocks.push(Block::Lines(vec![
        msg("sheet-walk-when").text("when", moment::date_and_clock(&test.at)),
        msg("sheet-walk-key"),
    ]));
    let not_seen: Vec<Message> = test
        .points
        .iter()
        .enumerate()
        .filter(|(index, _)| test.at_point(*index).is_some_and(|tap| !tap.is_seen()))
        .map(|(_, point)| msg("sheet-walk-not-seen").message("point", point_words(point)))
        .collect();
    let mut lines = Vec::new();
    if let Some(said) = share_words(job, test) {
        lines.push(said.words);
        lines.push(said.source);
    }
    lines.extend(not_seen);
    blocks.push(Block::Lines(lines));
    blocks
}

/// What of the walk test was not done, or does not count any more.
pub(super) fn not_walked(job: &JobState) -> Vec<Message> {
    let count = |n: usize| i64::try_from(n).unwrap_or(i64::MAX);
    let mut lines = Vec::new();
    match (&job.walk.test, walk_half(job)) {
        (Some(_), Some(half)) => lines.push(
            msg("walk-headline-half-done")
                .count("done", count(half.done))
                .count("of", count(half.of)),
        ),
        (Some(_), None) => {}
        (None, _) => {
            let void = job.walk.earlier.last().and_then(|test| test.void.as_ref());
            lines.push(match void.map(|void| void.why) {
                Some(VoidWhy::NewLearn) => msg("walk-headline-void-learn"),
                Some(VoidWhy::MarkMoved) => msg("walk-headline-void-moved"),
                Some(VoidWhy::StartedAnew) | None => msg("walk-headline-not-done"),
            });
        }
    }
    if job.walk.heads.len() < job.spots.len() {
        lines.push(msg("sheet-open-heads-check"));
    }
    lines
}
