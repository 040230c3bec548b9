//! A simulated phone, its zeroing, and a vehicle on its ground.
//!
//! # Noise model, priors, definitions
//! A chip reads a = S u + b in g. Offsets are uniform to `offset` on each
//! axis, both seats uniform to `seat` in x and y, scale errors normal. Each
//! time the phone is put on (a zeroing pose, the board, the face) its seat
//! is off by a normal angle, sd `repeat`, about both axes across its
//! normal. Wall lean and table slopes are normal, sd 1 degree; a wall pose
//! turns in its plane by sd 2 degrees; the half turn on the table misses by
//! sd 2.5 degrees. Each figure of a zeroing pose is off by a normal 0.5 mg
//! (bends of the chip; without it a raw source would give lengths that are
//! exact, which no chip does). A normalised source hands over a/|a|. A source that
//! rounds (`step`) also reports only on change: one rounded sample, then
//! silence, through the still window itself. Errors are those
//! of the face angle at an upright phone; p95 is the 95th percentile of
//! their size.

pub mod chain;
pub mod peer;
pub mod rng;

use rakeline_core::estimate::contact::Feet;
use rakeline_core::estimate::rake::{Seat, Side};
use rakeline_core::estimate::seating::Seating;
use rakeline_core::estimate::still::{StillReading, StillSettings, StillState, StillWindow};
use rakeline_core::estimate::zero::poses::{Pose, PoseReading};
use rakeline_core::estimate::zero::solve::{U_LENGTH, zero_phone};
use rakeline_core::estimate::zero::{PhoneProfile, SourceKind, Zeroing};
use rakeline_core::sample::{RawSample, STANDARD_GRAVITY, SampleGate, Source, UpVector};
use rakeline_core::units::{Degrees, Millis};

use rng::Rng;

/// A vector in the device frame.
pub type V = [f64; 3];

/// The product of two vectors.
#[must_use]
pub fn dot(a: V, b: V) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

fn sum(parts: &[(f64, V)]) -> V {
    [0, 1, 2].map(|i| parts.iter().map(|(k, v)| k * v[i]).sum())
}

fn unit(v: V) -> V {
    let size = dot(v, v).sqrt();
    v.map(|c| c / size)
}

fn cross(a: V, b: V) -> V {
    [
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    ]
}

/// Across a normal: toward the device's x, toward its y.
#[must_use]
pub fn across(normal: V) -> [V; 2] {
    let y = [0.0, 1.0, 0.0];
    let top = unit(sum(&[(1.0, y), (-dot(y, normal), normal)]));
    [cross(top, normal), top]
}

/// What a simulated phone and fitter are like.
#[derive(Clone, Copy, Debug)]
pub struct Setup {
    /// Greatest offset in g.
    pub offset: f64,
    /// Greatest seat in degrees.
    pub seat: f64,
    /// Scale errors, sd as a share.
    pub scale: f64,
    /// Seating, sd in degrees on each axis.
    pub repeat: f64,
    /// Raw or normalised.
    pub kind: SourceKind,
    /// Poses of zeroing.
    pub poses: &'static [Pose],
    /// Rounding step in m/s² (raw) or degrees (normalised); 0 for none.
    pub step: f64,
}

impl Setup {
    /// Offsets to 40 mg, seats to 2 degrees, scale sd 0.5 %, repeatability
    /// 0.2 degree, all six poses.
    #[must_use]
    pub fn usual(kind: SourceKind) -> Self {
        Self {
            offset: 0.040,
            seat: 2.0,
            scale: 0.005,
            repeat: 0.2,
            kind,
            poses: &Pose::ALL,
            step: 0.0,
        }
    }
}

/// The true phone.
#[derive(Clone, Copy, Debug)]
pub struct SimPhone {
    /// Offset in g.
    pub offset: V,
    /// Scale of each axis.
    pub scale: V,
    /// Back seat.
    pub back: Seat,
    /// Screen seat.
    pub screen: Seat,
    /// Raw or normalised.
    pub kind: SourceKind,
    /// Rounding step in m/s² (raw) or degrees (normalised); 0 for none.
    pub step: f64,
}

impl SimPhone {
    /// Draws one.
    pub fn draw(rng: &mut Rng, setup: &Setup) -> Self {
        let seat = |rng: &mut Rng| Seat {
            x: rng.uniform(-setup.seat, setup.seat).to_radians(),
            y: rng.uniform(-setup.seat, setup.seat).to_radians(),
        };
        Self {
            offset: [0, 1, 2].map(|_| rng.uniform(-setup.offset, setup.offset)),
            scale: [0, 1, 2].map(|_| 1.0 + rng.normal(setup.scale)),
            back: seat(rng),
            screen: seat(rng),
            kind: setup.kind,
            step: setup.step,
        }
    }

    /// The seat's normal as it lands this time.
    pub fn land(&self, rng: &mut Rng, side: Side, repeat: f64) -> V {
        let normal = match side {
            Side::Back => self.back.normal(),
            Side::Screen => self.screen.normal(),
        };
        let [right, top] = across(normal);
        let off = [(); 2].map(|()| rng.normal(repeat).to_radians());
        unit(sum(&[(1.0, normal), (off[0], right), (off[1], top)]))
    }

    /// The chip's figures in g for a true up-vector.
    #[must_use]
    pub fn reads(&self, up: V) -> V {
        [0, 1, 2].map(|i| self.scale[i] * up[i] + self.offset[i])
    }

    /// A finished still window for a true up-vector; `noise` in degrees is
    /// the standard uncertainty of its mean.
    #[must_use]
    pub fn still(&self, rng: &mut Rng, up: V, noise: f64) -> StillReading {
        let a = self.reads(up).map(|c| c + rng.normal(noise).to_radians());
        self.finished(a, noise)
    }

    /// A pose of zeroing for a true up-vector.
    #[must_use]
    pub fn pose(&self, rng: &mut Rng, up: V) -> StillReading {
        let a = self.reads(up).map(|c| c + rng.normal(U_LENGTH));
        self.finished(a, 0.0)
    }

    fn finished(&self, a: V, noise: f64) -> StillReading {
        let raw = a.map(|c| c * STANDARD_GRAVITY);
        if self.step > 0.0
            && let Some(still) = self.changed_once(raw)
        {
            return still;
        }
        let (source, raw_mean) = match self.kind {
            SourceKind::Raw => (Source::Acceleration { step: 0.0 }, Some(raw)),
            SourceKind::Normalised => (Source::Quaternion { step: Degrees(0.0) }, None),
        };
        StillReading {
            up: UpVector::of(a).unwrap_or(UpVector([0.0, 1.0, 0.0])),
            u_noise: Degrees(noise),
            u_rounding: Degrees(0.0),
            samples: 50,
            effective: 50.0,
            source,
            raw_mean,
            azimuth: None,
            at: Millis(0.0),
        }
    }
}

impl SimPhone {
    /// One rounded sample, then silence.
    fn changed_once(&self, raw: V) -> Option<StillReading> {
        let round = |v: f64| (v / self.step).round() * self.step;
        let at = Millis(0.0);
        let sample = match self.kind {
            SourceKind::Raw => RawSample::Acceleration {
                at,
                xyz: raw.map(round),
                step: self.step,
            },
            SourceKind::Normalised => {
                let (beta, gamma) = UpVector::of(raw)?.euler();
                RawSample::Euler {
                    at,
                    alpha: None,
                    beta: round(beta.0),
                    gamma: round(gamma.0),
                    step: Degrees(self.step),
                }
            }
        };
        let sample = SampleGate::default().accept(sample).ok()?;
        let mut window = StillWindow::new(StillSettings::default());
        window.push(&sample);
        match window.tick(Millis(1_000.0)) {
            StillState::Still(still) => Some(still),
            _ => None,
        }
    }
}

/// True up in the device frame with a side on a face whose outward normal
/// rises by `elevation` degrees, turned in its plane by `turned` degrees
/// (180: top edge down).
#[must_use]
pub fn on_face(normal: V, side: Side, elevation: f64, turned: f64) -> V {
    let sign = match side {
        Side::Back => 1.0,
        Side::Screen => -1.0,
    };
    let [right, top] = across(normal);
    let (s, c) = (sign * elevation).to_radians().sin_cos();
    let (p, q) = turned.to_radians().sin_cos();
    sum(&[(s, normal), (c * p, right), (c * q, top)])
}

/// True up in the device frame lying on its back on a surface that rises by
/// the sines `slope` toward its own right and forward, turned by `turned`
/// degrees from there.
#[must_use]
pub fn on_table(normal: V, slope: [f64; 2], turned: f64) -> V {
    let [right, top] = across(normal);
    let (s, c) = turned.to_radians().sin_cos();
    let [p, q] = slope;
    let flat = (1.0 - p * p - q * q).sqrt();
    sum(&[(flat, normal), (c * p - s * q, right), (s * p + c * q, top)])
}

/// One simulated zeroing.
#[derive(Clone, Debug)]
pub struct ZeroJob {
    /// The true phone.
    pub phone: SimPhone,
    /// Its poses.
    pub poses: Vec<PoseReading>,
}

impl ZeroJob {
    /// Draws a phone and lets it be zeroed, free of noise in the readings.
    pub fn draw(rng: &mut Rng, setup: &Setup) -> Self {
        let phone = SimPhone::draw(rng, setup);
        let lean = rng.normal(1.0);
        let slope = [(); 2].map(|()| rng.normal(1.0).to_radians());
        let poses = setup
            .poses
            .iter()
            .map(|&pose| {
                let normal = phone.land(rng, pose.side(), setup.repeat);
                let up = match pose {
                    Pose::BackUpright | Pose::ScreenIn => {
                        on_face(normal, pose.side(), lean, rng.normal(2.0))
                    }
                    Pose::BackUpsideDown | Pose::ScreenInUpsideDown => {
                        on_face(normal, pose.side(), lean, 180.0 + rng.normal(2.0))
                    }
                    Pose::Table => on_table(normal, slope, 0.0),
                    Pose::TableTurned => on_table(normal, slope, 180.0 + rng.normal(2.5)),
                };
                let still = phone.pose(rng, up);
                PoseReading { pose, still }
            })
            .collect();
        Self { phone, poses }
    }

    /// What the app makes of it.
    #[must_use]
    pub fn zeroing(&self, seating: Seating) -> Option<Zeroing> {
        zero_phone(&self.poses, profile(), seating, Millis(0.0)).ok()
    }

    /// Error of the face angle in degrees at a true `rake`, upright, the
    /// reading itself free of noise and seating.
    #[must_use]
    pub fn error(&self, zeroing: &Zeroing, rake: f64) -> Option<f64> {
        let up = on_face(self.phone.back.normal(), Side::Back, rake, 0.0);
        let still = self.phone.still(&mut Rng::new(0), up, 0.0);
        Some(zeroing.rake(&still, Side::Back)?.value.0 - rake)
    }

    /// The same error without zeroing.
    #[must_use]
    pub fn error_unzeroed(&self, rake: f64) -> f64 {
        let up = on_face(self.phone.back.normal(), Side::Back, rake, 0.0);
        let still = self.phone.still(&mut Rng::new(0), up, 0.0);
        Degrees::asin(still.up.0[2]).0 - rake
    }
}

/// The profile of every simulated phone.
#[must_use]
pub fn profile() -> PhoneProfile {
    PhoneProfile {
        name: "simulated".to_owned(),
        case: String::new(),
        feet: Feet::On,
    }
}

/// Root mean square.
#[must_use]
pub fn rms(values: &[f64]) -> f64 {
    (values.iter().map(|v| v * v).sum::<f64>() / values.len().max(1) as f64).sqrt()
}

/// The share's quantile of the sizes.
#[must_use]
pub fn quantile(values: &[f64], share: f64) -> f64 {
    let mut sizes: Vec<f64> = values.iter().map(|v| v.abs()).collect();
    sizes.sort_by(f64::total_cmp);
    let last = sizes.len().saturating_sub(1);
    let at = share * last as f64;
    let (low, part) = (at.floor() as usize, at.fract());
    let pick = |i: usize| sizes.get(i.min(last)).copied().unwrap_or(f64::NAN);
    pick(low) * (1.0 - part) + pick(low + 1) * part
}
