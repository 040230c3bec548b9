//! Records by chance: a fault with what it leaves behind, on a record that is
//! whole, half or empty, with answers about other things in between.

use rakeline_core::decide::supply::LampCircuit;
use rakeline_core::diagnose::Cause;
use rakeline_core::job::{Answered, Field, Finding, RingWay, Symptom, YesNo};

use super::{Case, Record};
use crate::dice::Dice;

/// What a fault makes a system do.
fn symptoms(cause: Cause) -> &'static [Symptom] {
    use Symptom::*;
    match cause {
        Cause::AimBelowLevel => &[SeesGround, ConstantAlarm, LoadedAlarm],
        Cause::RingWrong => &[SeesGround, OneSide, ConstantAlarm, MissesMiddle],
        Cause::MetalWithoutInsert => &[ConstantAlarm, LateWarning, OneSide],
        Cause::TightFit => &[ConstantAlarm, WetAlarm, OneSide],
        Cause::ThickPaint => &[LateWarning, MissesMiddle, DeadHead],
        Cause::HeadUpsideDown => &[SeesGround, MissesMiddle],
        Cause::ObjectInField => &[ConstantAlarm, OneSide],
        Cause::Load => &[LoadedAlarm, SeesGround],
        Cause::Socket => &[DeadHead, OneSide, MissesMiddle],
        Cause::SupplyDrop => &[LateWarning, LoadedAlarm],
        Cause::PulsedFeed => &[ConstantAlarm, LateWarning],
        Cause::LooseConnector => &[DeadHead, OneSide, WetAlarm],
        Cause::Water => &[WetAlarm, DeadHead],
        Cause::LearnedWrong => &[ConstantAlarm, MissesMiddle],
        Cause::HeightOutside => &[SeesGround, LateWarning],
        Cause::GapBetween => &[MissesMiddle],
        Cause::AimTooHigh => &[MissesMiddle, LateWarning],
        Cause::HeadBroken => &[DeadHead],
    }
}

/// What a fault leaves in the record, or is found of it at the car.
fn seed(record: Record, cause: Cause, spot: u8, dice: &mut Dice) -> Record {
    use Finding as F;
    let whole = record.job.marks.is_some();
    let by_record = whole && dice.below(2) == 0;
    match cause {
        Cause::AimBelowLevel if by_record => {
            let mut faces = [-4.0, -3.5, -3.6, -4.1];
            faces[usize::from(spot)] = -9.0 - dice.below(6) as f64;
            record.faces(faces).by_hand(spot, "2", None)
        }
        Cause::AimBelowLevel => record.not_at(F::PointsUp, spot),
        Cause::RingWrong if by_record => record.beside(spot, [-4.0, -3.6], 9.0, RingWay::Lowers),
        Cause::RingWrong => record.not_at(F::RingRight, spot),
        Cause::MetalWithoutInsert => record.so(F::PanelMetal).not_at(F::InsertThere, spot),
        Cause::TightFit if by_record => record.drilled(spot, Some(20.3)),
        Cause::TightFit => record.not_at(F::SitsFree, spot),
        Cause::ThickPaint if by_record => record.typed(Field::PaintOn(spot), "0.36"),
        Cause::ThickPaint => record.not_at(F::PaintThin, spot),
        Cause::HeadUpsideDown => record.not_at(F::HeadUp, spot),
        Cause::ObjectInField => record.so(F::GoesWithoutObject),
        Cause::Load => record.so(F::OnlyLoaded),
        Cause::Socket if by_record => {
            let other = (spot + 1) % 4;
            let swapped = |s: u8| match s {
                s if s == spot => other,
                s if s == other => spot,
                s => s,
            };
            record.answers(&[0, 1, 2, 3].map(|s| (s, Answered::Shown(swapped(s)))))
        }
        Cause::Socket => record.not_at(F::PlugRight, spot),
        Cause::SupplyDrop if by_record => record.supply("9.0", "0.1", LampCircuit::Plain),
        Cause::SupplyDrop => record.not_so(F::VoltsEnough),
        Cause::PulsedFeed if by_record => record.lamp(LampCircuit::Pulsed),
        Cause::PulsedFeed => record.so(F::FeedPulsed),
        Cause::LooseConnector => record.so_at(F::WiggleChanges, spot),
        Cause::Water => record.so_at(F::WaterSeen, spot),
        Cause::LearnedWrong => record.learned("step").not_so(F::LearnedSame),
        Cause::HeightOutside if by_record => record.height(380.0),
        Cause::HeightOutside => record.not_so(F::HeightRight),
        Cause::GapBetween if by_record => record.marks([-690.0, -350.0, 350.0, 690.0]),
        Cause::GapBetween => record.not_so(F::SpacingRight),
        Cause::AimTooHigh if by_record => record.faces([4.0; 4]).by_hand(spot, "14", None),
        Cause::AimTooHigh => record.beside(spot, [9.0, 9.0], 9.0, RingWay::Lifts),
        Cause::HeadBroken => record
            .so_at(F::StaysWithHead, spot)
            .so_at(F::PlugRight, spot)
            .so_at(F::PaintThin, spot),
    }
}

/// Answers about other things, as they are on a vehicle without that fault.
fn noise(mut record: Record, seeded: &[Cause], dice: &mut Dice) -> Record {
    use Finding as F;
    let fine: [(Cause, Finding, YesNo); 11] = [
        (Cause::RingWrong, F::RingRight, YesNo::Yes),
        (Cause::HeadUpsideDown, F::HeadUp, YesNo::Yes),
        (Cause::TightFit, F::SitsFree, YesNo::Yes),
        (Cause::ThickPaint, F::PaintThin, YesNo::Yes),
        (Cause::ObjectInField, F::ObjectThere, YesNo::No),
        (Cause::Load, F::OnlyLoaded, YesNo::No),
        (Cause::Socket, F::PlugRight, YesNo::Yes),
        (Cause::SupplyDrop, F::VoltsEnough, YesNo::Yes),
        (Cause::PulsedFeed, F::FeedPulsed, YesNo::No),
        (Cause::Water, F::WaterSeen, YesNo::No),
        (Cause::HeightOutside, F::HeightRight, YesNo::Yes),
    ];
    for (cause, finding, answer) in fine {
        let said = record.job.fault.found.iter().any(|f| f.finding == finding);
        if dice.below(4) == 0 && !said && !seeded.contains(&cause) {
            record = record.found(finding, None, answer);
        }
    }
    record
}

/// So many records with one or two faults each.
#[must_use]
pub fn by_chance(count: usize, faults: usize, seed_of: u64) -> Vec<Case> {
    let mut dice = Dice(seed_of);
    (0..count)
        .map(|nth| {
            let mut record = match dice.below(4) {
                0 => Record::elsewhere(),
                1 => Record::bare(),
                _ => Record::right(),
            };
            let mut seeded: Vec<Cause> = Vec::new();
            while seeded.len() < faults {
                let cause = Cause::ALL[dice.below(Cause::ALL.len())];
                if seeded.contains(&cause) {
                    continue;
                }
                let spot = u8::try_from(dice.below(4)).unwrap_or(0);
                record = seed(record, cause, spot, &mut dice);
                let does = symptoms(cause);
                record = record.does(does[dice.below(does.len())]);
                seeded.push(cause);
            }
            let record = noise(record, &seeded, &mut dice);
            Case::new(&format!("by chance {nth}"), record, &seeded)
        })
        .collect()
}
