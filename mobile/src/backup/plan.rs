//! What a backup would bring, held against what is here: nothing is
//! overwritten without being shown first.

use chrono::{DateTime, FixedOffset};
use rakeline_core::job::{JobId, JobState, blobs_of};
use rakeline_core::record::{self, RecordFault};
use rakeline_core::text::{Message, msg};
use rakeline_core::{json, order};

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
    /// The one here cannot be read; it is put by where the backup's is taken.
    UnreadableHere,
    /// The backup's was written by a newer version of the app, which alone
    /// can open it.
    NewerVersionThere,
}

impl Verdict {
    /// Whether the job is taken only when asked: something is here already.
    #[must_use]
    pub fn is_choice(self) -> bool {
        matches!(
            self,
            Self::NewerThere | Self::UnreadableHere | Self::NewerVersionThere
        )
    }
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
    /// What the text here is recognised by, also of one that can't be read.
    pub here_sum: Option<u64>,
    /// Parts of the job that differ: keys of their names.
    pub parts: Vec<&'static str>,
    /// What its text in the backup is recognised by.
    pub sum: u64,
    /// Keys of its pictures.
    pub blobs: Vec<String>,
    /// Keys of the pictures of the job that is here.
    pub blobs_here: Vec<String>,
}

/// What a backup would bring.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Plan {
    /// Its jobs.
    pub jobs: Vec<Found>,
    /// Keys of kit sheets that are not here.
    pub kits: Vec<String>,
    /// Kit sheets that are here with another text.
    pub kits_differ: Vec<KitDiffers>,
    /// Keys of colleagues' files that are not here.
    pub passed: Vec<String>,
    /// Whether settings come along where there are none yet.
    pub settings: Brings,
    /// Where settings are here and differ: what those are recognised by.
    pub settings_differ: Option<u64>,
    /// Fleets that are not here.
    pub fleets: usize,
    /// Whether settings and kit sheets that differ take the place of those
    /// here: the fitter's choice.
    pub theirs: Brings,
    /// Pictures that are not here, of jobs that come or are here.
    pub photos: Vec<String>,
    /// Pictures that are not here and come only with jobs that take the
    /// place of those here.
    pub photos_newer: Vec<String>,
    /// What of it cannot be used, with the reason.
    pub odd: Vec<(String, Message)>,
    /// Files in it that are none of Rakeline's.
    pub foreign: usize,
}

/// A kit sheet that is here with another text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KitDiffers {
    /// Its key.
    pub key: String,
    /// What it is called in the backup.
    pub name: String,
    /// What the one here is recognised by.
    pub here: u64,
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
            || (newer == Brings::It && self.has_choice())
            || (self.theirs == Brings::It && self.has_others())
            || !self.kits.is_empty()
            || !self.passed.is_empty()
            || !self.photos.is_empty()
            || self.fleets > 0
            || self.settings == Brings::It
    }

    /// Whether jobs of the backup could take the place of those here.
    #[must_use]
    pub fn has_choice(&self) -> bool {
        self.jobs.iter().any(|found| found.verdict.is_choice())
    }

    /// Whether settings or kit sheets could take the place of those here.
    #[must_use]
    pub fn has_others(&self) -> bool {
        self.settings_differ.is_some() || !self.kits_differ.is_empty()
    }

    /// A job that stands in the backup twice, among the jobs and among the
    /// deleted ones, would be here twice: the second one that would come is
    /// refused.
    pub(super) fn refuse_twice(&mut self) {
        let mut places: Vec<usize> = (0..self.jobs.len()).collect();
        order::sort_by(&mut places, |a, b| {
            self.jobs[*a].id.cmp(&self.jobs[*b].id).then(a.cmp(b))
        });
        let mut refused = Vec::new();
        for pair in places.windows(2) {
            let (first, second) = (&self.jobs[pair[0]], &self.jobs[pair[1]]);
            if first.id == second.id && second.verdict == Verdict::New {
                refused.push(pair[1]);
            }
        }
        order::sort_by(&mut refused, |a, b| b.cmp(a));
        for at in refused {
            let found = self.jobs.remove(at);
            let title = match found.name.is_empty() {
                true => found.id.0,
                false => found.name,
            };
            self.odd.push((title, msg("backup-job-twice")));
        }
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

/// The parts in which two versions of a job differ: keys of their names.
fn parts(here: &JobState, there: &JobState) -> Vec<&'static str> {
    let all = [
        (
            "part-particulars",
            here.name != there.name || here.particulars != there.particulars,
        ),
        ("part-typed", here.typed != there.typed),
        ("part-marks", here.marks != there.marks),
        ("part-faces", here.spots != there.spots),
        (
            "part-photos",
            here.photos != there.photos || here.behind.photos != there.behind.photos,
        ),
        ("part-sheets", here.sheets != there.sheets),
    ];
    let differ = all.into_iter().filter(|(_, differs)| *differs);
    differ.map(|(key, _)| key).collect()
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
    let job_here = now.map(record::read);
    let parts = match (&job, &job_here) {
        (Some(there), Some(Ok(here))) => parts(here, there),
        _ => Vec::new(),
    };
    let blobs_here = match &job_here {
        Some(Ok(job)) => blobs_of(job),
        _ => Vec::new(),
    };
    let read_here = job_here.map(|job| {
        let text = now.unwrap_or_default();
        job.map(|job| Side::of(&job, text))
    });
    let verdict = match (&read_here, &there) {
        _ if now == Some(text) => Verdict::Same,
        (None, _) if elsewhere.is_some() && place == Place::Jobs => Verdict::DeletedHere,
        (None, _) if elsewhere.is_some() => Verdict::NewerHere,
        (None, _) => Verdict::New,
        // Written later than anything that this version can read.
        (Some(Err(RecordFault::Newer { .. })), _) => Verdict::NewerHere,
        (Some(Err(_)), _) => Verdict::UnreadableHere,
        (Some(Ok(_)), None) => Verdict::NewerVersionThere,
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
        here_sum: now.map(json::sum),
        parts,
        sum,
        blobs: entry.map(|entry| entry.blobs).unwrap_or_default(),
        blobs_here,
    })
}
