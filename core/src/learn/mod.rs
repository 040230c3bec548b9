//! Obstacle learn: the timed reverse cycles by which a control box learns to
//! ignore something fixed behind the vehicle.
//!
//! [`procedure`] reads from the kit sheet what has to be done, [`step`] follows
//! a run of it event by event, [`Proof`] is what stays of a run. Nothing is
//! taken as done that was not seen: a run that was not proved by what the
//! microphone heard, with reverse seen by taps or keys, ends 'not confirmed' at
//! best.

mod due;
mod event;
mod hear;
mod procedure;
mod proof;
mod run;
mod slip;
mod state;
#[cfg(test)]
mod tests;
mod words;

pub use event::{Action, Cue, Event, Heard, Source};
pub use procedure::{NotGiven, Procedure, procedure};
pub use proof::{BEEPS_KEPT, Outcome, Proof, ProvedBeep, ProvedCycle, Standing};
pub use run::{Step, step};
pub use state::{
    ALONE_PAUSE, BOUNCE, BURST, Cause, Cycle, Doubt, EARLY, END_WAIT, Kind, LAG, LATE, Listening,
    NO_BEEP_AFTER, Noted, Phase, Quiet, Run, SAME_TONE, STALL, UNDO_WITHIN, Ways, Why,
};
