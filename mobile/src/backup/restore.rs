//! The way back: a backup is read once to see what it would bring, and once
//! more to take that in. The first reading changes nothing; the second keeps
//! each job in one step, so that one that is broken off is gone on with by
//! doing it again.

use chrono::{DateTime, FixedOffset};
use rakeline_core::job::JobId;
use rakeline_core::text::{Message, msg};
use rakeline_core::{json, record};
use serde_json::Value;

use super::items::{self, Item};
use super::limits::{BACKUP_VERSION, MANIFEST, PIECE};
use super::plan::{Brings, Found, Here, Plan, Verdict, is_id, judge};
use super::talk::{BackupTask, Last, Passphrase, Session, Stop, stopped};
use crate::driver::{JobEntry, KEPT_JOB_PREFIX, KIT_PREFIX, Place, SETTINGS_KEY, record_and_entry};
use crate::platform::{InFile, Platform, StorageFault, Write};

/// Key of what a restore put by: the job as it was here.
pub const KEPT_RESTORED_PREFIX: &str = "restored";

/// Reads a file through the worker, from front to back.
struct Reading<'a> {
    platform: &'a Platform,
    session: Session,
    file: &'a dyn InFile,
    from: u64,
    stop: &'a Stop,
    over: bool,
}

impl<'a> Reading<'a> {
    async fn begin(
        platform: &'a Platform,
        file: &'a dyn InFile,
        passphrase: &Passphrase,
        stop: &'a Stop,
    ) -> Result<Self, Message> {
        let open = BackupTask::Open(passphrase.clone());
        let session = Session::new();
        session.ask(platform, open, stop).await?;
        Ok(Self {
            platform,
            session,
            file,
            from: 0,
            stop,
            over: false,
        })
    }

    /// The next items; `None` when the file is over.
    async fn next(&mut self) -> Result<Option<Vec<Item>>, Message> {
        if self.over {
            return Ok(None);
        }
        let failed = |why: String| msg("backup-not-read").text("why", why);
        let bytes = self.file.read(self.from, PIECE).await.map_err(failed)?;
        self.from += bytes.len() as u64;
        self.over = bytes.is_empty() || self.from >= self.file.size();
        let last = if self.over { Last::Yes } else { Last::No };
        let feed = BackupTask::Feed { file: bytes, last };
        let answer = self.session.ask(self.platform, feed, self.stop).await;
        if answer.is_err() {
            self.session.give_up(self.platform).await;
        }
        let answer = answer?;
        let items = items::read(&answer);
        items.map(Some).ok_or_else(|| msg("backup-damaged"))
    }
}

/// What an item of the archive is.
enum What<'a> {
    Manifest,
    Job(Place, &'a str),
    Kit(&'a str),
    Before(&'a str),
    Settings,
    Photo(&'a str),
    /// Made from the rest, or a table: nothing to take in.
    Paper,
    Foreign,
}

fn what(name: &str) -> What<'_> {
    let json = |folder: &str| {
        let rest = name.strip_prefix(folder)?.strip_prefix('/')?;
        rest.strip_suffix(".json")
    };
    if name == MANIFEST {
        return What::Manifest;
    }
    if name == "settings.json" {
        return What::Settings;
    }
    if let Some(id) = json("jobs") {
        return What::Job(Place::Jobs, id);
    }
    if let Some(id) = json("deleted") {
        return What::Job(Place::Trash, id);
    }
    if let Some(id) = json("kits") {
        return What::Kit(id);
    }
    if let Some(rest) = json("before") {
        return What::Before(rest);
    }
    let photo = name.strip_prefix("photos/");
    let photo = photo.and_then(|key| key.strip_suffix(".jpg").or(key.strip_suffix(".png")));
    match photo {
        Some(key) => What::Photo(key),
        None if name.starts_with("papers/") => What::Paper,
        None => What::Foreign,
    }
}

/// Reads a backup and says what it would bring; nothing is changed.
///
/// # Errors
/// Why it is refused as a whole.
pub async fn look_into(
    platform: &Platform,
    file: &dyn InFile,
    passphrase: &Passphrase,
    told: &dyn Fn(u64),
    stop: &Stop,
) -> Result<Plan, Message> {
    let mut reading = Reading::begin(platform, file, passphrase, stop).await?;
    let mut plan = Plan::default();
    let (mut manifest, mut offered, mut logo) = (false, Vec::new(), None);
    while let Some(items) = reading.next().await? {
        for Item { name, bytes } in items {
            let text = || std::str::from_utf8(&bytes).map_err(|_| msg("backup-not-text"));
            match what(&name) {
                What::Manifest => {
                    check_manifest(text()?)?;
                    manifest = true;
                }
                What::Job(place, id) => {
                    let found = match text() {
                        Ok(text) => look_at(platform, id, place, text).await,
                        Err(why) => Err(why),
                    };
                    match found {
                        Ok(found) => plan.jobs.push(found),
                        Err(why) => plan.odd.push((name, why)),
                    }
                }
                What::Kit(id) => {
                    let key = format!("{KIT_PREFIX}{id}");
                    let readable = text().is_ok_and(|text| json::parse(text).is_ok());
                    if !is_id(id) || !readable {
                        plan.odd.push((name, msg("backup-not-text")));
                    } else if get(platform, &key).await?.is_none() {
                        plan.kits.push(key);
                    }
                }
                What::Settings => {
                    if get(platform, SETTINGS_KEY).await?.is_none() {
                        plan.settings = Brings::It;
                        logo = text().ok().and_then(logo_of);
                    }
                }
                What::Photo(key) if is_picture(&bytes) => offered.push(key.to_owned()),
                What::Photo(_) => plan.odd.push((name, msg("backup-no-picture"))),
                What::Before(_) | What::Paper => {}
                What::Foreign => plan.foreign += 1,
            }
        }
        told(reading.from);
    }
    if !manifest {
        return Err(msg("backup-not-ours"));
    }
    let there = platform.storage.blob_list().await;
    let there = there.map_err(|fault| fault.message())?;
    let named = |key: &String| {
        let mut jobs = plan.jobs.iter();
        logo.as_ref() == Some(key)
            || jobs.any(|found| found.verdict != Verdict::DeletedHere && found.blobs.contains(key))
    };
    offered.retain(|key| !there.contains(key) && named(key));
    plan.photos = offered;
    Ok(plan)
}

/// Key of the workshop's logo in its settings.
fn logo_of(settings: &str) -> Option<String> {
    let settings = json::parse(settings).ok()?;
    let blob = settings.get("logo")?.get("blob")?.as_str()?;
    Some(blob.to_owned())
}

fn is_picture(bytes: &[u8]) -> bool {
    bytes.starts_with(&[0xff, 0xd8]) || bytes.starts_with(b"\x89PNG")
}

async fn get(platform: &Platform, key: &str) -> Result<Option<String>, Message> {
    let found = platform.storage.get(key).await;
    found.map_err(|fault| fault.message())
}

fn check_manifest(text: &str) -> Result<(), Message> {
    let about = json::parse(text).map_err(|_| msg("backup-not-ours"))?;
    if about.get("format").and_then(Value::as_str) != Some("rakeline-backup") {
        return Err(msg("backup-not-ours"));
    }
    match about.get("version").and_then(Value::as_u64) {
        Some(1..=BACKUP_VERSION) => Ok(()),
        Some(newer) if newer > BACKUP_VERSION => {
            Err(msg("backup-newer").count("version", i64::try_from(newer).unwrap_or(i64::MAX)))
        }
        _ => Err(msg("backup-not-ours")),
    }
}

async fn look_at(
    platform: &Platform,
    id: &str,
    place: Place,
    text: &str,
) -> Result<Found, Message> {
    if !is_id(id) {
        return Err(msg("backup-bad-id"));
    }
    let name = JobId(id.to_owned());
    let job = get(platform, &Place::Jobs.key(&name)).await?;
    let trash = get(platform, &Place::Trash.key(&name)).await?;
    let here = Here {
        job: job.as_deref(),
        trash: trash.as_deref(),
    };
    judge(id, place, text, &here)
}

/// What was taken in.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Restored {
    /// Jobs that were not here.
    pub new: usize,
    /// Jobs that took the place of an older one, which was put by.
    pub newer: usize,
    /// Pictures.
    pub photos: usize,
    /// Kit sheets.
    pub kits: usize,
    /// Why it ended before its end.
    pub fault: Option<Message>,
}

/// Takes in what the plan says. What was taken in before a fault stays.
pub async fn take_in(
    platform: &Platform,
    file: &dyn InFile,
    passphrase: &Passphrase,
    (plan, newer): (&Plan, Brings),
    now: DateTime<FixedOffset>,
    told: &dyn Fn(u64),
    stop: &Stop,
) -> Restored {
    let mut taking = Taking {
        platform,
        plan,
        newer,
        now,
        done: Restored::default(),
    };
    let read = async {
        let mut reading = Reading::begin(platform, file, passphrase, stop).await?;
        while let Some(items) = reading.next().await? {
            for item in items {
                if stop.get() {
                    return Err(stopped());
                }
                taking.item(item).await?;
            }
            told(reading.from);
        }
        Ok(())
    };
    let fault = read.await.err();
    taking.done.fault = fault;
    taking.done
}

struct Taking<'a> {
    platform: &'a Platform,
    plan: &'a Plan,
    newer: Brings,
    now: DateTime<FixedOffset>,
    done: Restored,
}

fn not_kept(fault: &StorageFault) -> Message {
    msg("restore-not-kept").message("why", fault.message())
}

impl Taking<'_> {
    async fn commit(&self, writes: Vec<Write>) -> Result<(), Message> {
        let outcome = self.platform.storage.commit(writes).await;
        outcome.map_err(|fault| not_kept(&fault))
    }

    async fn item(&mut self, item: Item) -> Result<(), Message> {
        let Item { name, bytes } = item;
        match what(&name) {
            What::Photo(key) if self.plan.photos.iter().any(|one| one == key) => {
                let outcome = self.platform.storage.blob_put(key, bytes).await;
                outcome.map_err(|fault| not_kept(&fault))?;
                self.done.photos += 1;
            }
            What::Job(place, id) => self.job(place, id, &bytes).await?,
            What::Kit(id) => {
                let key = format!("{KIT_PREFIX}{id}");
                if self.plan.kits.contains(&key) {
                    self.put_if_free(key, bytes).await?;
                    self.done.kits += 1;
                }
            }
            What::Settings if self.plan.settings == Brings::It => {
                self.put_if_free(SETTINGS_KEY.to_owned(), bytes).await?;
            }
            What::Before(rest) => {
                let id = rest.split('/').next().unwrap_or_default();
                if self
                    .plan
                    .jobs
                    .iter()
                    .any(|found| found.id.0 == id && self.takes(found))
                {
                    self.put_if_free(format!("{KEPT_JOB_PREFIX}{rest}"), bytes)
                        .await?;
                }
            }
            _ => {}
        }
        Ok(())
    }

    async fn put_if_free(&self, key: String, bytes: Vec<u8>) -> Result<(), Message> {
        let Ok(value) = String::from_utf8(bytes) else {
            return Ok(());
        };
        if get(self.platform, &key).await?.is_some() {
            return Ok(());
        }
        self.commit(vec![Write::Put { key, value }]).await
    }

    fn takes(&self, found: &Found) -> bool {
        match found.verdict {
            Verdict::New => true,
            Verdict::NewerThere => self.newer == Brings::It,
            _ => false,
        }
    }

    /// One job with its entry, and the one that it takes the place of put by,
    /// in one step; only if here and in the file it is still what was shown.
    async fn job(&mut self, place: Place, id: &str, bytes: &[u8]) -> Result<(), Message> {
        let mut found = self.plan.jobs.iter();
        let found = found.find(|found| found.id.0 == id && found.place == place);
        let Some(found) = found.filter(|found| self.takes(found)) else {
            return Ok(());
        };
        let text = std::str::from_utf8(bytes).unwrap_or_default();
        let key = place.key(&found.id);
        let here = get(self.platform, &key).await?;
        let shown = found.here.as_ref().map(|here| here.sum);
        if json::sum(text) != found.sum || here.as_ref().map(|text| json::sum(text)) != shown {
            return Ok(());
        }
        let mut writes = match record::read(text) {
            Ok(job) => {
                let mut entry = JobEntry::of(&job, text);
                entry.deleted = (place == Place::Trash).then_some(self.now);
                record_and_entry(&entry, text.to_owned()).to_vec()
            }
            // A record of a newer version is kept whole.
            Err(_) => vec![Write::Put {
                key,
                value: text.to_owned(),
            }],
        };
        if let (Some(value), Some(shown)) = (here, shown) {
            writes.push(Write::Put {
                key: format!("{KEPT_JOB_PREFIX}{id}/{KEPT_RESTORED_PREFIX}-{shown:x}"),
                value,
            });
        }
        self.commit(writes).await?;
        match found.verdict {
            Verdict::NewerThere => self.done.newer += 1,
            _ => self.done.new += 1,
        }
        Ok(())
    }
}
