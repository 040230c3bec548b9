//! Where records are kept, by key.

use rakeline_core::text::{Message, msg};

use super::{LocalFuture, Told};

/// One change of a commit.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Write {
    /// Sets a key, new or not.
    Put {
        /// The key.
        key: String,
        /// Its new text.
        value: String,
    },
    /// Removes a key; nothing happens if it is not there.
    Delete {
        /// The key.
        key: String,
    },
}

/// Why storage did not answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum StorageFault {
    /// The browser does not let this page keep anything (private window, blocked site data).
    Refused,
    /// There is no room left.
    Full,
    /// Anything else, in the system's own words.
    Failed(String),
}

impl StorageFault {
    /// What the fitter is told, with what to do.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::Refused => msg("storage-refused"),
            Self::Full => msg("storage-full"),
            Self::Failed(why) => msg("storage-failed").text("why", why.clone()),
        }
    }
}

/// What the system said when asked to keep the records for good.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum PersistAnswer {
    /// The records stay until the fitter removes them.
    Kept,
    /// The system may clear them when room runs short.
    MayBeCleared,
    /// The system cannot be asked.
    CannotAsk,
}

impl PersistAnswer {
    /// What the fitter is told.
    #[must_use]
    pub fn message(self) -> Message {
        match self {
            Self::Kept => msg("storage-kept"),
            Self::MayBeCleared => msg("storage-may-be-cleared"),
            Self::CannotAsk => msg("storage-cannot-ask"),
        }
    }
}

/// How much the system gives to the store.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Room {
    /// What is in use, bytes.
    pub used: u64,
    /// The most that the system gives, used bytes included.
    pub most: u64,
}

/// How a page asks to be the only one that works on the records.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Alone {
    /// Unless another page is.
    IfFree,
    /// In any case; the other page is told that it no longer is.
    TakeOver,
}

/// The store of records. Requests are served in the order in which they
/// were made, also when their futures are polled in another.
pub trait Storage {
    /// The text under a key.
    fn get(&self, key: &str) -> LocalFuture<'_, Result<Option<String>, StorageFault>>;

    /// All keys that start with `prefix`, with their texts, in order of key.
    fn list(&self, prefix: &str) -> LocalFuture<'_, Result<Vec<(String, String)>, StorageFault>>;

    /// All keys that start with `prefix`, in order.
    fn keys(&self, prefix: &str) -> LocalFuture<'_, Result<Vec<String>, StorageFault>> {
        let listed = self.list(prefix);
        Box::pin(async move { Ok(listed.await?.into_iter().map(|(key, _)| key).collect()) })
    }

    /// Makes all changes in one atomic step: afterwards all of them are kept
    /// or none is. `Ok` comes only when they are.
    fn commit(&self, writes: Vec<Write>) -> LocalFuture<'_, Result<(), StorageFault>>;

    /// Keeps bytes under a key of their own, apart from the records. `Ok`
    /// comes only when they are written.
    fn blob_put(&self, key: &str, bytes: Vec<u8>) -> LocalFuture<'_, Result<(), StorageFault>>;

    /// The bytes under a key.
    fn blob_get(&self, key: &str) -> LocalFuture<'_, Result<Option<Vec<u8>>, StorageFault>>;

    /// The keys under which there are bytes.
    fn blob_list(&self) -> LocalFuture<'_, Result<Vec<String>, StorageFault>>;

    /// Whether there is nothing under a key, or no bytes.
    fn blob_is_empty(&self, key: &str) -> LocalFuture<'_, Result<bool, StorageFault>> {
        let bytes = self.blob_get(key);
        Box::pin(async move { Ok(bytes.await?.is_none_or(|bytes| bytes.is_empty())) })
    }

    /// Removes the bytes under a key; nothing happens if there are none.
    fn blob_delete(&self, key: &str) -> LocalFuture<'_, Result<(), StorageFault>>;

    /// Asks the system to keep the records for good.
    fn persist(&self) -> LocalFuture<'_, PersistAnswer>;

    /// How much room the system gives; `None` where it does not tell.
    fn room(&self) -> LocalFuture<'_, Option<Room>> {
        Box::pin(async { None })
    }

    /// Asks to be the only page that works on the records, and whether it
    /// is; `lost` is told when another page took over. Where only one page
    /// can be open, it always is.
    fn alone(&self, how: Alone, lost: Told<()>) -> LocalFuture<'_, bool> {
        let _ = (how, lost);
        Box::pin(async { true })
    }
}
