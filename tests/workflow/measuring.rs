//! The phone as an angle instrument: zeroed, on known ground, with corner
//! angles and repeats; and everything that can go wrong on the way.

use rakeline::driver::{Intent, LevelIntent, Measure, Phase, Target};
use rakeline::platform::memory::MemoryPlatform;
use rakeline::platform::{CameraFault, MotionEvent, MotionFault, Picture, SourceName, Visibility};
use rakeline::route::Step;
use rakeline_core::estimate::contact::Feet;
use rakeline_core::estimate::ground::{GroundHow, up_of};
use rakeline_core::estimate::rake::{Seat, Side};
use rakeline_core::estimate::zero::poses::Pose;
use rakeline_core::estimate::zero::{Phone, SourceKind};
use rakeline_core::job::{self, Field, Load};
use rakeline_core::sample::{RawSample, STANDARD_GRAVITY};
use rakeline_core::units::{Degrees, Millis};
use rakeline_tests::tilt_sim::chain::against_gravity;
use rakeline_tests::tilt_sim::rng::Rng;
use rakeline_tests::tilt_sim::{SimPhone, on_face, on_table};

use crate::bench::Bench;
use crate::scenario;

/// A phone that is wrong by some degrees: offsets, scale, seats.
const PHONE: SimPhone = SimPhone {
    offset: [0.012, -0.021, 0.034],
    scale: [1.003, 0.996, 1.004],
    back: Seat {
        x: 0.012,
        y: -0.028,
    },
    screen: Seat { x: 0.004, y: 0.009 },
    kind: SourceKind::Raw,
    step: 0.0,
};
/// How the ground lies: nose up, right up.
const SLOPE: [f64; 2] = [3.0, -2.0];
/// True face angles and corner angles of the four spots.
const SPOTS: [[f64; 2]; 4] = [[-6.0, -24.0], [-3.0, -5.0], [-3.2, 5.0], [-5.6, 26.0]];
/// How the wall leans.
const WALL: f64 = 0.8;

type V = [f64; 3];

/// The phone handled for a while, then held so for a while.
fn hold(bench: &mut Bench, up: V, time: f64) {
    for i in 0..30_u32 {
        let t = f64::from(i) * 0.7;
        let swing = [t.sin() * 4.0, 6.0 + t.cos(), 5.0 * (t * 1.3).sin()];
        feed(bench, swing);
    }
    rest(bench, up, time);
}

fn rest(bench: &mut Bench, up: V, time: f64) {
    let mut rng = Rng::new(up[2].to_bits());
    for _ in 0..(time / 20.0) as u32 {
        let a = PHONE
            .reads(up)
            .map(|c| (c + rng.normal(0.002)) * STANDARD_GRAVITY);
        feed(bench, a);
    }
}

fn feed(bench: &mut Bench, xyz: V) {
    let at = rakeline::platform::Clock::monotonic(&*bench.phone.clock);
    bench.sample(RawSample::Acceleration { at, xyz, step: 0.0 });
}

fn measure(bench: &mut Bench, said: Measure) {
    bench.send(Intent::Measure(said));
}

fn back() -> V {
    PHONE.back.normal()
}

fn wall_pose(pose: Pose) -> V {
    let (normal, turned) = match pose {
        Pose::BackUpright => (back(), 1.0),
        Pose::BackUpsideDown => (back(), 181.0),
        Pose::ScreenIn => (PHONE.screen.normal(), -1.0),
        _ => (PHONE.screen.normal(), 179.0),
    };
    on_face(normal, pose.side(), WALL, turned)
}

fn zero_on_the_wall(bench: &mut Bench) {
    bench.send(Intent::GoStep(Step::Zero));
    measure(bench, Measure::ZeroStart);
    for pose in Pose::ALL.into_iter().take(Pose::WALL) {
        hold(bench, wall_pose(pose), 1600.0);
    }
}

fn zero_with_tables(bench: &mut Bench) {
    zero_on_the_wall(bench);
    measure(bench, Measure::ZeroTables);
    hold(bench, on_table(back(), [0.01, -0.006], 0.0), 1600.0);
    hold(bench, on_table(back(), [0.01, -0.006], 181.0), 1600.0);
}

fn ground_up() -> V {
    up_of(Degrees(SLOPE[0]), Degrees(SLOPE[1]))
}

fn read_board(bench: &mut Bench) {
    bench.send(Intent::GoStep(Step::Ground));
    measure(bench, Measure::BoardStart);
    let [right, forward, _] = ground_up();
    hold(bench, on_table(back(), [right, forward], 0.0), 1600.0);
    hold(bench, on_table(back(), [right, forward], 180.0), 1600.0);
}

fn read_faces(bench: &mut Bench) {
    for [rake, turn] in SPOTS {
        let gravity = against_gravity(rake, turn, ground_up());
        let up = on_face(back(), Side::Back, gravity, 0.5);
        hold(bench, up, 1600.0);
    }
}

fn type_corners(bench: &mut Bench) {
    bench.send(Intent::GoStep(Step::Corners));
    for (spot, [_, turn]) in SPOTS.into_iter().enumerate() {
        let field = Field::CornerAngle(u8::try_from(spot).expect("few"));
        bench.send(Intent::Type(field, turn.to_string()));
    }
    measure(bench, Measure::CornersTaken);
}

fn measured() -> Bench {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    measure(&mut bench, Measure::FeetSet(Feet::On));
    zero_with_tables(&mut bench);
    read_board(&mut bench);
    type_corners(&mut bench);
    bench.send(Intent::GoStep(Step::Faces));
    read_faces(&mut bench);
    bench
}

fn pose_asked(bench: &Bench) -> Option<Pose> {
    match bench.app.reading.as_ref()?.target {
        Target::Pose(pose) => Some(pose),
        _ => None,
    }
}

fn refusal(bench: &Bench) -> Option<String> {
    match &bench.app.reading.as_ref()?.phase {
        Phase::NotTaken(why) | Phase::NoSensor(why) => Some(why.key.to_string()),
        _ => None,
    }
}

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

fn unzeroed(job: &job::JobState) -> job::JobState {
    let mut job = job.clone();
    job.phone = Phone::Unzeroed;
    job
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
fn bad_poses_are_named_and_nothing_of_them_is_kept() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.send(Intent::GoStep(Step::Zero));
    measure(&mut bench, Measure::ZeroStart);
    hold(&mut bench, on_face(back(), Side::Back, 20.0, 0.0), 1600.0);
    assert_eq!(refusal(&bench).as_deref(), Some("zero-bad-surface-leans"));
    hold(&mut bench, on_face(back(), Side::Back, WALL, 30.0), 1600.0);
    assert_eq!(refusal(&bench).as_deref(), Some("zero-bad-not-upright"));
    hold(&mut bench, wall_pose(Pose::BackUpsideDown), 1600.0);
    assert_eq!(refusal(&bench).as_deref(), Some("zero-bad-wrong-way-up"));
    assert_eq!(pose_asked(&bench), Some(Pose::BackUpright));
    assert!(bench.app.drafts.zero.poses.is_empty());
    hold(&mut bench, wall_pose(Pose::BackUpright), 1600.0);
    assert_eq!(pose_asked(&bench), Some(Pose::BackUpsideDown));
    assert_eq!(bench.app.settings.phone.zeroing, None);
}

#[test]
fn another_phone_or_case_does_not_use_this_zeroing() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    zero_on_the_wall(&mut bench);
    assert!(matches!(bench.job().phone, Phone::Zeroed(_)));
    bench.send(Intent::OnDevice("Another phone".to_owned()));
    bench.send(Intent::GoStep(Step::Faces));
    hold(&mut bench, on_face(back(), Side::Back, -4.0, 0.0), 1600.0);
    assert_eq!(bench.job().phone, Phone::Unzeroed);
    // And once this phone has read, the first one's zeroing must not.
    bench.send(Intent::OnDevice("Memory phone".to_owned()));
    hold(&mut bench, on_face(back(), Side::Back, -4.0, 0.0), 1600.0);
    assert_eq!(refusal(&bench).as_deref(), Some("refused-other-phone"));
    assert_eq!(bench.readings(), [1, 0, 0, 0]);
    measure(&mut bench, Measure::ReadAllAgain);
    hold(&mut bench, on_face(back(), Side::Back, -4.0, 0.0), 1600.0);
    assert_eq!(bench.readings(), [1, 0, 0, 0]);
    assert!(matches!(bench.job().phone, Phone::Zeroed(_)));
    measure(&mut bench, Measure::CaseNamed("thick".to_owned()));
    hold(&mut bench, on_face(back(), Side::Back, -4.0, 0.0), 1600.0);
    assert_eq!(refusal(&bench).as_deref(), Some("refused-phone-changed"));
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
fn a_board_that_was_not_turned_or_not_flat_is_refused() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.send(Intent::GoStep(Step::Ground));
    measure(&mut bench, Measure::BoardStart);
    hold(&mut bench, on_face(back(), Side::Back, 0.0, 0.0), 1600.0);
    assert_eq!(refusal(&bench).as_deref(), Some("ground-not-flat"));
    let [right, forward, _] = ground_up();
    for _ in 0..2 {
        hold(&mut bench, on_table(back(), [right, forward], 0.0), 1600.0);
    }
    assert_eq!(refusal(&bench).as_deref(), Some("ground-not-turned"));
    assert_eq!(bench.job().ground.how, GroundHow::LooksLevel);
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
fn two_readings_that_contradict_each_other_widen_the_interval() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    for rake in [-4.0, -8.0] {
        measure(&mut bench, Measure::ReadOnceMore(0));
        hold(&mut bench, on_face(back(), Side::Back, rake, 0.0), 1600.0);
    }
    let spot = &bench.job().spots[0];
    let said = job::repeats_at(bench.job(), spot).expect("flagged");
    assert_eq!(said.key, "repeats-contradict");
    let estimate = job::rake_at(bench.job(), spot).expect("read");
    assert!(estimate.rake.expanded().0 > 10.0, "{estimate:?}");
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

/// The phone's back on a face of this azimuth, by the orientation source.
fn hold_turned(bench: &mut Bench, alpha: f64, beta: f64) {
    for (alpha, beta, count) in [(alpha + 40.0, 50.0, 25), (alpha, beta, 80)] {
        for i in 0..count {
            let tremble = if count == 25 {
                f64::from(i % 7) * 4.0
            } else {
                0.0
            };
            let at = rakeline::platform::Clock::monotonic(&*bench.phone.clock);
            bench.sample(RawSample::Euler {
                at,
                alpha: Some(alpha),
                beta: beta + tremble,
                gamma: 0.0,
                step: Degrees(0.1),
            });
        }
    }
}

fn sweep(bench: &mut Bench, drift: f64) {
    bench.send(Intent::GoStep(Step::Corners));
    measure(bench, Measure::SweepStart);
    let places = [0.0, -28.0, -6.0, 6.0, 28.0, 0.0];
    for (step, turn) in places.into_iter().enumerate() {
        hold_turned(bench, turn + drift * step as f64, 93.0);
    }
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
fn a_magnet_near_the_phone_is_found_by_the_closing_error() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    sweep(&mut bench, 3.0);
    let fault = bench.app.drafts.sweep.fault.as_ref().expect("refused");
    assert_eq!(fault.key, "sweep-closing-too-far");
    assert_eq!(job::sweep(bench.job()), None);
}

#[test]
fn a_source_without_azimuth_says_so_in_a_sweep() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.send(Intent::GoStep(Step::Corners));
    measure(&mut bench, Measure::SweepStart);
    hold(&mut bench, on_face(back(), Side::Back, -3.0, 0.0), 1600.0);
    assert_eq!(refusal(&bench).as_deref(), Some("sweep-no-azimuth"));
}

#[test]
fn a_sensor_that_stops_during_zeroing_loses_no_pose() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.send(Intent::GoStep(Step::Zero));
    measure(&mut bench, Measure::ZeroStart);
    hold(&mut bench, wall_pose(Pose::BackUpright), 1600.0);
    hold(&mut bench, wall_pose(Pose::BackUpsideDown), 300.0);
    bench
        .phone
        .motion
        .feed(MotionEvent::Fault(MotionFault::Stopped));
    bench.pass(Millis(400.0));
    assert_eq!(refusal(&bench).as_deref(), Some("motion-stopped"));
    assert_eq!(bench.app.drafts.zero.poses.len(), 1);
    bench
        .phone
        .motion
        .feed(MotionEvent::Using(SourceName::Acceleration));
    hold(&mut bench, wall_pose(Pose::BackUpsideDown), 1600.0);
    assert_eq!(bench.app.drafts.zero.poses.len(), 2);
}

#[test]
fn a_hidden_tab_throws_the_window_away_and_keeps_the_poses() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.send(Intent::GoStep(Step::Zero));
    measure(&mut bench, Measure::ZeroStart);
    hold(&mut bench, wall_pose(Pose::BackUpright), 1600.0);
    hold(&mut bench, wall_pose(Pose::BackUpsideDown), 400.0);
    bench.show(Visibility::Hidden);
    rest(&mut bench, wall_pose(Pose::BackUpsideDown), 200.0);
    bench.show(Visibility::Shown);
    assert_eq!(bench.app.drafts.zero.poses.len(), 1);
    rest(&mut bench, wall_pose(Pose::BackUpsideDown), 1600.0);
    assert_eq!(bench.app.drafts.zero.poses.len(), 2);
}

#[test]
fn saturated_figures_are_no_pose() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.send(Intent::GoStep(Step::Zero));
    measure(&mut bench, Measure::ZeroStart);
    for _ in 0..100 {
        feed(&mut bench, [0.0, 19.6, 0.0]);
    }
    assert_eq!(refusal(&bench).as_deref(), Some("sample-saturated"));
    assert!(bench.app.drafts.zero.poses.is_empty());
}

#[test]
fn a_sensor_of_one_reading_a_second_takes_its_time_and_is_taken() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    for _ in 0..7 {
        let sample = bench.euler(94.0, 0.0);
        bench.sample(sample);
        bench.pass(Millis(980.0));
    }
    assert_eq!(bench.readings()[0], 1);
}

fn picture() -> Picture {
    Picture {
        bytes: vec![1, 2, 3],
        width: 300,
        height: 400,
    }
}

#[test]
fn a_level_photo_is_kept_outside_the_record_with_its_attitude() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.send(Intent::GoStep(Step::Level));
    assert!(bench.phone.camera.runs());
    // Rolled clockwise by 5 degrees.
    let (s, c) = 5f64.to_radians().sin_cos();
    for _ in 0..5 {
        feed(&mut bench, [-s, c, 0.0].map(|a| a * STANDARD_GRAVITY));
    }
    bench.pass(Millis(200.0));
    bench.phone.camera.gives(picture());
    measure(&mut bench, Measure::Level(LevelIntent::Take));
    let photo = bench.job().measuring.photos[0].clone();
    assert_eq!(bench.phone.storage.blobs(), [photo.blob.clone()]);
    let level = job::level_in_photo(bench.job(), &photo).expect("level");
    assert!((level.0 - 5.0).abs() < 1e-6);
    let rise = 0.8 * 8f64.to_radians().tan();
    let line = [[0.1, 0.7], [0.9, 0.7 - rise]];
    measure(&mut bench, Measure::Level(LevelIntent::Drag(line)));
    measure(&mut bench, Measure::Level(LevelIntent::Lay));
    let photo = &bench.job().measuring.photos[0];
    let said = job::line_on_photo(bench.job(), photo).expect("laid");
    assert_eq!(said.key, "with-plus-minus");
    let off = job::line_in_photo(bench.job(), photo, line).expect("laid");
    assert!((off.value.0 - 3.0).abs() < 1e-6);
    bench.send(Intent::GoStep(Step::Faces));
    assert!(!bench.phone.camera.runs());
    let again = bench.killed();
    assert_eq!(again.job().measuring.photos.len(), 1);
    assert_eq!(again.phone.storage.blobs().len(), 1);
}

#[test]
fn a_refused_camera_leaves_the_file_and_a_turned_screen_turns_level() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.phone.camera.fail(CameraFault::Refused);
    bench.send(Intent::GoStep(Step::Level));
    let camera = &bench.app.drafts.level.camera;
    assert!(
        matches!(camera, rakeline::driver::CameraState::No(why) if why.key == "camera-refused")
    );
    bench.phone.camera.gives(picture());
    measure(&mut bench, Measure::Level(LevelIntent::Choose));
    assert_eq!(bench.job().measuring.photos[0].held, None);
    let turned = LevelIntent::ScreenTurned(Degrees(90.0));
    measure(&mut bench, Measure::Level(turned));
    feed(&mut bench, [STANDARD_GRAVITY, 0.0, 0.0]);
    bench.pass(Millis(200.0));
    let level = rakeline::driver::live_level(&bench.app).expect("level");
    assert!(level.0.abs() < 1e-9);
}

#[test]
fn a_full_phone_says_that_the_photo_was_not_kept() {
    let mut bench = Bench::on(MemoryPlatform::new());
    scenario::to_faces(&mut bench);
    bench.send(Intent::GoStep(Step::Level));
    bench.phone.camera.gives(picture());
    bench.phone.storage.fill();
    measure(&mut bench, Measure::Level(LevelIntent::Take));
    assert_eq!(bench.notice(), Some("level-not-stored"));
    assert!(bench.job().measuring.photos.is_empty());
}
