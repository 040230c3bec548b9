//! One least squares over all poses.
//!
//! Unknown: the phone's ten, the wall's lean, the table's two slopes and
//! what misses the half turn. A wall pose is free to turn in its plane, so
//! only the direction across the wall counts: asin(u · seat) = lean for the
//! back, -lean for the screen. A table pose counts both ways. A raw source
//! adds one equation a pose: the corrected length is 1 g. Priors are weak
//! and named below. Solved by Gauss-Newton; the inverse of the normal
//! matrix is the covariance (linearised).

use nalgebra::{SMatrix, SVector};

use crate::estimate::rake::{Seat, Side, rake_against_gravity};
use crate::estimate::seating::Seating;
use crate::estimate::still::StillReading;
use crate::estimate::zero::poses::{BadPose, Pose, PoseReading, check_pose};
use crate::estimate::zero::{
    PhoneProfile, SourceKind, UNKNOWNS, Zeroing, correct_direction, seat_of, unscaled,
};
use crate::sample::{STANDARD_GRAVITY, UpVector, length};
use crate::text::{Message, msg};
use crate::units::{Degrees, Millis, root_sum_of_squares};

/// Prior standard deviation of an axis's offset in g (20 to 90 mg by the
/// makers' sheets).
pub const PRIOR_OFFSET: f64 = 0.030;
/// Prior standard deviation of an axis's scale error (0.5 to 1 %).
pub const PRIOR_SCALE: f64 = 0.007_5;
/// Prior standard deviation of a seat.
pub const PRIOR_SEAT: Degrees = Degrees(1.5);
/// Prior standard deviation of wall and table.
pub const PRIOR_SURFACE: Degrees = Degrees(5.0);
/// The half turn on the table is meant by ±5 degrees.
pub const PRIOR_HALF_TURN: Degrees = Degrees(2.5);
/// Standard uncertainty of the length of a corrected raw reading in g
/// (bends of the chip, drift within minutes).
pub const U_LENGTH: f64 = 0.000_5;
/// Offsets beyond this, in g, are not a phone's.
pub const MOST_OFFSET: f64 = 0.12;
/// Seats beyond this are not a phone's.
pub const MOST_SEAT: Degrees = Degrees(6.0);
/// Scale errors beyond this are not a phone's.
pub const MOST_SCALE: f64 = 0.06;
/// The fit is worse than the seating explains when what is left is more
/// than so many of its standard deviations.
const MOST_MISFIT: f64 = 3.0;

const ALL: usize = UNKNOWNS + 4;
const WALL: usize = UNKNOWNS;
const TABLE: usize = UNKNOWNS + 1;
const HALF_TURN: usize = UNKNOWNS + 3;
const STEPS: usize = 8;
/// Three residuals a pose, six poses.
const MOST_RESIDUALS: usize = 18;

type Unknowns = SVector<f64, ALL>;
type Normal = SMatrix<f64, ALL, ALL>;

/// Why zeroing has no result.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ZeroFault {
    /// The wall poses are not all there (the fourth may be missing).
    TooFewPoses,
    /// One of them is bad.
    Bad(Pose, BadPose),
    /// The poses do not fit one phone on one surface.
    NotOneSurface {
        /// What is left after the fit.
        left: Degrees,
    },
    /// No phone is that wrong.
    NotAPhone,
}

impl ZeroFault {
    /// What the fitter is told.
    #[must_use]
    pub fn message(self) -> Message {
        match self {
            Self::TooFewPoses => msg("zero-too-few"),
            Self::Bad(_, bad) => bad.message(),
            Self::NotOneSurface { left } => msg("zero-not-one-surface").deg("left", left.0),
            Self::NotAPhone => msg("zero-not-a-phone"),
        }
    }
}

fn priors() -> [f64; ALL] {
    let seat = PRIOR_SEAT.0.to_radians();
    let surface = PRIOR_SURFACE.0.to_radians();
    let turn = PRIOR_HALF_TURN.0.to_radians();
    let (b, s) = (PRIOR_OFFSET, PRIOR_SCALE);
    [
        b, b, b, s, s, s, seat, seat, seat, seat, surface, surface, surface, turn,
    ]
}

/// Zeroes the phone from its poses.
///
/// # Errors
/// [`ZeroFault`] when poses are missing or do not fit.
pub fn zero_phone(
    poses: &[PoseReading],
    profile: PhoneProfile,
    seating: Seating,
    at: Millis,
) -> Result<Zeroing, ZeroFault> {
    let has = |pose| poses.iter().any(|p| p.pose == pose);
    if !(has(Pose::BackUpright) && has(Pose::BackUpsideDown) && has(Pose::ScreenIn))
        || poses.len() > Pose::ALL.len()
    {
        return Err(ZeroFault::TooFewPoses);
    }
    for (i, pose) in poses.iter().enumerate() {
        check_pose(&poses[..i], pose).map_err(|bad| ZeroFault::Bad(pose.pose, bad))?;
    }
    let (found, covariance) = fit(poses, seating.u()).ok_or(ZeroFault::NotAPhone)?;
    let mut unknowns = [0.0; UNKNOWNS];
    unknowns.copy_from_slice(&found.as_slice()[..UNKNOWNS]);
    let offsets = unknowns[..3].iter().all(|b| b.abs() < MOST_OFFSET);
    let most_seat = MOST_SEAT.0.to_radians();
    let scales = unknowns[3..6].iter().all(|s| s.abs() < MOST_SCALE);
    if !offsets || !scales || unknowns[6..].iter().any(|s| s.abs() > most_seat) {
        return Err(ZeroFault::NotAPhone);
    }
    let spread = left_over(&found, poses, seating.u());
    if spread > seating.u() * MOST_MISFIT {
        return Err(ZeroFault::NotOneSurface { left: spread });
    }
    let covariance = (0..UNKNOWNS)
        .flat_map(|r| (0..UNKNOWNS).map(move |c| (r, c)))
        .map(|at| covariance[at])
        .collect();
    let kind = poses
        .first()
        .map_or(SourceKind::Raw, |p| p.still.source.into());
    let mut zeroing = Zeroing {
        profile,
        kind,
        unknowns,
        covariance,
        poses: poses.to_vec(),
        spread,
        was_off_by: Degrees(0.0),
        at,
    };
    if let Some(first) = poses.iter().find(|p| p.pose == Pose::BackUpright) {
        let before = rake_against_gravity(first.still.up, Side::Back, Seat::default());
        if let Some(after) = zeroing.rake(&first.still, Side::Back) {
            zeroing.was_off_by = before - after.value;
        }
    }
    Ok(zeroing)
}

/// First-order view of the four wall poses, for messages and as a check.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FirstOrder {
    /// Offset across the screen: (m1+m2+m3+m4)/4.
    pub offset: f64,
    /// The wall's lean: (m1+m2-m3-m4)/4.
    pub wall: f64,
    /// Back seat along y: (m2-m1)/2.
    pub back: f64,
    /// Screen seat along y: (m4-m3)/2.
    pub screen: f64,
}

impl FirstOrder {
    /// From m = z of the up-vector in the four wall poses, in sines.
    #[must_use]
    pub fn from_wall([m1, m2, m3, m4]: [f64; 4]) -> Self {
        Self {
            offset: (m1 + m2 + m3 + m4) / 4.0,
            wall: (m1 + m2 - m3 - m4) / 4.0,
            back: (m2 - m1) / 2.0,
            screen: (m4 - m3) / 2.0,
        }
    }
}

struct Residuals {
    values: [f64; MOST_RESIDUALS],
    count: usize,
}

impl Residuals {
    fn push(&mut self, value: f64) {
        if let Some(slot) = self.values.get_mut(self.count) {
            *slot = value;
            self.count += 1;
        }
    }
}

/// Residuals in radian (length: in g), each over its standard deviation.
fn residuals(x: &Unknowns, poses: &[PoseReading], seating: Degrees) -> Option<Residuals> {
    let mut unknowns = [0.0; UNKNOWNS];
    unknowns.copy_from_slice(&x.as_slice()[..UNKNOWNS]);
    let mut all = Residuals {
        values: [0.0; MOST_RESIDUALS],
        count: 0,
    };
    for PoseReading { pose, still } in poses {
        let up = pose_up(&unknowns, still, &mut all)?;
        let u = [seating.0, still.u_noise.0, still.u_rounding.0];
        let sd = root_sum_of_squares(&u).to_radians();
        let seat = seat_of(&unknowns, pose.side()).normal();
        let across = up.dot(seat).clamp(-1.0, 1.0);
        let lean = x[WALL];
        match pose {
            Pose::BackUpright | Pose::BackUpsideDown => all.push((across.asin() - lean) / sd),
            Pose::ScreenIn | Pose::ScreenInUpsideDown => all.push((across.asin() + lean) / sd),
            Pose::Table | Pose::TableTurned => {
                let [right, top] = table_axes(seat);
                let slope = if *pose == Pose::Table {
                    [x[TABLE], x[TABLE + 1]]
                } else {
                    let (s, c) = x[HALF_TURN].sin_cos();
                    let [p, q] = [x[TABLE], x[TABLE + 1]];
                    [-(c * p - s * q), -(s * p + c * q)]
                };
                all.push((up.dot(right) - slope[0]) / sd);
                all.push((up.dot(top) - slope[1]) / sd);
            }
        }
    }
    Some(all)
}

/// Corrected up-vector of a pose; a raw source adds its length's residual.
fn pose_up(
    unknowns: &[f64; UNKNOWNS],
    still: &StillReading,
    all: &mut Residuals,
) -> Option<UpVector> {
    match still.raw_mean {
        Some(raw) => {
            let a = unscaled(unknowns, raw.map(|c| c / STANDARD_GRAVITY));
            let u = [
                still.u_noise.0.to_radians(),
                still.u_rounding.0.to_radians(),
            ];
            let u = root_sum_of_squares(&[U_LENGTH, u[0], u[1]]);
            all.push((length(a) - 1.0) / u);
            UpVector::of(a)
        }
        None => correct_direction(unknowns, still.up),
    }
}

/// Across a seat's normal: as near to the device's x and y as it gets.
fn table_axes(n: [f64; 3]) -> [[f64; 3]; 2] {
    let across = |axis: usize| {
        let mut v = [0, 1, 2].map(|i| -n[axis] * n[i]);
        v[axis] += 1.0;
        let size = length(v);
        v.map(|c| c / size)
    };
    let top = across(1);
    let right = [
        top[1] * n[2] - top[2] * n[1],
        top[2] * n[0] - top[0] * n[2],
        top[0] * n[1] - top[1] * n[0],
    ];
    [right, top]
}

/// Gauss-Newton from zero; `None` when a reading cannot be corrected.
fn fit(poses: &[PoseReading], seating: Degrees) -> Option<(Unknowns, Normal)> {
    const STEP: f64 = 1e-6;
    let priors = priors();
    let mut x = Unknowns::zeros();
    let mut covariance = Normal::identity();
    for _ in 0..STEPS {
        let here = residuals(&x, poses, seating)?;
        let mut normal = Normal::zeros();
        let mut right = Unknowns::zeros();
        for (i, prior) in priors.iter().enumerate() {
            let weight = 1.0 / (prior * prior);
            normal[(i, i)] += weight;
            right[i] -= weight * x[i];
        }
        let mut slopes = [Unknowns::zeros(); MOST_RESIDUALS];
        for i in 0..ALL {
            let mut moved = x;
            moved[i] += STEP;
            let there = residuals(&moved, poses, seating)?;
            let pairs = there.values.iter().zip(here.values);
            for (slope, (a, b)) in slopes.iter_mut().zip(pairs) {
                slope[i] = (a - b) / STEP;
            }
        }
        for (slope, value) in slopes.iter().zip(here.values).take(here.count) {
            normal += slope * slope.transpose();
            right -= slope * value;
        }
        covariance = normal.cholesky()?.inverse();
        let step = covariance * right;
        x += step;
        if step.amax() < 1e-10 {
            break;
        }
    }
    x.iter().all(|v| v.is_finite()).then_some((x, covariance))
}

/// Root mean square of the directions' residuals, as an angle.
fn left_over(x: &Unknowns, poses: &[PoseReading], seating: Degrees) -> Degrees {
    residuals(x, poses, seating).map_or(Degrees(f64::INFINITY), |all| {
        let used = &all.values[..all.count];
        let square = used.iter().map(|r| r * r).sum::<f64>() / used.len().max(1) as f64;
        seating * square.sqrt()
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::estimate::contact::Feet;
    use crate::sample::Source;

    /// Up-vectors of a phone with offset z, back seat y and screen seat y
    /// on a wall of some lean, all in degrees; raw.
    fn poses(offset: f64, back: f64, screen: f64, lean: f64) -> Vec<PoseReading> {
        let z = [
            lean - back + offset,
            lean + back + offset,
            -lean - screen + offset,
            -lean + screen + offset,
        ];
        Pose::ALL
            .into_iter()
            .zip(z)
            .enumerate()
            .map(|(i, (pose, z))| {
                let side = if i % 2 == 0 { 1.0 } else { -1.0 };
                let raw = [
                    0.0,
                    side * STANDARD_GRAVITY,
                    z.to_radians() * STANDARD_GRAVITY,
                ];
                let still = StillReading {
                    up: UpVector::of(raw).unwrap(),
                    u_noise: Degrees(0.01),
                    u_rounding: Degrees(0.0),
                    samples: 50,
                    effective: 50.0,
                    source: Source::Acceleration { step: 0.0 },
                    raw_mean: Some(raw),
                    azimuth: None,
                    at: Millis(i as f64 * 5_000.0),
                };
                PoseReading { pose, still }
            })
            .collect()
    }

    fn profile() -> PhoneProfile {
        PhoneProfile {
            name: "mine".to_owned(),
            case: String::new(),
            feet: Feet::On,
        }
    }

    fn zero(poses: &[PoseReading]) -> Result<Zeroing, ZeroFault> {
        zero_phone(poses, profile(), Seating::Assumed, Millis(0.0))
    }

    #[test]
    fn wall_poses_find_offset_seats_and_lean() {
        let wall = poses(2.0, 1.0, -0.5, 0.7);
        let seen = FirstOrder::from_wall([0, 1, 2, 3].map(|i| wall[i].still.up.0[2]));
        assert!((Degrees::asin(seen.offset).0 - 2.0).abs() < 0.01);
        assert!((Degrees::asin(seen.wall).0 - 0.7).abs() < 0.01);
        assert!((Degrees::asin(seen.back).0 - 1.0).abs() < 0.01);
        assert!((Degrees::asin(seen.screen).0 + 0.5).abs() < 0.01);
        let zeroing = zero(&wall).unwrap();
        assert!((Degrees::asin(zeroing.unknowns[2]).0 - 2.0).abs() < 0.05);
        assert!((Degrees::asin(zeroing.unknowns[7]).0 - 1.0).abs() < 0.05);
        // On a true upright face the phone read 2 - 1 = 1 degree too much.
        assert!(
            (zeroing.was_off_by.0 - 1.0).abs() < 0.1,
            "{:?}",
            zeroing.was_off_by
        );
        let after = zeroing.rake(&wall[0].still, Side::Back).unwrap();
        assert!((after.value.0 - 0.7).abs() < 0.05);
        assert!((0.1..0.5).contains(&after.u.0), "{:?}", after.u);
    }

    #[test]
    fn an_upside_down_pair_cancels_the_seat() {
        for seat in [-2.0, 0.0, 1.5] {
            let wall = poses(1.2, seat, 0.3, 0.0);
            let pair = (wall[0].still.up.0[2] + wall[1].still.up.0[2]) / 2.0;
            assert!((Degrees::asin(pair).0 - 1.2).abs() < 0.01);
        }
    }

    #[test]
    fn bad_poses_are_named() {
        let good = poses(1.0, 0.5, 0.2, 0.3);
        let bad = |i: usize, up: [f64; 3]| {
            let mut next = good[i];
            next.still.up = UpVector::of(up).unwrap();
            check_pose(&good[..i], &next)
        };
        let (s, c) = 20f64.to_radians().sin_cos();
        assert!(
            matches!(bad(0, [s, c, 0.0]), Err(BadPose::NotUpright(d)) if (d.0 - 20.0).abs() < 1e-9)
        );
        assert!(
            matches!(bad(0, [0.0, c, s]), Err(BadPose::SurfaceLeans(d)) if (d.0 - 20.0).abs() < 1e-9)
        );
        assert_eq!(bad(0, [0.0, -1.0, 0.01]), Err(BadPose::WrongWayUp));
        assert_eq!(bad(1, good[0].still.up.0), Err(BadPose::SamePoseTwice));
        let mut table = good[0];
        table.pose = Pose::Table;
        table.still.up = UpVector([0.0, 0.0, -1.0]);
        assert_eq!(check_pose(&[], &table), Err(BadPose::WrongSide));
        let mut shaken = good[0];
        shaken.still.u_noise = Degrees(0.4);
        assert_eq!(check_pose(&[], &shaken), Err(BadPose::Moved(Degrees(0.4))));
        let mut other = good[1];
        other.still.source = Source::Euler { step: Degrees(0.1) };
        assert_eq!(check_pose(&good[..1], &other), Err(BadPose::OtherSource));
    }

    #[test]
    fn the_wrong_side_is_seen_by_its_azimuth() {
        let mut good = poses(1.0, 0.5, 0.2, 0.3);
        good[0].still.azimuth = Some(Degrees(30.0));
        good[2].still.azimuth = Some(Degrees(32.0));
        assert_eq!(check_pose(&good[..1], &good[2]), Err(BadPose::WrongSide));
        good[2].still.azimuth = Some(Degrees(-149.0));
        assert_eq!(check_pose(&good[..1], &good[2]), Ok(()));
    }

    #[test]
    fn readings_from_two_surfaces_are_not_recorded_as_good() {
        let wall = poses(1.0, 0.5, 0.2, 0.0);
        assert_eq!(zero(&wall[..2]), Err(ZeroFault::TooFewPoses));
        // On a level table up is the seat's normal; here it is 4 degrees off.
        let tables = [(Pose::Table, 0.0), (Pose::TableTurned, 0.1)];
        let with = |off: f64| {
            let mut all = wall.clone();
            for (pose, more) in tables {
                let mut next = wall[0];
                let y = (0.5 + off + more).to_radians() * STANDARD_GRAVITY;
                let z = (1.0 + 1f64.to_radians()) * STANDARD_GRAVITY;
                next.still.raw_mean = Some([0.0, y, z]);
                next.still.up = UpVector::of([0.0, y, z]).unwrap();
                all.push(PoseReading { pose, ..next });
            }
            zero(&all)
        };
        assert!(with(0.0).is_ok());
        assert!(matches!(with(4.0), Err(ZeroFault::NotOneSurface { .. })));
        let mut pushed = wall.clone();
        pushed[1].still.raw_mean = Some([0.0, -11.8, 0.1]);
        assert_eq!(zero(&pushed), Err(ZeroFault::NotAPhone));
        let far = poses(9.0, 0.1, 0.3, 0.2);
        assert_eq!(zero(&far), Err(ZeroFault::NotAPhone));
    }

    #[test]
    fn zeroing_is_asked_for_again_by_age_case_feet_and_phone() {
        let zeroing = zero(&poses(1.0, 0.5, 0.2, 0.3)).unwrap();
        let day = 86_400_000.0;
        assert_eq!(zeroing.renewal(&profile(), Millis(29.0 * day)), None);
        let old = zeroing.renewal(&profile(), Millis(31.0 * day)).unwrap();
        assert_eq!(old, msg("zero-renew-age").count("days", 31));
        let feet = PhoneProfile {
            feet: Feet::None,
            ..profile()
        };
        assert_eq!(
            zeroing.renewal(&feet, Millis(0.0)),
            Some(msg("zero-renew-feet"))
        );
        let other = PhoneProfile {
            name: "other".to_owned(),
            ..profile()
        };
        let why = zeroing.renewal(&other, Millis(0.0)).unwrap();
        assert_eq!(why.key, "zero-renew-phone");
    }

    #[test]
    fn a_zeroing_is_for_its_kind_of_source() {
        let wall = poses(1.0, 0.5, 0.2, 0.3);
        let zeroing = zero(&wall).unwrap();
        let mut still = wall[0].still;
        still.source = Source::Euler { step: Degrees(0.1) };
        assert_eq!(zeroing.rake(&still, Side::Back), None);
    }

    #[test]
    fn a_kept_zeroing_comes_back_the_same() {
        let zeroing = zero(&poses(1.0, 0.5, 0.2, 0.3)).unwrap();
        let text = serde_json::to_string(&zeroing).unwrap();
        let back: Zeroing = serde_json::from_str(&text).unwrap();
        assert!((back.unknowns[2] - zeroing.unknowns[2]).abs() < 1e-15);
        assert_eq!(back.poses.len(), zeroing.poses.len());
    }
}
