//! The worker's side: one archive that is written and one that is read.

use std::collections::BTreeMap;
use std::io;
use std::sync::{Mutex, PoisonError};

use rakeline_core::text::{Message, msg};

use super::export::Tables;
use super::items::{self, Item};
use super::lock::{Key, Lock, Pipe};
use super::talk::{BackupTask, Last, Passphrase};
use super::unzip::Unzip;
use super::zip::Zip;

struct Writing {
    zip: Zip<Lock>,
    out: Pipe,
    tables: Option<Tables>,
}

struct Reading {
    key: Key,
    unzip: Unzip,
}

/// What is open, by session: steps may come on threads of their own.
type Open<T> = Mutex<BTreeMap<u64, T>>;

static WRITING: Open<Writing> = Mutex::new(BTreeMap::new());
static READING: Open<Reading> = Mutex::new(BTreeMap::new());

/// Takes out what a session has open; it is put back after a good step only:
/// what went wrong in the middle is not gone on with.
fn take<T>(open: &Open<T>, session: u64) -> Option<T> {
    open.lock()
        .unwrap_or_else(PoisonError::into_inner)
        .remove(&session)
}

fn put<T>(open: &Open<T>, session: u64, what: T) {
    let mut open = open.lock().unwrap_or_else(PoisonError::into_inner);
    open.insert(session, what);
}

fn not_begun() -> Message {
    msg("backup-interrupted")
}

fn failed(fault: &io::Error) -> Message {
    msg("work-stopped").text("why", fault.to_string())
}

/// Does one step of a backup.
///
/// # Errors
/// What the fitter is told; the archive is given up then.
pub fn work(session: u64, task: &BackupTask) -> Result<Vec<u8>, Message> {
    match task {
        BackupTask::Start(passphrase) => start(session, passphrase.as_ref(), None),
        BackupTask::StartTables => start(session, None, Some(Tables::default())),
        BackupTask::Add { file } => add(session, file),
        BackupTask::Finish => finish(session),
        BackupTask::Open(passphrase) => {
            let reading = Reading {
                key: Key::new(passphrase.clone()),
                unzip: Unzip::default(),
            };
            put(&READING, session, reading);
            Ok(Vec::new())
        }
        BackupTask::Feed { file, last } => feed(session, file, *last == Last::Yes),
        BackupTask::GiveUp => {
            take(&WRITING, session);
            take(&READING, session);
            Ok(Vec::new())
        }
    }
}

fn start(
    session: u64,
    passphrase: Option<&Passphrase>,
    tables: Option<Tables>,
) -> Result<Vec<u8>, Message> {
    let out = Pipe::default();
    let lock = Lock::new(out.clone(), passphrase)?;
    let writing = Writing {
        zip: Zip::new(lock),
        out: out.clone(),
        tables,
    };
    put(&WRITING, session, writing);
    Ok(out.drain())
}

fn add(session: u64, file: &[u8]) -> Result<Vec<u8>, Message> {
    let items = items::read(file).ok_or_else(not_begun)?;
    let mut writing = take(&WRITING, session).ok_or_else(not_begun)?;
    for Item { name, bytes } in items {
        match &mut writing.tables {
            Some(tables) => tables.add(&name, &bytes),
            None => {
                let added = writing.zip.add(&name, &bytes);
                added.map_err(|fault| failed(&fault))?;
            }
        }
    }
    let out = writing.out.drain();
    put(&WRITING, session, writing);
    Ok(out)
}

fn finish(session: u64) -> Result<Vec<u8>, Message> {
    let mut writing = take(&WRITING, session).ok_or_else(not_begun)?;
    for Item { name, bytes } in writing.tables.map(Tables::files).unwrap_or_default() {
        let added = writing.zip.add(&name, &bytes);
        added.map_err(|fault| failed(&fault))?;
    }
    let lock = writing.zip.finish().map_err(|fault| failed(&fault))?;
    lock.finish().map_err(|fault| failed(&fault))?;
    Ok(writing.out.drain())
}

fn feed(session: u64, file: &[u8], last: bool) -> Result<Vec<u8>, Message> {
    let mut reading = take(&READING, session).ok_or_else(not_begun)?;
    let bytes = reading.key.feed(file, last)?;
    let items = reading
        .unzip
        .feed(&bytes)
        .map_err(|fault| fault.message())?;
    if last {
        reading.unzip.end().map_err(|fault| fault.message())?;
    } else {
        put(&READING, session, reading);
    }
    let mut all = Vec::new();
    for item in items {
        items::put(&mut all, &item.name, &item.bytes);
    }
    Ok(all)
}
