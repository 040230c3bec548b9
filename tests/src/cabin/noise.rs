//! Noises that go on: still ones, and the clicks of an indicator.

use super::RATE;
use crate::tilt_sim::rng::Rng;

/// A kind of noise.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Kind {
    /// The same density everywhere.
    White,
    /// An engine and the road: density falls with the square of the frequency.
    Brown,
    /// A blower: brown and white with the lines of its blades.
    Fan,
    /// Rain on the roof: white with drops.
    Rain,
    /// An indicator's relay over a faint brown noise.
    Clicks,
}

impl Kind {
    /// Noises whose figures stay the same.
    pub const STILL: [Self; 4] = [Self::White, Self::Brown, Self::Fan, Self::Rain];

    /// Its name in figures.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::White => "white",
            Self::Brown => "brown",
            Self::Fan => "fan",
            Self::Rain => "rain",
            Self::Clicks => "clicks",
        }
    }
}

/// A resonance that was struck.
#[derive(Clone, Copy, Debug)]
struct Ring {
    phase: f64,
    step: f64,
    size: f64,
    decay: f64,
}

impl Ring {
    fn struck(rng: &mut Rng, hertz: (f64, f64), decay_ms: (f64, f64), size: f64) -> Self {
        let hertz = rng.uniform(hertz.0, hertz.1);
        let decay_ms = rng.uniform(decay_ms.0, decay_ms.1);
        Self {
            phase: rng.uniform(0.0, core::f64::consts::TAU),
            step: core::f64::consts::TAU * hertz / RATE,
            size,
            decay: (-1000.0 / (decay_ms * RATE)).exp(),
        }
    }

    fn next(&mut self) -> f64 {
        self.phase += self.step;
        self.size *= self.decay;
        self.size * self.phase.sin()
    }
}

/// A noise under way.
pub struct Noise {
    kind: Kind,
    rng: Rng,
    brown: f64,
    blade: f64,
    wander: f64,
    swell: f64,
    rings: Vec<Ring>,
    to_click: f64,
    at: u64,
}

/// Standard deviation of the white part.
const WHITE: f64 = 0.004;
/// Corner of the brown part, hertz.
const CORNER: f64 = 60.0;

impl Noise {
    /// A noise of its own for each seed.
    #[must_use]
    pub fn new(kind: Kind, seed: u64) -> Self {
        let mut rng = Rng::new(seed);
        let blade = rng.uniform(170.0, 260.0);
        Self {
            kind,
            rng,
            brown: 0.0,
            blade,
            wander: 0.0,
            swell: 0.0,
            rings: Vec::new(),
            to_click: 0.1,
            at: 0,
        }
    }

    /// The next samples.
    pub fn take(&mut self, count: usize) -> Vec<f32> {
        (0..count).map(|_| self.next() as f32).collect()
    }

    fn brown(&mut self, size: f64) -> f64 {
        let keep = (-core::f64::consts::TAU * CORNER / RATE).exp();
        self.brown = keep * self.brown + self.rng.normal(size);
        self.brown
    }

    fn next(&mut self) -> f64 {
        self.at += 1;
        match self.kind {
            Kind::White => self.rng.normal(WHITE),
            Kind::Brown => self.brown(0.006) + self.rng.normal(WHITE / 20.0),
            Kind::Fan => {
                let noise = self.brown(0.004) + self.rng.normal(WHITE / 2.0);
                noise + self.blades()
            }
            Kind::Rain => {
                if self.rng.share() < 60.0 / RATE {
                    let size = 0.01 * self.rng.normal(0.8).exp();
                    let ring = Ring::struck(&mut self.rng, (800.0, 6500.0), (0.6, 4.0), size);
                    self.rings.push(ring);
                }
                self.rng.normal(WHITE) + self.rung()
            }
            Kind::Clicks => {
                self.to_click -= 1.0 / RATE;
                if self.to_click <= 0.0 {
                    // Down and up of a relay, 80 to 95 a minute.
                    self.to_click = self.rng.uniform(0.31, 0.37);
                    for _ in 0..5 {
                        let size = self.rng.uniform(0.02, 0.15);
                        let ring = Ring::struck(&mut self.rng, (600.0, 5500.0), (2.0, 14.0), size);
                        self.rings.push(ring);
                    }
                }
                self.brown(0.002) + self.rng.normal(WHITE / 10.0) + self.rung()
            }
        }
    }

    /// Lines of the blades with a slow wander of speed and strength.
    fn blades(&mut self) -> f64 {
        if self.at.is_multiple_of(160) {
            self.wander = 0.995 * self.wander + self.rng.normal(0.0003);
            self.swell = 0.98 * self.swell + self.rng.normal(0.03);
        }
        let hertz = self.blade * (1.0 + self.wander);
        self.to_click += core::f64::consts::TAU * hertz / RATE;
        let lines = (1..=6).map(|k| (f64::from(k) * self.to_click).sin() / f64::from(k * k));
        0.01 * (1.0 + self.swell) * lines.sum::<f64>()
    }

    fn rung(&mut self) -> f64 {
        let sum = self.rings.iter_mut().map(Ring::next).sum();
        self.rings.retain(|ring| ring.size > 1e-6);
        sum
    }
}

/// One-sided noise density near a frequency, from samples of the noise
/// alone: mean power of Hann windows of 128 ms at and beside it.
#[must_use]
pub fn density_at(noise: &[f32], hertz: f64) -> f64 {
    const LENGTH: usize = 2048;
    let window: Vec<f64> = (0..LENGTH)
        .map(|n| 0.5 - 0.5 * (core::f64::consts::TAU * n as f64 / LENGTH as f64).cos())
        .collect();
    let energy: f64 = window.iter().map(|w| w * w).sum();
    let (mut sum, mut count) = (0.0, 0.0);
    for part in noise
        .chunks_exact(LENGTH / 2)
        .zip(noise.chunks_exact(LENGTH / 2).skip(1))
    {
        let part = part.0.iter().chain(part.1);
        let weighted: Vec<f64> = part.zip(&window).map(|(x, w)| f64::from(*x) * w).collect();
        for by in [-48.0, -24.0, 0.0, 24.0, 48.0] {
            let turn = core::f64::consts::TAU * (hertz + by) / RATE;
            // Goertzel's recursion.
            let (mut a, mut b) = (0.0, 0.0);
            for x in &weighted {
                (a, b) = (x + 2.0 * turn.cos() * a - b, a);
            }
            sum += a * a + b * b - 2.0 * turn.cos() * a * b;
            count += 1.0;
        }
    }
    2.0 * sum / count / (RATE * energy)
}
