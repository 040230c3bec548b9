//! Evidence about the supply: volts, earth, the lamp's feed.

use super::evidence::Gathered;
use crate::decide::supply::{Judged, LampCircuit, Reading};
use crate::job::{Answered, JobState, ReadVolts, starts_late_by, supply_drop, volts};
use crate::text::{Message, msg};

/// Too few volts at the control box.
pub(super) fn drop(job: &JobState) -> Gathered {
    let mut all = Gathered::default();
    reverse_on(job, &mut all);
    match volts(job, Reading::EarthDrop) {
        Some(ReadVolts::Judged(_, judged @ Judged::TooHigh { .. })) => {
            all.record(24, trouble(judged, Reading::EarthDrop));
        }
        Some(ReadVolts::Judged(typed, Judged::Fine)) => {
            let said = msg("evidence-earth-right").number("volts", typed.0, 2);
            all.record(-4, said);
        }
        _ => all.not_known(msg("unknown-earth")),
    }
    if let Some((_, Some(low))) = supply_drop(job) {
        all.record(20, low);
    }
    starts_late(job, &mut all);
    all_silent(job, 8, &mut all);
    all
}

fn reverse_on(job: &JobState, all: &mut Gathered) {
    match volts(job, Reading::ReverseOn) {
        Some(ReadVolts::Judged(typed, judged)) => {
            let least = job.kit.supply.as_ref().and_then(|needs| needs.least_volts);
            match (judged, least) {
                (Judged::TooLow { .. }, _) => {
                    all.record(26, trouble(judged, Reading::ReverseOn));
                }
                (Judged::Fine, Some(least)) if typed.0 < least => {
                    let said = msg("evidence-volts-below-sheet")
                        .number("volts", typed.0, 1)
                        .number("least", least, 1);
                    all.record(24, said);
                }
                (Judged::Fine, _) => {
                    all.record(-8, msg("evidence-volts-right").number("volts", typed.0, 1));
                }
                _ => all.record(4, trouble(judged, Reading::ReverseOn)),
            }
        }
        Some(ReadVolts::NotAFigure(_)) | None => all.not_known(msg("unknown-volts")),
    }
}

fn trouble(judged: Judged, reading: Reading) -> Message {
    judged.message(reading).unwrap_or_else(|| reading.name())
}

/// The lamp's feed is pulsed.
pub(super) fn pulsed(job: &JobState) -> Gathered {
    let mut all = Gathered::default();
    match job.loom.lamp {
        Some(LampCircuit::Pulsed) => all.record(24, msg("evidence-lamp-pulsed")),
        Some(LampCircuit::BusControlled) => all.record(18, msg("evidence-lamp-bus")),
        Some(LampCircuit::Led) => all.record(10, msg("evidence-lamp-led")),
        Some(LampCircuit::Plain) => all.record(-14, msg("evidence-lamp-plain")),
        Some(LampCircuit::NotKnown) | None => all.not_known(msg("unknown-lamp")),
    }
    if let Some(ReadVolts::Judged(_, judged @ Judged::TooHigh { .. })) =
        volts(job, Reading::ReverseOff)
    {
        all.record(8, trouble(judged, Reading::ReverseOff));
    }
    starts_late(job, &mut all);
    all_silent(job, 6, &mut all);
    all
}

/// Whether the time from switching on was measured, and is long.
fn starts_late(job: &JobState, all: &mut Gathered) {
    if let Some(by) = starts_late_by(job) {
        all.record(6, msg("evidence-starts-late").number("by", by.0, 0));
    }
}

/// No head answers: then it is none of the heads.
fn all_silent(job: &JobState, points: i16, all: &mut Gathered) {
    let heads = &job.walk.heads;
    let silent = heads.iter().all(|head| head.answered == Answered::Nothing);
    if heads.len() > 1 && heads.len() == job.spots.len() && silent {
        all.record(points, msg("evidence-all-silent"));
    }
}
