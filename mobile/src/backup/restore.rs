//! The way back: a backup is read once to see what it would bring, and once
//! more to take that in ([`super::take_in`]). The first reading changes
//! nothing.

use rakeline_core::again::read_passed;
use rakeline_core::job::JobId;
use rakeline_core::json;
use rakeline_core::kit::{self, Why};
use rakeline_core::text::{Message, msg};
use serde_json::Value;

use super::items::{self, Item};
use super::limits::{BACKUP_VERSION, PIECE};
use super::named::{What, is_before, is_picture_key, picture_kind, what};
use super::plan::{Brings, Found, Here, KitDiffers, Plan, Verdict, is_id, judge};
use super::settings::{Merged, readable};
use super::talk::{BackupTask, Last, Passphrase, Session, Stop};
use crate::driver::{
    KEPT_JOB_PREFIX, KIT_PREFIX, KeySet, PASSED_PREFIX, Place, SETTINGS_KEY, job_of,
};
use crate::platform::{InFile, Platform};

/// Reads a file through the worker, from front to back.
pub(super) struct Reading<'a> {
    platform: &'a Platform,
    session: Session,
    file: &'a dyn InFile,
    pub(super) from: u64,
    stop: &'a Stop,
    over: bool,
}

impl<'a> Reading<'a> {
    pub(super) async fn begin(
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

    /// The worker lets go of the file: it is not read to its end.
    pub(super) async fn give_up(&self) {
        self.session.give_up(self.platform).await;
    }

    /// The next items; `None` when the file is over.
    pub(super) async fn next(&mut self) -> Result<Option<Vec<Item>>, Message> {
        if self.over {
            return Ok(None);
        }
        let failed = |why: String| msg("backup-not-read").text("why", why);
        let bytes = self.file.read(self.from, PIECE).await.map_err(failed)?;
        self.from += bytes.len() as u64;
        self.over = bytes.is_empty() || self.from >= self.file.size();
        let last = if self.over { Last::Yes } else { Last::No };
        let feed = BackupTask::Feed { file: bytes, last };
        let answer = self.session.ask(self.platform, feed, self.stop).await?;
        let items = items::read(&answer);
        items.map(Some).ok_or_else(|| msg("backup-damaged"))
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
    let plan = looked(platform, &mut reading, told).await;
    if plan.is_err() {
        reading.give_up().await;
    }
    plan
}

async fn looked(
    platform: &Platform,
    reading: &mut Reading<'_>,
    told: &dyn Fn(u64),
) -> Result<Plan, Message> {
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
                What::Kit(id) => match text() {
                    Ok(text) => look_at_kit(platform, &mut plan, id, text).await?,
                    Err(why) => plan.odd.push((name, why)),
                },
                What::Passed(id) => {
                    let key = format!("{PASSED_PREFIX}{id}");
                    match text().map(read_passed) {
                        Ok(Ok(_)) if is_id(id) => {
                            if get(platform, &key).await?.is_none() {
                                plan.passed.push(key);
                            }
                        }
                        Ok(Err(fault)) => plan.odd.push((name, fault.message())),
                        Ok(_) => plan.odd.push((name, msg("backup-bad-id"))),
                        Err(why) => plan.odd.push((name, why)),
                    }
                }
                What::Settings => match text() {
                    Ok(text) => logo = settings(platform, &mut plan, text).await?,
                    Err(why) => plan.odd.push((name, why)),
                },
                What::Photo(key) if !is_picture_key(key) => {
                    plan.odd.push((name, msg("backup-bad-picture")));
                }
                What::Photo(key) if picture_kind(&bytes).is_some() => {
                    offered.push(key.to_owned());
                }
                What::Photo(_) => plan.odd.push((name, msg("backup-no-picture"))),
                What::Before(rest) if !is_before(rest) => {
                    plan.odd.push((name, msg("backup-bad-id")));
                }
                // A job that was put by because it can't be read is one too.
                What::Before(_) if text().is_err() => {
                    plan.odd.push((name, msg("backup-not-text")));
                }
                What::Before(_) | What::Paper => {}
                What::Foreign => plan.foreign += 1,
            }
        }
        told(reading.from);
    }
    if !manifest {
        return Err(msg("backup-not-ours"));
    }
    plan.refuse_twice();
    let there = platform.storage.blob_list().await;
    let there = there.map_err(|fault| fault.message())?;
    sort_photos(platform, &mut plan, offered, &there, logo.as_deref()).await?;
    Ok(plan)
}

/// The pictures that are not here and that are needed: by a job that comes or
/// stays, or only where a job of the backup takes the place of the one here.
async fn sort_photos(
    platform: &Platform,
    plan: &mut Plan,
    mut offered: Vec<String>,
    there: &[String],
    logo: Option<&str>,
) -> Result<(), Message> {
    let there = KeySet::of_all(there);
    offered.retain(|key| !there.has(key));
    let wanted = Wanted::of(&plan.jobs);
    let (mut photos, mut photos_newer) = (Vec::new(), Vec::new());
    for key in offered {
        let id = job_of(&key).unwrap_or_default();
        if logo == Some(key.as_str())
            || wanted.named.has(&key)
            || wanted.whole.has(id)
            || (wanted.here.has(id) && is_put_by(platform, id, &key).await?)
        {
            photos.push(key);
        } else if wanted.named_newer.has(&key) || wanted.whole_newer.has(id) {
            photos_newer.push(key);
        }
    }
    (plan.photos, plan.photos_newer) = (photos, photos_newer);
    Ok(())
}

/// Which pictures the jobs of a plan need.
struct Wanted<'a> {
    /// Named by a job that comes, or by one that is here.
    named: KeySet<'a>,
    /// Jobs of which all pictures are needed: those that come, with what was
    /// put by of them, and those here that can't be read.
    whole: KeySet<'a>,
    /// Jobs that are here.
    here: KeySet<'a>,
    /// Named by a job that comes only when asked.
    named_newer: KeySet<'a>,
    /// Such jobs.
    whole_newer: KeySet<'a>,
}

impl<'a> Wanted<'a> {
    fn of(jobs: &'a [Found]) -> Self {
        let is_new = |found: &&Found| found.verdict == Verdict::New;
        let is_choice = |found: &&Found| found.verdict.is_choice();
        let unknown = |found: &&Found| found.here_sum.is_some() && found.here.is_none();
        let id = |found: &'a Found| &found.id.0;
        let coming = || jobs.iter().filter(is_new).flat_map(|found| &found.blobs);
        let staying = jobs.iter().flat_map(|found| &found.blobs_here);
        Self {
            named: KeySet::of_all(coming().chain(staying)),
            whole: KeySet::of_all(jobs.iter().filter(|f| is_new(f) || unknown(f)).map(id)),
            here: KeySet::of_all(jobs.iter().filter(|f| f.here_sum.is_some()).map(id)),
            named_newer: KeySet::of_all(
                jobs.iter().filter(is_choice).flat_map(|found| &found.blobs),
            ),
            whole_newer: KeySet::of_all(jobs.iter().filter(is_choice).map(id)),
        }
    }
}

/// Whether something that was put by of this job names the picture.
async fn is_put_by(platform: &Platform, id: &str, picture: &str) -> Result<bool, Message> {
    let kept = platform
        .storage
        .list(&format!("{KEPT_JOB_PREFIX}{id}/"))
        .await;
    let kept = kept.map_err(|fault| fault.message())?;
    Ok(kept.iter().any(|(_, text)| text.contains(picture)))
}

/// A kit sheet: new, the same, or another one than here.
async fn look_at_kit(
    platform: &Platform,
    plan: &mut Plan,
    id: &str,
    text: &str,
) -> Result<(), Message> {
    let key = format!("{KIT_PREFIX}{id}");
    let name = match kit::parse(text) {
        _ if !is_id(id) => Err(msg("backup-bad-id")),
        Ok(sheet) => Ok(sheet.name),
        Err(faults) => match faults.first() {
            // Kept whole; a newer version of the app reads it.
            Some(fault) if matches!(fault.why, Why::Version { .. }) => Ok(id.to_owned()),
            Some(fault) => Err(fault.message()),
            None => Err(msg("backup-not-text")),
        },
    };
    let name = match name {
        Ok(name) => name,
        Err(why) => {
            plan.odd.push((format!("kits/{id}"), why));
            return Ok(());
        }
    };
    match get(platform, &key).await? {
        None => plan.kits.push(key),
        Some(here) if here != text => plan.kits_differ.push(KitDiffers {
            key,
            name,
            here: json::sum(&here),
        }),
        Some(_) => {}
    }
    Ok(())
}

/// The settings: new, the same but for this phone's own, or others. Gives
/// the key of their logo where that may come along.
async fn settings(
    platform: &Platform,
    plan: &mut Plan,
    text: &str,
) -> Result<Option<String>, Message> {
    let Some(theirs) = readable(text) else {
        let why = msg("backup-bad-settings");
        plan.odd.push(("settings.json".to_owned(), why));
        return Ok(None);
    };
    let Some(here) = get(platform, SETTINGS_KEY).await? else {
        plan.settings = Brings::It;
        return Ok(logo_of(text));
    };
    let Some(mine) = readable(&here) else {
        return Ok(None);
    };
    let merged = Merged::of(&mine, &theirs);
    plan.fleets = merged.fleets;
    if !merged.differs {
        return Ok(None);
    }
    plan.settings_differ = Some(json::sum(&here));
    Ok(logo_of(text))
}

/// Key of the workshop's logo in its settings.
fn logo_of(settings: &str) -> Option<String> {
    let settings = json::parse(settings).ok()?;
    let blob = settings.get("logo")?.get("blob")?.as_str()?;
    Some(blob.to_owned())
}

pub(super) async fn get(platform: &Platform, key: &str) -> Result<Option<String>, Message> {
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
