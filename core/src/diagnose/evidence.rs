//! Evidence: what is said, how much it weighs, where it comes from.

use crate::job::{Finding, JobState, YesNo};
use crate::text::{Message, msg};

use super::cause::Cause;
use super::weights::FINDINGS;

/// Where evidence comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum From {
    /// How often the cause is met at all.
    Prior,
    /// How the cause fits a symptom.
    Symptom,
    /// The job's record: plans, readings, tests.
    Record,
    /// Predicted from the record: what the heads should see.
    Prediction,
    /// Found at the car.
    Car,
}

/// A piece of evidence.
#[derive(Clone, Debug, PartialEq)]
pub struct Evidence {
    /// Weight in decibans: + for the cause, - against it.
    pub points: i16,
    /// What is said.
    pub said: Message,
    /// Where it comes from.
    pub from: From,
}

/// What is found for one cause at one place.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Gathered {
    /// What speaks for and against it.
    pub evidence: Vec<Evidence>,
    /// What is not known.
    pub unknown: Vec<Message>,
}

impl Gathered {
    /// Adds what the record says; nothing when it weighs nothing.
    pub fn record(&mut self, points: i16, said: Message) {
        if points != 0 {
            self.evidence.push(Evidence {
                points,
                said,
                from: From::Record,
            });
        }
    }

    /// Adds what is predicted; nothing when it weighs nothing.
    pub fn predicted(&mut self, points: i16, said: Message) {
        if points != 0 {
            self.evidence.push(Evidence {
                points,
                said,
                from: From::Prediction,
            });
        }
    }

    /// Adds what was found at the car.
    pub fn car(&mut self, points: i16, said: Message) {
        if points != 0 {
            self.evidence.push(Evidence {
                points,
                said,
                from: From::Car,
            });
        }
    }

    /// Adds what is not known.
    pub fn not_known(&mut self, what: Message) {
        if !self.unknown.contains(&what) {
            self.unknown.push(what);
        }
    }

    /// Adds all of another.
    pub fn join(&mut self, other: Self) {
        self.evidence.extend(other.evidence);
        for what in other.unknown {
            self.not_known(what);
        }
    }

    /// The sum of the weights.
    pub fn points(&self) -> i32 {
        let all = self.evidence.iter();
        all.map(|evidence| i32::from(evidence.points)).sum()
    }
}

/// The head's label.
pub(super) fn label(job: &JobState, spot: u8) -> String {
    let spot = job.spots.get(usize::from(spot));
    spot.map_or_else(String::new, |spot| spot.label.clone())
}

/// Whether this job's record says anything of the vehicle: what a job only
/// starts with is no evidence.
pub(super) fn is_recorded(job: &JobState) -> bool {
    job.fault.elsewhere.is_none()
        && (job.marks.is_some() || job.read_count() > 0 || !job.holes.drilled.is_empty())
}

/// What was answered at the car about a cause, for a head or the vehicle.
pub(super) fn answers(job: &JobState, cause: Cause, spot: Option<u8>) -> Gathered {
    let mut all = Gathered::default();
    for says in &FINDINGS {
        let weight = |list: &[(Cause, i16)]| {
            let named = list.iter().find(|(named, _)| *named == cause);
            named.map_or(0, |(_, points)| *points)
        };
        let (yes, no) = (weight(says.yes), weight(says.no));
        if yes == 0 && no == 0 {
            continue;
        }
        for (at, answer) in asked(job, says.finding, cause, spot) {
            let points = match answer {
                YesNo::Yes => yes,
                YesNo::No => no,
            };
            all.car(points, said(job, says.finding, at, answer));
        }
    }
    all
}

/// The answers that count for a cause at a place. At a head: the head's own,
/// else the vehicle's. For a cause of the vehicle: every head's.
fn asked(
    job: &JobState,
    finding: Finding,
    cause: Cause,
    spot: Option<u8>,
) -> Vec<(Option<u8>, YesNo)> {
    if cause.is_at_head() {
        let answer = job.fault.answer(finding, spot);
        // It stands where it was given: for this head or for the vehicle.
        let found = &job.fault.found;
        let own = found.iter().any(|f| f.finding == finding && f.spot == spot);
        let at = spot.filter(|_| own);
        return answer.map(|answer| (at, answer)).into_iter().collect();
    }
    let mut all: Vec<(Option<u8>, YesNo)> = Vec::new();
    for found in job.fault.found.iter().filter(|f| f.finding == finding) {
        // The same answer at several heads says it once.
        if !all.iter().any(|(_, answer)| *answer == found.answer) {
            all.push((found.spot, found.answer));
        }
    }
    all
}

fn said(job: &JobState, finding: Finding, spot: Option<u8>, answer: YesNo) -> Message {
    let words = msg(match answer {
        YesNo::Yes => "evidence-found-yes",
        YesNo::No => "evidence-found-no",
    });
    let place = match spot.filter(|_| finding.has_head()) {
        Some(spot) => msg("evidence-at-head").text("label", label(job, spot)),
        None => msg("evidence-at-vehicle"),
    };
    words
        .message("question", finding.message())
        .message("place", place)
}
