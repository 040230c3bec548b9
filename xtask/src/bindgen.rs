//! Writes the Python and Kotlin sides of a library that speaks UniFFI.

fn main() {
    uniffi::uniffi_bindgen_main();
}
