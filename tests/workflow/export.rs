//! Tables for other programs, read by other programs.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use rakeline::driver::{Intent, Whole};
use rakeline_core::job::Particular;
use rakeline_tests::oracle;
use serde_json::{Value, json};

use crate::backup::made;
use crate::bench::Bench;
use crate::job_list::three;
use crate::scenario;

fn tables(bench: &mut Bench) -> Value {
    let bytes = made(bench, Whole::Tables);
    oracle::run("tables.py", &json!({ "file": STANDARD.encode(bytes) }))
}

/// The column of a table, without its name.
fn column(table: &Value, name: &str) -> Vec<String> {
    let rows = table.as_array().expect("rows");
    let names = rows[0].as_array().expect("names");
    let at = names
        .iter()
        .position(|one| one == name)
        .expect("the column");
    let cell = |row: &Value| row[at].as_str().unwrap_or_default().to_owned();
    rows[1..].iter().map(cell).collect()
}

#[test]
fn tables_hold_every_job_face_and_reading_and_fit_their_schema() {
    let mut bench = three();
    scenario::to_sheet(&mut bench);
    let customer = "Müller, \"Söhne\" & Co\nsecond line".to_owned();
    bench.send(Intent::Particular(Particular::Customer, customer.clone()));
    let job = bench.job().clone();
    bench.send(Intent::GoJobs);
    let told = tables(&mut bench);
    assert_eq!(told["faults"], json!([]));
    let jobs = &told["rows"]["jobs.csv"];
    assert_eq!(column(jobs, "id").len(), 4);
    let at = column(jobs, "id").iter().position(|id| *id == job.id.0);
    let at = at.expect("the job");
    let kept = job.particular(Particular::Customer);
    assert_eq!(column(jobs, "customer")[at], kept);
    assert_eq!(column(jobs, "faces_read")[at], "4");
    let faces = &told["rows"]["faces.csv"];
    assert_eq!(column(faces, "head"), ["1", "2", "3", "4"]);
    let shown: Vec<String> = job
        .spots
        .iter()
        .map(|spot| {
            rakeline_core::job::rake_at(&job, spot)
                .expect("read")
                .rake
                .value
                .0
        })
        .map(|angle| format!("{}", (angle * 100.0).round() / 100.0))
        .collect();
    let angles = column(faces, "face_angle_deg");
    let plain: Vec<String> = angles.iter().map(|cell| cell.replace('\'', "")).collect();
    assert_eq!(plain, shown);
    assert_eq!(column(&told["rows"]["readings.csv"], "number").len(), 4);
    let list = told["jobs"].as_array().expect("jobs");
    assert_eq!(list.len(), 4);
}

#[test]
fn tables_of_no_job_are_empty_and_fit_their_schema() {
    let mut bench = Bench::new();
    let told = tables(&mut bench);
    assert_eq!(told["faults"], json!([]));
    assert_eq!(told["jobs"], json!([]));
}
