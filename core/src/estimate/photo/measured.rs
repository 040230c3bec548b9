//! What a solved scene measures, each figure with its uncertainty.
//!
//! Uncertainty comes from the covariance of the solve, the tips' standing
//! on their marks, the print's scale and what straight across means
//! ([`super::frame`]), combined by GUM; slopes are taken numerically.

use super::bends::left_to_right;
use super::frame::{Frame, Standing, U_ACROSS};
use super::pose::{CardPose, OF_CARD};
use super::result::{GapMeasured, MarkMeasured, Measured, Print, Zero};
use super::scene::Scene;
use crate::text::{Message, msg};
use crate::units::{Degrees, Estimate, Millimetres, Offset, root_sum_of_squares};
use nalgebra::{DMatrix, Vector3};

/// What is known besides the photos.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Given {
    /// How many marks the job has.
    pub marks: usize,
    /// Scale of the print.
    pub print: Print,
    /// Standard uncertainty of a tip on its mark.
    pub u_tip: Millimetres,
}

/// Why a solved scene gives no measures of this job.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MeasureFault {
    /// Fewer than two marks are seen.
    TooFewMarks(usize),
    /// This card stands left of the one before it.
    OutOfOrder(u16),
}

impl MeasureFault {
    /// What the fitter is told.
    #[must_use]
    pub fn message(self) -> Message {
        match self {
            Self::TooFewMarks(n) => {
                msg("solve-too-few-marks").count("marks", i64::try_from(n).unwrap_or(i64::MAX))
            }
            Self::OutOfOrder(code) => msg("solve-out-of-order").count("card", i64::from(code) + 1),
        }
    }
}

/// Measures a scene.
///
/// # Errors
/// [`MeasureFault`] when marks are missing or stand in another order.
pub fn measure(scene: &Scene, given: &Given) -> Result<Measured, MeasureFault> {
    let cards = Standings::new(scene, given.marks)?;
    let figures = cards.figures(&scene_poses(scene));
    let covariance = with_tips(scene, given.u_tip.0);
    let slopes = slopes(&scene_poses(scene), |poses| cards.figures(poses));
    let spread = |k: usize| {
        let row = slopes.row(k);
        (row * &covariance * row.transpose())[(0, 0)]
            .max(0.0)
            .sqrt()
    };
    let figure = |k: usize| (figures[k], spread(k));
    Ok(cards.measured(scene, given.print, &figure))
}

/// The poses of all cards.
pub(super) fn scene_poses(scene: &Scene) -> Vec<CardPose> {
    scene.cards.iter().map(|c| c.pose).collect()
}

/// Covariance of the cards with the tips' standing on their marks.
pub(super) fn with_tips(scene: &Scene, u_tip: f64) -> DMatrix<f64> {
    let n = scene.cards.len() * OF_CARD;
    let mut all = scene.covariance.view((0, 0), (n, n)).into_owned();
    for (i, card) in scene.cards.iter().enumerate() {
        let axes = card.pose.axes;
        let on_face: nalgebra::Matrix3<f64> = axes.column(0) * axes.column(0).transpose()
            + axes.column(1) * axes.column(1).transpose();
        let at = i * OF_CARD + 3;
        let mut part = all.fixed_view_mut::<3, 3>(at, at);
        part += on_face * (u_tip * u_tip);
    }
    all
}

/// Slopes of figures over all cards' unknowns.
pub(super) fn slopes(
    poses: &[CardPose],
    figures: impl Fn(&[CardPose]) -> Vec<f64>,
) -> DMatrix<f64> {
    // Radian, millimetres, per millimetre.
    const STEPS: [f64; OF_CARD] = [1e-5, 1e-5, 1e-5, 1e-3, 1e-3, 1e-3, 1e-7];
    let rows = figures(poses).len();
    let mut out = DMatrix::zeros(rows, poses.len() * OF_CARD);
    let mut moved = poses.to_vec();
    for (i, pose) in poses.iter().enumerate() {
        for (k, step) in STEPS.iter().enumerate() {
            let mut by = nalgebra::SVector::<f64, OF_CARD>::zeros();
            by[k] = *step;
            moved[i] = pose.moved(&by);
            let above = figures(&moved);
            moved[i] = pose.moved(&-by);
            let below = figures(&moved);
            moved[i] = *pose;
            for (r, (a, b)) in above.iter().zip(&below).enumerate() {
                out[(r, i * OF_CARD + k)] = (a - b) / (2.0 * step);
            }
        }
    }
    out
}

/// Which cards stand where, left to right.
struct Standings {
    /// Index into the scene's cards, and what it stands on.
    row: Vec<(usize, Standing)>,
    marks: usize,
    /// Whether straight across is known.
    straight: bool,
    extremes: Extremes,
}

/// Which gaps and which pair of marks the extremes are found at. They are
/// chosen once: a choice made anew for every small step of the slopes jumps
/// from one to the other where two are as large.
#[derive(Default)]
struct Extremes {
    /// The widest and the narrowest gap, counted from the left.
    widest: usize,
    narrowest: usize,
    /// The left one of the two marks whose distances differ most.
    pair: usize,
}

impl Standings {
    fn new(scene: &Scene, marks: usize) -> Result<Self, MeasureFault> {
        let poses = scene_poses(scene);
        let row: Vec<(usize, Standing)> = left_to_right(&poses)
            .into_iter()
            .filter_map(|i| Some((i, Standing::of(scene.cards[i].code, marks)?)))
            .collect();
        let of_marks = |row: &[(usize, Standing)]| -> Vec<(usize, usize)> {
            row.iter()
                .filter_map(|(i, s)| match s {
                    Standing::Mark(m) => Some((*i, *m)),
                    Standing::Centre => None,
                })
                .collect()
        };
        let in_order = of_marks(&row);
        if in_order.len() < 2 {
            return Err(MeasureFault::TooFewMarks(in_order.len()));
        }
        if let Some(pair) = in_order.windows(2).find(|p| p[0].1 > p[1].1) {
            return Err(MeasureFault::OutOfOrder(scene.cards[pair[1].0].code));
        }
        let cards: Vec<(CardPose, Standing)> = row.iter().map(|(i, s)| (poses[*i], *s)).collect();
        let mut standings = Self {
            straight: Frame::new(&cards, marks).is_some(),
            row,
            marks,
            extremes: Extremes::default(),
        };
        standings.extremes = standings.extremes(&standings.places(&cards).1);
        Ok(standings)
    }

    /// The frame of these cards and where each stands in it.
    fn places(&self, cards: &[(CardPose, Standing)]) -> (Frame, Vec<[f64; 3]>) {
        let frame = Frame::new(cards, self.marks).unwrap_or_else(|| rough_frame(cards));
        let places = cards.iter().map(|c| frame.place(&c.0.tip)).collect();
        (frame, places)
    }

    fn extremes(&self, places: &[[f64; 3]]) -> Extremes {
        let gaps = self.gaps(places);
        let by_width = |a: &usize, b: &usize| gaps[*a].total_cmp(&gaps[*b]);
        let by_sum = |a: &usize, b: &usize| {
            let size = |m| self.sum(places, m).map_or(-1.0, f64::abs);
            size(*a).total_cmp(&size(*b))
        };
        Extremes {
            widest: (0..gaps.len()).max_by(by_width).unwrap_or(0),
            narrowest: (0..gaps.len()).min_by(by_width).unwrap_or(0),
            pair: (0..self.marks / 2).max_by(by_sum).unwrap_or(0),
        }
    }

    /// Straight gaps from one seen mark to the next.
    fn gaps(&self, places: &[[f64; 3]]) -> Vec<f64> {
        let seen = self.seen();
        let pairs = seen.windows(2);
        pairs
            .map(|p| places[p[1].0][0] - places[p[0].0][0])
            .collect()
    }

    /// How much further right than left the two marks of this pair stand.
    fn sum(&self, places: &[[f64; 3]], mark: usize) -> Option<f64> {
        let seen = self.seen();
        let at = |mark| seen.iter().find(|s| s.1 == mark).map(|s| places[s.0][0]);
        Some(at(mark)? + at(self.marks - 1 - mark)?)
    }

    /// Marks in the row: place in the row, mark.
    fn seen(&self) -> Vec<(usize, usize)> {
        let seen = self.row.iter().enumerate();
        seen.filter_map(|(k, (_, s))| match s {
            Standing::Mark(m) => Some((k, *m)),
            Standing::Centre => None,
        })
        .collect()
    }

    fn zero(&self) -> Zero {
        if self.row.iter().any(|(_, s)| *s == Standing::Centre) {
            Zero::CentreMark
        } else {
            Zero::TwoHalves
        }
    }

    /// All figures in print millimetres and radian: for each card of the
    /// row straight, forward, turn, along; then each gap's chord, along,
    /// straight; then the width's; then evenness and symmetry.
    fn figures(&self, poses: &[CardPose]) -> Vec<f64> {
        let cards: Vec<(CardPose, Standing)> =
            self.row.iter().map(|(i, s)| (poses[*i], *s)).collect();
        let (rough, places) = self.places(&cards);
        let turns: Vec<f64> = cards
            .iter()
            .map(|c| rough.turn(&c.0.axes.column(2).into()))
            .collect();
        let pieces: Vec<f64> = (1..cards.len())
            .map(|k| {
                let chord = (cards[k].0.tip - cards[k - 1].0.tip).norm();
                let (a, b) = (places[k - 1], places[k]);
                let slope = (-(b[2] - a[2])).atan2(b[0] - a[0]);
                arc(chord, turns[k - 1] - slope, turns[k] - slope)
            })
            .collect();
        let along = along(&places, &pieces);
        let mut out = Vec::new();
        for k in 0..cards.len() {
            out.extend([places[k][0], -places[k][2], turns[k], along[k]]);
        }
        let seen = self.seen();
        let ends = [(seen[0], seen[seen.len() - 1])];
        let pairs = seen.windows(2).map(|p| (p[0], p[1])).chain(ends);
        for ((a, _), (b, _)) in pairs {
            let straight = places[b][0] - places[a][0];
            let chord = (cards[b].0.tip - cards[a].0.tip).norm();
            out.extend([chord, along[b] - along[a], straight]);
        }
        let gaps = self.gaps(&places);
        out.push(gaps[self.extremes.widest] - gaps[self.extremes.narrowest]);
        out.push(self.sum(&places, self.extremes.pair).unwrap_or(0.0));
        out
    }

    fn measured(
        &self,
        scene: &Scene,
        print: Print,
        figure: &impl Fn(usize) -> (f64, f64),
    ) -> Measured {
        let across = U_ACROSS.0.to_radians();
        // Of the print's scale and of straight across: over what is forward.
        let length = |k: usize, forward: f64| {
            let (value, u) = figure(k);
            let u = root_sum_of_squares(&[u, value * print.u, forward * across]);
            (value * print.factor, u * print.factor)
        };
        let mm = |k: usize, forward: f64| {
            let (value, u) = length(k, forward);
            Estimate::new(Millimetres(value), Millimetres(u))
        };
        let known = |k: usize| self.straight.then_some(k);
        let forward = |k: usize| figure(4 * k + 1).0;
        let seen = self.seen();
        let marks = seen
            .iter()
            .map(|(k, mark)| MarkMeasured {
                mark: *mark,
                straight: known(4 * k).map(|at| {
                    let (value, u) = length(at, forward(*k));
                    Estimate::new(Offset(value), Offset(u))
                }),
                along: known(4 * k + 3).map(|at| mm(at, 0.0)),
                forward: known(4 * k + 1).map(|at| mm(at, figure(4 * k).0)),
                turn: known(4 * k + 2).map(|at| {
                    let (value, u) = figure(at);
                    let u = Degrees(u.to_degrees().hypot(U_ACROSS.0));
                    Estimate::new(Degrees(value.to_degrees()), u)
                }),
            })
            .collect();
        let first = 4 * self.row.len();
        let gap = |i: usize, (a, left): (usize, usize), (b, right): (usize, usize)| GapMeasured {
            left,
            right,
            chord: mm(first + 3 * i, 0.0),
            along: mm(first + 3 * i + 1, 0.0),
            straight: known(first + 3 * i + 2).map(|at| mm(at, forward(b) - forward(a))),
        };
        let gaps: Vec<GapMeasured> = seen
            .windows(2)
            .enumerate()
            .map(|(i, p)| gap(i, p[0], p[1]))
            .collect();
        let last = first + 3 * seen.len();
        let all = self.straight && seen.len() == self.marks;
        let pairs = match self.zero() {
            Zero::CentreMark => 1,
            Zero::TwoHalves => 2,
        };
        Measured {
            zero: self.zero(),
            marks,
            width: gap(gaps.len(), seen[0], seen[seen.len() - 1]),
            gaps,
            evenness: (all && self.marks > 2).then(|| mm(last, 0.0)),
            symmetry: (all && self.marks / 2 >= pairs).then(|| mm(last + 1, 0.0)),
            edited: scene.edited.clone(),
            left_over: scene.left,
        }
    }
}

/// Length of a curve over a chord whose tangents leave it by two angles
/// (radian) at its ends: a cubic's, to the second order.
fn arc(chord: f64, at_left: f64, at_right: f64) -> f64 {
    let (a, b) = (at_left, at_right);
    chord * (1.0 + (2.0 * a * a - a * b + 2.0 * b * b) / 30.0)
}

/// Places along the face from where straight is 0.
fn along(places: &[[f64; 3]], pieces: &[f64]) -> Vec<f64> {
    let mut sums = vec![0.0];
    for piece in pieces {
        sums.push(sums[sums.len() - 1] + piece);
    }
    let k = places.windows(2).position(|p| p[1][0] >= 0.0).unwrap_or(0);
    let (a, b) = (places[k][0], places[k + 1][0]);
    let zero = sums[k] - a / (b - a) * pieces[k];
    sums.into_iter().map(|s| s - zero).collect()
}

/// Directions good enough for arcs, where straight across is not known.
fn rough_frame(cards: &[(CardPose, Standing)]) -> Frame {
    let sum = |axis: usize| {
        cards
            .iter()
            .map(|c| c.0.axes.column(axis).into_owned())
            .sum::<Vector3<f64>>()
    };
    let across = sum(0).normalize();
    let up = sum(1);
    let up = (up - across * across.dot(&up)).normalize();
    Frame {
        across,
        up,
        back: across.cross(&up),
        zero: cards[0].0.tip,
    }
}
