//! Solving measured: how true the millimetres are, how honest their ±, and
//! how long it takes.

use std::ops::Range;
use std::time::Instant;

use rakeline_core::estimate::photo::scene::solve_photos;
use rakeline_core::estimate::stats::median;

use super::errors::run;
use super::{Kind, Scene};

/// One figure with its limits.
#[derive(Clone, Copy, Debug)]
pub struct Bar {
    /// What it is.
    pub figure: &'static str,
    /// What was measured.
    pub value: f64,
    /// The least that is good.
    pub least: Option<f64>,
    /// The most that is good.
    pub most: Option<f64>,
}

fn most(figure: &'static str, value: f64, limit: f64) -> Bar {
    Bar {
        figure,
        value,
        least: None,
        most: Some(limit),
    }
}

/// Noise of a cross an axis in normal light and in low light, pixels.
const NORMAL: f64 = 0.06;
const LOW_LIGHT: f64 = 0.15;

fn kind(marks: usize, photos: usize, noise: f64) -> Kind {
    Kind {
        marks,
        photos,
        noise,
        centre: false,
    }
}

/// Errors in millimetres and over their u, on the scenes of these seeds.
#[must_use]
pub fn accuracy(seeds: &Range<u64>) -> Vec<Bar> {
    let three = run(seeds.clone(), kind(4, 3, NORMAL));
    let one = run(seeds.clone(), kind(4, 1, NORMAL));
    let low = run(seeds.clone(), kind(4, 3, LOW_LIGHT));
    let refused = three.refused + one.refused + low.refused;
    let honest = |figure, value| Bar {
        figure,
        value,
        least: Some(0.6),
        most: Some(1.3),
    };
    vec![
        most("photo_three_spacing_95_mm", three.spacing_95(), 1.0),
        most("photo_three_width_95_mm", three.width_95(), 2.0),
        most("photo_one_spacing_95_mm", one.spacing_95(), 3.0),
        most("photo_one_width_95_mm", one.width_95(), 5.0),
        most("photo_low_light_spacing_95_mm", low.spacing_95(), 2.0),
        most("photo_low_light_width_95_mm", low.width_95(), 4.0),
        honest("photo_three_normalised", three.normalised()),
        honest("photo_one_normalised", one.normalised()),
        honest("photo_low_light_normalised", low.normalised()),
        most("photo_scenes_refused", refused as f64, 0.0),
    ]
}

/// Times of three and of six photos of eight cards, scene by scene in turn.
#[must_use]
pub fn speed(seeds: &Range<u64>) -> Vec<Bar> {
    let (mut three, mut ratio) = (Vec::new(), Vec::new());
    for seed in seeds.clone() {
        let few = time(seed, 3);
        let many = time(seed, 6);
        three.push(few);
        ratio.push(many / few);
    }
    vec![
        most("photo_bundle_3x8_ms", median(&mut three), 15.0),
        most("photo_bundle_six_over_three", median(&mut ratio), 2.6),
    ]
}

/// The median of five runs, ms.
fn time(seed: u64, photos: usize) -> f64 {
    let kind = kind(8, photos, NORMAL);
    let seen = Scene::any(seed, kind).seen(seed, kind.noise);
    let mut times: Vec<f64> = (0..5)
        .map(|_| {
            let started = Instant::now();
            let solved = std::hint::black_box(solve_photos(&seen));
            let ms = started.elapsed().as_secs_f64() * 1e3;
            if solved.is_ok() { ms } else { f64::INFINITY }
        })
        .collect();
    median(&mut times)
}
