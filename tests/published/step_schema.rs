//! Source: JSON Schema, draft 2020-12, as the Python library `jsonschema`
//! reads it: the app's steps fit the published schema, and an independent
//! validator gives the same verdict as the parser.

#![allow(clippy::expect_used, reason = "a test stops here")]

use rakeline_core::steps::{json_schema_file, read_book};
use rakeline_tests::oracle;
use serde_json::{Value, json};

const BOOK: &str = include_str!("../../assets/steps/fitting.json");
const PUBLISHED: &str = include_str!("../../assets/steps/step-file.schema.json");

#[test]
fn the_published_schema_of_steps_is_the_one_made_from_the_types() {
    assert!(
        PUBLISHED == json_schema_file(),
        "out of date: cargo run -p rakeline-tests --example step_schema > assets/steps/step-file.schema.json"
    );
}

/// Faults that `jsonschema` finds in each document.
fn faults(documents: &[String]) -> Vec<usize> {
    let asked = json!({ "schema": PUBLISHED, "documents": documents });
    let told = oracle::run("fits_schema.py", &asked);
    let all = told["faults"].as_array().expect("faults").iter();
    all.map(|faults| faults.as_array().map_or(0, Vec::len))
        .collect()
}

fn with(at: &str, value: Value) -> String {
    let mut book: Value = serde_json::from_str(BOOK).expect("JSON");
    let (above, name) = at.rsplit_once('/').expect("a place below another");
    match book.pointer_mut(above).expect("that place") {
        Value::Array(list) => list[name.parse::<usize>().expect("an index")] = value,
        group => group[name] = value,
    }
    book.to_string()
}

#[test]
fn the_apps_steps_fit_and_broken_ones_are_refused_by_both() {
    let mut documents = vec![BOOK.to_owned()];
    let step = "/stages/0/steps/0";
    for (at, value) in [
        ("/version", json!(2)),
        ("/version", json!("1")),
        ("/stages", json!({})),
        ("/stages/0/stage", json!("paperwork")),
        (&format!("{step}/name"), json!("../x")),
        (&format!("{step}/name"), json!("n".repeat(41))),
        (&format!("{step}/depth"), json!("deep")),
        (&format!("{step}/asks"), json!(["song"])),
        (
            &format!("{step}/asks"),
            json!([{ "wait": { "minutes": -1 } }]),
        ),
        (&format!("{step}/applies"), json!([{ "when": "raining" }])),
        (&format!("{step}/weight"), json!("heavy")),
        (&format!("{step}/screen"), json!("cinema")),
        (step, json!({ "name": "raised", "depth": "quick" })),
        (
            step,
            json!({ "name": "raised", "depth": "quick", "asks": [], "colour": "red" }),
        ),
    ] {
        documents.push(with(at, value));
    }
    let told = faults(&documents);
    for (document, faults) in documents.iter().zip(told) {
        let read = read_book(document);
        assert_eq!(read.is_ok(), faults == 0, "{read:?}\n{document}");
    }
    assert!(read_book(BOOK).is_ok());
}
