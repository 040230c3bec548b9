//! The worker's side: one archive that is written and one that is read.

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

static WRITING: Mutex<Option<Writing>> = Mutex::new(None);
static READING: Mutex<Option<Reading>> = Mutex::new(None);

fn of<T, R>(
    session: &Mutex<Option<T>>,
    work: impl FnOnce(&mut Option<T>) -> Result<R, Message>,
) -> Result<R, Message> {
    let mut held = session.lock().unwrap_or_else(PoisonError::into_inner);
    let done = work(&mut held);
    if done.is_err() {
        // What went wrong in the middle is not gone on with.
        *held = None;
    }
    done
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
pub fn work(task: &BackupTask) -> Result<Vec<u8>, Message> {
    match task {
        BackupTask::Start(passphrase) => start(passphrase.as_ref(), None),
        BackupTask::StartTables => start(None, Some(Tables::default())),
        BackupTask::Add { file } => add(file),
        BackupTask::Finish => finish(),
        BackupTask::Open(passphrase) => of(&READING, |reading| {
            *reading = Some(Reading {
                key: Key::new(passphrase.clone()),
                unzip: Unzip::default(),
            });
            Ok(Vec::new())
        }),
        BackupTask::Feed { file, last } => feed(file, *last == Last::Yes),
    }
}

fn start(passphrase: Option<&Passphrase>, tables: Option<Tables>) -> Result<Vec<u8>, Message> {
    of(&WRITING, |writing| {
        let out = Pipe::default();
        let lock = Lock::new(out.clone(), passphrase)?;
        *writing = Some(Writing {
            zip: Zip::new(lock),
            out: out.clone(),
            tables,
        });
        Ok(out.drain())
    })
}

fn add(file: &[u8]) -> Result<Vec<u8>, Message> {
    let items = items::read(file).ok_or_else(not_begun)?;
    of(&WRITING, |writing| {
        let writing = writing.as_mut().ok_or_else(not_begun)?;
        for Item { name, bytes } in items {
            match &mut writing.tables {
                Some(tables) => tables.add(&name, &bytes),
                None => {
                    let added = writing.zip.add(&name, &bytes);
                    added.map_err(|fault| failed(&fault))?;
                }
            }
        }
        Ok(writing.out.drain())
    })
}

fn finish() -> Result<Vec<u8>, Message> {
    of(&WRITING, |writing| {
        let mut writing = writing.take().ok_or_else(not_begun)?;
        for Item { name, bytes } in writing.tables.map(Tables::files).unwrap_or_default() {
            let added = writing.zip.add(&name, &bytes);
            added.map_err(|fault| failed(&fault))?;
        }
        let lock = writing.zip.finish().map_err(|fault| failed(&fault))?;
        lock.finish().map_err(|fault| failed(&fault))?;
        Ok(writing.out.drain())
    })
}

fn feed(file: &[u8], last: bool) -> Result<Vec<u8>, Message> {
    of(&READING, |held| {
        let reading = held.as_mut().ok_or_else(not_begun)?;
        let bytes = reading.key.feed(file, last)?;
        let items = reading
            .unzip
            .feed(&bytes)
            .map_err(|fault| fault.message())?;
        if last {
            reading.unzip.end().map_err(|fault| fault.message())?;
            *held = None;
        }
        let mut all = Vec::new();
        for item in items {
            items::put(&mut all, &item.name, &item.bytes);
        }
        Ok(all)
    })
}
