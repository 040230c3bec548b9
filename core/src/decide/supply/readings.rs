//! Typed readings, judged with limits.

use serde::{Deserialize, Serialize};

use super::Volts;
use crate::text::{Message, msg};

/// The vehicle's supply.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum System {
    /// 12 volts.
    Twelve,
    /// 24 volts.
    TwentyFour,
}

/// Limits of the readings in one system, in volts (our own figures).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReadingLimits {
    /// Least with reverse on.
    pub on_least: Volts,
    /// Greatest with reverse on.
    pub on_greatest: Volts,
    /// Greatest with reverse off.
    pub off_greatest: Volts,
    /// Greatest from the earth point to the battery's minus.
    pub earth_greatest: Volts,
}

/// A reading above this is not read on a feed of any road vehicle's lamp
/// circuit (our own figure); it is refused.
pub const NEVER_ABOVE: Volts = Volts(60.0);
impl System {
    /// What it is called by.
    #[must_use]
    pub fn nominal(self) -> Volts {
        match self {
            Self::Twelve => Volts(12.0),
            Self::TwentyFour => Volts(24.0),
        }
    }

    /// What readings must keep to.
    #[must_use]
    pub fn limits(self) -> ReadingLimits {
        match self {
            Self::Twelve => ReadingLimits {
                on_least: Volts(10.8),
                on_greatest: Volts(15.6),
                off_greatest: Volts(0.4),
                earth_greatest: Volts(0.15),
            },
            Self::TwentyFour => ReadingLimits {
                on_least: Volts(21.6),
                on_greatest: Volts(31.0),
                off_greatest: Volts(0.8),
                earth_greatest: Volts(0.3),
            },
        }
    }
}

/// Which reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
pub enum Reading {
    /// At the take-off with reverse on.
    ReverseOn,
    /// At the take-off with reverse off.
    ReverseOff,
    /// From the earth point to the battery's minus, with the kit running.
    EarthDrop,
}

impl Reading {
    /// Its name.
    #[must_use]
    pub fn name(self) -> Message {
        msg(match self {
            Self::ReverseOn => "supply-reading-on",
            Self::ReverseOff => "supply-reading-off",
            Self::EarthDrop => "supply-reading-earth",
        })
    }
}

/// What a reading comes to.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Judged {
    /// As it should be.
    Fine,
    /// Too low by that.
    TooLow {
        /// As typed.
        typed: Volts,
        /// The limit.
        limit: Volts,
    },
    /// Too high by that.
    TooHigh {
        /// As typed.
        typed: Volts,
        /// The limit.
        limit: Volts,
    },
    /// Below zero: the meter's leads are swapped.
    Swapped {
        /// As typed.
        typed: Volts,
    },
    /// Fits a 24 V vehicle, not one of 12 V.
    LooksLikeTwentyFour {
        /// As typed.
        typed: Volts,
    },
    /// Not a reading of this circuit: it counts for nothing.
    Refused {
        /// As typed.
        typed: Volts,
    },
}

/// Judges one typed reading.
#[must_use]
pub fn judge(system: System, reading: Reading, typed: Volts) -> Judged {
    let limits = system.limits();
    if !typed.0.is_finite() || typed.0.abs() > NEVER_ABOVE.0 {
        return Judged::Refused { typed };
    }
    if typed.0 < -limits.earth_greatest.0 {
        return Judged::Swapped { typed };
    }
    let too_high = |limit: Volts| Judged::TooHigh { typed, limit };
    match reading {
        Reading::ReverseOn if typed < limits.on_least => Judged::TooLow {
            typed,
            limit: limits.on_least,
        },
        Reading::ReverseOn if typed > limits.on_greatest => {
            let other = System::TwentyFour.limits();
            let fits_other = (other.on_least..=other.on_greatest).contains(&typed);
            if system == System::Twelve && fits_other {
                Judged::LooksLikeTwentyFour { typed }
            } else {
                too_high(limits.on_greatest)
            }
        }
        Reading::ReverseOff if typed > limits.off_greatest => too_high(limits.off_greatest),
        Reading::EarthDrop if typed > limits.earth_greatest => too_high(limits.earth_greatest),
        _ => Judged::Fine,
    }
}

impl Judged {
    /// What the fitter is told; `None` when it is fine.
    #[must_use]
    pub fn message(&self, reading: Reading) -> Option<Message> {
        let told = |key: &'static str, typed: &Volts| {
            msg(key)
                .message("reading", reading.name())
                .number("typed", typed.0, 2)
        };
        let limited = |key: &'static str, typed: &Volts, limit: &Volts| {
            told(key, typed)
                .number("limit", limit.0, 2)
                .number("by", (typed.0 - limit.0).abs(), 2)
        };
        match self {
            Self::Fine => None,
            Self::TooLow { typed, limit } => Some(limited("supply-too-low", typed, limit)),
            Self::TooHigh { typed, limit } => {
                let key = match reading {
                    Reading::ReverseOn => "supply-on-too-high",
                    Reading::ReverseOff => "supply-off-too-high",
                    Reading::EarthDrop => "supply-earth-too-high",
                };
                Some(limited(key, typed, limit))
            }
            Self::Swapped { typed } => Some(told("supply-swapped", typed)),
            Self::LooksLikeTwentyFour { typed } => {
                Some(told("supply-looks-like-twenty-four", typed))
            }
            Self::Refused { typed } => Some(told("supply-refused", typed)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn judged(system: System, reading: Reading, typed: f64) -> Judged {
        judge(system, reading, Volts(typed))
    }

    #[test]
    fn four_hundred_volts_are_refused_whatever_was_read() {
        for system in [System::Twelve, System::TwentyFour] {
            for reading in [Reading::ReverseOn, Reading::ReverseOff, Reading::EarthDrop] {
                for typed in [400.0, -400.0, f64::NAN, f64::INFINITY] {
                    let found = judged(system, reading, typed);
                    assert!(matches!(found, Judged::Refused { .. }), "{typed}");
                }
            }
        }
        let message = judged(System::Twelve, Reading::ReverseOn, 400.0).message(Reading::ReverseOn);
        let wanted = msg("supply-refused")
            .message("reading", msg("supply-reading-on"))
            .number("typed", 400.0, 2);
        assert_eq!(message, Some(wanted));
    }

    #[test]
    fn a_reading_is_judged_by_the_limits_of_its_system() {
        use Reading::{EarthDrop, ReverseOff, ReverseOn};
        let fine = [
            (System::Twelve, ReverseOn, 13.8),
            (System::Twelve, ReverseOff, 0.02),
            (System::Twelve, EarthDrop, 0.05),
            (System::TwentyFour, ReverseOn, 27.4),
            (System::TwentyFour, EarthDrop, 0.2),
        ];
        for (system, reading, typed) in fine {
            assert_eq!(judged(system, reading, typed), Judged::Fine, "{typed}");
        }
        let key = |system, reading, typed| {
            let message = judged(system, reading, typed).message(reading);
            message.map(|m| m.key.into_owned())
        };
        let wanted = [
            (System::Twelve, ReverseOn, 9.4, "supply-too-low"),
            (System::Twelve, ReverseOn, 17.0, "supply-on-too-high"),
            (
                System::Twelve,
                ReverseOn,
                27.4,
                "supply-looks-like-twenty-four",
            ),
            (System::TwentyFour, ReverseOn, 13.8, "supply-too-low"),
            (System::Twelve, ReverseOff, 12.6, "supply-off-too-high"),
            (System::Twelve, EarthDrop, 0.4, "supply-earth-too-high"),
            (System::Twelve, ReverseOn, -12.6, "supply-swapped"),
        ];
        for (system, reading, typed, wanted) in wanted {
            assert_eq!(key(system, reading, typed).as_deref(), Some(wanted));
        }
    }

    #[test]
    fn a_reading_out_of_limits_says_by_how_much() {
        let found = judged(System::Twelve, Reading::ReverseOn, 9.4);
        let wanted = msg("supply-too-low")
            .message("reading", msg("supply-reading-on"))
            .number("typed", 9.4, 2)
            .number("limit", 10.8, 2)
            .number("by", 10.8 - 9.4, 2);
        assert_eq!(found.message(Reading::ReverseOn), Some(wanted));
    }
}
