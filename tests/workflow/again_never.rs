//! Nothing that a vehicle has to show anew comes from an earlier one: tested
//! over every piece of the record.

use rakeline_core::again::{VehicleName, lesson, offer as offered};
use rakeline_core::decide::supply::Reading;
use rakeline_core::job::{
    BeforeEvent, Field, Handed, JobEvent, JobId, JobState, MarkOut, QuoteState, StepsState, Whose,
    apply, may_be_handed,
};
use rakeline_core::kit;
use rakeline_core::record;
use rakeline_core::steps::StepName;
use rakeline_core::table::Table;
use rakeline_core::units::{Millimetres, Offset};
use rakeline_tests::again_cases::{EARLIER, STAYS, full_job};
use serde_json::Value;

use crate::again::job;

/// What becomes of a piece of a job on the next vehicle of the model.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Fate {
    /// It is the new job's own: as a fresh job has it.
    Never,
    /// It may come from an earlier job, to be compared or changed.
    MayCome,
    /// Only some pieces of it may come, see [`within`].
    InPart,
}
use Fate::{InPart, MayCome, Never};

/// Every piece of the record. All fields of the type are named: a new one
/// does not compile until it was decided what becomes of it.
fn fates(job: &JobState) -> Vec<(&'static str, Fate)> {
    let JobState {
        id: _,
        name: _,
        created: _,
        changed: _,
        revision: _,
        clock: _,
        kit: _,
        particulars: _,
        typed: _,
        marks: _,
        spots: _,
        mark_out: _,
        check: _,
        phone: _,
        ground: _,
        load_allowance: _,
        behind: _,
        rings: _,
        holes: _,
        loom: _,
        learned: _,
        quote: _,
        walk: _,
        fault: _,
        measuring: _,
        steps: _,
        waits: _,
        spent: _,
        standing: _,
        visits: _,
        photos: _,
        card_photos: _,
        coverage: _,
        before: _,
        sheets: _,
    } = job;
    vec![
        ("id", Never),
        ("name", Never),
        ("created", Never),
        ("changed", Never),
        // It counts the events of this job.
        ("revision", MayCome),
        ("clock", Never),
        ("kit", MayCome),
        ("particulars", InPart),
        // Field by field, see `may_be_handed`.
        ("typed", MayCome),
        ("marks", Never),
        ("spots", Never),
        ("mark_out", InPart),
        ("check", Never),
        ("phone", Never),
        ("ground", Never),
        ("load_allowance", Never),
        ("behind", Never),
        ("rings", Never),
        ("holes", Never),
        ("loom", Never),
        ("learned", Never),
        ("quote", InPart),
        ("walk", Never),
        ("fault", Never),
        ("measuring", Never),
        ("steps", InPart),
        ("waits", Never),
        ("spent", Never),
        ("standing", Never),
        ("visits", Never),
        ("photos", Never),
        ("card_photos", Never),
        ("coverage", Never),
        // What it holds counts for nothing until this vehicle agrees.
        ("before", MayCome),
        ("sheets", Never),
    ]
}

/// The same for the pieces of those that come in part.
fn within(job: &JobState) -> Vec<(&'static str, Fate)> {
    let MarkOut {
        row: _,
        centre: _,
        limits: _,
        tape_limits: _,
        no_drill: _,
        old_holes: _,
        locked: _,
        taken: _,
    } = &job.mark_out;
    let QuoteState {
        extra: _,
        prices: _,
    } = &job.quote;
    let StepsState {
        answers: _,
        ended: _,
        words: _,
    } = &job.steps;
    vec![
        ("particulars.vehicle", MayCome),
        ("particulars.customer", Never),
        ("particulars.plate", Never),
        ("particulars.fitter", Never),
        ("mark_out.row", MayCome),
        ("mark_out.centre", Never),
        ("mark_out.limits", MayCome),
        ("mark_out.tape_limits", Never),
        ("mark_out.no_drill", MayCome),
        ("mark_out.old_holes", Never),
        ("mark_out.locked", Never),
        ("mark_out.taken", Never),
        ("quote.extra", MayCome),
        ("quote.prices", Never),
        ("steps.answers", Never),
        ("steps.ended", Never),
        // Those of the places alone.
        ("steps.words.box-place", MayCome),
        ("steps.words.box-place-cabin", MayCome),
        ("steps.words.grommet", MayCome),
        ("steps.words.supply", MayCome),
    ]
}

/// What becomes of the piece at a path; `Never` for one that nobody named.
fn fate(job: &JobState, path: &str) -> Fate {
    let is_at = |name: &str| path == name || path.starts_with(&format!("{name}."));
    let find = |all: Vec<(&'static str, Fate)>| {
        let mut found = all.into_iter().filter(|(name, _)| is_at(name));
        found.next().map_or(Never, |(_, fate)| fate)
    };
    match find(fates(job)) {
        InPart => find(within(job)),
        fate => fate,
    }
}

/// Pieces that are the same in every job of these tests, what is made anew
/// by what is handed on, and whether another workshop fitted the system: such
/// a job teaches nothing.
const AS_FRESH: [&str; 3] = ["kit", "before", "fault.elsewhere"];

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
        full.created + chrono::Duration::days(9),
    );
    // Nothing of the earlier job is as a fresh one has it: each piece of the
    // record, down to the last, is put to the test.
    let of_full = pieces(&full);
    let is_same = |path: &str| {
        let is_at = |name: &str| path == name || path.starts_with(&format!("{name}."));
        AS_FRESH.iter().any(|name| is_at(name))
    };
    let empty: Vec<String> = pieces(&fresh)
        .into_iter()
        .filter(|piece| !is_same(&piece.0) && of_full.contains(piece))
        .map(|(path, _)| path)
        .collect();
    assert_eq!(empty, [] as [String; 0], "fill them in full_job()");
    let named: Vec<&str> = fates(&full).iter().map(|(name, _)| *name).collect();
    let text = record::write(&full).expect("written");
    let value: Value = serde_json::from_str(&text).expect("a record");
    for name in value["job"].as_object().expect("an object").keys() {
        assert!(named.contains(&name.as_str()), "{name} is not decided on");
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
        let may = fate(&new, path) == MayCome;
        assert!(!changed || may, "{path} reaches a new job: {value}");
    }
    // What a fresh job has is still there as well.
    for (path, _) in &fresh_pieces {
        let begins = format!("{path}.");
        let kept = new_pieces
            .iter()
            .any(|(other, _)| other == path || other.starts_with(&begins));
        assert!(kept, "{path} is gone");
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
        words: [("assistance-before", "report 7"), ("grommet", "left")]
            .map(|(step, words)| (StepName(step.to_owned()), words.to_owned()))
            .into_iter()
            .collect(),
        offsets: vec![Offset(1.0); 9],
        limits: Table::new(),
        ..Handed::default()
    };
    let taken = JobEvent::Before(BeforeEvent::TakenOver(Box::new(handed)));
    let new = apply(&fresh, taken, fresh.created).expect("taken over");
    assert!(new.typed.is_empty(), "{:?}", new.typed);
    assert!(new.before.offsets.is_empty(), "nine marks for four heads");
    let written: Vec<&str> = new.steps.words.keys().map(|step| &*step.0).collect();
    assert_eq!(written, ["grommet"], "places alone");
    let again = JobEvent::Before(BeforeEvent::MarksAsBefore {
        half_left: Millimetres(871.0),
        half_right: Millimetres(868.0),
    });
    assert!(apply(&new, again, fresh.created).is_err());
}
