//! Files that leave the app.

use rakeline_core::text::{Message, msg};

use super::{LocalFuture, OwnFuture, StorageFault};

/// A file that leaves the app.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OutFile {
    /// Its name with its ending.
    pub name: String,
    /// Its media type.
    pub mime: &'static str,
    /// What is in it.
    pub bytes: Vec<u8>,
}

/// What became of a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Shared {
    /// Another app took it.
    HandedOver,
    /// It lies among the downloads.
    Saved,
    /// The fitter chose no app.
    Dismissed,
    /// No app takes such a file.
    NoTaker,
    /// The system refused, in its own words.
    Failed(String),
}

impl Shared {
    /// What the fitter is told of a file of that name, if anything.
    #[must_use]
    pub fn message(&self, name: &str) -> Option<Message> {
        match self {
            Self::HandedOver | Self::Dismissed => None,
            Self::NoTaker => Some(msg("share-no-taker").text("name", name)),
            Self::Saved => Some(msg("share-saved").text("name", name)),
            Self::Failed(why) => Some(msg("share-failed").text("name", name).text("why", why)),
        }
    }
}

/// A file that leaves the app piece by piece; dropped before its end it
/// leaves nothing.
pub trait OutStream {
    /// Adds the next bytes. `Ok` comes only when they are written.
    fn write(&mut self, bytes: Vec<u8>) -> LocalFuture<'_, Result<(), StorageFault>>;

    /// Ends the file and hands it out.
    fn finish(self: Box<Self>) -> OwnFuture<Shared>;
}

/// The way out for files.
pub trait Share {
    /// Begins a file that is written piece by piece; `None` where the system
    /// takes whole files only.
    fn begin(&self, name: &str, mime: &'static str) -> OwnFuture<Option<Box<dyn OutStream>>> {
        let _ = (name, mime);
        Box::pin(async { None })
    }

    /// Removes copies of files that were handed out piece by piece, where the
    /// system leaves any.
    fn empty_out(&self) -> OwnFuture<()> {
        Box::pin(async {})
    }

    /// Hands a file to another app where the system can, else saves it among
    /// the downloads.
    fn save(&self, file: OutFile) -> LocalFuture<'_, Shared>;
}
