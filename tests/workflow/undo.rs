//! One step back, as often as there were steps.

use rakeline::driver::{Intent, MarkOutIntent, UndoOf};
use rakeline::route::{Route, Step};
use rakeline_core::decide::mark_out::{NoDrillReason, PlanKind};
use rakeline_core::job::{Facing, Field, Tape};
use rakeline_core::units::Millis;

use crate::bench::Bench;
use crate::scenario::{self, FACES};

#[test]
fn every_step_can_be_taken_back_and_what_was_typed_stays() {
    let mut bench = Bench::new();
    scenario::to_rings(&mut bench);
    for left in (0..4).rev() {
        bench.send(Intent::Undo);
        assert_eq!(bench.job().read_count(), left);
    }
    let tape = |bench: &Bench| bench.job().marks.as_ref().map(|marks| marks.tape);
    assert!(matches!(tape(&bench), Some(Tape::On(_))));
    bench.send(Intent::Undo);
    assert_eq!(tape(&bench), Some(Tape::NotYet));
    bench.send(Intent::Undo);
    assert_eq!(tape(&bench), None);
    bench.send(Intent::Undo);
    assert_eq!(bench.job().typed(Field::HalfLeft), "871");
    assert_eq!(bench.job().typed(Field::HalfRight), "868");
    assert!(bench.saved());
    assert_eq!(bench.killed().app.job(), Some(bench.job()));
}

#[test]
fn a_step_taken_back_is_done_again_until_another_step_is_made() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    for (field, text) in [(Field::NoDrillFrom, "-400"), (Field::NoDrillTo, "-330")] {
        bench.send(Intent::Type(field, text.to_owned()));
    }
    let add = || Intent::MarkOut(MarkOutIntent::AddNoDrill(NoDrillReason::Plate));
    bench.send(add());
    let with_area = bench.job().mark_out.clone();
    bench.send(Intent::Undo);
    assert_eq!(bench.job().typed(Field::NoDrillFrom), "-400");
    bench.send(Intent::Undo);
    assert_eq!(bench.job().marks, None);
    let revision = bench.job().revision;
    bench.send(Intent::Redo);
    bench.send(Intent::Redo);
    assert_eq!(bench.job().mark_out, with_area);
    assert_eq!(bench.job().typed(Field::NoDrillFrom), "");
    assert!(
        bench.job().revision > revision,
        "two sheets never share a number"
    );
    assert_eq!(bench.killed().app.job(), Some(bench.job()));
    let before = bench.job().clone();
    bench.send(Intent::Redo);
    assert_eq!(*bench.job(), before, "there is nothing more to do again");
    bench.send(Intent::Undo);
    bench.send(Intent::MarkOut(MarkOutIntent::Lock(0)));
    let locked = bench.job().clone();
    bench.send(Intent::Redo);
    assert_eq!(*bench.job(), locked, "another step was made since");
}

#[test]
fn a_face_taken_back_is_read_next() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.hold_to(FACES[0]);
    bench.hold_to(FACES[1]);
    bench.send(Intent::Undo);
    assert_eq!(bench.readings(), [1, 0, 0, 0]);
    assert_eq!(bench.app.reading.as_ref().map(|held| held.spot()), Some(1));
    bench.hold_to(FACES[1]);
    assert_eq!(bench.readings(), [1, 1, 0, 0]);
}

#[test]
fn marks_taken_back_while_the_faces_are_read_stop_the_sensor() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.send(Intent::Undo);
    bench.send(Intent::Undo);
    assert_eq!(bench.job().marks, None);
    assert!(!bench.phone.motion.running());
    bench.hold_to(FACES[0]);
    assert_eq!(bench.readings(), [0, 0, 0, 0]);
}

#[test]
fn a_reading_is_taken_again_and_the_old_one_comes_back_with_undo() {
    let mut bench = Bench::new();
    scenario::to_rings(&mut bench);
    let before = bench.job().spots.clone();
    bench.send(Intent::ReadAgain(2));
    assert_eq!(bench.readings(), [1, 1, 0, 1]);
    assert!(matches!(bench.app.route, Route::Job(_, Step::Faces)));
    assert!(bench.phone.motion.running());
    bench.hold_to(-2.0);
    assert_eq!(bench.readings(), [1, 1, 1, 1]);
    assert_ne!(bench.job().spots, before);
    bench.send(Intent::Undo);
    bench.send(Intent::Undo);
    assert_eq!(bench.job().spots, before);
}

#[test]
fn with_every_face_read_again_after_undo_the_sensor_is_off() {
    let mut bench = Bench::new();
    scenario::to_rings(&mut bench);
    bench.send(Intent::ReadAgain(1));
    bench.send(Intent::Undo);
    assert!(bench.job().all_read());
    assert!(!bench.phone.motion.running());
    assert!(!bench.phone.wake.held());
}

#[test]
fn a_moved_mark_voids_its_reading_and_undo_brings_it_back() {
    let mut bench = Bench::new();
    scenario::to_rings(&mut bench);
    let before = bench.job().clone();
    scenario::type_half_widths(&mut bench, "903", "900");
    bench.send(Intent::PlanMarks(PlanKind::Symmetric));
    let moved: Vec<bool> = before
        .marks
        .as_ref()
        .expect("marks")
        .offsets
        .iter()
        .zip(&bench.job().marks.as_ref().expect("marks").offsets)
        .map(|(old, new)| old != new)
        .collect();
    assert!(moved.contains(&true));
    let kept: Vec<usize> = moved.iter().map(|moved| usize::from(!moved)).collect();
    assert_eq!(bench.readings(), kept);
    assert_eq!(bench.notice(), Some("readings-lost"));
    let undo = bench
        .app
        .notice
        .as_ref()
        .and_then(|notice| notice.undo.clone());
    assert_eq!(undo, Some(UndoOf::Step));
    bench.send(Intent::Undo);
    assert_eq!(bench.job().spots, before.spots);
    assert_eq!(bench.job().marks, before.marks);
    assert_eq!(bench.job().typed(Field::HalfLeft), "903");
}

#[test]
fn a_typed_face_angle_taken_back_stands_in_its_field_again() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    scenario::type_face(&mut bench, "4.2", Facing::Down, "0.2");
    assert_eq!(bench.job().typed(Field::FaceAngle), "");
    bench.send(Intent::Undo);
    assert_eq!(bench.readings(), [0, 0, 0, 0]);
    assert_eq!(bench.job().typed(Field::FaceAngle), "4.2");
}

#[test]
fn an_issued_sheet_keeps_its_number_when_a_step_is_taken_back() {
    let mut bench = Bench::new();
    scenario::to_sheet(&mut bench);
    bench.send(Intent::Undo);
    assert_eq!(bench.job().sheets.len(), 1, "paper cannot be taken back");
    assert_eq!(bench.job().issued(), None, "it shows another job now");
    bench.pass(Millis(5000.0));
    bench.send(Intent::IssueSheet);
    assert_eq!(bench.job().issued().map(|issue| issue.number), Some(2));
}

#[test]
fn an_area_taken_back_stands_in_its_fields_again() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    bench.send(Intent::Type(Field::NoDrillFrom, "L 60".to_owned()));
    bench.send(Intent::Type(Field::NoDrillTo, "R 60".to_owned()));
    let add = MarkOutIntent::AddNoDrill(NoDrillReason::Plate);
    bench.send(Intent::MarkOut(add));
    assert_eq!(bench.job().mark_out.no_drill.len(), 1);
    assert_eq!(bench.job().typed(Field::NoDrillFrom), "");
    bench.send(Intent::Undo);
    assert_eq!(bench.job().mark_out.no_drill, []);
    assert_eq!(bench.job().typed(Field::NoDrillFrom), "L 60");
    assert_eq!(bench.job().typed(Field::NoDrillTo), "R 60");
}
