//! The last seconds of sound, by the index of the sample in the stream.

/// Samples that are kept: four seconds.
const KEPT: usize = 1 << 16;

/// A ring of samples.
#[derive(Clone, Debug)]
pub struct Ring {
    samples: Vec<f32>,
    end: u64,
}

impl Ring {
    pub fn new() -> Self {
        Self {
            samples: vec![0.0; KEPT],
            end: 0,
        }
    }

    /// Index after the newest sample.
    pub fn end(&self) -> u64 {
        self.end
    }

    /// Index of the oldest sample.
    pub fn begin(&self) -> u64 {
        self.end.saturating_sub(KEPT as u64)
    }

    pub fn push(&mut self, samples: &[f32]) {
        for &sample in samples {
            let place = self.end as usize % KEPT;
            self.samples[place] = sample;
            self.end += 1;
        }
    }

    /// The samples from `from` on, in at most two runs; fewer where they
    /// are not kept.
    pub fn runs(&self, from: u64, count: usize) -> [&[f32]; 2] {
        let from = from.clamp(self.begin(), self.end);
        let count = count.min((self.end - from) as usize);
        let place = from as usize % KEPT;
        let first = count.min(KEPT - place);
        [
            &self.samples[place..place + first],
            &self.samples[..count - first],
        ]
    }

    /// Copies samples; what is not kept reads as silence at the end.
    pub fn copy(&self, from: u64, into: &mut [f32]) {
        let [a, b] = self.runs(from, into.len());
        into[..a.len()].copy_from_slice(a);
        into[a.len()..a.len() + b.len()].copy_from_slice(b);
        into[a.len() + b.len()..].fill(0.0);
    }
}
