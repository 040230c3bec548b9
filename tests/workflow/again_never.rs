//! Nothing that a vehicle has to show anew comes from an earlier one: tested
//! over every piece of the record.

use rakeline_core::again::{VehicleName, lesson, offer as offered};
use rakeline_core::decide::supply::Reading;
use rakeline_core::job::{
    BeforeEvent, Field, Handed, JobEvent, JobId, JobState, Whose, apply, may_be_handed,
};
use rakeline_core::kit;
use rakeline_core::record;
use rakeline_core::table::Table;
use rakeline_core::units::{Millimetres, Offset};
use rakeline_tests::again_cases::{EARLIER, STAYS, full_job};
use serde_json::Value;

use crate::again::job;

/// Pieces of a job's record that may come from an earlier one.
const MAY_COME: [&str; 8] = [
    "before",
    "kit",
    "particulars.vehicle",
    "typed",
    "mark_out.no_drill",
    "mark_out.row",
    "mark_out.limits",
    "quote.extra",
];

fn flat(value: &Value, path: &str, into: &mut Vec<(String, String)>) {
    match value {
        Value::Object(map) if !map.is_empty() => {
            for (key, value) in map {
                let path = if path.is_empty() {
                    key.clone()
                } else {
                    format!("{path}.{key}")
                };
                flat(value, &path, into);
            }
        }
        other => into.push((path.to_owned(), other.to_string())),
    }
}

fn pieces(job: &JobState) -> Vec<(String, String)> {
    let text = record::write(job).expect("can be written");
    let record: Value = serde_json::from_str(&text).expect("a record");
    let mut found = Vec::new();
    flat(&record["job"], "", &mut found);
    found
}

#[test]
fn nothing_of_an_earlier_vehicle_reaches_a_new_job_but_what_may() {
    let full = full_job().expect("a job");
    let sheet = kit::to_json(&full.kit);
    let fresh = JobState::start(
        JobId("n1".to_owned()),
        kit::parse(&sheet).expect("a sheet"),
        full.created,
    );
    // Nothing of the earlier job is as a fresh one has it: each top piece of
    // the record is put to the test.
    let top = |job: &JobState| -> Value {
        serde_json::from_str::<Value>(&record::write(job).expect("written")).expect("a record")
            ["job"]
            .clone()
    };
    let (of_full, of_fresh) = (top(&full), top(&fresh));
    for (name, value) in of_fresh.as_object().expect("an object") {
        let same = ["created", "kit", "phone"].contains(&name.as_str());
        assert!(
            same || of_full[name] != *value,
            "{name}: fill it in full_job()"
        );
    }
    let lessons = [lesson(&full).expect("it teaches")];
    let handed = offered(&VehicleName::default(), &lessons)
        .expect("an offer")
        .handed(&[]);
    let taken = JobEvent::Before(BeforeEvent::TakenOver(Box::new(handed)));
    let new = apply(&fresh, taken, fresh.created).expect("taken over");
    let (new_pieces, fresh_pieces) = (pieces(&new), pieces(&fresh));
    for (path, value) in &new_pieces {
        let was = fresh_pieces.iter().find(|(other, _)| other == path);
        let changed = was.is_none_or(|(_, was)| was != value);
        let may = MAY_COME
            .iter()
            .any(|may| path == may || path.starts_with(&format!("{may}.")))
            || path.starts_with("steps.words.box-place")
            || path == "revision";
        assert!(!changed || may, "{path} reaches a new job: {value}");
    }
    for (field, _) in &new.typed {
        assert!(may_be_handed(*field), "{field:?}");
    }
    let text = record::write(&new).expect("written");
    for stays in STAYS.iter().filter(|stays| **stays != "FG 12 TARN") {
        assert!(!text.contains(stays), "{stays} reaches a new job");
    }
}

#[test]
fn a_forged_hand_over_cannot_bring_what_is_never_inherited() {
    let fresh = JobState::start(
        JobId("n1".to_owned()),
        job(&EARLIER).kit,
        job(&EARLIER).created,
    );
    let never = [
        Field::Volts(Reading::ReverseOn),
        Field::AgreedName,
        Field::Depth(Whose::Bumper),
        Field::Panel(Whose::Bumper),
        Field::TapeMark(0),
        Field::HalfLeft,
        Field::HalfRight,
        Field::FaceAngle,
        Field::FuseAmperes,
        Field::WalkStartUp,
        Field::LearnObject,
    ];
    let handed = Handed {
        typed: never
            .iter()
            .map(|field| (*field, "12".to_owned()))
            .collect(),
        offsets: vec![Offset(1.0); 9],
        limits: Table::new(),
        ..Handed::default()
    };
    let taken = JobEvent::Before(BeforeEvent::TakenOver(Box::new(handed)));
    let new = apply(&fresh, taken, fresh.created).expect("taken over");
    assert!(new.typed.is_empty(), "{:?}", new.typed);
    assert!(new.before.offsets.is_empty(), "nine marks for four heads");
    let again = JobEvent::Before(BeforeEvent::MarksAsBefore {
        half_left: Millimetres(871.0),
        half_right: Millimetres(868.0),
    });
    assert!(apply(&new, again, fresh.created).is_err());
}
