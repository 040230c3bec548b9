//! Test records for the diagnosis: jobs with one or two seeded faults, and
//! what should stand where in the list. All vehicles are made up.

mod bars;
mod build;
mod by_chance;
mod one;
mod two;

pub use bars::bars;
pub use build::Record;
pub use by_chance::by_chance;
pub use one::one_fault;
pub use two::two_faults;

use rakeline_core::diagnose::{Cause, diagnose};
use rakeline_core::job::JobState;

/// A record with its seeded faults.
pub struct Case {
    /// What was done to the vehicle.
    pub name: String,
    /// The record.
    pub job: JobState,
    /// The seeded faults.
    pub seeded: Vec<Cause>,
}

impl Case {
    fn new(name: &str, record: Record, seeded: &[Cause]) -> Self {
        Self {
            name: name.to_owned(),
            job: record.job,
            seeded: seeded.to_vec(),
        }
    }

    /// The place of each seeded fault in the list, 1 for the first.
    #[must_use]
    pub fn places(&self) -> Vec<usize> {
        let suspects = diagnose(&self.job).suspects;
        let place = |cause: &Cause| {
            let at = suspects.iter().position(|suspect| suspect.cause == *cause);
            at.map_or(usize::MAX, |at| at + 1)
        };
        self.seeded.iter().map(place).collect()
    }

    /// Whether one fault stands first or second, two both in the first three.
    #[must_use]
    pub fn is_found(&self) -> bool {
        let deepest = if self.seeded.len() > 1 { 3 } else { 2 };
        self.places().iter().all(|place| *place <= deepest)
    }

    /// The list in short, for a test that fails.
    #[must_use]
    pub fn list(&self) -> String {
        let suspects = diagnose(&self.job).suspects;
        let first: Vec<String> = suspects
            .iter()
            .take(5)
            .map(|suspect| format!("{:?} {}", suspect.cause, suspect.points))
            .collect();
        format!("{}: {:?} in {}", self.name, self.seeded, first.join(", "))
    }
}
