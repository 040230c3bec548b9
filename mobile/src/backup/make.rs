//! Making a backup, or tables for other programs: the store is read piece
//! by piece, and the file goes out piece by piece.

use chrono::{DateTime, FixedOffset};
use rakeline_core::job::{JobId, blobs_of};
use rakeline_core::record;
use rakeline_core::text::{Message, msg};

use super::about::{file, fits, manifest};
use super::items;
use super::limits::{MANIFEST, PIECE};
use super::named::{entry_name, picture_kind};
use super::pictures::Pictures;
use super::talk::{BackupTask, Passphrase, Session, Stop, done, stopped};
use crate::driver::{
    JOB_PREFIX, KEPT_JOB_PREFIX, KIT_PREFIX, PASSED_PREFIX, Place, SETTINGS_KEY, Settings,
    TRASH_PREFIX, sheet_of,
};
use crate::platform::{OutFile, OutStream, Platform, Shared, StorageFault};

/// What is to be made.
#[derive(Clone, Debug, PartialEq)]
pub enum BackupOf {
    /// Everything, locked, or open to everybody.
    All(Option<Passphrase>),
    /// One job, locked, or open to everybody.
    Job(JobId, Option<Passphrase>),
    /// Tables of all jobs for other programs.
    Tables,
}

/// How far it has come, in jobs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Progress {
    /// Done.
    pub done: usize,
    /// Of so many; 0 while that is not known.
    pub all: usize,
}

/// What was made.
#[derive(Clone, Debug, PartialEq)]
pub struct Made {
    /// Name of the file.
    pub name: String,
    /// Jobs in it.
    pub jobs: usize,
    /// Pictures in it.
    pub photos: usize,
    /// Pictures that records name and that are not in the store.
    pub missing: usize,
    /// Whether it holds everything.
    pub all: bool,
    /// What became of the file.
    pub shared: Shared,
}

/// Where the file goes: piece by piece where the system can, else whole.
enum Out {
    Stream(Box<dyn OutStream>),
    Whole(Vec<u8>),
}

impl Out {
    async fn write(&mut self, bytes: Vec<u8>) -> Result<(), Message> {
        if bytes.is_empty() {
            return Ok(());
        }
        match self {
            Self::Stream(stream) => stream.write(bytes).await.map_err(|f| no_room(&f)),
            Self::Whole(all) => {
                all.extend(bytes);
                Ok(())
            }
        }
    }
}

/// A backup under way.
struct Making<'a> {
    platform: &'a Platform,
    session: Session,
    stop: &'a Stop,
    out: Out,
    batch: Vec<u8>,
    pictures: Pictures,
    photos: usize,
    missing: usize,
}

impl Making<'_> {
    async fn add(&mut self, name: &str, bytes: &[u8]) -> Result<(), Message> {
        items::put(&mut self.batch, name, bytes);
        if self.batch.len() >= PIECE {
            self.flush().await?;
        }
        Ok(())
    }

    async fn flush(&mut self) -> Result<(), Message> {
        let file = std::mem::take(&mut self.batch);
        let add = BackupTask::Add { file };
        let bytes = self.session.ask(self.platform, add, self.stop).await?;
        self.out.write(bytes).await
    }

    async fn photo(&mut self, key: &str) -> Result<(), Message> {
        if !self.pictures.is_due(key) {
            return Ok(());
        }
        let found = self.platform.storage.blob_get(key).await;
        match found.map_err(|fault| fault.message())? {
            Some(bytes) => {
                let ending = picture_kind(&bytes).unwrap_or("jpg");
                self.photos += 1;
                self.add(&format!("photos/{key}.{ending}"), &bytes).await
            }
            None => {
                self.missing += 1;
                Ok(())
            }
        }
    }
}

fn no_room(fault: &StorageFault) -> Message {
    msg("backup-not-written").message("why", fault.message())
}

/// Makes the file and hands it out.
///
/// # Errors
/// What the fitter is told; no file is handed out then.
pub async fn make(
    platform: &Platform,
    of: &BackupOf,
    settings: &Settings,
    now: DateTime<FixedOffset>,
    told: &dyn Fn(Progress),
    stop: &Stop,
) -> Result<Made, Message> {
    let session = Session::new();
    let made = made(platform, session, (of, settings), now, told, stop).await;
    if made.is_err() {
        session.give_up(platform).await;
    }
    made
}

async fn made(
    platform: &Platform,
    session: Session,
    (of, settings): (&BackupOf, &Settings),
    now: DateTime<FixedOffset>,
    told: &dyn Fn(Progress),
    stop: &Stop,
) -> Result<Made, Message> {
    let keys = keys(platform, of).await.map_err(|fault| fault.message())?;
    let tables = *of == BackupOf::Tables;
    let pictures = match tables {
        true => Vec::new(),
        false => {
            let there = platform.storage.blob_list().await;
            there.map_err(|fault| fault.message())?
        }
    };
    fits(keys.len(), pictures.len())?;
    let (name, mime, start) = file(of, now);
    let first = session.ask(platform, start, stop).await?;
    let out = match platform.share.begin(&name, mime).await {
        Some(stream) => Out::Stream(stream),
        None => Out::Whole(Vec::new()),
    };
    let mut making = Making {
        platform,
        session,
        stop,
        out,
        batch: Vec::new(),
        pictures: Pictures::of(pictures),
        photos: 0,
        missing: 0,
    };
    making.out.write(first).await?;
    if !tables {
        let about = manifest(&keys, now);
        making.add(MANIFEST, about.as_bytes()).await?;
    }
    let all = keys.len();
    told(Progress { done: 0, all });
    for (at, key) in keys.iter().enumerate() {
        if stop.get() {
            return Err(stopped());
        }
        if let Some((key, text)) = stored(platform, key, &keys).await? {
            one(&mut making, &key, &text, settings, tables).await?;
        }
        told(Progress { done: at + 1, all });
    }
    // What no record that can be read names: of newer versions' records, of
    // what was put by, and dropped ones.
    let rest = match of {
        BackupOf::All(_) => making.pictures.taken_for(None),
        BackupOf::Job(id, _) => making.pictures.taken_for(Some(&id.0)),
        BackupOf::Tables => Vec::new(),
    };
    for picture in rest {
        if stop.get() {
            return Err(stopped());
        }
        making.photo(&picture).await?;
    }
    making.flush().await?;
    let last = session.ask(platform, BackupTask::Finish, stop).await?;
    making.out.write(last).await?;
    let jobs = keys.iter().filter(|key| is_job(key)).count();
    let shared = match making.out {
        Out::Stream(stream) => stream.finish().await,
        Out::Whole(bytes) => {
            let name = name.clone();
            platform.share.save(OutFile { name, mime, bytes }).await
        }
    };
    // What never left is no backup.
    match &shared {
        Shared::HandedOver | Shared::Saved => {}
        Shared::Dismissed => return Err(msg("backup-not-sent").text("name", name)),
        Shared::NoTaker => return Err(msg("share-no-taker").text("name", name)),
        Shared::Failed(why) => {
            let failed = msg("share-failed").text("name", name);
            return Err(failed.text("why", why.clone()));
        }
    }
    Ok(Made {
        name,
        jobs,
        photos: making.photos,
        missing: making.missing,
        all: matches!(of, BackupOf::All(_)),
        shared,
    })
}

/// A record with its key; one that was moved to the deleted ones or back
/// since the backup began is read where it is now.
async fn stored(
    platform: &Platform,
    key: &str,
    keys: &[String],
) -> Result<Option<(String, String)>, Message> {
    let get = async |key: &str| {
        let found = platform.storage.get(key).await;
        found.map_err(|fault| fault.message())
    };
    if let Some(text) = get(key).await? {
        return Ok(Some((key.to_owned(), text)));
    }
    let moved = match (key.strip_prefix(JOB_PREFIX), key.strip_prefix(TRASH_PREFIX)) {
        (Some(id), _) => Place::Trash.key(&JobId(id.to_owned())),
        (_, Some(id)) => Place::Jobs.key(&JobId(id.to_owned())),
        _ => return Ok(None),
    };
    if keys.contains(&moved) {
        return Ok(None);
    }
    Ok(get(&moved).await?.map(|text| (moved, text)))
}

fn is_job(key: &str) -> bool {
    key.starts_with(JOB_PREFIX) || key.starts_with(TRASH_PREFIX)
}

/// One record with what belongs to it, its photos before it: who reads the
/// archive from front to back has them when the record comes.
async fn one(
    making: &mut Making<'_>,
    key: &str,
    text: &str,
    settings: &Settings,
    tables: bool,
) -> Result<(), Message> {
    let Some(name) = entry_name(key) else {
        return Ok(());
    };
    let job = is_job(key).then(|| record::read(text).ok()).flatten();
    if job.is_none() && is_job(key) {
        // Its pictures are known by their keys alone.
        let id = key.rsplit('/').next();
        for picture in making.pictures.taken_for(id) {
            making.photo(&picture).await?;
        }
    }
    if let Some(job) = job.filter(|_| !tables) {
        for blob in blobs_of(&job) {
            making.photo(&blob).await?;
        }
        if let Some((number, mut task, pictures)) = sheet_of(settings, &job) {
            for key in pictures {
                let found = making.platform.storage.blob_get(&key).await;
                if let Some(bytes) = found.map_err(|fault| fault.message())? {
                    task.add_picture(key, &bytes);
                }
            }
            let pdf = done(making.platform, task).await?;
            let name = format!("papers/{}-{number}.pdf", job.id.0);
            making.add(&name, &pdf).await?;
        }
    }
    if let Some(logo) = settings.logo.as_ref().filter(|_| key == SETTINGS_KEY) {
        making.photo(&logo.blob).await?;
    }
    making.add(&name, text.as_bytes()).await
}

async fn keys(platform: &Platform, of: &BackupOf) -> Result<Vec<String>, StorageFault> {
    let storage = &platform.storage;
    let mut keys = Vec::new();
    match of {
        BackupOf::Job(id, _) => {
            keys.extend(storage.keys(&format!("{KEPT_JOB_PREFIX}{}/", id.0)).await?);
            keys.push(format!("{JOB_PREFIX}{}", id.0));
        }
        BackupOf::Tables => keys.extend(storage.keys(JOB_PREFIX).await?),
        BackupOf::All(_) => {
            keys.push(SETTINGS_KEY.to_owned());
            for prefix in [
                KIT_PREFIX,
                PASSED_PREFIX,
                KEPT_JOB_PREFIX,
                JOB_PREFIX,
                TRASH_PREFIX,
            ] {
                keys.extend(storage.keys(prefix).await?);
            }
        }
    }
    Ok(keys)
}
