//! Prints the JSON Schema of kit sheets:
//! `cargo run -p rakeline-tests --example kit_schema > assets/kits/kit-sheet.schema.json`.

fn main() {
    print!("{}", rakeline_core::kit::json_schema_file());
}
