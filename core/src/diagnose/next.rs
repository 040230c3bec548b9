//! Which question to ask next at the car.

use super::weigh::{Diagnosis, Suspect};
use crate::job::{Finding, JobState};

/// A question with the suspect that it settles.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// What is asked.
    pub finding: Finding,
    /// The head that it is asked for; `None` for the vehicle, or for all heads.
    pub spot: Option<u8>,
    /// The suspect that asks.
    pub suspect: Suspect,
}

/// The open question of the likeliest suspect that has one, the passed ones
/// left out. `None` where every suspect worth a look was asked about.
#[must_use]
pub fn next_question(
    job: &JobState,
    diagnosis: &Diagnosis,
    passed: &[(Finding, Option<u8>)],
) -> Option<Question> {
    let suspects = diagnosis.suspects.iter();
    let open = suspects.filter(|suspect| !suspect.is_ruled_out());
    open.map(|suspect| {
        let finding = suspect.cause.settled_by();
        let spot = suspect.first_head.filter(|_| finding.has_head());
        Question {
            finding,
            spot,
            suspect: suspect.clone(),
        }
    })
    .find(|asked| {
        job.fault.answer(asked.finding, asked.spot).is_none()
            && !passed.contains(&(asked.finding, asked.spot))
    })
}
