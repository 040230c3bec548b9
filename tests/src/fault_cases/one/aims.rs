//! Faults of where heads point: aim, ring, arrow, load.

use rakeline_core::diagnose::Cause;
use rakeline_core::job::{Field, Finding, Load, RingWay, Symptom, Where};

use super::{Case, Record, case};

/// All of them.
pub(super) fn all() -> Vec<Case> {
    let lists = [aim(), ring(), arrow(), load()];
    lists.into_iter().flatten().collect()
}

fn aim() -> Vec<Case> {
    use Symptom::{ConstantAlarm, LateWarning, SeesGround};
    let cause = Cause::AimBelowLevel;
    vec![
        case(
            "steep faces, small rings by hand",
            Record::right()
                .faces([-9.0, -8.5, -8.6, -9.2])
                .by_hand(0, "2", None)
                .by_hand(3, "2", None)
                .does(SeesGround),
            cause,
        ),
        case(
            "a face that no ring of the kit serves, fitted all the same",
            Record::right()
                .faces([-19.0, -3.5, -3.6, -4.1])
                .does(ConstantAlarm),
            cause,
        ),
        case(
            "found beside the head, planned right",
            Record::right()
                .beside(1, [-9.0, -9.5], 5.0, RingWay::Lifts)
                .does(SeesGround),
            cause,
        ),
        case(
            "never recorded, seen from the side",
            Record::elsewhere()
                .does(SeesGround)
                .not_so(Finding::PointsUp),
            cause,
        ),
        case(
            "never recorded, sounds over gravel only",
            Record::elsewhere()
                .does(SeesGround)
                .so(Finding::OnlyRoughGround)
                .so(Finding::RingRight),
            cause,
        ),
        case(
            "no readings, warns late and sees the ground, seen from the side",
            Record::right()
                .unread()
                .does(LateWarning)
                .does(SeesGround)
                .not_at(Finding::PointsUp, 2),
            cause,
        ),
    ]
}

fn ring() -> Vec<Case> {
    use Symptom::{ConstantAlarm, MissesMiddle, OneSide, SeesGround};
    let cause = Cause::RingWrong;
    vec![
        case(
            "ring of head 2 upside down, found beside it",
            Record::right()
                .beside(1, [-3.4, -3.6], 9.0, RingWay::Lowers)
                .does(SeesGround),
            cause,
        ),
        case(
            "the head's aim is lower than planned by the difference of two rings",
            Record::right()
                .beside(2, [-3.6, -3.6], 2.0, RingWay::Lifts)
                .does(SeesGround),
            cause,
        ),
        case(
            "another ring by hand at one side",
            Record::right()
                .by_hand(3, "2", None)
                .does_at(OneSide, Where::Right),
            cause,
        ),
        case(
            "never recorded, a ring is upside down",
            Record::elsewhere()
                .does(ConstantAlarm)
                .not_at(Finding::RingRight, 0),
            cause,
        ),
        case(
            "misses the middle, ring seen the wrong way up",
            Record::right()
                .all_answer()
                .does(MissesMiddle)
                .not_at(Finding::RingRight, 1),
            cause,
        ),
    ]
}

fn arrow() -> Vec<Case> {
    use Symptom::{ConstantAlarm, MissesMiddle, SeesGround};
    let cause = Cause::HeadUpsideDown;
    vec![
        case(
            "arrow found down, 'arrow up' in the record",
            Record::right().does(SeesGround).not_at(Finding::HeadUp, 0),
            cause,
        ),
        case(
            "never recorded, arrow down",
            Record::elsewhere()
                .does(MissesMiddle)
                .not_at(Finding::HeadUp, 1),
            cause,
        ),
        case(
            "half recorded, arrow down, rings right",
            Record::bare()
                .does(ConstantAlarm)
                .so(Finding::RingRight)
                .not_at(Finding::HeadUp, 2),
            cause,
        ),
    ]
}

fn load() -> Vec<Case> {
    use Symptom::{LoadedAlarm, SeesGround};
    let cause = Cause::Load;
    vec![
        case(
            "only with load",
            Record::right().does(LoadedAlarm).so(Finding::OnlyLoaded),
            cause,
        ),
        case(
            "the rear sinks far",
            Record::right()
                .typed(Field::RearSinks, "260")
                .does(LoadedAlarm),
            cause,
        ),
        case(
            "never recorded, with a trailer only",
            Record::elsewhere()
                .does(LoadedAlarm)
                .so(Finding::OnlyLoaded),
            cause,
        ),
        case(
            "a van, sees the ground when full",
            Record::right()
                .load(Load::Carrier)
                .does(SeesGround)
                .does(LoadedAlarm)
                .so(Finding::OnlyLoaded),
            cause,
        ),
        case(
            "nothing but the word",
            Record::elsewhere().does(LoadedAlarm),
            cause,
        ),
    ]
}
