//! Records with one seeded fault.

use rakeline_core::decide::look_behind::Obstacle;
use rakeline_core::decide::supply::LampCircuit;
use rakeline_core::decide::walk_test::Sounded::{Far, Middle, Near, Nothing};
use rakeline_core::diagnose::Cause;
use rakeline_core::job::{Answered, Field, Finding, Load, RingWay, Symptom, Where};

use super::{Case, Record};

/// Every one of them.
#[must_use]
pub fn one_fault() -> Vec<Case> {
    let lists = [
        aim(),
        ring(),
        metal(),
        metal_recorded(),
        tight(),
        paint(),
        arrow(),
        object(),
        load(),
        socket(),
        drop(),
        pulsed(),
        loose(),
        water(),
        others(),
    ];
    lists.into_iter().flatten().collect()
}

fn case(name: &str, record: Record, cause: Cause) -> Case {
    Case::new(name, record, &[cause])
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

fn metal() -> Vec<Case> {
    use Symptom::{ConstantAlarm, LateWarning, OneSide};
    let cause = Cause::MetalWithoutInsert;
    vec![
        case(
            "metal, and the set by hand has no insert",
            Record::right_metal()
                .by_hand(1, "5", None)
                .does(ConstantAlarm),
            cause,
        ),
        case(
            "metal, insert recorded and not found",
            Record::right_metal()
                .does_at(OneSide, Where::Left)
                .not_at(Finding::InsertThere, 0),
            cause,
        ),
        case(
            "never recorded: magnet holds, no insert",
            Record::elsewhere()
                .does(ConstantAlarm)
                .so(Finding::PanelMetal)
                .not_so(Finding::InsertThere),
            cause,
        ),
        case(
            "metal and warns late, walk test misses the last row",
            Record::right_metal()
                .by_hand(2, "5", None)
                .walked(
                    [
                        Near, Near, Near, Middle, Middle, Middle, Nothing, Nothing, Nothing,
                    ]
                    .map(Some),
                )
                .does(LateWarning),
            cause,
        ),
        case(
            "never recorded, metal, the alarm goes with one plug out",
            Record::elsewhere()
                .does(ConstantAlarm)
                .so(Finding::PanelMetal)
                .so_at(Finding::GoesUnplugged, 2)
                .so(Finding::SitsFree),
            cause,
        ),
    ]
}

/// Metal by the record alone.
fn metal_recorded() -> Vec<Case> {
    use rakeline_core::kit::Material;
    let metal = |mut record: Record| {
        record.job.behind.material = Material::Metal;
        record
    };
    vec![
        case(
            "metal, and a kit without inserts",
            metal(Record::right()).does(Symptom::ConstantAlarm),
            Cause::MetalWithoutInsert,
        ),
        case(
            "metal, holes for bare heads, nothing read",
            Record::right_metal()
                .unread()
                .drilled(1, Some(21.0))
                .does_at(Symptom::OneSide, Where::Left),
            Cause::MetalWithoutInsert,
        ),
        case(
            "nobody said of head 3 that its arrow is up, and it sees the ground there",
            Record::right()
                .not_seated(2)
                .beside(2, [-3.6, -3.6], 9.0, RingWay::Lowers)
                .does_at(Symptom::SeesGround, Where::Head(2))
                .not_at(Finding::HeadUp, 2)
                .so_at(Finding::RingRight, 2),
            Cause::HeadUpsideDown,
        ),
    ]
}

fn tight() -> Vec<Case> {
    use Symptom::{ConstantAlarm, OneSide, WetAlarm};
    let cause = Cause::TightFit;
    vec![
        case(
            "hole smaller than needed",
            Record::right().drilled(2, Some(20.4)).does(ConstantAlarm),
            cause,
        ),
        case(
            "panel thicker than the head grips",
            Record::right()
                .panel(0, "6.5")
                .does_at(OneSide, Where::Left),
            cause,
        ),
        case(
            "squeezed by the crash beam",
            Record::right()
                .behind(1, Obstacle::CrashBeam)
                .does_at(ConstantAlarm, Where::Head(1)),
            cause,
        ),
        case(
            "sounds in frost, head sits hard",
            Record::right().does(WetAlarm).not_at(Finding::SitsFree, 3),
            cause,
        ),
        case(
            "never recorded, does not give",
            Record::elsewhere()
                .does(ConstantAlarm)
                .not_so(Finding::SitsFree),
            cause,
        ),
        case(
            "too little depth behind",
            Record::right()
                .typed(Field::Depth(rakeline_core::job::Whose::Spot(3)), "22")
                .does(ConstantAlarm),
            cause,
        ),
    ]
}

fn paint() -> Vec<Case> {
    use Symptom::{DeadHead, LateWarning, MissesMiddle};
    let cause = Cause::ThickPaint;
    vec![
        case(
            "paint over the sheet's limit",
            Record::right()
                .typed(Field::PaintOn(1), "0.31")
                .does(LateWarning),
            cause,
        ),
        case(
            "paint bridges the gap",
            Record::right()
                .does_at(DeadHead, Where::Head(2))
                .not_at(Finding::PaintThin, 2),
            cause,
        ),
        case(
            "never recorded, painted three times",
            Record::elsewhere()
                .does(LateWarning)
                .not_so(Finding::PaintThin),
            cause,
        ),
        case(
            "misses the middle, inner heads thick with paint",
            Record::right()
                .typed(Field::PaintOn(1), "0.4")
                .typed(Field::PaintOn(2), "0.4")
                .walked(
                    [
                        Near, Nothing, Near, Middle, Nothing, Middle, Far, Nothing, Far,
                    ]
                    .map(Some),
                )
                .does(MissesMiddle),
            cause,
        ),
        case(
            "no readings, paint measured at one head",
            Record::bare()
                .typed(Field::PaintOn(0), "0.5")
                .does(LateWarning),
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
