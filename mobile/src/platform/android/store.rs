//! Records and pictures as files. A commit of several records is one step: it
//! is written down whole in a journal first, and what the journal holds is
//! carried out again after a kill.

use std::fs::{self, File};
use std::io::{self, ErrorKind, Write as _};
use std::path::{Path, PathBuf};

use rakeline_core::json;
use serde::{Deserialize, Serialize};

use crate::platform::{StorageFault, Write};

const RECORDS: &str = "records";
const BLOBS: &str = "blobs";
const JOURNAL: &str = "journal";
/// Ending of a file that is not whole yet.
const PART: &str = "part";

/// One change, as the journal holds it; nothing in place of a text removes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
struct Change {
    key: String,
    value: Option<String>,
}

/// The files of the store.
pub(super) struct Store {
    folder: PathBuf,
    /// Whether the journal of an earlier run was looked at.
    settled: bool,
}

fn fault(why: &io::Error) -> StorageFault {
    match why.kind() {
        ErrorKind::StorageFull | ErrorKind::QuotaExceeded | ErrorKind::FileTooLarge => {
            StorageFault::Full
        }
        ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem => StorageFault::Refused,
        _ => StorageFault::Failed(why.to_string()),
    }
}

/// A key as a file's name: letters and figures as they are, all else in hex.
fn name_of(key: &str) -> String {
    let mut name = String::with_capacity(key.len());
    for byte in key.bytes() {
        if byte.is_ascii_alphanumeric() || byte == b'-' {
            name.push(char::from(byte));
        } else {
            name.push_str(&format!("_{byte:02x}"));
        }
    }
    name
}

/// The key of a file's name; `None` for files that are not of the store.
fn key_of(name: &str) -> Option<String> {
    let mut bytes = Vec::with_capacity(name.len());
    let mut rest = name.as_bytes();
    while let Some((&first, after)) = rest.split_first() {
        if first == b'_' {
            let (pair, after) = after.split_at_checked(2)?;
            let pair = std::str::from_utf8(pair).ok()?;
            bytes.push(u8::from_str_radix(pair, 16).ok()?);
            rest = after;
        } else if first.is_ascii_alphanumeric() || first == b'-' {
            bytes.push(first);
            rest = after;
        } else {
            return None;
        }
    }
    String::from_utf8(bytes).ok()
}

fn missing_is_none<T>(found: io::Result<T>) -> Result<Option<T>, StorageFault> {
    match found {
        Ok(found) => Ok(Some(found)),
        Err(why) if why.kind() == ErrorKind::NotFound => Ok(None),
        Err(why) => Err(fault(&why)),
    }
}

/// Makes a folder's entries last.
fn sync(folder: &Path) -> io::Result<()> {
    File::open(folder)?.sync_all()
}

/// Writes a file: whole and lasting, or not at all.
fn put(folder: &Path, name: &str, bytes: &[u8]) -> io::Result<()> {
    fs::create_dir_all(folder)?;
    let part = folder.join(format!("{name}.{PART}"));
    let written = File::create(&part).and_then(|mut file| {
        file.write_all(bytes)?;
        file.sync_all()
    });
    let placed = written.and_then(|()| fs::rename(&part, folder.join(name)));
    if placed.is_err() {
        let _ = fs::remove_file(&part);
    }
    placed?;
    sync(folder)
}

fn remove(folder: &Path, name: &str) -> io::Result<()> {
    match fs::remove_file(folder.join(name)) {
        Err(why) if why.kind() == ErrorKind::NotFound => Ok(()),
        Err(why) => Err(why),
        Ok(()) => sync(folder),
    }
}

impl Store {
    pub(super) fn new(folder: &str) -> Self {
        Self {
            folder: PathBuf::from(folder),
            settled: false,
        }
    }

    fn records(&self) -> PathBuf {
        self.folder.join(RECORDS)
    }

    fn blobs(&self) -> PathBuf {
        self.folder.join(BLOBS)
    }

    /// Carries out what an app that was killed had written down.
    fn settle(&mut self) -> Result<(), StorageFault> {
        if self.settled {
            return Ok(());
        }
        let journal = missing_is_none(fs::read_to_string(self.folder.join(JOURNAL)))?;
        if let Some(text) = journal {
            // It was renamed into place whole, so it reads.
            let changes: Vec<Change> =
                json::read(&text).map_err(|why| StorageFault::Failed(why.to_string()))?;
            self.carry_out(&changes)?;
        }
        self.settled = true;
        Ok(())
    }

    fn carry_out(&self, changes: &[Change]) -> Result<(), StorageFault> {
        let records = self.records();
        for change in changes {
            let name = name_of(&change.key);
            match &change.value {
                Some(value) => put(&records, &name, value.as_bytes()),
                None => remove(&records, &name),
            }
            .map_err(|why| fault(&why))?;
        }
        remove(&self.folder, JOURNAL).map_err(|why| fault(&why))
    }

    pub(super) fn get(&mut self, key: &str) -> Result<Option<String>, StorageFault> {
        self.settle()?;
        missing_is_none(fs::read_to_string(self.records().join(name_of(key))))
    }

    pub(super) fn list(&mut self, prefix: &str) -> Result<Vec<(String, String)>, StorageFault> {
        self.settle()?;
        let mut found = Vec::new();
        for key in names(&self.records())? {
            if key.starts_with(prefix)
                && let Some(text) = self.get(&key)?
            {
                found.push((key, text));
            }
        }
        Ok(found)
    }

    pub(super) fn commit(&mut self, writes: Vec<Write>) -> Result<(), StorageFault> {
        self.settle()?;
        let changes: Vec<Change> = writes
            .into_iter()
            .map(|write| match write {
                Write::Put { key, value } => Change {
                    key,
                    value: Some(value),
                },
                Write::Delete { key } => Change { key, value: None },
            })
            .collect();
        let text = json::write(&changes).map_err(|why| StorageFault::Failed(why.to_string()))?;
        put(&self.folder, JOURNAL, text.as_bytes()).map_err(|why| fault(&why))?;
        // From here on it will be kept: what is left undone is done at the
        // next request or the next start.
        self.settled = false;
        self.settle()
    }

    pub(super) fn blob_put(&mut self, key: &str, bytes: &[u8]) -> Result<(), StorageFault> {
        put(&self.blobs(), &name_of(key), bytes).map_err(|why| fault(&why))
    }

    pub(super) fn blob_get(&mut self, key: &str) -> Result<Option<Vec<u8>>, StorageFault> {
        missing_is_none(fs::read(self.blobs().join(name_of(key))))
    }

    pub(super) fn blob_list(&mut self) -> Result<Vec<String>, StorageFault> {
        names(&self.blobs())
    }

    pub(super) fn blob_delete(&mut self, key: &str) -> Result<(), StorageFault> {
        remove(&self.blobs(), &name_of(key)).map_err(|why| fault(&why))
    }
}

/// The keys in a folder, in order.
fn names(folder: &Path) -> Result<Vec<String>, StorageFault> {
    let Some(entries) = missing_is_none(fs::read_dir(folder))? else {
        return Ok(Vec::new());
    };
    let mut keys = Vec::new();
    for entry in entries {
        let entry = entry.map_err(|why| fault(&why))?;
        keys.extend(entry.file_name().to_str().and_then(key_of));
    }
    keys.sort_unstable();
    Ok(keys)
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Folder(PathBuf);

    impl Folder {
        fn new(name: &str) -> Self {
            let place = format!("rakeline-store-{name}-{}", std::process::id());
            let folder = std::env::temp_dir().join(place);
            let _ = fs::remove_dir_all(&folder);
            Self(folder)
        }

        fn store(&self) -> Store {
            Store::new(self.0.to_str().unwrap())
        }
    }

    impl Drop for Folder {
        fn drop(&mut self) {
            let _ = fs::remove_dir_all(&self.0);
        }
    }

    fn set(key: &str, value: &str) -> Write {
        Write::Put {
            key: key.to_owned(),
            value: value.to_owned(),
        }
    }

    #[test]
    fn every_key_becomes_a_name_and_comes_back() {
        for key in ["job/00ff", "kit/Ä b", "a_b", "..", "con.part", "", "x/../y"] {
            let name = name_of(key);
            assert!(!name.contains(['/', '.']), "{name}");
            assert_eq!(key_of(&name).as_deref(), Some(key));
        }
        assert_eq!(key_of("job.part"), None);
    }

    #[test]
    fn what_was_committed_is_there_after_a_restart() {
        let folder = Folder::new("restart");
        let writes = vec![set("job/b", "2"), set("jobs", "x"), set("job/a", "1")];
        folder.store().commit(writes).unwrap();
        let mut store = folder.store();
        let pairs = [("job/a", "1"), ("job/b", "2")];
        assert_eq!(
            store.list("job/").unwrap(),
            pairs.map(|(key, value)| (key.to_owned(), value.to_owned()))
        );
        let gone = Write::Delete {
            key: "job/a".to_owned(),
        };
        store.commit(vec![gone.clone(), gone]).unwrap();
        assert_eq!(folder.store().get("job/a").unwrap(), None);
    }

    #[test]
    fn a_kill_in_the_middle_of_a_commit_leaves_all_of_it() {
        let folder = Folder::new("kill");
        folder.store().commit(vec![set("a", "old")]).unwrap();
        // As it lies when the app is ended after the journal and the first file.
        let changes = ["a", "b"].map(|key| Change {
            key: key.to_owned(),
            value: Some("new".to_owned()),
        });
        let text = json::write(&changes.to_vec()).unwrap();
        put(&folder.0, JOURNAL, text.as_bytes()).unwrap();
        put(&folder.0.join(RECORDS), "a", b"new").unwrap();
        let mut store = folder.store();
        assert_eq!(store.get("a").unwrap().as_deref(), Some("new"));
        assert_eq!(store.get("b").unwrap().as_deref(), Some("new"));
        assert!(!folder.0.join(JOURNAL).exists());
    }

    #[test]
    fn a_kill_before_the_journal_is_whole_leaves_nothing_of_it() {
        let folder = Folder::new("part");
        folder.store().commit(vec![set("a", "old")]).unwrap();
        fs::write(folder.0.join("journal.part"), "[{\"key\":\"a\",\"va").unwrap();
        assert_eq!(folder.store().get("a").unwrap().as_deref(), Some("old"));
    }

    #[test]
    fn pictures_are_kept_beside_and_deleting_twice_is_no_fault() {
        let folder = Folder::new("blobs");
        let mut store = folder.store();
        store.blob_put("photo/1", &[0, 1, 255]).unwrap();
        assert_eq!(store.blob_get("photo/1").unwrap(), Some(vec![0, 1, 255]));
        assert_eq!(store.blob_list().unwrap(), ["photo/1"]);
        store.blob_delete("photo/1").unwrap();
        store.blob_delete("photo/1").unwrap();
        assert_eq!(store.blob_get("photo/1").unwrap(), None);
    }

    #[test]
    fn a_full_and_a_refused_store_are_told_apart() {
        let full = io::Error::from(ErrorKind::StorageFull);
        assert_eq!(fault(&full), StorageFault::Full);
        let refused = io::Error::from(ErrorKind::PermissionDenied);
        assert_eq!(fault(&refused), StorageFault::Refused);
        // A file where the folder should be.
        let folder = Folder::new("blocked");
        fs::write(&folder.0, "").unwrap();
        assert!(matches!(
            folder.store().commit(vec![set("a", "1")]),
            Err(StorageFault::Failed(_))
        ));
        fs::remove_file(&folder.0).unwrap();
    }
}
