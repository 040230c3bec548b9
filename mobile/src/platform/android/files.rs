//! Files that the fitter chooses, and those that another app hands over.

use super::phone::{Handle, PhoneFault, TextOutcome};
use super::post::{Desk, HANDED_OVER, Said};
use crate::platform::{Files, OpenedFile, OwnFuture, Told};

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

impl Files for AndroidFiles {
    fn open_text(&self, most: usize) -> OwnFuture<OpenedFile> {
        let most = u64::try_from(most).unwrap_or(u64::MAX);
        let phone = self.phone;
        let answer = self
            .desk
            .wish(|wish| phone.ask(|phone| phone.open_text(wish, most)), text);
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
