//! One job's sheet as data for other programs: the job with its faces,
//! readings and parts as in the tables, every head with its set, aim and
//! hole, and all that the printed sheet says. JSON with its schema,
//! `assets/schemas/job_sheet.json`.

use rakeline_core::job::{JobState, ring_choice, set_taken};
use rakeline_core::json;
use rakeline_core::report::{Block, Document, Section};
use rakeline_core::text::Message;
use rakeline_core::units::COVERAGE_95;
use serde_json::{Map, Value, json};

use super::export::{at, face_of, figure, job_object, object};
use crate::texts::say;

/// Its schema.
pub const SHEET_SCHEMA: &str = include_str!("../../../assets/schemas/job_sheet.json");

/// The form that is written.
const VERSION: u32 = 1;

/// The job sheet as JSON: as it was issued last, or as it stands.
#[must_use]
pub fn sheet_data(job: &JobState, document: &Document) -> String {
    let issue = job.issued();
    let heads: Vec<Value> = (0..job.spots.len()).map(|spot| head(job, spot)).collect();
    let sections: Vec<Value> = document.sections.iter().map(section).collect();
    json::print(&json!({
        "rakeline_job_sheet": VERSION,
        "app_version": env!("CARGO_PKG_VERSION"),
        "issue": issue.map(|issue| issue.number),
        "issued": issue.map(|issue| at(&issue.at)),
        "zone": issue.map(|issue| issue.zone.as_str()),
        "job": job_object(job),
        "heads": heads,
        "title": say(&document.title),
        "sections": sections,
    }))
}

/// A head: where it is, what its face and its aim are, what is fitted.
fn head(job: &JobState, spot: usize) -> Value {
    let place = &job.spots[spot];
    let mut head = object(face_of(job, place));
    let marks = job.marks.as_ref();
    let offset = marks.and_then(|marks| marks.offsets.get(spot));
    let taken = set_taken(job, spot);
    let set = taken.as_ref().map(|taken| &taken.set);
    let aim = set.and_then(|set| Some(ring_choice(job, place)?.candidate(&job.kit, set)?.aim));
    let hole = set.and_then(|set| set.hole(&job.kit, job.behind.material));
    let maybe = |value: Option<f64>| value.map_or(Value::Null, figure);
    for (name, value) in [
        ("position_mm", maybe(offset.map(|offset| offset.0))),
        ("ring", Value::from(set.map(|set| set.ring.as_str()))),
        (
            "insert",
            Value::from(set.and_then(|set| set.insert.as_deref())),
        ),
        ("aim_deg", maybe(aim.map(|aim| aim.value.0))),
        (
            "aim_plus_minus_deg",
            maybe(aim.map(|aim| aim.u.0 * COVERAGE_95)),
        ),
        ("hole_mm", maybe(hole.map(|hole| hole.0))),
    ] {
        head.insert(name.to_owned(), value);
    }
    Value::Object(head)
}

fn words(all: &[Message]) -> Vec<String> {
    all.iter().map(say).collect()
}

fn section(section: &Section) -> Value {
    let blocks: Vec<Value> = section.blocks.iter().filter_map(block).collect();
    json!({ "heading": say(&section.heading), "blocks": blocks })
}

/// A block in words; a drawing is on paper only.
fn block(block: &Block) -> Option<Value> {
    Some(match block {
        Block::Pairs(pairs) => {
            let pairs: Map<String, Value> = pairs
                .iter()
                .map(|(name, value)| (say(name), Value::from(say(value))))
                .collect();
            json!({ "pairs": pairs })
        }
        Block::Table { head, rows } => {
            let rows: Vec<Vec<String>> = rows.iter().map(|row| words(row)).collect();
            json!({ "head": words(head), "rows": rows })
        }
        Block::Lines(lines) => json!({ "lines": words(lines) }),
        Block::Photos(photos) => {
            let names: Vec<String> = photos.iter().map(|photo| say(&photo.caption)).collect();
            json!({ "photos": names })
        }
        Block::Drawing(_) => return None,
    })
}
