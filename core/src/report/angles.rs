//! How the angles of a job were measured, for the job sheet: who reads the
//! sheet later sees what each figure rests on. How the ground lies stands
//! with the figures themselves.

use chrono::{DateTime, FixedOffset};

use super::job_sheet::{labels_where, literal};
use super::{Block, Section};
use crate::estimate::contact::Feet;
use crate::estimate::rake::Origin;
use crate::estimate::zero::Phone;
use crate::job::{JobState, rake_at, roundness_words};
use crate::moment;
use crate::text::{Message, msg};

/// The section; `None` while no face was read. `at` gives the time zone in
/// which the day of the zeroing is named.
pub(super) fn angles(job: &JobState, at: DateTime<FixedOffset>) -> Option<Section> {
    let rows: Vec<Vec<Message>> = job.spots.iter().filter_map(|spot| row(job, spot)).collect();
    if rows.is_empty() {
        return None;
    }
    let mut pairs = Vec::new();
    if !labels_where(job, held).is_empty() {
        pairs.push((msg("sheet-phone"), phone(job, at)));
        let feet = match job.measuring.profile.as_ref().map(|profile| profile.feet) {
            Some(Feet::On) => msg("feet-on"),
            _ => msg("feet-off"),
        };
        let round = roundness_words(job.measuring.roundness);
        pairs.push((
            msg("sheet-contact"),
            msg("sheet-contact-is")
                .message("feet", feet)
                .message("round", round),
        ));
    }
    let mut blocks = Vec::new();
    if !pairs.is_empty() {
        blocks.push(Block::Pairs(pairs));
    }
    let head = ["sheet-head", "sheet-readings", "sheet-greatest-part"];
    blocks.push(Block::Table {
        head: head.into_iter().map(msg).collect(),
        rows,
    });
    Some(Section {
        heading: msg("sheet-angles"),
        blocks,
    })
}

fn held(origin: &Origin) -> bool {
    matches!(origin, Origin::Zeroed { .. } | Origin::Unzeroed)
}

/// A head: how many readings, and the part that makes most of its ±.
fn row(job: &JobState, spot: &crate::job::Spot) -> Option<Vec<Message>> {
    let rake = rake_at(job, spot)?;
    let count = i64::try_from(rake.readings).unwrap_or(i64::MAX);
    let readings = match rake.origin {
        Origin::Typed { plus_minus, .. } => msg("sheet-readings-typed")
            .count("readings", count)
            .deg("plus", plus_minus.0),
        Origin::Before { vehicles, .. } => {
            msg("sheet-readings-before").count("vehicles", i64::from(vehicles))
        }
        Origin::Zeroed { .. } | Origin::Unzeroed => {
            msg("sheet-readings-held").count("readings", count)
        }
    };
    let greatest = rake
        .budget
        .dominant()
        .map_or_else(|| msg("sheet-no-part"), |part| part.name());
    Some(vec![literal(&spot.label), readings, greatest])
}

/// Name, and how it was zeroed: when, and how well the readings fitted.
fn phone(job: &JobState, at: DateTime<FixedOffset>) -> Message {
    let name = job
        .measuring
        .profile
        .as_ref()
        .map(|profile| profile.name.trim());
    let words = match &job.phone {
        Phone::Unzeroed => msg("phone-not-zeroed"),
        Phone::Zeroed(zeroing) => {
            // Milliseconds since 1970 of any clock that runs fit.
            let day = DateTime::from_timestamp_millis(zeroing.at.0 as i64)
                .map(|day| moment::date(&day.with_timezone(at.offset())));
            msg("sheet-phone-zeroed")
                .text("day", day.unwrap_or_default())
                .number("spread", zeroing.spread.0, 2)
        }
    };
    match name {
        Some(name) if !name.is_empty() => msg("sheet-phone-named")
            .text("name", name)
            .message("how", words),
        _ => words,
    }
}
