//! Messages without words: a key and its arguments.
//!
//! All words stand in `assets/texts/en.ftl` (Fluent); the shell renders a
//! [`Message`] there. Core decides what is to be said and with which
//! figures, never how it is worded.

use std::borrow::Cow;

use serde::{Deserialize, Serialize};

/// One argument of a message.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Arg {
    /// A measured figure, shown with so many decimals.
    Number {
        /// The figure in the unit that the text names.
        value: f64,
        /// Decimals on the screen.
        decimals: u8,
    },
    /// A whole count; Fluent may choose a plural by it.
    Count(i64),
    /// A name or other text that is shown as it is.
    Text(String),
    /// A message inside a message.
    Message(Box<Message>),
    /// Several messages, joined by commas.
    List(Vec<Message>),
}

/// A text for the fitter by its key in `en.ftl`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Message {
    /// The key in `en.ftl`.
    pub key: Cow<'static, str>,
    /// Arguments by the name they have there.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub args: Vec<(Cow<'static, str>, Arg)>,
}

/// Starts a message: `msg("half-width-too-small").mm("typed", 40.0)`.
#[must_use]
pub fn msg(key: &'static str) -> Message {
    Message {
        key: Cow::Borrowed(key),
        args: Vec::new(),
    }
}

impl Message {
    /// A message whose key came from data (a step file).
    #[must_use]
    pub fn from_data(key: String) -> Self {
        Self {
            key: Cow::Owned(key),
            args: Vec::new(),
        }
    }

    /// Adds an argument.
    #[must_use]
    pub fn with(mut self, name: &'static str, arg: Arg) -> Self {
        self.args.push((Cow::Borrowed(name), arg));
        self
    }

    /// Adds a figure with its decimals.
    #[must_use]
    pub fn number(self, name: &'static str, value: f64, decimals: u8) -> Self {
        self.with(name, Arg::Number { value, decimals })
    }

    /// Adds millimetres, shown whole.
    #[must_use]
    pub fn mm(self, name: &'static str, value: f64) -> Self {
        self.number(name, value, 0)
    }

    /// Adds degrees, shown with one decimal.
    #[must_use]
    pub fn deg(self, name: &'static str, value: f64) -> Self {
        self.number(name, value, 1)
    }

    /// Adds a count.
    #[must_use]
    pub fn count(self, name: &'static str, value: i64) -> Self {
        self.with(name, Arg::Count(value))
    }

    /// Adds a text that is shown as it is.
    #[must_use]
    pub fn text(self, name: &'static str, value: impl Into<String>) -> Self {
        self.with(name, Arg::Text(value.into()))
    }

    /// Adds a message inside this one.
    #[must_use]
    pub fn message(self, name: &'static str, inner: Message) -> Self {
        self.with(name, Arg::Message(Box::new(inner)))
    }

    /// Adds several messages, joined by commas.
    #[must_use]
    pub fn list(self, name: &'static str, inner: Vec<Message>) -> Self {
        self.with(name, Arg::List(inner))
    }
}
