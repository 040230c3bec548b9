//! The vehicle's directions, by its cards.
//!
//! Straight across is the mean direction between marks that are each
//! other's mirror image (the outermost two, the next two, …): a bumper is
//! the same both sides. Up is square to that: the mean of the cards' upward
//! directions (a face leans by some degrees), moved towards where the tips
//! would all be level (marks are level by some millimetres). Back is square
//! to both, out of the face.

use nalgebra::Vector3;

use super::pose::CardPose;
use crate::units::Degrees;

/// Standard uncertainty of straight across: the two sides of a bumper, and
/// its marks, are not quite each other's mirror image.
pub const U_ACROSS: Degrees = Degrees(0.15);

/// Standard deviation of how faces lean, radian.
const LEAN: f64 = 0.1;
/// Standard deviation of how level marks are, millimetres.
const LEVEL: f64 = 4.0;

/// What a card stands on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// A mark, counted from 0 at the left.
    Mark(usize),
    /// The centre mark.
    Centre,
}

impl Standing {
    /// Cards are numbered as the marks are; the card after the last mark's
    /// stands on the centre mark. `None` for others.
    #[must_use]
    pub fn of(code: u16, marks: usize) -> Option<Self> {
        let code = usize::from(code);
        match code {
            c if c < marks => Some(Self::Mark(c)),
            c if c == marks => Some(Self::Centre),
            _ => None,
        }
    }
}

/// Up turned about straight across so far that the tips are as level as
/// they and the lean of faces allow: a line through (back, height) of the
/// tips, its slope held by a prior.
fn levelled(
    cards: &[(CardPose, Standing)],
    across: &Vector3<f64>,
    up: &Vector3<f64>,
) -> Vector3<f64> {
    let back = across.cross(up);
    let n = cards.len() as f64;
    let mean = cards.iter().map(|c| c.0.tip).sum::<Vector3<f64>>() / n;
    let (mut both, mut square) = (0.0, (LEVEL / LEAN).powi(2));
    for (card, _) in cards {
        let from = card.tip - mean;
        both += from.dot(&back) * from.dot(up);
        square += from.dot(&back).powi(2);
    }
    (up - back * (both / square)).normalize()
}

/// Directions in the world frame, each of length 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    /// To the vehicle's right.
    pub across: Vector3<f64>,
    /// Up.
    pub up: Vector3<f64>,
    /// Back, out of the face.
    pub back: Vector3<f64>,
    /// Where offsets are 0.
    pub zero: Vector3<f64>,
}

impl Frame {
    /// From cards and what they stand on; `None` when no two marks are each
    /// other's mirror image, so that straight across is not known.
    #[must_use]
    pub fn new(cards: &[(CardPose, Standing)], marks: usize) -> Option<Self> {
        let tip = |mark: usize| {
            let found = cards.iter().find(|c| c.1 == Standing::Mark(mark));
            found.map(|c| c.0.tip)
        };
        let pairs: Vec<(Vector3<f64>, Vector3<f64>)> = (0..marks / 2)
            .filter_map(|i| Some((tip(i)?, tip(marks - 1 - i)?)))
            .collect();
        if pairs.is_empty() {
            return None;
        }
        let across = pairs.iter().map(|(l, r)| r - l).sum::<Vector3<f64>>();
        let across = across.try_normalize(1.0)?;
        let up = cards
            .iter()
            .map(|c| c.0.axes.column(1).into_owned())
            .sum::<Vector3<f64>>();
        let up = (up - across * across.dot(&up)).try_normalize(1e-3)?;
        let up = levelled(cards, &across, &up);
        let middle = pairs
            .iter()
            .map(|(l, r)| (l + r) / 2.0)
            .sum::<Vector3<f64>>();
        let centre = cards.iter().find(|c| c.1 == Standing::Centre);
        Some(Self {
            across,
            up,
            back: across.cross(&up),
            zero: centre.map_or(middle / pairs.len() as f64, |c| c.0.tip),
        })
    }

    /// A place as (straight, up, back) from the zero.
    #[must_use]
    pub fn place(&self, at: &Vector3<f64>) -> [f64; 3] {
        let from = at - self.zero;
        [
            from.dot(&self.across),
            from.dot(&self.up),
            from.dot(&self.back),
        ]
    }

    /// Corner angle of a direction out of the face, radian, + to the right.
    #[must_use]
    pub fn turn(&self, out: &Vector3<f64>) -> f64 {
        out.dot(&self.across).atan2(out.dot(&self.back))
    }
}
