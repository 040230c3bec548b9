//! JSON in and out of the store by one way, through a value: each type then
//! has one reader and one writer in the app's module, not one for every form
//! of text.

use serde::Serialize;
use serde::de::DeserializeOwned;

/// Reads a type from its text.
///
/// # Errors
/// What does not fit, in the reader's own words.
pub fn read<T: DeserializeOwned>(text: &str) -> serde_json::Result<T> {
    serde_json::from_value(serde_json::from_str(text)?)
}

/// Writes a type as text.
///
/// # Errors
/// A key that is no text, or a figure that JSON cannot hold.
pub fn write<T: Serialize>(what: &T) -> serde_json::Result<String> {
    serde_json::to_value(what).map(|value| value.to_string())
}
