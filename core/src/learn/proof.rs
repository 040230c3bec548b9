//! What stays of a run: its proof, or what is known of a failure.

use serde::{Deserialize, Serialize};

use super::cycle::Kind;
use super::event::Source;
use super::state::{Cause, Doubt, Phase, Run, Ways, Why};
use crate::text::{Message, msg};
use crate::units::Millis;

/// So many beeps are kept of a run.
pub const BEEPS_KEPT: usize = 200;
/// What a time may have lost by its way through sums and text.
const ROUNDED: Millis = Millis(0.5);

/// How a run ended.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Outcome {
    /// Every cycle confirmed by ear of the phone, the quiet time heard through.
    Learned,
    /// All done as counted by hand or by sound alone, not confirmed.
    ByHand,
    /// Not learned.
    Failed(Why),
    /// Nobody watched to its end.
    Interrupted(Cause),
}

/// What stands of a run about the box.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// It ignores the object.
    Ignores,
    /// It may ignore the object; nobody heard it.
    NotConfirmed,
    /// Not known what it ignores.
    NotKnown,
    /// The run did not get as far as the box: nothing changed.
    Untouched,
}

/// One engagement, times from the start of the run.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ProvedCycle {
    /// In reverse.
    #[serde(rename = "in")]
    pub engaged: Millis,
    /// Out of reverse, where that was seen.
    #[serde(rename = "out", default, skip_serializing_if = "Option::is_none")]
    pub released: Option<Millis>,
    /// Who counted it.
    pub by: Source,
    /// Beeps in it.
    pub beeps: u32,
}

/// One beep, times from the start of the run.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ProvedBeep {
    /// Its first sound.
    pub start: Millis,
    /// Its last sound.
    pub end: Millis,
    /// Its tone in hertz.
    pub hertz: f64,
    /// What it was taken for.
    pub kind: Kind,
}

/// The proof of a run.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Proof {
    /// How it ended.
    pub outcome: Outcome,
    /// How it was counted.
    pub ways: Ways,
    /// Cycles that the sheet asks for.
    pub asked: u32,
    /// Cycles that were confirmed.
    pub confirmed: u32,
    /// Quiet time that the sheet asks for.
    pub silent: Millis,
    /// Quiet time reached.
    pub reached: Millis,
    /// When the quiet time began, where it did.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub quiet_from: Option<Millis>,
    /// How long the run was.
    pub length: Millis,
    /// Its engagements, oldest first.
    pub cycles: Vec<ProvedCycle>,
    /// Beeps heard, oldest first, at most [`BEEPS_KEPT`].
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub beeps: Vec<ProvedBeep>,
    /// The kit's tone, hertz.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tone: Option<f64>,
    /// Where the ways contradicted each other.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub doubts: Vec<Doubt>,
    /// Counts that were taken back.
    #[serde(default)]
    pub undone: u32,
}

impl Proof {
    /// The proof of a run as it stands. One that is not over was ended with
    /// the app.
    #[must_use]
    pub fn of(run: &Run) -> Self {
        let outcome = match run.phase {
            Phase::Learned => Outcome::Learned,
            Phase::ByHand => Outcome::ByHand,
            Phase::Failed(why) => Outcome::Failed(why),
            Phase::Interrupted(cause) => Outcome::Interrupted(cause),
            _ => Outcome::Interrupted(Cause::Killed),
        };
        let begin = run.started.unwrap_or(Millis(0.0));
        let from = |at: Millis| Millis((at.0 - begin.0).round().max(0.0));
        let end = run.ended.or(run.last).unwrap_or(begin);
        let reached = run.quiet.map_or(Millis(0.0), |quiet| {
            let until = match run.phase {
                Phase::Failed(Why::BeepInQuiet { after }) => quiet.from + after,
                _ => end,
            };
            Millis((until.0.min(quiet.deadline.0) - quiet.from.0).max(0.0))
        });
        Self {
            outcome,
            ways: run.ways,
            asked: run.procedure.cycles,
            confirmed: run.confirmed(),
            silent: run.procedure.silent,
            reached,
            quiet_from: run.quiet.map(|quiet| from(quiet.from)),
            length: from(end),
            cycles: run
                .cycles
                .iter()
                .map(|cycle| ProvedCycle {
                    engaged: from(cycle.engaged),
                    released: cycle.released.map(from),
                    by: cycle.by,
                    beeps: cycle.beeps,
                })
                .collect(),
            beeps: run
                .beeps
                .iter()
                .map(|noted| ProvedBeep {
                    start: from(noted.heard.start),
                    end: from(noted.heard.end),
                    hertz: noted.heard.hertz,
                    kind: noted.kind,
                })
                .collect(),
            tone: run.tone,
            doubts: run.doubts.clone(),
            undone: run.undone,
        }
    }

    /// Whether it proves 'learned': as many cycles as asked, each confirmed by
    /// a beep (the last may be silent), the whole quiet time, and no doubt.
    #[must_use]
    pub fn holds(&self) -> bool {
        let all = u32::try_from(self.cycles.len()).is_ok_and(|all| all == self.asked);
        let mut heard = self.cycles.iter().zip(1..);
        self.outcome == Outcome::Learned
            && all
            && self.confirmed == self.asked
            && heard.all(|(cycle, number)| cycle.beeps > 0 || number == self.asked)
            && self.reached.0 >= self.silent.0 - ROUNDED.0
            && self.doubts.is_empty()
    }

    /// What it says about the box.
    #[must_use]
    pub fn standing(&self) -> Standing {
        match self.outcome {
            Outcome::Learned if !self.holds() => Standing::NotKnown,
            // Kept from before reverse had to be seen.
            Outcome::Learned if self.ways == Ways::Microphone => Standing::NotConfirmed,
            Outcome::Learned => Standing::Ignores,
            Outcome::ByHand => Standing::NotConfirmed,
            _ if self.cycles.is_empty() && self.beeps.is_empty() => Standing::Untouched,
            _ => Standing::NotKnown,
        }
    }

    /// The outcome in words.
    #[must_use]
    pub fn message(&self) -> Message {
        match self.outcome {
            Outcome::Learned => msg("learn-learned"),
            Outcome::ByHand if self.ways == Ways::Microphone => msg("learn-by-sound"),
            Outcome::ByHand => msg("learn-by-hand"),
            Outcome::Failed(why) => why.message(),
            Outcome::Interrupted(cause) => cause.message(),
        }
    }

    /// How it was counted and what was heard, in one line.
    #[must_use]
    pub fn summary(&self) -> Message {
        // Where nothing was heard, nothing was confirmed.
        let key = match self.heard() {
            0 => "learn-proof-summary-counted",
            _ => "learn-proof-summary",
        };
        msg(key)
            .count("confirmed", i64::from(self.confirmed))
            .count("asked", i64::from(self.asked))
            .message("ways", self.ways.message())
            .count("beeps", i64::try_from(self.heard()).unwrap_or(i64::MAX))
            .number("reached", self.reached.0 / 1000.0, 1)
            .number("silent", self.silent.0 / 1000.0, 1)
    }

    /// At which tone the microphone listened; `None` where it was not used or
    /// no tone was known.
    #[must_use]
    pub fn listened_at(&self) -> Option<Message> {
        let tone = self.tone.filter(|_| self.ways != Ways::Hand)?;
        Some(msg("learn-listened-at").number("hertz", tone, 0))
    }

    /// Beeps at the kit's tone.
    #[must_use]
    pub fn heard(&self) -> usize {
        let kit = |beep: &&ProvedBeep| matches!(beep.kind, Kind::Kit | Kind::Stray | Kind::Cut);
        self.beeps.iter().filter(kit).count()
    }
}
