//! Pictures: the live one, those taken or chosen, and where they are kept;
//! jobs that are read beside the open one.

use dioxus::core::spawn_forever;

use super::{LIVE_PICTURE, Shell};
use crate::driver::{
    Action, Intent, IssueIntent, LevelIntent, Measure, PhotoIntent, Place, sheet_key,
};

impl Shell {
    pub(super) fn picture(&self, action: Action) {
        let shell = self.clone();
        let platform = self.platform.clone();
        let said = |said| Intent::Measure(Measure::Level(said));
        match action {
            Action::StartCamera => {
                let angle = platform.camera.screen_angle();
                spawn_forever(async move {
                    let outcome = platform.camera.live(LIVE_PICTURE).await;
                    shell.send(said(LevelIntent::ScreenTurned(angle)));
                    shell.send(said(LevelIntent::Started(outcome)));
                });
            }
            Action::StopCamera => platform.camera.stop(),
            Action::TakePhoto => {
                spawn_forever(async move {
                    let picture = platform.camera.photo().await;
                    shell.send(said(LevelIntent::Came(picture.map(Some))));
                });
            }
            Action::ChoosePicture(purpose, from) => {
                let camera = platform.camera.clone();
                spawn_forever(async move {
                    let picture = camera.choose(from).await;
                    shell.send(purpose.came(picture));
                });
            }
            Action::MakeSmaller(purpose, picture, most) => {
                spawn_forever(async move {
                    let copy = platform.camera.smaller(&picture, most).await;
                    shell.send(purpose.smaller(picture, copy));
                });
            }
            Action::PutBlob(purpose, key, bytes) => {
                spawn_forever(async move {
                    let outcome = platform.storage.blob_put(&key, bytes).await;
                    shell.send(purpose.stored(key, outcome));
                });
            }
            Action::Fetch(id) => {
                spawn_forever(async move {
                    let found = platform.storage.get(&Place::Jobs.key(&id)).await;
                    shell.send(Intent::Photo(PhotoIntent::Fetched(id, found)));
                });
            }
            Action::ReadIssue(id, number, sheets) => {
                spawn_forever(async move {
                    let found = platform.storage.get(&sheet_key(&id, number)).await;
                    let read = IssueIntent::Read(id, number, sheets, found);
                    shell.send(Intent::Issue(read));
                });
            }
            Action::DropBlob(key) => {
                // One that stays is found again at the next start.
                spawn_forever(async move {
                    let _ = platform.storage.blob_delete(&key).await;
                });
            }
            Action::ReadBlob(purpose, key) => {
                spawn_forever(async move {
                    let found = platform.storage.blob_get(&key).await;
                    let url = found.map(|bytes| platform.camera.show(&bytes?));
                    shell.send(purpose.read(key, url));
                });
            }
            Action::HidePictures => platform.camera.hide(),
            _ => {}
        }
    }
}
