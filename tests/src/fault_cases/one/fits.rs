//! Faults of how heads sit: metal, squeezed, paint.

use rakeline_core::decide::look_behind::Obstacle;
use rakeline_core::decide::walk_test::Sounded::{Far, Middle, Near, Nothing};
use rakeline_core::diagnose::Cause;
use rakeline_core::job::{Field, Finding, RingWay, Symptom, Where};

use super::{Case, Record, case};

/// All of them.
pub(super) fn all() -> Vec<Case> {
    let lists = [metal(), metal_recorded(), tight(), paint()];
    lists.into_iter().flatten().collect()
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
