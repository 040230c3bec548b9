//! Obstacle learn of a job: the gate, what is to be ignored, attempts with
//! their proofs.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::apply::{Refusal, cut};
use super::entry::Field;
use super::state::JobState;
use super::walk::{self, GATE_HOLDS};
use crate::kit::ZoneShift;
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
    /// When it ended, on the job's clock, which never goes back; not known of
    /// runs kept by earlier versions.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ended: Option<DateTime<FixedOffset>>,
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
    /// The gate is asked anew before the next.
    Ended(Box<Proof>),
    /// It was given up and begun anew in the same moment: whoever sat there
    /// still sits there, and the gate holds.
    Restarted(Box<Proof>),
    /// A run was found that was ended with the app.
    FoundBroken,
    /// What the box had learned was cleared, as the kit's maker says.
    Cleared,
}

impl LearnedState {
    /// What happened to the box stays when a step is taken back. Tells whether
    /// anything did since.
    pub(super) fn keep_runs(&mut self, now: &Self) -> bool {
        let same = self.running == now.running
            && self.attempts == now.attempts
            && self.cleared == now.cleared;
        self.running.clone_from(&now.running);
        self.attempts.clone_from(&now.attempts);
        self.cleared = now.cleared;
        // A gate that was asked anew since does not come back.
        self.gate = self.gate.filter(|gate| now.gate == Some(*gate));
        !same
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
            over(next, *proof, at)?;
            // What it said of the run that is over may not be so any more.
            next.learned.gate = None;
        }
        LearnedEvent::Restarted(proof) => {
            let ways = proof.ways;
            over(next, *proof, at)?;
            begin(next, ways, at)?;
        }
        LearnedEvent::FoundBroken => {
            let running = next.learned.running.take();
            let mut running = running.ok_or_else(|| Refusal(msg("refused-learn-not-on")))?;
            running.proof.outcome = Outcome::Interrupted(Cause::Killed);
            next.learned.gate = None;
            keep(next, running, at);
        }
        LearnedEvent::Cleared => cleared(next, at),
    }
    Ok(())
}

/// The run that is on has come to its end.
fn over(next: &mut JobState, proof: Proof, at: DateTime<FixedOffset>) -> Result<(), Refusal> {
    let running = next.learned.running.take();
    let running = running.ok_or_else(|| Refusal(msg("refused-learn-not-on")))?;
    if proof.outcome == Outcome::Learned && !proof.holds() {
        return Err(Refusal(msg("refused-learn-no-proof")));
    }
    let given_up = proof.outcome == Outcome::Failed(Why::Cancelled);
    if !(given_up && proof.standing() == Standing::Untouched) {
        keep(next, Attempt { proof, ..running }, at);
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
    if !learn_gate_open(next, at) {
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
        ended: None,
        proof: Proof::of(&run),
    });
    Ok(())
}

/// Whether the gate was heeded, and lately.
#[must_use]
pub fn learn_gate_open(job: &JobState, at: DateTime<FixedOffset>) -> bool {
    let gate = job.learned.gate.as_ref();
    gate.is_some_and(|heeded| at.signed_duration_since(heeded) <= GATE_HOLDS)
}

/// What the box had learned was cleared.
pub(super) fn cleared(next: &mut JobState, at: DateTime<FixedOffset>) {
    next.learned.cleared = Some(at);
    walk::box_changed(&mut next.walk, at);
}

fn keep(next: &mut JobState, attempt: Attempt, at: DateTime<FixedOffset>) {
    let ended = Some(at);
    let attempt = Attempt { ended, ..attempt };
    if attempt.proof.standing() != Standing::Untouched {
        // It holds what this run left, whatever was cleared before.
        next.learned.cleared = None;
        walk::box_changed(&mut next.walk, at);
    }
    next.learned.attempts.push(attempt);
    let over = next
        .learned
        .attempts
        .len()
        .saturating_sub(ATTEMPTS_GREATEST);
    next.learned.attempts.drain(..over);
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

/// The zone shift that the kit sheet gives: it is offered before a learn. A
/// sheet without one offers none, whatever was said under another sheet.
#[must_use]
pub fn shift_offered(job: &JobState) -> Option<&ZoneShift> {
    let control_box = job.kit.control_box.as_ref();
    control_box.and_then(|control_box| control_box.zone_shift.as_ref())
}

/// What came of the zone shift that is offered.
#[must_use]
pub fn shift_tried(job: &JobState) -> Option<ShiftTried> {
    job.learned.shift.filter(|_| shift_offered(job).is_some())
}

/// What has to come before a run; empty when it can begin.
#[must_use]
pub fn learn_open(job: &JobState, at: DateTime<FixedOffset>) -> Vec<Message> {
    let mut open = Vec::new();
    if let Err(asked) = learn::procedure(&job.kit) {
        open.push(asked.message());
    }
    if job.learned.object.is_none() {
        open.push(msg("refused-learn-object"));
    }
    if !learn_gate_open(job, at) {
        open.push(msg("refused-learn-gate"));
    }
    open
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{Ignores, JobEvent, JobId, apply, box_changed, ignores};
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

    /// A proof with that outcome: whole where it says 'learned', else one
    /// cycle in.
    fn proof(outcome: Outcome) -> Box<Proof> {
        let procedure = learn::procedure(&started().kit).unwrap();
        let whole = outcome == Outcome::Learned;
        let cycles = if whole { procedure.cycles } else { 1 };
        let mut proof = Proof::of(&learn::Run::new(procedure, Ways::Both, None));
        proof.outcome = outcome;
        for _ in 0..cycles {
            proof.cycles.push(ProvedCycle {
                engaged: Millis(0.0),
                released: None,
                by: Source::Tap,
                beeps: 1,
            });
        }
        if whole {
            (proof.confirmed, proof.reached) = (proof.asked, proof.silent);
        }
        Box::new(proof)
    }

    fn attempted(job: &JobState, minute: u32, outcome: Outcome) -> JobState {
        let job = after(job, minute, LearnedEvent::GateHeeded);
        let job = after(&job, minute, LearnedEvent::Began(Ways::Both));
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
        let gate = after(&learned, 3, LearnedEvent::GateHeeded);
        let on = after(&gate, 3, LearnedEvent::Began(Ways::Both));
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
    fn learned_without_its_proof_is_refused_and_is_not_known_where_it_was_kept() {
        let on = after(&ready(), 2, LearnedEvent::Began(Ways::Both));
        let mut unproved = proof(Outcome::Learned);
        unproved.cycles[2].beeps = 0;
        let ended = LearnedEvent::Ended(unproved.clone());
        assert_eq!(refused(&on, ended), "refused-learn-no-proof");
        let mut kept = attempted(&ready(), 2, Outcome::Learned);
        kept.learned.attempts[0].proof = *unproved;
        assert_eq!(ignores(&kept), Ignores::NotKnown);
    }

    #[test]
    fn the_gate_lapses_after_a_while_and_with_every_run_that_is_over() {
        let late = at(1) + GATE_HOLDS + chrono::TimeDelta::minutes(1);
        let began = JobEvent::Learned(LearnedEvent::Began(Ways::Both));
        let refusal = apply(&ready(), began, late).unwrap_err();
        assert_eq!(refusal.0.key, "refused-learn-gate");
        assert!(!learn_gate_open(&ready(), late) && learn_gate_open(&ready(), at(5)));
        for outcome in [
            Outcome::Learned,
            Outcome::ByHand,
            Outcome::Failed(Why::TooSlow),
            Outcome::Failed(Why::Cancelled),
            Outcome::Interrupted(Cause::Hidden),
        ] {
            let over = attempted(&ready(), 2, outcome);
            assert_eq!(over.learned.gate, None, "{outcome:?}");
            let began = LearnedEvent::Began(Ways::Both);
            assert_eq!(refused(&over, began), "refused-learn-gate");
        }
    }

    #[test]
    fn a_run_that_is_restarted_at_once_stands_as_given_up_under_the_same_gate() {
        let on = after(&ready(), 2, LearnedEvent::Began(Ways::Both));
        let given_up = proof(Outcome::Failed(Why::Cancelled));
        let restarted = || LearnedEvent::Restarted(given_up.clone());
        let again = after(&on, 3, restarted());
        assert_eq!(again.learned.gate, Some(at(1)));
        assert!(again.learned.running.is_some());
        assert_eq!(again.learned.attempts.len(), 1);
        assert_eq!(refused(&ready(), restarted()), "refused-learn-not-on");
        // Also here the gate holds only for a while.
        let late = at(1) + GATE_HOLDS + chrono::TimeDelta::minutes(1);
        let refusal = apply(&on, JobEvent::Learned(restarted()), late).unwrap_err();
        assert_eq!(refusal.0.key, "refused-learn-gate");
    }

    #[test]
    fn taking_a_step_back_never_brings_a_gate_back() {
        let before = ready().learned;
        let over = attempted(&ready(), 2, Outcome::Failed(Why::TooSlow));
        let mut back = before.clone();
        assert!(back.keep_runs(&over.learned));
        assert_eq!(back.gate, None);
        let mut same = before.clone();
        assert!(!same.keep_runs(&before));
        assert_eq!(same.gate, before.gate);
    }

    #[test]
    fn a_zone_shift_is_offered_only_where_the_sheet_gives_one() {
        let job = started();
        assert!(shift_offered(&job).is_some());
        let enough = after(&job, 1, LearnedEvent::ShiftTried(ShiftTried::Enough));
        assert_eq!(shift_tried(&enough), Some(ShiftTried::Enough));
        // The sheet is another one now.
        let mut other = enough;
        other.kit.control_box = None;
        assert_eq!((shift_offered(&other), shift_tried(&other)), (None, None));
    }

    #[test]
    fn what_came_last_counts_also_where_the_clock_was_set_back() {
        let failed = || Outcome::Failed(Why::TooSlow);
        let long = |outcome| {
            let mut proof = proof(outcome);
            proof.length = Millis(60_000.0);
            LearnedEvent::Ended(proof)
        };
        // All of it at one minute of the job's clock.
        let on = after(&ready(), 20, LearnedEvent::Began(Ways::Both));
        let over = after(&on, 3, long(failed()));
        let cleared = after(&over, 4, LearnedEvent::Cleared);
        assert_eq!(ignores(&cleared), Ignores::Cleared);
        let again = attempted(&cleared, 5, failed());
        assert_eq!(ignores(&again), Ignores::NotKnown);
        assert_eq!(again.learned.cleared, None);
    }

    #[test]
    fn a_run_of_an_earlier_version_ended_when_its_length_says() {
        let mut kept = attempted(&ready(), 2, Outcome::Failed(Why::TooSlow));
        kept.learned.attempts[0].ended = None;
        kept.learned.attempts[0].proof.length = Millis(60_000.0);
        assert_eq!(box_changed(&kept), Some(at(3)));
        kept.learned.cleared = Some(at(2));
        assert_eq!(ignores(&kept), Ignores::NotKnown);
        kept.learned.cleared = Some(at(4));
        assert_eq!(ignores(&kept), Ignores::Cleared);
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
