//! Waits of a job: primer drying, the control box testing itself. Several
//! run at once; they go by the wall clock and outlive a closed app.

use chrono::{DateTime, Duration, FixedOffset};
use serde::{Deserialize, Serialize};

use super::apply::Refusal;
use super::state::JobState;
use super::steps_done::{CURED, PRIMER};
use crate::steps::{Question, StepName, Truth};
use crate::text::{Message, msg};

/// Longest wait, minutes: a week.
pub const WAIT_GREATEST: u16 = 10_080;

/// Most waits that a job keeps.
pub const WAITS_GREATEST: usize = 50;

/// A wait that was started.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Wait {
    /// At which step.
    pub step: StepName,
    /// When it began.
    pub from: DateTime<FixedOffset>,
    /// How long, minutes.
    pub minutes: u16,
    /// When it was ended by hand or as over; `None` while it runs.
    #[serde(default)]
    pub ended: Option<DateTime<FixedOffset>>,
}

/// Something about a wait.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum WaitEvent {
    /// A wait of so many minutes began at a step.
    Started(StepName, u16),
    /// The running wait at a step takes so many minutes in all.
    Corrected(StepName, u16),
    /// The wait at a step is over.
    Ended(StepName),
}

pub(super) fn apply(
    next: &mut JobState,
    event: WaitEvent,
    at: DateTime<FixedOffset>,
) -> Result<(), Refusal> {
    let fits = |minutes: u16| {
        if (1..=WAIT_GREATEST).contains(&minutes) {
            Ok(minutes)
        } else {
            Err(Refusal(
                msg("wait-minutes").count("most", i64::from(WAIT_GREATEST)),
            ))
        }
    };
    let running = |next: &JobState, step: &StepName| {
        (next.waits.iter()).position(|wait| wait.step == *step && wait.ended.is_none())
    };
    match event {
        WaitEvent::Started(step, minutes) => {
            let minutes = fits(minutes)?;
            if running(next, &step).is_some() {
                return Err(Refusal(msg("wait-runs")));
            }
            if next.waits.len() >= WAITS_GREATEST {
                next.waits.remove(0);
            }
            let (from, ended) = (at, None);
            next.waits.push(Wait {
                step,
                from,
                minutes,
                ended,
            });
        }
        WaitEvent::Corrected(step, minutes) => {
            let minutes = fits(minutes)?;
            let index = running(next, &step).ok_or_else(|| Refusal(msg("wait-none")))?;
            next.waits[index].minutes = minutes;
        }
        WaitEvent::Ended(step) => {
            let index = running(next, &step).ok_or_else(|| Refusal(msg("wait-none")))?;
            next.waits[index].ended = Some(at);
        }
    }
    Ok(())
}

/// Waits that run at a step.
pub fn waits_at<'a>(job: &'a JobState, step: &'a StepName) -> impl Iterator<Item = &'a Wait> {
    (job.waits.iter()).filter(move |wait| wait.step == *step && wait.ended.is_none())
}

/// Why a step with a wait is not done yet at a time of day: its wait runs
/// and has time left, or nobody knows whether it has. `None` where no wait
/// runs there, or it is over.
#[must_use]
pub fn wait_holds(job: &JobState, step: &StepName, now: DateTime<FixedOffset>) -> Option<Message> {
    let left = waits_at(job, step).find_map(|wait| match wait.stands(now) {
        WaitStands::Left(seconds) => Some(left_words(seconds)),
        WaitStands::ClockJumped => Some(msg("wait-clock-jumped")),
        WaitStands::Over(_) => None,
    })?;
    Some(
        msg("wait-holds")
            .message("step", step.what())
            .message("left", left),
    )
}

/// Why no head goes in yet at a time of day: its paint is not cured, or the
/// primer of its hole is not dry. What was ended or skipped with a reason
/// holds nothing back.
#[must_use]
pub fn heads_wait(job: &JobState, now: DateTime<FixedOffset>) -> Option<Message> {
    [CURED, PRIMER].into_iter().find_map(|name| {
        let step = StepName(name.to_owned());
        if job.steps.ended.contains_key(&step) {
            return None;
        }
        wait_holds(job, &step, now).or_else(|| {
            let painted = job.steps.answers.get(&Question::Painted) == Some(&Truth::Yes);
            let waited = job.waits.iter().any(|wait| wait.step == step);
            (name == CURED && painted && !waited)
                .then(|| msg("heads-paint-first").message("step", step.what()))
        })
    })
}

fn left_words(seconds: i64) -> Message {
    msg("wait-left")
        .count("minutes", seconds / 60)
        .text("seconds", format!("{:02}", seconds % 60))
}

/// How a wait stands at a time of day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WaitStands {
    /// So many seconds are left.
    Left(i64),
    /// It has been over for so many seconds.
    Over(i64),
    /// The clock stands before the wait's beginning: it cannot be known.
    ClockJumped,
}

impl Wait {
    /// When it is over, by the wall clock.
    #[must_use]
    pub fn until(&self) -> DateTime<FixedOffset> {
        self.from + Duration::minutes(i64::from(self.minutes))
    }

    /// How it stands at `now`, by the wall clock.
    #[must_use]
    pub fn stands(&self, now: DateTime<FixedOffset>) -> WaitStands {
        let gone = now - self.from;
        if gone < Duration::zero() {
            return WaitStands::ClockJumped;
        }
        let left = i64::from(self.minutes) * 60 - gone.num_seconds();
        if left > 0 {
            WaitStands::Left(left)
        } else {
            WaitStands::Over(-left)
        }
    }
}

/// A wait in words at a time of day.
#[must_use]
pub fn wait_words(job: &JobState, wait: &Wait, now: DateTime<FixedOffset>) -> Vec<Message> {
    let stands = match wait.stands(now) {
        WaitStands::Left(seconds) => left_words(seconds),
        WaitStands::Over(seconds) => msg("wait-over").count("minutes", seconds / 60),
        WaitStands::ClockJumped => return vec![msg("wait-clock-jumped")],
    };
    let doubt = match job.clock {
        super::state::ClockTrust::WentBack { minutes } => {
            Some(msg("wait-clock-doubt").count("minutes", minutes))
        }
        super::state::ClockTrust::Steady => None,
    };
    std::iter::once(stands).chain(doubt).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(text: &str) -> DateTime<FixedOffset> {
        DateTime::parse_from_rfc3339(text).unwrap()
    }

    fn wait() -> Wait {
        Wait {
            step: StepName("primer-dry".to_owned()),
            from: at("2026-03-12T09:00:00+01:00"),
            minutes: 20,
            ended: None,
        }
    }

    #[test]
    fn a_wait_goes_by_the_wall_clock_also_in_another_zone() {
        let now = at("2026-03-12T08:05:30Z");
        assert_eq!(wait().stands(now), WaitStands::Left(14 * 60 + 30));
        let later = at("2026-03-12T08:21:00Z");
        assert_eq!(wait().stands(later), WaitStands::Over(60));
    }

    #[test]
    fn a_clock_that_jumped_back_is_said_and_not_counted() {
        let before = at("2026-03-12T07:00:00Z");
        assert_eq!(wait().stands(before), WaitStands::ClockJumped);
    }

    fn job() -> JobState {
        let sheet = include_str!("../../../assets/kits/plain-four.json");
        let kit = crate::kit::parse(sheet).unwrap();
        let id = crate::job::JobId("a1".to_owned());
        JobState::start(id, kit, at("2026-03-12T08:50:00+01:00"))
    }

    #[test]
    fn a_wait_that_runs_holds_the_heads_back_and_says_how_long() {
        let mut job = job();
        assert_eq!(heads_wait(&job, at("2026-03-12T09:00:00+01:00")), None);
        job.waits.push(wait());
        let held = heads_wait(&job, at("2026-03-12T09:05:30+01:00")).unwrap();
        let left = msg("wait-left").count("minutes", 14).text("seconds", "30");
        let step = StepName("primer-dry".to_owned()).what();
        let said = msg("wait-holds")
            .message("step", step)
            .message("left", left);
        assert_eq!(held, said);
        let jumped = heads_wait(&job, at("2026-03-12T08:59:00+01:00"));
        assert!(jumped.is_some(), "nobody knows whether it is dry");
        assert_eq!(heads_wait(&job, at("2026-03-12T09:20:00+01:00")), None);
    }

    #[test]
    fn painted_heads_wait_for_the_paint_also_where_no_wait_was_started() {
        let mut job = job();
        job.steps.answers.insert(Question::Painted, Truth::Yes);
        let now = at("2026-03-12T09:05:30+01:00");
        assert_eq!(heads_wait(&job, now).unwrap().key, "heads-paint-first");
        job.waits.push(Wait {
            step: StepName(CURED.to_owned()),
            ended: Some(now),
            ..wait()
        });
        assert_eq!(heads_wait(&job, now), None, "ended by hand");
    }
}
