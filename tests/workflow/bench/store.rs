//! What the bench does with the store as a whole and with backups, as the
//! app's shell does.

use rakeline::backup::{Stop, look_into, make, take_in};
use std::task::{Context, Waker};

use rakeline::driver::{
    Action, BackupIntent, Chosen, Intent, StoreIntent, check_all, check_some, drop_loose, erase,
    move_record, read_put_by, read_store,
};
use rakeline::platform::{Alone, Storage};

use crate::bench::Bench;

impl Bench {
    pub(super) fn store(&mut self, action: Action) {
        match action {
            Action::Move(entry) => {
                let storage = self.phone.storage.clone();
                self.waiting.push_back(Box::pin(async move {
                    let outcome = move_record(&*storage, &entry).await;
                    Intent::Moved(entry.id, outcome)
                }));
            }
            Action::Erase(all, shared) => {
                let storage = self.phone.storage.clone();
                self.waiting.push_back(Box::pin(async move {
                    let outcome = erase(&*storage, &all, &shared).await;
                    Intent::Store(StoreIntent::Erased(all, outcome))
                }));
            }
            Action::AskRoom => {
                let storage = self.phone.storage.clone();
                self.waiting.push_back(Box::pin(async move {
                    Intent::Store(StoreIntent::Room(storage.room().await))
                }));
                let storage = self.phone.storage.clone();
                self.waiting.push_back(Box::pin(async move {
                    Intent::Store(StoreIntent::Kept(storage.persist().await))
                }));
            }
            Action::CheckStore(known) => {
                let storage = self.phone.storage.clone();
                self.waiting.push_back(Box::pin(async move {
                    let found = check_all(&*storage, known, &|_| {}).await;
                    Intent::Store(StoreIntent::Checked(found))
                }));
            }
            Action::LookOver(known) => {
                let storage = self.phone.storage.clone();
                self.waiting.push_back(Box::pin(async move {
                    let found = check_some(&*storage, known, &|_| {}).await;
                    Intent::Store(StoreIntent::LookedOver(found))
                }));
            }
            Action::DropLoose(pictures) => {
                let storage = self.phone.storage.clone();
                self.waiting.push_back(Box::pin(async move {
                    drop_loose(&*storage, pictures).await;
                    Intent::Store(StoreIntent::Swept)
                }));
            }
            Action::ReadPutBy => {
                let storage = self.phone.storage.clone();
                self.waiting.push_back(Box::pin(async move {
                    Intent::Store(StoreIntent::FoundPutBy(read_put_by(&*storage).await))
                }));
            }
            Action::EmptyOut => {
                let emptied = self.phone.platform().share.clone();
                // Nothing is told of it.
                let _ = emptied
                    .empty_out()
                    .as_mut()
                    .poll(&mut Context::from_waker(Waker::noop()));
            }
            Action::TakeOver => self.boot(Alone::TakeOver),
            Action::StopBackup => self.backup_stop.set(true),
            other => self.backup(other),
        }
    }

    fn backup(&mut self, action: Action) {
        let (platform, now) = (self.phone.platform(), self.now().at);
        let file = self.backup_file.clone();
        self.backup_stop = Stop::default();
        let stop = self.backup_stop.clone();
        let settings = self.app.settings.clone();
        self.waiting.push_back(Box::pin(async move {
            let chosen = file.borrow().clone();
            Intent::Backup(match (action, chosen) {
                (Action::Backup(of), _) => {
                    let made = make(&platform, &of, &settings, now, &|_| {}, &stop).await;
                    BackupIntent::Made(made)
                }
                (Action::LookInto(key), Some(chosen)) => {
                    let plan = look_into(&platform, &*chosen, &key, &|_| {}, &stop).await;
                    BackupIntent::Looked(plan.map(Box::new))
                }
                (Action::TakeIn(key, plan, newer), Some(chosen)) => {
                    let wish = (plan.as_ref(), newer);
                    let done = take_in(&platform, &*chosen, &key, wish, now, &|_| {}, &stop).await;
                    let stored = read_store(&*platform.storage).await.map(Box::new);
                    BackupIntent::TakenIn(done, stored)
                }
                _ => {
                    let opened = platform.files.open_file().await;
                    let chosen = opened.as_ref().map(|file| Chosen {
                        name: file.name(),
                        size: file.size(),
                    });
                    file.replace(opened);
                    BackupIntent::Chosen(chosen)
                }
            })
        }));
    }
}
