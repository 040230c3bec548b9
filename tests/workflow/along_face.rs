//! Distances taken along the face, turned into straight by the shape from
//! above.

use rakeline::driver::{Intent, MarkOutIntent, Measure};
use rakeline::route::Step;
use rakeline_core::decide::mark_out::NoDrillReason;
use rakeline_core::drawing::{Item, Lettering, Words, shape_from_above};
use rakeline_core::job::{self, Field, HalfWidths, Taken};
use rakeline_core::report::{Unrolled, template_facts};
use rakeline_core::units::Millimetres;

use crate::bench::Bench;
use crate::hand::{measure, sweep};
use crate::scenario;

fn mark_out(bench: &mut Bench, intent: MarkOutIntent) {
    bench.send(Intent::MarkOut(intent));
}

fn typed(bench: &mut Bench, field: Field, text: &str) {
    bench.send(Intent::Type(field, text.to_owned()));
}

/// A job whose shape from above is swept, its tape along the face.
fn swept() -> Bench {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    sweep(&mut bench, 0.0);
    bench.send(Intent::GoStep(Step::Measures));
    mark_out(&mut bench, MarkOutIntent::TakenAs(Taken::AlongFace));
    bench
}

/// The farthest half width that the swept shape reaches.
fn reach(bench: &Bench) -> f64 {
    let curve = job::plan_curve(bench.job()).expect("swept");
    let ends = curve.knots().iter().map(|knot| knot.along.0.abs());
    ends.fold(0.0, f64::max) + job::SHAPE_REACH.0 - 1.0
}

#[test]
fn without_a_shape_figures_along_the_face_do_not_count() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let marks = bench.job().marks.clone();
    mark_out(&mut bench, MarkOutIntent::TakenAs(Taken::AlongFace));
    let HalfWidths::Open { left, right } = job::half_widths(bench.job()) else {
        panic!("no half width counts");
    };
    for why in [left, right] {
        assert_eq!(why.expect("a reason").key, "taken-no-shape");
    }
    assert_eq!(
        job::no_shape(bench.job()).expect("said").key,
        "taken-no-shape"
    );
    assert_eq!(bench.job().marks, marks, "the last good plan stays");
    bench.send(Intent::Undo);
    assert!(matches!(
        job::half_widths(bench.job()),
        HalfWidths::Ready { .. }
    ));
}

#[test]
fn half_widths_along_the_face_become_straight_in_whole_millimetres() {
    let mut bench = swept();
    let along = reach(&bench).floor();
    for field in [Field::HalfLeft, Field::HalfRight] {
        typed(&mut bench, field, &along.to_string());
    }
    let HalfWidths::Ready { left, right, .. } = job::half_widths(bench.job()) else {
        panic!("both count: {:?}", job::half_widths(bench.job()));
    };
    let curve = job::plan_curve(bench.job()).expect("swept");
    let straight = curve.straight(Millimetres(along)).value.0;
    assert!(straight < along - 10.0, "the face is round");
    assert_eq!(right.0, straight.round());
    assert!((left.0 - right.0).abs() < 20.0);
    let words = job::straight_words(bench.job(), Field::HalfRight).expect("said");
    assert_eq!(words.key, "taken-is-straight");
    assert!(words.args.iter().any(|(name, _)| name == "plus"));
    bench.send(Intent::ShowMarks);
    assert_eq!(bench.job().marks.as_ref().expect("marks").half_right, right);
}

#[test]
fn beyond_the_swept_shape_nothing_is_guessed() {
    let mut bench = swept();
    let far = reach(&bench) + 3.0;
    typed(&mut bench, Field::HalfRight, &far.to_string());
    let HalfWidths::Open { right, .. } = job::half_widths(bench.job()) else {
        panic!("too far out");
    };
    assert_eq!(right.expect("a reason").key, "taken-beyond-shape");
}

#[test]
fn an_area_and_an_old_hole_along_the_face_are_kept_straight() {
    let mut bench = swept();
    typed(&mut bench, Field::NoDrillFrom, "-60");
    typed(&mut bench, Field::NoDrillTo, "500");
    mark_out(&mut bench, MarkOutIntent::AddNoDrill(NoDrillReason::Plate));
    let area = &bench.job().mark_out.no_drill[0];
    let curve = job::plan_curve(bench.job()).expect("swept");
    let straight = curve.straight(Millimetres(500.0)).value.0;
    assert_eq!(area.to.0, straight.round());
    assert!(area.to.0 < 500.0);
    typed(&mut bench, Field::OldHole, "L 400");
    mark_out(&mut bench, MarkOutIntent::AddOldHole);
    let hole = bench.job().mark_out.old_holes[0];
    let straight = curve.straight(Millimetres(-400.0)).value.0;
    assert_eq!(hole.0, straight.round());
}

#[test]
fn tape_read_back_along_the_face_meets_the_straight_marks() {
    let mut bench = swept();
    let marks = bench.job().marks.clone().expect("marks");
    for spot in 0..4_u8 {
        let along = rakeline::texts::say(&job::place_on_tape(bench.job(), usize::from(spot)));
        let figure = along.split(' ').next().expect("a figure").to_owned();
        typed(&mut bench, Field::TapeMark(spot), &figure);
        let read = job::tape_reading(bench.job(), usize::from(spot)).expect("read");
        let off = read.at.expect("a place") - marks.offsets[usize::from(spot)];
        assert!(off.0.abs() <= 0.6, "{off:?}");
    }
    let outer: f64 = bench.job().typed(Field::TapeMark(3)).parse().expect("mm");
    assert!(outer > marks.offsets[3].0 + 2.0, "along is longer");
}

#[test]
fn before_there_are_marks_the_sweep_wants_typed_places() {
    let mut bench = Bench::new();
    bench.send(Intent::StartJob(bench.new_id()));
    bench.send(Intent::GoStep(Step::Corners));
    measure(&mut bench, Measure::SweepStart);
    assert_eq!(bench.notice(), Some("sweep-no-places"));
    for (place, text) in ["-850", "-400", "400", "850"].into_iter().enumerate() {
        let field = Field::SweepTape(u8::try_from(place).expect("small"));
        typed(&mut bench, field, text);
    }
    measure(&mut bench, Measure::SweepStart);
    assert!(bench.app.reading.is_some());
}

#[test]
fn marks_beyond_the_shape_are_straight_on_the_template_and_the_tape() {
    let mut bench = swept();
    let beyond = |bench: &Bench| {
        let at = bench.job().marks.as_ref().expect("marks").offsets[3];
        let curve = job::plan_curve(bench.job()).expect("swept");
        job::along_known(&curve, at).is_none()
    };
    let facts = |bench: &Bench| template_facts(bench.job()).expect("marks");
    assert!(!beyond(&bench));
    let near = facts(&bench);
    assert_eq!(near.unrolled, Unrolled::AlongTheFace);
    assert!(
        near.heads[3].along.0 > near.heads[3].at.0,
        "the face is round"
    );
    assert_eq!(job::along_the_face(bench.job()).len(), 4);
    // A sweep that ends long before the outer marks.
    bench.send(Intent::Undo);
    let mut job = bench.job().clone();
    let stations = &mut job.measuring.stations;
    stations.retain(|station| station.along.0.abs() < 450.0);
    job.mark_out.taken = Taken::AlongFace;
    bench.app.open.as_mut().expect("open").job = job;
    assert!(beyond(&bench));
    let far = facts(&bench);
    assert_eq!(far.unrolled, Unrolled::Straight);
    assert!(far.heads.iter().all(|head| head.along.0 == head.at.0));
    assert_eq!(
        job::place_on_tape(bench.job(), 3).key,
        "taken-place-straight"
    );
    assert_eq!(job::along_the_face(bench.job()).len(), 2, "the inner two");
    let drawn = shape_from_above(bench.job()).expect("a shape");
    let labels = drawn.items.iter().filter(|item| {
        matches!(
            item,
            Item::Text {
                lettering: Lettering::Strong,
                ..
            }
        )
    });
    assert_eq!(labels.count(), 2);
}

/// The figures that a drawing shows.
fn figures(drawing: &rakeline_core::drawing::Drawing) -> Vec<String> {
    let texts = drawing.items.iter().filter_map(|item| match item {
        Item::Text {
            words: Words::Literal(says),
            ..
        } => Some(says.clone()),
        _ => None,
    });
    texts.collect()
}

#[test]
fn the_tape_card_has_every_figure_straight_and_along_the_face() {
    let bench = swept();
    let card = job::tape_card(bench.job());
    assert!(card.knows_the_face());
    assert_eq!((card.marks.len(), card.gaps.len()), (4, 3));
    for (mark, inner) in card.marks.iter().zip([false, true, true, false]) {
        let along = mark.along.expect("reached").value.0;
        assert_eq!(along.signum(), mark.straight.0.signum(), "its own side");
        assert_eq!(along, along.round(), "as a tape is read");
        let longer = along.abs() - mark.straight.0.abs();
        assert!(longer >= 0.0 && (inner || longer > 2.0), "{longer}");
    }
    for (gap, pair) in card.gaps.iter().zip(card.marks.windows(2)) {
        let along = gap.along.expect("both reached");
        assert_eq!(gap.straight, pair[1].straight - pair[0].straight);
        let ends = [&pair[0], &pair[1]].map(|mark| mark.along.expect("reached").value);
        assert_eq!(along, ends[1] - ends[0], "the figures add up");
        assert!(along.0 >= gap.straight.0 - 1.0);
    }
}

#[test]
fn the_drawing_from_above_has_the_cards_figures_and_corner_angles() {
    let bench = swept();
    let card = job::tape_card(bench.job());
    let drawing = shape_from_above(bench.job()).expect("a shape");
    let shown = figures(&drawing);
    for mark in &card.marks {
        let along = format!("{:.0}", mark.along.expect("reached").value.0.abs());
        assert!(shown.contains(&along), "{along} in {shown:?}");
        let straight = format!("{:.0}", mark.straight.0.abs());
        assert!(shown.contains(&straight), "{straight} in {shown:?}");
    }
    let angles = shown.iter().filter(|says| says.ends_with('°'));
    assert_eq!(angles.count(), 4, "{shown:?}");
    let sheet = rakeline_core::report::job_sheet(bench.job(), bench.job().changed, "UTC");
    let drawings = format!("{sheet:?}").matches("drawing-plan-title").count();
    assert_eq!(drawings, 1, "it stands on the job sheet");
}
