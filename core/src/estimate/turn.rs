//! The corner angle by a sweep: from the centre spot, left to right, and
//! back on the centre.
//!
//! An orientation source gives the azimuth of the phone's normal; its
//! change from the centre is the corner angle against gravity. What the
//! closing reading misses is spread over time, as a traverse is closed.
//! Turn and rake are then solved together in the vehicle's frame.

use serde::{Deserialize, Serialize};

use crate::estimate::ground::Ground;
use crate::estimate::rake::rake_on_ground;
use crate::estimate::reading::{Seat, Side, plausible, rake_against_gravity};
use crate::estimate::still::StillReading;
use crate::estimate::zero::Phone;
use crate::order;
use crate::sample::azimuth_change;
use crate::text::{Message, msg};
use crate::units::{Degrees, Estimate, Millimetres, Millis, root_sum_of_squares};

/// A sweep that misses its start by more than this is done again.
pub const MOST_CLOSING: Degrees = Degrees(10.0);
/// Standard uncertainty of seating about the vertical, each reading.
pub const U_TURN_SEATING: Degrees = Degrees(0.7);
/// The centre's face looks straight back within this (standard
/// uncertainty): it is the reference of all others.
pub const U_CENTRE: Degrees = Degrees(0.7);
/// Steeper corner angles than this are not read on a bumper.
pub const MOST_TURN: Degrees = Degrees(85.0);

/// One reading of a sweep.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Station {
    /// Tape along the face from the centre, + to the right.
    pub along: Millimetres,
    /// Azimuth of the phone's normal, anticlockwise seen from above.
    pub azimuth: Degrees,
    /// Face angle against gravity.
    pub against_gravity: Degrees,
    /// Standard uncertainty of both from noise.
    pub u_noise: Degrees,
    /// When it was read.
    pub at: Millis,
}

impl Station {
    /// A reading of a sweep from a still window.
    ///
    /// # Errors
    /// A message when the source gives no azimuth or that is no bumper's
    /// face.
    pub fn from_still(
        along: Millimetres,
        still: &StillReading,
        side: Side,
        phone: &Phone,
    ) -> Result<Self, Message> {
        let azimuth = still.azimuth.ok_or_else(|| msg("sweep-no-azimuth"))?;
        let zeroed = match phone {
            Phone::Zeroed(zeroing) => zeroing.rake(still, side).map(|rake| rake.value),
            Phone::Unzeroed => None,
        };
        let plain = || rake_against_gravity(still.up, side, Seat::default());
        Ok(Self {
            along,
            azimuth,
            against_gravity: plausible(zeroed.unwrap_or_else(plain))?,
            u_noise: still.u_noise,
            at: still.at,
        })
    }
}

/// Corner angle and face angle of a station, against the vehicle.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct SweptSpot {
    /// Tape along the face from the centre, + to the right.
    pub along: Millimetres,
    /// Corner angle, + to the right.
    pub turn: Estimate<Degrees>,
    /// Face angle against the ground.
    pub rake: Degrees,
}

/// A sweep after closing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ClosedSweep {
    /// What the closing reading missed: its azimuth less that of the start.
    pub closing: Degrees,
    /// The stations from left to right, the centre with 0 among them.
    pub spots: Vec<SweptSpot>,
}

/// Closes a sweep. The first and the last station stand on the centre.
///
/// # Errors
/// A message when it is not such a sweep or misses its start by more than
/// [`MOST_CLOSING`].
pub fn close_sweep(stations: &[Station], ground: &Ground) -> Result<ClosedSweep, Message> {
    let [first, between @ .., last] = stations else {
        return Err(msg("sweep-too-short"));
    };
    if between.is_empty() {
        return Err(msg("sweep-too-short"));
    }
    if first.along.0.abs() > 0.5 || last.along.0.abs() > 0.5 {
        return Err(msg("sweep-not-closed"));
    }
    let closing = azimuth_change(first.azimuth, last.azimuth);
    if closing.abs() > MOST_CLOSING {
        return Err(msg("sweep-closing-too-far")
            .deg("closing", closing.abs().0)
            .deg("limit", MOST_CLOSING.0));
    }
    let span = (last.at - first.at).0.max(1.0);
    let centre = Degrees((first.against_gravity.0 + last.against_gravity.0) / 2.0);
    let mut spots = vec![SweptSpot {
        along: Millimetres(0.0),
        turn: Estimate::new(Degrees(0.0), U_CENTRE),
        rake: in_vehicle(centre, centre, Degrees(0.0), ground).1,
    }];
    for station in between {
        let share = ((station.at - first.at).0 / span).clamp(0.0, 1.0);
        let change = azimuth_change(first.azimuth, station.azimuth) - closing * share;
        let (turn, rake) = in_vehicle(centre, station.against_gravity, change, ground);
        if turn.abs() > MOST_TURN {
            return Err(msg("sweep-turned-too-far")
                .mm("along", station.along.0)
                .deg("turn", turn.0)
                .deg("by", turn.abs().0 - MOST_TURN.0)
                .deg("greatest", MOST_TURN.0));
        }
        // A traverse is most uncertain half way: closing sqrt(t (1-t)).
        let drift = closing.0 * (share * (1.0 - share)).sqrt();
        let noise = station.u_noise.0.hypot(first.u_noise.0);
        let parts = [drift, noise, U_TURN_SEATING.0, U_CENTRE.0, U_TURN_SEATING.0];
        spots.push(SweptSpot {
            along: station.along,
            turn: Estimate::new(turn, Degrees(root_sum_of_squares(&parts))),
            rake,
        });
    }
    order::sort_by(&mut spots, |a, b| a.along.0.total_cmp(&b.along.0));
    if let Some(pair) = spots
        .windows(2)
        .find(|pair| (pair[1].along.0 - pair[0].along.0) < APART_LEAST.0)
    {
        return Err(same_place(pair[0].along, pair[1].along));
    }
    Ok(ClosedSweep { closing, spots })
}

/// Nearest that two places may stand along the face.
pub(super) const APART_LEAST: Millimetres = Millimetres(1.0);

/// Two places of the face are one: which, and by how much they are too near.
pub(super) fn same_place(first: Millimetres, second: Millimetres) -> Message {
    let apart = (second - first).abs();
    msg("sweep-same-place")
        .number("first", first.0, 1)
        .number("second", second.0, 1)
        .number("by", APART_LEAST.0 - apart.0, 1)
        .number("least", APART_LEAST.0, 1)
}

/// Corner angle and face angle in the vehicle's frame, from the face angles
/// against gravity at the centre (which looks straight back) and at the
/// spot, and the change of azimuth about gravity between them.
#[must_use]
pub fn in_vehicle(
    centre: Degrees,
    spot: Degrees,
    change: Degrees,
    ground: &Ground,
) -> (Degrees, Degrees) {
    let up = ground.up();
    let rake = rake_on_ground(centre, Degrees(0.0), up);
    let back = [0.0, -rake.cos(), rake.sin()];
    let dot = |a: [f64; 3], b: [f64; 3]| a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
    let along = dot(back, up);
    let level = [0, 1, 2].map(|i| back[i] - along * up[i]);
    let size = dot(level, level).sqrt().max(1e-12);
    let h = level.map(|c| c / size);
    // Anticlockwise from h seen from above: up × h.
    let g = [
        up[1] * h[2] - up[2] * h[1],
        up[2] * h[0] - up[0] * h[2],
        up[0] * h[1] - up[1] * h[0],
    ];
    let (m, flat) = (spot.sin(), spot.cos());
    let normal = [0, 1, 2].map(|i| m * up[i] + flat * (change.cos() * h[i] + change.sin() * g[i]));
    let turn = Degrees(normal[0].atan2(-normal[1]).to_degrees());
    (turn, Degrees::asin(normal[2]))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::estimate::ground::up_of;
    use crate::sample::{Source, UpVector};
    use crate::text::Arg;

    fn slope(nose: f64, right: f64) -> Ground {
        let mut ground = Ground::gauge_on_board();
        ground.nose_up.value = Degrees(nose);
        ground.right_up.value = Degrees(right);
        ground
    }

    /// Elevation and azimuth against gravity of a face of the vehicle.
    fn seen(rake: f64, turn: f64, ground: &Ground) -> (f64, f64) {
        let (e, t) = (Degrees(rake), Degrees(turn));
        let n = [e.cos() * t.sin(), -e.cos() * t.cos(), e.sin()];
        let up = ground.up();
        let dot = |a: [f64; 3], b: [f64; 3]| a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
        // Any level pair of axes will do: x made level, and up × x.
        let x = [1.0 - up[0] * up[0], -up[0] * up[1], -up[0] * up[2]];
        let size = dot(x, x).sqrt();
        let x = x.map(|c| c / size);
        let y = [
            up[1] * x[2] - up[2] * x[1],
            up[2] * x[0] - up[0] * x[2],
            up[0] * x[1] - up[1] * x[0],
        ];
        let elevation = dot(n, up).asin().to_degrees();
        (elevation, dot(n, y).atan2(dot(n, x)).to_degrees())
    }

    fn station(along: f64, at: f64, rake: f64, turn: f64, ground: &Ground) -> Station {
        let (elevation, azimuth) = seen(rake, turn, ground);
        Station {
            along: Millimetres(along),
            azimuth: Degrees(azimuth),
            against_gravity: Degrees(elevation),
            u_noise: Degrees(0.05),
            at: Millis(at),
        }
    }

    #[test]
    fn a_bumper_on_a_slope_is_the_same_bumper_on_level_ground() {
        for (nose, right) in [(0.0, 0.0), (6.0, 6.0), (-6.0, 3.0), (2.0, -6.0)] {
            let ground = slope(nose, right);
            for (rake, turn) in [(-20.0, 60.0), (-4.0, -35.0), (10.0, 12.0)] {
                let (centre, from) = seen(-5.0, 0.0, &ground);
                let (here, to) = seen(rake, turn, &ground);
                let change = azimuth_change(Degrees(from), Degrees(to));
                let (t, e) = in_vehicle(Degrees(centre), Degrees(here), change, &ground);
                assert!((t.0 - turn).abs() < 1e-9, "{t:?}");
                assert!((e.0 - rake).abs() < 1e-9, "{e:?}");
                let alone = rake_on_ground(Degrees(here), Degrees(turn), ground.up());
                assert!((alone.0 - rake).abs() < 1e-9);
            }
        }
    }

    #[test]
    fn azimuth_against_gravity_differs_by_up_to_five_degrees_on_a_slope() {
        // Ground 6 degrees both ways, turn 60, face angles -20 to +10 at the
        // centre and at the spot: up to 4.6 in turn, worth 0.68 in rake.
        let (mut worst_turn, mut worst_rake) = (0.0f64, 0.0f64);
        let rakes = || (0..=6).map(|step| -20.0 + 5.0 * f64::from(step));
        for (nose, right) in [(6.0, 6.0), (6.0, -6.0), (-6.0, 6.0), (-6.0, -6.0)] {
            let ground = slope(nose, right);
            for (centre, rake) in rakes().flat_map(|c| rakes().map(move |r| (c, r))) {
                for turn in [-60.0, 60.0] {
                    let (_, from) = seen(centre, 0.0, &ground);
                    let (here, to) = seen(rake, turn, &ground);
                    let change = azimuth_change(Degrees(from), Degrees(to));
                    worst_turn = worst_turn.max((change.0 - turn).abs());
                    let up = up_of(Degrees(nose), Degrees(right));
                    let alone = rake_on_ground(Degrees(here), change, up);
                    worst_rake = worst_rake.max((alone.0 - rake).abs());
                }
            }
        }
        assert!((worst_turn - 4.6).abs() < 0.05, "{worst_turn}");
        assert!((worst_rake - 0.68).abs() < 0.01, "{worst_rake}");
    }

    #[test]
    fn turning_the_whole_world_changes_nothing() {
        let ground = slope(3.0, -2.0);
        let plan = [
            (0.0, 0.0, -3.0, 0.0),
            (-600.0, 1e4, -5.0, -20.0),
            (600.0, 2e4, -5.0, 22.0),
            (0.0, 3e4, -3.0, 0.0),
        ];
        let build = |world: f64| {
            let stations: Vec<_> = plan
                .iter()
                .map(|&(along, at, rake, turn)| {
                    let mut s = station(along, at, rake, turn, &ground);
                    s.azimuth = s.azimuth + Degrees(world);
                    s
                })
                .collect();
            close_sweep(&stations, &ground).unwrap()
        };
        let (a, b) = (build(0.0), build(217.0));
        for (p, q) in a.spots.iter().zip(&b.spots) {
            assert!((p.turn.value.0 - q.turn.value.0).abs() < 1e-9);
            assert!((p.rake.0 - q.rake.0).abs() < 1e-9);
        }
        assert!((a.spots[0].turn.value.0 + 20.0).abs() < 1e-9);
        assert!((a.spots[2].turn.value.0 - 22.0).abs() < 1e-9);
    }

    #[test]
    fn the_closing_error_is_spread_over_time() {
        let ground = slope(0.0, 0.0);
        let drift = 2.0 / 40_000.0;
        let stations: Vec<_> = [
            (0.0, 0.0, 0.0),
            (-600.0, 1e4, -20.0),
            (600.0, 3e4, 20.0),
            (0.0, 4e4, 0.0),
        ]
        .iter()
        .map(|&(along, at, turn)| {
            let mut s = station(along, at, -3.0, turn, &ground);
            s.azimuth = s.azimuth + Degrees(drift * at);
            s
        })
        .collect();
        let closed = close_sweep(&stations, &ground).unwrap();
        assert!((closed.closing.0 - 2.0).abs() < 1e-9);
        assert!((closed.spots[0].turn.value.0 + 20.0).abs() < 1e-9);
        assert!((closed.spots[2].turn.value.0 - 20.0).abs() < 1e-9);
        assert!(closed.spots[0].turn.u.0 > 1.0);
    }

    #[test]
    fn a_sweep_that_is_no_sweep_is_named() {
        let ground = slope(0.0, 0.0);
        let at = |along: f64, time: f64, turn: f64| station(along, time, -3.0, turn, &ground);
        let key = |stations: &[Station]| close_sweep(stations, &ground).unwrap_err().key;
        assert_eq!(
            key(&[at(0.0, 0.0, 0.0), at(0.0, 1.0, 0.0)]),
            "sweep-too-short"
        );
        let open = [
            at(0.0, 0.0, 0.0),
            at(-600.0, 1.0, -20.0),
            at(600.0, 2.0, 20.0),
        ];
        assert_eq!(key(&open), "sweep-not-closed");
        let magnet = [at(0.0, 0.0, 0.0), at(600.0, 1.0, 20.0), at(0.0, 2.0, 14.0)];
        assert_eq!(key(&magnet), "sweep-closing-too-far");
        let twice = [
            at(0.0, 0.0, 0.0),
            at(600.0, 1.0, 20.0),
            at(600.0, 2.0, 21.0),
            at(0.0, 3.0, 0.0),
        ];
        assert_eq!(key(&twice), "sweep-same-place");
        assert_eq!(
            close_sweep(&twice, &ground).unwrap_err(),
            same_place(Millimetres(600.0), Millimetres(600.0))
        );
        let corner = [at(0.0, 0.0, 0.0), at(840.0, 1.0, 97.0), at(0.0, 2.0, 0.0)];
        let said = close_sweep(&corner, &ground).unwrap_err();
        assert_eq!(said.key, "sweep-turned-too-far");
        let figure = |name: &str| {
            let arg = said.args.iter().find(|(key, _)| key == name);
            match arg.map(|(_, arg)| arg) {
                Some(Arg::Number { value, .. }) => *value,
                other => panic!("{name}: {other:?}"),
            }
        };
        assert_eq!(figure("along"), 840.0);
        assert!((figure("turn") - figure("by") - MOST_TURN.0).abs() < 1e-9);
    }

    #[test]
    fn a_source_without_azimuth_cannot_sweep() {
        let mut still = StillReading {
            up: UpVector([0.0, 1.0, 0.0]),
            u_noise: Degrees(0.05),
            u_rounding: Degrees(0.0),
            samples: 50,
            effective: 50.0,
            source: Source::Acceleration { step: 0.0 },
            raw_mean: None,
            azimuth: None,
            at: Millis(0.0),
        };
        let take = |still: &StillReading| {
            Station::from_still(Millimetres(0.0), still, Side::Back, &Phone::Unzeroed)
        };
        assert_eq!(take(&still), Err(msg("sweep-no-azimuth")));
        still.azimuth = Some(Degrees(12.0));
        assert_eq!(take(&still).unwrap().azimuth, Degrees(12.0));
    }
}
