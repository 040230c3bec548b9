//! One channel out of those that the device gives.

/// A channel with less than this share of the strongest one's power is dead.
const DEAD: f64 = 0.01;
/// A mix with less than this share of its channels' mean power cancels out.
const CANCELS: f64 = 0.1;
/// Share of a batch in the running figures.
const WEIGHT: f64 = 0.1;

/// Running figures of some channels.
#[derive(Clone, Debug, Default)]
pub struct Channels {
    powers: Vec<f64>,
    mixed: f64,
}

impl Channels {
    /// The mean of the channels that live, or the strongest where they
    /// cancel each other out; `planar` holds one channel after the other.
    /// No channel gives nothing.
    pub fn mix(&mut self, planar: &[f32], channels: usize, mono: &mut Vec<f32>) {
        mono.clear();
        let length = planar.len().checked_div(channels).unwrap_or(0);
        if length == 0 {
            return;
        }
        let parts: Vec<&[f32]> = planar.chunks_exact(length).take(channels).collect();
        self.powers.resize(parts.len(), 0.0);
        for (power, part) in self.powers.iter_mut().zip(&parts) {
            *power += WEIGHT * (mean_square(part) - *power);
        }
        let most = self.powers.iter().copied().fold(0.0, f64::max);
        let live: Vec<usize> = (0..parts.len())
            .filter(|at| self.powers[*at] >= DEAD * most)
            .collect();
        let share = 1.0 / live.len().max(1) as f32;
        mono.extend((0..length).map(|n| share * live.iter().map(|at| parts[*at][n]).sum::<f32>()));
        self.mixed += WEIGHT * (mean_square(mono) - self.mixed);
        let mean = live.iter().map(|at| self.powers[*at]).sum::<f64>() / live.len().max(1) as f64;
        if self.mixed < CANCELS * mean {
            let strongest = live
                .into_iter()
                .max_by(|a, b| self.powers[*a].total_cmp(&self.powers[*b]));
            mono.clear();
            mono.extend_from_slice(parts[strongest.unwrap_or(0)]);
        }
    }
}

fn mean_square(samples: &[f32]) -> f64 {
    let sum: f64 = samples.iter().map(|s| f64::from(*s) * f64::from(*s)).sum();
    if sum.is_finite() {
        sum / samples.len().max(1) as f64
    } else {
        0.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn wave(size: f32) -> Vec<f32> {
        (0..800).map(|n| size * (n as f32 * 0.7).sin()).collect()
    }

    fn mixed(left: &[f32], right: &[f32]) -> f64 {
        let planar = [left, right].concat();
        let mut mono = Vec::new();
        Channels::default().mix(&planar, 2, &mut mono);
        assert_eq!(mono.len(), left.len());
        mean_square(&mono)
    }

    #[test]
    fn two_channels_are_mixed_and_a_dead_one_is_left_out() {
        let full = mean_square(&wave(0.5));
        assert!((mixed(&wave(0.5), &wave(0.5)) - full).abs() < 1e-6);
        assert!((mixed(&wave(0.5), &wave(0.0)) - full).abs() < 1e-6);
        assert!((mixed(&wave(0.0), &wave(0.5)) - full).abs() < 1e-6);
    }

    #[test]
    fn channels_that_cancel_out_give_the_stronger_one() {
        let full = mean_square(&wave(0.5));
        assert!((mixed(&wave(0.5), &wave(-0.5)) - full).abs() < 1e-6);
    }

    #[test]
    fn no_channel_is_no_sound() {
        let mut mono = vec![1.0];
        Channels::default().mix(&[], 0, &mut mono);
        assert!(mono.is_empty());
    }
}
