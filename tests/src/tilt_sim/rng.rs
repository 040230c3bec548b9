//! A small generator with a fixed stream for each seed.

/// Splitmix64 (Steele, Lea, Flood 2014) with Box-Muller normals.
#[derive(Clone, Debug)]
pub struct Rng {
    state: u64,
    spare: Option<f64>,
}

impl Rng {
    /// A stream of its own for each seed.
    #[must_use]
    pub fn new(seed: u64) -> Self {
        Self {
            state: seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ 0x5bd1_e995_1234_5678,
            spare: None,
        }
    }

    fn next(&mut self) -> u64 {
        self.state = self.state.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.state;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// Uniform in 0 to 1.
    pub fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }

    /// Uniform from `low` to `high`.
    pub fn uniform(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.share()
    }

    /// Normal with mean 0.
    pub fn normal(&mut self, sd: f64) -> f64 {
        if let Some(spare) = self.spare.take() {
            return sd * spare;
        }
        let radius = (-2.0 * (1.0 - self.share()).ln()).sqrt();
        let (s, c) = (core::f64::consts::TAU * self.share()).sin_cos();
        self.spare = Some(radius * s);
        sd * radius * c
    }
}
