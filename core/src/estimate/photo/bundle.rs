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

use nalgebra::{DMatrix, DVector, Matrix2x3, Matrix3, SMatrix, SVector, Vector2, Vector3};

use super::camera::{Camera, CameraPrior};
use super::card::{CROSSES, TIP};

/// Unknowns of a photo: turn (3), shift (3), ln f, centre (2), k1.
pub const OF_PHOTO: usize = 10;
/// Unknowns of a card: turn (3), tip (3), bend.
pub const OF_CARD: usize = 7;
/// Scale of Cauchy's loss in standard uncertainties.
pub const LOSS_SCALE: f64 = 4.0;
/// Steps at most.
const MOST_STEPS: usize = 60;
/// Damping at the start.
const DAMPING: f64 = 1e-4;

type PhotoBlock = SMatrix<f64, OF_PHOTO, OF_PHOTO>;
type CardBlock = SMatrix<f64, OF_CARD, OF_CARD>;
type Mixed = SMatrix<f64, OF_PHOTO, OF_CARD>;
type PhotoSide = SVector<f64, OF_PHOTO>;
type CardSide = SVector<f64, OF_CARD>;

/// A card's pose and bend.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CardPose {
    /// Columns: right, up, out of the print, in the world frame.
    pub axes: Matrix3<f64>,
    /// The tip in millimetres.
    pub tip: Vector3<f64>,
    /// Bend per millimetre.
    pub bend: f64,
}

/// A photo's pose and camera.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PhotoPose {
    /// World to camera.
    pub turn: Matrix3<f64>,
    /// The world's origin in the camera frame.
    pub shift: Vector3<f64>,
    /// Its camera.
    pub camera: Camera,
}

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

impl CardPose {
    /// A point of the print against the tip, in the card's own axes.
    #[must_use]
    pub fn bent(&self, x: f64, y: f64) -> Vector3<f64> {
        let a = self.bend * x;
        // sin(a)/a and (1 - cos a)/a² by their series: cards bend little.
        let across = x * (1.0 - a * a / 6.0 + a.powi(4) / 120.0);
        let back = x * a * (0.5 - a * a / 24.0 + a.powi(4) / 720.0);
        Vector3::new(across, y - TIP.1, -back)
    }

    /// A point of the print in the world frame.
    #[must_use]
    pub fn place(&self, x: f64, y: f64) -> Vector3<f64> {
        self.tip + self.axes * self.bent(x, y)
    }

    /// The pose after a small step: turn in the world frame, tip, bend.
    #[must_use]
    pub fn moved(&self, by: &CardSide) -> Self {
        Self {
            axes: turned(&by.fixed_rows::<3>(0).into()) * self.axes,
            tip: self.tip + by.fixed_rows::<3>(3),
            bend: self.bend + by[6],
        }
    }
}

impl PhotoPose {
    /// A place of the world in the camera frame.
    #[must_use]
    pub fn seen(&self, at: &Vector3<f64>) -> Vector3<f64> {
        self.turn * at + self.shift
    }

    /// Where the camera stands in the world.
    #[must_use]
    pub fn eye(&self) -> Vector3<f64> {
        -(self.turn.transpose() * self.shift)
    }

    /// The pose after a small step: turn in the camera frame, shift, camera.
    #[must_use]
    pub fn moved(&self, by: &PhotoSide) -> Self {
        let turn = turned(&by.fixed_rows::<3>(0).into());
        Self {
            turn: turn * self.turn,
            shift: turn * self.shift + by.fixed_rows::<3>(3),
            camera: Camera {
                ln_focal: self.camera.ln_focal + by[6],
                centre: [self.camera.centre[0] + by[7], self.camera.centre[1] + by[8]],
                k1: self.camera.k1 + by[9],
            },
        }
    }
}

/// Rotation by a vector (Rodrigues).
#[must_use]
pub fn turned(by: &Vector3<f64>) -> Matrix3<f64> {
    nalgebra::Rotation3::from_scaled_axis(*by).into_inner()
}

fn cross_matrix(v: &Vector3<f64>) -> Matrix3<f64> {
    v.cross_matrix()
}

/// One cross: what is left over its u, and its slopes.
struct Row {
    left: Vector2<f64>,
    photo: SMatrix<f64, 2, OF_PHOTO>,
    card: SMatrix<f64, 2, OF_CARD>,
}

fn left_over(
    photo: &PhotoPose,
    card: &CardPose,
    k: usize,
    seen: &[f64; 3],
) -> Option<Vector2<f64>> {
    let (x, y) = CROSSES[k];
    let at = photo.camera.project(&photo.seen(&card.place(x, y)))?;
    Some((at - Vector2::new(seen[0], seen[1])) / seen[2])
}

fn row(photo: &PhotoPose, card: &CardPose, k: usize, seen: &[f64; 3]) -> Option<Row> {
    let (x, y) = CROSSES[k];
    let arm = card.axes * card.bent(x, y);
    let q = photo.seen(&(card.tip + arm));
    if q.z < 1.0 {
        return None;
    }
    let m = Vector2::new(q.x / q.z, q.y / q.z);
    let (f, k1) = (photo.camera.focal(), photo.camera.k1);
    let r2 = m.norm_squared();
    let bent = m * (1.0 + k1 * r2);
    let at = Vector2::from(photo.camera.centre) + bent * f;
    let left = (at - Vector2::new(seen[0], seen[1])) / seen[2];
    // d(at)/dm, then dm/dq.
    let by_m = (nalgebra::Matrix2::identity() * (1.0 + k1 * r2) + m * m.transpose() * (2.0 * k1))
        * (f / seen[2]);
    let by_q: Matrix2x3<f64> =
        by_m * Matrix2x3::new(1.0 / q.z, 0.0, -m.x / q.z, 0.0, 1.0 / q.z, -m.y / q.z);
    let mut on_photo = SMatrix::<f64, 2, OF_PHOTO>::zeros();
    on_photo
        .fixed_columns_mut::<3>(0)
        .copy_from(&(by_q * -cross_matrix(&q)));
    on_photo.fixed_columns_mut::<3>(3).copy_from(&by_q);
    on_photo
        .fixed_columns_mut::<1>(6)
        .copy_from(&(bent * (f / seen[2])));
    on_photo[(0, 7)] = 1.0 / seen[2];
    on_photo[(1, 8)] = 1.0 / seen[2];
    on_photo
        .fixed_columns_mut::<1>(9)
        .copy_from(&(m * (r2 * f / seen[2])));
    let by_world = by_q * photo.turn;
    let mut on_card = SMatrix::<f64, 2, OF_CARD>::zeros();
    on_card
        .fixed_columns_mut::<3>(0)
        .copy_from(&(by_world * -cross_matrix(&arm)));
    on_card.fixed_columns_mut::<3>(3).copy_from(&by_world);
    let a = card.bend * x;
    let by_bend = Vector3::new(
        x * x * (-a / 3.0 + a.powi(3) / 30.0),
        0.0,
        -x * x * (0.5 - a * a / 8.0 + a.powi(4) / 144.0),
    );
    on_card
        .fixed_columns_mut::<1>(6)
        .copy_from(&(by_world * (card.axes * by_bend)));
    Some(Row {
        left,
        photo: on_photo,
        card: on_card,
    })
}

/// Cauchy's loss of a squared residual, and its slope.
fn loss(square: f64) -> (f64, f64) {
    let c2 = LOSS_SCALE * LOSS_SCALE;
    (c2 * (square / c2).ln_1p(), 1.0 / (1.0 + square / c2))
}

fn prior_left(prior: &CameraPrior, camera: &Camera) -> [f64; 4] {
    [
        (camera.ln_focal - prior.camera.ln_focal) / prior.u_focal,
        (camera.centre[0] - prior.camera.centre[0]) / prior.u_centre,
        (camera.centre[1] - prior.camera.centre[1]) / prior.u_centre,
        (camera.k1 - prior.camera.k1) / prior.u_k1,
    ]
}

fn prior_u(prior: &CameraPrior) -> [f64; 4] {
    [prior.u_focal, prior.u_centre, prior.u_centre, prior.u_k1]
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

/// Normal equations in blocks.
struct Normal {
    photos: Vec<(PhotoBlock, PhotoSide)>,
    cards: Vec<(CardBlock, CardSide)>,
    /// By card: which photo, and the block between.
    mixed: Vec<Vec<(usize, Mixed)>>,
}

fn normal(task: &Task, state: &State) -> Option<Normal> {
    let mut photos = vec![(PhotoBlock::zeros(), PhotoSide::zeros()); state.photos.len()];
    let mut cards = vec![(CardBlock::zeros(), CardSide::zeros()); state.cards.len()];
    let mut mixed: Vec<Vec<(usize, Mixed)>> = vec![Vec::new(); state.cards.len()];
    for sight in &task.sights {
        let mut between = Mixed::zeros();
        let (photo, card) = (&state.photos[sight.photo], &state.cards[sight.card]);
        let (on_photo, photo_side) = &mut photos[sight.photo];
        let (on_card, card_side) = &mut cards[sight.card];
        for (k, seen) in sight.crosses.iter().enumerate() {
            let row = row(photo, card, k, seen)?;
            let weight = loss(row.left.norm_squared()).1;
            let to_photo = row.photo.transpose() * weight;
            let to_card = row.card.transpose() * weight;
            *on_photo += to_photo * row.photo;
            *photo_side -= to_photo * row.left;
            *on_card += to_card * row.card;
            *card_side -= to_card * row.left;
            between += to_photo * row.card;
        }
        mixed[sight.card].push((sight.photo, between));
    }
    for ((prior, photo), (block, side)) in task.cameras.iter().zip(&state.photos).zip(&mut photos) {
        let parts = prior_left(prior, &photo.camera)
            .into_iter()
            .zip(prior_u(prior));
        for (i, (left, u)) in parts.enumerate() {
            block[(6 + i, 6 + i)] += 1.0 / (u * u);
            side[6 + i] -= left / u;
        }
    }
    for ((prior, card), (block, side)) in task.bends.iter().zip(&state.cards).zip(&mut cards) {
        block[(6, 6)] += 1.0 / (prior.u * prior.u);
        side[6] -= (card.bend - prior.value) / (prior.u * prior.u);
    }
    let mut all = Normal {
        photos,
        cards,
        mixed,
    };
    all.hold_first_pose();
    Some(all)
}

impl Normal {
    /// The first photo's pose is the world frame.
    fn hold_first_pose(&mut self) {
        if let Some((block, side)) = self.photos.first_mut() {
            for i in 0..6 {
                block.row_mut(i).fill(0.0);
                block.column_mut(i).fill(0.0);
                block[(i, i)] = 1.0;
                side[i] = 0.0;
            }
        }
        for (photo, block) in self.mixed.iter_mut().flatten() {
            if *photo == 0 {
                block.fixed_rows_mut::<6>(0).fill(0.0);
            }
        }
    }

    /// Inverses of the cards' blocks, damped.
    fn card_inverses(&self, damping: f64) -> Option<Vec<CardBlock>> {
        self.cards
            .iter()
            .map(|(block, _)| {
                let mut block = *block;
                for i in 0..OF_CARD {
                    block[(i, i)] *= 1.0 + damping;
                }
                block.cholesky().map(|c| c.inverse())
            })
            .collect()
    }

    /// The reduced matrix of the photos after the cards are eliminated.
    fn reduced(&self, inverses: &[CardBlock], damping: f64) -> (DMatrix<f64>, DVector<f64>) {
        let n = self.photos.len() * OF_PHOTO;
        let mut matrix = DMatrix::zeros(n, n);
        let mut side = DVector::zeros(n);
        for (i, (block, right)) in self.photos.iter().enumerate() {
            let at = i * OF_PHOTO;
            let mut block = *block;
            for k in 0..OF_PHOTO {
                block[(k, k)] *= 1.0 + damping;
            }
            matrix
                .fixed_view_mut::<OF_PHOTO, OF_PHOTO>(at, at)
                .copy_from(&block);
            side.fixed_rows_mut::<OF_PHOTO>(at).copy_from(right);
        }
        for ((mixed, inverse), (_, right)) in self.mixed.iter().zip(inverses).zip(&self.cards) {
            for (p, between) in mixed {
                let gain = between * inverse;
                let mut rows = side.fixed_rows_mut::<OF_PHOTO>(p * OF_PHOTO);
                rows -= gain * right;
                for (q, other) in mixed {
                    if q <= p {
                        let mut part =
                            matrix.fixed_view_mut::<OF_PHOTO, OF_PHOTO>(p * OF_PHOTO, q * OF_PHOTO);
                        part -= gain * other.transpose();
                    }
                }
            }
        }
        (matrix, side)
    }

    /// The damped step.
    fn step(&self, damping: f64, moves: Moves) -> Option<(Vec<PhotoSide>, Vec<CardSide>)> {
        let inverses = self.card_inverses(damping)?;
        let photos: Vec<PhotoSide> = match moves {
            Moves::Cards => vec![PhotoSide::zeros(); self.photos.len()],
            Moves::All => {
                let (matrix, side) = self.reduced(&inverses, damping);
                let step = matrix.cholesky()?.solve(&side);
                (0..self.photos.len())
                    .map(|i| step.fixed_rows::<OF_PHOTO>(i * OF_PHOTO).into())
                    .collect()
            }
        };
        let cards = self
            .mixed
            .iter()
            .zip(&inverses)
            .zip(&self.cards)
            .map(|((mixed, inverse), (_, right))| {
                let mut right = *right;
                for (p, between) in mixed {
                    right -= between.transpose() * photos[*p];
                }
                inverse * right
            })
            .collect();
        Some((photos, cards))
    }
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slopes_are_those_of_small_steps() {
        let photo = PhotoPose {
            turn: turned(&Vector3::new(0.2, -0.3, 0.1)),
            shift: Vector3::new(30.0, -60.0, 1900.0),
            camera: Camera {
                ln_focal: 8.0,
                centre: [2010.0, 1500.0],
                k1: 0.03,
            },
        };
        let card = CardPose {
            axes: turned(&Vector3::new(3.0, 0.2, 0.1)),
            tip: Vector3::new(400.0, 30.0, 120.0),
            bend: 0.0015,
        };
        let seen = [2500.0, 1400.0, 0.5];
        for k in 0..4 {
            let here = row(&photo, &card, k, &seen).unwrap();
            let at = left_over(&photo, &card, k, &seen).unwrap();
            assert!((at - here.left).norm() < 1e-9);
            for i in 0..OF_PHOTO {
                let mut by = PhotoSide::zeros();
                by[i] = 1e-5;
                let there = left_over(&photo.moved(&by), &card, k, &seen).unwrap();
                let slope = (there - at) / 1e-5;
                let close = (slope - here.photo.column(i)).norm();
                assert!(close < 1e-3 * (1.0 + slope.norm()), "photo {i}: {close}");
            }
            for i in 0..OF_CARD {
                let mut by = CardSide::zeros();
                let step = if i == 6 { 1e-8 } else { 1e-5 };
                by[i] = step;
                let there = left_over(&photo, &card.moved(&by), k, &seen).unwrap();
                let slope = (there - at) / step;
                let close = (slope - here.card.column(i)).norm();
                assert!(close < 1e-3 * (1.0 + slope.norm()), "card {i}: {close}");
            }
        }
    }
}
