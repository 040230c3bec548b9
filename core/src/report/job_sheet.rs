//! From a job to its job sheet.

use chrono::{DateTime, FixedOffset};

use super::{Block, Document, Section};
use crate::decide::mark_out::NoDrill;
use crate::decide::ring_set::{RingChoice, Verdict};
use crate::drawing::marks_drawing;
use crate::estimate::zero::Phone;
use crate::job::{
    ClockTrust, JobState, Particular, Spot, Tape, aim_with_ring, face_with_plus_minus,
    offset_words, ring_choice,
};
use crate::text::{Message, msg};

/// The job sheet as of a moment, in the time zone of that name.
#[must_use]
pub fn job_sheet(job: &JobState, at: DateTime<FixedOffset>, zone: &str) -> Document {
    let number = i64::try_from(job.sheets.len()).unwrap_or(i64::MAX).max(1);
    let mut sections = vec![particulars(job, at, zone, number)];
    sections.push(marks(job));
    sections.push(heads(job));
    sections.extend(checked(job));
    let open = not_done(job);
    if !open.is_empty() {
        sections.push(Section {
            heading: msg("sheet-not-done"),
            blocks: vec![Block::Lines(open)],
        });
    }
    sections.push(Section {
        heading: msg("sheet-cautions"),
        blocks: vec![Block::Lines(cautions())],
    });
    Document {
        title: msg("sheet-title"),
        sections,
    }
}

fn particulars(job: &JobState, at: DateTime<FixedOffset>, zone: &str, number: i64) -> Section {
    let mut pairs = vec![
        (
            msg("sheet-job"),
            msg("sheet-job-number")
                .text("id", job.id.0.clone())
                .count("issue", number),
        ),
        (
            msg("sheet-date"),
            msg("sheet-date-zone")
                .text("date", at.format("%-d %b %Y, %H:%M").to_string())
                .text("offset", at.format("%:z").to_string())
                .text("zone", zone),
        ),
    ];
    if !job.name.trim().is_empty() {
        pairs.push((msg("sheet-name"), literal(job.name.trim())));
    }
    let named = [
        (Particular::Customer, "particular-customer"),
        (Particular::Vehicle, "particular-vehicle"),
        (Particular::Plate, "particular-plate"),
        (Particular::Fitter, "particular-fitter"),
    ];
    for (which, key) in named {
        let text = job.particular(which).trim();
        let value = if text.is_empty() {
            msg("sheet-not-given")
        } else {
            literal(text)
        };
        pairs.push((msg(key), value));
    }
    pairs.push((msg("sheet-kit"), literal(&job.kit.name)));
    let mut blocks = vec![Block::Pairs(pairs)];
    if let ClockTrust::WentBack { minutes } = job.clock {
        blocks.push(Block::Lines(vec![
            msg("clock-went-back").count("minutes", minutes),
        ]));
    }
    Section {
        heading: msg("sheet-particulars"),
        blocks,
    }
}

fn literal(text: &str) -> Message {
    msg("literal").text("text", text)
}

fn marks(job: &JobState) -> Section {
    let mut blocks = vec![Block::Drawing(marks_drawing(job))];
    if let Some(marks) = &job.marks {
        let tape = match marks.tape {
            Tape::On(at) => {
                msg("sheet-tape-on").text("when", at.format("%-d %b %Y, %H:%M").to_string())
            }
            Tape::NotYet => msg("sheet-tape-not-yet"),
        };
        blocks.push(Block::Pairs(vec![
            (
                msg("sheet-half-widths"),
                msg("sheet-half-widths-are")
                    .mm("left", marks.half_left.0)
                    .mm("right", marks.half_right.0),
            ),
            (msg("sheet-plan"), marks.from.message()),
            (msg("sheet-tape"), tape),
        ]));
    }
    let areas: Vec<Message> = job.mark_out.no_drill.iter().map(area_words).collect();
    if !areas.is_empty() {
        blocks.push(Block::Lines(areas));
    }
    Section {
        heading: msg("sheet-marks"),
        blocks,
    }
}

fn area_words(area: &NoDrill) -> Message {
    msg("sheet-kept-clear")
        .message("why", area.why.message())
        .message("from", offset_words(area.from))
        .message("to", offset_words(area.to))
}

fn heads(job: &JobState) -> Section {
    let rows = job
        .spots
        .iter()
        .enumerate()
        .map(|(index, spot)| head_row(job, index, spot))
        .collect();
    let head = [
        "sheet-head",
        "sheet-position",
        "sheet-face",
        "sheet-ring",
        "sheet-aim",
    ];
    Section {
        heading: msg("sheet-heads"),
        blocks: vec![
            Block::Table {
                head: head.into_iter().map(msg).collect(),
                rows,
            },
            Block::Lines(vec![
                msg("sheet-angles-against-ground"),
                msg("sheet-plus-minus"),
            ]),
        ],
    }
}

/// The check before drilling, as far as it went.
fn checked(job: &JobState) -> Option<Section> {
    job.marks.as_ref()?;
    let time = |at: &DateTime<FixedOffset>| at.format("%-d %b %Y, %H:%M").to_string();
    let tape = job.check.tape_at.as_ref().map_or_else(
        || msg("sheet-check-tape-open"),
        |at| msg("sheet-check-tape").text("when", time(at)),
    );
    let seen: Vec<String> = job
        .check
        .seen_behind
        .iter()
        .filter_map(|seen| job.spots.get(seen.spot))
        .map(|spot| spot.label.clone())
        .collect();
    let behind = if seen.is_empty() {
        msg("sheet-check-behind-open")
    } else {
        msg("sheet-check-behind").text("labels", seen.join(", "))
    };
    let agreed = job.check.agreed.as_ref().map_or_else(
        || msg("sheet-check-agreed-open"),
        |agreed| {
            msg("agreed-by")
                .text("name", agreed.name.clone())
                .message("how", agreed.how.message())
                .text("when", time(&agreed.at))
        },
    );
    Some(Section {
        heading: msg("sheet-check"),
        blocks: vec![Block::Pairs(vec![
            (msg("sheet-check-tape-name"), tape),
            (msg("sheet-check-behind-name"), behind),
            (msg("sheet-check-agreed-name"), agreed),
        ])],
    })
}

fn head_row(job: &JobState, index: usize, spot: &Spot) -> Vec<Message> {
    let none = || msg("sheet-not-measured");
    let position = job
        .marks
        .as_ref()
        .and_then(|marks| marks.offsets.get(index))
        .map_or_else(none, |offset| offset_words(*offset));
    let face = face_with_plus_minus(job, spot).unwrap_or_else(none);
    let choice = ring_choice(job, spot);
    let ring = choice.as_ref().map_or_else(none, RingChoice::headline);
    let aim = choice
        .as_ref()
        .and_then(|choice| aim_with_ring(job, choice));
    vec![
        literal(&spot.label),
        position,
        face,
        ring,
        aim.unwrap_or_else(none),
    ]
}

/// What a reader of the sheet must know was not done or not settled.
fn not_done(job: &JobState) -> Vec<Message> {
    let mut lines = Vec::new();
    if job.marks.is_none() {
        lines.push(msg("sheet-open-marks"));
    }
    let unread: Vec<String> = job
        .spots
        .iter()
        .filter(|spot| !spot.is_read())
        .map(|spot| spot.label.clone())
        .collect();
    if !unread.is_empty() {
        lines.push(msg("sheet-open-faces").text("labels", unread.join(", ")));
    }
    for spot in &job.spots {
        let Some(choice) = ring_choice(job, spot) else {
            continue;
        };
        let key = match choice.verdict {
            Verdict::Sure { .. } => continue,
            Verdict::CloseCall { .. } => "sheet-open-close-call",
            Verdict::CannotBeServed { .. } => "sheet-open-cannot",
        };
        lines.push(msg(key).text("label", spot.label.clone()));
    }
    if matches!(job.phone, Phone::Unzeroed { .. }) && job.spots.iter().any(Spot::is_read) {
        lines.push(msg("sheet-open-unzeroed"));
    }
    lines.push(msg("sheet-open-behind"));
    lines
}

fn cautions() -> Vec<Message> {
    [
        "caution-maker",
        "caution-behind",
        "caution-hot",
        "caution-raised",
        "caution-aid",
    ]
    .into_iter()
    .map(msg)
    .collect()
}
