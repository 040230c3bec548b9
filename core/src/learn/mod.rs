//! Obstacle learn: the timed reverse cycles by which a control box learns to
//! ignore something fixed behind the vehicle.
//!
//! [`procedure`] reads from the kit sheet what has to be done, [`step`] follows
//! a run of it event by event, [`Proof`] is what stays of a run. Nothing is
//! taken as done that was not seen: a run that was not proved by what the
//! microphone heard, with reverse seen by taps or keys, ends 'not confirmed' at
//! best.

mod cycle;
mod due;
mod event;
mod hear;
mod procedure;
mod proof;
mod run;
mod slip;
mod sound;
mod state;
#[cfg(test)]
mod tests;
mod voice;
mod words;

pub use cycle::{Cycle, Kind, Noted};
pub use event::{Action, Cue, Event, Heard, Source};
pub use procedure::{NotGiven, Procedure, procedure};
pub use proof::{BEEPS_KEPT, Outcome, Proof, ProvedBeep, ProvedCycle, Standing};
pub use run::{Step, step};
pub use state::{
    ALONE_PAUSE, BOUNCE, BURST, Cause, DEAF, Doubt, EARLY, END_WAIT, LAG, LATE, LONGEST_BEEP,
    Listening, NO_BEEP_AFTER, Phase, Quiet, Run, SAME_TONE, STALL, UNDO_WITHIN, Ways, Why,
};
