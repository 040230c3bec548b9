//! Records in the browser's IndexedDB.

use std::cell::RefCell;
use std::future::Future;
use std::rc::Rc;

use wasm_bindgen::JsValue;
use web_sys::{IdbDatabase, Window};

use super::call::{method, property, settled};
use super::listen::Listener;
use super::{alone, blobs, database};
use crate::platform::turns::Turns;
use crate::platform::{
    Alone, LocalFuture, PersistAnswer, Room, Storage, StorageFault, Told, Write,
};

struct Connection {
    database: IdbDatabase,
    _listeners: [Listener; 2],
}

/// The browser's records. The connection is opened on first use, and again
/// when the browser or a newer version of the app closed it.
pub(super) struct WebStorage {
    window: Window,
    turns: Turns,
    connection: Rc<RefCell<Option<Connection>>>,
}

/// Tries with a fresh connection before a fault is told.
const TRIES: usize = 2;

impl WebStorage {
    pub(super) fn new(window: &Window) -> Self {
        Self {
            window: window.clone(),
            turns: Turns::default(),
            connection: Rc::default(),
        }
    }

    async fn database(&self) -> Result<IdbDatabase, StorageFault> {
        let open = self
            .connection
            .borrow()
            .as_ref()
            .map(|c| c.database.clone());
        if let Some(database) = open {
            return Ok(database);
        }
        let database = database::open(&self.window).await?;
        let lost = self.connection.clone();
        let closed = Listener::new(&database, "close", move |_| {
            lost.take();
        });
        let (lost, own) = (self.connection.clone(), database.clone());
        let newer = Listener::new(&database, "versionchange", move |_| {
            own.close();
            lost.take();
        });
        self.connection.replace(Some(Connection {
            database: database.clone(),
            _listeners: [closed, newer],
        }));
        Ok(database)
    }

    /// Does `work` on the open connection; on a fault that a closed
    /// connection may have caused, once more on a fresh one. Every request
    /// here may be made twice: it sets, removes or reads, never adds up.
    async fn with<T, F>(&self, work: impl Fn(IdbDatabase) -> F) -> Result<T, StorageFault>
    where
        F: Future<Output = Result<T, StorageFault>>,
    {
        let mut last = StorageFault::Refused;
        for _ in 0..TRIES {
            let done = match self.database().await {
                Ok(database) => work(database).await,
                Err(fault) => Err(fault),
            };
            match done {
                Err(StorageFault::Failed(why)) => last = StorageFault::Failed(why),
                done => return done,
            }
            if let Some(connection) = self.connection.take() {
                connection.database.close();
            }
        }
        Err(last)
    }
}

impl Storage for WebStorage {
    fn get(&self, key: &str) -> LocalFuture<'_, Result<Option<String>, StorageFault>> {
        let key = key.to_owned();
        let mut turn = self.turns.take();
        Box::pin(async move {
            turn.come().await;
            let key = &key;
            self.with(|database| async move { database::get(&database, key).await })
                .await
        })
    }

    fn list(&self, prefix: &str) -> LocalFuture<'_, Result<Vec<(String, String)>, StorageFault>> {
        let prefix = prefix.to_owned();
        let mut turn = self.turns.take();
        Box::pin(async move {
            turn.come().await;
            let prefix = &prefix;
            self.with(|database| async move { database::list(&database, prefix).await })
                .await
        })
    }

    fn keys(&self, prefix: &str) -> LocalFuture<'_, Result<Vec<String>, StorageFault>> {
        let prefix = prefix.to_owned();
        let mut turn = self.turns.take();
        Box::pin(async move {
            turn.come().await;
            let prefix = &prefix;
            self.with(|database| async move { database::keys(&database, prefix).await })
                .await
        })
    }

    fn commit(&self, writes: Vec<Write>) -> LocalFuture<'_, Result<(), StorageFault>> {
        let mut turn = self.turns.take();
        Box::pin(async move {
            turn.come().await;
            let writes = &writes;
            self.with(|database| async move { database::commit(&database, writes).await })
                .await
        })
    }

    fn blob_put(&self, key: &str, bytes: Vec<u8>) -> LocalFuture<'_, Result<(), StorageFault>> {
        let key = key.to_owned();
        Box::pin(async move { blobs::put(&self.window, &key, &bytes).await })
    }

    fn blob_get(&self, key: &str) -> LocalFuture<'_, Result<Option<Vec<u8>>, StorageFault>> {
        let key = key.to_owned();
        Box::pin(async move { blobs::get(&self.window, &key).await })
    }

    fn blob_list(&self) -> LocalFuture<'_, Result<Vec<String>, StorageFault>> {
        Box::pin(async { blobs::list(&self.window).await })
    }

    fn blob_is_empty(&self, key: &str) -> LocalFuture<'_, Result<bool, StorageFault>> {
        let key = key.to_owned();
        Box::pin(async move { blobs::is_empty(&self.window, &key).await })
    }

    fn blob_delete(&self, key: &str) -> LocalFuture<'_, Result<(), StorageFault>> {
        let key = key.to_owned();
        Box::pin(async move { blobs::delete(&self.window, &key).await })
    }

    fn persist(&self) -> LocalFuture<'_, PersistAnswer> {
        Box::pin(async {
            let Some(manager) = property(&self.window.navigator(), "storage") else {
                return PersistAnswer::CannotAsk;
            };
            let Some(Ok(asked)) = method(&manager, "persist", &[]) else {
                return PersistAnswer::CannotAsk;
            };
            match settled(asked).await {
                Ok(answer) if answer == JsValue::TRUE => PersistAnswer::Kept,
                Ok(_) => PersistAnswer::MayBeCleared,
                Err(_) => PersistAnswer::CannotAsk,
            }
        })
    }

    fn room(&self) -> LocalFuture<'_, Option<Room>> {
        Box::pin(async {
            let manager = property(&self.window.navigator(), "storage")?;
            let asked = method(&manager, "estimate", &[])?.ok()?;
            let told = settled(asked).await.ok()?;
            let bytes = |name| Some(property(&told, name)?.as_f64()? as u64);
            Some(Room {
                used: bytes("usage")?,
                most: bytes("quota")?,
            })
        })
    }

    fn alone(&self, how: Alone, lost: Told<()>) -> LocalFuture<'_, bool> {
        Box::pin(alone::hold(&self.window, how, lost))
    }
}
