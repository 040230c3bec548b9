//! The tape read back before drilling: sides and signs, what was typed since,
//! and photos in its place.

use rakeline::driver::{CheckIntent, Intent, MarkOutIntent};
use rakeline_core::estimate::photo::result::{GapMeasured, MarkMeasured, Measured, Outcome, Zero};
use rakeline_core::job::{self, CardPhotosEvent, Field, JobEvent, ShapeFrom, TapeLimit};
use rakeline_core::units::{Degrees, Estimate, Millimetres, Offset};

use crate::bench::Bench;
use crate::marks::{fit, mark_out, marks, tape_as_planned, typed};
use crate::scenario;

fn at_marks() -> Bench {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    bench
}

fn ready(bench: &mut Bench) -> bool {
    bench.app.notice = None;
    bench.send(Intent::Check(CheckIntent::TapeReady));
    job::tape_checked(bench.job()).is_some()
}

#[test]
fn a_tape_above_the_line_does_not_pass_for_one_below() {
    let mut bench = at_marks();
    typed(&mut bench, Field::RowFromLine, "-70");
    mark_out(&mut bench, MarkOutIntent::TakeRow(None));
    tape_as_planned(&mut bench);
    for spot in 0..4 {
        typed(&mut bench, Field::TapeLine(spot), "-70");
    }
    typed(&mut bench, Field::TapeLine(2), "70");
    assert!(!ready(&mut bench));
    assert_eq!(bench.notice(), Some("tape-level-other-side"));
    typed(&mut bench, Field::TapeLine(2), "\u{2212}71,5");
    assert!(ready(&mut bench), "{:?}", bench.notice());
}

#[test]
fn a_place_on_the_tape_may_say_its_side_by_sign_or_letter() {
    let mut bench = at_marks();
    let (left, right) = (marks(&bench)[0], marks(&bench)[3]);
    let size = -left;
    let read = |bench: &Bench, spot| {
        let reading = job::tape_reading(bench.job(), spot).expect("a reading");
        reading.at.expect("a place").0
    };
    for text in [
        format!("{size}"),
        format!("-{size}"),
        format!("L {size}"),
        format!("{size} l"),
    ] {
        typed(&mut bench, Field::TapeMark(0), &text);
        assert_eq!(read(&bench, 0), left, "{text}");
    }
    typed(&mut bench, Field::TapeMark(3), &format!("R {right}"));
    assert_eq!(read(&bench, 3), right);
    typed(&mut bench, Field::TapeMark(3), &format!("-{right}"));
    assert_eq!(read(&bench, 3), -right, "on the other side");
    typed(&mut bench, Field::TapeMark(0), &format!("R {size}"));
    assert_eq!(read(&bench, 0), size);
}

#[test]
fn the_check_is_done_only_while_the_fields_say_the_same() {
    let mut bench = at_marks();
    tape_as_planned(&mut bench);
    assert!(ready(&mut bench));
    let right = bench.job().typed(Field::TapeMark(1)).to_owned();
    typed(&mut bench, Field::TapeMark(1), "260");
    assert_eq!(job::tape_checked(bench.job()), None);
    typed(&mut bench, Field::TapeMark(1), &right);
    assert!(job::tape_checked(bench.job()).is_some());
}

/// What photos would have measured, each place `off` from its mark.
fn photos(bench: &mut Bench, zero: Zero, off: [f64; 4], u: [f64; 4]) {
    let places = marks(bench);
    let mm = |x: f64| Estimate::new(Millimetres(x), Millimetres(0.4));
    let measured = Measured {
        zero,
        marks: (0..4)
            .map(|mark| MarkMeasured {
                mark,
                straight: Some(Estimate::new(
                    Offset(places[mark] + off[mark]),
                    Offset(u[mark]),
                )),
                along: None,
                forward: None,
                turn: None,
            })
            .collect(),
        gaps: Vec::new(),
        width: GapMeasured {
            left: 0,
            right: 3,
            chord: mm(1000.0),
            along: mm(1000.0),
            straight: None,
        },
        evenness: None,
        symmetry: None,
        edited: Vec::new(),
        left_over: 0.1,
    };
    let outcome = Outcome {
        measured,
        heads: Vec::new(),
        below_line: (0..4).map(|mark| (mark, mm(70.6))).collect(),
        views: Vec::new(),
    };
    fit(
        bench,
        JobEvent::Cards(CardPhotosEvent::Measured(Box::new(outcome))),
    );
}

#[test]
fn what_the_photos_measured_stands_for_the_tape() {
    let mut bench = at_marks();
    typed(&mut bench, Field::RowFromLine, "-70");
    mark_out(&mut bench, MarkOutIntent::TakeRow(None));
    bench.send(Intent::Check(CheckIntent::TakePhotos));
    assert_eq!(bench.notice(), Some("tape-photos-none"));
    photos(
        &mut bench,
        Zero::CentreMark,
        [0.6, -0.5, 1.2, 0.0],
        [0.5; 4],
    );
    bench.send(Intent::Check(CheckIntent::TakePhotos));
    let view = job::check_view(bench.job()).expect("marks");
    let level = view.tape.level.expect("heights");
    assert!((level.0 - 0.6).abs() < 1e-9, "{level:?}");
    assert!(ready(&mut bench), "{:?}", bench.notice());
}

#[test]
fn photos_that_know_a_mark_too_poorly_or_no_centre_line_do_not_stand_for_it() {
    let mut bench = at_marks();
    photos(&mut bench, Zero::CentreMark, [0.0; 4], [0.5, 0.5, 1.6, 0.5]);
    bench.send(Intent::Check(CheckIntent::TakePhotos));
    assert_eq!(bench.notice(), Some("tape-photos-left"));
    assert_eq!(bench.job().typed(Field::TapeMark(2)), "");
    assert_ne!(bench.job().typed(Field::TapeMark(1)), "");
    assert!(!ready(&mut bench), "one mark is open");
    let mut bench = at_marks();
    photos(&mut bench, Zero::TwoHalves, [3.0; 4], [0.5; 4]);
    bench.send(Intent::Check(CheckIntent::TakePhotos));
    assert_eq!(bench.notice(), Some("tape-photos-no-centre"));
    assert_eq!(bench.job().typed(Field::TapeMark(0)), "");
}

#[test]
fn photos_whose_shape_folds_back_say_so_and_where() {
    let mut bench = at_marks();
    photos(&mut bench, Zero::CentreMark, [0.0; 4], [0.5; 4]);
    let mut outcome = bench.job().card_photos.outcome.clone().expect("figures");
    for (mark, turn) in outcome
        .measured
        .marks
        .iter_mut()
        .zip([-96.0, -4.0, 4.0, 30.0])
    {
        let along = mark.straight.expect("a place").value.0;
        mark.along = Some(Estimate::new(Millimetres(along), Millimetres(0.5)));
        mark.turn = Some(Estimate::new(Degrees(turn), Degrees(1.0)));
    }
    let measured = CardPhotosEvent::Measured(Box::new(outcome));
    fit(&mut bench, JobEvent::Cards(measured));
    let lines = job::photo_lines(bench.job());
    assert!(
        lines.iter().any(|line| line.key == "cards-no-shape"),
        "{lines:?}"
    );
    let chosen = CardPhotosEvent::ShapeChosen(ShapeFrom::Photos);
    fit(&mut bench, JobEvent::Cards(chosen));
    assert_eq!(bench.notice(), Some("shape-turned-too-far"));
}

#[test]
fn a_wrong_height_stands_at_its_own_field_and_leaves_the_place_read() {
    let mut bench = at_marks();
    typed(&mut bench, Field::RowFromLine, "-70");
    mark_out(&mut bench, MarkOutIntent::TakeRow(None));
    tape_as_planned(&mut bench);
    typed(&mut bench, Field::TapeLine(1), "7o");
    let view = job::check_view(bench.job()).expect("marks");
    assert!(view.typed[1].at.is_ok() && view.typed[1].from_line.is_err());
    assert!(view.tape.marks[1].error.is_some(), "the place is read");
    assert!(!ready(&mut bench));
}

fn limit(bench: &mut Bench, limit: TapeLimit, text: &str) {
    bench.app.notice = None;
    typed(bench, Field::TapeLimit(limit), text);
    mark_out(bench, MarkOutIntent::ChangeTapeLimit(limit));
}

#[test]
fn a_limit_of_the_check_changed_for_the_job_decides_and_is_undone() {
    let mut bench = at_marks();
    let off = marks(&bench)[1].abs() + 1.5;
    tape_as_planned(&mut bench);
    typed(&mut bench, Field::TapeMark(1), &off.to_string());
    assert!(ready(&mut bench), "1.5 mm is within the app's 2 mm");
    limit(&mut bench, TapeLimit::Mark, "1");
    assert_eq!(bench.notice(), None);
    assert_eq!(
        job::tape_checked(bench.job()),
        None,
        "found ready by a limit that holds no more"
    );
    assert!(!ready(&mut bench));
    assert_eq!(bench.notice(), Some("tape-mark-too-far-left"));
    let said = rakeline::texts::say(&bench.app.notice.as_ref().expect("said").message);
    assert!(said.contains("limit 1.0"), "{said}");
    let changed = job::tape_limits_changed(bench.job());
    let words: Vec<String> = changed.iter().map(rakeline::texts::say).collect();
    assert_eq!(
        words,
        ["A mark may be off 1.0 mm in this job (the app says 2.0 mm)."]
    );
    mark_out(&mut bench, MarkOutIntent::TapeLimitsFromApp);
    assert!(job::tape_limits_changed(bench.job()).is_empty());
    assert_eq!(bench.job().typed(Field::TapeLimit(TapeLimit::Mark)), "");
    assert!(ready(&mut bench), "{:?}", bench.notice());
    bench.send(Intent::Undo);
    bench.send(Intent::Undo);
    assert_eq!(job::tape_limits(bench.job()).mark, Millimetres(1.0));
    bench.send(Intent::Undo);
    assert_eq!(job::tape_limits(bench.job()).mark, Millimetres(2.0));
}

#[test]
fn every_limit_of_the_check_can_be_changed_and_stands_on_the_job_sheet() {
    let mut bench = at_marks();
    for which in TapeLimit::ALL {
        limit(&mut bench, which, "4,5");
        assert_eq!(bench.notice(), None, "{which:?}");
        assert_eq!(which.of(&job::tape_limits(bench.job())), Millimetres(4.5));
    }
    let sheet = rakeline_core::report::job_sheet(bench.job(), bench.job().changed, "UTC");
    let text = crate::sheet_text::text_of(&sheet);
    assert_eq!(
        text.matches("4.5 mm in this job (the app says").count(),
        4,
        "{text}"
    );
    let view = job::check_view(bench.job()).expect("marks");
    assert_eq!(
        view.tape.limits,
        job::tape_limits(bench.job()),
        "shown with the verdict"
    );
}

#[test]
fn a_limit_of_the_check_that_cannot_be_is_refused_with_its_range() {
    let mut bench = at_marks();
    for (text, key) in [
        ("0", "tape-limit-outside"),
        ("-1", "tape-limit-outside"),
        ("200", "tape-limit-outside"),
        ("1e999", "entry-not-a-length"),
        ("", "entry-not-a-length"),
    ] {
        limit(&mut bench, TapeLimit::Symmetry, text);
        assert_eq!(bench.notice(), Some(key), "{text}");
        assert!(bench.job().mark_out.tape_limits.is_empty(), "{text}");
    }
}

#[test]
fn photos_are_held_against_the_limits_of_the_job() {
    let mut bench = at_marks();
    photos(&mut bench, Zero::CentreMark, [0.0; 4], [0.5, 0.5, 1.6, 0.5]);
    bench.send(Intent::Check(CheckIntent::TakePhotos));
    assert_eq!(bench.job().typed(Field::TapeMark(2)), "", "\u{b1} 3.1 mm");
    limit(&mut bench, TapeLimit::Mark, "3.5");
    bench.send(Intent::Check(CheckIntent::TakePhotos));
    assert_ne!(bench.job().typed(Field::TapeMark(2)), "");
    limit(&mut bench, TapeLimit::Mark, "0.5");
    typed(&mut bench, Field::TapeMark(0), "");
    bench.send(Intent::Check(CheckIntent::TakePhotos));
    assert_eq!(bench.job().typed(Field::TapeMark(0)), "", "\u{b1} 1 mm");
    assert_eq!(bench.notice(), Some("tape-photos-left"));
}
