//! What the kit sheet says about an obstacle learn.

use serde::{Deserialize, Serialize};

use crate::kit::{KitSheet, Signal};
use crate::units::Millis;

/// What has to be done so that the control box learns.
#[derive(Clone, Debug, PartialEq)]
pub struct Procedure {
    /// How many times reverse is engaged, the quiet one included.
    pub cycles: u32,
    /// How long the last one has to stay quiet.
    pub silent: Millis,
    /// What confirms a cycle; not given counts as a beep, which asks for
    /// the most proof.
    pub confirmed_by: Signal,
    /// Whether the last cycle beeps before its quiet time. Without beeps
    /// there is none to wait for.
    pub last_beeps: bool,
    /// What confirms the end; not given: the quiet time itself.
    pub ends_with: Signal,
    /// Shortest time in reverse that counts; not given: none.
    pub shortest_dwell: Millis,
    /// Longest pause between two cycles; not given: no limit.
    pub longest_gap: Option<Millis>,
    /// The kit's tone in hertz; not given: learned from the first beep.
    pub tone: Option<f64>,
}

/// What has to be asked before a run can begin.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum NotGiven {
    /// How many cycles and how long the quiet time.
    CyclesAndQuiet,
    /// Whether the last cycle beeps as well: nine beeps or ten.
    LastBeep,
}

/// The procedure of a kit.
///
/// # Errors
/// What the sheet does not say and nobody may guess.
pub fn procedure(kit: &KitSheet) -> Result<Procedure, NotGiven> {
    let learn = kit.obstacle_learn.as_ref();
    let learn = learn.ok_or(NotGiven::CyclesAndQuiet)?;
    let confirmed_by = learn.confirmed_by.unwrap_or(Signal::Beep);
    let last_beeps = match (confirmed_by, learn.last_beeps) {
        (Signal::Beep, Some(last_beeps)) => last_beeps,
        (Signal::Beep, None) => return Err(NotGiven::LastBeep),
        (Signal::Light | Signal::Nothing, _) => false,
    };
    Ok(Procedure {
        cycles: learn.cycles,
        silent: learn.silent,
        confirmed_by,
        last_beeps,
        ends_with: learn.ends_with.unwrap_or(Signal::Nothing),
        shortest_dwell: learn.shortest_dwell.unwrap_or(Millis(0.0)),
        longest_gap: learn.longest_gap,
        tone: learn.tone_hertz,
    })
}

impl Procedure {
    /// Whether its cycles can be heard.
    #[must_use]
    pub fn beeps(&self) -> bool {
        self.confirmed_by == Signal::Beep
    }
}
