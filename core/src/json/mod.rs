//! JSON in and out of the store by one way, through a [`Value`].
//!
//! The module that a phone loads first must be small. So the whole model has
//! one reader ([`of_value`]) and one writer ([`to_value`]), each of one type,
//! and only what a stored record can hold: a derived visitor that nobody
//! calls is not in the module. `serde_json` gives the value and nothing else.

mod parse;
mod print;
mod reader;
mod sum;
mod writer;

use std::fmt;

use serde::Serialize;
use serde::de::{Deserialize, DeserializeOwned};
use serde_json::Value;

pub use parse::parse;
pub use print::{pretty, print};
pub use sum::sum;

/// Why a text or a value is not what was asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault(Box<str>);

impl Fault {
    fn new(why: impl Into<Box<str>>) -> Self {
        Self(why.into())
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str(&self.0)
    }
}

impl std::error::Error for Fault {}

impl serde::de::Error for Fault {
    fn custom<T: fmt::Display>(why: T) -> Self {
        Self::new(why.to_string())
    }
}

impl serde::ser::Error for Fault {
    fn custom<T: fmt::Display>(why: T) -> Self {
        Self::new(why.to_string())
    }
}

/// Where a text stops being JSON.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotJson {
    /// Line, from 1.
    pub line: usize,
    /// Byte of the line, from 1.
    pub column: usize,
}

impl From<NotJson> for Fault {
    fn from(at: NotJson) -> Self {
        Self::new(format!("line {} column {}", at.line, at.column))
    }
}

/// Reads a type from its text.
///
/// # Errors
/// Where it stops being JSON, or what does not fit.
pub fn read<T: DeserializeOwned>(text: &str) -> Result<T, Fault> {
    of_value(&parse(text)?)
}

/// Writes a type as text.
///
/// # Errors
/// A key that is no text.
pub fn write<T: Serialize>(what: &T) -> Result<String, Fault> {
    to_value(what).map(|value| print(&value))
}

/// Reads a type from a value.
///
/// # Errors
/// What does not fit.
pub fn of_value<'de, T: Deserialize<'de>>(value: &'de Value) -> Result<T, Fault> {
    T::deserialize(reader::Reader::Value(value))
}

/// Writes a type as a value; a figure that is no number becomes `null`.
///
/// # Errors
/// A key that is no text.
pub fn to_value<T: Serialize>(what: &T) -> Result<Value, Fault> {
    let mut value = Value::Null;
    what.serialize(writer::Writer(&mut value))?;
    Ok(value)
}

#[cfg(test)]
mod tests;
