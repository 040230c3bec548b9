//! The obstacle learn on the job sheet: what is ignored now, the customer's
//! line, and the proof of every run.

use super::{Block, Section};
use crate::drawing::learn_timeline;
use crate::job::{Attempt, Ignores, JobState, LearnedState, how_cleared, ignores};
use crate::moment;
use crate::text::{Message, msg};

/// The section; `None` where nothing of it was begun.
pub(super) fn learned(job: &JobState) -> Option<Section> {
    let LearnedState {
        shift,
        attempts,
        cleared,
        ..
    } = &job.learned;
    if shift.is_none() && attempts.is_empty() && cleared.is_none() {
        return None;
    }
    let stands = ignores(job);
    let mut lines: Vec<Message> = shift.iter().map(|shift| shift.message()).collect();
    if stands != Ignores::Nothing {
        lines.push(stands.message());
    }
    lines.extend(stands.for_customer());
    if let Some(at) = cleared {
        let when = moment::date_and_clock(at);
        lines.push(msg("sheet-learn-cleared").text("when", when));
    }
    let mut blocks = vec![Block::Lines(lines)];
    for (number, attempt) in (1..).zip(attempts) {
        blocks.push(Block::Lines(attempt_lines(number, attempt)));
        if !attempt.proof.cycles.is_empty() {
            blocks.push(Block::Drawing(learn_timeline(&attempt.proof)));
        }
    }
    Some(Section {
        heading: msg("sheet-learn"),
        blocks,
    })
}

fn attempt_lines(number: i64, attempt: &Attempt) -> Vec<Message> {
    let proof = &attempt.proof;
    let mut lines = vec![
        msg("sheet-learn-attempt")
            .count("number", number)
            .text("when", moment::date_and_clock(&attempt.at))
            .message("object", attempt.object.name())
            .message("outcome", proof.message()),
        proof.summary(),
    ];
    lines.extend(proof.doubts.iter().map(|doubt| doubt.message()));
    lines
}

/// What a reader must know was not settled.
pub(super) fn not_learned(job: &JobState) -> Vec<Message> {
    match ignores(job) {
        Ignores::NotKnown => vec![msg("sheet-open-learn"), how_cleared(job)],
        Ignores::PerhapsThis(_) => vec![msg("sheet-open-learn-by-hand")],
        Ignores::Nothing | Ignores::This(_) | Ignores::Cleared => Vec::new(),
    }
}
