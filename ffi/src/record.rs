//! A stored job.

use rakeline_core::job::{self, JobState};
use rakeline_core::record;

use crate::{FaceAngle, Fault, RingChoice};

/// One spot of a job.
#[derive(Clone, Debug, PartialEq, uniffi::Record)]
pub struct SpotFacts {
    /// Its head's label.
    pub label: String,
    /// Where it is marked, mm from the centre line; nothing before.
    pub mark: Option<f64>,
    /// Its face angle; nothing until it is read.
    pub face: Option<FaceAngle>,
    /// Its ring choice; nothing until the face is read.
    pub ring: Option<RingChoice>,
}

/// What a record says, in short.
#[derive(Clone, Debug, PartialEq, uniffi::Record)]
pub struct JobFacts {
    /// The job's name in the store.
    pub id: String,
    /// What the fitter calls it.
    pub name: String,
    /// The kit's name.
    pub kit: String,
    /// Spots, left to right.
    pub spots: Vec<SpotFacts>,
}

/// A job out of its record.
pub(crate) fn job_of(text: &str) -> Result<JobState, Fault> {
    record::read(text).map_err(|fault| Fault::unreadable(&fault.message()))
}

/// Reads a stored job of any known version.
///
/// # Errors
/// [`Fault::Unreadable`] with what is wrong.
#[uniffi::export]
pub fn read_record(text: &str) -> Result<JobFacts, Fault> {
    let job = job_of(text)?;
    let spots = job.spots.iter().enumerate().map(|(index, spot)| {
        let marks = job.marks.as_ref();
        let choice = job::ring_choice(&job, spot);
        SpotFacts {
            label: spot.label.clone(),
            mark: marks.and_then(|marks| marks.offsets.get(index).map(|at| at.0)),
            face: job::rake_at(&job, spot).map(FaceAngle::from),
            ring: choice.map(|choice| RingChoice::of(&job.kit, choice)),
        }
    });
    Ok(JobFacts {
        spots: spots.collect(),
        id: job.id.0.clone(),
        name: job.name.clone(),
        kit: job.kit.name.clone(),
    })
}
