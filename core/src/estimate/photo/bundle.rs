//! Cards and photos solved together: bundle adjustment (Triggs, McLauchlan,
//! Hartley, Fitzgibbon, Bundle adjustment: a modern synthesis, 2000).
//!
//! # Model
//! A card is a plane patch bent about its upright axis: with bend b (per
//! mm, + where the middle stands out), a point x, y of the print stands at
//! (sin(b x)/b, y, -(1 - cos(b x))/b), z out of the print. Its pose is a
//! rotation and the place of its tip. World frame: the first photo's camera
//! (that photo's pose is held). Each photo has a pose and a camera with
//! priors; each card's bend has a prior. A cross counts through Cauchy's
//! loss. Solved by Levenberg and Marquardt's damped steps; the cards are
//! eliminated block by block (Schur complement), so a step costs one
//! Cholesky factor of ten unknowns a photo.
//!
//! # Units
//! Millimetres of the print, pixels, radian (inside only).

use nalgebra::DMatrix;

use super::camera::CameraPrior;
use super::normal::{left_over, loss, normal, prior_left};
use super::pose::{CardPose, OF_CARD, OF_PHOTO, PhotoPose};

/// Steps at most.
const MOST_STEPS: usize = 60;
/// Damping at the start.
const DAMPING: f64 = 1e-4;

/// Prior of a card's bend.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BendPrior {
    /// Most likely, per millimetre.
    pub value: f64,
    /// Standard uncertainty.
    pub u: f64,
}

/// One card in one photo: pixels and their standard uncertainty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sight {
    /// Which photo.
    pub photo: usize,
    /// Which card.
    pub card: usize,
    /// Crosses in the order of [`CROSSES`]: x, y, u.
    pub crosses: [[f64; 3]; 4],
}

/// What is seen and known before.
#[derive(Clone, Debug, PartialEq)]
pub struct Task {
    /// Cameras, one a photo.
    pub cameras: Vec<CameraPrior>,
    /// Bends, one a card.
    pub bends: Vec<BendPrior>,
    /// All sights.
    pub sights: Vec<Sight>,
}

/// All unknowns.
#[derive(Clone, Debug, PartialEq)]
pub struct State {
    /// One a photo.
    pub photos: Vec<PhotoPose>,
    /// One a card.
    pub cards: Vec<CardPose>,
}

/// A solved bundle.
#[derive(Clone, Debug, PartialEq)]
pub struct Solved {
    /// The unknowns at the least cost.
    pub state: State,
    /// Half the sum of the losses, priors included.
    pub cost: f64,
    /// Sum of squares over u of the crosses, without loss.
    pub squares: f64,
    /// How many steps it took.
    pub steps: usize,
}

/// How far a solve goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Effort {
    /// Good enough to compare starts.
    Rough,
    /// To the least cost.
    Full,
}

impl Effort {
    /// A step that gains less than this part of the cost is the last.
    fn small_gain(self) -> f64 {
        match self {
            Self::Rough => 1e-3,
            Self::Full => 1e-11,
        }
    }
}

/// Which unknowns move.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Moves {
    /// All but the first photo's pose.
    All,
    /// Only the cards.
    Cards,
}

/// Half the sum of all losses, and the plain sum of squares of the crosses.
/// `None` when a card is behind a camera.
#[must_use]
pub fn cost(task: &Task, state: &State) -> Option<(f64, f64)> {
    let mut sum = 0.0;
    let mut squares = 0.0;
    for sight in &task.sights {
        let (photo, card) = (&state.photos[sight.photo], &state.cards[sight.card]);
        for (k, seen) in sight.crosses.iter().enumerate() {
            let square = left_over(photo, card, k, seen)?.norm_squared();
            squares += square;
            sum += loss(square).0;
        }
    }
    for (prior, photo) in task.cameras.iter().zip(&state.photos) {
        sum += prior_left(prior, &photo.camera)
            .iter()
            .map(|r| r * r)
            .sum::<f64>();
    }
    for (prior, card) in task.bends.iter().zip(&state.cards) {
        sum += ((card.bend - prior.value) / prior.u).powi(2);
    }
    sum.is_finite().then_some((sum / 2.0, squares))
}

/// Least cost from a start; `None` when a card is behind a camera at the
/// start or the unknowns are not determined.
#[must_use]
pub fn solve(task: &Task, start: State, moves: Moves, effort: Effort) -> Option<Solved> {
    let mut state = start;
    let (mut now, mut squares) = cost(task, &state)?;
    let mut damping = DAMPING;
    let mut steps = 0;
    'steps: while steps < MOST_STEPS {
        let equations = normal(task, &state)?;
        loop {
            steps += 1;
            if steps > MOST_STEPS || damping > 1e12 {
                break 'steps;
            }
            let there = equations.step(damping, moves).map(|(photos, cards)| State {
                photos: moved(&state.photos, &photos, PhotoPose::moved),
                cards: moved(&state.cards, &cards, CardPose::moved),
            });
            let better = there.and_then(|there| {
                let (sum, squares) = cost(task, &there)?;
                (sum <= now).then_some((there, sum, squares))
            });
            let Some((there, sum, left)) = better else {
                damping = damping.max(1e-9) * 10.0;
                continue;
            };
            let gain = now - sum;
            (state, now, squares) = (there, sum, left);
            damping *= 0.1;
            if gain <= effort.small_gain() * (1e-9 + sum) {
                break 'steps;
            }
            break;
        }
    }
    Some(Solved {
        state,
        cost: now,
        squares,
        steps,
    })
}

fn moved<T, S>(all: &[T], by: &[S], step: impl Fn(&T, &S) -> T) -> Vec<T> {
    all.iter().zip(by).map(|(one, by)| step(one, by)).collect()
}

/// Covariance of all unknowns at the least cost: cards first
/// ([`OF_CARD`] each), then photos ([`OF_PHOTO`] each; the first photo's
/// pose is held). Inverse of the normal matrix by its blocks.
#[must_use]
pub fn covariance(task: &Task, state: &State) -> Option<DMatrix<f64>> {
    let equations = normal(task, state)?;
    let inverses = equations.card_inverses(0.0)?;
    let (matrix, _) = equations.reduced(&inverses, 0.0);
    let of_photos = matrix.cholesky()?.inverse();
    let (n, m) = (state.cards.len() * OF_CARD, of_photos.nrows());
    // Rows of -C⁻¹ Bᵀ: what a card does when a photo moves.
    let mut gain = DMatrix::zeros(n, m);
    for (i, (mixed, inverse)) in equations.mixed.iter().zip(&inverses).enumerate() {
        for (p, between) in mixed {
            gain.fixed_view_mut::<OF_CARD, OF_PHOTO>(i * OF_CARD, p * OF_PHOTO)
                .copy_from(&(-(inverse * between.transpose())));
        }
    }
    let across = &gain * &of_photos;
    let mut all = DMatrix::zeros(n + m, n + m);
    let mut of_cards = &across * gain.transpose();
    for (i, inverse) in inverses.iter().enumerate() {
        let mut part = of_cards.fixed_view_mut::<OF_CARD, OF_CARD>(i * OF_CARD, i * OF_CARD);
        part += inverse;
    }
    // The held pose has no spread of its own.
    let mut of_photos = of_photos;
    for i in 0..6.min(m) {
        of_photos[(i, i)] = 0.0;
    }
    all.view_mut((0, 0), (n, n)).copy_from(&of_cards);
    all.view_mut((0, n), (n, m)).copy_from(&across);
    all.view_mut((n, 0), (m, n)).copy_from(&across.transpose());
    all.view_mut((n, n), (m, m)).copy_from(&of_photos);
    Some(all)
}
