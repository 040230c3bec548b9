//! The normal equations of a bundle in blocks, and their damped steps.

use nalgebra::{DMatrix, DVector, Matrix2x3, Matrix3, SMatrix, Vector2, Vector3};

use super::bundle::{Moves, State, Task};
use super::camera::{Camera, CameraPrior};
use super::card::CROSSES;
use super::pose::{CardPose, CardSide, OF_CARD, OF_PHOTO, PhotoPose, PhotoSide};

/// Scale of Cauchy's loss in standard uncertainties.
pub const LOSS_SCALE: f64 = 4.0;

type PhotoBlock = SMatrix<f64, OF_PHOTO, OF_PHOTO>;
type CardBlock = SMatrix<f64, OF_CARD, OF_CARD>;
type Mixed = SMatrix<f64, OF_PHOTO, OF_CARD>;

fn cross_matrix(v: &Vector3<f64>) -> Matrix3<f64> {
    v.cross_matrix()
}

/// One cross: what is left over its u, and its slopes.
struct Row {
    left: Vector2<f64>,
    photo: SMatrix<f64, 2, OF_PHOTO>,
    card: SMatrix<f64, 2, OF_CARD>,
}

pub(super) fn left_over(
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
pub(super) fn loss(square: f64) -> (f64, f64) {
    let c2 = LOSS_SCALE * LOSS_SCALE;
    (c2 * (square / c2).ln_1p(), 1.0 / (1.0 + square / c2))
}

pub(super) fn prior_left(prior: &CameraPrior, camera: &Camera) -> [f64; 4] {
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

/// Normal equations in blocks.
pub(super) struct Normal {
    photos: Vec<(PhotoBlock, PhotoSide)>,
    cards: Vec<(CardBlock, CardSide)>,
    /// By card: which photo, and the block between.
    pub(super) mixed: Vec<Vec<(usize, Mixed)>>,
}

pub(super) fn normal(task: &Task, state: &State) -> Option<Normal> {
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
    pub(super) fn card_inverses(&self, damping: f64) -> Option<Vec<CardBlock>> {
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
    pub(super) fn reduced(
        &self,
        inverses: &[CardBlock],
        damping: f64,
    ) -> (DMatrix<f64>, DVector<f64>) {
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
    pub(super) fn step(
        &self,
        damping: f64,
        moves: Moves,
    ) -> Option<(Vec<PhotoSide>, Vec<CardSide>)> {
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

#[cfg(test)]
mod tests {
    use super::super::pose::turned;
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
