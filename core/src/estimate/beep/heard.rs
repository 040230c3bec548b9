//! What listening gives: beeps with their times, and how well it hears.
//!
//! Nothing here holds sound. Times are on the caller's monotonic clock, in
//! milliseconds.

use crate::text::{Message, msg};

/// Least E/N0 at which beeps are counted, decibels.
pub const LEAST_MARGIN_DB: f64 = 20.0;

/// A steady tone with a beginning and an end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beep {
    /// When it began, monotonic milliseconds.
    pub start_ms: f64,
    /// When it ended, monotonic milliseconds.
    pub end_ms: f64,
    /// Its frequency, hertz.
    pub tone_hz: f64,
    /// Its energy over the one-sided noise density beside it, E/N0 in
    /// decibels.
    pub snr_db: f64,
    /// Whether its beginning was heard.
    pub onset: Onset,
}

/// Whether the beginning of a beep was heard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Onset {
    /// It was.
    Heard,
    /// The tone was there when listening began (or began again after a
    /// gap): how long it had sounded is not known.
    CutByStart,
}

impl Beep {
    /// How long it sounded, milliseconds.
    #[must_use]
    pub fn length_ms(&self) -> f64 {
        self.end_ms - self.start_ms
    }
}

/// A tone that sounds now.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sounding {
    /// When it was noticed first, monotonic milliseconds; its beginning lies
    /// up to a second before. When it began, where it goes on.
    pub since_ms: f64,
    /// Up to when it was heard, monotonic milliseconds.
    pub until_ms: f64,
    /// Its frequency, hertz.
    pub tone_hz: f64,
    /// Whether it is sure to be a tone.
    pub lasts: Lasts,
}

/// How sure it is that something that sounds is a tone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lasts {
    /// Not yet: it may turn out to be a voice or a click.
    NotSure,
    /// It has gone on for a second and a half, steadily: followed to its end.
    GoesOn,
    /// So has this, and it was there when listening began.
    GoesOnFromBefore,
}

/// What is wrong with the sound.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trouble {
    /// Nothing but zeros for a second: a muted microphone, or one that
    /// another app holds.
    Silent,
    /// Many samples at full scale within the last second.
    Clipping,
    /// A beep as loud as the kit's would drown in the noise at its tone.
    TooNoisy,
}

/// How listening stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EarState {
    /// Loudness of the last tenth of a second, decibels against a sine at
    /// full scale; for the meter.
    pub level_db: f64,
    /// E/N0 that a beep like the kit's would have now, decibels; before one
    /// was heard, like the one assumed.
    pub margin_db: f64,
    /// What is wrong, the gravest first.
    pub trouble: Option<Trouble>,
    /// The tone that sounds now.
    pub sounding: Option<Sounding>,
    /// Every beep that ended before this time has been given.
    pub settled_ms: f64,
    /// Sound came without a gap since this time; a silence before it is not
    /// proved.
    pub unbroken_since_ms: f64,
}

/// What came of some frames.
#[derive(Clone, Debug, PartialEq)]
pub struct Hearing {
    /// Beeps that ended, in order of their end.
    pub beeps: Vec<Beep>,
    /// How listening stands.
    pub state: EarState,
}

/// Which tones count.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum ToneGate {
    /// Any.
    #[default]
    Any,
    /// Only beeps within [`GATE_HZ`] of this frequency.
    Near(f64),
}

/// Half width of the tone gate, hertz.
pub const GATE_HZ: f64 = 40.0;
/// Tones below are not looked for, hertz.
pub const LOWEST: f64 = 500.0;
/// Tones above are not looked for, hertz.
pub const HIGHEST: f64 = 5_000.0;

impl ToneGate {
    /// Whether a tone passes.
    #[must_use]
    pub fn passes(self, tone_hz: f64) -> bool {
        match self {
            Self::Any => true,
            Self::Near(kit) => (tone_hz - kit).abs() <= GATE_HZ,
        }
    }

    /// Which tones are listened for, hertz: the lowest and the highest.
    #[must_use]
    pub fn range(self) -> (f64, f64) {
        match self {
            Self::Any => (LOWEST, HIGHEST),
            Self::Near(kit) => (kit - GATE_HZ, kit + GATE_HZ),
        }
    }

    /// Which tones are listened for, in words.
    #[must_use]
    pub fn message(self) -> Message {
        let (lowest, highest) = self.range();
        let said = msg(match self {
            Self::Any => "learn-run-any-tone",
            Self::Near(_) => "learn-run-tone",
        });
        said.number("lowest", lowest, 0)
            .number("highest", highest, 0)
    }
}

/// A tone that the app itself sounds.
#[derive(Clone, Debug, PartialEq)]
pub struct OwnTone {
    /// When it begins, monotonic milliseconds.
    pub start_ms: f64,
    /// When it ends.
    pub end_ms: f64,
    /// Its frequencies, hertz; their overtones are ours too. None: all that
    /// begins meanwhile is ours.
    pub tones_hz: Vec<f64>,
}

/// Numbers that say how listening stands, before those of the beeps.
const STATE: usize = 9;
/// Numbers of a beep.
const BEEP: usize = 5;

impl Hearing {
    /// As plain numbers, for the way from the worker to the page.
    #[must_use]
    pub fn to_numbers(&self) -> Vec<f64> {
        let state = &self.state;
        let trouble = match state.trouble {
            None => 0.0,
            Some(Trouble::Silent) => 1.0,
            Some(Trouble::Clipping) => 2.0,
            Some(Trouble::TooNoisy) => 3.0,
        };
        let [since, until, tone, lasts] = state.sounding.map_or([f64::NAN; 4], |sounding| {
            let lasts = match sounding.lasts {
                Lasts::NotSure => 0.0,
                Lasts::GoesOn => 1.0,
                Lasts::GoesOnFromBefore => 2.0,
            };
            [
                sounding.since_ms,
                sounding.until_ms,
                sounding.tone_hz,
                lasts,
            ]
        });
        let mut numbers = vec![
            state.level_db,
            state.margin_db,
            trouble,
            since,
            until,
            tone,
            lasts,
            state.settled_ms,
            state.unbroken_since_ms,
        ];
        for beep in &self.beeps {
            let onset = f64::from(u8::from(beep.onset == Onset::CutByStart));
            numbers.extend([beep.start_ms, beep.end_ms, beep.tone_hz, beep.snr_db, onset]);
        }
        numbers
    }

    /// Reads them back; `None` when they are none of these.
    #[must_use]
    pub fn from_numbers(numbers: &[f64]) -> Option<Self> {
        let (state, beeps) = numbers.split_at_checked(STATE)?;
        if !beeps.len().is_multiple_of(BEEP) {
            return None;
        }
        let sounding = state[3].is_finite().then_some(Sounding {
            since_ms: state[3],
            until_ms: state[4],
            tone_hz: state[5],
            lasts: match state[6] as i32 {
                1 => Lasts::GoesOn,
                2 => Lasts::GoesOnFromBefore,
                _ => Lasts::NotSure,
            },
        });
        let beep = |n: &[f64]| Beep {
            start_ms: n[0],
            end_ms: n[1],
            tone_hz: n[2],
            snr_db: n[3],
            onset: if n[4] > 0.5 {
                Onset::CutByStart
            } else {
                Onset::Heard
            },
        };
        Some(Self {
            beeps: beeps.chunks_exact(BEEP).map(beep).collect(),
            state: EarState {
                level_db: state[0],
                margin_db: state[1],
                trouble: match state[2] as i32 {
                    1 => Some(Trouble::Silent),
                    2 => Some(Trouble::Clipping),
                    3 => Some(Trouble::TooNoisy),
                    _ => None,
                },
                sounding,
                settled_ms: state[7],
                unbroken_since_ms: state[8],
            },
        })
    }
}

impl Trouble {
    /// What the fitter is told, with what to do; `margin_db` as the state
    /// has it.
    #[must_use]
    pub fn message(self, margin_db: f64) -> Message {
        match self {
            Self::Silent => msg("hearing-silent"),
            Self::Clipping => msg("hearing-clipping"),
            Self::TooNoisy => {
                msg("hearing-too-noisy").number("short", (LEAST_MARGIN_DB - margin_db).max(1.0), 0)
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_heard_travels_as_numbers_and_comes_back_the_same() {
        let mut hearing = Hearing {
            beeps: vec![
                Beep {
                    start_ms: 10.0,
                    end_ms: 110.5,
                    tone_hz: 2700.25,
                    snr_db: 31.0,
                    onset: Onset::CutByStart,
                },
                Beep {
                    start_ms: 900.0,
                    end_ms: 960.0,
                    tone_hz: 2701.0,
                    snr_db: 22.0,
                    onset: Onset::Heard,
                },
            ],
            state: EarState {
                level_db: -40.0,
                margin_db: 18.0,
                trouble: Some(Trouble::TooNoisy),
                sounding: Some(Sounding {
                    since_ms: 1000.0,
                    until_ms: 3400.0,
                    tone_hz: 2699.0,
                    lasts: Lasts::GoesOnFromBefore,
                }),
                settled_ms: 950.0,
                unbroken_since_ms: 0.0,
            },
        };
        assert_eq!(
            Hearing::from_numbers(&hearing.to_numbers()),
            Some(hearing.clone())
        );
        for lasts in [Lasts::NotSure, Lasts::GoesOn] {
            let sounding = hearing.state.sounding.map(|was| Sounding { lasts, ..was });
            hearing.state.sounding = sounding;
            assert_eq!(
                Hearing::from_numbers(&hearing.to_numbers()),
                Some(hearing.clone())
            );
        }
        for trouble in [None, Some(Trouble::Silent), Some(Trouble::Clipping)] {
            hearing.state.trouble = trouble;
            hearing.state.sounding = None;
            assert_eq!(
                Hearing::from_numbers(&hearing.to_numbers()),
                Some(hearing.clone())
            );
        }
        assert_eq!(Hearing::from_numbers(&[0.0; STATE - 1]), None);
        assert_eq!(Hearing::from_numbers(&[0.0; STATE + 2]), None);
    }

    #[test]
    fn which_tones_are_listened_for_is_told_and_is_what_passes() {
        for (gate, key, lowest, highest) in [
            (ToneGate::Any, "learn-run-any-tone", 500.0, 5_000.0),
            (ToneGate::Near(2_150.0), "learn-run-tone", 2_110.0, 2_190.0),
        ] {
            assert_eq!(gate.range(), (lowest, highest));
            assert!(gate.passes(lowest) && gate.passes(highest));
            let said = msg(key)
                .number("lowest", lowest, 0)
                .number("highest", highest, 0);
            assert_eq!(gate.message(), said);
        }
        assert!(!ToneGate::Near(2_150.0).passes(2_109.0));
    }
}
