//! Files from the test.

use std::cell::RefCell;

use crate::platform::{Files, OpenedFile, OwnFuture};

/// Scripted files.
#[derive(Default)]
pub struct MemoryFiles {
    next: RefCell<Option<OpenedFile>>,
}

impl MemoryFiles {
    /// The fitter will choose this file next.
    pub fn will_open(&self, file: OpenedFile) {
        self.next.replace(Some(file));
    }
}

impl Files for MemoryFiles {
    fn open_text(&self, most: usize) -> OwnFuture<OpenedFile> {
        let file = match self.next.take() {
            Some(OpenedFile::Text { text, .. }) if text.len() > most => {
                OpenedFile::TooLarge { bytes: text.len() }
            }
            Some(file) => file,
            None => OpenedFile::Nothing,
        };
        Box::pin(async move { file })
    }
}
