//! Source: JSON Schema, draft 2020-12, as the Python library `jsonschema`
//! reads it: an independent validator gives the same verdict as the parser.

#![allow(clippy::expect_used, reason = "a test stops here")]

use rakeline_core::kit;
use rakeline_tests::oracle;
use serde_json::{Value, json};

const PLAIN: &str = include_str!("../../assets/kits/plain-four.json");
const METAL: &str = include_str!("../../assets/kits/metal-four.json");
const PUBLISHED: &str = include_str!("../../assets/kits/kit-sheet.schema.json");

/// What a field is replaced by, one after the other; `None` takes it out.
fn replacements() -> Vec<Option<Value>> {
    vec![
        None,
        Some(json!(null)),
        Some(json!("21 in")),
        Some(json!("")),
        Some(json!(-7)),
        Some(json!(0.8)),
        Some(json!(1e7)),
        Some(json!(true)),
        Some(json!([])),
        Some(json!({})),
        Some(json!(["1", "1"])),
        Some(json!("plastic")),
        Some(json!(6.0)),
    ]
}

/// Every place in a document, as JSON pointers.
fn places(value: &Value, here: &str, all: &mut Vec<String>) {
    match value {
        Value::Object(map) => {
            for (name, below) in map {
                let at = format!("{here}/{name}");
                all.push(at.clone());
                places(below, &at, all);
            }
        }
        Value::Array(entries) => {
            for (i, below) in entries.iter().enumerate() {
                let at = format!("{here}/{i}");
                all.push(at.clone());
                places(below, &at, all);
            }
        }
        _ => {}
    }
}

fn changed(document: &Value, place: &str, by: Option<&Value>) -> Value {
    let mut document = document.clone();
    match by {
        Some(value) => {
            if let Some(target) = document.pointer_mut(place) {
                *target = value.clone();
            }
        }
        None => {
            let (above, name) = place.rsplit_once('/').expect("a pointer");
            match document.pointer_mut(above) {
                Some(Value::Object(map)) => {
                    map.remove(name);
                }
                Some(Value::Array(entries)) => {
                    entries.remove(name.parse().expect("an index"));
                }
                _ => {}
            }
        }
    }
    document
}

#[test]
fn the_published_schema_is_the_one_made_from_the_types() {
    assert!(
        PUBLISHED == kit::json_schema_file(),
        "out of date: cargo run -p rakeline-tests --example kit_schema > assets/kits/kit-sheet.schema.json"
    );
}

#[test]
fn an_independent_validator_agrees_on_both_kits_and_on_every_broken_one() {
    let mut documents = vec![PLAIN.to_owned(), METAL.to_owned()];
    for kit in [PLAIN, METAL] {
        let document: Value = serde_json::from_str(kit).expect("JSON");
        let mut all = Vec::new();
        places(&document, "", &mut all);
        for (i, place) in all.iter().enumerate() {
            // Every place, three of the replacements in turn.
            let with = replacements();
            for k in 0..3 {
                let by = &with[(i * 5 + k * 4 + i / 12) % with.len()];
                documents.push(changed(&document, place, by.as_ref()).to_string());
            }
        }
    }
    let verdicts = judge(&documents);
    let mut broken = 0;
    for (document, verdict) in documents.iter().zip(&verdicts) {
        let parsed = kit::parse(document);
        let theirs = verdict["schema"] == json!(true) && verdict["rules"] == json!(true);
        assert_eq!(parsed.is_ok(), theirs, "{parsed:?}\n{document}");
        broken += usize::from(parsed.is_err());
    }
    assert!(kit::parse(PLAIN).is_ok() && kit::parse(METAL).is_ok());
    assert!(broken >= 200, "only {broken} broken ones");
}

fn judge(documents: &[String]) -> Vec<Value> {
    let input = json!({ "schema": kit::json_schema(), "documents": documents });
    let answer = oracle::run("kit_schema.py", &input);
    answer["verdicts"].as_array().expect("verdicts").clone()
}

#[test]
fn sheets_that_contradict_themselves_pass_the_schema_and_fail_the_parser() {
    let document: Value = serde_json::from_str(METAL).expect("JSON");
    let contradictions = [
        ("/heads/labels/3", json!("1")),
        ("/heads/comes_with", json!("11")),
        ("/rings/1/name", json!("9")),
        ("/inserts/1/name", json!("flat ")),
        ("/inserts/0/covers_old_hole", json!(27)),
        ("/totals/0/insert", json!("steeper")),
        ("/totals/0/ring", json!("15")),
        ("/totals/1/ring", json!("14")),
        ("/aim/least", json!(10)),
        ("/aim/target", json!(9.5)),
        ("/mark_out/corner_gap_least", json!(451)),
        ("/mark_out/spacing_least", json!(700)),
        ("/heads/grip/least", json!(6)),
        ("/height/least", json!(800)),
        ("/supply/least_volts", json!(40)),
        ("/supply/fuse_amperes", json!(0.1)),
        ("/heads/diameter", json!(40)),
        ("/heads/flange_diameter", json!(10)),
    ];
    let documents: Vec<String> = contradictions
        .iter()
        .map(|(place, value)| changed(&document, place, Some(value)).to_string())
        .collect();
    for (document, verdict) in documents.iter().zip(judge(&documents)) {
        assert_eq!(
            verdict,
            json!({ "schema": true, "rules": false }),
            "{document}"
        );
        assert!(kit::parse(document).is_err(), "{document}");
    }
}
