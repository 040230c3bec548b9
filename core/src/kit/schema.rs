//! The JSON Schema of kit sheets: structure from the types, bounds from the
//! same table that the parser checks by.

use schemars::generate::SchemaSettings;
use serde_json::{Map, Value, json};

use super::KitSheet;
use super::rules::{Field, Kind, Need, SHEET};

/// The schema, draft 2020-12.
///
/// It says what every field may hold. What fields must not contradict
/// (names twice, names that are not there, a least above its greatest, a
/// target outside) JSON Schema cannot say; the parser does.
#[must_use]
pub fn json_schema() -> Value {
    let settings = SchemaSettings::draft2020_12().with(|s| s.inline_subschemas = true);
    let schema = settings.into_generator().into_root_schema_for::<KitSheet>();
    let mut value = schema.to_value();
    bound_group(&mut value, SHEET);
    value["description"] = json!(
        "A kit of parking sensors: heads, rings, inserts, holes, leads, limits. Lengths in \
         millimetres, angles in degrees (+ up), times in milliseconds. What is left out is not given."
    );
    value["title"] = json!("Rakeline kit sheet, version 1");
    value
}

/// The schema as the file that is published.
#[must_use]
pub fn json_schema_file() -> String {
    let mut text = serde_json::to_string_pretty(&json_schema()).unwrap_or_default();
    text.push('\n');
    text
}

fn bound_group(schema: &mut Value, fields: &[Field]) {
    for field in fields {
        if let Some(property) = schema.pointer_mut(&format!("/properties/{}", field.name)) {
            bound(property, &field.kind, field.need);
        }
    }
}

/// Adds the bounds of a kind to its schema.
fn bound(schema: &mut Value, kind: &Kind, need: Need) {
    let target = not_null(schema);
    let Some(map) = target.as_object_mut() else {
        return;
    };
    match kind {
        Kind::Number {
            least, greatest, ..
        } => limits(map, json!(least), json!(greatest)),
        Kind::Whole { least, greatest } => limits(map, json!(least), json!(greatest)),
        Kind::Text { longest } => {
            map.insert("pattern".to_owned(), json!("\\S"));
            map.insert("maxLength".to_owned(), json!(longest));
        }
        Kind::OneOf(words) => {
            let mut words: Vec<Value> = words.iter().map(|w| json!(w)).collect();
            if need == Need::Optional {
                words.push(Value::Null);
            }
            if !map.contains_key("oneOf") {
                map.insert("enum".to_owned(), Value::Array(words));
            }
        }
        Kind::Switch => {}
        Kind::Group(fields) => bound_group(target, fields),
        Kind::List { of, least, most } => {
            map.insert("minItems".to_owned(), json!(least));
            map.insert("maxItems".to_owned(), json!(most));
            if let Some(items) = map.get_mut("items") {
                bound(items, of, Need::Required);
            }
        }
    }
}

fn limits(map: &mut Map<String, Value>, least: Value, greatest: Value) {
    map.insert("minimum".to_owned(), least);
    map.insert("maximum".to_owned(), greatest);
}

/// The part of `anyOf: [what, null]` that is not null, or the schema itself.
fn not_null(schema: &mut Value) -> &mut Value {
    let wrapped = schema
        .get("anyOf")
        .and_then(Value::as_array)
        .and_then(|any| any.iter().position(|s| s["type"] != json!("null")));
    match wrapped {
        Some(i) => &mut schema["anyOf"][i],
        None => schema,
    }
}
