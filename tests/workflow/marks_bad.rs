//! What can be typed or dragged wrong in a mark-out: each says which number
//! and by how much, and the last good plan stays.

use rakeline::driver::{CheckIntent, Intent, MarkOutIntent};
use rakeline::texts::say;
use rakeline_core::decide::mark_out::{MOST_AREAS, PlanKind};
use rakeline_core::job::{
    self, Field, HolesEvent, JobEvent, Limit, MeasuringEvent, limit_value, plan_curve, task_for,
};
use rakeline_core::units::{Degrees, Millimetres, Offset};
use serde_json::json;

use crate::bench::Bench;
use crate::hand::sweep;
use crate::marks::{area, fit, mark_out, marks, ready_to_drill, typed};
use crate::marks_sheet::with_sheet;
use crate::scenario;

fn at_marks() -> Bench {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    bench
}

/// Does something wrong; the message has this key and says all of that, and
/// the plan is as it was.
fn refused(bench: &mut Bench, act: impl FnOnce(&mut Bench), key: &str, says: &[&str]) {
    let before = (bench.job().marks.clone(), bench.job().mark_out.clone());
    bench.app.notice = None;
    act(bench);
    assert_eq!(bench.notice(), Some(key));
    let said = say(&bench.app.notice.as_ref().expect("said").message);
    let said = said.replace('\u{2212}', "-");
    for part in says {
        assert!(said.contains(part), "'{part}' in '{said}'");
    }
    let after = (bench.job().marks.clone(), bench.job().mark_out.clone());
    assert_eq!(after, before, "the last good plan stays");
}

fn limit(bench: &mut Bench, limit: Limit, value: &str) {
    typed(bench, Field::Limit(limit), value);
    mark_out(bench, MarkOutIntent::ChangeLimit(limit));
}

#[test]
fn areas_that_cannot_be_say_which_ends_and_by_how_much() {
    let mut bench = at_marks();
    area(&mut bench, -100.0, -20.0);
    for (from, to, key, says) in [
        (
            -60.0,
            40.0,
            "mark-out-areas-overlap",
            &["by 40", "-100 to -20 mm", "-60 to 40 mm"][..],
        ),
        (
            90.0,
            60.0,
            "mark-out-area-reversed",
            &["area 2", "90 back to 60 mm", "by 30"][..],
        ),
        (
            40.0,
            40.0,
            "mark-out-area-zero-length",
            &["area 2", "40 mm"],
        ),
        (
            800.0,
            900.0,
            "mark-out-area-past-edge",
            &["area 2", "32", "right outer edge"][..],
        ),
        (
            -900.0,
            -800.0,
            "mark-out-area-past-edge",
            &["29", "left outer edge"][..],
        ),
        (
            100.0,
            1400.0,
            "entry-offset-too-far",
            &["1400 mm", "by 50 mm", "1350 mm"][..],
        ),
    ] {
        refused(&mut bench, |bench| area(bench, from, to), key, says);
    }
}

/// A phone whose kit used last is the plain one with so many heads.
fn with_heads(heads: usize) -> Bench {
    let labels: Vec<String> = (1..=heads).map(|label| label.to_string()).collect();
    with_sheet(|sheet| sheet["heads"]["labels"] = json!(labels))
}

#[test]
fn more_heads_than_fit_say_the_rule_and_how_much_is_missing() {
    let mut bench = with_heads(8);
    assert_eq!(marks(&bench).len(), 8);
    let narrow = |bench: &mut Bench| {
        scenario::type_half_widths(bench, "560", "560");
        bench.send(Intent::PlanMarks(PlanKind::Symmetric));
    };
    // 2 x (560 - 180) is 760 mm for seven gaps of 150.
    let key = "mark-out-impossible";
    refused(&mut bench, narrow, key, &["No place for all heads", " mm "]);
    let message = &bench.app.notice.as_ref().expect("said").message;
    let by = message.args.iter().find(|(name, _)| name == "by");
    assert!(by.is_some(), "{message:?}");
}

#[test]
fn a_half_width_smaller_than_the_corner_gap_says_what_is_missing() {
    let mut bench = at_marks();
    limit(&mut bench, Limit::CornerGapGreatest, "1000");
    refused(
        &mut bench,
        |bench| limit(bench, Limit::CornerGapLeast, "880"),
        "mark-out-half-below-gap",
        &["left", "871 mm", "880 mm", "11"],
    );
}

#[test]
fn marks_dragged_over_each_other_say_by_how_much() {
    let mut bench = at_marks();
    let third = marks(&bench)[2];
    let by = format!("{:.1} mm off", third + 5.0 + 1.0);
    refused(
        &mut bench,
        |bench| mark_out(bench, MarkOutIntent::Move(1, Offset(third + 5.0))),
        "mark-out-breaks",
        &["Head 2", &by],
    );
    // As it is dragged, before it is let go.
    let live = job::would_break(bench.job(), 1, Offset(third + 5.0));
    let words: Vec<String> = live.iter().map(say).collect();
    let spacing = words.iter().find(|words| words.contains("155.0 mm off"));
    assert!(spacing.is_some(), "150 and 5 over: {words:?}");
}

#[test]
fn two_locked_marks_that_clash_say_what_they_have_and_need() {
    let mut bench = at_marks();
    for (spot, at) in [(1, -215.0), (2, 215.0)] {
        mark_out(&mut bench, MarkOutIntent::Move(spot, Offset(at)));
        mark_out(&mut bench, MarkOutIntent::Lock(spot));
    }
    limit(&mut bench, Limit::SpacingLeast, "440");
    refused(
        &mut bench,
        |bench| bench.send(Intent::PlanMarks(PlanKind::Symmetric)),
        "mark-out-locks-clash",
        &["Heads 2 and 3", "430 mm apart", "440 mm", "10"],
    );
}

#[test]
fn a_tape_reading_of_another_mark_names_the_mark_it_fits() {
    let mut bench = at_marks();
    let third = marks(&bench)[2];
    crate::marks::tape_as_planned(&mut bench);
    typed(&mut bench, Field::TapeMark(1), &format!("R {third}"));
    let at = format!("{third:.0} mm");
    refused(
        &mut bench,
        |bench| bench.send(Intent::Check(CheckIntent::TapeReady)),
        "tape-fits-other",
        &["Head 2", "head 3", &at],
    );
    assert_eq!(job::tape_checked(bench.job()), None);
}

#[test]
fn a_swept_shape_that_folds_back_says_where_and_by_how_much() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    sweep(&mut bench, 0.0);
    let shape = plan_curve(bench.job()).expect("a shape");
    let mut stations = bench.job().measuring.stations.clone();
    stations[1].azimuth = Degrees(stations[0].azimuth.0 + 96.0);
    let along = format!("{:.0}", stations[1].along.0.abs());
    let swept = JobEvent::Measuring(MeasuringEvent::Swept(stations));
    refused(
        &mut bench,
        |bench| fit(bench, swept),
        "sweep-turned-too-far",
        &[&along, "more than 85"],
    );
    assert_eq!(plan_curve(bench.job()), Some(shape));
}

/// As many areas as are taken, each 4 mm wide, between the inner marks, so
/// that no mark lies in one; the first where it is asked.
fn full(bench: &mut Bench, first: f64) {
    area(bench, first, first + 4.0);
    for k in 1..MOST_AREAS {
        let from = -150.0 + 5.0 * k as f64;
        area(bench, from, from + 4.0);
    }
    assert_eq!(bench.job().mark_out.no_drill.len(), MOST_AREAS);
}

#[test]
fn one_area_more_than_the_list_takes_is_refused_with_both_numbers() {
    let mut bench = at_marks();
    full(&mut bench, -150.0);
    refused(
        &mut bench,
        |bench| area(bench, 170.0, 174.0),
        "mark-out-too-many-areas",
        &["61 no-drill areas", "1 more", "(60)"],
    );
    // What a face sends back is an area too.
    bench.send(Intent::TapeOn);
    for angle in ["5.5", "4.0", "4.0", "5.5"] {
        scenario::type_face(&mut bench, angle, job::Facing::Down, "0.3");
    }
    refused(
        &mut bench,
        |bench| mark_out(bench, MarkOutIntent::AwayFrom(3)),
        "mark-out-too-many-areas",
        &["61 no-drill areas"],
    );
    mark_out(&mut bench, MarkOutIntent::TakeNoDrill(59));
    area(&mut bench, 170.0, 174.0);
    assert_eq!(bench.job().mark_out.no_drill.len(), MOST_AREAS);
}

#[test]
fn a_hole_that_parts_an_area_of_a_full_list_leaves_the_rest_solvable() {
    let mut bench = ready_to_drill();
    let hole = marks(&bench)[0];
    fit(&mut bench, JobEvent::Holes(HolesEvent::HoleDrilled(0)));
    assert!(bench.job().holes.drilled.contains_key(&0));
    // Wider than the hole and its clearance: two pieces are left of it.
    area(&mut bench, hole - 60.0, hole + 60.0);
    for k in 1..MOST_AREAS {
        let from = -150.0 + 5.0 * k as f64;
        area(&mut bench, from, from + 4.0);
    }
    let half = Millimetres(871.0);
    let pieces = task_for(bench.job(), half, half).no_drill.len();
    assert_eq!(pieces, MOST_AREAS + 1);
    bench.app.notice = None;
    bench.send(Intent::PlanMarks(PlanKind::Symmetric));
    assert_eq!(bench.notice(), None, "there is a plan");
    assert!(matches!(job::plans(bench.job()), Some(Ok(_))));
    assert_eq!(marks(&bench)[0], hole);
}

#[test]
fn every_limit_of_the_sheet_is_changed_for_the_job_decides_and_is_undone() {
    for (which, value, breaks) in [
        (Limit::Inner, "200", true),
        (Limit::CornerGapLeast, "220", true),
        (Limit::CornerGapGreatest, "185", false),
        (Limit::SpacingLeast, "470", true),
        (Limit::SpacingGreatest, "400", true),
        (Limit::Clearance, "60", true),
    ] {
        let mut bench = at_marks();
        let inner = marks(&bench)[2];
        // Beside the third mark, clear of it by the sheet's clearance.
        area(&mut bench, inner - 60.0, inner - 20.0);
        assert!(job::marks_broken(bench.job()).is_empty());
        let (sheet, before) = (limit_value(bench.job(), which), marks(&bench));
        limit(&mut bench, which, value);
        let set = value.parse().ok().map(Millimetres);
        assert_eq!(limit_value(bench.job(), which), set, "{which:?}");
        let broken = !job::marks_broken(bench.job()).is_empty();
        assert_eq!(broken, breaks, "{which:?}: the marks as they were");
        bench.send(Intent::PlanMarks(PlanKind::Symmetric));
        if bench.notice().is_none() {
            assert!(job::marks_broken(bench.job()).is_empty(), "{which:?}");
            assert_eq!(marks(&bench) != before, breaks, "{which:?}");
            if breaks {
                bench.send(Intent::Undo);
            }
        }
        bench.send(Intent::Undo);
        assert_eq!(limit_value(bench.job(), which), sheet, "{which:?}");
        assert_eq!(marks(&bench), before);
    }
}

#[test]
fn the_middle_head_of_an_odd_number_has_its_own_limit() {
    let mut bench = with_heads(3);
    assert_eq!(marks(&bench)[1], 0.0);
    let sheet = limit_value(bench.job(), Limit::OddHeadWithin);
    area(&mut bench, -4.0, 4.0);
    limit(&mut bench, Limit::OddHeadWithin, "60");
    bench.send(Intent::PlanMarks(PlanKind::Symmetric));
    assert!(job::marks_broken(bench.job()).is_empty());
    assert!((1.0..=60.0).contains(&marks(&bench)[1].abs()));
    mark_out(&mut bench, MarkOutIntent::LimitsFromSheet);
    assert_eq!(limit_value(bench.job(), Limit::OddHeadWithin), sheet);
}
