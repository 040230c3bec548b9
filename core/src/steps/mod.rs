//! The steps of a whole fitting, as data: what is done when, what it is for,
//! what is to be recorded, what may not be skipped.
//!
//! The file is `assets/steps/fitting.json`; its words stand in `en.ftl` under
//! keys that come from the step's name: `s-NAME` (what to do), `s-NAME-why`,
//! `s-NAME-how`, `s-NAME-caution`.

mod applies;
mod parse;
#[cfg(feature = "schema")]
mod schema;

pub use applies::{Answers, Applies, Question, Truth};
pub use parse::{BOOK_GREATEST, BookFault, STEPS_GREATEST, read_book};
#[cfg(feature = "schema")]
pub use schema::{json_schema, json_schema_file};

use serde::{Deserialize, Serialize};

use crate::text::Message;

/// The version of the format that this app reads.
pub const BOOK_VERSION: u32 = 1;

/// All steps of a fitting, in the order of the work.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct StepBook {
    /// [`BOOK_VERSION`].
    pub version: u32,
    /// Stages in the order of the work.
    pub stages: Vec<StageSheet>,
}

/// One stage of the work.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct StageSheet {
    /// Which one.
    pub stage: Stage,
    /// Its steps in order.
    pub steps: Vec<StepSheet>,
}

/// A stage; in the order of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Stage {
    /// Survey, quote, state of the vehicle before.
    Survey,
    /// Place of the control box, grommet.
    Box,
    /// Look behind.
    Behind,
    /// Measures, mark-out, tape.
    Marks,
    /// Face angles.
    Faces,
    /// Ring sets.
    Rings,
    /// Check and agreement.
    Check,
    /// Paint.
    Paint,
    /// Holes.
    Holes,
    /// Leads, heads, control box, supply.
    Loom,
    /// Display or speaker.
    Warn,
    /// Functions, obstacle learn, walk test.
    Prove,
    /// Photos, job sheet, hand-over.
    HandOver,
}

/// How deep a step goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Depth {
    /// Belongs to every job.
    Quick,
    /// Belongs to a job that is handed over with a record.
    Standard,
    /// Buys something more, which it says.
    Extra,
}

/// What is to be recorded at a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Asks {
    /// That it is done.
    Tick,
    /// A photo.
    Photo,
    /// Photos before and after, side by side.
    Before,
    /// The other half of a pair.
    After,
    /// A few words.
    Words,
    /// A wait, counted down.
    Wait {
        /// Minutes proposed; the product's own sheet comes first.
        minutes: u16,
    },
}

/// Whether a step may be skipped.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Weight {
    /// It may be skipped with a reason, or closed as usual.
    #[default]
    Plain,
    /// It carries a value or a confirmation: not closed by 'Done as usual'.
    Value,
    /// It may not be skipped: people can be hurt.
    Gate,
}

/// One step.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct StepSheet {
    /// Its name, from which its words follow; lower case and hyphens.
    pub name: StepName,
    /// How deep it goes.
    pub depth: Depth,
    /// What is to be recorded.
    pub asks: Vec<Asks>,
    /// Only where all of this is so.
    #[serde(default)]
    pub applies: Vec<Applies>,
    /// Whether it may be skipped.
    #[serde(default)]
    pub weight: Weight,
    /// The screen of the app that does it; the job knows when it is done.
    #[serde(default)]
    pub screen: Option<Screen>,
    /// Whether it has a caution that is shown at the step.
    #[serde(default)]
    pub caution: Caution,
    /// Steps that have to come first, by name.
    #[serde(default)]
    pub after: Vec<StepName>,
}

/// Whether a caution stands at a step.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Caution {
    /// None beyond the usual.
    #[default]
    None,
    /// `s-NAME-caution` is shown, always unfolded.
    Shown,
}

/// A step's name.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(transparent)]
pub struct StepName(pub String);

impl StepName {
    /// What to do at the step of this name.
    #[must_use]
    pub fn what(&self) -> Message {
        self.words("")
    }

    fn words(&self, tail: &str) -> Message {
        Message::from_data(format!("s-{}{tail}", self.0))
    }
}

/// A screen of the app that does a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Screen {
    /// Parts and quote.
    Quote,
    /// Look behind.
    Behind,
    /// Measures and marks.
    Marks,
    /// Tape on the marks.
    Tape,
    /// Face angles.
    Faces,
    /// Ring sets.
    Rings,
    /// Tape read back.
    TapeCheck,
    /// The customer's agreement.
    Agreement,
    /// Holes.
    Holes,
    /// Leads.
    Leads,
    /// Supply and fuse.
    Supply,
    /// Obstacle learn.
    Learn,
    /// Walk test.
    Walk,
    /// Photos of the finished heads.
    HeadPhotos,
    /// The job sheet.
    Sheet,
}

impl StepSheet {
    fn words(&self, tail: &str) -> Message {
        self.name.words(tail)
    }

    /// What to do.
    #[must_use]
    pub fn what(&self) -> Message {
        self.name.what()
    }

    /// Why, and for an extra what it buys.
    #[must_use]
    pub fn why(&self) -> Message {
        self.words("-why")
    }

    /// How.
    #[must_use]
    pub fn how(&self) -> Message {
        self.words("-how")
    }

    /// What can hurt there; `None` where nothing beyond the usual can.
    #[must_use]
    pub fn caution(&self) -> Option<Message> {
        (self.caution == Caution::Shown).then(|| self.words("-caution"))
    }

    /// Whether a photo is to be taken.
    #[must_use]
    pub fn wants_photo(&self) -> bool {
        let photo = |asks: &Asks| matches!(asks, Asks::Photo | Asks::Before | Asks::After);
        self.asks.iter().any(photo)
    }

    /// Whether it waits for something, and how long is proposed, minutes.
    #[must_use]
    pub fn wait(&self) -> Option<u16> {
        self.asks.iter().find_map(|asks| match asks {
            Asks::Wait { minutes } => Some(*minutes),
            _ => None,
        })
    }
}

impl StepBook {
    /// Every step with its stage, in the order of the work.
    pub fn steps(&self) -> impl Iterator<Item = (Stage, &StepSheet)> {
        self.stages
            .iter()
            .flat_map(|sheet| sheet.steps.iter().map(|step| (sheet.stage, step)))
    }

    /// A step by its name.
    #[must_use]
    pub fn step(&self, name: &StepName) -> Option<(Stage, &StepSheet)> {
        self.steps().find(|(_, step)| step.name == *name)
    }
}
