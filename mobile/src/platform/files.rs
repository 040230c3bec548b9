//! A file from the phone.

use std::future::Future;
use std::pin::Pin;

use super::Told;

/// What came of asking for a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum OpenedFile {
    /// Its text.
    Text {
        /// Its name.
        name: String,
        /// What is in it.
        text: String,
    },
    /// Larger than asked for; it was not read.
    TooLarge {
        /// Its size in bytes.
        bytes: usize,
    },
    /// It could not be read as text, in the system's own words.
    NotText(String),
    /// None was chosen.
    Nothing,
}

/// A future that owns what it needs.
pub type OwnFuture<T> = Pin<Box<dyn Future<Output = T>>>;

/// Files that the fitter chooses.
pub trait Files {
    /// Asks for a file of at most so many bytes. Call it inside a tap.
    fn open_text(&self, most: usize) -> OwnFuture<OpenedFile>;

    /// Sets who is told of a file that another app hands over. Nobody, where
    /// apps hand over no files.
    fn on_handed_over(&self, told: Told<OpenedFile>) {
        drop(told);
    }
}
