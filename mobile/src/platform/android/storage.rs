//! The store on a thread of its own, requests in their order.

use std::sync::mpsc::{Sender, channel};
use std::thread;

use futures_channel::oneshot;

use super::store::Store;
use crate::platform::{LocalFuture, PersistAnswer, Storage, StorageFault, Write};

type Request = Box<dyn FnOnce(&mut Store) + Send>;

/// The phone's own files.
pub(super) struct AndroidStorage(Sender<Request>);

impl AndroidStorage {
    /// The store in the app's own folder.
    pub(super) fn open(folder: &str) -> Self {
        let (requests, wanted) = channel::<Request>();
        let mut store = Store::new(folder);
        thread::spawn(move || {
            for request in wanted {
                request(&mut store);
            }
        });
        Self(requests)
    }

    /// Puts a request in its place now, whenever its answer is awaited.
    fn ask<T: Send + 'static>(
        &self,
        request: impl FnOnce(&mut Store) -> Result<T, StorageFault> + Send + 'static,
    ) -> LocalFuture<'_, Result<T, StorageFault>> {
        let (answer, answered) = oneshot::channel();
        let sent = self.0.send(Box::new(move |store| {
            // Who asked may be gone.
            let _ = answer.send(request(store));
        }));
        Box::pin(async move {
            let gone = |_| StorageFault::Failed("the store has ended".to_owned());
            sent.map_err(|_| gone(oneshot::Canceled))?;
            answered.await.map_err(gone)?
        })
    }
}

impl Storage for AndroidStorage {
    fn get(&self, key: &str) -> LocalFuture<'_, Result<Option<String>, StorageFault>> {
        let key = key.to_owned();
        self.ask(move |store| store.get(&key))
    }

    fn list(&self, prefix: &str) -> LocalFuture<'_, Result<Vec<(String, String)>, StorageFault>> {
        let prefix = prefix.to_owned();
        self.ask(move |store| store.list(&prefix))
    }

    fn commit(&self, writes: Vec<Write>) -> LocalFuture<'_, Result<(), StorageFault>> {
        self.ask(move |store| store.commit(writes))
    }

    fn blob_put(&self, key: &str, bytes: Vec<u8>) -> LocalFuture<'_, Result<(), StorageFault>> {
        let key = key.to_owned();
        self.ask(move |store| store.blob_put(&key, &bytes))
    }

    fn blob_get(&self, key: &str) -> LocalFuture<'_, Result<Option<Vec<u8>>, StorageFault>> {
        let key = key.to_owned();
        self.ask(move |store| store.blob_get(&key))
    }

    fn blob_list(&self) -> LocalFuture<'_, Result<Vec<String>, StorageFault>> {
        self.ask(Store::blob_list)
    }

    fn blob_delete(&self, key: &str) -> LocalFuture<'_, Result<(), StorageFault>> {
        let key = key.to_owned();
        self.ask(move |store| store.blob_delete(&key))
    }

    /// Files of the app stay until the fitter removes them with the app.
    fn persist(&self) -> LocalFuture<'_, PersistAnswer> {
        Box::pin(async { PersistAnswer::Kept })
    }
}
