//! How a job stands with its customer, and visits after it was done.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::apply::{Refusal, cut};
use super::state::JobState;
use crate::text::{Message, msg};

/// Most visits that a job keeps.
pub const VISITS_GREATEST: usize = 100;

/// How a job stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// A price was named, nothing begun.
    Quoted,
    /// Parts are on their way.
    WaitingForParts,
    /// Heads are being painted.
    WaitingForPaint,
    /// In work.
    #[default]
    InWork,
    /// Handed over.
    Done,
    /// It came back.
    CameBack,
}

impl Standing {
    /// All, in the order in which they are shown.
    pub const ALL: [Self; 6] = [
        Self::Quoted,
        Self::WaitingForParts,
        Self::WaitingForPaint,
        Self::InWork,
        Self::Done,
        Self::CameBack,
    ];

    /// Its words.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::Quoted => "standing-quoted",
            Self::WaitingForParts => "standing-parts",
            Self::WaitingForPaint => "standing-paint",
            Self::InWork => "standing-in-work",
            Self::Done => "standing-done",
            Self::CameBack => "standing-came-back",
        })
    }
}

/// A visit after the hand-over.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Visit {
    /// When the vehicle came.
    pub at: DateTime<FixedOffset>,
    /// Why, in the customer's words.
    pub why: String,
    /// What was found and done, as typed.
    #[serde(default)]
    pub done: String,
    /// The last job sheet before it; 0 if none was issued.
    pub sheet: u32,
}

/// Something about how the job stands.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum StandingEvent {
    /// It was said how the job stands.
    Chosen(Standing),
    /// The vehicle came again, and why.
    CameAgain(String),
    /// What was found and done at the last visit.
    VisitWritten(String),
}

pub(super) fn apply(
    next: &mut JobState,
    event: StandingEvent,
    at: DateTime<FixedOffset>,
) -> Result<(), Refusal> {
    match event {
        StandingEvent::Chosen(standing) => next.standing = standing,
        StandingEvent::CameAgain(why) => {
            let why = cut(why.trim().to_owned());
            if why.is_empty() {
                return Err(Refusal(msg("visit-no-reason")));
            }
            if next.visits.len() >= VISITS_GREATEST {
                let most = i64::try_from(VISITS_GREATEST).unwrap_or(i64::MAX);
                return Err(Refusal(msg("visit-too-many").count("most", most)));
            }
            next.visits.push(Visit {
                at,
                why,
                done: String::new(),
                sheet: next.sheets.last().map_or(0, |sheet| sheet.number),
            });
            next.standing = Standing::CameBack;
        }
        StandingEvent::VisitWritten(words) => match next.visits.last_mut() {
            Some(visit) => visit.done = cut(words),
            None => return Err(Refusal(msg("visit-none"))),
        },
    }
    Ok(())
}

/// An issued sheet ends the work, unless the vehicle is back.
pub(super) fn sheet_issued(next: &mut JobState) {
    if next.standing != Standing::CameBack {
        next.standing = Standing::Done;
    }
}
