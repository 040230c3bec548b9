//! Files that the fitter chooses, and those that another app hands over.

use std::rc::Rc;

use rakeline_core::text::msg;

use super::phone::{Handle, PhoneFault, TextOutcome};
use super::post::{Desk, HANDED_OVER, Said};
use crate::platform::{Files, InFile, LocalFuture, OpenedFile, OwnFuture, Told};
use crate::texts::say;

/// The system's chooser.
pub(super) struct AndroidFiles {
    phone: Handle,
    desk: Desk,
}

impl AndroidFiles {
    pub(super) fn new(phone: &Handle, desk: &Desk) -> Self {
        Self {
            phone: *phone,
            desk: desk.clone(),
        }
    }
}

fn opened(outcome: TextOutcome) -> OpenedFile {
    match outcome {
        TextOutcome::Read { name, bytes } => match String::from_utf8(bytes) {
            Ok(text) => OpenedFile::Text { name, text },
            Err(fault) => OpenedFile::NotText(fault.to_string()),
        },
        TextOutcome::TooLarge { bytes } => OpenedFile::TooLarge {
            bytes: usize::try_from(bytes).unwrap_or(usize::MAX),
        },
        TextOutcome::Nothing => OpenedFile::Nothing,
        TextOutcome::Failed { why } => OpenedFile::NotText(why),
    }
}

fn text(said: Said) -> Option<TextOutcome> {
    match said {
        Said::Text(outcome) => Some(outcome),
        _ => None,
    }
}

/// Largest backup that is taken in, bytes: the host hands it over whole, so
/// it has to fit in the app's memory several times.
const LARGEST_BACKUP: u64 = 32_000_000;

/// A chosen file that was handed over whole, or why it was not.
struct WholeFile {
    name: String,
    size: u64,
    bytes: Result<Vec<u8>, String>,
}

impl InFile for WholeFile {
    fn name(&self) -> String {
        self.name.clone()
    }

    fn size(&self) -> u64 {
        self.size
    }

    fn read(&self, from: u64, most: usize) -> LocalFuture<'_, Result<Vec<u8>, String>> {
        Box::pin(async move {
            let bytes = self.bytes.as_ref().map_err(String::clone)?;
            let from = usize::try_from(from).unwrap_or(usize::MAX);
            let rest = bytes.get(from..).unwrap_or_default();
            Ok(rest[..rest.len().min(most)].to_vec())
        })
    }
}

fn whole(outcome: TextOutcome) -> Option<Rc<dyn InFile>> {
    let (name, bytes) = match outcome {
        TextOutcome::Read { name, bytes } => (name, Ok(bytes)),
        TextOutcome::TooLarge { bytes } => {
            let mb = |bytes: u64| i64::try_from(bytes / 1_000_000).unwrap_or(i64::MAX);
            let why = msg("backup-too-large-here")
                .count("mb", mb(bytes))
                .count("most", mb(LARGEST_BACKUP));
            (String::new(), Err(say(&why)))
        }
        TextOutcome::Failed { why } => (String::new(), Err(why)),
        TextOutcome::Nothing => return None,
    };
    let size = bytes.as_ref().map_or(0, |bytes| bytes.len() as u64);
    Some(Rc::new(WholeFile { name, size, bytes }))
}

impl AndroidFiles {
    /// Asks for a file, which comes whole.
    fn ask(&self, most: u64) -> OwnFuture<Result<Option<TextOutcome>, PhoneFault>> {
        let phone = self.phone;
        self.desk
            .wish(|wish| phone.ask(|phone| phone.open_text(wish, most)), text)
    }
}

impl Files for AndroidFiles {
    fn open_file(&self) -> OwnFuture<Option<Rc<dyn InFile>>> {
        let answer = self.ask(LARGEST_BACKUP);
        Box::pin(async move {
            match answer.await {
                Ok(Some(outcome)) => whole(outcome),
                Ok(None) | Err(PhoneFault::Refused) => None,
                Err(fault) => whole(TextOutcome::Failed {
                    why: fault.to_string(),
                }),
            }
        })
    }

    fn open_text(&self, most: usize) -> OwnFuture<OpenedFile> {
        let most = u64::try_from(most).unwrap_or(u64::MAX);
        let answer = self.ask(most);
        Box::pin(async move {
            match answer.await {
                Ok(Some(outcome)) => opened(outcome),
                Ok(None) | Err(PhoneFault::Refused) => OpenedFile::Nothing,
                Err(fault) => OpenedFile::NotText(fault.to_string()),
            }
        })
    }

    fn on_handed_over(&self, told: Told<OpenedFile>) {
        self.desk.hear(HANDED_OVER, move |said| {
            if let Some(outcome) = text(said) {
                told(opened(outcome));
            }
        });
    }
}

#[cfg(test)]
mod tests {
    use std::task::{Context, Poll, Waker};

    use super::*;

    fn now<T>(mut future: LocalFuture<'_, T>) -> T {
        let mut context = Context::from_waker(Waker::noop());
        match future.as_mut().poll(&mut context) {
            Poll::Ready(value) => value,
            Poll::Pending => panic!("a file that is here whole answers at once"),
        }
    }

    #[test]
    fn a_backup_that_was_handed_over_is_read_piece_by_piece() {
        let read = TextOutcome::Read {
            name: "a.zip.age".to_owned(),
            bytes: vec![1, 2, 3, 4, 5],
        };
        let file = whole(read).unwrap();
        assert_eq!((file.name(), file.size()), ("a.zip.age".to_owned(), 5));
        assert_eq!(now(file.read(0, 3)), Ok(vec![1, 2, 3]));
        assert_eq!(now(file.read(3, 3)), Ok(vec![4, 5]));
        assert_eq!(now(file.read(5, 3)), Ok(Vec::new()));
        assert_eq!(now(file.read(9, 3)), Ok(Vec::new()));
    }

    #[test]
    fn one_that_is_too_large_says_so_by_how_much_and_no_choice_is_none() {
        let file = whole(TextOutcome::TooLarge { bytes: 90_000_000 }).unwrap();
        let why = now(file.read(0, 3)).unwrap_err();
        assert!(why.contains("90 MB") && why.contains("32 MB"), "{why}");
        assert!(whole(TextOutcome::Nothing).is_none());
        let failed = whole(TextOutcome::Failed {
            why: "no stream".to_owned(),
        });
        assert_eq!(now(failed.unwrap().read(0, 3)), Err("no stream".to_owned()));
    }
}
