//! The phone as an angle instrument: zeroed, on known ground, with corner
//! angles and repeats; and everything that can go wrong on the way.

use rakeline::driver::{Intent, Measure};
use rakeline::route::Step;
use rakeline_core::estimate::contact::Roundness;
use rakeline_core::estimate::ground::GroundHow;
use rakeline_core::estimate::rake::Side;
use rakeline_core::estimate::zero::Phone;
use rakeline_core::job::{self, Field, Load};
use rakeline_core::units::{Degrees, Millis};
use rakeline_tests::tilt_sim::on_face;

use crate::bench::Bench;
use crate::scenario;

use crate::hand::*;

#[test]
fn a_wrong_phone_on_sloping_ground_reads_the_truth_within_its_interval() {
    let bench = measured();
    let job = bench.job();
    assert_eq!(bench.readings(), [1, 1, 1, 1]);
    assert!(matches!(job.phone, Phone::Zeroed(_)));
    assert_eq!(job.ground.how, GroundHow::Board);
    assert!((job.ground.nose_up.value.0 - SLOPE[0]).abs() < job.ground.nose_up.expanded().0);
    assert!((job.ground.right_up.value.0 - SLOPE[1]).abs() < job.ground.right_up.expanded().0);
    for (spot, [rake, _]) in job.spots.iter().zip(SPOTS) {
        let estimate = job::rake_at(job, spot).expect("read").rake;
        let off = (estimate.value.0 - rake).abs();
        assert!(off < estimate.expanded().0, "{rake}: {estimate:?}");
        assert!(estimate.expanded().0 < 1.8, "{estimate:?}");
        let raw = job::rake_at(&unzeroed(job), spot).expect("read").rake.value;
        assert!((raw.0 - rake).abs() > 1.0, "the raw phone is clearly wrong");
    }
}

#[test]
fn zeroing_is_led_by_voice_and_tone_and_kept_for_the_next_job() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.phone.speech.take();
    zero_with_tables(&mut bench);
    let said = bench.phone.speech.take();
    assert_eq!(said.len(), 8, "{said:?}");
    assert!(said[1].contains("top edge down"));
    let kept = bench.app.settings.phone.zeroing.clone().expect("zeroed");
    assert_eq!(kept.poses.len(), 6);
    assert!(kept.was_off_by.0.abs() > 1.0);
    let again = bench.killed();
    assert_eq!(again.app.settings.phone.zeroing, Some(kept));
}

#[test]
fn faces_read_before_zeroing_are_corrected_by_it() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    let up = on_face(back(), Side::Back, -4.0, 0.0);
    hold(&mut bench, up, 1600.0);
    let before = job::rake_at(bench.job(), &bench.job().spots[0]).expect("read");
    zero_with_tables(&mut bench);
    let after = job::rake_at(bench.job(), &bench.job().spots[0]).expect("read");
    assert!((before.rake.value.0 + 4.0).abs() > 1.0);
    assert!((after.rake.value.0 + 4.0).abs() < 0.4, "{after:?}");
    assert!(after.rake.u < before.rake.u);
}

#[test]
fn a_zeroing_of_last_month_still_counts_and_asks_to_be_renewed() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    zero_on_the_wall(&mut bench);
    let at = bench.job().changed + chrono::Duration::days(31);
    let now = rakeline::driver::Now {
        at,
        zone: String::new(),
        monotonic: Millis(0.0),
    };
    let (phone, renewal) = rakeline::driver::phone_in_use(&bench.app, &now);
    assert!(matches!(phone, Phone::Zeroed(_)));
    assert_eq!(renewal.expect("asks").key, "zero-renew-age");
}

#[test]
fn the_board_gives_a_bay_that_the_next_job_takes_in_one_tap() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    read_board(&mut bench);
    measure(&mut bench, Measure::BaySaved);
    assert_eq!(bench.notice(), Some("bay-no-name"));
    bench.send(Intent::Type(Field::BayName, "Bay 2".to_owned()));
    measure(&mut bench, Measure::BaySaved);
    let lies = bench.job().ground.nose_up;
    measure(&mut bench, Measure::LooksLevel);
    assert_eq!(bench.job().ground.how, GroundHow::LooksLevel);
    let mut again = bench.killed();
    measure(&mut again, Measure::BayUsed("Bay 2".to_owned()));
    assert_eq!(again.job().ground.nose_up, lies);
    again.send(Intent::Undo);
    assert_eq!(again.job().ground.how, GroundHow::LooksLevel);
}

#[test]
fn the_gauge_on_the_board_leaves_nothing_of_the_ground() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    measure(
        &mut bench,
        Measure::GaugeSet(rakeline_core::estimate::rake::Against::Board),
    );
    scenario::type_face(&mut bench, "4.0", job::Facing::Down, "0.3");
    let estimate = job::rake_at(bench.job(), &bench.job().spots[0]).expect("typed");
    assert!((estimate.rake.expanded().0 - 0.3).abs() < 1e-9);
}

#[test]
fn load_is_asked_in_words_and_a_silly_figure_is_refused() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    measure(&mut bench, Measure::LoadSaid(Load::Carrier));
    assert_eq!(bench.job().load_allowance, Degrees(2.0));
    bench.send(Intent::Type(Field::LoadOwn, "40".to_owned()));
    measure(&mut bench, Measure::LoadOwn);
    assert_eq!(bench.notice(), Some("load-out-of-range"));
    assert_eq!(bench.job().load_allowance, Degrees(2.0));
}

#[test]
fn readings_once_more_are_pooled_and_an_outlier_is_flagged_not_dropped() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    for rake in [-4.0, -4.1, -7.5] {
        measure(&mut bench, Measure::ReadOnceMore(0));
        hold(&mut bench, on_face(back(), Side::Back, rake, 0.0), 1600.0);
    }
    let spot = &bench.job().spots[0];
    assert_eq!(spot.readings.len(), 3);
    let said = job::repeats_at(bench.job(), spot).expect("flagged");
    assert_eq!(said.key, "repeats-outlier");
    measure(&mut bench, Measure::TakeLastOut(0));
    assert_eq!(bench.readings()[0], 2);
    assert_eq!(job::repeats_at(bench.job(), &bench.job().spots[0]), None);
    bench.send(Intent::Undo);
    assert_eq!(bench.readings()[0], 3);
}

#[test]
fn any_reading_at_a_spot_is_taken_out_alone_and_comes_back() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    for rake in [-7.5, -4.0, -4.1] {
        measure(&mut bench, Measure::ReadOnceMore(0));
        hold(&mut bench, on_face(back(), Side::Back, rake, 0.0), 1600.0);
    }
    let before = bench.job().spots[0].clone();
    assert_eq!(job::reading_words(bench.job(), &before).len(), 3);
    measure(&mut bench, Measure::TakeOut(0, 0));
    assert_eq!(bench.job().spots[0].readings, before.readings[1..]);
    assert_eq!(job::repeats_at(bench.job(), &bench.job().spots[0]), None);
    assert_eq!(bench.notice(), Some("reading-of-taken-out"));
    bench.send(Intent::Undo);
    assert_eq!(bench.job().spots[0], before);
    // A second tap on a row that is gone, or on a spot that is not there.
    measure(&mut bench, Measure::TakeOut(0, 3));
    measure(&mut bench, Measure::TakeOut(9, 0));
    assert_eq!(bench.job().spots[0], before);
}

#[test]
fn mirror_spots_that_differ_are_pointed_out() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    for rake in [-9.0, -3.0, -3.0, -3.0] {
        hold(&mut bench, on_face(back(), Side::Back, rake, 0.0), 1600.0);
    }
    let mirrors = job::mirrors(bench.job());
    assert_eq!(mirrors.len(), 1);
    assert_eq!(mirrors[0].key, "mirror-pair");
}

#[test]
fn a_sweep_gives_corner_angles_and_spreads_what_it_missed() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    sweep(&mut bench, 0.4);
    let closed = job::sweep(bench.job()).expect("swept").expect("closed");
    assert!((closed.closing.0.abs() - 2.0).abs() < 0.2, "{closed:?}");
    let job::JobState { spots, .. } = bench.job();
    assert_eq!(spots.len(), 4);
    let turn = job::corner_angle(bench.job(), 3).estimate();
    assert!(
        (turn.value.0 - 28.0).abs() < 2.0 * turn.u.0 + 1.0,
        "{turn:?}"
    );
    assert_eq!(job::along_the_face(bench.job()).len(), 4);
}

#[test]
fn the_sill_read_with_the_phone_says_nose_up_only_and_that_it_is_the_poor_way() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.send(Intent::GoStep(Step::Ground));
    measure(&mut bench, Measure::SillStart);
    // Long edge along the sill, on its side, the nose 2 degrees up.
    let (s, c) = 2f64.to_radians().sin_cos();
    hold(&mut bench, [c, s, 0.0], 1600.0);
    let ground = bench.job().ground.clone();
    assert_eq!(ground.how, GroundHow::Sill);
    let off = ground.nose_up.value - Degrees(2.0);
    assert!(off.abs() < ground.nose_up.expanded(), "{ground:?}");
    assert!(ground.nose_up.u.0 > 2.0, "not zeroed: its own error counts");
    assert!(ground.right_up.value.0 == 0.0 && ground.right_up.u.0 >= 1.0);
    assert_eq!(job::ground_words(&ground).key, "ground-is-sill");
    // Upright in the hand is no sill.
    measure(&mut bench, Measure::SillStart);
    hold(&mut bench, [0.0, 1.0, 0.0], 1600.0);
    assert_eq!(refusal(&bench).as_deref(), Some("sill-too-steep"));
    assert_eq!(bench.job().ground, ground);
}

#[test]
fn two_readings_above_and_below_say_how_round_the_face_is() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.send(Intent::GoStep(Step::Corners));
    measure(&mut bench, Measure::RoundStart);
    hold(&mut bench, on_face(back(), Side::Back, -3.0, 0.0), 1600.0);
    hold(&mut bench, on_face(back(), Side::Back, -9.0, 0.0), 1600.0);
    let round = bench.job().measuring.roundness;
    let Roundness::Measured(radius) = round else {
        panic!("{round:?}");
    };
    // 60 mm apart, 6 degrees: 573 mm.
    assert!((radius.0 - 573.0).abs() < 40.0, "{radius:?}");
    assert_eq!(job::roundness_words(round).key, "round-measured");
}
