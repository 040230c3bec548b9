//! How cards are bent: as the face is that they are stuck on, by the shape
//! through all of them.

use nalgebra::Vector3;

use super::bundle::BendPrior;
use super::pose::CardPose;
use super::start::BEND_BEFORE;

/// Two cards' bends differ by no more than this part of the shape's.
const BEND_PART: f64 = 0.4;
/// Standard uncertainty of a bend beside that part, per mm.
const BEND_LEAST: f64 = 0.000_25;
/// Bends are from this to that, per mm.
const BEND_LIMITS: (f64, f64) = (-0.002, 0.004);

/// Bends by the shape through the cards.
#[must_use]
pub(super) fn bends(cards: &[CardPose]) -> Vec<BendPrior> {
    let order = left_to_right(cards);
    let n = order.len();
    let mut bends = vec![BEND_BEFORE; n];
    if n < 3 {
        return bends;
    }
    // Change of turn a millimetre between neighbours, + where it stands out.
    let pieces: Vec<f64> = order
        .windows(2)
        .map(|pair| {
            let (a, b) = (&cards[pair[0]], &cards[pair[1]]);
            let length = (b.tip - a.tip).norm().max(1.0);
            let up = (a.axes.column(1) + b.axes.column(1)).normalize();
            let (p, q) = (a.axes.column(0), b.axes.column(0));
            p.cross(&q).dot(&up).atan2(p.dot(&q)) / length
        })
        .collect();
    for (k, card) in order.iter().enumerate() {
        let value = match k {
            0 => pieces[0],
            k if k == n - 1 => pieces[n - 2],
            k => (pieces[k - 1] + pieces[k]) / 2.0,
        };
        let spread = match k {
            0 => (pieces[0] - pieces[1]).abs(),
            k if k == n - 1 => (pieces[n - 2] - pieces[n - 3]).abs(),
            k => (pieces[k - 1] - pieces[k]).abs() / 2.0,
        };
        let value = value.clamp(BEND_LIMITS.0, BEND_LIMITS.1);
        let u = (BEND_PART * value.abs()).hypot(BEND_LEAST).hypot(spread);
        bends[*card] = BendPrior {
            value,
            u: u.min(BEND_BEFORE.u * 1.5),
        };
    }
    bends
}

/// Cards from left to right along the mean of their right-hand directions.
#[must_use]
pub fn left_to_right(cards: &[CardPose]) -> Vec<usize> {
    let across = cards
        .iter()
        .map(|c| c.axes.column(0).into_owned())
        .sum::<Vector3<f64>>();
    let mut order: Vec<usize> = (0..cards.len()).collect();
    order.sort_by(|a, b| {
        let at = |i: &usize| cards[*i].tip.dot(&across);
        at(a).total_cmp(&at(b))
    });
    order
}
