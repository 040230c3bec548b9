//! Obstacle learn of a job: the gate, what is to be ignored, attempts with
//! their proofs, and what of all that stands.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::apply::{Refusal, cut};
use super::entry::Field;
use super::state::JobState;
use crate::learn::{self, Cause, Outcome, Proof, Standing, Ways, Why};
use crate::text::{Message, msg};

/// Most attempts that a job keeps; the oldest go first.
pub const ATTEMPTS_GREATEST: usize = 20;

/// What the control box is to ignore.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Object {
    /// A tow bar that stays.
    FixedTowBar,
    /// A tow bar that comes off.
    RemovableTowBar,
    /// A spare wheel.
    SpareWheel,
    /// A rack.
    Rack,
    /// Something else, as typed.
    Other(String),
}

impl Object {
    /// Those that have a name of their own.
    pub const NAMED: [Self; 4] = [
        Self::FixedTowBar,
        Self::RemovableTowBar,
        Self::SpareWheel,
        Self::Rack,
    ];

    /// Its name.
    #[must_use]
    pub fn name(&self) -> Message {
        msg(match self {
            Self::FixedTowBar => "learn-object-fixed-tow-bar",
            Self::RemovableTowBar => "learn-object-removable-tow-bar",
            Self::SpareWheel => "learn-object-spare-wheel",
            Self::Rack => "learn-object-rack",
            Self::Other(what) => return msg("literal").text("text", what.clone()),
        })
    }
}

/// What came of moving the near zone out, which is tried first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ShiftTried {
    /// It was enough: nothing has to be learned.
    Enough,
    /// It was not enough.
    NotEnough,
    /// It was not tried.
    NotTried,
}

impl ShiftTried {
    /// What is said of it.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::Enough => "learn-shift-enough",
            Self::NotEnough => "learn-shift-not-enough",
            Self::NotTried => "learn-shift-not-tried",
        })
    }
}

/// A run with its time of day.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Attempt {
    /// When it began.
    pub at: DateTime<FixedOffset>,
    /// What the box was to ignore.
    pub object: Object,
    /// What is known of it.
    pub proof: Proof,
}

/// What was answered and done about an obstacle learn.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct LearnedState {
    /// What came of the zone shift.
    pub shift: Option<ShiftTried>,
    /// What is to be ignored.
    pub object: Option<Object>,
    /// When the gate was heeded, 'All of this is so'.
    pub gate: Option<DateTime<FixedOffset>>,
    /// The run that is on, as far as it was stored. Found in a job that is
    /// opened, it was ended with the app.
    pub running: Option<Attempt>,
    /// Runs that are over, oldest first.
    pub attempts: Vec<Attempt>,
    /// When what the box had learned was cleared.
    pub cleared: Option<DateTime<FixedOffset>>,
}

/// Something that happened about the obstacle learn.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum LearnedEvent {
    /// The zone shift was tried, or was not.
    ShiftTried(ShiftTried),
    /// This is to be ignored.
    ObjectPicked(Object),
    /// What is typed is to be ignored.
    ObjectTyped,
    /// Whether the last cycle beeps as well; it goes on the job's sheet.
    LastBeepSaid {
        /// Whether it does.
        beeps: bool,
    },
    /// All of the gate is so.
    GateHeeded,
    /// A run began.
    Began(Ways),
    /// It came so far. Kept so that a kill loses nothing.
    Came(Box<Proof>),
    /// It is over. One that was given up before anything happened is not kept.
    Ended(Box<Proof>),
    /// A run was found that was ended with the app.
    FoundBroken,
    /// What the box had learned was cleared, as the kit's maker says.
    Cleared,
}

impl LearnedState {
    /// What happened to the box stays when a step is taken back.
    pub(super) fn keep_runs(&mut self, now: &Self) {
        self.running.clone_from(&now.running);
        self.attempts.clone_from(&now.attempts);
        self.cleared = now.cleared;
    }
}

pub(super) fn apply(
    next: &mut JobState,
    event: LearnedEvent,
    at: DateTime<FixedOffset>,
) -> Result<(), Refusal> {
    match event {
        LearnedEvent::ShiftTried(tried) => next.learned.shift = Some(tried),
        LearnedEvent::ObjectPicked(Object::Other(what)) => pick(next, &what)?,
        LearnedEvent::ObjectPicked(object) => next.learned.object = Some(object),
        LearnedEvent::ObjectTyped => {
            let what = next.typed(Field::LearnObject).to_owned();
            pick(next, &what)?;
        }
        LearnedEvent::LastBeepSaid { beeps } => match &mut next.kit.obstacle_learn {
            Some(learn) => learn.last_beeps = Some(beeps),
            None => return Err(Refusal(msg("learn-asks-cycles"))),
        },
        LearnedEvent::GateHeeded => next.learned.gate = Some(at),
        LearnedEvent::Began(ways) => begin(next, ways, at)?,
        LearnedEvent::Came(proof) => match &mut next.learned.running {
            Some(running) => running.proof = *proof,
            None => return Err(Refusal(msg("refused-learn-not-on"))),
        },
        LearnedEvent::Ended(proof) => {
            let running = next.learned.running.take();
            let running = running.ok_or_else(|| Refusal(msg("refused-learn-not-on")))?;
            let given_up = proof.outcome == Outcome::Failed(Why::Cancelled);
            if !(given_up && proof.standing() == Standing::Untouched) {
                keep(
                    next,
                    Attempt {
                        proof: *proof,
                        ..running
                    },
                );
            }
        }
        LearnedEvent::FoundBroken => {
            let running = next.learned.running.take();
            let mut running = running.ok_or_else(|| Refusal(msg("refused-learn-not-on")))?;
            running.proof.outcome = Outcome::Interrupted(Cause::Killed);
            next.learned.gate = None;
            keep(next, running);
        }
        LearnedEvent::Cleared => next.learned.cleared = Some(at),
    }
    Ok(())
}

fn pick(next: &mut JobState, what: &str) -> Result<(), Refusal> {
    let what = cut(what.trim().to_owned());
    if what.is_empty() {
        return Err(Refusal(msg("refused-learn-object")));
    }
    next.learned.object = Some(Object::Other(what));
    Ok(())
}

fn begin(next: &mut JobState, ways: Ways, at: DateTime<FixedOffset>) -> Result<(), Refusal> {
    let procedure = learn::procedure(&next.kit).map_err(|asked| Refusal(asked.message()))?;
    if next.learned.gate.is_none() {
        return Err(Refusal(msg("refused-learn-gate")));
    }
    let object = next.learned.object.clone();
    let object = object.ok_or_else(|| Refusal(msg("refused-learn-object")))?;
    if next.learned.running.is_some() {
        return Err(Refusal(msg("refused-learn-on")));
    }
    let run = learn::Run::new(procedure, ways, None);
    next.learned.running = Some(Attempt {
        at,
        object,
        proof: Proof::of(&run),
    });
    Ok(())
}

fn keep(next: &mut JobState, attempt: Attempt) {
    next.learned.attempts.push(attempt);
    let over = next
        .learned
        .attempts
        .len()
        .saturating_sub(ATTEMPTS_GREATEST);
    next.learned.attempts.drain(..over);
}

/// What the box ignores, as far as this job knows.
#[derive(Clone, Debug, PartialEq)]
pub enum Ignores {
    /// Nothing was learned in this job.
    Nothing,
    /// This, and it is proved.
    This(Object),
    /// This, as counted by hand; not confirmed.
    PerhapsThis(Object),
    /// Not known: a run failed or was interrupted after it reached the box.
    NotKnown,
    /// Nothing any more: it was cleared.
    Cleared,
}

/// What of all runs stands: the last one that reached the box, unless it was
/// cleared since.
#[must_use]
pub fn ignores(job: &JobState) -> Ignores {
    if job.learned.running.is_some() {
        return Ignores::NotKnown;
    }
    let last = last_reached(job);
    let cleared = job.learned.cleared;
    match (last, cleared) {
        (None, None) => Ignores::Nothing,
        (None, Some(_)) => Ignores::Cleared,
        (Some(attempt), Some(cleared)) if cleared >= ended(attempt) => Ignores::Cleared,
        (Some(attempt), _) => match attempt.proof.standing() {
            Standing::Ignores => Ignores::This(attempt.object.clone()),
            Standing::NotConfirmed => Ignores::PerhapsThis(attempt.object.clone()),
            Standing::NotKnown | Standing::Untouched => Ignores::NotKnown,
        },
    }
}

fn last_reached(job: &JobState) -> Option<&Attempt> {
    let mut reached = job.learned.attempts.iter().rev();
    reached.find(|attempt| attempt.proof.standing() != Standing::Untouched)
}

fn ended(attempt: &Attempt) -> DateTime<FixedOffset> {
    let length = chrono::TimeDelta::milliseconds(attempt.proof.length.0 as i64);
    attempt.at.checked_add_signed(length).unwrap_or(attempt.at)
}

/// When the box last changed what it ignores, as far as this job knows: what
/// was tested before holds no more.
#[must_use]
pub fn box_changed(job: &JobState) -> Option<DateTime<FixedOffset>> {
    let run = last_reached(job).map(ended);
    let running = job.learned.running.as_ref().map(|running| running.at);
    [run, running, job.learned.cleared]
        .into_iter()
        .flatten()
        .max()
}

impl Ignores {
    /// In one line.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::Nothing => msg("learn-ignores-nothing"),
            Self::This(object) => msg("learn-ignores").message("object", object.name()),
            Self::PerhapsThis(object) => {
                msg("learn-ignores-perhaps").message("object", object.name())
            }
            Self::NotKnown => msg("learn-ignores-not-known"),
            Self::Cleared => msg("learn-ignores-cleared"),
        }
    }

    /// What the customer has to know; `None` where there is nothing.
    #[must_use]
    pub fn for_customer(&self) -> Option<Message> {
        match self {
            Self::This(object) => Some(msg("learn-customer").message("object", object.name())),
            Self::PerhapsThis(object) => {
                Some(msg("learn-customer-perhaps").message("object", object.name()))
            }
            Self::NotKnown => Some(msg("learn-customer-not-known")),
            Self::Nothing | Self::Cleared => None,
        }
    }
}

/// How to get out of 'not known'.
#[must_use]
pub fn how_cleared(job: &JobState) -> Message {
    let learn = job.kit.obstacle_learn.as_ref();
    let how = learn.and_then(|learn| learn.cleared_by.as_deref());
    match how.map(str::trim).filter(|how| !how.is_empty()) {
        Some(how) => msg("learn-cleared-by").text("how", how),
        None => msg("learn-cleared-not-given"),
    }
}

/// What has to come before a run; empty when it can begin.
#[must_use]
pub fn learn_open(job: &JobState) -> Vec<Message> {
    let mut open = Vec::new();
    if let Err(asked) = learn::procedure(&job.kit) {
        open.push(asked.message());
    }
    if job.learned.object.is_none() {
        open.push(msg("refused-learn-object"));
    }
    if job.learned.gate.is_none() {
        open.push(msg("refused-learn-gate"));
    }
    open
}

/// Whether nothing is left to do: learned, counted by hand, or the zone shift
/// was enough.
#[must_use]
pub fn learn_done(job: &JobState) -> bool {
    match ignores(job) {
        Ignores::This(_) | Ignores::PerhapsThis(_) => true,
        Ignores::Nothing | Ignores::Cleared => job.learned.shift == Some(ShiftTried::Enough),
        Ignores::NotKnown => false,
    }
}

/// Where the obstacle learn stands, in a few words.
#[must_use]
pub fn learn_headline(job: &JobState) -> Message {
    match (ignores(job), job.learned.shift) {
        (Ignores::Nothing, Some(ShiftTried::Enough)) => msg("learn-shift-enough"),
        (ignores, _) => ignores.message(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{JobEvent, JobId, apply};
    use crate::kit;
    use crate::learn::{ProvedCycle, Source};
    use crate::units::Millis;

    fn at(minute: u32) -> DateTime<FixedOffset> {
        let text = format!("2026-03-12T09:{minute:02}:00+01:00");
        DateTime::parse_from_rfc3339(&text).unwrap()
    }

    fn started() -> JobState {
        let sheet = include_str!("../../../assets/kits/plain-four.json");
        JobState::start(JobId("a1".to_owned()), kit::parse(sheet).unwrap(), at(0))
    }

    fn after(job: &JobState, minute: u32, event: LearnedEvent) -> JobState {
        apply(job, JobEvent::Learned(event), at(minute)).unwrap()
    }

    fn refused(job: &JobState, event: LearnedEvent) -> String {
        let refusal = apply(job, JobEvent::Learned(event), at(1)).unwrap_err();
        refusal.0.key.into_owned()
    }

    fn ready() -> JobState {
        let job = after(&started(), 1, LearnedEvent::ObjectPicked(Object::Rack));
        after(&job, 1, LearnedEvent::GateHeeded)
    }

    /// A proof with that outcome, one cycle in.
    fn proof(outcome: Outcome) -> Box<Proof> {
        let procedure = learn::procedure(&started().kit).unwrap();
        let mut proof = Proof::of(&learn::Run::new(procedure, Ways::Both, None));
        proof.outcome = outcome;
        proof.cycles.push(ProvedCycle {
            engaged: Millis(0.0),
            released: None,
            by: Source::Tap,
            beeps: 1,
        });
        Box::new(proof)
    }

    fn attempted(job: &JobState, minute: u32, outcome: Outcome) -> JobState {
        let job = after(job, minute, LearnedEvent::Began(Ways::Both));
        after(&job, minute, LearnedEvent::Ended(proof(outcome)))
    }

    #[test]
    fn a_run_needs_its_object_and_the_gate() {
        let began = || LearnedEvent::Began(Ways::Both);
        assert_eq!(refused(&started(), began()), "refused-learn-gate");
        let gate = after(&started(), 1, LearnedEvent::GateHeeded);
        assert_eq!(refused(&gate, began()), "refused-learn-object");
        let on = after(&ready(), 2, began());
        assert_eq!(refused(&on, began()), "refused-learn-on");
        assert_eq!(
            refused(&gate, LearnedEvent::ObjectTyped),
            "refused-learn-object"
        );
        let nothing_on = LearnedEvent::Ended(proof(Outcome::Learned));
        assert_eq!(refused(&ready(), nothing_on), "refused-learn-not-on");
    }

    #[test]
    fn a_sheet_that_does_not_say_is_asked() {
        let mut job = ready();
        job.kit.obstacle_learn.as_mut().unwrap().last_beeps = None;
        let began = LearnedEvent::Began(Ways::Both);
        assert_eq!(refused(&job, began.clone()), "learn-asks-last-beep");
        let said = after(&job, 2, LearnedEvent::LastBeepSaid { beeps: false });
        assert_eq!(learn::procedure(&said.kit).map(|p| p.last_beeps), Ok(false));
        job.kit.obstacle_learn = None;
        assert_eq!(refused(&job, began), "learn-asks-cycles");
    }

    #[test]
    fn a_failed_run_stands_until_it_is_cleared_or_learned_again() {
        let learned = attempted(&ready(), 2, Outcome::Learned);
        assert_eq!(ignores(&learned), Ignores::This(Object::Rack));
        let failed = attempted(&learned, 3, Outcome::Failed(Why::TooSlow));
        assert_eq!(ignores(&failed), Ignores::NotKnown);
        let cleared = after(&failed, 4, LearnedEvent::Cleared);
        assert_eq!(ignores(&cleared), Ignores::Cleared);
        let again = attempted(&failed, 5, Outcome::Learned);
        assert_eq!(ignores(&again), Ignores::This(Object::Rack));
        assert_eq!(box_changed(&again), Some(at(5)));
    }

    #[test]
    fn a_run_that_never_reached_the_box_changes_nothing() {
        let learned = attempted(&ready(), 2, Outcome::Learned);
        let on = after(&learned, 3, LearnedEvent::Began(Ways::Both));
        let mut untouched = proof(Outcome::Failed(Why::Cancelled));
        untouched.cycles.clear();
        let over = after(&on, 3, LearnedEvent::Ended(untouched));
        assert_eq!(ignores(&over), Ignores::This(Object::Rack));
        assert_eq!(box_changed(&over), Some(at(2)));
    }

    #[test]
    fn a_run_found_in_a_stored_job_was_interrupted_and_the_gate_is_shut_again() {
        let on = after(&ready(), 2, LearnedEvent::Began(Ways::Both));
        let came = after(&on, 2, LearnedEvent::Came(proof(Outcome::Learned)));
        assert_eq!(ignores(&came), Ignores::NotKnown);
        let found = after(&came, 9, LearnedEvent::FoundBroken);
        let killed = Outcome::Interrupted(Cause::Killed);
        assert_eq!(found.learned.attempts[0].proof.outcome, killed);
        assert_eq!(ignores(&found), Ignores::NotKnown);
        assert_eq!(found.learned.gate, None);
    }

    #[test]
    fn by_hand_is_said_as_not_confirmed() {
        let job = attempted(&ready(), 2, Outcome::ByHand);
        let said = ignores(&job).for_customer().unwrap();
        assert_eq!(said.key, "learn-customer-perhaps");
    }

    #[test]
    fn only_so_many_attempts_are_kept() {
        let mut job = ready();
        for _ in 0..30 {
            job = attempted(&job, 2, Outcome::Failed(Why::TooSlow));
        }
        assert_eq!(job.learned.attempts.len(), ATTEMPTS_GREATEST);
    }
}
