//! What the fitter is told about a run.

use super::event::Source;
use super::procedure::{NotGiven, Procedure};
use super::state::{Cause, Doubt, Phase, Ways, Why};
use crate::text::{Message, msg};

fn seconds(millis: f64) -> f64 {
    millis / 1000.0
}

impl Why {
    /// What went wrong, and by how much.
    #[must_use]
    pub fn message(self) -> Message {
        match self {
            Self::Cancelled => msg("learn-why-cancelled"),
            Self::TooFast { dwell } => {
                msg("learn-why-too-fast").number("dwell", seconds(dwell.0), 1)
            }
            Self::TooSlow => msg("learn-why-too-slow"),
            Self::NoBeep { cycle } => msg("learn-why-no-beep").count("cycle", i64::from(cycle)),
            Self::BeepInQuiet { after } => {
                msg("learn-why-beep-in-quiet").number("after", seconds(after.0), 1)
            }
            Self::LeftReverse => msg("learn-why-left-reverse"),
            Self::NoEnd => msg("learn-why-no-end"),
            Self::MicrophoneLost => msg("learn-why-microphone-lost"),
            Self::TooLoud => msg("learn-why-too-loud"),
            Self::ToneOn { lasted } => {
                msg("learn-why-tone-on").number("lasted", seconds(lasted.0), 1)
            }
        }
    }

    /// What to do about it.
    #[must_use]
    pub fn remedy(self, procedure: &Procedure) -> Message {
        match self {
            Self::Cancelled => msg("learn-do-cancelled"),
            Self::TooFast { .. } => {
                let least = seconds(procedure.shortest_dwell.0);
                msg("learn-do-too-fast").number("least", least, 1)
            }
            Self::TooSlow => {
                let longest = procedure.longest_gap.map_or(0.0, |gap| seconds(gap.0));
                msg("learn-do-too-slow").number("longest", longest, 1)
            }
            Self::NoBeep { .. } => msg("learn-do-no-beep"),
            Self::BeepInQuiet { .. } => msg("learn-do-beep-in-quiet"),
            Self::LeftReverse => msg("learn-do-left-reverse"),
            Self::NoEnd => msg("learn-do-no-end"),
            Self::MicrophoneLost => msg("learn-do-microphone-lost"),
            Self::TooLoud => msg("learn-do-too-loud"),
            Self::ToneOn { .. } => msg("learn-do-tone-on"),
        }
    }
}

impl Cause {
    /// What interrupted the run.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::Hidden => "learn-interrupted-hidden",
            Self::Asleep => "learn-interrupted-asleep",
            Self::Killed => "learn-interrupted-killed",
            Self::NoSound => "learn-interrupted-no-sound",
        })
    }
}

impl Doubt {
    /// What does not agree.
    #[must_use]
    pub fn message(self) -> Message {
        match self {
            Self::BeepNotTapped { tapped } => {
                msg("learn-doubt-not-tapped").count("tapped", i64::from(tapped))
            }
            Self::MicrophoneLost => msg("learn-doubt-microphone-lost"),
            Self::TooLoud => msg("learn-doubt-too-loud"),
            Self::Gap => msg("learn-doubt-gap"),
            Self::EndEarly { by } => msg("learn-doubt-end-early").number("by", seconds(by.0), 1),
            Self::ReverseNotSeen => msg("learn-doubt-reverse-not-seen"),
        }
    }
}

impl Source {
    /// Who said it.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::Tap => "learn-by-tap",
            Self::Key => "learn-by-key",
            Self::Heard => "learn-by-ear",
        })
    }
}

impl Ways {
    /// Its name.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::Both => "learn-ways-both",
            Self::Hand => "learn-ways-hand",
            Self::Microphone => "learn-ways-microphone",
        })
    }

    /// What proof it gives.
    #[must_use]
    pub fn proof(self) -> Message {
        msg(match self {
            Self::Both => "learn-ways-both-proof",
            Self::Hand => "learn-ways-hand-proof",
            Self::Microphone => "learn-ways-microphone-proof",
        })
    }
}

impl NotGiven {
    /// What is asked.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::CyclesAndQuiet => "learn-asks-cycles",
            Self::LastBeep => "learn-asks-last-beep",
        })
    }
}

impl Phase {
    /// What is said aloud when it is reached.
    pub(super) fn said(self) -> Message {
        msg(match self {
            Self::Learned => "learn-say-learned",
            Self::ByHand => "learn-say-by-hand",
            _ => "learn-say-failed",
        })
    }
}

impl Procedure {
    /// What has to be done, in one line.
    #[must_use]
    pub fn message(&self) -> Message {
        let key = match (self.beeps(), self.last_beeps) {
            (true, true) => "learn-procedure-all-beep",
            (true, false) => "learn-procedure-last-silent",
            (false, _) => "learn-procedure-no-beeps",
        };
        msg(key)
            .count("cycles", i64::from(self.cycles))
            .count("before", i64::from(self.cycles.saturating_sub(1)))
            .number("silent", seconds(self.silent.0), 1)
    }
}
