//! Where the cards of one photo stand, to begin with.
//!
//! A small card looks nearly the same turned one way and the other (the
//! planar two-fold ambiguity), so its own four crosses decide nothing yet.
//! All cards together do: they are upright, so the height of each in the
//! photo gives its distance, and the curve through these distances gives
//! each card's turn. What is open is whether the photo looks down or up at
//! them: both are tried. After the solve each card is tried turned the
//! other way; a tie goes to the smooth curve.

use nalgebra::{Matrix3, Rotation3, Vector2, Vector3};

use super::bundle::{BendPrior, Effort, Moves, Sight, Solved, State, Task, solve};
use super::camera::CameraPrior;
use super::card::{CROSSES, TIP};
use super::pose::{CardPose, PhotoPose};

/// Views tried: so far above (or below) the cards, in degrees.
const VIEWS: [f64; 3] = [0.0, 25.0, -25.0];
/// Bend before the shape is known, per mm: bumpers are from flat to R 0.4 m.
pub const BEND_BEFORE: BendPrior = BendPrior {
    value: 0.000_7,
    u: 0.000_8,
};
/// Costs nearer than this say nothing of which way a card is turned.
const TIE: f64 = 6.0;

/// A photo whose cards stand in its own camera frame.
#[derive(Clone, Debug, PartialEq)]
pub struct OnePhoto {
    /// Cards in the order of the sights given.
    pub cards: Vec<CardPose>,
    /// The camera found.
    pub photo: PhotoPose,
    /// The cost.
    pub cost: f64,
}

/// Solves one photo by itself; the sights' card numbers must run from 0.
/// `None` when nothing fits.
#[must_use]
pub fn one_photo(prior: &CameraPrior, sights: &[Sight]) -> Option<OnePhoto> {
    let task = Task {
        cameras: vec![*prior],
        bends: vec![BEND_BEFORE; sights.len()],
        sights: sights.iter().map(|s| Sight { photo: 0, ..*s }).collect(),
    };
    let photo = PhotoPose {
        turn: Matrix3::identity(),
        shift: Vector3::zeros(),
        camera: prior.camera,
    };
    let best = VIEWS
        .iter()
        .filter_map(|view| {
            let cards = upright(prior, sights, view.to_radians())?;
            let start = State {
                photos: vec![photo],
                cards,
            };
            solve(&task, start, Moves::All, Effort::Rough)
        })
        .min_by(|a, b| a.cost.total_cmp(&b.cost))?;
    let best = turned_right(&task, best)?;
    Some(OnePhoto {
        cards: best.state.cards,
        photo: best.state.photos[0],
        cost: best.cost,
    })
}

/// Upright cards on the curve through their distances, seen from an angle
/// above them in radian.
fn upright(prior: &CameraPrior, sights: &[Sight], above: f64) -> Option<Vec<CardPose>> {
    let seen: Vec<[Vector2<f64>; 4]> = sights
        .iter()
        .map(|s| s.crosses.map(|c| prior.camera.direction([c[0], c[1]])))
        .collect();
    let roll = roll(&seen)?;
    let level = Rotation3::from_axis_angle(&Vector3::z_axis(), -roll);
    let tilt = Rotation3::from_axis_angle(&Vector3::x_axis(), above);
    // Into a frame whose y is the vehicle's vertical: x right, z away.
    let straight = tilt.inverse() * level;
    let middles: Vec<Vector3<f64>> = seen
        .iter()
        .map(|crosses| {
            let turned = crosses.map(|m| (level * m.push(1.0)).xy());
            let height = (turned[3].y - turned[0].y + turned[2].y - turned[1].y) / 2.0;
            let distance = (CROSSES[0].1 - CROSSES[3].1) * above.cos() / height.max(1e-6);
            let middle = crosses.iter().sum::<Vector2<f64>>() / 4.0;
            straight * middle.push(1.0) * distance
        })
        .collect();
    let turns = turns(&middles);
    let cards = middles
        .iter()
        .zip(turns)
        .map(|(middle, turn)| {
            // Right, up, out of the print, in the frame with y down.
            let axes = Matrix3::from_columns(&[
                Vector3::new(turn.cos(), 0.0, turn.sin()),
                Vector3::new(0.0, -1.0, 0.0),
                Vector3::new(turn.sin(), 0.0, -turn.cos()),
            ]);
            let axes = straight.inverse() * axes;
            let tip = straight.inverse() * middle + axes * Vector3::new(TIP.0, TIP.1, 0.0);
            CardPose {
                axes,
                tip,
                bend: BEND_BEFORE.value,
            }
        })
        .collect();
    Some(cards)
}

/// How far the photo is rolled: the mean of the cards' upward directions.
fn roll(seen: &[[Vector2<f64>; 4]]) -> Option<f64> {
    let up = seen
        .iter()
        .map(|c| (c[0] - c[3] + c[1] - c[2]).normalize())
        .sum::<Vector2<f64>>();
    // Up is -y: its angle from there.
    (up.norm() > 0.1).then(|| up.x.atan2(-up.y))
}

/// Slope of the curve through places (x right, z away) at each of them, in
/// radian, + where it falls away to the right.
fn turns(places: &[Vector3<f64>]) -> Vec<f64> {
    let mut order: Vec<usize> = (0..places.len()).collect();
    order.sort_by(|a, b| places[*a].x.total_cmp(&places[*b].x));
    let row: Vec<(f64, f64)> = order.iter().map(|i| (places[*i].x, places[*i].z)).collect();
    let n = row.len();
    let chord = |i: usize| {
        let (a, b) = (row[i], row[i + 1]);
        ((b.1 - a.1).atan2(b.0 - a.0), (b.0 - a.0).hypot(b.1 - a.1))
    };
    let mut turns = vec![0.0; n];
    for (k, place) in order.iter().enumerate() {
        turns[*place] = match (k, n) {
            (_, 1) => 0.0,
            (_, 2) => chord(0).0,
            (0, _) => beyond(chord(0), chord(1)),
            (k, n) if k == n - 1 => beyond(chord(n - 2), chord(n - 3)),
            (k, _) => {
                let (a, b) = (chord(k - 1), chord(k));
                (a.0 * b.1 + b.0 * a.1) / (a.1 + b.1)
            }
        };
    }
    turns
}

/// Slope at the outer end of the first of two chords (angle, length).
fn beyond(first: (f64, f64), next: (f64, f64)) -> f64 {
    let a_length = (first.0 - next.0) / ((first.1 + next.1) / 2.0).max(1.0);
    (first.0 + a_length * first.1 / 2.0).clamp(-1.3, 1.3)
}

/// Each card turned the other way where that fits better, or as well and
/// smoother.
fn turned_right(task: &Task, found: Solved) -> Option<Solved> {
    let mut other = found.state.clone();
    for card in &mut other.cards {
        *card = other_way(card);
    }
    let curve = turns_from_above(&found.state.cards);
    // Each card by itself: the photo holds still.
    let cost_of = |state: &State, i: usize| {
        let alone = Task {
            cameras: task.cameras.clone(),
            bends: vec![task.bends[i]],
            sights: task
                .sights
                .iter()
                .filter(|s| s.card == i)
                .map(|s| Sight { card: 0, ..*s })
                .collect(),
        };
        let start = State {
            photos: state.photos.clone(),
            cards: vec![state.cards[i]],
        };
        solve(&alone, start, Moves::Cards, Effort::Rough)
    };
    let mut better = found.state.clone();
    let mut changed = false;
    for (i, bend_out) in curve.iter().enumerate() {
        let (Some(now), Some(then)) = (cost_of(&found.state, i), cost_of(&other, i)) else {
            continue;
        };
        let (now_pose, then_pose) = (now.state.cards[0], then.state.cards[0]);
        let off = |pose: &CardPose| bend_out.map_or(0.0, |out| pose.axes.column(2).angle(&out));
        let gain = now.cost - then.cost;
        let smoother = off(&then_pose) + 0.02 < off(&now_pose);
        if gain > TIE || (gain > -TIE && smoother) {
            better.cards[i] = then_pose;
            changed = true;
        }
    }
    if !changed {
        return Some(found);
    }
    let again = solve(task, better, Moves::All, Effort::Rough)?;
    Some(
        if again.cost < found.cost + TIE * task.sights.len() as f64 {
            again
        } else {
            found
        },
    )
}

/// The pose with its face mirrored about the line of sight: the other of
/// the two ways in which a small plane looks the same.
fn other_way(card: &CardPose) -> CardPose {
    let middle = card.place(0.0, 0.0);
    let view = -middle.normalize();
    let out: Vector3<f64> = card.axes.column(2).into();
    let mirrored = view * (2.0 * out.dot(&view)) - out;
    let turn = Rotation3::rotation_between(&out, &mirrored).unwrap_or_else(Rotation3::identity);
    let axes = turn * card.axes;
    CardPose {
        axes,
        tip: middle + axes * Vector3::new(TIP.0, TIP.1, 0.0),
        bend: card.bend,
    }
}

/// For each card the outward direction that the curve through its
/// neighbours gives, level with the card's own.
fn turns_from_above(cards: &[CardPose]) -> Vec<Option<Vector3<f64>>> {
    if cards.len() < 3 {
        return vec![None; cards.len()];
    }
    let up = cards
        .iter()
        .map(|c| c.axes.column(1).into_owned())
        .sum::<Vector3<f64>>()
        .normalize();
    let across = cards
        .iter()
        .map(|c| c.axes.column(0).into_owned())
        .sum::<Vector3<f64>>();
    let across = (across - up * across.dot(&up)).normalize();
    let away = across.cross(&-up);
    let level: Vec<Vector3<f64>> = cards
        .iter()
        .map(|c| Vector3::new(c.tip.dot(&across), 0.0, c.tip.dot(&away)))
        .collect();
    turns(&level)
        .into_iter()
        .map(|turn| Some(across * turn.sin() - away * turn.cos()))
        .collect()
}
