//! What the shell does with pictures.

use std::task::{Context, Waker};

use rakeline::driver::{
    Action, Intent, IssueIntent, LevelIntent, Measure, PhotoIntent, Place, sheet_key,
};
use rakeline::platform::{Camera, Storage};

use super::Bench;

impl Bench {
    pub(super) fn picture(&mut self, action: Action) {
        match action {
            Action::StartCamera => {
                let camera = self.phone.camera.clone();
                self.answer_level(async move { LevelIntent::Started(camera.live("").await) });
            }
            Action::StopCamera => self.phone.camera.stop(),
            Action::TakePhoto => {
                let camera = self.phone.camera.clone();
                self.answer_level(async move { LevelIntent::Came(camera.photo().await.map(Some)) });
            }
            Action::ChoosePicture(purpose, from) => {
                let camera = self.phone.camera.clone();
                self.waiting.push_back(Box::pin(
                    async move { purpose.came(camera.choose(from).await) },
                ));
            }
            Action::MakeSmaller(purpose, picture, most) => {
                let camera = self.phone.camera.clone();
                self.waiting.push_back(Box::pin(async move {
                    let copy = camera.smaller(&picture, most).await;
                    purpose.smaller(picture, copy)
                }));
            }
            Action::PutBlob(purpose, key, bytes) => {
                let storage = self.phone.storage.clone();
                self.waiting.push_back(Box::pin(async move {
                    let outcome = storage.blob_put(&key, bytes).await;
                    purpose.stored(key, outcome)
                }));
            }
            Action::Fetch(id) => {
                let storage = self.phone.storage.clone();
                self.waiting.push_back(Box::pin(async move {
                    let found = storage.get(&Place::Jobs.key(&id)).await;
                    Intent::Photo(PhotoIntent::Fetched(id, found))
                }));
            }
            Action::ReadIssue(id, number, sheets) => {
                let storage = self.phone.storage.clone();
                self.waiting.push_back(Box::pin(async move {
                    let found = storage.get(&sheet_key(&id, number)).await;
                    Intent::Issue(IssueIntent::Read(id, number, sheets, found))
                }));
            }
            Action::DropBlob(key) => {
                // Nothing is told of it; the next start looks again.
                let mut dropped = self.phone.storage.blob_delete(&key);
                let _ = dropped
                    .as_mut()
                    .poll(&mut Context::from_waker(Waker::noop()));
            }
            Action::ReadBlob(purpose, key) => {
                let (storage, camera) = (self.phone.storage.clone(), self.phone.camera.clone());
                self.waiting.push_back(Box::pin(async move {
                    let found = storage.blob_get(&key).await;
                    purpose.read(key, found.map(|bytes| camera.show(&bytes?)))
                }));
            }
            Action::HidePictures => self.phone.camera.hide(),
            _ => {}
        }
    }

    fn answer_level(&mut self, answer: impl Future<Output = LevelIntent> + 'static) {
        self.waiting.push_back(Box::pin(async move {
            Intent::Measure(Measure::Level(answer.await))
        }));
    }
}
