//! What earlier jobs of the model took: working minutes and parts, as median
//! and range. It fills the quote until this vehicle decides.

use serde::{Deserialize, Serialize};

use super::agreed::{Agrees, faces_agree, halves_agree};
use super::entry::WhichLead;
use super::loom::{lead_plan, leads_of};
use super::quote::parts_planned;
use super::state::JobState;
use crate::decide::parts::{LeadKind, Part, PartLine, add};
use crate::text::{Message, msg};

/// How much of something earlier jobs took.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Amount {
    /// Half of the jobs took no more.
    pub median: u32,
    /// The least of them.
    pub least: u32,
    /// The most.
    pub greatest: u32,
    /// Jobs counted.
    pub jobs: u16,
}

/// What earlier jobs took.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Took {
    /// Working minutes of all stages; `None` where none were counted.
    pub minutes: Option<Amount>,
    /// Parts, all but kit and fuse.
    pub parts: Vec<(Part, Amount)>,
}

impl Took {
    /// Finished jobs that it counts.
    #[must_use]
    pub fn jobs(&self) -> u16 {
        let parts = self.parts.iter().map(|(_, amount)| amount.jobs);
        let minutes = self.minutes.iter().map(|amount| amount.jobs);
        parts.chain(minutes).max().unwrap_or_default()
    }

    /// Each in words, with its range.
    #[must_use]
    pub fn words(&self) -> Vec<Message> {
        let range = |words: Message, amount: &Amount| {
            words
                .count("least", i64::from(amount.least))
                .count("greatest", i64::from(amount.greatest))
        };
        let mut says = Vec::new();
        if let Some(minutes) = &self.minutes {
            let words = msg("again-minutes").count("median", i64::from(minutes.median));
            says.push(range(words, minutes));
        }
        for (part, amount) in &self.parts {
            let said = |key: &'static str| {
                msg(key)
                    .count("count", i64::from(amount.median))
                    .message("part", part.message())
            };
            says.push(if amount.least == amount.greatest {
                said("again-part")
            } else {
                range(said("again-part-range"), amount)
            });
        }
        says
    }
}

/// The parts that a quote counts: as decided on this vehicle and, of what is
/// not decided yet, as many as the median of the earlier jobs. Nothing is
/// added once this vehicle disagrees with them.
#[must_use]
pub fn parts_quoted(job: &JobState) -> Vec<PartLine> {
    let mut lines = parts_planned(job);
    let no = |agrees: Agrees| matches!(agrees, Agrees::No(_));
    if job.before.took.parts.is_empty() || no(halves_agree(job)) || no(faces_agree(job)) {
        return lines;
    }
    for (part, amount) in &job.before.took.parts {
        if amount.median == 0 || !is_open(job, part) {
            continue;
        }
        match lines.iter_mut().find(|line| line.part == *part) {
            Some(line) => line.count = line.count.max(amount.median),
            None => add(&mut lines, part.clone(), amount.median),
        }
    }
    lines
}

/// Whether it is still open on this vehicle how many of a part it takes.
fn is_open(job: &JobState, part: &Part) -> bool {
    match part {
        Part::Ring { kit, .. } | Part::Insert { kit, .. } => {
            *kit == job.kit.name && !job.all_read()
        }
        Part::Extension { kit, of } | Part::LongLead { kit, of } => {
            let mut leads = leads_of(job).into_iter();
            let open = |which: WhichLead| {
                kind_of(which) == *of && !matches!(lead_plan(job, which), Some(Ok(_)))
            };
            *kit == job.kit.name && leads.any(open)
        }
        Part::Kit { .. } | Part::Fuse(_) | Part::Other(_) => false,
    }
}

fn kind_of(which: WhichLead) -> LeadKind {
    match which {
        WhichLead::Spot(_) => LeadKind::Head,
        WhichLead::Display => LeadKind::Display,
        WhichLead::Speaker => LeadKind::Speaker,
        WhichLead::Supply => LeadKind::Supply,
    }
}
