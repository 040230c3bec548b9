//! What a backup would bring, held against what is here: nothing is
//! overwritten without being shown first.

use chrono::{DateTime, FixedOffset};
use rakeline_core::job::{JobId, JobState};
use rakeline_core::json;
use rakeline_core::record::{self, RecordFault};
use rakeline_core::text::{Message, msg};

use crate::driver::{JobEntry, Place};

/// One side of a job.
#[derive(Clone, Debug, PartialEq)]
pub struct Side {
    /// Its last change.
    pub changed: DateTime<FixedOffset>,
    /// Face angles read.
    pub read: usize,
    /// What its text is recognised by.
    pub sum: u64,
}

impl Side {
    fn of(job: &JobState, text: &str) -> Self {
        Self {
            changed: job.changed,
            read: job.read_count(),
            sum: json::sum(text),
        }
    }
}

/// How a job of the backup stands to what is here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// It is not here.
    New,
    /// It is here, the same to the last sign.
    Same,
    /// The backup's was changed later.
    NewerThere,
    /// The one here was changed later, or at the same moment.
    NewerHere,
    /// It was deleted here.
    DeletedHere,
    /// The one here cannot be read; it is kept as it is.
    UnreadableHere,
}

/// A job of the backup.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// Its name in the store.
    pub id: JobId,
    /// Where it belongs.
    pub place: Place,
    /// What it is called.
    pub name: String,
    /// When it was started; `None` for a record of a newer version.
    pub created: Option<DateTime<FixedOffset>>,
    /// How it stands to what is here.
    pub verdict: Verdict,
    /// As it is in the backup.
    pub there: Option<Side>,
    /// As it is here.
    pub here: Option<Side>,
    /// What its text in the backup is recognised by.
    pub sum: u64,
    /// Keys of its pictures.
    pub blobs: Vec<String>,
}

/// What a backup would bring.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Plan {
    /// Its jobs.
    pub jobs: Vec<Found>,
    /// Keys of kit sheets that are not here.
    pub kits: Vec<String>,
    /// Whether settings come along: only where there are none yet.
    pub settings: Brings,
    /// Pictures that are not here.
    pub photos: Vec<String>,
    /// What of it cannot be used, with the reason.
    pub odd: Vec<(String, Message)>,
    /// Files in it that are none of Rakeline's.
    pub foreign: usize,
}

/// Whether something comes along.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Brings {
    /// What is here stays.
    #[default]
    Nothing,
    /// It comes.
    It,
}

impl Plan {
    /// How many jobs have this verdict.
    #[must_use]
    pub fn count(&self, verdict: Verdict) -> usize {
        self.of(verdict).count()
    }

    /// The jobs of this verdict.
    pub fn of(&self, verdict: Verdict) -> impl Iterator<Item = &Found> {
        self.jobs
            .iter()
            .filter(move |found| found.verdict == verdict)
    }

    /// Whether it brings anything at all.
    #[must_use]
    pub fn brings(&self, newer: Brings) -> bool {
        self.count(Verdict::New) > 0
            || (newer == Brings::It && self.count(Verdict::NewerThere) > 0)
            || !self.kits.is_empty()
            || !self.photos.is_empty()
            || self.settings == Brings::It
    }
}

/// What is here under a job's name.
pub(super) struct Here<'a> {
    pub job: Option<&'a str>,
    pub trash: Option<&'a str>,
}

/// A name of a job in the store: letters, figures, hyphens.
pub(super) fn is_id(id: &str) -> bool {
    !id.is_empty() && id.len() <= 64 && id.chars().all(|c| c.is_ascii_alphanumeric() || c == '-')
}

/// A job of the backup held against what is here.
///
/// # Errors
/// Why it cannot be used.
pub(super) fn judge(id: &str, place: Place, text: &str, here: &Here<'_>) -> Result<Found, Message> {
    let sum = json::sum(text);
    let job = match record::read(text) {
        Ok(job) if job.id.0 == id => Some(job),
        Ok(job) => return Err(msg("record-of-another-job").text("id", job.id.0)),
        // Kept whole; a newer version of the app reads it.
        Err(RecordFault::Newer { .. }) => None,
        Err(fault) => return Err(fault.message()),
    };
    let (now, elsewhere) = match place {
        Place::Jobs => (here.job, here.trash),
        Place::Trash => (here.trash, here.job),
    };
    let there = job.as_ref().map(|job| Side::of(job, text));
    let read_here = now.map(|text| record::read(text).map(|job| Side::of(&job, text)));
    let verdict = match (&read_here, &there) {
        _ if now == Some(text) => Verdict::Same,
        (None, _) if elsewhere.is_some() && place == Place::Jobs => Verdict::DeletedHere,
        (None, _) if elsewhere.is_some() => Verdict::NewerHere,
        (None, _) => Verdict::New,
        (Some(Err(_)), _) => Verdict::UnreadableHere,
        (Some(Ok(here)), Some(there)) if there.changed > here.changed => Verdict::NewerThere,
        (Some(Ok(_)), _) => Verdict::NewerHere,
    };
    let entry = job.as_ref().map(|job| JobEntry::of(job, text));
    Ok(Found {
        id: JobId(id.to_owned()),
        place,
        name: entry
            .as_ref()
            .map(|entry| entry.name.clone())
            .unwrap_or_default(),
        created: job.as_ref().map(|job| job.created),
        verdict,
        there,
        here: read_here.and_then(Result::ok),
        sum,
        blobs: entry.map(|entry| entry.blobs).unwrap_or_default(),
    })
}
