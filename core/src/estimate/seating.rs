//! How the phone sits from one reading to the next, pooled from repeats.

use serde::{Deserialize, Serialize};

use crate::estimate::stats::few_factor;
use crate::units::Degrees;

/// Standard deviation of seating where no repeats tell it.
pub const SEATING: Degrees = Degrees(0.3);

/// Standard deviation of one reading from seating.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub enum Seating {
    /// No repeats: [`SEATING`].
    #[default]
    Assumed,
    /// Pooled from the repeats of a job.
    Pooled {
        /// Pooled standard deviation.
        spread: Degrees,
        /// Degrees of freedom behind it: repeats less spots.
        dof: usize,
    },
}

impl Seating {
    /// Pools the repeats of several spots, each list the face angles read
    /// at one spot.
    #[must_use]
    pub fn pooled(spots: &[Vec<Degrees>]) -> Self {
        let mut square = 0.0;
        let mut dof = 0;
        for spot in spots.iter().filter(|spot| spot.len() > 1) {
            let n = spot.len() as f64;
            let mean = spot.iter().map(|r| r.0).sum::<f64>() / n;
            square += spot.iter().map(|r| (r.0 - mean).powi(2)).sum::<f64>();
            dof += spot.len() - 1;
        }
        if dof < 1 {
            return Self::Assumed;
        }
        Self::Pooled {
            spread: Degrees((square / dof as f64).sqrt()),
            dof,
        }
    }

    /// Standard uncertainty of one reading from seating; fewer than ten
    /// repeats are widened by t95(n-1)/1.96.
    #[must_use]
    pub fn u(self) -> Degrees {
        match self {
            Self::Assumed => SEATING,
            Self::Pooled { spread, dof } => spread * few_factor(dof as f64 + 1.0),
        }
    }
}
