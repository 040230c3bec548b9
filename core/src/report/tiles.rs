//! How a long strip is cut into sheets that overlap.

/// The part of the strip on one sheet, mm along the strip.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tile {
    /// Its left edge.
    pub from: f64,
    /// Its right edge.
    pub to: f64,
}

/// A stretch that should not lie in an overlap: a hole, the centre line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Whole {
    /// Its middle.
    pub at: f64,
    /// How far it reaches either way.
    pub reach: f64,
}

/// Cuts a strip into tiles no wider than `width`; neighbours share `overlap`.
///
/// # Guarantee
/// The tiles cover the strip without a gap. No overlap touches a stretch
/// that should stay whole, as long as such stretches leave room for one
/// within half a tile; where they don't, the seam stays where it is.
///
/// # Units
/// Millimetres; `width` is greater than `overlap`.
#[must_use]
pub fn tiles(from: f64, to: f64, width: f64, overlap: f64, whole: &[Whole]) -> Vec<Tile> {
    let mut left = from;
    let mut cut = Vec::new();
    while left + width < to {
        let next = seam(left + width - overlap, overlap, width / 2.0, whole);
        cut.push(Tile {
            from: left,
            to: next + overlap,
        });
        left = next;
    }
    cut.push(Tile {
        from: left,
        to: left + width,
    });
    cut
}

/// The left end of an overlap, at `latest` or a little before.
fn seam(latest: f64, overlap: f64, most: f64, whole: &[Whole]) -> f64 {
    let mut at = latest;
    while latest - at < most {
        let touched = whole
            .iter()
            .find(|w| w.at + w.reach > at && w.at - w.reach < at + overlap);
        match touched {
            None => return at,
            Some(w) => at = (w.at - w.reach - overlap).min(at - 1.0),
        }
    }
    latest
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_short_strip_is_one_tile() {
        let one = tiles(-50.0, 60.0, 250.0, 20.0, &[]);
        assert_eq!(
            one,
            [Tile {
                from: -50.0,
                to: 200.0
            }]
        );
    }

    #[test]
    fn neighbours_share_the_overlap_and_the_strip_is_covered() {
        let holes: Vec<Whole> = [-690.0, -230.0, 0.0, 230.0, 690.0]
            .map(|at| Whole { at, reach: 22.0 })
            .to_vec();
        let cut = tiles(-760.0, 760.0, 255.4, 20.0, &holes);
        assert!(cut[cut.len() - 1].to >= 760.0);
        for pair in cut.windows(2) {
            let shared = (pair[1].from, pair[1].from + 20.0);
            assert!((shared.1 - pair[0].to).abs() < 1e-9);
            assert!(pair[0].to - pair[0].from <= 255.4 + 1e-9);
            for hole in &holes {
                let clear = hole.at + hole.reach <= shared.0 + 1e-9
                    || hole.at - hole.reach >= shared.1 - 1e-9;
                assert!(clear, "{hole:?} in {shared:?}");
            }
        }
    }

    #[test]
    fn a_strip_with_no_room_for_a_seam_is_still_covered() {
        let crowd: Vec<Whole> = (0..100)
            .map(|k| Whole {
                at: f64::from(k) * 10.0,
                reach: 10.0,
            })
            .collect();
        let cut = tiles(0.0, 990.0, 250.0, 20.0, &crowd);
        assert_eq!(cut.len(), 5);
        assert!(cut.windows(2).all(|pair| pair[1].from < pair[0].to));
    }
}
