//! A voice without words: pulses of a throat through moving resonances,
//! in syllables, with breath between. Enough to have a comb, glides and
//! formants; the bench adds a real synthesiser.

use super::RATE;
use crate::tilt_sim::rng::Rng;

/// Formants of five vowels, hertz.
const VOWELS: [[f64; 4]; 5] = [
    [730.0, 1090.0, 2440.0, 3400.0],
    [530.0, 1840.0, 2480.0, 3500.0],
    [270.0, 2290.0, 3010.0, 3600.0],
    [570.0, 840.0, 2410.0, 3300.0],
    [300.0, 870.0, 2240.0, 3300.0],
];
const WIDTHS: [f64; 4] = [70.0, 90.0, 130.0, 180.0];

#[derive(Clone, Copy, Default)]
struct Resonance {
    a: f64,
    b: f64,
}

impl Resonance {
    fn pass(&mut self, x: f64, hertz: f64, width: f64) -> f64 {
        let r = (-core::f64::consts::PI * width / RATE).exp();
        let turn = core::f64::consts::TAU * hertz / RATE;
        let y = (1.0 - r) * x + 2.0 * r * turn.cos() * self.a - r * r * self.b;
        (self.a, self.b) = (y, self.a);
        y
    }
}

/// So many samples of a voice of its own for each seed.
#[must_use]
pub fn voice(count: usize, seed: u64) -> Vec<f32> {
    let mut rng = Rng::new(seed);
    let usual = rng.uniform(90.0, 230.0);
    let mut made = Vec::with_capacity(count);
    let mut filters = [Resonance::default(); 4];
    let (mut phase, mut from) = (0.0, VOWELS[0]);
    while made.len() < count {
        let to = VOWELS[(rng.share() * 5.0) as usize % 5];
        let length = rng.uniform(0.10, 0.32) * RATE;
        let (start, end) = (rng.uniform(0.9, 1.25), rng.uniform(0.8, 1.1));
        let breath = if rng.share() < 0.3 { 0.5 } else { 0.02 };
        for at in 0..length as usize {
            let share = at as f64 / length;
            let throat = usual * (start + (end - start) * share);
            phase += throat / RATE;
            let pulse = if phase >= 1.0 {
                phase -= 1.0;
                1.0
            } else {
                0.0
            };
            let swell = (core::f64::consts::PI * share).sin();
            let source = pulse + rng.normal(0.01) * breath;
            let glide = (share * 3.0).min(1.0);
            let mut sum = 0.0;
            for (k, filter) in filters.iter_mut().enumerate() {
                let hertz = from[k] + (to[k] - from[k]) * glide;
                sum += filter.pass(source, hertz, WIDTHS[k]) / (1.0 + k as f64);
            }
            made.push((6.0 * swell * sum + rng.normal(0.0003)) as f32);
        }
        from = to;
        if rng.share() < 0.2 {
            let rest = (rng.uniform(0.1, 0.7) * RATE) as usize;
            made.extend((0..rest).map(|_| rng.normal(0.0003) as f32));
        }
    }
    made.truncate(count);
    made
}
