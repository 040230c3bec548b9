//! Why a system gives false alarms.

use rakeline_core::diagnose::{self, Evidence};
use rakeline_words::say;

use crate::Fault;
use crate::fault::listed;
use crate::record::job_of;

/// A possible cause with what was weighed.
#[derive(Clone, Debug, PartialEq, uniffi::Record)]
pub struct Suspect {
    /// Its name, with the heads where that is known.
    pub name: String,
    /// Prior, symptoms and evidence together, decibans.
    pub points: i32,
    /// What speaks for it, the heaviest first.
    pub for_it: Vec<String>,
    /// What speaks against it.
    pub against: Vec<String>,
    /// What is not known.
    pub unknown: Vec<String>,
}

/// The suspects and what to say about the whole.
#[derive(Clone, Debug, PartialEq, uniffi::Record)]
pub struct Diagnosis {
    /// What the order goes by.
    pub outcome: String,
    /// Possible causes, the likeliest first; none before a symptom is said.
    pub suspects: Vec<Suspect>,
    /// What contradicts itself or the record.
    pub contradictions: Vec<String>,
}

/// Weighs every cause for what the job's record says of its fault.
///
/// # Errors
/// [`Fault::Unreadable`] for a record that is none.
#[uniffi::export]
pub fn diagnose(record: &str) -> Result<Diagnosis, Fault> {
    let job = job_of(record)?;
    let found = diagnose::diagnose(&job);
    let said = |evidence: &[Evidence]| evidence.iter().map(|one| say(&one.said)).collect();
    Ok(Diagnosis {
        outcome: say(&found.outcome),
        suspects: found
            .suspects
            .iter()
            .map(|suspect| Suspect {
                name: say(&suspect.name(&job)),
                points: suspect.points,
                for_it: said(&suspect.for_it),
                against: said(&suspect.against),
                unknown: listed(&suspect.unknown),
            })
            .collect(),
        contradictions: listed(&found.contradictions),
    })
}
