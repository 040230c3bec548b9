//! Faults of the field and of the supply, and rarer ones.

use rakeline_core::decide::coverage::ObjectKind;
use rakeline_core::decide::supply::LampCircuit;
use rakeline_core::decide::walk_test::Sounded::Near;
use rakeline_core::diagnose::Cause;
use rakeline_core::job::{Field, Finding, Symptom, Where};

use super::{Case, Record, case};

/// All of them.
pub(super) fn all() -> Vec<Case> {
    let lists = [object(), drop(), pulsed(), others()];
    lists.into_iter().flatten().collect()
}

fn object() -> Vec<Case> {
    use Symptom::{ConstantAlarm, OneSide};
    let cause = Cause::ObjectInField;
    vec![
        case(
            "a tow hitch was recorded, the ball is on now",
            Record::right()
                .tow_hitch()
                .does(ConstantAlarm)
                .so(Finding::ObjectThere),
            cause,
        ),
        case(
            "a tow ball was said to be there",
            {
                let mut record = Record::right();
                record.job.coverage.object = Some(ObjectKind::TowBall);
                record.does(ConstantAlarm)
            },
            cause,
        ),
        case(
            "goes when the step is off",
            Record::right()
                .does_at(OneSide, Where::Right)
                .so(Finding::GoesWithoutObject),
            cause,
        ),
        case(
            "never recorded, spare wheel behind",
            Record::elsewhere()
                .does(ConstantAlarm)
                .so(Finding::ObjectThere),
            cause,
        ),
        case(
            "all is right by the record, and it sounds all the time",
            Record::right()
                .tow_hitch()
                .all_answer()
                .walked([Some(Near); 9])
                .does(ConstantAlarm),
            cause,
        ),
    ]
}

fn drop() -> Vec<Case> {
    use Symptom::{ConstantAlarm, LateWarning, LoadedAlarm};
    let cause = Cause::SupplyDrop;
    vec![
        case(
            "too few volts in reverse",
            Record::right()
                .supply("9.1", "0.05", LampCircuit::Plain)
                .does(LateWarning),
            cause,
        ),
        case(
            "a bad earth",
            Record::right()
                .supply("13.2", "1.4", LampCircuit::Plain)
                .does(ConstantAlarm),
            cause,
        ),
        case(
            "right in the workshop, not with the trailer",
            Record::right()
                .does(LoadedAlarm)
                .not_so(Finding::VoltsEnough),
            cause,
        ),
        case(
            "never recorded, metered while it is late",
            Record::elsewhere()
                .does(LateWarning)
                .not_so(Finding::VoltsEnough),
            cause,
        ),
        case(
            "starts late, goes on a steady feed, lamp plain",
            Record::right()
                .unread()
                .typed(Field::WalkStartUp, "900")
                .does(LateWarning)
                .so(Finding::GoesOnSteadyFeed)
                .not_so(Finding::FeedPulsed),
            cause,
        ),
    ]
}

fn pulsed() -> Vec<Case> {
    use Symptom::{ConstantAlarm, LateWarning};
    let cause = Cause::PulsedFeed;
    vec![
        case(
            "the lamp's feed is pulsed",
            Record::right()
                .lamp(LampCircuit::Pulsed)
                .does(ConstantAlarm),
            cause,
        ),
        case(
            "switched by a control unit",
            Record::right()
                .lamp(LampCircuit::BusControlled)
                .does(LateWarning),
            cause,
        ),
        case(
            "never recorded, goes on a steady feed",
            Record::elsewhere()
                .does(ConstantAlarm)
                .so(Finding::GoesOnSteadyFeed)
                .so(Finding::VoltsEnough),
            cause,
        ),
        case(
            "an LED lamp, no head alone does it",
            Record::right()
                .lamp(LampCircuit::Led)
                .does(LateWarning)
                .does(ConstantAlarm)
                .not_so(Finding::GoesUnplugged),
            cause,
        ),
    ]
}

fn others() -> Vec<Case> {
    use Symptom::{ConstantAlarm, DeadHead, LateWarning, MissesMiddle, SeesGround};
    vec![
        case(
            "a removable tow ball was learned, and is off",
            Record::right()
                .learned("tow ball")
                .does(ConstantAlarm)
                .not_so(Finding::LearnedSame),
            Cause::LearnedWrong,
        ),
        case(
            "heads lower than the sheet allows",
            Record::right().height(390.0).does(SeesGround),
            Cause::HeightOutside,
        ),
        case(
            "heads higher than the sheet allows",
            Record::right().height(840.0).does(LateWarning),
            Cause::HeightOutside,
        ),
        case(
            "middle heads 720 mm apart",
            Record::right()
                .marks([-680.0, -360.0, 360.0, 680.0])
                .does(MissesMiddle),
            Cause::GapBetween,
        ),
        case(
            "a large ring by hand, points too far up",
            Record::right()
                .faces([2.0, 3.0, 3.0, 2.0])
                .by_hand(1, "14", None)
                .by_hand(2, "14", None)
                .does(MissesMiddle),
            Cause::AimTooHigh,
        ),
        case(
            "the fault stays with the head",
            Record::right()
                .does_at(DeadHead, Where::Head(2))
                .so_at(Finding::StaysWithHead, 2)
                .so_at(Finding::PlugRight, 2)
                .so_at(Finding::PaintThin, 2),
            Cause::HeadBroken,
        ),
    ]
}
