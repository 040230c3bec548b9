//! Faults of plugs: socket, contact, water.

use rakeline_core::decide::walk_test::Sounded::{Far, Middle, Near, Nothing};
use rakeline_core::diagnose::Cause;
use rakeline_core::job::{Answered, Field, Finding, Symptom, Where};

use super::{Case, Record, case};

/// All of them.
pub(super) fn all() -> Vec<Case> {
    let lists = [socket(), loose(), water()];
    lists.into_iter().flatten().collect()
}

fn socket() -> Vec<Case> {
    use Answered::{Nothing as Silent, Shown};
    use Symptom::{DeadHead, MissesMiddle, OneSide};
    let cause = Cause::Socket;
    vec![
        case(
            "head 3 silent, plug not in its socket",
            Record::right()
                .answers(&[(0, Shown(0)), (1, Shown(1)), (2, Silent), (3, Shown(3))])
                .does_at(DeadHead, Where::Head(2)),
            cause,
        ),
        case(
            "1 and 4 swapped by the order of answers",
            Record::right()
                .answers(&[(0, Shown(3)), (1, Shown(1)), (2, Shown(2)), (3, Shown(0))])
                .does(OneSide),
            cause,
        ),
        case(
            "never recorded, plug out",
            Record::elsewhere()
                .does(DeadHead)
                .not_so(Finding::PlugRight),
            cause,
        ),
        case(
            "never recorded, dead head, nothing looked at yet",
            Record::elsewhere().does(DeadHead),
            cause,
        ),
        case(
            "misses the middle, 2 and 3 silent",
            Record::right()
                .answers(&[(0, Shown(0)), (1, Silent), (2, Silent), (3, Shown(3))])
                .walked(
                    [
                        Near, Nothing, Near, Middle, Nothing, Middle, Far, Nothing, Far,
                    ]
                    .map(Some),
                )
                .does(MissesMiddle),
            cause,
        ),
    ]
}

fn loose() -> Vec<Case> {
    use Answered::{Nothing as Silent, Shown};
    use Symptom::{DeadHead, OneSide, WetAlarm};
    let cause = Cause::LooseConnector;
    vec![
        case(
            "moving the lead changes it",
            Record::right()
                .does_at(DeadHead, Where::Head(1))
                .so_at(Finding::WiggleChanges, 1),
            cause,
        ),
        case(
            "the lead does not reach, head silent, plug in its socket",
            Record::right()
                .typed(Field::Route(rakeline_core::job::WhichLead::Spot(3)), "4200")
                .typed(Field::GrommetToBox, "900")
                .answers(&[(0, Shown(0)), (1, Shown(1)), (2, Shown(2)), (3, Silent)])
                .does_at(DeadHead, Where::Head(3))
                .so_at(Finding::PlugRight, 3),
            cause,
        ),
        case(
            "never recorded, one side comes and goes",
            Record::elsewhere()
                .does_at(OneSide, Where::Left)
                .so(Finding::WiggleChanges),
            cause,
        ),
        case(
            "in the wet, and when it is moved",
            Record::right()
                .does(WetAlarm)
                .so(Finding::WiggleChanges)
                .not_so(Finding::WaterSeen),
            cause,
        ),
    ]
}

fn water() -> Vec<Case> {
    use Symptom::{ConstantAlarm, DeadHead, WetAlarm};
    let cause = Cause::Water;
    vec![
        case(
            "sounds in rain, green in the plug",
            Record::right().does(WetAlarm).so_at(Finding::WaterSeen, 2),
            cause,
        ),
        case(
            "never recorded, goes when dried",
            Record::elsewhere().does(WetAlarm).so(Finding::GoesWhenDry),
            cause,
        ),
        case(
            "nothing but rain",
            Record::elsewhere().does(WetAlarm),
            cause,
        ),
        case(
            "nothing but rain, all right by the record",
            Record::right().all_answer().does(WetAlarm),
            cause,
        ),
        case(
            "dead after a wash",
            Record::right()
                .does_at(DeadHead, Where::Head(0))
                .so_at(Finding::WaterSeen, 0),
            cause,
        ),
        case(
            "frozen, sounds all the time",
            Record::bare()
                .does(ConstantAlarm)
                .does(WetAlarm)
                .so(Finding::GoesWhenDry),
            cause,
        ),
    ]
}
