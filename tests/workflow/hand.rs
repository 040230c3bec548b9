//! A simulated phone in the hand: wrong by some degrees, on a vehicle that
//! stands on sloping ground.

use rakeline::driver::{Intent, Measure, Phase, Target};
use rakeline::route::Step;
use rakeline_core::estimate::contact::Feet;
use rakeline_core::estimate::ground::up_of;
use rakeline_core::estimate::rake::{Seat, Side};
use rakeline_core::estimate::zero::poses::Pose;
use rakeline_core::estimate::zero::{Phone, SourceKind};
use rakeline_core::job::{self, Field};
use rakeline_core::sample::{RawSample, STANDARD_GRAVITY};
use rakeline_core::units::Degrees;
use rakeline_tests::tilt_sim::chain::against_gravity;
use rakeline_tests::tilt_sim::rng::Rng;
use rakeline_tests::tilt_sim::{SimPhone, on_face, on_table};

use crate::bench::Bench;
use crate::scenario;

/// A phone that is wrong by some degrees: offsets, scale, seats.
pub const PHONE: SimPhone = SimPhone {
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
pub const SLOPE: [f64; 2] = [3.0, -2.0];
/// True face angles and corner angles of the four spots.
pub const SPOTS: [[f64; 2]; 4] = [[-6.0, -24.0], [-3.0, -5.0], [-3.2, 5.0], [-5.6, 26.0]];
/// How the wall leans.
pub const WALL: f64 = 0.8;

pub type V = [f64; 3];

/// The phone handled for a while, then held so for a while.
pub fn hold(bench: &mut Bench, up: V, time: f64) {
    for i in 0..30_u32 {
        let t = f64::from(i) * 0.7;
        let swing = [t.sin() * 4.0, 6.0 + t.cos(), 5.0 * (t * 1.3).sin()];
        feed(bench, swing);
    }
    rest(bench, up, time);
}

pub fn rest(bench: &mut Bench, up: V, time: f64) {
    let mut rng = Rng::new(up[2].to_bits());
    for _ in 0..(time / 20.0) as u32 {
        let a = PHONE
            .reads(up)
            .map(|c| (c + rng.normal(0.002)) * STANDARD_GRAVITY);
        feed(bench, a);
    }
}

pub fn feed(bench: &mut Bench, xyz: V) {
    let at = rakeline::platform::Clock::monotonic(&*bench.phone.clock);
    bench.sample(RawSample::Acceleration { at, xyz, step: 0.0 });
}

pub fn measure(bench: &mut Bench, said: Measure) {
    bench.send(Intent::Measure(said));
}

pub fn back() -> V {
    PHONE.back.normal()
}

pub fn wall_pose(pose: Pose) -> V {
    let (normal, turned) = match pose {
        Pose::BackUpright => (back(), 1.0),
        Pose::BackUpsideDown => (back(), 181.0),
        Pose::ScreenIn => (PHONE.screen.normal(), -1.0),
        _ => (PHONE.screen.normal(), 179.0),
    };
    on_face(normal, pose.side(), WALL, turned)
}

pub fn zero_on_the_wall(bench: &mut Bench) {
    bench.send(Intent::GoStep(Step::Zero));
    measure(bench, Measure::ZeroStart);
    for pose in Pose::ALL.into_iter().take(Pose::WALL) {
        hold(bench, wall_pose(pose), 1600.0);
    }
}

pub fn zero_with_tables(bench: &mut Bench) {
    zero_on_the_wall(bench);
    measure(bench, Measure::ZeroTables);
    hold(bench, on_table(back(), [0.01, -0.006], 0.0), 1600.0);
    hold(bench, on_table(back(), [0.01, -0.006], 181.0), 1600.0);
}

pub fn ground_up() -> V {
    up_of(Degrees(SLOPE[0]), Degrees(SLOPE[1]))
}

pub fn read_board(bench: &mut Bench) {
    bench.send(Intent::GoStep(Step::Ground));
    measure(bench, Measure::BoardStart);
    let [right, forward, _] = ground_up();
    hold(bench, on_table(back(), [right, forward], 0.0), 1600.0);
    hold(bench, on_table(back(), [right, forward], 180.0), 1600.0);
}

pub fn read_faces(bench: &mut Bench) {
    for [rake, turn] in SPOTS {
        let gravity = against_gravity(rake, turn, ground_up());
        let up = on_face(back(), Side::Back, gravity, 0.5);
        hold(bench, up, 1600.0);
    }
}

pub fn type_corners(bench: &mut Bench) {
    bench.send(Intent::GoStep(Step::Corners));
    for (spot, [_, turn]) in SPOTS.into_iter().enumerate() {
        let field = Field::CornerAngle(u8::try_from(spot).expect("few"));
        bench.send(Intent::Type(field, turn.to_string()));
    }
    measure(bench, Measure::CornersTaken);
}

pub fn measured() -> Bench {
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

pub fn pose_asked(bench: &Bench) -> Option<Pose> {
    match bench.app.reading.as_ref()?.target {
        Target::Pose(pose) => Some(pose),
        _ => None,
    }
}

pub fn refusal(bench: &Bench) -> Option<String> {
    match &bench.app.reading.as_ref()?.phase {
        Phase::NotTaken(why) | Phase::NoSensor(why) => Some(why.key.to_string()),
        _ => None,
    }
}

pub fn unzeroed(job: &job::JobState) -> job::JobState {
    let mut job = job.clone();
    job.phone = Phone::Unzeroed;
    job
}

/// The phone's back on a face of this azimuth, by the orientation source.
pub fn hold_turned(bench: &mut Bench, alpha: f64, beta: f64) {
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

pub fn sweep(bench: &mut Bench, drift: f64) {
    bench.send(Intent::GoStep(Step::Corners));
    measure(bench, Measure::SweepStart);
    let places = [0.0, -28.0, -6.0, 6.0, 28.0, 0.0];
    for (step, turn) in places.into_iter().enumerate() {
        hold_turned(bench, turn + drift * step as f64, 93.0);
    }
}
