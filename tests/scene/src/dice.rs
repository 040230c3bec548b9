//! A small seeded generator.

/// SplitMix64 (Steele, Lea, Flood 2014): small, seeded, the same everywhere.
#[derive(Clone, Debug)]
pub struct Dice(pub u64);

impl Dice {
    /// The next 64 bits.
    pub fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// From 0 to below `n`.
    pub fn below(&mut self, n: usize) -> usize {
        usize::try_from(self.roll() % (n as u64)).unwrap_or(0)
    }

    /// A whole number from `low` to `high`, both possible.
    pub fn between(&mut self, low: i64, high: i64) -> i64 {
        let span = u64::try_from(high - low + 1).unwrap_or(1);
        low + i64::try_from(self.roll() % span).unwrap_or(0)
    }
}
