//! Records with two seeded faults.

use rakeline_core::decide::supply::LampCircuit;
use rakeline_core::diagnose::Cause;
use rakeline_core::job::{Answered, Field, Finding, RingWay, Symptom, Where};

use super::{Case, Record};

/// Every one of them.
#[must_use]
pub fn two_faults() -> Vec<Case> {
    use Answered::{Nothing as Silent, Shown};
    use Symptom::{
        ConstantAlarm, DeadHead, LateWarning, LoadedAlarm, OneSide, SeesGround, WetAlarm,
    };
    vec![
        Case::new(
            "ring upside down at one head, plug out at another",
            Record::right()
                .beside(0, [-4.0, -4.1], 9.0, RingWay::Lowers)
                .answers(&[(0, Shown(0)), (1, Shown(1)), (2, Shown(2)), (3, Silent)])
                .does(SeesGround)
                .does_at(DeadHead, Where::Head(3))
                .not_at(Finding::PlugRight, 3),
            &[Cause::RingWrong, Cause::Socket],
        ),
        Case::new(
            "pulsed feed and a squeezed head",
            Record::right()
                .lamp(LampCircuit::Pulsed)
                .drilled(1, Some(20.2))
                .does(ConstantAlarm)
                .does(LateWarning),
            &[Cause::PulsedFeed, Cause::TightFit],
        ),
        Case::new(
            "water in a plug and thick paint",
            Record::right()
                .typed(Field::PaintOn(2), "0.35")
                .does(WetAlarm)
                .does(LateWarning)
                .so_at(Finding::WaterSeen, 0),
            &[Cause::Water, Cause::ThickPaint],
        ),
        Case::new(
            "metal without insert and few volts",
            Record::right_metal()
                .by_hand(0, "5", None)
                .supply("8.9", "0.1", LampCircuit::Plain)
                .does(ConstantAlarm)
                .does(LateWarning),
            &[Cause::MetalWithoutInsert, Cause::SupplyDrop],
        ),
        Case::new(
            "load, and swapped sockets",
            Record::right()
                .answers(&[(0, Shown(1)), (1, Shown(0)), (2, Shown(2)), (3, Shown(3))])
                .does(LoadedAlarm)
                .does_at(OneSide, Where::Left)
                .so(Finding::OnlyLoaded),
            &[Cause::Load, Cause::Socket],
        ),
        Case::new(
            "low aim, and a tow ball in the field",
            Record::right()
                .faces([-9.0, -8.5, -8.6, -9.2])
                .by_hand(1, "2", None)
                .does(SeesGround)
                .does(ConstantAlarm)
                .so(Finding::GoesWithoutObject),
            &[Cause::AimBelowLevel, Cause::ObjectInField],
        ),
        Case::new(
            "never recorded: arrow down, and a loose plug",
            Record::elsewhere()
                .does(SeesGround)
                .does_at(OneSide, Where::Right)
                .not_at(Finding::HeadUp, 0)
                .so_at(Finding::WiggleChanges, 3),
            &[Cause::HeadUpsideDown, Cause::LooseConnector],
        ),
        Case::new(
            "never recorded: low volts and water",
            Record::elsewhere()
                .does(LateWarning)
                .does(WetAlarm)
                .not_so(Finding::VoltsEnough)
                .so(Finding::GoesWhenDry),
            &[Cause::SupplyDrop, Cause::Water],
        ),
    ]
}
