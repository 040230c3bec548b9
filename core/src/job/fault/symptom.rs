//! What a system does that it should not.

use serde::{Deserialize, Serialize};

use crate::text::{Message, msg};

/// What the system does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Symptom {
    /// It sounds all the time in reverse.
    ConstantAlarm,
    /// It sounds when it rains or freezes.
    WetAlarm,
    /// It sounds on one side, or for the wrong side.
    OneSide,
    /// It sounds for the ground: gravel, grass, a kerb's foot.
    SeesGround,
    /// It misses a pole behind the middle.
    MissesMiddle,
    /// A head does not answer.
    DeadHead,
    /// It warns late.
    LateWarning,
    /// It sounds when the vehicle is loaded or pulls a trailer.
    LoadedAlarm,
}

impl Symptom {
    /// All, in the order in which they are shown.
    pub const ALL: [Self; 8] = [
        Self::ConstantAlarm,
        Self::WetAlarm,
        Self::OneSide,
        Self::SeesGround,
        Self::MissesMiddle,
        Self::DeadHead,
        Self::LateWarning,
        Self::LoadedAlarm,
    ];

    /// Its words.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::ConstantAlarm => "symptom-constant-alarm",
            Self::WetAlarm => "symptom-wet-alarm",
            Self::OneSide => "symptom-one-side",
            Self::SeesGround => "symptom-sees-ground",
            Self::MissesMiddle => "symptom-misses-middle",
            Self::DeadHead => "symptom-dead-head",
            Self::LateWarning => "symptom-late-warning",
            Self::LoadedAlarm => "symptom-loaded-alarm",
        })
    }

    /// Whether it is of use to say where.
    #[must_use]
    pub fn has_place(self) -> bool {
        matches!(
            self,
            Self::ConstantAlarm
                | Self::WetAlarm
                | Self::OneSide
                | Self::SeesGround
                | Self::DeadHead
        )
    }
}

/// Where the system does it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Where {
    /// Not known, or everywhere.
    #[default]
    NotKnown,
    /// On the left.
    Left,
    /// On the right.
    Right,
    /// At one head, 0 for the leftmost.
    Head(u8),
}

impl Where {
    /// Whether a head of so many may be meant.
    #[must_use]
    pub fn means(self, spot: u8, heads: usize) -> bool {
        let spot = usize::from(spot);
        match self {
            Self::NotKnown => true,
            Self::Left => 2 * spot < heads,
            Self::Right => 2 * (spot + 1) > heads,
            Self::Head(head) => usize::from(head) == spot,
        }
    }
}
