//! Takes in what a backup brings. Each job comes in one step, so that one
//! that is broken off is gone on with by doing it again; that it began is
//! noted before the first step and struck out with the last.

use chrono::{DateTime, FixedOffset};
use rakeline_core::text::{Message, msg};
use rakeline_core::{json, order, record};

use super::items::Item;
use super::named::{What, is_before, what};
use super::plan::{Brings, Found, Plan, Verdict};
use super::restore::{Reading, get};
use super::settings::{Merged, readable};
use super::talk::{Passphrase, Stop, stopped};
use crate::driver::{
    BRIEF_PREFIX, JobEntry, KEPT_JOB_PREFIX, KEPT_KIT_PREFIX, KEPT_RESTORED_PREFIX,
    KEPT_SETTINGS_KEY, KIT_PREFIX, KeySet, PASSED_PREFIX, Place, RESTORING_KEY, SETTINGS_KEY,
    record_and_entry,
};
use crate::platform::{InFile, Platform, StorageFault, Write};

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
    /// What was left out because it was changed here since it was shown.
    pub changed: usize,
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
    let mut by_id: Vec<&Found> = plan.jobs.iter().collect();
    order::sort_by(&mut by_id, |a, b| a.id.cmp(&b.id));
    let with_newer = match newer {
        Brings::It => &plan.photos_newer[..],
        Brings::Nothing => &[],
    };
    let mut taking = Taking {
        platform,
        plan,
        by_id,
        photos: KeySet::of_all(plan.photos.iter().chain(with_newer)),
        newer,
        now,
        done: Restored::default(),
    };
    taking.done.fault = match Reading::begin(platform, file, passphrase, stop).await {
        Ok(mut reading) => {
            let fault = taking
                .all(&mut reading, file.name(), told, stop)
                .await
                .err();
            if fault.is_some() {
                reading.give_up().await;
            }
            fault
        }
        Err(why) => Some(why),
    };
    taking.done
}

struct Taking<'a> {
    platform: &'a Platform,
    plan: &'a Plan,
    /// The plan's jobs in order of their names in the store.
    by_id: Vec<&'a Found>,
    photos: KeySet<'a>,
    newer: Brings,
    now: DateTime<FixedOffset>,
    done: Restored,
}

fn not_kept(fault: &StorageFault) -> Message {
    msg("restore-not-kept").message("why", fault.message())
}

impl<'a> Taking<'a> {
    async fn commit(&self, writes: Vec<Write>) -> Result<(), Message> {
        let outcome = self.platform.storage.commit(writes).await;
        outcome.map_err(|fault| not_kept(&fault))
    }

    /// The whole file, noted as begun before its first step and struck out
    /// with its last.
    async fn all(
        &mut self,
        reading: &mut Reading<'_>,
        name: String,
        told: &dyn Fn(u64),
        stop: &Stop,
    ) -> Result<(), Message> {
        let key = RESTORING_KEY.to_owned();
        let begun = Write::Put { key, value: name };
        self.commit(vec![begun]).await?;
        while let Some(items) = reading.next().await? {
            for item in items {
                if stop.get() {
                    return Err(stopped());
                }
                self.item(item).await?;
            }
            told(reading.from);
        }
        let key = RESTORING_KEY.to_owned();
        self.commit(vec![Write::Delete { key }]).await
    }

    async fn item(&mut self, item: Item) -> Result<(), Message> {
        let Item { name, bytes } = item;
        match what(&name) {
            What::Photo(key) if self.photos.has(key) => {
                let outcome = self.platform.storage.blob_put(key, bytes).await;
                outcome.map_err(|fault| not_kept(&fault))?;
                self.done.photos += 1;
            }
            What::Job(place, id) => self.job(place, id, &bytes).await?,
            What::Kit(id) => self.kit(id, bytes).await?,
            What::Passed(id) => {
                let key = format!("{PASSED_PREFIX}{id}");
                if self.plan.passed.contains(&key) {
                    self.put_if_free(key, bytes).await?;
                }
            }
            What::Settings => self.settings(bytes).await?,
            What::Before(rest) if is_before(rest) => {
                let id = rest.split('/').next().unwrap_or_default();
                if self.found(id).any(|found| self.takes(found)) {
                    self.put_if_free(format!("{KEPT_JOB_PREFIX}{rest}"), bytes)
                        .await?;
                }
            }
            _ => {}
        }
        Ok(())
    }

    /// The plan's jobs of this name: one among the jobs, one among the
    /// deleted ones.
    fn found<'s>(&'s self, id: &'s str) -> impl Iterator<Item = &'a Found> + 's {
        let from = self.by_id.partition_point(|found| found.id.0.as_str() < id);
        let rest = self.by_id[from..].iter().copied();
        rest.take_while(move |found| found.id.0 == id)
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

    /// A kit sheet that is new, or takes the place of the one here, which is
    /// put by in the same step.
    async fn kit(&mut self, id: &str, bytes: Vec<u8>) -> Result<(), Message> {
        let key = format!("{KIT_PREFIX}{id}");
        if self.plan.kits.contains(&key) {
            self.put_if_free(key, bytes).await?;
            self.done.kits += 1;
            return Ok(());
        }
        let mut differ = self.plan.kits_differ.iter();
        let shown = differ.find(|kit| kit.key == key);
        let (Some(shown), Ok(value)) = (shown, String::from_utf8(bytes)) else {
            return Ok(());
        };
        if self.plan.theirs == Brings::Nothing {
            return Ok(());
        }
        let here = get(self.platform, &key).await?.unwrap_or_default();
        let sum = json::sum(&here);
        if sum != shown.here {
            self.done.changed += 1;
            return Ok(());
        }
        let kept = Write::Put {
            key: format!("{KEPT_KIT_PREFIX}{id}/{KEPT_RESTORED_PREFIX}-{sum:x}"),
            value: here,
        };
        self.commit(vec![Write::Put { key, value }, kept]).await?;
        self.done.kits += 1;
        Ok(())
    }

    /// The settings where there are none; else new fleets, and the rest
    /// where it was asked for. Those that were here are put by then.
    async fn settings(&mut self, bytes: Vec<u8>) -> Result<(), Message> {
        let key = SETTINGS_KEY.to_owned();
        let Some(here) = get(self.platform, &key).await? else {
            if self.plan.settings == Brings::It {
                self.put_if_free(key, bytes).await?;
            }
            return Ok(());
        };
        let theirs = std::str::from_utf8(&bytes).ok().and_then(readable);
        let (Some(mine), Some(theirs)) = (readable(&here), theirs) else {
            return Ok(());
        };
        let merged = Merged::of(&mine, &theirs);
        let sum = json::sum(&here);
        let asked = self.plan.theirs == Brings::It && self.plan.settings_differ.is_some();
        let same = self.plan.settings_differ == Some(sum);
        if asked && !same {
            self.done.changed += 1;
        }
        let mut writes = Vec::new();
        let next = if asked && same {
            writes.push(Write::Put {
                key: format!("{KEPT_SETTINGS_KEY}/{KEPT_RESTORED_PREFIX}-{sum:x}"),
                value: here,
            });
            merged.theirs
        } else {
            merged.mine
        };
        if next == mine {
            return Ok(());
        }
        let Ok(value) = json::write(&next) else {
            return Ok(());
        };
        writes.push(Write::Put { key, value });
        self.commit(writes).await
    }

    fn takes(&self, found: &Found) -> bool {
        let asked = self.newer == Brings::It && found.verdict.is_choice();
        found.verdict == Verdict::New || asked
    }

    /// One job with its entry, and the one that it takes the place of put by,
    /// in one step; only if here and in the file it is still what was shown.
    async fn job(&mut self, place: Place, id: &str, bytes: &[u8]) -> Result<(), Message> {
        let found = self.found(id).find(|found| found.place == place);
        let Some(found) = found.filter(|found| self.takes(found)) else {
            return Ok(());
        };
        let text = std::str::from_utf8(bytes).unwrap_or_default();
        let key = place.key(&found.id);
        let here = get(self.platform, &key).await?;
        let elsewhere = get(self.platform, &place.other().key(&found.id)).await?;
        let shown = found.here_sum;
        // A new one may meanwhile be here in the other place.
        let moved = found.verdict == Verdict::New && elsewhere.is_some();
        let sum_here = here.as_ref().map(|text| json::sum(text));
        if json::sum(text) != found.sum || sum_here != shown || moved {
            self.done.changed += 1;
            return Ok(());
        }
        let mut writes = match record::read(text) {
            Ok(job) => {
                let mut entry = JobEntry::of(&job, text);
                entry.deleted = (place == Place::Trash).then_some(self.now);
                record_and_entry(&entry, text.to_owned()).to_vec()
            }
            // A record of a newer version is kept whole, without an entry.
            Err(_) => vec![
                Write::Put {
                    key: key.clone(),
                    value: text.to_owned(),
                },
                Write::Delete {
                    key: format!("{BRIEF_PREFIX}{key}"),
                },
            ],
        };
        if let (Some(value), Some(shown)) = (here, shown) {
            writes.push(Write::Put {
                key: format!("{KEPT_JOB_PREFIX}{id}/{KEPT_RESTORED_PREFIX}-{shown:x}"),
                value,
            });
        }
        self.commit(writes).await?;
        match found.verdict {
            Verdict::New => self.done.new += 1,
            _ => self.done.newer += 1,
        }
        Ok(())
    }
}
