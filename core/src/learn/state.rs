//! A run of an obstacle learn as it stands.

use serde::{Deserialize, Serialize};

use super::cycle::{Cycle, Noted};
use super::event::Heard;
use super::procedure::Procedure;
use super::sound::Sound;
use crate::units::Millis;

/// A beep may begin so long before the tap that belongs to it: the hand is
/// on the selector first (our own figure).
pub const EARLY: Millis = Millis(1_500.0);
/// A beep may begin so long after the tap 'out' (our own figure).
pub const LATE: Millis = Millis(500.0);
/// Beeps so close together are one confirmation (our own figure).
pub const BURST: Millis = Millis(500.0);
/// By sound alone a pause of this length ends an engagement (our own figure).
pub const ALONE_PAUSE: Millis = Millis(1_000.0);
/// A beep is told at the latest so long after it began (our own figure).
pub const LAG: Millis = Millis(2_500.0);
/// In reverse for so long without a beep: the box did not count it (our own figure).
pub const NO_BEEP_AFTER: Millis = Millis(10_000.0);
/// The sign of the end comes within this time (our own figure).
pub const END_WAIT: Millis = Millis(10_000.0);
/// A tap can be taken back for so long.
pub const UNDO_WITHIN: Millis = Millis(2_000.0);
/// A tap sooner after the one before is the same tap (our own figure).
pub const BOUNCE: Millis = Millis(150.0);
/// Without any event for so long the phone slept (our own figure).
pub const STALL: Millis = Millis(5_000.0);
/// Tones closer than this are the same, hertz (our own figure).
pub const SAME_TONE: f64 = 40.0;
/// A sign of the end may come so long before the quiet time is over without
/// being a beep that breaks it (our own figure).
pub(super) const END_EARLY: Millis = Millis(1_000.0);
/// The microphone's clock may be so far ahead of the page's (our own figure).
pub(super) const SKEW: Millis = Millis(100.0);
/// How long the app's own tones can be heard, echo included (our own figure).
pub(super) const OWN_TONE: Millis = Millis(1_000.0);
/// The kit's beep is one tone up to this length; what sounds for longer in the
/// last cycle is no confirmation (our own figure).
pub const LONGEST_BEEP: Millis = Millis(3_000.0);
/// Without any sound from a microphone that should listen for so long, nobody
/// hears (our own figure).
pub const DEAF: Millis = Millis(500.0);

/// How cycles are counted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Ways {
    /// Taps or keys say in and out, the microphone hears the beeps.
    #[default]
    Both,
    /// Taps or keys alone.
    Hand,
    /// The microphone alone.
    Microphone,
}

/// What the microphone does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Listening {
    /// It is not used.
    Off,
    /// It listens; its sound was looked at up to this time.
    On(Option<Millis>),
    /// It stopped.
    Lost,
}

/// Why a run was not watched to its end.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Cause {
    /// The app went to the background: a call, another app, a locked phone.
    Hidden,
    /// The phone slept and told nothing meanwhile.
    Asleep,
    /// The app was ended.
    Killed,
    /// The microphone gave no sound for [`DEAF`], and said nothing of it.
    NoSound,
}

/// Why a run failed.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Why {
    /// The fitter gave up.
    Cancelled,
    /// Reverse was in for too short a time.
    TooFast {
        /// How long it was in.
        dwell: Millis,
    },
    /// The pause was too long.
    TooSlow,
    /// The kit did not confirm this cycle.
    NoBeep {
        /// Which, from 1.
        cycle: u32,
    },
    /// The kit beeped in the quiet time.
    BeepInQuiet {
        /// So long after the quiet time began.
        after: Millis,
    },
    /// Reverse was left before the end.
    LeftReverse,
    /// The sign of the end did not come.
    NoEnd,
    /// The microphone stopped, and nothing else counted.
    MicrophoneLost,
    /// It was too loud to hear, and nothing else counted.
    TooLoud,
    /// The kit sounded on without a pause.
    ToneOn {
        /// For so long.
        lasted: Millis,
    },
}

/// The quiet time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quiet {
    /// When it began.
    pub from: Millis,
    /// When it is reached.
    pub deadline: Millis,
}

/// Where a run stands; exactly one of these.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Phase {
    /// Nothing counted yet.
    Ready,
    /// In reverse; the cycle is the last one in [`Run::cycles`].
    Engaged,
    /// Out of reverse between two cycles.
    Released,
    /// In reverse the last time, waiting without a beep.
    Quiet(Quiet),
    /// Quiet time reached, waiting for the sign of the end.
    Closing {
        /// Until then.
        until: Millis,
    },
    /// Learned, and proved.
    Learned,
    /// All done as counted by hand or by sound alone; not confirmed.
    ByHand,
    /// Not learned, and why.
    Failed(Why),
    /// Nobody watched; not known what the box has.
    Interrupted(Cause),
}

impl Phase {
    /// Whether the run is over.
    #[must_use]
    pub fn ended(self) -> bool {
        matches!(
            self,
            Self::Learned | Self::ByHand | Self::Failed(_) | Self::Interrupted(_)
        )
    }
}

/// A way of counting contradicts another, or heard less than it should.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Doubt {
    /// The kit beeped and nobody tapped 'in reverse'.
    BeepNotTapped {
        /// Cycles tapped by then.
        tapped: u32,
    },
    /// The microphone stopped.
    MicrophoneLost,
    /// It was too loud to hear in the quiet time.
    TooLoud,
    /// Sound was missing in the quiet time.
    Gap,
    /// The sign of the end came before the quiet time was over.
    EndEarly {
        /// So much before.
        by: Millis,
    },
    /// Counted by sound alone: nobody saw reverse in and out.
    ReverseNotSeen,
}

/// A count that can still be taken back.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Before {
    /// Until then.
    pub(super) until: Millis,
    /// The run before it.
    pub(super) run: Run,
    /// Beeps noted when it was made; those after it are heard again.
    pub(super) beeps: usize,
}

/// A run of an obstacle learn. It changes only by [`super::step`].
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// What has to be done.
    pub procedure: Procedure,
    /// How cycles are counted.
    pub ways: Ways,
    /// Where it stands.
    pub phase: Phase,
    /// Engagements so far, oldest first; never more than the procedure's.
    pub cycles: Vec<Cycle>,
    /// Beeps so far, as many as are kept.
    pub beeps: Vec<Noted>,
    /// Beeps beyond those kept.
    pub beeps_more: u32,
    /// The kit's tone, once known.
    pub tone: Option<f64>,
    /// Where the ways contradict each other.
    pub doubts: Vec<Doubt>,
    /// What the microphone does.
    pub listening: Listening,
    /// Whether it is too loud to hear.
    pub loud: bool,
    /// When the first thing happened.
    pub started: Option<Millis>,
    /// When the last thing happened.
    pub ended: Option<Millis>,
    /// The quiet time, once it began.
    pub quiet: Option<Quiet>,
    /// Counts that were taken back.
    pub undone: u32,
    /// Events that were refused: equal times, times that go back, bounces.
    pub refused: u32,
    pub(super) test_tone: Option<f64>,
    pub(super) early: Vec<Heard>,
    /// As early, but while the app spoke: they confirm nothing.
    pub(super) early_own: Vec<Heard>,
    /// The kit's last sound.
    pub(super) sound: Option<Sound>,
    pub(super) own_until: Option<Millis>,
    /// From when to when the app speaks, its echo included.
    pub(super) speaks: Option<(Millis, Millis)>,
    /// For how long the microphone has given nothing.
    pub(super) deaf: Millis,
    pub(super) last_tick: Option<Millis>,
    /// Up to when sound was missing.
    pub(super) missing: Option<Millis>,
    pub(super) last: Option<Millis>,
    pub(super) last_tap: Option<Millis>,
    pub(super) before: Option<Box<Before>>,
}

impl Run {
    /// A run that has not begun. A tone heard beforehand (a test beep) goes
    /// before the sheet's.
    #[must_use]
    pub fn new(procedure: Procedure, ways: Ways, test_tone: Option<f64>) -> Self {
        let hears = ways != Ways::Hand && procedure.beeps();
        Self {
            tone: test_tone.or(procedure.tone),
            listening: if hears {
                Listening::On(None)
            } else {
                Listening::Off
            },
            procedure,
            ways,
            phase: Phase::Ready,
            cycles: Vec::new(),
            beeps: Vec::new(),
            beeps_more: 0,
            doubts: Vec::new(),
            loud: false,
            started: None,
            ended: None,
            quiet: None,
            undone: 0,
            refused: 0,
            test_tone,
            early: Vec::new(),
            early_own: Vec::new(),
            sound: None,
            own_until: None,
            speaks: None,
            deaf: Millis(0.0),
            last_tick: None,
            missing: None,
            last: None,
            last_tap: None,
            before: None,
        }
    }

    /// Whether beeps confirm its cycles: the microphone is used and works.
    #[must_use]
    pub fn hears(&self) -> bool {
        matches!(self.listening, Listening::On(_))
    }

    /// Number of the cycle that is on, or was last; 0 before the first.
    #[must_use]
    pub fn number(&self) -> u32 {
        u32::try_from(self.cycles.len()).unwrap_or(u32::MAX)
    }

    /// Cycles that are confirmed: by a beep where the microphone hears,
    /// else by hand. The last one is confirmed at the end only.
    #[must_use]
    pub fn confirmed(&self) -> u32 {
        let hears = self.hears();
        let reached = matches!(self.phase, Phase::Learned | Phase::ByHand);
        let all = self.cycles.iter().zip(1..);
        let so_far = all.filter(|(cycle, number)| {
            if *number == self.procedure.cycles {
                reached
            } else if hears {
                cycle.beeps > 0
            } else {
                cycle.beeps > 0 || cycle.released.is_some()
            }
        });
        u32::try_from(so_far.count()).unwrap_or(u32::MAX)
    }

    /// Whether the last count can be taken back at that time.
    #[must_use]
    pub fn can_undo(&self, at: Millis) -> bool {
        let before = self.before.as_ref();
        before.is_some_and(|before| at <= before.until)
    }

    /// Whether it is over and no slip can change that any more.
    #[must_use]
    pub fn settled(&self) -> bool {
        self.phase.ended() && self.before.is_none()
    }

    /// What is left of the quiet time.
    #[must_use]
    pub fn left(&self, at: Millis) -> Option<Millis> {
        let Phase::Quiet(quiet) = self.phase else {
            return None;
        };
        Some(Millis((quiet.deadline.0 - at.0).max(0.0)))
    }
}
