//! The scenes of tests and bench.

use super::bumper::Shape;
use super::camera::Held;
use super::file::{Scans, Wrapping};
use super::{Glare, Look, Placed, Scene};

/// Which limits hold for a case.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Light {
    /// Enough.
    Normal,
    /// A garage, or a hand that moves.
    Low,
}

/// A scene, how its file is written, and what is asked of it.
#[derive(Clone, Debug)]
pub struct Case {
    /// Its name.
    pub name: String,
    /// What is photographed.
    pub scene: Scene,
    /// How the file is written.
    pub wrapping: Wrapping,
    /// Which limits hold.
    pub light: Light,
}

/// 3 megapixels, as a phone sends it scaled down.
pub const SMALL: (usize, usize) = (2_016, 1_512);
/// 12 megapixels.
pub const PHONE: (usize, usize) = (4_032, 3_024);
/// 50 megapixels.
pub const LARGE: (usize, usize) = (8_160, 6_120);

/// Four cards on a bumper of usual bend, photographed from behind it.
#[must_use]
pub fn usual(seed: u64, size: (usize, usize), distance: f64) -> Scene {
    let card = |code, along, up| Placed { code, along, up };
    Scene {
        seed,
        shape: Shape {
            mid_radius: 2_200.0,
            end_radius: 430.0,
            half: 850.0,
            rake: -4.0,
            height: 500.0,
        },
        cards: vec![
            card(0, -615.0, 3.0),
            card(1, -208.0, -2.0),
            card(2, 211.0, 1.0),
            card(3, 612.0, -3.0),
        ],
        size,
        focal_35mm: 26.0,
        k1: -0.03,
        held: Held {
            at: [0.0, -distance, 1_150.0],
            aim: [0.0, 80.0, 540.0],
            roll: 1.5,
        },
        look: Look::DAY,
    }
}

/// The same scene photographed from the left, the middle and the right.
#[must_use]
pub fn three(scene: &Scene, distance: f64) -> [Scene; 3] {
    let mut n = 0;
    [-0.55f64, 0.0, 0.55].map(|angle| {
        n += 1;
        let mut scene = scene.clone();
        scene.seed = scene.seed.wrapping_mul(31).wrapping_add(n);
        scene.held.at = [distance * angle.sin(), -distance * angle.cos(), 1_150.0];
        scene.held.aim = [60.0 * angle, 80.0, 530.0];
        scene.held.roll += 2.0 * angle;
        scene
    })
}

fn case(name: impl Into<String>, scene: Scene) -> Case {
    Case {
        name: name.into(),
        scene,
        wrapping: Wrapping::default(),
        light: Light::Normal,
    }
}

/// The ten scenes of the test.
#[must_use]
pub fn ten() -> Vec<Case> {
    let with = |name: &str, seed, change: &dyn Fn(&mut Case)| {
        let mut case = case(name, usual(seed, SMALL, 1_700.0));
        change(&mut case);
        case
    };
    vec![
        with("daylight", 1, &|_| {}),
        with("from the left", 2, &|case| {
            case.scene = three(&usual(2, SMALL, 1_700.0), 1_700.0)[0].clone();
        }),
        with("tight ends", 3, &|case| {
            case.scene.shape.end_radius = 320.0;
            case.scene.shape.mid_radius = 1_500.0;
        }),
        with("wide lens", 4, &|case| {
            case.scene.focal_35mm = 18.0;
            case.scene.k1 = -0.08;
            case.scene.held.at[1] = -1_600.0;
            case.scene.size = (2_560, 1_920);
        }),
        with("garage", 5, &|case| {
            case.scene.look = Look::DUSK;
            case.light = Light::Low;
        }),
        with("moved", 6, &|case| {
            case.scene.look.motion = (3.0, 1.0);
            case.light = Light::Low;
        }),
        with("ink spread", 7, &|case| case.scene.look.spread = 0.4),
        with("quality 70", 8, &|case| case.wrapping.quality = 70),
        with("held upright", 9, &|case| {
            case.scene.size = (1_512, 2_016);
            case.scene.held.at[1] = -2_300.0;
            case.wrapping.orientation = 6;
            case.wrapping.scans = Scans::Progressive;
        }),
        with("12 megapixels", 10, &|case| {
            case.scene = usual(10, PHONE, 2_400.0);
        }),
    ]
}

/// The scenes of the bench: bend, distance, light, lens, ink, motion,
/// quality and orientation, sizes.
#[must_use]
pub fn many() -> Vec<Case> {
    let mut cases = Vec::new();
    let mut seed = 1_000;
    let mut next = || {
        seed += 17;
        seed
    };
    for end_radius in [320.0, 430.0, 700.0] {
        for distance in [1_600.0, 2_200.0, 3_000.0] {
            let mut scene = usual(next(), PHONE, distance);
            scene.shape.end_radius = end_radius;
            cases.push(case(format!("R {end_radius}, {distance} mm"), scene));
        }
    }
    for (n, view) in three(&usual(next(), PHONE, 1_900.0), 1_900.0)
        .into_iter()
        .enumerate()
    {
        cases.push(case(format!("view {n}"), view));
    }
    for distance in [1_600.0, 2_200.0, 3_000.0] {
        let mut garage = case(
            format!("garage, {distance} mm"),
            usual(next(), PHONE, distance),
        );
        garage.scene.look = Look::DUSK;
        garage.light = Light::Low;
        cases.push(garage);
        let mut wide = case(
            format!("wide lens, {distance} mm"),
            usual(next(), PHONE, distance),
        );
        wide.scene.focal_35mm = 16.0;
        wide.scene.k1 = -0.1;
        cases.push(wide);
        let mut moved = case(
            format!("moved, {distance} mm"),
            usual(next(), PHONE, distance),
        );
        moved.scene.look.motion = (3.0, -2.0);
        moved.light = Light::Low;
        cases.push(moved);
    }
    for spread in [-0.2, 0.25, 0.5] {
        let mut scene = usual(next(), PHONE, 2_000.0);
        scene.look.spread = spread;
        cases.push(case(format!("ink {spread} mm"), scene));
    }
    for quality in [95, 80, 70] {
        let mut one = case(format!("quality {quality}"), usual(next(), PHONE, 2_000.0));
        one.wrapping.quality = quality;
        cases.push(one);
    }
    for orientation in 1..=8 {
        let mut one = case(
            format!("orientation {orientation}"),
            usual(next(), SMALL, 1_700.0),
        );
        one.wrapping.orientation = orientation;
        cases.push(one);
    }
    for (name, change) in [
        (
            "bright",
            &(|look: &mut Look| look.white = 0.92) as &dyn Fn(&mut Look),
        ),
        ("against the light", &|look| {
            (look.across, look.corners) = (0.6, 0.5)
        }),
        ("soft lens", &|look| look.blur = 1.3),
        ("sharp lens", &|look| look.blur = 0.5),
    ] {
        let mut one = case(name, usual(next(), PHONE, 2_000.0));
        change(&mut one.scene.look);
        cases.push(one);
    }
    let mut eight = case("eight cards", usual(next(), PHONE, 2_000.0));
    eight.scene.cards = (0..8)
        .map(|n| Placed {
            code: n,
            along: -630.0 + 180.0 * f64::from(n),
            up: 2.0 - f64::from(n % 3),
        })
        .collect();
    cases.push(eight);
    let mut progressive = case("progressive", usual(next(), PHONE, 1_900.0));
    progressive.wrapping.scans = Scans::Progressive;
    cases.push(progressive);
    cases.push(case("50 megapixels", {
        let mut scene = usual(next(), LARGE, 2_000.0);
        scene.look.blur = 1.4;
        scene
    }));
    cases
}

/// A reflection that hides a cross of a scene's first card.
#[must_use]
pub fn shining(mut scene: Scene) -> Scene {
    let first = scene.cards[0];
    scene.look.glare = Some(Glare {
        at: (first.along + 34.0, first.up + 50.0 + 34.0),
        radius: 22.0,
        light: 2.5,
    });
    scene
}
