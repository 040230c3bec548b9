//! A file from the phone.

use std::future::Future;
use std::pin::Pin;
use std::rc::Rc;

use super::LocalFuture;

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

/// A chosen file that is read piece by piece.
pub trait InFile {
    /// Its name.
    fn name(&self) -> String;

    /// Its size in bytes.
    fn size(&self) -> u64;

    /// At most so many bytes from a place on; none at its end. What went
    /// wrong is in the system's own words.
    fn read(&self, from: u64, most: usize) -> LocalFuture<'_, Result<Vec<u8>, String>>;
}

/// Files that the fitter chooses.
pub trait Files {
    /// Asks for a file of any size; `None` where none was chosen. Call it
    /// inside a tap.
    fn open_file(&self) -> OwnFuture<Option<Rc<dyn InFile>>> {
        Box::pin(async { None })
    }

    /// Asks for a file of at most so many bytes. Call it inside a tap.
    fn open_text(&self, most: usize) -> OwnFuture<OpenedFile>;

    /// Sets who is told of a file that another app hands over. Nobody, where
    /// apps hand over no files.
    fn on_handed_over(&self, told: Told<OpenedFile>) {
        drop(told);
    }
}
