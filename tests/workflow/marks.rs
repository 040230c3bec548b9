//! The mark-out around the half widths: areas and limits, locks, marks that
//! break a rule, and nothing drilled by them.

use rakeline::driver::{CheckIntent, Intent, MarkOutIntent};
use rakeline_core::decide::look_behind::Behind;
use rakeline_core::decide::mark_out::{NoDrillReason, PlanKind};
use rakeline_core::job::{
    self, AgreedHow, BehindEvent, Field, Hole, HolesEvent, JobEvent, Limit, WayChange, Whose,
};
use rakeline_core::text::{Arg, Message};
use rakeline_core::units::{Millimetres, Offset};

use crate::bench::Bench;
use crate::scenario;

pub fn mark_out(bench: &mut Bench, intent: MarkOutIntent) {
    bench.send(Intent::MarkOut(intent));
}

pub fn typed(bench: &mut Bench, field: Field, text: &str) {
    bench.send(Intent::Type(field, text.to_owned()));
}

pub fn fit(bench: &mut Bench, event: JobEvent) {
    bench.send(Intent::Fit(Box::new(event)));
}

pub fn marks(bench: &Bench) -> Vec<f64> {
    let marks = bench.job().marks.as_ref().expect("marks");
    marks.offsets.iter().map(|at| at.0).collect()
}

pub fn area(bench: &mut Bench, from: f64, to: f64) {
    typed(bench, Field::NoDrillFrom, &from.to_string());
    typed(bench, Field::NoDrillTo, &to.to_string());
    mark_out(bench, MarkOutIntent::AddNoDrill(NoDrillReason::Plate));
}

fn limit(bench: &mut Bench, limit: Limit, value: &str) {
    typed(bench, Field::Limit(limit), value);
    mark_out(bench, MarkOutIntent::ChangeLimit(limit));
}

/// A job whose first hole can be drilled.
pub fn ready_to_drill() -> Bench {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    for angle in ["5.5", "4.0", "4.0", "5.5"] {
        scenario::type_face(&mut bench, angle, job::Facing::Down, "0.3");
    }
    let clear = BehindEvent::Seen(Whose::Bumper, Behind::SeenAndClear);
    fit(&mut bench, JobEvent::Behind(clear));
    typed(&mut bench, Field::Depth(Whose::Bumper), "62");
    typed(&mut bench, Field::ReachPastTeeth, "16");
    fit(&mut bench, JobEvent::Holes(HolesEvent::CautionsHeeded));
    for spot in 0..4 {
        bench.send(Intent::Check(CheckIntent::Seen(spot)));
    }
    assert!(matches!(job::hole(bench.job(), 0), Hole::Plan(_)));
    bench
}

/// What the tape reads at every mark, to the millimetre.
pub fn tape_as_planned(bench: &mut Bench) {
    for (spot, at) in (0_u8..).zip(marks(bench)) {
        typed(bench, Field::TapeMark(spot), &at.abs().to_string());
    }
}

/// Tries what is done by the marks; gives what is said each time.
fn tried(bench: &mut Bench) -> Vec<String> {
    tape_as_planned(bench);
    typed(bench, Field::AgreedName, "B. Fell");
    let intents = [
        Intent::Check(CheckIntent::TapeReady),
        Intent::Check(CheckIntent::Agree(AgreedHow::Here)),
        Intent::Fit(Box::new(JobEvent::Holes(HolesEvent::HoleDrilled(0)))),
    ];
    intents
        .into_iter()
        .map(|intent| {
            bench.app.notice = None;
            bench.send(intent);
            bench.notice().unwrap_or_default().to_owned()
        })
        .collect()
}

pub fn text_of(message: &Message, name: &str) -> Option<String> {
    let arg = message.args.iter().find(|(key, _)| key == name);
    match &arg?.1 {
        Arg::Text(text) => Some(text.clone()),
        _ => None,
    }
}

#[test]
fn nothing_is_checked_agreed_or_drilled_by_marks_of_other_half_widths() {
    let mut bench = ready_to_drill();
    typed(&mut bench, Field::HalfLeft, "905");
    assert_eq!(tried(&mut bench), ["marks-stale-first"; 3]);
    let job = bench.job();
    assert!(job.holes.drilled.is_empty() && job.check.agreed.is_none());
    assert_eq!(job::tape_checked(job), None);
    typed(&mut bench, Field::HalfLeft, "871");
    assert_eq!(tried(&mut bench), [""; 3], "as they were");
    assert!(bench.job().holes.drilled.contains_key(&0));
}

#[test]
fn nothing_is_checked_agreed_or_drilled_by_marks_that_break_a_rule() {
    let mut bench = ready_to_drill();
    let third = marks(&bench)[2];
    area(&mut bench, third - 10.0, third + 10.0);
    assert_eq!(tried(&mut bench), ["marks-broken-first"; 3]);
    mark_out(&mut bench, MarkOutIntent::TakeNoDrill(0));
    assert_eq!(tried(&mut bench), [""; 3]);
}

#[test]
fn what_is_drilled_already_does_not_shut_the_other_holes() {
    let mut bench = ready_to_drill();
    fit(&mut bench, JobEvent::Holes(HolesEvent::HoleDrilled(0)));
    let first = marks(&bench)[0];
    area(&mut bench, first - 10.0, first + 10.0);
    assert!(!job::marks_broken(bench.job()).is_empty());
    assert!(matches!(job::hole(bench.job(), 1), Hole::Plan(_)));
}

#[test]
fn marks_by_hand_are_said_to_keep_every_rule_only_while_they_do() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let third = marks(&bench)[2];
    mark_out(&mut bench, MarkOutIntent::Move(2, Offset(third - 4.0)));
    let said = |bench: &Bench| job::marks_explained(bench.job())[0].key.clone();
    assert_eq!(said(&bench), "marks-by-hand");
    area(&mut bench, third - 10.0, third + 10.0);
    assert_eq!(said(&bench), "marks-by-hand-broken");
}

#[test]
fn two_marks_that_break_a_rule_are_mended_one_after_the_other() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let [second, third] = [marks(&bench)[1], marks(&bench)[2]];
    area(&mut bench, second - 10.0, second + 2.0);
    area(&mut bench, third - 2.0, third + 10.0);
    assert_eq!(job::marks_broken(bench.job()).len(), 2);
    let to = Offset(second + 40.0);
    assert!(job::would_break(bench.job(), 1, to).is_empty());
    mark_out(&mut bench, MarkOutIntent::Move(1, to));
    assert_eq!(marks(&bench)[1], to.0);
    assert_eq!(job::marks_broken(bench.job()).len(), 1);
    // Farther into the area is no mending.
    let deeper = Offset(third + 1.0);
    mark_out(&mut bench, MarkOutIntent::Move(2, deeper));
    assert_eq!(bench.notice(), Some("mark-out-breaks"));
    mark_out(&mut bench, MarkOutIntent::Move(2, Offset(third - 40.0)));
    assert!(job::marks_broken(bench.job()).is_empty());
}

#[test]
fn a_locked_mark_is_not_moved_by_hand() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let before = marks(&bench);
    mark_out(&mut bench, MarkOutIntent::Lock(1));
    let to = Offset(before[1] + 1.0);
    assert_eq!(
        job::would_break(bench.job(), 1, to)[0].key,
        "refused-mark-locked"
    );
    mark_out(&mut bench, MarkOutIntent::Move(1, to));
    assert_eq!(bench.notice(), Some("refused-mark-locked"));
    assert_eq!(marks(&bench), before);
    mark_out(&mut bench, MarkOutIntent::Unlock(1));
    mark_out(&mut bench, MarkOutIntent::Move(1, to));
    assert_eq!(marks(&bench)[1], to.0);
}

#[test]
fn two_locks_that_clash_are_named_and_one_tap_unlocks() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    for (spot, at) in [(1, -215.0), (2, 215.0)] {
        mark_out(&mut bench, MarkOutIntent::Move(spot, Offset(at)));
        mark_out(&mut bench, MarkOutIntent::Lock(spot));
    }
    limit(&mut bench, Limit::SpacingLeast, "425");
    bench.send(Intent::PlanMarks(PlanKind::Symmetric));
    assert_eq!(bench.notice(), None, "there is a plan");
    let kept = marks(&bench);
    limit(&mut bench, Limit::SpacingLeast, "440");
    bench.send(Intent::PlanMarks(PlanKind::Symmetric));
    assert_eq!(bench.notice(), Some("mark-out-locks-clash"));
    let notice = &bench.app.notice.as_ref().expect("said").message;
    assert_eq!(text_of(notice, "head").as_deref(), Some("2"), "its label");
    assert_eq!(marks(&bench), kept, "the last good plan stays");
    let ways = job::ways_out(bench.job());
    let unlocks = |spot| {
        let change = Some(WayChange::Unlock(spot));
        ways.iter().any(|way| way.change == change)
    };
    assert!(unlocks(1) && unlocks(2), "{ways:?}");
    mark_out(&mut bench, MarkOutIntent::Unlock(1));
    bench.send(Intent::PlanMarks(PlanKind::Symmetric));
    assert_eq!(bench.notice(), None);
    assert!(job::marks_broken(bench.job()).is_empty());
}

#[test]
fn a_lock_beside_an_area_gives_by_one_tap() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let last = marks(&bench)[3];
    mark_out(&mut bench, MarkOutIntent::Lock(3));
    area(&mut bench, last - 40.0, last + 4.0);
    bench.send(Intent::PlanMarks(PlanKind::Symmetric));
    assert!(bench.notice().is_some(), "no plan, and it is said");
    let ways = job::ways_out(bench.job());
    let change = Some(WayChange::Unlock(3));
    assert!(ways.iter().any(|way| way.change == change), "{ways:?}");
}

#[test]
fn areas_and_limits_that_cannot_be_are_refused_before_there_are_marks() {
    let mut bench = Bench::new();
    bench.send(Intent::StartJob(bench.new_id()));
    for (from, to, key) in [
        (60.0, -60.0, "mark-out-area-reversed"),
        (60.0, 60.0, "mark-out-area-zero-length"),
    ] {
        area(&mut bench, from, to);
        assert_eq!(bench.notice(), Some(key));
    }
    area(&mut bench, -60.0, 60.0);
    assert_eq!(bench.job().mark_out.no_drill.len(), 1);
    area(&mut bench, 40.0, 90.0);
    assert_eq!(bench.notice(), Some("mark-out-areas-overlap"));
    limit(&mut bench, Limit::CornerGapLeast, "460");
    assert_eq!(bench.notice(), Some("mark-out-limits-crossed"));
    assert_eq!(bench.job().mark_out.no_drill.len(), 1);
    assert!(bench.job().mark_out.limits.is_empty());
    // As wide as this bumper is once that is typed.
    scenario::type_half_widths(&mut bench, "871", "868");
    area(&mut bench, 800.0, 900.0);
    assert_eq!(bench.notice(), Some("mark-out-area-past-edge"));
}

#[test]
fn the_greatest_spacing_can_be_set_for_a_job_and_is_a_way_out() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let free = job::limit_value(bench.job(), Limit::SpacingGreatest);
    assert_eq!(free, None, "the sheet sets none");
    limit(&mut bench, Limit::SpacingGreatest, "250");
    let set = job::limit_value(bench.job(), Limit::SpacingGreatest);
    assert_eq!(set, Some(Millimetres(250.0)));
    bench.send(Intent::PlanMarks(PlanKind::Symmetric));
    assert!(bench.notice().is_some());
    let ways = job::ways_out(bench.job());
    let gives = |way: &job::WayOut| {
        matches!(
            way.change,
            Some(WayChange::Limit(Limit::SpacingGreatest, value)) if value.0 > 250.0
        )
    };
    assert!(ways.iter().any(gives), "{ways:?}");
    mark_out(&mut bench, MarkOutIntent::LimitsFromSheet);
    assert!(job::ways_out(bench.job()).is_empty());
}

#[test]
fn what_is_drilled_stays_when_the_rest_is_solved_around_a_new_area() {
    let mut bench = ready_to_drill();
    fit(&mut bench, JobEvent::Holes(HolesEvent::HoleDrilled(0)));
    let before = marks(&bench);
    area(&mut bench, before[2] - 10.0, before[2] + 10.0);
    bench.send(Intent::PlanMarks(PlanKind::Symmetric));
    assert_eq!(bench.notice(), Some("readings-lost"));
    let after = marks(&bench);
    assert_eq!(after[0], before[0], "its hole is there");
    assert_ne!(after[2], before[2]);
    assert!(job::marks_broken(bench.job()).is_empty());
    assert_eq!(bench.readings()[0], 1);
}

#[test]
fn a_hole_inside_an_area_leaves_the_rest_of_it_shut() {
    let mut bench = ready_to_drill();
    fit(&mut bench, JobEvent::Holes(HolesEvent::HoleDrilled(0)));
    let before = marks(&bench);
    area(&mut bench, before[0] - 40.0, before[0] + 40.0);
    area(&mut bench, before[2] - 10.0, before[2] + 10.0);
    bench.send(Intent::PlanMarks(PlanKind::Symmetric));
    let after = marks(&bench);
    assert_eq!(after[0], before[0]);
    assert_ne!(after[2], before[2]);
    assert_eq!(job::marks_broken(bench.job()).len(), 1, "the hole alone");
    assert_eq!(job::marks_fault(bench.job()), None, "nothing else is shut");
}

#[test]
fn a_drilled_mark_in_the_way_is_not_to_be_unlocked() {
    let mut bench = ready_to_drill();
    fit(&mut bench, JobEvent::Holes(HolesEvent::HoleDrilled(0)));
    mark_out(&mut bench, MarkOutIntent::Lock(0));
    limit(&mut bench, Limit::CornerGapLeast, "400");
    let ways = job::ways_out(bench.job());
    assert!(!ways.is_empty());
    let unlocks = |way: &job::WayOut| matches!(way.change, Some(WayChange::Unlock(_)));
    assert!(!ways.iter().any(unlocks), "{ways:?}");
}

#[test]
fn an_area_over_another_is_told_by_what_and_where_both_are() {
    let mut bench = Bench::new();
    bench.send(Intent::StartJob(bench.new_id()));
    area(&mut bench, 300.0, 400.0);
    area(&mut bench, -60.0, 60.0);
    area(&mut bench, 40.0, 90.0);
    let notice = &bench.app.notice.as_ref().expect("said").message;
    let said = rakeline::texts::say(notice);
    for part in ["number plate", "-60", "60 mm", "40", "90 mm"] {
        assert!(said.replace('\u{2212}', "-").contains(part), "{said}");
    }
}
