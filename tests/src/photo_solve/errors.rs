//! How far solved scenes are from their truth.

use std::ops::Range;

use rakeline_core::estimate::photo::measured::{Given, measure};
use rakeline_core::estimate::photo::result::Print;
use rakeline_core::estimate::photo::scene::solve_photos;
use rakeline_core::units::Millimetres;

use super::{Kind, Scene};

/// Errors of scenes in millimetres, and over their u.
#[derive(Clone, Debug, Default)]
pub struct Errors {
    /// Of spacings: through the air, along the face, straight.
    pub spacing: Vec<f64>,
    /// The same over the full width.
    pub width: Vec<f64>,
    /// All, over their u.
    pub over_u: Vec<f64>,
    /// Scenes that were refused.
    pub refused: usize,
}

impl Errors {
    /// 95 % of a spacing's errors are at most this.
    #[must_use]
    pub fn spacing_95(&self) -> f64 {
        quantile_95(&self.spacing)
    }

    /// 95 % of the width's errors are at most this.
    #[must_use]
    pub fn width_95(&self) -> f64 {
        quantile_95(&self.width)
    }

    /// Root mean square of the errors over their u.
    #[must_use]
    pub fn normalised(&self) -> f64 {
        let n = self.over_u.len().max(1) as f64;
        (self.over_u.iter().map(|x| x * x).sum::<f64>() / n).sqrt()
    }
}

fn quantile_95(errors: &[f64]) -> f64 {
    let mut sizes: Vec<f64> = errors.iter().map(|e| e.abs()).collect();
    sizes.sort_by(f64::total_cmp);
    let at = (sizes.len() * 95).div_ceil(100).max(1) - 1;
    sizes.get(at).copied().unwrap_or(f64::NAN)
}

/// Solves the scenes of some seeds: the print is true to scale and every
/// tip stands on its mark, so that the photos alone count.
#[must_use]
pub fn run(seeds: Range<u64>, kind: Kind) -> Errors {
    let given = Given {
        marks: kind.marks,
        print: Print {
            factor: 1.0,
            u: 0.0,
        },
        u_tip: Millimetres(0.0),
    };
    let mut all = Errors::default();
    for seed in seeds {
        let truth = Scene::any(seed, kind);
        let Ok(scene) = solve_photos(&truth.seen(seed, kind.noise)) else {
            all.refused += 1;
            continue;
        };
        let Ok(found) = measure(&scene, &given) else {
            all.refused += 1;
            continue;
        };
        let gaps = found.gaps.iter().map(|gap| (gap, false));
        for (gap, is_width) in gaps.chain([(&found.width, true)]) {
            let (a, b) = (&truth.cards[gap.left], &truth.cards[gap.right]);
            let (from, to) = (truth.tip(a), truth.tip(b));
            let mut off = vec![
                (gap.chord.value.0 - (to - from).norm(), gap.chord.u.0),
                (gap.along.value.0 - (b.s - a.s), gap.along.u.0),
            ];
            off.extend(gap.straight.map(|s| (s.value.0 - (to.x - from.x), s.u.0)));
            for (error, u) in off {
                if is_width {
                    all.width.push(error);
                } else {
                    all.spacing.push(error);
                }
                all.over_u.push(error / u);
            }
        }
    }
    all
}
