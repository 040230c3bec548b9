//! What page and worker say to each other about a backup.

use std::cell::Cell;
use std::fmt;
use std::rc::Rc;
use std::sync::atomic::{AtomicU64, Ordering};

use futures_channel::mpsc::unbounded;
use futures_util::StreamExt;
use rakeline_core::text::{Message, msg};
use serde::{Deserialize, Serialize};

use crate::platform::{Platform, Task, WorkEvent};

/// A passphrase. It is never written to a log.
#[derive(Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Passphrase(pub String);

impl fmt::Debug for Passphrase {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str("Passphrase")
    }
}

/// What the worker is asked, step by step. It keeps one archive that is
/// written and one that is read.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum BackupTask {
    /// Begins an archive: locked, or open to everybody. Answered with bytes
    /// of the archive, as the next two.
    Start(Option<Passphrase>),
    /// Begins tables of jobs for other programs, open to everybody.
    StartTables,
    /// Adds items.
    Add {
        /// The items; they travel beside the JSON.
        #[serde(skip)]
        file: Vec<u8>,
    },
    /// Ends the archive.
    Finish,
    /// Lets go of both.
    GiveUp,
    /// Opens an archive; locked or not is seen in it.
    Open(Passphrase),
    /// Its next bytes; answered with the items that are whole.
    Feed {
        /// The bytes; they travel beside the JSON.
        #[serde(skip)]
        file: Vec<u8>,
        /// Whether the file ends here.
        last: Last,
    },
}

impl BackupTask {
    /// What travels beside the JSON.
    pub fn file(&mut self) -> Option<&mut Vec<u8>> {
        match self {
            Self::Add { file } | Self::Feed { file, .. } => Some(file),
            _ => None,
        }
    }
}

/// Whether more follows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Last {
    /// More follows.
    No,
    /// The file ends.
    Yes,
}

/// Set by the fitter's 'Stop'; looked at between two pieces.
pub type Stop = Rc<Cell<bool>>;

/// What is said where the fitter stopped it.
pub(super) fn stopped() -> Message {
    msg("backup-stopped")
}

/// Steps of the worker that belong together.
#[derive(Clone, Copy)]
pub(super) struct Session(u64);

impl Session {
    /// One that no other is.
    pub(super) fn new() -> Self {
        static LAST: AtomicU64 = AtomicU64::new(0);
        Self(LAST.fetch_add(1, Ordering::Relaxed))
    }

    /// Asks the worker for a step and waits.
    pub(super) async fn ask(
        self,
        platform: &Platform,
        task: BackupTask,
        stop: &Stop,
    ) -> Result<Vec<u8>, Message> {
        if stop.get() {
            return Err(stopped());
        }
        self.step(platform, task).await
    }

    /// Lets go of what the worker holds of it.
    pub(super) async fn give_up(self, platform: &Platform) {
        // A worker that is gone holds nothing.
        let _ = self.step(platform, BackupTask::GiveUp).await;
    }

    async fn step(self, platform: &Platform, task: BackupTask) -> Result<Vec<u8>, Message> {
        let task = Task::Backup {
            session: self.0,
            step: Box::new(task),
        };
        done(platform, task).await
    }
}

/// Waits until the worker has done a task.
pub(super) async fn done(platform: &Platform, task: Task) -> Result<Vec<u8>, Message> {
    let (tell, mut told) = unbounded();
    let handle = platform.work.start(
        task,
        Rc::new(move |event| {
            // Nobody waits after the page's end.
            let _ = match event {
                WorkEvent::Progress(_) => Ok(()),
                WorkEvent::Done(bytes) => tell.unbounded_send(Ok(bytes)),
                WorkEvent::Failed(why) => tell.unbounded_send(Err(why)),
            };
        }),
    );
    let answer = told.next().await;
    drop(handle);
    answer.unwrap_or_else(|| Err(stopped()))
}
