//! Cards that the picture's edge cuts: two crosses and the code are seen.

use super::group::{Near, Search, cross2, length, minus};

/// Sides that a card cut by the picture's edge may have across it, share of
/// the side that is seen: turned away it is narrow.
const CUT_SIDES: [f64; 18] = [
    0.40, 0.43, 0.46, 0.50, 0.54, 0.58, 0.62, 0.67, 0.72, 0.77, 0.83, 0.89, 0.95, 1.02, 1.10, 1.18,
    1.27, 1.36,
];
/// A cross this near the picture's edge is not found, pixels.
const EDGE: f64 = 9.0;

impl Search<'_> {
    /// Whether a place is within reach of the picture's edge.
    pub(super) fn near_edge(&self, at: [f64; 2], reach: f64) -> bool {
        let (width, height) = (self.rows.width as f64, self.rows.height as f64);
        let off = [at[0], at[1], width - at[0], height - at[1]];
        off.into_iter().fold(f64::INFINITY, f64::min) < reach
    }

    /// Whether a place is too near the picture's edge, or outside.
    fn hidden(&self, at: [f64; 2]) -> bool {
        let (width, height) = (self.rows.width as f64, self.rows.height as f64);
        !(EDGE..width - EDGE).contains(&at[0]) || !(EDGE..height - EDGE).contains(&at[1])
    }

    /// Two crosses of a card whose other two are outside of the picture: the
    /// code tells whether there is a card.
    pub(super) fn cut(&mut self, one: usize, near: &Near) {
        let own = self.crosses[one];
        let lists = self.along_edges(one, near);
        for (k, way) in [own.along, own.across].into_iter().enumerate() {
            // Seen along x, cut along y, and the other way round.
            for other in lists.iter().flat_map(|both| both[k].clone()) {
                let to = self.crosses[other].at;
                let side = minus(to, own.at);
                for share in CUT_SIDES {
                    for sign in [1.0, -1.0] {
                        let out = way.map(|w| sign * share * length(side) * w);
                        let over = |at: [f64; 2]| [at[0] + out[0], at[1] + out[1]];
                        let (third, fourth) = (over(to), over(own.at));
                        if !(self.hidden(third) && self.hidden(fourth)) {
                            continue;
                        }
                        // Clockwise, from a corner that makes x the first side.
                        let clockwise = cross2(side, out) > 0.0;
                        let mut places = if clockwise {
                            [own.at, to, third, fourth]
                        } else {
                            [to, own.at, fourth, third]
                        };
                        if k == 1 {
                            places.rotate_left(1);
                        }
                        if let Some(read) = self.read_at(places, 2) {
                            self.keep(&[one, other], places, read);
                            return;
                        }
                    }
                }
            }
        }
    }
}
