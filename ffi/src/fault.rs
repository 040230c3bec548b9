//! What a caller can do about an error, with the fitter's words.

use std::fmt;

use rakeline_core::text::Message;
use rakeline_words::say;

/// Why there is no result.
#[derive(Clone, Debug, PartialEq, Eq, uniffi::Error)]
pub enum Fault {
    /// What was handed over is not what it should be (a record, a kit sheet,
    /// a photo): hand over another.
    Unreadable {
        /// What is wrong and what to do.
        words: String,
    },
    /// A figure is missing or beyond its limits: put it right.
    Invalid {
        /// What is wrong, by how much, what to do.
        words: String,
    },
    /// All figures are right and there is no result for them: change the job.
    Impossible {
        /// What stands in the way and what would help.
        words: String,
    },
}

impl Fault {
    pub(crate) fn unreadable(message: &Message) -> Self {
        Self::Unreadable {
            words: say(message),
        }
    }

    pub(crate) fn invalid(message: &Message) -> Self {
        Self::Invalid {
            words: say(message),
        }
    }

    pub(crate) fn impossible(message: &Message) -> Self {
        Self::Impossible {
            words: say(message),
        }
    }

    /// The words.
    #[must_use]
    pub fn words(&self) -> &str {
        match self {
            Self::Unreadable { words } | Self::Invalid { words } | Self::Impossible { words } => {
                words
            }
        }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.words())
    }
}

impl std::error::Error for Fault {}

/// Several messages as lines.
pub(crate) fn lines<'a>(messages: impl IntoIterator<Item = &'a Message>) -> String {
    let said: Vec<String> = messages.into_iter().map(say).collect();
    said.join("\n")
}

/// Several messages as a list.
pub(crate) fn listed(messages: &[Message]) -> Vec<String> {
    messages.iter().map(say).collect()
}
