//! Marks that move, alone, with the whole row, or away from a face that no
//! ring set serves: what belongs to them is void, the rest stays.

use rakeline::driver::{CheckIntent, Intent, MarkOutIntent};
use rakeline_core::job::{
    self, AgreedHow, Field, HolesEvent, JobEvent, MarksFrom, Row, Tape, height_fault,
};
use rakeline_core::report::job_sheet;
use rakeline_core::units::{Millimetres, Offset};

use crate::bench::Bench;
use crate::marks::{fit, mark_out, marks, ready_to_drill, tape_as_planned, typed};
use crate::scenario;

fn row(bench: &mut Bench, from_line: &str, height: &str) {
    typed(bench, Field::RowFromLine, from_line);
    typed(bench, Field::RowHeight, height);
    mark_out(bench, MarkOutIntent::TakeRow(None));
}

/// Tape read back, the customer's word, every mark seen from behind.
fn checked(bench: &mut Bench) {
    tape_as_planned(bench);
    if let Some(row) = bench.job().mark_out.row {
        for spot in 0..4 {
            typed(bench, Field::TapeLine(spot), &row.from_line.0.to_string());
        }
    }
    bench.send(Intent::Check(CheckIntent::TapeReady));
    typed(bench, Field::AgreedName, "B. Fell");
    bench.send(Intent::Check(CheckIntent::Agree(AgreedHow::Here)));
    for spot in 0..4 {
        bench.send(Intent::Check(CheckIntent::Seen(spot)));
    }
    assert!(
        job::tape_checked(bench.job()).is_some(),
        "{:?}",
        bench.notice()
    );
    assert!(bench.job().check.agreed.is_some());
}

fn seen(bench: &Bench) -> Vec<usize> {
    let seen = bench.job().check.seen_behind.iter();
    seen.map(|seen| seen.spot).collect()
}

#[test]
fn a_row_height_typed_anew_voids_what_was_read_at_the_old_one() {
    let mut bench = Bench::new();
    scenario::to_rings(&mut bench);
    row(&mut bench, "-70", "540");
    assert_eq!(bench.readings(), [1, 1, 1, 1], "a first height is no move");
    checked(&mut bench);
    let before = bench.job().clone();
    // The height above the ground alone moves nothing.
    row(&mut bench, "-70", "545");
    assert_eq!(bench.readings(), [1, 1, 1, 1]);
    assert!(job::tape_checked(bench.job()).is_some());
    row(&mut bench, "-95", "545");
    assert_eq!(bench.notice(), Some("readings-lost"));
    let job = bench.job();
    assert_eq!(bench.readings(), [0, 0, 0, 0]);
    assert_eq!(
        job.marks.as_ref().map(|marks| marks.tape),
        Some(Tape::NotYet)
    );
    assert_eq!((job.check.tape_at, &job.check.agreed), (None, &None));
    assert!(job.check.seen_behind.is_empty());
    assert_eq!(job.typed(Field::TapeMark(0)), "");
    bench.send(Intent::Undo);
    assert_eq!(bench.readings(), [1, 1, 1, 1]);
    assert_eq!(bench.job().check, before.check);
    assert!(job::tape_checked(bench.job()).is_some());
    mark_out(&mut bench, MarkOutIntent::DropRow);
    assert_eq!(bench.job().mark_out.row, None);
    assert_eq!(bench.job().typed(Field::RowFromLine), "");
    assert_eq!(bench.readings(), [0, 0, 0, 0]);
}

#[test]
fn a_row_with_a_hole_in_it_stays() {
    let mut bench = ready_to_drill();
    row(&mut bench, "-70", "");
    fit(&mut bench, JobEvent::Holes(HolesEvent::HoleDrilled(0)));
    assert!(bench.job().holes.drilled.contains_key(&0));
    let stays = bench.job().mark_out.row;
    row(&mut bench, "-60", "");
    assert_eq!(bench.notice(), Some("refused-mark-drilled"));
    mark_out(&mut bench, MarkOutIntent::DropRow);
    assert_eq!(bench.notice(), Some("refused-mark-drilled"));
    assert_eq!(bench.job().mark_out.row, stays);
    assert_eq!(bench.readings(), [1, 1, 1, 1]);
    row(&mut bench, "-70", "540");
    let height = bench.job().mark_out.row.and_then(|row| row.above_ground);
    assert_eq!(height, Some(Millimetres(540.0)));
}

#[test]
fn a_row_height_that_cannot_be_says_by_how_much() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    for (line, height, key) in [
        ("-1700", "", "row-line-too-far"),
        ("-70", "5400", "row-height-outside"),
        ("-70", "-540", "row-height-outside"),
    ] {
        row(&mut bench, line, height);
        assert_eq!(bench.notice(), Some(key));
        let notice = &bench.app.notice.as_ref().expect("said").message;
        assert!(notice.args.iter().any(|(name, _)| name == "by"));
        assert_eq!(bench.job().mark_out.row, None);
    }
}

#[test]
fn a_row_too_low_or_too_high_for_the_kit_stands_on_the_job_sheet() {
    let mut bench = Bench::new();
    scenario::to_rings(&mut bench);
    let sheet = |bench: &Bench| {
        let job = bench.job();
        format!("{:?}", job_sheet(job, job.changed, "UTC"))
    };
    for (height, key) in [
        ("430", Some("row-too-low")),
        ("720", Some("row-too-high")),
        ("600", None),
    ] {
        row(&mut bench, "-70", height);
        let fault = height_fault(bench.job()).map(|fault| fault.key.into_owned());
        assert_eq!(fault.as_deref(), key);
        let text = sheet(&bench);
        assert!(text.contains("sheet-row-below"));
        for fault in ["row-too-low", "row-too-high"] {
            assert_eq!(text.contains(fault), key == Some(fault), "{height}");
        }
    }
    assert_eq!(
        bench.job().mark_out.row,
        Some(Row {
            from_line: Millimetres(-70.0),
            above_ground: Some(Millimetres(600.0)),
            line: None,
        })
    );
}

#[test]
fn a_moved_mark_voids_its_own_and_readings_at_the_others_stay() {
    let mut bench = Bench::new();
    scenario::to_rings(&mut bench);
    checked(&mut bench);
    let before = bench.job().clone();
    let to = Offset(marks(&bench)[2] - 12.0);
    mark_out(&mut bench, MarkOutIntent::Move(2, to));
    assert_eq!(bench.readings(), [1, 1, 0, 1]);
    assert_eq!(seen(&bench), [0, 1, 3]);
    let job = bench.job();
    assert_eq!((job.check.tape_at, &job.check.agreed), (None, &None));
    assert_eq!(job.typed(Field::TapeMark(2)), "", "it was the old mark's");
    assert_ne!(job.typed(Field::TapeMark(1)), "");
    bench.send(Intent::Undo);
    assert_eq!(bench.job().check, before.check);
    assert!(job::tape_checked(bench.job()).is_some());
    bench.send(Intent::Redo);
    assert_eq!(bench.job().typed(Field::TapeMark(2)), "");
}

#[test]
fn a_face_that_no_ring_serves_sends_its_mark_away_and_only_it_by_hand() {
    let mut bench = Bench::new();
    scenario::to_rings(&mut bench);
    let nudged = Offset(marks(&bench)[1] + 3.0);
    mark_out(&mut bench, MarkOutIntent::Move(1, nudged));
    bench.send(Intent::TapeOn);
    scenario::type_face(&mut bench, "1.6", job::Facing::Down, "0.3");
    assert_eq!(bench.readings(), [1, 1, 1, 1]);
    checked(&mut bench);
    let before = marks(&bench);
    mark_out(&mut bench, MarkOutIntent::AwayFrom(2));
    let after = marks(&bench);
    assert!(
        (after[2] - before[2]).abs() >= job::MOVE_AT_LEAST.0,
        "{after:?}"
    );
    for other in [0, 1, 3] {
        assert_eq!(after[other], before[other], "every other mark stays");
    }
    assert_eq!(
        bench.job().marks.as_ref().map(|marks| marks.from),
        Some(MarksFrom::Hand)
    );
    assert_eq!(bench.readings(), [1, 1, 0, 1]);
    assert_eq!(seen(&bench), [0, 1, 3]);
    assert_eq!(bench.job().check.agreed, None);
    assert_eq!(bench.job().check.tape_at, None);
    assert_eq!(bench.notice(), Some("readings-lost"));
}

#[test]
fn a_face_that_no_ring_serves_solves_a_plan_anew() {
    let mut bench = Bench::new();
    scenario::to_rings(&mut bench);
    checked(&mut bench);
    let before = marks(&bench);
    mark_out(&mut bench, MarkOutIntent::AwayFrom(2));
    let after = marks(&bench);
    assert!((after[2] - before[2]).abs() >= job::MOVE_AT_LEAST.0);
    let kept: Vec<usize> = (0..4).map(|k| usize::from(after[k] == before[k])).collect();
    assert_eq!(
        bench.readings(),
        kept,
        "readings at marks that stay are kept"
    );
    let stay: Vec<usize> = (0..4).filter(|k| after[*k] == before[*k]).collect();
    assert_eq!(seen(&bench), stay);
    assert_eq!(bench.job().check.agreed, None);
    assert_eq!(bench.job().check.tape_at, None);
}

#[test]
fn away_from_its_place_is_taken_back_by_one_undo() {
    for nudged in [false, true] {
        let mut bench = Bench::new();
        scenario::to_rings(&mut bench);
        if nudged {
            let to = Offset(marks(&bench)[1] + 3.0);
            mark_out(&mut bench, MarkOutIntent::Move(1, to));
        }
        let before = (
            marks(&bench),
            bench.job().mark_out.clone(),
            bench.readings(),
        );
        mark_out(&mut bench, MarkOutIntent::AwayFrom(2));
        assert_ne!(marks(&bench), before.0);
        bench.send(Intent::Undo);
        let after = (
            marks(&bench),
            bench.job().mark_out.clone(),
            bench.readings(),
        );
        assert_eq!(after, before);
    }
}

#[test]
fn a_drilled_hole_stays_when_another_mark_moves_away() {
    let mut bench = ready_to_drill();
    fit(&mut bench, JobEvent::Holes(HolesEvent::HoleDrilled(0)));
    let before = marks(&bench);
    mark_out(&mut bench, MarkOutIntent::AwayFrom(2));
    let after = marks(&bench);
    assert_eq!(after[0], before[0]);
    assert!((after[2] - before[2]).abs() >= job::MOVE_AT_LEAST.0);
}
