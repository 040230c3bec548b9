//! What can be found at the car, as questions with yes or no.
//!
//! Each is worded so that yes says what the question says; an answer that
//! was not given is not known, never no.

use serde::{Deserialize, Serialize};

use crate::text::{Message, msg};

/// Yes or no.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum YesNo {
    /// It is so.
    Yes,
    /// It is not.
    No,
}

/// A question at the car.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Finding {
    /// From the side the head points level or up.
    PointsUp,
    /// The ring is the one on the sheet, the right way up.
    RingRight,
    /// The head's arrow is up.
    HeadUp,
    /// The panel is metal.
    PanelMetal,
    /// The insert is there.
    InsertThere,
    /// The head sits without force, nothing presses on it.
    SitsFree,
    /// Paint on the head is one thin coat, and the gap round it is open.
    PaintThin,
    /// Something fixed sticks into the field.
    ObjectThere,
    /// The fault goes when that is taken off or covered.
    GoesWithoutObject,
    /// The fault comes only with load or trailer.
    OnlyLoaded,
    /// It sounds over gravel or grass, not over smooth ground.
    OnlyRoughGround,
    /// The plug is in its own socket and clicked.
    PlugRight,
    /// Moving plug or lead changes the fault.
    WiggleChanges,
    /// Two plugs changed over: the fault stays with the head's place.
    StaysWithHead,
    /// The fault goes when this head's plug is out.
    GoesUnplugged,
    /// Enough volts at the control box while the fault is there.
    VoltsEnough,
    /// The fault goes on a steady fused feed.
    GoesOnSteadyFeed,
    /// The reversing lamp's feed is pulsed, an LED's, or switched by a unit.
    FeedPulsed,
    /// Water, green or ice in a plug, behind the head or on its face.
    WaterSeen,
    /// The fault goes when the head is dried or thawed.
    GoesWhenDry,
    /// What the control box learned to ignore is as it was then.
    LearnedSame,
    /// The heads' height is inside the sheet's range.
    HeightRight,
    /// The middle heads are no further apart than the sheet allows.
    SpacingRight,
}

/// An answer at the car.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Found {
    /// The question.
    pub finding: Finding,
    /// The head it was answered for; `None` for the vehicle.
    pub spot: Option<u8>,
    /// The answer.
    pub answer: YesNo,
}

impl Finding {
    /// All, in the order in which they are shown.
    pub const ALL: [Self; 23] = [
        Self::PointsUp,
        Self::RingRight,
        Self::HeadUp,
        Self::PanelMetal,
        Self::InsertThere,
        Self::SitsFree,
        Self::PaintThin,
        Self::ObjectThere,
        Self::GoesWithoutObject,
        Self::OnlyLoaded,
        Self::OnlyRoughGround,
        Self::PlugRight,
        Self::WiggleChanges,
        Self::StaysWithHead,
        Self::GoesUnplugged,
        Self::VoltsEnough,
        Self::GoesOnSteadyFeed,
        Self::FeedPulsed,
        Self::WaterSeen,
        Self::GoesWhenDry,
        Self::LearnedSame,
        Self::HeightRight,
        Self::SpacingRight,
    ];

    /// The question.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::PointsUp => "finding-points-up",
            Self::RingRight => "finding-ring-right",
            Self::HeadUp => "finding-head-up",
            Self::PanelMetal => "finding-panel-metal",
            Self::InsertThere => "finding-insert-there",
            Self::SitsFree => "finding-sits-free",
            Self::PaintThin => "finding-paint-thin",
            Self::ObjectThere => "finding-object-there",
            Self::GoesWithoutObject => "finding-goes-without-object",
            Self::OnlyLoaded => "finding-only-loaded",
            Self::OnlyRoughGround => "finding-only-rough-ground",
            Self::PlugRight => "finding-plug-right",
            Self::WiggleChanges => "finding-wiggle-changes",
            Self::StaysWithHead => "finding-stays-with-head",
            Self::GoesUnplugged => "finding-goes-unplugged",
            Self::VoltsEnough => "finding-volts-enough",
            Self::GoesOnSteadyFeed => "finding-goes-on-steady-feed",
            Self::FeedPulsed => "finding-feed-pulsed",
            Self::WaterSeen => "finding-water-seen",
            Self::GoesWhenDry => "finding-goes-when-dry",
            Self::LearnedSame => "finding-learned-same",
            Self::HeightRight => "finding-height-right",
            Self::SpacingRight => "finding-spacing-right",
        })
    }

    /// Whether it is asked for one head.
    #[must_use]
    pub fn has_head(self) -> bool {
        matches!(
            self,
            Self::PointsUp
                | Self::RingRight
                | Self::HeadUp
                | Self::InsertThere
                | Self::SitsFree
                | Self::PaintThin
                | Self::PlugRight
                | Self::WiggleChanges
                | Self::StaysWithHead
                | Self::GoesUnplugged
                | Self::WaterSeen
                | Self::GoesWhenDry
        )
    }
}
