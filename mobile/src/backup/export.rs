//! Tables of all jobs for other programs: CSV of jobs, faces, readings and
//! parts, and the same as JSON with its schema.

use chrono::{DateTime, FixedOffset};
use rakeline_core::estimate::rake::{Against, FaceReading, Side};
use rakeline_core::job::{
    HalfWidths, JobState, Particular, Spot, half_widths, held_angles, parts_used, rake_at,
};
use rakeline_core::units::COVERAGE_95;
use rakeline_core::{json, record};
use serde_json::{Map, Value};

use super::items::Item;
use crate::texts::say;

/// Schema of `jobs.json`.
pub const SCHEMA: &str = include_str!("../../../assets/schemas/jobs.json");

/// A row: column and value, in the order of the columns.
pub(super) type Row = Vec<(&'static str, Value)>;

/// Tables under way.
#[derive(Default)]
pub(super) struct Tables {
    jobs: Table,
    faces: Table,
    readings: Table,
    parts: Table,
    /// The jobs as JSON, the bracket that ends the list still missing.
    list: String,
    /// Records that could not be read.
    left_out: usize,
}

#[derive(Default)]
struct Table(String);

impl Table {
    fn add(&mut self, row: &Row) {
        if self.0.is_empty() {
            let names: Vec<&str> = row.iter().map(|(name, _)| *name).collect();
            self.line(&names);
        }
        let cells: Vec<String> = row.iter().map(|(_, value)| cell(value)).collect();
        let cells: Vec<&str> = cells.iter().map(String::as_str).collect();
        self.line(&cells);
    }

    /// A line as in RFC 4180.
    fn line(&mut self, cells: &[&str]) {
        self.0.push_str(&cells.join(","));
        self.0.push_str("\r\n");
    }
}

/// A value as a cell. A text that a spreadsheet would take for a formula
/// gets an apostrophe before it.
fn cell(value: &Value) -> String {
    match value {
        Value::Null => String::new(),
        Value::String(text) => {
            let formula = text.starts_with(['=', '+', '-', '@', '\t', '\r']);
            let text = if formula {
                format!("'{text}")
            } else {
                text.clone()
            };
            if text.contains(['"', ',', '\n', '\r']) {
                format!("\"{}\"", text.replace('"', "\"\""))
            } else {
                text
            }
        }
        other => json::print(other),
    }
}

impl Tables {
    /// Takes the record of a job; other items have no place in the tables.
    pub(super) fn add(&mut self, name: &str, bytes: &[u8]) {
        if !name.starts_with("jobs/") {
            return;
        }
        let text = std::str::from_utf8(bytes).ok();
        match text.and_then(|text| record::read(text).ok()) {
            Some(job) => self.job(&job),
            None => self.left_out += 1,
        }
    }

    fn job(&mut self, job: &JobState) {
        self.jobs.add(&job_row(job));
        for (table, rows) in [
            (&mut self.faces, face_rows(job)),
            (&mut self.readings, reading_rows(job)),
            (&mut self.parts, part_rows(job)),
        ] {
            for row in rows {
                let mut whole: Row = vec![("job", Value::from(job.id.0.as_str()))];
                whole.extend(row);
                table.add(&whole);
            }
        }
        let object = job_object(job);
        let before = if self.list.is_empty() { "[\n" } else { ",\n" };
        self.list.push_str(before);
        self.list.push_str(&json::print(&Value::Object(object)));
    }

    /// The files, all told.
    pub(super) fn files(self) -> Vec<Item> {
        let list = if self.list.is_empty() {
            "[]\n".to_owned()
        } else {
            format!("{}\n]\n", self.list)
        };
        let mut files = vec![
            ("jobs.csv", self.jobs.0),
            ("faces.csv", self.faces.0),
            ("readings.csv", self.readings.0),
            ("parts.csv", self.parts.0),
            ("jobs.json", list),
            ("jobs.schema.json", SCHEMA.to_owned()),
        ];
        if self.left_out > 0 {
            let words = rakeline_core::text::msg("export-left-out")
                .count("jobs", i64::try_from(self.left_out).unwrap_or(i64::MAX));
            files.push(("left-out.txt", say(&words)));
        }
        files
            .into_iter()
            .map(|(name, text)| Item {
                name: name.to_owned(),
                bytes: text.into_bytes(),
            })
            .collect()
    }
}

/// A job as JSON with its faces, readings and parts.
pub(super) fn job_object(job: &JobState) -> Map<String, Value> {
    let mut whole = object(job_row(job));
    for (name, rows) in [
        ("faces", face_rows(job)),
        ("readings", reading_rows(job)),
        ("parts", part_rows(job)),
    ] {
        let list = rows.into_iter().map(|row| Value::Object(object(row)));
        whole.insert(name.to_owned(), list.collect());
    }
    whole
}

pub(super) fn object(row: Row) -> Map<String, Value> {
    row.into_iter()
        .map(|(name, value)| (name.to_owned(), value))
        .collect()
}

pub(super) fn at(moment: &DateTime<FixedOffset>) -> Value {
    Value::from(moment.to_rfc3339())
}

/// A figure to the hundredth, which is finer than any of them is known.
pub(super) fn figure(figure: f64) -> Value {
    Value::from((figure * 100.0).round() / 100.0)
}

fn job_row(job: &JobState) -> Row {
    let said = |which| Value::from(job.particular(which));
    let (left, right) = match half_widths(job) {
        HalfWidths::Ready { left, right, .. } => (figure(left.0), figure(right.0)),
        _ => (Value::Null, Value::Null),
    };
    let marks = job.marks.as_ref();
    let marks: Vec<String> = marks
        .map(|marks| {
            marks
                .offsets
                .iter()
                .map(|mark| mark.0.to_string())
                .collect()
        })
        .unwrap_or_default();
    vec![
        ("id", Value::from(job.id.0.as_str())),
        ("name", Value::from(job.name.as_str())),
        ("customer", said(Particular::Customer)),
        ("vehicle", said(Particular::Vehicle)),
        ("plate", said(Particular::Plate)),
        ("vin", said(Particular::Vin)),
        ("odometer", said(Particular::Odometer)),
        ("fitter", said(Particular::Fitter)),
        ("kit", Value::from(job.kit.name.as_str())),
        ("kit_serial", said(Particular::KitSerial)),
        ("standing", Value::from(say(&job.standing.message()))),
        ("started", at(&job.created)),
        ("changed", at(&job.changed)),
        ("half_width_left_mm", left),
        ("half_width_right_mm", right),
        ("marks_mm", Value::from(marks.join(" "))),
        ("faces_read", Value::from(job.read_count())),
        ("heads", Value::from(job.spots.len())),
        ("job_sheets", Value::from(job.sheets.len())),
    ]
}

/// The face angle at every head that was read, against the ground.
fn face_rows(job: &JobState) -> Vec<Row> {
    let read = job.spots.iter().filter(|spot| rake_at(job, spot).is_some());
    read.map(|spot| face_of(job, spot)).collect()
}

/// The face angle at a head, nothing where it was not read.
pub(super) fn face_of(job: &JobState, spot: &Spot) -> Row {
    let face = rake_at(job, spot).map(|face| face.rake);
    let maybe = |value: Option<f64>| value.map_or(Value::Null, figure);
    vec![
        ("head", Value::from(spot.label.as_str())),
        ("face_angle_deg", maybe(face.map(|face| face.value.0))),
        (
            "plus_minus_deg",
            maybe(face.map(|face| face.u.0 * COVERAGE_95)),
        ),
    ]
}

/// Every reading as it was read, before the ground is taken off.
fn reading_rows(job: &JobState) -> Vec<Row> {
    let mut rows = Vec::new();
    for spot in &job.spots {
        let mut held = held_angles(job, spot).into_iter();
        for (number, taken) in spot.readings.iter().enumerate() {
            let (how, angle, plus_minus) = match taken.reading {
                FaceReading::Held { side, .. } => (
                    match side {
                        Side::Back => "phone, back on the face",
                        Side::Screen => "phone, screen on the face",
                    },
                    held.next().map_or(Value::Null, |angle| figure(angle.0)),
                    Value::Null,
                ),
                FaceReading::Typed {
                    angle,
                    plus_minus,
                    against,
                    ..
                } => (
                    match against {
                        Against::Level => "gauge, against level",
                        Against::Board => "gauge, against the board",
                    },
                    figure(angle.0),
                    figure(plus_minus.0),
                ),
            };
            rows.push(vec![
                ("head", Value::from(spot.label.as_str())),
                ("number", Value::from(number + 1)),
                ("at", at(&taken.at)),
                ("how", Value::from(how)),
                ("angle_deg", angle),
                ("gauge_plus_minus_deg", plus_minus),
            ]);
        }
    }
    rows
}

fn part_rows(job: &JobState) -> Vec<Row> {
    let row = |line: rakeline_core::decide::parts::PartLine| {
        vec![
            ("count", Value::from(line.count)),
            ("part", Value::from(say(&line.part.message()))),
        ]
    };
    parts_used(job).into_iter().map(row).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cell_is_quoted_where_it_must_be_and_never_a_formula() {
        let text = |text: &str| cell(&Value::from(text));
        assert_eq!(text("plain"), "plain");
        assert_eq!(text("a, \"b\"\nc"), "\"a, \"\"b\"\"\nc\"");
        assert_eq!(text("=1+1"), "'=1+1");
        assert_eq!(text("-4, 5"), "\"'-4, 5\"");
        assert_eq!(cell(&figure(-4.206)), "-4.21");
        assert_eq!(cell(&Value::Null), "");
    }
}
