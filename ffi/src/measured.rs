//! A figure with its uncertainty.

use rakeline_core::units::{COVERAGE_95, Degrees, Estimate, Millimetres, Offset};

/// A measured figure; its unit is the one of the field that holds it.
#[derive(Clone, Copy, Debug, PartialEq, uniffi::Record)]
pub struct Measured {
    /// Best estimate.
    pub value: f64,
    /// Standard uncertainty.
    pub u: f64,
    /// Half the 95 % interval.
    pub plus_minus: f64,
}

impl Measured {
    fn new(value: f64, u: f64) -> Self {
        Self {
            value,
            u,
            plus_minus: COVERAGE_95 * u,
        }
    }

    pub(crate) fn degrees(self) -> Estimate<Degrees> {
        Estimate::new(Degrees(self.value), Degrees(self.u))
    }
}

impl From<Estimate<Degrees>> for Measured {
    fn from(estimate: Estimate<Degrees>) -> Self {
        Self::new(estimate.value.0, estimate.u.0)
    }
}

impl From<Estimate<Millimetres>> for Measured {
    fn from(estimate: Estimate<Millimetres>) -> Self {
        Self::new(estimate.value.0, estimate.u.0)
    }
}

impl From<Estimate<Offset>> for Measured {
    fn from(estimate: Estimate<Offset>) -> Self {
        Self::new(estimate.value.0, estimate.u.0)
    }
}
