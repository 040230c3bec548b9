//! The JSON Schema of step files: structure from the types, with the bounds
//! that the parser holds them to.

use schemars::generate::SchemaSettings;
use serde_json::{Value, json};

use super::parse::{NAME_GREATEST, STEPS_GREATEST};
use super::{BOOK_VERSION, StepBook};

/// The schema, draft 2020-12.
///
/// What it cannot say (a name twice, a step that waits for one that does not
/// stand before it) the parser does.
#[must_use]
pub fn json_schema() -> Value {
    let settings = SchemaSettings::draft2020_12().with(|s| s.inline_subschemas = true);
    let schema = settings.into_generator().into_root_schema_for::<StepBook>();
    let mut value = schema.to_value();
    value["title"] = json!("Rakeline step file, version 1");
    value["description"] = json!(
        "The steps of a whole fitting in the order of the work. Words of a step stand in the \
         app's texts under its name."
    );
    bound(
        &mut value,
        "/properties/version",
        "const",
        json!(BOOK_VERSION),
    );
    let steps = "/properties/stages/items/properties/steps";
    bound(&mut value, steps, "maxItems", json!(STEPS_GREATEST));
    let name = format!("^[a-z-]{{1,{NAME_GREATEST}}}$");
    bound(
        &mut value,
        &format!("{steps}/items/properties/name"),
        "pattern",
        json!(name),
    );
    value
}

fn bound(schema: &mut Value, at: &str, name: &str, to: Value) {
    if let Some(Value::Object(part)) = schema.pointer_mut(at) {
        part.insert(name.to_owned(), to);
    }
}

/// The schema as the file that is published.
#[must_use]
pub fn json_schema_file() -> String {
    let mut text = serde_json::to_string_pretty(&json_schema()).unwrap_or_default();
    text.push('\n');
    text
}
