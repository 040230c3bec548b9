//! What has to do with the store as a whole: opening it, moves, deletions,
//! checks.

use std::rc::Rc;

use dioxus::core::spawn_forever;
use futures_channel::oneshot::channel;

use rakeline_core::units::Millis;

use super::{FromDevice, Shell, asks_for_sample};
use crate::driver::{
    Action, Intent, StoreIntent, check_all, check_some, drop_loose, erase, move_record, open_store,
    read_put_by,
};
use crate::platform::Alone;

/// How many records a check reads before it says how far it is.
const CHECKED_AT_A_TIME: usize = 25;

/// What is looked over after the start waits so long each time: the screens
/// and the jobs come first.
const QUIET: Millis = Millis(1_000.0);

impl Shell {
    /// Reads the store for this page alone, and shows what the address says.
    pub(super) async fn boot(&self, how: Alone) {
        self.send(Intent::OnDevice(self.platform.page.device()));
        let path = self.platform.page.path();
        let shell = self.clone();
        let lost = Rc::new(move |()| {
            let over = Intent::Store(StoreIntent::TakenOver);
            shell.post(FromDevice::Intent(over));
        });
        let opened = open_store(&*self.platform.storage, how, lost, path).await;
        let ready = matches!(opened, Intent::Booted { .. });
        if ready {
            self.read_kits().await;
        }
        self.send(opened);
        if !ready {
            return;
        }
        if asks_for_sample(&self.platform.page.query()) {
            self.send(Intent::OpenSample(self.new_id()));
        }
        // What was handed out before lies among the downloads by now.
        self.platform.share.empty_out().await;
        let found = self.platform.storage.blob_list().await;
        self.send(Intent::BlobsFound(found.unwrap_or_default()));
    }

    /// Asks the system to keep the records, and tells the screens.
    pub(super) async fn ask_to_keep(&self) {
        let answer = self.platform.storage.persist().await;
        self.send(Intent::Store(StoreIntent::Kept(answer)));
    }

    /// What has to do with the store as a whole.
    pub(super) fn store(&self, action: Action) {
        let shell = self.clone();
        let storage = self.platform.storage.clone();
        match action {
            Action::Move(entry) => {
                spawn_forever(async move {
                    let outcome = move_record(&*storage, &entry).await;
                    shell.send(Intent::Moved(entry.id, outcome));
                });
            }
            Action::Erase(all, shared) => {
                spawn_forever(async move {
                    let outcome = erase(&*storage, &all, &shared).await;
                    shell.send(Intent::Store(StoreIntent::Erased(all, outcome)));
                });
            }
            Action::DropLoose(pictures) => {
                spawn_forever(async move {
                    drop_loose(&*storage, pictures).await;
                    shell.send(Intent::Store(StoreIntent::Swept));
                });
            }
            Action::EmptyOut => {
                let share = self.platform.share.clone();
                spawn_forever(async move { share.empty_out().await });
            }
            Action::ReadPutBy => {
                spawn_forever(async move {
                    let found = read_put_by(&*storage).await;
                    shell.send(Intent::Store(StoreIntent::FoundPutBy(found)));
                });
            }
            Action::LookOver(known) => {
                let (tell, told) = channel();
                let waited = Box::new(move || {
                    // Nobody waits after the page's end.
                    let _ = tell.send(());
                });
                self.platform.page.after(QUIET, waited);
                spawn_forever(async move {
                    if told.await.is_ok() {
                        let found = check_some(&*storage, known, &|_| {}).await;
                        shell.send(Intent::Store(StoreIntent::LookedOver(found)));
                    }
                });
            }
            Action::AskRoom => {
                spawn_forever(async move {
                    let room = storage.room().await;
                    shell.send(Intent::Store(StoreIntent::Room(room)));
                    shell.ask_to_keep().await;
                });
            }
            Action::CheckStore(known) => {
                spawn_forever(async move {
                    let told = |count: usize| {
                        if count.is_multiple_of(CHECKED_AT_A_TIME) {
                            let so_far = StoreIntent::CheckedSoFar(count);
                            shell.post(FromDevice::Intent(Intent::Store(so_far)));
                        }
                    };
                    let found = check_all(&*storage, known, &told).await;
                    shell.send(Intent::Store(StoreIntent::Checked(found)));
                });
            }
            Action::TakeOver => {
                spawn_forever(async move { shell.boot(Alone::TakeOver).await });
            }
            _ => {}
        }
    }
}
