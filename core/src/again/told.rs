//! What is worth knowing beforehand: found, read and gone wrong on earlier
//! vehicles. It is told and never taken over.

use serde::{Deserialize, Serialize};

use crate::decide::look_behind::{Behind, Obstacle};
use crate::decide::ring_set::RingSet;
use crate::decide::supply::{LampCircuit, Reading};
use crate::diagnose::{Cause, diagnose};
use crate::job::{JobState, READINGS, ReadVolts, look, sets_taken, volts};
use crate::text::{Message, msg};
use crate::units::Millimetres;

/// Most visits of a job that are told, the last.
const VISITS_TOLD: usize = 3;

/// Something worth knowing beforehand that is never taken over.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Told {
    /// This was behind the bumper, or behind a head's place.
    Behind {
        /// The head's label, empty for the bumper.
        label: String,
        /// What was there.
        what: Vec<Obstacle>,
    },
    /// Free depth behind the face.
    Depth {
        /// The head's label, empty for the bumper.
        label: String,
        /// Measured.
        depth: Millimetres,
    },
    /// A reading at the supply point.
    Volts {
        /// Which.
        reading: Reading,
        /// Volts.
        volts: f64,
    },
    /// The set that went in at a head.
    Set {
        /// The head's label.
        label: String,
        /// Its set.
        set: RingSet,
    },
    /// How the reversing lamp was fed.
    Lamp(LampCircuit),
    /// The likeliest cause of a fault that was looked for.
    Fault(Cause),
    /// How often the vehicle came back.
    CameBack(u16),
    /// A visit after the hand-over, in the customer's and the fitter's words.
    /// It is told on the phone of the job alone and never passed on.
    Visit {
        /// Why the vehicle came.
        why: String,
        /// What was found and done.
        done: String,
    },
}

pub(super) fn told(job: &JobState) -> Vec<Told> {
    let mut told = Vec::new();
    let looked = look(job);
    let mut found = |label: &str, behind: Option<&Behind>, depth: Option<Millimetres>| {
        if let Some(Behind::SomethingThere(what)) = behind {
            told.push(Told::Behind {
                label: label.to_owned(),
                what: what.clone(),
            });
        }
        if let Some(depth) = depth {
            told.push(Told::Depth {
                label: label.to_owned(),
                depth,
            });
        }
    };
    found("", looked.bumper.behind.as_ref(), looked.bumper.depth);
    for (label, looked) in &looked.exceptions {
        found(label, looked.behind.as_ref(), looked.depth);
    }
    for (spot, taken) in job.spots.iter().zip(sets_taken(job)) {
        if let Some(taken) = taken {
            told.push(Told::Set {
                label: spot.label.clone(),
                set: taken.set,
            });
        }
    }
    for reading in READINGS {
        if let Some(ReadVolts::Judged(volts, _)) = volts(job, reading) {
            told.push(Told::Volts {
                reading,
                volts: volts.0,
            });
        }
    }
    told.extend(job.loom.lamp.map(Told::Lamp));
    if let Some(first) = diagnose(job).suspects.first() {
        told.push(Told::Fault(first.cause));
    }
    if !job.visits.is_empty() {
        let visits = u16::try_from(job.visits.len()).unwrap_or(u16::MAX);
        told.push(Told::CameBack(visits));
        let visits = job.visits.iter().rev().take(VISITS_TOLD);
        told.extend(visits.map(|visit| Told::Visit {
            why: visit.why.clone(),
            done: visit.done.clone(),
        }));
    }
    told
}

impl Told {
    /// In words.
    #[must_use]
    pub fn message(&self) -> Message {
        let place = |label: &String| {
            if label.is_empty() {
                msg("told-bumper")
            } else {
                msg("told-head").text("label", label.clone())
            }
        };
        match self {
            Self::Behind { label, what } => {
                let what = what.iter().map(Obstacle::message).collect();
                msg("told-behind")
                    .message("place", place(label))
                    .list("what", what)
            }
            Self::Depth { label, depth } => msg("told-depth")
                .message("place", place(label))
                .mm("depth", depth.0),
            Self::Volts { reading, volts } => msg(match reading {
                Reading::ReverseOn => "told-volts-on",
                Reading::ReverseOff => "told-volts-off",
                Reading::EarthDrop => "told-volts-earth",
            })
            .number("volts", *volts, 2),
            Self::Set { label, set } => msg("told-set")
                .text("label", label.clone())
                .message("set", set.name()),
            Self::Fault(cause) => msg("told-fault").message("cause", cause.message()),
            Self::Lamp(lamp) => msg(match lamp {
                LampCircuit::Plain => "told-lamp-plain",
                LampCircuit::Pulsed => "told-lamp-pulsed",
                LampCircuit::Led => "told-lamp-led",
                LampCircuit::BusControlled => "told-lamp-bus",
                LampCircuit::NotKnown => "told-lamp-not-known",
            }),
            Self::Visit { why, done } if done.trim().is_empty() => {
                msg("told-visit").text("why", why.clone())
            }
            Self::Visit { why, done } => msg("told-visit-done")
                .text("why", why.clone())
                .text("done", done.clone()),
            Self::CameBack(times) => msg("told-came-back").count("times", i64::from(*times)),
        }
    }
}
