//! Files from the test, and those that were handed out.

use std::cell::RefCell;

use crate::platform::{Files, OpenedFile, OwnFuture};

/// Scripted files.
#[derive(Default)]
pub struct MemoryFiles {
    next: RefCell<Option<OpenedFile>>,
    saved: RefCell<Vec<(String, String)>>,
}

impl MemoryFiles {
    /// The fitter will choose this file next.
    pub fn will_open(&self, file: OpenedFile) {
        self.next.replace(Some(file));
    }

    /// Names and texts of the files handed out so far; the list starts anew.
    pub fn take(&self) -> Vec<(String, String)> {
        self.saved.take()
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

    fn save_json(&self, name: &str, text: &str) {
        let mut saved = self.saved.borrow_mut();
        saved.push((name.to_owned(), text.to_owned()));
    }
}
