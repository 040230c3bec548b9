//! A saddle looked at more closely: whether four quadrants meet there, and
//! which way the card lies by them.

use rakeline_pixels::{RADIUS, Rows, Saddle};

/// A place where four quadrants meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cross {
    /// Its middle in the full picture, pixels.
    pub at: [f64; 2],
    /// Unit vector along the card's x axis, this way or the opposite one.
    pub across: [f64; 2],
    /// Unit vector along the card's y axis, this way or the opposite one.
    pub along: [f64; 2],
    /// Black against white, grey levels.
    pub contrast: f64,
    /// The grey level between both.
    pub mid: f64,
    /// Pixels of the full picture in one of the level where it was found.
    pub scale: f64,
}

/// Radii that are looked at, pixels: cells of a card seen from the side are
/// narrower than the ring of the response.
const RINGS: [f64; 2] = [RADIUS as f64, 2.0];
/// Samples around the ring.
const SAMPLES: usize = 32;
/// Farthest that an edge's two ends may be from opposite, radian.
const BENT: f64 = 0.45;
/// Least angle between both edges, radian.
const NARROW: f64 = 0.3;
/// Least contrast, grey levels.
const CONTRAST: f64 = 14.0;

/// Looks around a saddle found in a picture that was halved `halvings`
/// times.
#[must_use]
pub fn cross(rows: Rows, saddle: &Saddle, halvings: u32) -> Option<Cross> {
    RINGS
        .iter()
        .find_map(|radius| on_ring(rows, saddle, halvings, *radius))
}

fn on_ring(rows: Rows, saddle: &Saddle, halvings: u32, radius: f64) -> Option<Cross> {
    let mut at = [saddle.x as f64, saddle.y as f64];
    let mut lines = None;
    for _ in 0..3 {
        let (edges, levels) = around(rows, at, radius)?;
        let moved = meet(&edges)?;
        at = [at[0] + moved[0], at[1] + moved[1]];
        lines = Some((edges, levels));
        if moved[0].abs().max(moved[1].abs()) < 0.05 {
            break;
        }
    }
    let (edges, [contrast, mid]) = lines?;
    let off = (at[0] - saddle.x as f64).hypot(at[1] - saddle.y as f64);
    if off > 1.8 || contrast < CONTRAST {
        return None;
    }
    let scale = f64::from(1u32 << halvings);
    let direction = |edge: &Edge| {
        let way = [
            edge.ends[0][0] - edge.ends[1][0],
            edge.ends[0][1] - edge.ends[1][1],
        ];
        let length = way[0].hypot(way[1]);
        [way[0] / length, way[1] / length]
    };
    Some(Cross {
        at: at.map(|x| (x + 0.5) * scale - 0.5),
        across: direction(&edges[0]),
        along: direction(&edges[1]),
        contrast,
        mid,
        scale,
    })
}

/// An edge through a cross: its two ends on the ring, from the middle.
struct Edge {
    ends: [[f64; 2]; 2],
}

/// The card's x edge and y edge, the contrast and the level between. Clockwise as seen (y is
/// downward) black begins at the y axis and ends at the x axis, because
/// black is where dx dy > 0 with y upward.
fn around(rows: Rows, at: [f64; 2], radius: f64) -> Option<([Edge; 2], [f64; 2])> {
    let step = core::f64::consts::TAU / SAMPLES as f64;
    let ring: [f64; SAMPLES] = core::array::from_fn(|n| {
        let (sin, cos) = (n as f64 * step).sin_cos();
        rows.at(at[0] + radius * cos, at[1] + radius * sin)
    });
    let mean = ring.iter().sum::<f64>() / SAMPLES as f64;
    let spread = ring.iter().map(|v| (v - mean).abs()).sum::<f64>() / SAMPLES as f64;
    let mut turns = [(0.0, false); 4];
    let mut count = 0;
    for n in 0..SAMPLES {
        let (one, next) = (ring[n] - mean, ring[(n + 1) % SAMPLES] - mean);
        if (one < 0.0) != (next < 0.0) {
            if count == 4 {
                return None;
            }
            let share = one / (one - next);
            turns[count] = ((n as f64 + share) * step, next < 0.0);
            count += 1;
        }
    }
    if count != 4 {
        return None;
    }
    // Turns alternate; two with the same sense are the ends of one edge.
    let edge = |first: usize| {
        let (a, b) = (turns[first].0, turns[first + 2].0);
        let bent = (b - a - core::f64::consts::PI).abs();
        let end = |angle: f64| [radius * angle.cos(), radius * angle.sin()];
        (bent < BENT).then(|| Edge {
            ends: [end(a), end(b)],
        })
    };
    let gaps = [turns[1].0 - turns[0].0, turns[2].0 - turns[1].0];
    if gaps.iter().any(|gap| *gap < NARROW) {
        return None;
    }
    let (one, other) = (edge(0)?, edge(1)?);
    // The first turn into black is an end of the y axis.
    let edges = if turns[0].1 {
        [other, one]
    } else {
        [one, other]
    };
    Some((edges, [2.0 * spread, mean]))
}

/// Where both edges meet, from the middle of the ring.
fn meet(edges: &[Edge; 2]) -> Option<[f64; 2]> {
    let way = |edge: &Edge| {
        [
            edge.ends[1][0] - edge.ends[0][0],
            edge.ends[1][1] - edge.ends[0][1],
        ]
    };
    let (a, b) = (way(&edges[0]), way(&edges[1]));
    let between = [
        edges[1].ends[0][0] - edges[0].ends[0][0],
        edges[1].ends[0][1] - edges[0].ends[0][1],
    ];
    let turn = a[0] * b[1] - a[1] * b[0];
    if turn.abs() < 1e-6 {
        return None;
    }
    let share = (between[0] * b[1] - between[1] * b[0]) / turn;
    Some([
        edges[0].ends[0][0] + share * a[0],
        edges[0].ends[0][1] + share * a[1],
    ])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn black_upper_right_gives_the_axes_of_an_upright_card() {
        let (width, height) = (21usize, 21usize);
        let mut pixels = vec![0u8; width * height];
        for y in 0..height {
            for x in 0..width {
                // dx dy > 0 with y upward: upper right and lower left.
                let black = (x > 10) == (y < 10);
                pixels[y * width + x] = match (x == 10 || y == 10, black) {
                    (true, _) => 120,
                    (false, true) => 40,
                    (false, false) => 200,
                };
            }
        }
        let rows = Rows {
            width,
            height,
            pixels: &pixels,
        };
        let saddle = Saddle {
            x: 10,
            y: 10,
            strength: 500,
        };
        let cross = cross(rows, &saddle, 0).unwrap();
        assert!((cross.at[0] - 10.0).abs() < 0.1 && (cross.at[1] - 10.0).abs() < 0.1);
        assert!(cross.across[0].abs() > 0.99, "{cross:?}");
        assert!(cross.along[1].abs() > 0.99, "{cross:?}");
    }
}
