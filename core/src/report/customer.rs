//! The customer's page: what was fitted, what it cannot see, how to care for
//! it. Measured and done only; nothing predicted.

use chrono::{DateTime, FixedOffset};

use super::job_sheet::literal;
use super::walk::walk;
use super::{Block, Document, Section, SheetPhoto};
use crate::drawing::marks_drawing;
use crate::job::{
    Ignores, JobState, Particular, Standing, WalkTest, aim_at, head_photo, ignores, learn_done,
    offset_words, seen_from_behind, sets_taken,
};
use crate::moment;
use crate::steps::{Answers, Question, Truth};
use crate::text::{Message, msg};

/// The customer's page as of a moment.
#[must_use]
pub fn customer_sheet(job: &JobState, at: DateTime<FixedOffset>) -> Document {
    let mut sections = vec![particulars(job, at), heads(job)];
    sections.extend(walk(job));
    sections.extend(ignored(job));
    sections.push(lines("customer-limits", &LIMITS));
    sections.push(lines("customer-care", &CARE));
    let open = not_done(job);
    if !open.is_empty() {
        sections.push(Section {
            heading: msg("sheet-not-done"),
            blocks: vec![Block::Lines(open)],
        });
    }
    Document {
        title: msg("customer-title"),
        sections,
    }
}

/// What the control box was taught to ignore, or that it is not known.
fn ignored(job: &JobState) -> Option<Section> {
    let line = ignores(job).for_customer()?;
    Some(Section {
        heading: msg("customer-ignored"),
        blocks: vec![Block::Lines(vec![line])],
    })
}

/// What a parking aid does not do, in plain words.
const LIMITS: [&str; 4] = [
    "customer-limit-driver",
    "customer-limit-unseen",
    "customer-limit-near",
    "customer-limit-weather",
];

/// After-care.
const CARE: [&str; 4] = [
    "customer-care-wash",
    "customer-care-ice",
    "customer-care-tow-bar",
    "customer-care-back",
];

fn lines(heading: &'static str, keys: &[&'static str]) -> Section {
    Section {
        heading: msg(heading),
        blocks: vec![Block::Lines(keys.iter().copied().map(msg).collect())],
    }
}

fn particulars(job: &JobState, at: DateTime<FixedOffset>) -> Section {
    let mut pairs = Vec::new();
    for which in Particular::ALL {
        if which == Particular::KitSerial {
            pairs.push((msg("sheet-date-plain"), literal(&moment::date(&at))));
            pairs.push((msg("sheet-kit"), literal(&job.kit.name)));
        }
        let text = job.particular(which).trim();
        if !text.is_empty() {
            pairs.push((which.message(), literal(text)));
        }
    }
    if let Some(issue) = job.issued() {
        let number = msg("sheet-job-issue")
            .text("id", job.id.0.clone())
            .count("issue", i64::from(issue.number));
        pairs.push((msg("sheet-job"), number));
    }
    if let Some(agreed) = &job.check.agreed {
        let words = msg("agreed-by")
            .text("name", agreed.name.clone())
            .message("how", agreed.how.message())
            .text("when", moment::date(&agreed.at));
        pairs.push((msg("sheet-check-agreed-name"), words));
    }
    Section {
        heading: msg("customer-what"),
        blocks: vec![Block::Pairs(pairs)],
    }
}

/// Each head's story on one line, and its photo.
fn heads(job: &JobState) -> Section {
    let sets = sets_taken(job);
    let rows = job.spots.iter().enumerate().map(|(index, spot)| {
        let place = (job.marks.as_ref())
            .and_then(|marks| marks.offsets.get(index))
            .map_or_else(|| msg("sheet-not-measured"), |offset| offset_words(*offset));
        let ring = (sets.get(index).and_then(Option::as_ref))
            .map_or_else(|| msg("sheet-not-measured"), |taken| taken.set.name());
        let aim = aim_at(job, index).unwrap_or_else(|| msg("sheet-not-measured"));
        vec![literal(&spot.label), place, ring, aim]
    });
    let head = ["sheet-head", "sheet-position", "sheet-ring", "sheet-aim"];
    let mut blocks = vec![
        Block::Drawing(marks_drawing(job)),
        Block::Table {
            head: head.into_iter().map(msg).collect(),
            rows: rows.collect(),
        },
    ];
    let photos = head_photos(job);
    if !photos.is_empty() {
        blocks.push(Block::Photos(photos));
    }
    Section {
        heading: msg("sheet-heads"),
        blocks,
    }
}

/// The photo of every finished head that has one, named by its label.
pub(super) fn head_photos(job: &JobState) -> Vec<SheetPhoto> {
    let heads = (0_u8..).zip(&job.spots);
    let photos = heads.filter_map(|(head, spot)| {
        let photo = head_photo(job, head)?;
        Some(SheetPhoto {
            blob: photo.blob.clone(),
            caption: msg("sheet-head-photo").text("label", spot.label.clone()),
            size: (photo.width, photo.height),
            notes: photo.notes.clone(),
        })
    });
    photos.collect()
}

/// Whether it was walked behind, in the customer's words.
fn not_walked(job: &JobState) -> Option<Message> {
    let test = job.walk.test.as_ref();
    match test.map(WalkTest::is_whole) {
        Some(true) => None,
        Some(false) => Some(msg("customer-open-walk-half")),
        None => Some(msg("customer-open-walk")),
    }
}

/// Whether it was taught what always stands behind; nothing where there is
/// nothing to be taught, or its own section says it.
fn not_taught(job: &JobState) -> Option<Message> {
    let behind = job.answer(Question::TowBar) != Some(Truth::No);
    let untaught = matches!(ignores(job), Ignores::Nothing | Ignores::Cleared);
    let open = job.kit.obstacle_learn.is_some() && behind && untaught && !learn_done(job);
    open.then(|| msg("customer-open-learn"))
}

/// What the customer must know was not done.
fn not_done(job: &JobState) -> Vec<Message> {
    let mut lines = Vec::new();
    if job.check.agreed.is_none() {
        lines.push(msg("customer-open-agreed"));
    }
    let unseen = (0..job.spots.len()).any(|spot| !seen_from_behind(job, spot));
    if unseen {
        lines.push(msg("customer-open-behind"));
    }
    lines.extend(not_walked(job));
    lines.extend(not_taught(job));
    if job.standing == Standing::CameBack {
        lines.push(msg("customer-open-back"));
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{JobEvent, JobId, StepsEvent, apply};

    fn at() -> DateTime<FixedOffset> {
        DateTime::parse_from_rfc3339("2026-03-12T09:30:00+01:00").unwrap()
    }

    fn job() -> JobState {
        let sheet = include_str!("../../../assets/kits/metal-four.json");
        let kit = crate::kit::parse(sheet).unwrap();
        JobState::start(JobId("a1".to_owned()), kit, at())
    }

    fn keys(job: &JobState) -> Vec<String> {
        let lines = not_done(job).into_iter();
        lines.map(|line| line.key.into_owned()).collect()
    }

    #[test]
    fn a_walk_and_a_learn_that_were_not_done_are_not_hidden_from_the_customer() {
        let job = job();
        assert!(job.kit.obstacle_learn.is_some());
        for open in ["customer-open-walk", "customer-open-learn"] {
            assert!(keys(&job).contains(&open.to_owned()), "{open}");
        }
        let none = StepsEvent::Answered(Question::TowBar, Truth::No);
        let job = apply(&job, JobEvent::Steps(none), at()).unwrap();
        assert!(!keys(&job).contains(&"customer-open-learn".to_owned()));
    }
}
