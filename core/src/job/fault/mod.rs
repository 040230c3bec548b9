//! What is said and found about a fault: symptoms, answers at the car, the
//! aim of fitted heads. Facts only; what they point to is worked out in
//! [`crate::diagnose`] from the whole job.

mod finding;
mod fitted;
mod symptom;

pub use finding::{Finding, Found, YesNo};
pub use fitted::{
    BesideHead, FittedAim, ReadBeside, RingWay, beside_angle, fitted_aim, fitted_typed,
};
pub use symptom::{Symptom, Where};

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::apply::{Refusal, no_such_spot};
use super::entry::{Field, read_length};
use super::state::JobState;
use crate::estimate::rake::FaceReading;
use crate::table::Table;
use crate::text::{Message, msg};
use crate::units::Millimetres;

/// Thickest paint that is believed, mm (our own figure).
const PAINT_GREATEST: Millimetres = Millimetres(3.0);
/// Most that a loaded rear sinks, mm (our own figure).
const SINKS_GREATEST: Millimetres = Millimetres(400.0);

/// What is said and found about a fault.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct FaultState {
    /// When the job was started for a system that another fitted: only what
    /// is said and found counts.
    pub elsewhere: Option<DateTime<FixedOffset>>,
    /// What the system does, and where.
    pub symptoms: Table<Symptom, Where>,
    /// What was found at the car, at most one answer a question and head.
    pub found: Vec<Found>,
    /// Fitted heads whose aim was found, by spot.
    pub aims: Table<u8, FittedAim>,
    /// What the phone read beside fitted heads, by spot.
    pub beside: Table<u8, ReadBeside>,
}

impl FaultState {
    /// Whether a phone read the panel beside a fitted head.
    #[must_use]
    pub fn holds_readings(&self) -> bool {
        let mut beside = self.beside.values();
        beside.any(|read| read.left.is_some() || read.right.is_some())
            || self.aims.values().any(FittedAim::is_held)
    }

    /// Takes out what a phone read beside fitted heads, and what was found
    /// with it; what was typed stays.
    pub(super) fn drop_readings(&mut self) {
        self.beside.clear();
        let held = |(spot, aim): &(u8, FittedAim)| aim.is_held().then_some(*spot);
        let spots: Vec<u8> = self.aims.iter().filter_map(held).collect();
        for spot in spots {
            self.aims.remove(&spot);
        }
    }

    /// What was answered to a question: for this head, else for the vehicle.
    #[must_use]
    pub fn answer(&self, finding: Finding, spot: Option<u8>) -> Option<YesNo> {
        let at = |spot: Option<u8>| {
            let mut found = self.found.iter();
            found.find(|found| found.finding == finding && found.spot == spot)
        };
        let found = at(spot).or_else(|| at(None))?;
        Some(found.answer)
    }
}

/// Something that was said or found about a fault.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum FaultEvent {
    /// Another fitted the system.
    FittedElsewhere,
    /// The system does this, there.
    SymptomSaid(Symptom, Where),
    /// It does not after all.
    SymptomTaken(Symptom),
    /// A question was answered at the car.
    Answered(Found),
    /// It is not known after all.
    NotKnown(Finding, Option<u8>),
    /// The phone read the panel beside a fitted head; a newer reading takes
    /// the older one's place.
    BesideRead {
        /// Which head.
        spot: u8,
        /// On which side.
        side: BesideHead,
        /// What it read.
        reading: Box<FaceReading>,
    },
    /// A reading beside a head was taken out.
    BesideDropped(u8, BesideHead),
    /// The aim of a fitted head was found.
    AimFound {
        /// Which head.
        spot: u8,
        /// Read beside it.
        aim: Box<FittedAim>,
    },
    /// It was taken out.
    AimDropped(u8),
    /// Symptoms and answers are cleared for the next visit.
    Cleared,
}

pub(super) fn apply(
    next: &mut JobState,
    event: FaultEvent,
    at: DateTime<FixedOffset>,
) -> Result<(), Refusal> {
    let heads = next.spots.len();
    let known = |spot: u8| {
        if usize::from(spot) < heads {
            Ok(())
        } else {
            Err(no_such_spot(next, usize::from(spot)))
        }
    };
    match event {
        FaultEvent::FittedElsewhere => next.fault.elsewhere = Some(at),
        FaultEvent::SymptomSaid(symptom, place) => {
            if let Where::Head(spot) = place {
                known(spot)?;
            }
            next.fault.symptoms.insert(symptom, place);
        }
        FaultEvent::SymptomTaken(symptom) => {
            next.fault.symptoms.remove(&symptom);
        }
        FaultEvent::Answered(found) => {
            if let Some(spot) = found.spot {
                known(spot)?;
            }
            forget(&mut next.fault, found.finding, found.spot);
            next.fault.found.push(found);
        }
        FaultEvent::NotKnown(finding, spot) => forget(&mut next.fault, finding, spot),
        FaultEvent::BesideRead {
            spot,
            side,
            reading,
        } => {
            known(spot)?;
            *next.fault.beside.or_default(spot).on_mut(side) = Some(*reading);
            // What was found with the older reading no longer holds.
            next.fault.aims.remove(&spot);
        }
        FaultEvent::BesideDropped(spot, side) => {
            known(spot)?;
            *next.fault.beside.or_default(spot).on_mut(side) = None;
            next.fault.aims.remove(&spot);
        }
        FaultEvent::AimFound { spot, aim } => {
            known(spot)?;
            next.fault.aims.insert(spot, *aim);
        }
        FaultEvent::AimDropped(spot) => {
            next.fault.aims.remove(&spot);
            next.fault.beside.remove(&spot);
        }
        FaultEvent::Cleared => {
            next.fault = FaultState {
                elsewhere: next.fault.elsewhere,
                ..FaultState::default()
            };
        }
    }
    Ok(())
}

fn forget(fault: &mut FaultState, finding: Finding, spot: Option<u8>) {
    let same = |found: &Found| found.finding == finding && found.spot == spot;
    fault.found.retain(|found| !same(found));
}

/// A typed length above zero up to a greatest one. `None` where nothing stands.
fn length(
    job: &JobState,
    field: Field,
    greatest: Millimetres,
) -> Option<Result<Millimetres, Message>> {
    let typed = job.typed(field);
    if typed.trim().is_empty() {
        return None;
    }
    Some(read_length(typed).and_then(|length| {
        if length.0 > 0.0 && length <= greatest {
            Ok(length)
        } else {
            Err(msg("entry-length-outside")
                .number("typed", length.0, 2)
                .mm("greatest", greatest.0))
        }
    }))
}

/// Paint on a head as typed.
#[must_use]
pub fn paint_typed(job: &JobState, spot: u8) -> Option<Result<Millimetres, Message>> {
    length(job, Field::PaintOn(spot), PAINT_GREATEST)
}

/// By how much the loaded rear sinks, as typed.
#[must_use]
pub fn sinks_typed(job: &JobState) -> Option<Result<Millimetres, Message>> {
    length(job, Field::RearSinks, SINKS_GREATEST)
}

#[cfg(test)]
mod tests;
