//! The stated weights, as data.
//!
//! A weight is evidence in decibans, ten times the common logarithm of a
//! likelihood ratio (I. J. Good, Probability and the Weighing of Evidence,
//! 1950): +10 makes a cause ten times likelier against the others, +3 twice,
//! -10 a tenth. The figures are our own judgement of the physics and of
//! workshop practice, no statistics; they stand here to be read and argued
//! with. 30 is what was looked at directly, 20 to 25 what was measured, 10 to
//! 15 what a plan or a test says, below that a hint.

use super::cause::Cause::{self, *};
use crate::job::Finding;

/// How often a cause is met before anything is known.
pub(super) const fn prior(cause: Cause) -> i16 {
    match cause {
        AimBelowLevel | RingWrong | ObjectInField | Socket => 2,
        TightFit | SupplyDrop | PulsedFeed | LooseConnector | Water => 1,
        MetalWithoutInsert | ThickPaint | HeadUpsideDown | Load => 0,
        LearnedWrong | HeightOutside | GapBetween => -2,
        AimTooHigh | HeadBroken => -3,
    }
}

/// How a cause fits a symptom, in the order of [`crate::job::Symptom::ALL`]:
/// constant, wet, one side, ground, middle missed, dead head, late, loaded.
pub(super) const fn fits(cause: Cause) -> [i16; 8] {
    match cause {
        // The main lobe meets the ground; gravel and wet sheen echo.
        AimBelowLevel => [6, 2, 2, 9, 3, -4, 2, 5],
        // Lifts too little, or lowers by as much: like a low aim, at one head.
        RingWrong => [5, 2, 5, 8, 5, -2, 4, 3],
        // The panel rings with the head: it never gets quiet, or is damped.
        MetalWithoutInsert => [8, 3, 4, -2, 2, 2, 5, -4],
        // Squeezed rings on; plastic shrinks in frost and squeezes more.
        TightFit => [8, 6, 4, -2, 2, 3, 4, -3],
        // A heavy, damped membrane: weak, late, in the end dead.
        ThickPaint => [5, 1, 3, -3, 6, 4, 9, -4],
        // The head's own beam points down, and is flat the wrong way round.
        HeadUpsideDown => [5, 1, 4, 7, 5, -2, 3, 3],
        // It is there all the time, also in rain.
        ObjectInField => [8, -2, 6, 0, 0, -6, -3, 4],
        // Only when it is loaded.
        Load => [-2, -4, -3, 5, -3, -8, -2, 12],
        // A head that is not plugged is dead; one in another's socket warns there.
        Socket => [2, -3, 7, -5, 6, 9, 3, -4],
        // Starts late, drops out; trailer lamps pull the feed down.
        SupplyDrop => [3, 1, -5, -5, 2, 3, 8, 6],
        // The box starts again and again.
        PulsedFeed => [7, -2, -5, -5, 2, 1, 7, 4],
        // On and off, mostly at one head; damp makes it worse.
        LooseConnector => [3, 5, 5, -5, 3, 8, 3, 1],
        // Leakage, corrosion, ice on the face.
        Water => [5, 10, 5, -1, 1, 5, 2, -4],
        // Ignores too much, or sees again what it should ignore.
        LearnedWrong => [6, -2, 4, -1, 6, -6, 4, 4],
        // Too low sees the ground, too high overlooks.
        HeightOutside => [3, 0, -4, 7, 3, -6, 5, 4],
        // A pole between two beams.
        GapBetween => [-6, -4, -3, -6, 9, -6, 3, -3],
        // Over the pole, over what is low.
        AimTooHigh => [-6, -4, 1, -9, 5, -2, 6, -3],
        // Anything is possible, and rare.
        HeadBroken => [2, 1, 4, -5, 3, 7, 2, -4],
    }
}

/// What an answer does to the causes.
pub(super) struct Says {
    /// The question.
    pub finding: Finding,
    /// Weights for yes.
    pub yes: &'static [(Cause, i16)],
    /// Weights for no.
    pub no: &'static [(Cause, i16)],
}

/// All questions.
pub(super) const FINDINGS: [Says; 23] = [
    Says {
        finding: Finding::PointsUp,
        yes: &[(AimBelowLevel, -20), (RingWrong, -8), (HeadUpsideDown, -5)],
        no: &[
            (AimBelowLevel, 28),
            (RingWrong, 8),
            (HeadUpsideDown, 8),
            (AimTooHigh, -25),
        ],
    },
    Says {
        finding: Finding::RingRight,
        yes: &[(RingWrong, -30), (AimBelowLevel, -2)],
        no: &[(RingWrong, 30), (AimBelowLevel, 5)],
    },
    Says {
        finding: Finding::HeadUp,
        yes: &[(HeadUpsideDown, -30)],
        no: &[(HeadUpsideDown, 30), (AimBelowLevel, 3)],
    },
    // Together with the insert: see the evidence of the fit.
    Says {
        finding: Finding::PanelMetal,
        yes: &[],
        no: &[(MetalWithoutInsert, -30)],
    },
    Says {
        finding: Finding::InsertThere,
        yes: &[(MetalWithoutInsert, -30)],
        no: &[],
    },
    Says {
        finding: Finding::SitsFree,
        yes: &[(TightFit, -30)],
        no: &[(TightFit, 30)],
    },
    Says {
        finding: Finding::PaintThin,
        yes: &[(ThickPaint, -30)],
        no: &[(ThickPaint, 30), (TightFit, 2)],
    },
    Says {
        finding: Finding::ObjectThere,
        yes: &[(ObjectInField, 20), (LearnedWrong, 3)],
        no: &[(ObjectInField, -30)],
    },
    Says {
        finding: Finding::GoesWithoutObject,
        yes: &[(ObjectInField, 30), (LearnedWrong, 5)],
        no: &[(ObjectInField, -25)],
    },
    Says {
        finding: Finding::OnlyLoaded,
        yes: &[
            (Load, 26),
            (SupplyDrop, 3),
            (ObjectInField, 2),
            (MetalWithoutInsert, -8),
            (TightFit, -8),
            (ThickPaint, -8),
            (HeadUpsideDown, -5),
            (Socket, -10),
            (Water, -8),
            (HeadBroken, -8),
        ],
        no: &[(Load, -28)],
    },
    Says {
        finding: Finding::OnlyRoughGround,
        yes: &[
            (AimBelowLevel, 12),
            (RingWrong, 8),
            (HeadUpsideDown, 7),
            (HeightOutside, 7),
            (Load, 3),
            (ObjectInField, -12),
            (Socket, -10),
            (PulsedFeed, -10),
            (SupplyDrop, -8),
            (MetalWithoutInsert, -8),
            (TightFit, -8),
            (Water, -5),
        ],
        no: &[(AimBelowLevel, -5), (HeightOutside, -5)],
    },
    Says {
        finding: Finding::PlugRight,
        yes: &[(Socket, -30), (LooseConnector, -3)],
        no: &[(Socket, 30)],
    },
    Says {
        finding: Finding::WiggleChanges,
        yes: &[
            (LooseConnector, 30),
            (Water, 3),
            (Socket, 3),
            (HeadBroken, -8),
        ],
        no: &[(LooseConnector, -18)],
    },
    Says {
        finding: Finding::StaysWithHead,
        yes: &[
            (HeadBroken, 15),
            (TightFit, 6),
            (ThickPaint, 6),
            (MetalWithoutInsert, 5),
            (RingWrong, 4),
            (HeadUpsideDown, 4),
            (AimBelowLevel, 3),
            (Water, 3),
            (Socket, -18),
        ],
        no: &[
            (Socket, 12),
            (LooseConnector, 6),
            (HeadBroken, -25),
            (TightFit, -12),
            (ThickPaint, -12),
            (MetalWithoutInsert, -12),
            (RingWrong, -12),
            (HeadUpsideDown, -12),
            (AimBelowLevel, -10),
        ],
    },
    Says {
        finding: Finding::GoesUnplugged,
        yes: &[
            (TightFit, 5),
            (MetalWithoutInsert, 5),
            (ThickPaint, 4),
            (RingWrong, 4),
            (AimBelowLevel, 4),
            (HeadUpsideDown, 4),
            (Water, 4),
            (HeadBroken, 5),
            (LooseConnector, 2),
            (SupplyDrop, -12),
            (PulsedFeed, -12),
        ],
        no: &[
            (TightFit, -8),
            (MetalWithoutInsert, -8),
            (ThickPaint, -6),
            (RingWrong, -8),
            (AimBelowLevel, -8),
            (HeadUpsideDown, -8),
            (Water, -6),
            (HeadBroken, -10),
            (SupplyDrop, 4),
            (PulsedFeed, 6),
        ],
    },
    Says {
        finding: Finding::VoltsEnough,
        yes: &[(SupplyDrop, -25)],
        no: &[(SupplyDrop, 30), (PulsedFeed, 3)],
    },
    Says {
        finding: Finding::GoesOnSteadyFeed,
        yes: &[(PulsedFeed, 22), (SupplyDrop, 18)],
        no: &[(PulsedFeed, -28), (SupplyDrop, -22)],
    },
    Says {
        finding: Finding::FeedPulsed,
        yes: &[(PulsedFeed, 25)],
        no: &[(PulsedFeed, -28)],
    },
    Says {
        finding: Finding::WaterSeen,
        yes: &[(Water, 30), (LooseConnector, 2)],
        no: &[(Water, -20)],
    },
    Says {
        finding: Finding::GoesWhenDry,
        yes: &[(Water, 20), (TightFit, 1)],
        no: &[(Water, -18)],
    },
    Says {
        finding: Finding::LearnedSame,
        yes: &[(LearnedWrong, -25)],
        no: &[(LearnedWrong, 30), (ObjectInField, 3)],
    },
    Says {
        finding: Finding::HeightRight,
        yes: &[(HeightOutside, -30)],
        no: &[(HeightOutside, 30)],
    },
    Says {
        finding: Finding::SpacingRight,
        yes: &[(GapBetween, -30)],
        no: &[(GapBetween, 30)],
    },
];
