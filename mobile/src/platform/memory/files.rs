//! Files from the test.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use crate::platform::{Files, InFile, LocalFuture, OpenedFile, OwnFuture};

/// Scripted files.
#[derive(Default)]
pub struct MemoryFiles {
    next: RefCell<Option<OpenedFile>>,
    chosen: RefCell<Option<Rc<MemoryInFile>>>,
}

/// A chosen file.
pub struct MemoryInFile {
    name: String,
    bytes: Vec<u8>,
    /// Reading beyond this place fails.
    torn_at: Cell<Option<u64>>,
}

impl MemoryInFile {
    /// From this place on it cannot be read, as on a card that was pulled.
    pub fn tear_at(&self, at: u64) {
        self.torn_at.set(Some(at));
    }
}

impl InFile for MemoryInFile {
    fn name(&self) -> String {
        self.name.clone()
    }

    fn size(&self) -> u64 {
        self.bytes.len() as u64
    }

    fn read(&self, from: u64, most: usize) -> LocalFuture<'_, Result<Vec<u8>, String>> {
        Box::pin(async move {
            if self.torn_at.get().is_some_and(|at| from >= at) {
                return Err("torn".to_owned());
            }
            let from = usize::try_from(from).unwrap_or(usize::MAX);
            let rest = self.bytes.get(from..).unwrap_or_default();
            Ok(rest[..rest.len().min(most)].to_vec())
        })
    }
}

impl MemoryFiles {
    /// The fitter will choose this backup next.
    pub fn will_choose(&self, name: &str, bytes: Vec<u8>) -> Rc<MemoryInFile> {
        let file = Rc::new(MemoryInFile {
            name: name.to_owned(),
            bytes,
            torn_at: Cell::new(None),
        });
        self.chosen.replace(Some(file.clone()));
        file
    }

    /// The fitter will choose this file next.
    pub fn will_open(&self, file: OpenedFile) {
        self.next.replace(Some(file));
    }
}

impl Files for MemoryFiles {
    fn open_file(&self) -> OwnFuture<Option<Rc<dyn InFile>>> {
        let file = self.chosen.borrow().clone();
        Box::pin(async move { file.map(|file| file as Rc<dyn InFile>) })
    }

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
