//! What may be behind a fault.

use serde::{Deserialize, Serialize};

use crate::job::Finding;
use crate::text::{Message, msg};

/// A possible cause.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Cause {
    /// A head points below level.
    AimBelowLevel,
    /// A ring sits upside down, or is not the one that belongs there.
    RingWrong,
    /// A head in metal without the insert that keeps it off.
    MetalWithoutInsert,
    /// A head is squeezed: it rings on, or its ringing goes into the panel.
    TightFit,
    /// Paint on the head is too thick, or bridges the gap round it.
    ThickPaint,
    /// A head sits with its arrow down.
    HeadUpsideDown,
    /// Something fixed stands in the field.
    ObjectInField,
    /// Load or trailer lowers the rear.
    Load,
    /// A lead is in no socket, or in another head's.
    Socket,
    /// Too few volts reach the control box.
    SupplyDrop,
    /// The reversing lamp's feed is pulsed.
    PulsedFeed,
    /// A connector or lead has a bad contact.
    LooseConnector,
    /// Water or ice in a connector, behind or on a head.
    Water,
    /// What the control box learned to ignore is not what is there.
    LearnedWrong,
    /// The heads sit higher or lower than the sheet allows.
    HeightOutside,
    /// The middle heads are too far apart.
    GapBetween,
    /// A head points too far up.
    AimTooHigh,
    /// The head itself is broken.
    HeadBroken,
}

impl Cause {
    /// All of them.
    pub const ALL: [Self; 18] = [
        Self::AimBelowLevel,
        Self::RingWrong,
        Self::MetalWithoutInsert,
        Self::TightFit,
        Self::ThickPaint,
        Self::HeadUpsideDown,
        Self::ObjectInField,
        Self::Load,
        Self::Socket,
        Self::SupplyDrop,
        Self::PulsedFeed,
        Self::LooseConnector,
        Self::Water,
        Self::LearnedWrong,
        Self::HeightOutside,
        Self::GapBetween,
        Self::AimTooHigh,
        Self::HeadBroken,
    ];

    /// Its name.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::AimBelowLevel => "cause-aim-below-level",
            Self::RingWrong => "cause-ring-wrong",
            Self::MetalWithoutInsert => "cause-metal-without-insert",
            Self::TightFit => "cause-tight-fit",
            Self::ThickPaint => "cause-thick-paint",
            Self::HeadUpsideDown => "cause-head-upside-down",
            Self::ObjectInField => "cause-object-in-field",
            Self::Load => "cause-load",
            Self::Socket => "cause-socket",
            Self::SupplyDrop => "cause-supply-drop",
            Self::PulsedFeed => "cause-pulsed-feed",
            Self::LooseConnector => "cause-loose-connector",
            Self::Water => "cause-water",
            Self::LearnedWrong => "cause-learned-wrong",
            Self::HeightOutside => "cause-height-outside",
            Self::GapBetween => "cause-gap-between",
            Self::AimTooHigh => "cause-aim-too-high",
            Self::HeadBroken => "cause-head-broken",
        })
    }

    /// The cheapest check at the car.
    #[must_use]
    pub fn check(self) -> Message {
        msg(match self {
            Self::AimBelowLevel => "check-aim-below-level",
            Self::RingWrong => "check-ring-wrong",
            Self::MetalWithoutInsert => "check-metal-without-insert",
            Self::TightFit => "check-tight-fit",
            Self::ThickPaint => "check-thick-paint",
            Self::HeadUpsideDown => "check-head-upside-down",
            Self::ObjectInField => "check-object-in-field",
            Self::Load => "check-load",
            Self::Socket => "check-socket",
            Self::SupplyDrop => "check-supply-drop",
            Self::PulsedFeed => "check-pulsed-feed",
            Self::LooseConnector => "check-loose-connector",
            Self::Water => "check-water",
            Self::LearnedWrong => "check-learned-wrong",
            Self::HeightOutside => "check-height-outside",
            Self::GapBetween => "check-gap-between",
            Self::AimTooHigh => "check-aim-too-high",
            Self::HeadBroken => "check-head-broken",
        })
    }

    /// The question that the check answers.
    #[must_use]
    pub fn settled_by(self) -> Finding {
        match self {
            Self::AimBelowLevel | Self::AimTooHigh => Finding::PointsUp,
            Self::RingWrong => Finding::RingRight,
            Self::MetalWithoutInsert => Finding::InsertThere,
            Self::TightFit => Finding::SitsFree,
            Self::ThickPaint => Finding::PaintThin,
            Self::HeadUpsideDown => Finding::HeadUp,
            Self::ObjectInField => Finding::GoesWithoutObject,
            Self::Load => Finding::OnlyLoaded,
            Self::Socket => Finding::PlugRight,
            Self::SupplyDrop => Finding::VoltsEnough,
            Self::PulsedFeed => Finding::GoesOnSteadyFeed,
            Self::LooseConnector => Finding::WiggleChanges,
            Self::Water => Finding::WaterSeen,
            Self::LearnedWrong => Finding::LearnedSame,
            Self::HeightOutside => Finding::HeightRight,
            Self::GapBetween => Finding::SpacingRight,
            Self::HeadBroken => Finding::StaysWithHead,
        }
    }

    /// Whether it sits at a head: then it is weighed head by head.
    #[must_use]
    pub fn is_at_head(self) -> bool {
        match self {
            Self::AimBelowLevel
            | Self::RingWrong
            | Self::MetalWithoutInsert
            | Self::TightFit
            | Self::ThickPaint
            | Self::HeadUpsideDown
            | Self::Socket
            | Self::LooseConnector
            | Self::Water
            | Self::AimTooHigh
            | Self::HeadBroken => true,
            Self::ObjectInField
            | Self::Load
            | Self::SupplyDrop
            | Self::PulsedFeed
            | Self::LearnedWrong
            | Self::HeightOutside
            | Self::GapBetween => false,
        }
    }
}
