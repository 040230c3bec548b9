//! The too-close zone: while a head rings it hears nothing.

use super::air::Air;
use crate::units::{Millimetres, Millis};

/// How near an object must be to be lost in the head's own ringing: c t / 2.
#[must_use]
pub fn too_close(ringing: Millis, air: &Air) -> Millimetres {
    Millimetres(air.speed() * ringing.0 / 2.0)
}
