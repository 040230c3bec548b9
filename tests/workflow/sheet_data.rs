//! The job sheet as data for other programs, held against its schema by
//! Python's jsonschema.

use rakeline::backup::SHEET_SCHEMA;
use rakeline::driver::{Intent, Sheets};
use rakeline::texts::say;
use rakeline_core::job::{aim_at, rake_at};
use rakeline_tests::oracle;
use serde_json::{Value, json};

use crate::bench::Bench;
use crate::scenario;

fn data(bench: &mut Bench) -> Value {
    bench.send(Intent::MakeSheets(Sheets::Data));
    let files = bench.phone.share.files();
    let file = files.last().expect("a file");
    assert_eq!(file.mime, "application/json");
    assert!(file.name.ends_with(".json"), "{}", file.name);
    serde_json::from_slice(&file.bytes).expect("JSON")
}

fn faults(documents: &[&Value]) -> Vec<Vec<String>> {
    let documents: Vec<String> = documents.iter().map(ToString::to_string).collect();
    let asked = json!({ "schema": SHEET_SCHEMA, "documents": documents });
    let told = oracle::run("fits_schema.py", &asked);
    serde_json::from_value(told["faults"].clone()).expect("faults")
}

#[test]
fn the_sheet_as_data_holds_what_the_paper_says_and_fits_its_schema() {
    let mut bench = Bench::new();
    scenario::to_sheet(&mut bench);
    let draft = data(&mut bench);
    let again = data(&mut bench);
    let job = bench.job().clone();
    assert_eq!(draft["issue"], json!(1));
    assert_eq!(again["issue"], json!(1), "nothing changed in between");
    let heads = again["heads"].as_array().expect("heads");
    assert_eq!(heads.len(), job.spots.len());
    for (at, (head, spot)) in heads.iter().zip(&job.spots).enumerate() {
        assert_eq!(head["head"], json!(spot.label));
        let face = rake_at(&job, spot).expect("read").rake.value.0;
        let told = head["face_angle_deg"].as_f64().expect("an angle");
        assert!((told - face).abs() < 0.006, "{told}, {face}");
        assert!(head["aim_plus_minus_deg"].as_f64().expect("a ±") > 0.0);
        let aim = say(&aim_at(&job, at).expect("an aim"));
        let rows = again["sections"].to_string();
        assert!(rows.contains(&json!(aim).to_string()), "{aim}");
    }
    let mut wrong = again.clone();
    wrong["heads"][0]["aim_deg"] = json!("up");
    let told = faults(&[&again, &wrong]);
    assert_eq!(told[0], Vec::<String>::new());
    assert_eq!(told[1].len(), 1, "{told:?}");
}

#[test]
fn a_job_with_nothing_measured_is_data_too() {
    let mut bench = Bench::new();
    let id = bench.new_id();
    bench.send(Intent::StartJob(id));
    let told = data(&mut bench);
    assert_eq!(told["heads"][0]["face_angle_deg"], Value::Null);
    assert_eq!(told["heads"][0]["ring"], Value::Null);
    assert_eq!(faults(&[&told]), [Vec::<String>::new()]);
}
