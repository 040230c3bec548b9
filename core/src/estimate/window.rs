//! The robust mean direction of a stream of samples, in constant memory.
//!
//! The first samples are kept (at most [`KEPT`]) and judged together by
//! median and median deviation; later ones only pass the gate so found and
//! go into sums. One sample costs the same however long the window is.

use crate::estimate::stats::{effective_count, few_factor, median};
use crate::sample::{TiltSample, UpVector, azimuth_change};
use crate::units::{Degrees, Millis};

/// Samples kept as they are, to judge the start of the window together.
pub const KEPT: usize = 128;
/// A sample farther out than so many standard deviations is an outlier: a
/// circular normal passes it with a chance of 4 in 100,000.
const GATE_SIGMAS: f64 = 4.5;
/// The gate is never narrower than so many degrees, nor than 1.5 steps.
const LEAST_GATE: f64 = 0.05;
/// Farther from the window's first sample than this is never part of it.
const FAR: f64 = 5.0;
/// Share of the newest sample in the short mean that finds slow drift.
const SHORT_SHARE: f64 = 0.1;
/// The short mean must leave the long one by at least so many degrees.
const LEAST_DRIFT: f64 = 0.25;
/// Standard deviation in degrees above which the phone counts as moving.
const MOST_SPREAD: f64 = 1.0;
const LAG: usize = 8;

/// What the newest sample says about the window.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Verdict {
    /// It belongs to the window, or is a single outlier.
    Steady,
    /// The phone moved: the window is void.
    Moved,
}

#[derive(Clone, Copy)]
struct Entry {
    d: [f64; 2],
    raw: Option<[f64; 3]>,
    azimuth: Option<f64>,
}

#[derive(Clone, Copy, Default)]
struct Sums {
    n: usize,
    d: [f64; 2],
    dd: [f64; 2],
    near: f64,
    far: f64,
    last: [[f64; 2]; LAG],
    raw: [f64; 3],
    raw_n: usize,
    azimuth: f64,
    azimuth_n: usize,
}

impl Sums {
    fn add(&mut self, entry: &Entry, centre: [f64; 2]) {
        let e = [entry.d[0] - centre[0], entry.d[1] - centre[1]];
        let slot = self.n % LAG;
        if self.n > 0 {
            let before = self.last[(self.n - 1) % LAG];
            self.near += e[0] * before[0] + e[1] * before[1];
        }
        if self.n >= LAG {
            let before = self.last[slot];
            self.far += e[0] * before[0] + e[1] * before[1];
        }
        self.last[slot] = e;
        for ((d, dd), e) in self.d.iter_mut().zip(&mut self.dd).zip(e) {
            *d += e;
            *dd += e * e;
        }
        self.n += 1;
        if let Some(raw) = entry.raw {
            for (sum, c) in self.raw.iter_mut().zip(raw) {
                *sum += c;
            }
            self.raw_n += 1;
        }
        if let Some(azimuth) = entry.azimuth {
            self.azimuth += azimuth;
            self.azimuth_n += 1;
        }
    }

    fn mean(&self) -> [f64; 2] {
        let n = self.n.max(1) as f64;
        self.d.map(|s| s / n)
    }

    fn variance(&self) -> [f64; 2] {
        let n = self.n as f64;
        if self.n < 2 {
            return [0.0; 2];
        }
        let mean = self.mean();
        [0, 1].map(|i| ((self.dd[i] - n * mean[i] * mean[i]) / (n - 1.0)).max(0.0))
    }

    /// Correlation of neighbours, as a first-order process that also
    /// explains the correlation eight samples apart.
    fn rho(&self) -> f64 {
        let n = self.n as f64;
        let [p, q] = self.mean();
        let square = p * p + q * q;
        let total = self.dd[0] + self.dd[1] - n * square;
        if self.n < 4 || total <= 1e-18 {
            return 0.0;
        }
        let near = (self.near - (n - 1.0) * square) / total;
        let far = (self.far - (n - LAG as f64) * square) / total;
        let far = if self.n > 4 * LAG && far > 2.0 / n.sqrt() {
            far.min(1.0).powf(1.0 / LAG as f64)
        } else {
            0.0
        };
        near.max(far).clamp(0.0, 0.999)
    }
}

/// A running window; see the module.
#[derive(Clone)]
pub(crate) struct Window {
    pub(crate) start: Millis,
    first: TiltSample,
    axes: [[f64; 3]; 2],
    kept: Vec<Entry>,
    centre: [f64; 2],
    sigma: Option<f64>,
    sums: Sums,
    short: [f64; 2],
    strays: usize,
    stray_since: Millis,
    step: f64,
}

impl Window {
    pub(crate) fn new(first: &TiltSample) -> Self {
        let mut window = Self {
            start: first.at,
            first: *first,
            axes: tangents(first.up),
            kept: Vec::with_capacity(KEPT),
            centre: [0.0; 2],
            sigma: None,
            sums: Sums::default(),
            short: [0.0; 2],
            strays: 0,
            stray_since: first.at,
            step: first.source.step_angle().0,
        };
        window.push(first);
        window
    }

    pub(crate) fn count(&self) -> usize {
        self.sums.n
    }

    pub(crate) fn push(&mut self, sample: &TiltSample) -> Verdict {
        let entry = Entry {
            d: self.axes.map(|t| sample.up.dot(t).to_degrees()),
            raw: sample.raw,
            azimuth: sample
                .azimuth
                .zip(self.first.azimuth)
                .map(|(now, first)| azimuth_change(first, now).0),
        };
        let behind = sample.up.dot(self.first.up.0) < 0.0;
        let far = behind || entry.d[0].hypot(entry.d[1]) > FAR;
        let keeps = self.kept.len() < KEPT && !far;
        if keeps {
            self.kept.push(entry);
        }
        let judges = keeps && self.kept.len() >= 8 && self.kept.len().is_power_of_two();
        if judges {
            self.judge_kept();
        }
        if far || !self.inside(&entry) {
            return self.stray(sample.at);
        }
        self.strays = 0;
        if !judges {
            self.sums.add(&entry, self.centre);
        }
        self.drift(&entry)
    }

    /// Median, median deviation, then twice the mean of what is inside.
    fn judge_kept(&mut self) {
        let mut work = [0.0; 2 * KEPT];
        let n = self.kept.len();
        for i in 0..2 {
            for (w, k) in work.iter_mut().zip(&self.kept) {
                *w = k.d[i];
            }
            self.centre[i] = median(&mut work[..n]);
        }
        for (pair, k) in work.chunks_exact_mut(2).zip(&self.kept) {
            pair[0] = (k.d[0] - self.centre[0]).abs();
            pair[1] = (k.d[1] - self.centre[1]).abs();
        }
        self.sigma = Some(1.4826 * median(&mut work[..2 * n]));
        for _ in 0..2 {
            let mut sums = Sums::default();
            for entry in &self.kept {
                if self.inside(entry) {
                    sums.add(entry, self.centre);
                }
            }
            let [p, q] = sums.variance();
            if sums.n >= n / 2 {
                self.sigma = Some(((p + q) / 2.0).sqrt());
            }
            self.sums = sums;
        }
    }

    fn inside(&self, entry: &Entry) -> bool {
        let Some(kept_sigma) = self.sigma else {
            return true;
        };
        // Once the sums hold more than the kept samples, they know better.
        let (sigma, shift) = if self.sums.n > KEPT {
            let [p, q] = self.sums.variance();
            (((p + q) / 2.0).sqrt(), self.sums.mean())
        } else {
            (kept_sigma, [0.0; 2])
        };
        let gate = (GATE_SIGMAS * sigma).max(LEAST_GATE).max(1.5 * self.step);
        let e = [0, 1].map(|i| entry.d[i] - self.centre[i] - shift[i]);
        e[0].hypot(e[1]) <= gate
    }

    /// Single strays are knocks; a run of them means that the phone moved.
    fn stray(&mut self, at: Millis) -> Verdict {
        if self.strays == 0 {
            self.stray_since = at;
        }
        self.strays += 1;
        let span = (at - self.stray_since).0;
        let run = [(6, 60.0), (3, 300.0), (2, 900.0)];
        if run.iter().any(|&(n, ms)| self.strays >= n && span >= ms) {
            Verdict::Moved
        } else {
            Verdict::Steady
        }
    }

    fn drift(&mut self, entry: &Entry) -> Verdict {
        let mean = self.sums.mean();
        let mut off = [0.0; 2];
        for i in 0..2 {
            if self.sums.n <= 1 {
                self.short[i] = entry.d[i];
            }
            self.short[i] += SHORT_SHARE * (entry.d[i] - self.short[i]);
            off[i] = self.short[i] - self.centre[i] - mean[i];
        }
        if self.sums.n < 8 {
            return Verdict::Steady;
        }
        let [p, q] = self.sums.variance();
        let sigma = ((p + q) / 2.0).sqrt();
        let short_sigma = sigma * (SHORT_SHARE / (2.0 - SHORT_SHARE)).sqrt();
        let limit = (6.0 * short_sigma).max(LEAST_DRIFT).max(self.step);
        if off[0].hypot(off[1]) > limit || sigma > MOST_SPREAD.max(self.step) {
            Verdict::Moved
        } else {
            Verdict::Steady
        }
    }

    /// Robust mean direction.
    pub(crate) fn up(&self) -> UpVector {
        let mean = self.sums.mean();
        let m = [0, 1].map(|i| (mean[i] + self.centre[i]).to_radians());
        let rest = (1.0 - m[0] * m[0] - m[1] * m[1]).max(0.0).sqrt();
        let [t, s] = self.axes;
        let first = self.first.up.0;
        let up = [0, 1, 2].map(|i| first[i] * rest + t[i] * m[0] + s[i] * m[1]);
        UpVector::of(up).unwrap_or(self.first.up)
    }

    /// Larger of the two standard deviations across up, in degrees.
    pub(crate) fn spread(&self) -> Degrees {
        let [p, q] = self.sums.variance();
        Degrees(p.max(q).sqrt())
    }

    /// Independent samples that tell as much as those taken.
    pub(crate) fn effective(&self) -> f64 {
        effective_count(self.sums.n, self.sums.rho())
    }

    /// Standard uncertainty of the mean from noise, few samples counted in.
    pub(crate) fn u_noise(&self) -> Degrees {
        let effective = self.effective();
        self.spread() * (few_factor(effective) / effective.max(1.0).sqrt())
    }

    pub(crate) fn raw_mean(&self) -> Option<[f64; 3]> {
        let n = self.sums.raw_n;
        (n > 0 && n == self.sums.n).then(|| self.sums.raw.map(|s| s / n as f64))
    }

    pub(crate) fn azimuth(&self) -> Option<Degrees> {
        let first = self.first.azimuth?;
        let n = self.sums.azimuth_n;
        (n > 0).then(|| {
            azimuth_change(
                Degrees(0.0),
                Degrees(first.0 + self.sums.azimuth / n as f64),
            )
        })
    }
}

/// Two unit vectors across `up`: the first as near to the device's z axis
/// as it gets (the direction in which a face angle moves), else to its y.
pub(crate) fn tangents(up: UpVector) -> [[f64; 3]; 2] {
    let [x, y, z] = up.0;
    let toward = if z.abs() < 0.9 {
        [0.0, 0.0, 1.0]
    } else {
        [0.0, 1.0, 0.0]
    };
    let along = up.dot(toward);
    let first = UpVector::of([0, 1, 2].map(|i| toward[i] - along * up.0[i]))
        .map_or([1.0, 0.0, 0.0], |v| v.0);
    let [a, b, c] = first;
    [first, [y * c - z * b, z * a - x * c, x * b - y * a]]
}
