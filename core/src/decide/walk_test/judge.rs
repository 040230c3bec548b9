//! What a walk test comes to: the share seen, times against limits,
//! measured against predicted. Limits are parameters with their source.

use serde::{Deserialize, Serialize};

use super::Sounded;
use crate::text::{Message, msg};
use crate::units::Millis;

/// Least share of the points that is asked where none is typed (our own
/// figure: of nine points one may be missed). The ratio that ISO 17386
/// publishes is not known to us.
pub const OWN_SHARE_LEAST: f64 = 0.85;
/// Greatest time from switching on to the driver being told, provisional:
/// quoted from ISO 17386 in one secondary summary, not confirmed.
pub const START_UP_GREATEST: Millis = Millis(600.0);
/// Greatest time from the pole being there to the driver being told,
/// provisional: quoted from ISO 17386 in one secondary summary, not confirmed.
pub const LATENCY_GREATEST: Millis = Millis(350.0);

/// Where a limit comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LimitFrom {
    /// Our own figure.
    Own,
    /// Typed by the fitter.
    Typed,
    /// Our default, quoted second hand, not confirmed.
    SecondHand,
}

impl LimitFrom {
    /// Its words.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::Own => "walk-limit-own",
            Self::Typed => "walk-limit-typed",
            Self::SecondHand => "walk-limit-second-hand",
        })
    }
}

/// The least share with its source.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShareLimit {
    /// Least share, 0 to 1.
    pub least: f64,
    /// Where it comes from.
    pub from: LimitFrom,
}

/// The greatest time with its source.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TimeLimit {
    /// Greatest time.
    pub greatest: Millis,
    /// Where it comes from.
    pub from: LimitFrom,
}

impl Default for ShareLimit {
    fn default() -> Self {
        Self {
            least: OWN_SHARE_LEAST,
            from: LimitFrom::Own,
        }
    }
}

/// Points seen of points tapped.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Seen {
    /// Points at which something sounded.
    pub seen: u32,
    /// Points with a tap.
    pub of: u32,
}

impl Seen {
    /// Counts.
    #[must_use]
    pub fn count(taps: impl IntoIterator<Item = Sounded>) -> Self {
        taps.into_iter().fold(Self::default(), |so_far, tap| Self {
            seen: so_far.seen + u32::from(tap.is_seen()),
            of: so_far.of + 1,
        })
    }

    /// The share, 0 to 1; `None` before the first tap.
    #[must_use]
    pub fn share(&self) -> Option<f64> {
        (self.of > 0).then(|| f64::from(self.seen) / f64::from(self.of))
    }

    /// Whether the share reaches a limit; `None` before the first tap.
    #[must_use]
    pub fn reaches(&self, limit: &ShareLimit) -> Option<bool> {
        self.share().map(|share| share >= limit.least)
    }
}

/// A measured time against its limit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TimeVerdict {
    /// Within it.
    Within,
    /// Over it by so much.
    Over(Millis),
    /// No time.
    NoTime,
}

/// Judges a measured time.
#[must_use]
pub fn judge_time(measured: Millis, greatest: Millis) -> TimeVerdict {
    if !measured.0.is_finite() || measured.0 < 0.0 {
        TimeVerdict::NoTime
    } else if measured <= greatest {
        TimeVerdict::Within
    } else {
        TimeVerdict::Over(measured - greatest)
    }
}

/// A point's measured result against the predicted one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Compared {
    /// Both say the same.
    Agrees,
    /// Predicted as seen, and nothing sounded.
    Miss,
    /// Predicted as not seen, and something sounded.
    Surprise,
    /// There is no prediction here.
    NoPrediction,
}

/// Compares one point; `predicted` says whether the pole should be seen.
#[must_use]
pub fn compare(sounded: Sounded, predicted: Option<bool>) -> Compared {
    match (sounded.is_seen(), predicted) {
        (_, None) => Compared::NoPrediction,
        (false, Some(true)) => Compared::Miss,
        (true, Some(false)) => Compared::Surprise,
        _ => Compared::Agrees,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_share_is_seen_over_tapped_and_the_limit_a_parameter() {
        let seen = |seen, of| Seen { seen, of };
        assert!((seen(130, 144).share().unwrap() - 0.9028).abs() < 5e-5);
        assert!((seen(129, 144).share().unwrap() - 0.8958).abs() < 5e-5);
        let limit = ShareLimit {
            least: 0.9,
            from: LimitFrom::Typed,
        };
        assert_eq!(seen(130, 144).reaches(&limit), Some(true));
        assert_eq!(seen(129, 144).reaches(&limit), Some(false));
        assert_eq!(seen(0, 0).reaches(&limit), None);
        let own = ShareLimit::default();
        assert_eq!(seen(8, 9).reaches(&own), Some(true));
        assert_eq!(seen(7, 9).reaches(&own), Some(false));
    }

    #[test]
    fn times_are_held_against_provisional_limits() {
        let latency = |ms| judge_time(Millis(ms), LATENCY_GREATEST);
        assert_eq!(latency(340.0), TimeVerdict::Within);
        assert_eq!(latency(360.0), TimeVerdict::Over(Millis(10.0)));
        let start = |ms| judge_time(Millis(ms), START_UP_GREATEST);
        assert_eq!(start(590.0), TimeVerdict::Within);
        assert_eq!(start(610.0), TimeVerdict::Over(Millis(10.0)));
        for bad in [f64::NAN, -1.0, f64::INFINITY] {
            assert_eq!(latency(bad), TimeVerdict::NoTime);
        }
    }

    #[test]
    fn misses_and_surprises_are_told_apart() {
        assert_eq!(compare(Sounded::Nothing, Some(true)), Compared::Miss);
        assert_eq!(compare(Sounded::Far, Some(false)), Compared::Surprise);
        assert_eq!(compare(Sounded::Near, Some(true)), Compared::Agrees);
        assert_eq!(compare(Sounded::Nothing, Some(false)), Compared::Agrees);
        assert_eq!(compare(Sounded::Near, None), Compared::NoPrediction);
    }
}
