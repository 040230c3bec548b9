//! Prints the JSON Schema of step files:
//! `cargo run -p rakeline-tests --example step_schema > assets/steps/step-file.schema.json`.

fn main() {
    print!("{}", rakeline_core::steps::json_schema_file());
}
