//! Several vehicles from one job: each has its own file; one list of parts.

use serde::{Deserialize, Serialize};

use super::offer::{Line, counted};
use crate::decide::parts::{PartLine, add};
use crate::job::{JobId, JobState, Standing, parts_planned};
use crate::text::{Message, msg};

/// Most vehicles of a fleet.
pub const FLEET_GREATEST: u16 = 60;

/// Vehicles of one model that are fitted alike.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Fleet {
    /// Its name in the store.
    pub id: String,
    /// What the vehicles are called.
    pub vehicle: String,
    /// How many there are.
    pub count: u16,
    /// The jobs it was planned from, then those of its vehicles so far.
    pub from: Vec<JobId>,
    /// The vehicles' own jobs, in the order in which they were begun.
    pub jobs: Vec<JobId>,
    /// Colleagues' files that it was planned from, by key.
    #[serde(default)]
    pub theirs: Vec<String>,
    /// Lines that are left out at every vehicle.
    #[serde(default)]
    pub left_out: Vec<Line>,
}

impl Fleet {
    /// How many vehicles have no job yet.
    #[must_use]
    pub fn left(&self) -> u16 {
        let begun = u16::try_from(self.jobs.len()).unwrap_or(u16::MAX);
        self.count.saturating_sub(begun)
    }

    /// '3 of 10'.
    #[must_use]
    pub fn words(&self) -> Message {
        msg("fleet-begun")
            .count("begun", counted(self.jobs.len()))
            .count("count", i64::from(self.count))
    }
}

/// How far a vehicle of a fleet is, at a glance.
#[must_use]
pub fn stands(job: &JobState) -> Message {
    let heads = counted(job.spots.len());
    let of = |key: &'static str, done: usize| {
        msg(key).count("done", counted(done)).count("heads", heads)
    };
    if job.standing == Standing::CameBack {
        msg("fleet-came-back")
    } else if job.standing == Standing::Done {
        msg("fleet-done")
    } else if !job.rings.seated.is_empty() {
        of("fleet-seated", job.rings.seated.len())
    } else if !job.holes.drilled.is_empty() {
        of("fleet-holes", job.holes.drilled.len())
    } else if job.read_count() > 0 {
        of("fleet-faces", job.read_count())
    } else if job.marks.is_some() {
        msg("fleet-marks")
    } else {
        msg("fleet-open")
    }
}

/// The parts of all vehicles of a fleet: as decided for those that were
/// begun, as the model's job took for the others.
#[derive(Clone, Debug, PartialEq)]
pub struct FleetParts {
    /// The list.
    pub lines: Vec<PartLine>,
    /// Vehicles whose parts are not decided on themselves yet.
    pub expected: u16,
}

/// The parts of a fleet; `model` is what one vehicle is expected to take.
#[must_use]
pub fn fleet_parts(fleet: &Fleet, jobs: &[JobState], model: &[PartLine]) -> FleetParts {
    let mut lines = Vec::new();
    let decided: Vec<&JobState> = jobs.iter().filter(|job| job.all_read()).collect();
    for line in decided.iter().flat_map(|job| parts_planned(job)) {
        add(&mut lines, line.part, line.count);
    }
    let known = u16::try_from(decided.len()).unwrap_or(u16::MAX);
    let expected = fleet.count.saturating_sub(known);
    for line in model.iter().filter(|_| expected > 0) {
        let count = line.count.saturating_mul(u32::from(expected));
        add(&mut lines, line.part.clone(), count);
    }
    FleetParts { lines, expected }
}
