//! Noise that came up just now and lasts: the floor's own past follows within
//! seconds, and until then a loud hiss would pass for a silence.

use std::collections::VecDeque;

use super::floor::{beside, sum_up};

/// So many spectra in a row have to be loud. They overlap by three quarters of
/// their length: a click is in four of them, or five (our own figure).
const SPECTRA: usize = 6;

/// The latest spectra of one length, summed up.
#[derive(Clone, Debug, Default)]
pub struct Lasting {
    sums: VecDeque<Vec<f64>>,
}

impl Lasting {
    /// Takes a spectrum of densities.
    pub fn push(&mut self, now: &[f32]) {
        let oldest = if self.sums.len() < SPECTRA {
            None
        } else {
            self.sums.pop_front()
        };
        let mut sums = oldest.unwrap_or_default();
        sums.resize(now.len() + 1, 0.0);
        sum_up(now, &mut sums);
        self.sums.push_back(sums);
    }

    /// The least noise density beside a bin in the latest spectra, from
    /// neighbours up to `span` bins away; `None` before there are enough.
    pub fn density(&self, bin: usize, span: usize) -> Option<f32> {
        let all = self.sums.iter().map(|sums| beside(sums, bin, span));
        let enough = self.sums.len() == SPECTRA;
        all.reduce(f32::min).filter(|_| enough)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_loud_in_some_of_the_spectra_does_not_last() {
        let mut lasting = Lasting::default();
        let (quiet, loud) = ([1.0_f32; 200], [50.0_f32; 200]);
        assert_eq!(lasting.density(100, 48), None);
        for _ in 0..SPECTRA {
            lasting.push(&quiet);
        }
        for _ in 1..SPECTRA {
            lasting.push(&loud);
            assert_eq!(lasting.density(100, 48), Some(1.0));
        }
        lasting.push(&loud);
        assert_eq!(lasting.density(100, 48), Some(50.0));
    }
}
