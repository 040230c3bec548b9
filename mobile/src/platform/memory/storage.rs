//! Records in memory, with every fault that a browser's storage can show.

use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::future::poll_fn;
use std::task::{Poll, Waker};

use crate::platform::turns::Turns;
use crate::platform::{
    Alone, LocalFuture, PersistAnswer, Room, Storage, StorageFault, Told, Write,
};

/// Scripted storage.
#[derive(Default)]
pub struct MemoryStorage {
    records: RefCell<BTreeMap<String, String>>,
    blobs: RefCell<BTreeMap<String, Vec<u8>>>,
    turns: Turns,
    standing: RefCell<Option<StorageFault>>,
    planned: RefCell<Vec<(usize, StorageFault)>>,
    held: Cell<bool>,
    waiting: RefCell<Vec<Waker>>,
    asked: Cell<usize>,
    kept: Cell<Option<PersistAnswer>>,
    room: Cell<Option<Room>>,
    elsewhere: Cell<bool>,
    lost: RefCell<Option<Told<()>>>,
    /// Pictures asked to be written, failed ones included.
    pictures: Cell<usize>,
    planned_pictures: RefCell<Vec<(usize, StorageFault)>>,
}

impl MemoryStorage {
    /// Storage that already holds records.
    #[must_use]
    pub fn holding(records: BTreeMap<String, String>) -> Self {
        Self {
            records: RefCell::new(records),
            ..Self::default()
        }
    }

    /// What is stored now.
    #[must_use]
    pub fn records(&self) -> BTreeMap<String, String> {
        self.records.borrow().clone()
    }

    /// Keys of the blobs that are stored now.
    #[must_use]
    pub fn blobs(&self) -> Vec<String> {
        self.blobs.borrow().keys().cloned().collect()
    }

    /// A picture that is stored now.
    #[must_use]
    pub fn picture(&self, key: &str) -> Option<Vec<u8>> {
        self.blobs.borrow().get(key).cloned()
    }

    /// The same store with these blobs beside its records.
    #[must_use]
    pub fn with_blobs_of(self, other: &Self) -> Self {
        self.blobs.replace(other.blobs.borrow().clone());
        self
    }

    /// Puts a record past the app, such as one that does not parse.
    pub fn plant(&self, key: &str, value: &str) {
        self.records
            .borrow_mut()
            .insert(key.to_owned(), value.to_owned());
    }

    /// How many commits were asked for, failed ones included.
    #[must_use]
    pub fn commits(&self) -> usize {
        self.asked.get()
    }

    /// The `n`th commit from now on (the next is 1) fails and changes nothing.
    pub fn fail_commit(&self, n: usize, fault: StorageFault) {
        let which = self.asked.get() + n;
        self.planned.borrow_mut().push((which, fault));
    }

    /// How many pictures were asked to be written, failed ones included.
    #[must_use]
    pub fn pictures(&self) -> usize {
        self.pictures.get()
    }

    /// The `n`th picture from now on (the next is 1) is not written.
    pub fn fail_picture(&self, n: usize, fault: StorageFault) {
        let which = self.pictures.get() + n;
        self.planned_pictures.borrow_mut().push((which, fault));
    }

    /// Puts a picture past the app.
    pub fn plant_picture(&self, key: &str, bytes: &[u8]) {
        let mut blobs = self.blobs.borrow_mut();
        blobs.insert(key.to_owned(), bytes.to_vec());
    }

    /// Loses a record, as a broken disk does.
    pub fn lose(&self, key: &str) {
        self.records.borrow_mut().remove(key);
    }

    /// What `room` answers; nothing unless set.
    pub fn answer_room(&self, room: Room) {
        self.room.set(Some(room));
    }

    /// Another page works on the records.
    pub fn open_elsewhere(&self) {
        self.elsewhere.set(true);
        if let Some(lost) = self.lost.take() {
            lost(());
        }
    }

    /// Every request from now on fails, as in a private window.
    pub fn refuse(&self) {
        self.standing.replace(Some(StorageFault::Refused));
    }

    /// Every commit from now on fails for want of room; reading goes on.
    pub fn fill(&self) {
        self.standing.replace(Some(StorageFault::Full));
    }

    /// Every request from now on fails with `why`.
    pub fn fail(&self, why: &str) {
        self.standing
            .replace(Some(StorageFault::Failed(why.to_owned())));
    }

    /// Requests are served again.
    pub fn heal(&self) {
        self.standing.replace(None);
        self.planned.borrow_mut().clear();
    }

    /// Commits wait from now on, as on a slow phone.
    pub fn hold(&self) {
        self.held.set(true);
    }

    /// Waiting commits go through, in order.
    pub fn release(&self) {
        self.held.set(false);
        for waker in self.waiting.take() {
            waker.wake();
        }
    }

    /// What `persist` answers; [`PersistAnswer::Kept`] unless set.
    pub fn answer_persist(&self, answer: PersistAnswer) {
        self.kept.set(Some(answer));
    }

    fn reading(&self) -> Result<(), StorageFault> {
        match &*self.standing.borrow() {
            None | Some(StorageFault::Full) => Ok(()),
            Some(fault) => Err(fault.clone()),
        }
    }

    fn writing(&self, number: usize) -> Result<(), StorageFault> {
        let mut planned = self.planned.borrow_mut();
        if let Some(i) = planned.iter().position(|(n, _)| *n == number) {
            return Err(planned.remove(i).1);
        }
        match &*self.standing.borrow() {
            None => Ok(()),
            Some(fault) => Err(fault.clone()),
        }
    }

    async fn until_released(&self) {
        poll_fn(|cx| {
            if self.held.get() {
                self.waiting.borrow_mut().push(cx.waker().clone());
                Poll::Pending
            } else {
                Poll::Ready(())
            }
        })
        .await;
    }
}

impl Storage for MemoryStorage {
    fn get(&self, key: &str) -> LocalFuture<'_, Result<Option<String>, StorageFault>> {
        let key = key.to_owned();
        let mut turn = self.turns.take();
        Box::pin(async move {
            turn.come().await;
            self.reading()?;
            Ok(self.records.borrow().get(&key).cloned())
        })
    }

    fn list(&self, prefix: &str) -> LocalFuture<'_, Result<Vec<(String, String)>, StorageFault>> {
        let prefix = prefix.to_owned();
        let mut turn = self.turns.take();
        Box::pin(async move {
            turn.come().await;
            self.reading()?;
            let records = self.records.borrow();
            Ok(records
                .range(prefix.clone()..)
                .take_while(|(key, _)| key.starts_with(&prefix))
                .map(|(key, value)| (key.clone(), value.clone()))
                .collect())
        })
    }

    fn commit(&self, writes: Vec<Write>) -> LocalFuture<'_, Result<(), StorageFault>> {
        self.asked.set(self.asked.get() + 1);
        let number = self.asked.get();
        let mut turn = self.turns.take();
        Box::pin(async move {
            turn.come().await;
            self.until_released().await;
            self.writing(number)?;
            let mut records = self.records.borrow_mut();
            for write in writes {
                match write {
                    Write::Put { key, value } => records.insert(key, value),
                    Write::Delete { key } => records.remove(&key),
                };
            }
            Ok(())
        })
    }

    fn blob_put(&self, key: &str, bytes: Vec<u8>) -> LocalFuture<'_, Result<(), StorageFault>> {
        let key = key.to_owned();
        self.pictures.set(self.pictures.get() + 1);
        let number = self.pictures.get();
        Box::pin(async move {
            let mut planned = self.planned_pictures.borrow_mut();
            if let Some(i) = planned.iter().position(|(n, _)| *n == number) {
                return Err(planned.remove(i).1);
            }
            if let Some(fault) = &*self.standing.borrow() {
                return Err(fault.clone());
            }
            self.blobs.borrow_mut().insert(key, bytes);
            Ok(())
        })
    }

    fn blob_get(&self, key: &str) -> LocalFuture<'_, Result<Option<Vec<u8>>, StorageFault>> {
        let key = key.to_owned();
        Box::pin(async move {
            self.reading()?;
            Ok(self.blobs.borrow().get(&key).cloned())
        })
    }

    fn blob_list(&self) -> LocalFuture<'_, Result<Vec<String>, StorageFault>> {
        Box::pin(async {
            self.reading()?;
            Ok(self.blobs())
        })
    }

    fn blob_delete(&self, key: &str) -> LocalFuture<'_, Result<(), StorageFault>> {
        let key = key.to_owned();
        Box::pin(async move {
            self.reading()?;
            self.blobs.borrow_mut().remove(&key);
            Ok(())
        })
    }

    fn persist(&self) -> LocalFuture<'_, PersistAnswer> {
        Box::pin(async { self.kept.get().unwrap_or(PersistAnswer::Kept) })
    }

    fn room(&self) -> LocalFuture<'_, Option<Room>> {
        Box::pin(async { self.room.get() })
    }

    fn alone(&self, how: Alone, lost: Told<()>) -> LocalFuture<'_, bool> {
        Box::pin(async move {
            if how == Alone::TakeOver {
                self.elsewhere.set(false);
            }
            if !self.elsewhere.get() {
                self.lost.replace(Some(lost));
            }
            !self.elsewhere.get()
        })
    }
}

#[cfg(test)]
mod tests {
    use std::task::Context;

    use super::*;

    fn put(key: &str, value: &str) -> Write {
        Write::Put {
            key: key.to_owned(),
            value: value.to_owned(),
        }
    }

    fn poll<T>(future: &mut LocalFuture<'_, T>) -> Poll<T> {
        future
            .as_mut()
            .poll(&mut Context::from_waker(Waker::noop()))
    }

    fn now<T>(mut future: LocalFuture<'_, T>) -> T {
        match poll(&mut future) {
            Poll::Ready(value) => value,
            Poll::Pending => panic!("storage that is not held answers at once"),
        }
    }

    #[test]
    fn a_list_gives_only_its_prefix_in_order_of_key() {
        let storage = MemoryStorage::default();
        let writes = vec![put("job/b", "2"), put("jobs", "x"), put("job/a", "1")];
        assert_eq!(now(storage.commit(writes)), Ok(()));
        let listed = now(storage.list("job/")).unwrap();
        let expected = [("job/a", "1"), ("job/b", "2")];
        assert_eq!(listed, expected.map(|(k, v)| (k.to_owned(), v.to_owned())));
    }

    #[test]
    fn a_failed_commit_changes_nothing_and_the_next_goes_through() {
        let storage = MemoryStorage::default();
        storage.fail_commit(2, StorageFault::Failed("torn".to_owned()));
        assert_eq!(now(storage.commit(vec![put("a", "1")])), Ok(()));
        let second = vec![put("a", "2"), put("b", "2")];
        assert_eq!(
            now(storage.commit(second.clone())),
            Err(StorageFault::Failed("torn".to_owned()))
        );
        assert_eq!(now(storage.get("a")), Ok(Some("1".to_owned())));
        assert_eq!(now(storage.get("b")), Ok(None));
        assert_eq!(now(storage.commit(second)), Ok(()));
        assert_eq!(now(storage.get("b")), Ok(Some("2".to_owned())));
    }

    #[test]
    fn full_storage_still_reads_and_refused_storage_does_not() {
        let storage = MemoryStorage::default();
        storage.plant("a", "1");
        storage.fill();
        assert_eq!(now(storage.get("a")), Ok(Some("1".to_owned())));
        assert_eq!(
            now(storage.commit(vec![put("a", "2")])),
            Err(StorageFault::Full)
        );
        storage.refuse();
        assert_eq!(now(storage.list("")), Err(StorageFault::Refused));
        storage.heal();
        assert_eq!(now(storage.get("a")), Ok(Some("1".to_owned())));
    }

    #[test]
    fn held_commits_go_through_in_the_order_they_were_asked_for() {
        let storage = MemoryStorage::default();
        storage.hold();
        let mut first = storage.commit(vec![put("a", "first")]);
        let mut second = storage.commit(vec![put("a", "second")]);
        assert!(poll(&mut second).is_pending());
        assert!(poll(&mut first).is_pending());
        storage.release();
        assert!(poll(&mut second).is_pending(), "the first has its turn");
        assert_eq!(poll(&mut first), Poll::Ready(Ok(())));
        drop(first);
        assert_eq!(poll(&mut second), Poll::Ready(Ok(())));
        assert_eq!(storage.records().get("a").unwrap(), "second");
    }

    #[test]
    fn a_commit_that_is_given_up_does_not_block_the_next() {
        let storage = MemoryStorage::default();
        drop(storage.commit(vec![put("a", "never")]));
        assert_eq!(now(storage.commit(vec![put("b", "1")])), Ok(()));
        assert!(!storage.records().contains_key("a"));
    }

    #[test]
    fn deleting_what_is_not_there_is_no_fault() {
        let storage = MemoryStorage::default();
        let delete = Write::Delete {
            key: "a".to_owned(),
        };
        assert_eq!(now(storage.commit(vec![delete])), Ok(()));
    }
}
