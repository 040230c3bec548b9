//! Rakeline's core for other languages, through UniFFI: the module
//! `rakeline` in Python, the package `app.rakeline.core` in Kotlin.
//!
//! # Where to start
//! Every function here is pure: what it is given decides what it gives. A
//! face angle comes from [`read_still`] and [`face_angle`], a ring set from
//! [`ring_set`], a mark-out from [`mark_out_task`] and [`mark_out`], figures
//! out of photos from [`measure_photos`]; [`read_record`], [`diagnose`] and
//! [`coverage`] take a job's record as the app stores it.
//!
//! # Units
//! Lengths are millimetres, angles degrees, times milliseconds, tones hertz;
//! names end in the unit where it is another. Angles are + up, offsets + to
//! the right, seen from behind. `u` is the standard uncertainty, `plus_minus`
//! the 95 % interval.
//!
//! **Boundary:** this face converts and delegates. No rule of the trade, no
//! formula and no word of its own: errors carry the words that the fitter
//! reads ([`Fault`]).

mod coverage;
mod face;
mod fault;
mod ground;
mod hear;
mod kit;
mod learn;
mod mark_out;
mod measured;
mod photo;
mod record;
mod ring_set;
mod suspects;
mod zero;

pub use coverage::{CoverageMap, coverage};
pub use face::{
    Acceleration, CornerAngle, FaceAngle, FaceReading, Feet, Roundness, Side, Still, StillSource,
    Surroundings, UncertaintyPart, Xyz, face_angle, read_still,
};
pub use fault::Fault;
pub use ground::{BoardPair, Ground, ground_by_board, ground_looks_level};
pub use hear::{Beep, Heard, hear_beeps};
pub use kit::{KitFacts, read_kit};
pub use learn::{LearnHappened, LearnMoment, LearnOutcome, LearnWays, obstacle_learn};
pub use mark_out::{
    MarkOutLimits, MarkOutPlan, MarkOutPlans, MarkOutTask, NoDrillArea, PlanKind, mark_out,
    mark_out_task,
};
pub use measured::Measured;
pub use photo::{PhotoFigures, PhotoGap, PhotoMark, measure_photos};
pub use record::{JobFacts, SpotFacts, read_record};
pub use ring_set::{
    FaceOrigin, PanelMaterial, RightBetween, RingChoice, RingSet, RingVerdict, ServedBetween,
    ring_set,
};
pub use suspects::{Diagnosis, Suspect, diagnose};
pub use zero::{Pose, PoseReading, Zeroing, zero_phone};

uniffi::setup_scaffolding!("rakeline");
