//! Files that leave the app.

use super::phone::{Handle, PhoneFault, ShareOutcome, SharedFile};
use super::post::{Desk, Said};
use crate::platform::{LocalFuture, OutFile, Share, Shared};

/// The system's share sheet.
pub(super) struct AndroidShare {
    phone: Handle,
    desk: Desk,
}

impl AndroidShare {
    pub(super) fn new(phone: &Handle, desk: &Desk) -> Self {
        Self {
            phone: *phone,
            desk: desk.clone(),
        }
    }
}

impl Share for AndroidShare {
    fn save(&self, file: OutFile) -> LocalFuture<'_, Shared> {
        let shared = SharedFile {
            name: file.name,
            mime: file.mime.to_owned(),
            bytes: file.bytes,
        };
        let phone = self.phone;
        let answer = self.desk.wish(
            |wish| phone.ask(|phone| phone.share(wish, shared)),
            |said| match said {
                Said::Shared(outcome) => Some(outcome),
                _ => None,
            },
        );
        Box::pin(async move {
            match answer.await {
                Ok(Some(ShareOutcome::HandedOver)) => Shared::HandedOver,
                Ok(Some(ShareOutcome::NoTaker)) | Err(PhoneFault::Missing) => Shared::NoTaker,
                Ok(Some(ShareOutcome::Failed { why })) | Err(PhoneFault::Failed { why }) => {
                    Shared::Failed(why)
                }
                Ok(None) | Err(PhoneFault::Refused) => Shared::Dismissed,
            }
        })
    }
}
