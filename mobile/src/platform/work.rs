//! Heavy work beside the screens: PDFs, what the heads will see, photos.

use rakeline_core::drawing::SightAsked;
use rakeline_core::estimate::photo::result::{FlatKind, Taps};
use rakeline_core::estimate::photo::seen::PhotoSeen;
use rakeline_core::job::JobState;
use rakeline_core::report::{Document, Paper, SheetLook, TemplateFacts};
use rakeline_core::text::{Message, msg};
use rakeline_core::units::Millimetres;
use serde::{Deserialize, Serialize};

use super::Told;
use crate::backup::BackupTask;

/// What can be asked of the worker; travels as JSON.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Task {
    /// The template of the marks as PDF.
    Template {
        /// What it shows.
        facts: TemplateFacts,
        /// The paper it is printed on.
        paper: Paper,
    },
    /// Sheets of mark cards as PDF.
    MarkCards {
        /// A card for each of so many marks.
        marks: usize,
        /// The paper they are printed on.
        paper: Paper,
    },
    /// The mark cards in a photo: done with a `PhotoSeen` as JSON.
    SeePhoto {
        /// Cards of so many marks belong to the job.
        marks: usize,
        /// The file; it travels beside the JSON, handed over and not copied.
        #[serde(skip)]
        file: Vec<u8>,
    },
    /// Photos of mark cards solved together: done with an `Outcome` as JSON.
    SolvePhotos {
        /// What was seen in them.
        photos: Vec<PhotoSeen>,
        /// How many marks the job has.
        marks: usize,
        /// What the sheet's check line measures, if it was measured.
        line: Option<Millimetres>,
        /// What was tapped.
        taps: Taps,
    },
    /// A short distance by a flat thing or a taped length: done with an
    /// `Estimate<Millimetres>` as JSON.
    FlatLength {
        /// The photo.
        photo: Box<PhotoSeen>,
        /// By what.
        flat: FlatKind,
        /// Its corners or ends, then both ends of the distance, pixels.
        taps: Vec<[f64; 2]>,
    },
    /// The middle of a round head near a tap: done with the place or
    /// nothing, as JSON.
    Centre {
        /// The tap, pixels.
        at: [f64; 2],
        /// About its radius, pixels.
        radius: f64,
        /// The photo's file; it travels beside the JSON.
        #[serde(skip)]
        file: Vec<u8>,
    },
    /// A job sheet as PDF.
    Sheet {
        /// What it says.
        document: Box<Document>,
        /// How it is printed.
        look: SheetLook,
        /// The job, where what its heads will see goes to the end.
        #[serde(default)]
        predicted: Option<Box<JobState>>,
        /// Keys of its pictures and how many bytes each has.
        #[serde(default)]
        pictures: Vec<(String, usize)>,
        /// The pictures' files one after the other; they travel beside the
        /// JSON.
        #[serde(skip)]
        files: Vec<u8>,
    },
    /// A job sheet as data: done with its JSON.
    SheetData {
        /// The job.
        job: Box<JobState>,
        /// What its sheet says.
        document: Box<Document>,
    },
    /// What the heads of a job will see, as JSON of a `Sight`.
    Sight {
        /// The job.
        job: Box<JobState>,
        /// What is asked.
        asked: SightAsked,
    },
    /// A step of a backup.
    Backup {
        /// Which one.
        session: u64,
        /// What is to be done.
        step: Box<BackupTask>,
    },
}

impl Task {
    /// Takes out what travels beside the JSON.
    #[must_use]
    pub fn take_file(&mut self) -> Vec<u8> {
        match self {
            Self::SeePhoto { file, .. }
            | Self::Centre { file, .. }
            | Self::Sheet { files: file, .. } => core::mem::take(file),
            Self::Backup { step, .. } => step.file().map(core::mem::take).unwrap_or_default(),
            _ => Vec::new(),
        }
    }

    /// Puts it back where the work is done.
    pub fn put_file(&mut self, bytes: Vec<u8>) {
        match self {
            Self::SeePhoto { file, .. }
            | Self::Centre { file, .. }
            | Self::Sheet { files: file, .. } => *file = bytes,
            Self::Backup { step, .. } => {
                if let Some(file) = step.file() {
                    *file = bytes;
                }
            }
            _ => {}
        }
    }

    /// Puts a picture of the store to a task that was asked for with it.
    pub fn add_picture(&mut self, key: String, bytes: &[u8]) {
        match self {
            Self::Sheet {
                pictures, files, ..
            } => {
                pictures.push((key, bytes.len()));
                files.extend_from_slice(bytes);
            }
            Self::Centre { file, .. } => bytes.clone_into(file),
            _ => {}
        }
    }
}

/// What is heard of a task.
#[derive(Clone, Debug, PartialEq)]
pub enum WorkEvent {
    /// The share that is done, 0 to 1.
    Progress(f32),
    /// It is done; nothing follows.
    Done(Vec<u8>),
    /// It came to nothing, with what to do; nothing follows.
    Failed(Message),
}

/// A task under way; it is given up when this is dropped, and nothing more
/// is heard of it.
#[must_use = "the task is given up when this is dropped"]
pub struct WorkHandle(Option<Box<dyn FnOnce()>>);

impl WorkHandle {
    /// A handle whose task is given up by `stop`.
    pub fn stopped_by(stop: impl FnOnce() + 'static) -> Self {
        Self(Some(Box::new(stop)))
    }
}

impl Drop for WorkHandle {
    fn drop(&mut self) {
        if let Some(stop) = self.0.take() {
            stop();
        }
    }
}

/// The worker.
pub trait Work {
    /// Starts a task; `told` hears of it until it is done, has failed or was
    /// given up. A worker that died is replaced for the next task.
    fn start(&self, task: Task, told: Told<WorkEvent>) -> WorkHandle;
}

/// What is said when the worker died over a task.
pub(super) fn stopped(why: &str) -> WorkEvent {
    WorkEvent::Failed(msg("work-stopped").text("why", why))
}
