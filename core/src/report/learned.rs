//! The obstacle learn on the job sheet: what is ignored now, the customer's
//! line, and the proof of every run.

use super::job_sheet::literal;
use super::{Block, Section};
use crate::drawing::learn_timeline;
use crate::job::{Attempt, Ignores, JobState, LearnedState, how_cleared, ignores};
use crate::learn::Proof;
use crate::moment;
use crate::text::{Message, msg};
use crate::units::Millis;

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
    let customer = stands.for_customer();
    lines.extend(customer.map(|line| msg("sheet-for-customer").message("line", line)));
    if let Some(at) = cleared {
        let when = moment::date_and_clock(at);
        lines.push(msg("sheet-learn-cleared").text("when", when));
    }
    let mut blocks = vec![Block::Lines(lines)];
    for (number, attempt) in (1..).zip(attempts) {
        blocks.push(Block::Lines(attempt_lines(number, attempt)));
        if !attempt.proof.cycles.is_empty() {
            blocks.push(Block::Drawing(learn_timeline(&attempt.proof)));
            blocks.push(cycles(&attempt.proof));
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
    lines.extend(proof.listened_at());
    lines.extend(proof.doubts.iter().map(|doubt| doubt.message()));
    lines
}

/// Cycle by cycle: when, who said so, and what was heard.
fn cycles(proof: &Proof) -> Block {
    let head = [
        "sheet-learn-cycle",
        "sheet-learn-in",
        "sheet-learn-out",
        "sheet-learn-by",
        "sheet-learn-beeps",
    ];
    let seconds = |at: Millis| msg("learn-line-reached").number("seconds", at.0 / 1000.0, 1);
    let rows = proof.cycles.iter().zip(1_u32..).map(|(cycle, number)| {
        let out = cycle.released.map_or_else(|| literal("–"), seconds);
        vec![
            literal(&number.to_string()),
            seconds(cycle.engaged),
            out,
            cycle.by.message(),
            literal(&cycle.beeps.to_string()),
        ]
    });
    Block::Table {
        head: head.into_iter().map(msg).collect(),
        rows: rows.collect(),
    }
}

/// What a reader must know was not settled.
pub(super) fn not_learned(job: &JobState) -> Vec<Message> {
    match ignores(job) {
        Ignores::NotKnown => vec![msg("sheet-open-learn"), how_cleared(job)],
        Ignores::PerhapsThis(_) => vec![msg("sheet-open-learn-by-hand")],
        Ignores::Nothing | Ignores::This(_) | Ignores::Tested(_) | Ignores::Cleared => Vec::new(),
    }
}
