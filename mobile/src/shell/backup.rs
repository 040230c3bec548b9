//! Backups: the store goes out and comes in piece by piece.

use dioxus::core::spawn_forever;
use dioxus::prelude::ReadableExt;

use super::{FromDevice, Shell};
use crate::backup::{Stop, look_into, make, take_in};
use crate::driver::{Action, BackupIntent, Chosen, Intent, read_store};

impl Shell {
    fn backup_said(&self, said: BackupIntent) {
        self.post(FromDevice::Intent(Intent::Backup(said)));
    }

    /// What has to do with backups.
    pub(super) fn backup(&self, action: Action) {
        let shell = self.clone();
        let platform = self.platform.clone();
        if action == Action::StopBackup {
            self.backup_stop.borrow().set(true);
            return;
        }
        // Each has a 'stop' of its own.
        let stop = Stop::default();
        self.backup_stop.replace(stop.clone());
        match action {
            Action::Backup(of) => {
                let settings = self.state.peek().settings.clone();
                let now = self.now().at;
                spawn_forever(async move {
                    let told = |so_far| shell.backup_said(BackupIntent::SoFar(so_far));
                    let made = make(&platform, &of, &settings, now, &told, &stop).await;
                    shell.send(Intent::Backup(BackupIntent::Made(made)));
                });
            }
            Action::ChooseBackup => {
                let opened = platform.files.open_file();
                spawn_forever(async move {
                    let file = opened.await;
                    let chosen = file.as_ref().map(|file| Chosen {
                        name: file.name(),
                        size: file.size(),
                    });
                    if file.is_some() {
                        shell.backup_file.replace(file);
                    }
                    shell.send(Intent::Backup(BackupIntent::Chosen(chosen)));
                });
            }
            Action::LookInto(key) => {
                let Some(file) = self.backup_file.borrow().clone() else {
                    return;
                };
                spawn_forever(async move {
                    let told = |read| shell.backup_said(BackupIntent::ReadSoFar(read));
                    let plan = look_into(&platform, &*file, &key, &told, &stop).await;
                    shell.send(Intent::Backup(BackupIntent::Looked(plan.map(Box::new))));
                });
            }
            Action::TakeIn(key, plan, newer) => {
                let Some(file) = self.backup_file.borrow().clone() else {
                    return;
                };
                let now = self.now().at;
                spawn_forever(async move {
                    let told = |read| shell.backup_said(BackupIntent::ReadSoFar(read));
                    let wish = (plan.as_ref(), newer);
                    let done = take_in(&platform, &*file, &key, wish, now, &told, &stop).await;
                    shell.read_kits().await;
                    let stored = read_store(&*platform.storage).await.map(Box::new);
                    shell.send(Intent::Backup(BackupIntent::TakenIn(done, stored)));
                });
            }
            _ => {}
        }
    }
}
