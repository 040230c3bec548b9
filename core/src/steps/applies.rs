//! Which steps a job needs: what the survey found out about the vehicle.

use serde::{Deserialize, Serialize};

use crate::text::{Message, msg};

/// A question of the survey that is answered by yes or no.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Question {
    /// Sensors are there already.
    SensorsThere,
    /// A tow bar, fixed or removable, or a rack on it.
    TowBar,
    /// Heads or rings will be painted.
    Painted,
    /// The bumper comes off.
    BumperOff,
    /// Driver assistance with radar or cameras near the bumper.
    Assistance,
    /// The vehicle is a load carrier or pick-up.
    LoadCarrier,
    /// The vehicle is raised for the work.
    Raised,
    /// A speaker or display goes on a pillar, trim or the roof lining.
    Trim,
}

impl Question {
    /// All, in the order in which they are asked.
    pub const ALL: [Self; 8] = [
        Self::SensorsThere,
        Self::TowBar,
        Self::Painted,
        Self::BumperOff,
        Self::Assistance,
        Self::LoadCarrier,
        Self::Raised,
        Self::Trim,
    ];

    /// The question in words.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::SensorsThere => "ask-sensors-there",
            Self::TowBar => "ask-tow-bar",
            Self::Painted => "ask-painted",
            Self::BumperOff => "ask-bumper-off",
            Self::Assistance => "ask-assistance",
            Self::LoadCarrier => "ask-load-carrier",
            Self::Raised => "ask-raised",
            Self::Trim => "ask-trim",
        })
    }

    /// What is taken for so as long as nobody answered: what can hurt or
    /// cost is taken to be there.
    fn unless_answered(self) -> Truth {
        match self {
            Self::TowBar | Self::Assistance | Self::Raised | Self::Trim => Truth::Yes,
            Self::SensorsThere | Self::Painted | Self::BumperOff | Self::LoadCarrier => Truth::No,
        }
    }
}

/// Yes or no.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Truth {
    /// It is so.
    Yes,
    /// It is not.
    No,
}

/// A condition of a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Applies {
    /// Where the answer is yes.
    When(Question),
    /// Where the answer is no.
    Unless(Question),
    /// A metal bumper.
    MetalBumper,
    /// The kit has a display.
    Display,
    /// The kit has a speaker.
    Speaker,
    /// The kit's control box learns obstacles.
    Learns,
    /// The kit's control box can shift its near zone.
    Shifts,
}

/// What a job answers to the conditions.
pub trait Answers {
    /// The survey's answer; `None` while not asked.
    fn answer(&self, question: Question) -> Option<Truth>;
    /// Any other condition.
    fn fact(&self, applies: Applies) -> Truth;
}

impl Applies {
    /// Whether the condition holds for a job.
    pub fn holds(self, job: &impl Answers) -> bool {
        let answered = |question: Question| {
            job.answer(question)
                .unwrap_or_else(|| question.unless_answered())
        };
        let truth = match self {
            Self::When(question) => answered(question),
            Self::Unless(question) => match answered(question) {
                Truth::Yes => Truth::No,
                Truth::No => Truth::Yes,
            },
            fact => job.fact(fact),
        };
        truth == Truth::Yes
    }
}
