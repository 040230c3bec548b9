//! Echoes of smooth convex bodies by geometrical acoustics.
//!
//! ```text
//! L = 40 log10 |D| - 20 log10(2 r)
//!   + 10 log10(R1 R2 / ((R1 + r)(R2 + r))) - 2 alpha r + C,
//! ```
//! r to the surface, R1 and R2 the principal radii there.

use crate::text::{Message, msg};
use crate::units::Millimetres;

/// Radius of the test pole: a tube of 75 mm.
pub const POLE_RADIUS: f64 = 0.0375;
/// Radius of a tow ball of 50 mm.
pub const BALL_RADIUS: f64 = 0.025;
/// A kerb's edge has no mirror point; it gives so much less than a wall
/// (assumed, dB).
pub const KERB_LOSS: f64 = 15.0;
/// |D| is not taken below this: a real head has no perfect nulls.
pub const DIRECTIVITY_LEAST: f64 = 0.001;
/// A surface nearer than this counts as that far off, metres: deep inside
/// the too-close zone of any head.
pub const RANGE_LEAST: f64 = 0.001;
/// Smallest radius of a spare wheel's tread.
pub const WHEEL_LEAST: Millimetres = Millimetres(150.0);
/// Largest radius of a spare wheel's tread.
pub const WHEEL_GREATEST: Millimetres = Millimetres(700.0);

/// What stands behind the vehicle. Where it stands is said apart.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Target {
    /// The test pole, upright; its axis stands at the place.
    Pole,
    /// The same tube lying across at this height; x does not matter.
    Bar {
        /// Height of its axis.
        height: Millimetres,
    },
    /// A wall across the vehicle; x does not matter.
    Wall,
    /// A kerb across the vehicle, its face at the place.
    Kerb,
    /// A tow ball, its middle at the place and this height.
    TowBall {
        /// Height of its middle.
        height: Millimetres,
    },
    /// A spare wheel's tread, its middle at the place and this height.
    SpareWheel {
        /// Height of its middle.
        height: Millimetres,
        /// Radius of the tread.
        radius: Millimetres,
    },
}

/// Reads the radius of a spare wheel's tread.
///
/// # Errors
/// Not a length, or no wheel's.
pub fn wheel_radius(length: Millimetres) -> Result<Millimetres, Message> {
    if (WHEEL_LEAST.0..=WHEEL_GREATEST.0).contains(&length.0) {
        Ok(length)
    } else {
        Err(msg("object-wheel-radius")
            .mm("typed", length.0)
            .mm("least", WHEEL_LEAST.0)
            .mm("greatest", WHEEL_GREATEST.0))
    }
}

/// Where the mirror point lies seen from the head, and how strong.
#[derive(Clone, Copy, Debug)]
pub(super) struct Mirror {
    /// Direction from the head, unit.
    pub direction: [f64; 3],
    /// Metres to the surface.
    pub range: f64,
    /// First principal radius; `None` is flat.
    pub first: Option<f64>,
    /// Second principal radius; `None` is flat.
    pub second: Option<f64>,
    /// Taken off the level, dB.
    pub loss: f64,
}

impl Target {
    /// The mirror point of the target at (x, y) seen from `head`, metres in
    /// the vehicle's frame.
    pub(super) fn mirror(&self, head: [f64; 3], x: f64, y: f64) -> Mirror {
        let (dx, dy) = (x - head[0], y - head[1]);
        let (to, inside, first, second, loss) = match *self {
            Self::Pole => ([dx, dy, 0.0], POLE_RADIUS, Some(POLE_RADIUS), None, 0.0),
            Self::Bar { height } => {
                let dz = height.0 / 1e3 - head[2];
                ([0.0, dy, dz], POLE_RADIUS, Some(POLE_RADIUS), None, 0.0)
            }
            Self::Wall => ([0.0, dy, 0.0], 0.0, None, None, 0.0),
            Self::Kerb => ([0.0, dy, -head[2]], 0.0, None, None, KERB_LOSS),
            Self::TowBall { height } => {
                let dz = height.0 / 1e3 - head[2];
                let ball = Some(BALL_RADIUS);
                ([dx, dy, dz], BALL_RADIUS, ball, ball, 0.0)
            }
            Self::SpareWheel { height, radius } => {
                let dz = height.0 / 1e3 - head[2];
                let tread = radius.0 / 1e3;
                ([dx, dy, dz], tread, Some(tread), None, 0.0)
            }
        };
        let distance = to.iter().map(|part| part * part).sum::<f64>().sqrt();
        let direction = if distance > 0.0 {
            to.map(|part| part / distance)
        } else {
            [0.0, -1.0, 0.0]
        };
        Mirror {
            direction,
            range: (distance - inside).max(RANGE_LEAST),
            first,
            second,
            loss,
        }
    }
}

/// R / (R + r), 1 for a flat surface.
pub(super) fn spread(radius: Option<f64>, range: f64) -> f64 {
    radius.map_or(1.0, |radius| radius / (radius + range))
}
