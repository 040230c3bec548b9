//! Takes the rumble and the spikes out of sound before it is looked at.
//!
//! Engine and road are far stronger than a beep and lie below it; drops and
//! clicks are short. A tone passes as it is.

use std::collections::VecDeque;

use super::RATE;

/// Below, sound is taken away, hertz.
const CORNER: f64 = 350.0;
/// Samples of a block: 4 ms.
const BLOCK: usize = 64;
/// Blocks on each side whose middle loudness is the measure.
const AROUND: usize = 4;
/// Samples beyond so many times the mean size are cut down to it; a sine
/// reaches 1.6 times its own.
const SPIKE: f32 = 4.0;

/// Sound on its way through.
#[derive(Clone, Debug)]
pub struct Tame {
    b: [f64; 3],
    a: [f64; 2],
    seen: [f64; 4],
    samples: VecDeque<f32>,
    sizes: VecDeque<f32>,
    /// Blocks kept that were given already: they are neighbours still.
    given: usize,
}

impl Tame {
    pub fn new() -> Self {
        // Second-order Butterworth high-pass by the bilinear transform.
        let k = (core::f64::consts::PI * CORNER / RATE).tan();
        let norm = 1.0 / (1.0 + core::f64::consts::SQRT_2 * k + k * k);
        Self {
            b: [norm, -2.0 * norm, norm],
            a: [
                2.0 * (k * k - 1.0) * norm,
                (1.0 - core::f64::consts::SQRT_2 * k + k * k) * norm,
            ],
            seen: [0.0; 4],
            samples: VecDeque::new(),
            sizes: VecDeque::new(),
            given: 0,
        }
    }

    fn high(&mut self, x: f64) -> f64 {
        let [x1, x2, y1, y2] = self.seen;
        let y = self.b[0] * x + self.b[1] * x1 + self.b[2] * x2 - self.a[0] * y1 - self.a[1] * y2;
        self.seen = [x, x1, y, y1];
        y
    }

    /// Takes samples and appends those that are done, 16 to 20 ms behind.
    pub fn push(&mut self, fresh: &[f32], out: &mut Vec<f32>) {
        for &sample in fresh {
            let high = self.high(f64::from(sample)) as f32;
            self.samples.push_back(high);
        }
        loop {
            let measured = self.sizes.len() * BLOCK;
            if self.samples.len() < measured + BLOCK {
                break;
            }
            let block = self.samples.range(measured..measured + BLOCK);
            self.sizes
                .push_back(block.map(|s| s.abs()).sum::<f32>() / BLOCK as f32);
            if self.sizes.len() > self.given + AROUND {
                self.give(out);
            }
        }
    }

    fn give(&mut self, out: &mut Vec<f32>) {
        let at = self.given;
        let mut near: Vec<f32> = self
            .sizes
            .range(at.saturating_sub(AROUND)..=at + AROUND)
            .copied()
            .collect();
        let middle = near.len() / 2;
        let (_, middle, _) = near.select_nth_unstable_by(middle, f32::total_cmp);
        let most = SPIKE * *middle;
        let block = self.samples.range(at * BLOCK..(at + 1) * BLOCK);
        out.extend(block.map(|s| s.clamp(-most, most)));
        if at == AROUND {
            self.samples.drain(..BLOCK);
            self.sizes.pop_front();
        } else {
            self.given += 1;
        }
    }
}
