//! Evidence about sockets, connectors, water, a broken head.

use super::cause::Cause;
use super::evidence::{Gathered, label};
use crate::decide::leads::RouteRule;
use crate::job::{Answered, JobState, WhichLead, lead_plan, swapped_words_of};
use crate::text::msg;

/// What is known of a head's plug.
pub(super) fn at_head(job: &JobState, cause: Cause, spot: u8) -> Gathered {
    let mut all = Gathered::default();
    match cause {
        Cause::Socket => answered(job, spot, [12, 26, -14], &mut all),
        Cause::LooseConnector => {
            answered(job, spot, [10, -3, -3], &mut all);
            stretched(job, spot, &mut all);
        }
        Cause::Water => {
            answered(job, spot, [3, -2, -1], &mut all);
            route(job, &mut all);
        }
        Cause::HeadBroken => answered(job, spot, [8, -10, -10], &mut all),
        Cause::ThickPaint => answered(job, spot, [4, 0, -2], &mut all),
        _ => {}
    }
    all
}

/// The function check: weights for nothing, another head, itself.
fn answered(job: &JobState, spot: u8, weights: [i16; 3], all: &mut Gathered) {
    let name = label(job, spot);
    let heads = &job.walk.heads;
    let Some(head) = heads.iter().find(|head| head.spot == spot) else {
        all.not_known(msg("unknown-function").text("label", name));
        return;
    };
    let silent = heads.iter().filter(|h| h.answered == Answered::Nothing);
    let everywhere = heads.len() > 1 && silent.count() == heads.len();
    match head.answered {
        // Where no head answers, it is hardly each one's plug.
        Answered::Nothing if everywhere => {
            all.record(weights[0] / 4, msg("evidence-all-silent"));
        }
        Answered::Nothing => {
            all.record(weights[0], msg("head-answers-nothing").text("label", name));
        }
        Answered::Shown(shown) if shown != spot => {
            let said = msg("head-answers-other")
                .text("label", name)
                .text("other", label(job, shown));
            // A pair is said as a pair.
            let said = swapped_words_of(job, spot)
                .filter(|_| weights[1] > 0)
                .unwrap_or(said);
            all.record(weights[1], said);
        }
        Answered::Shown(_) => {
            all.record(weights[2], msg("head-answers-itself").text("label", name));
        }
        // Which socket it is in cannot be heard.
        Answered::Sounds => {
            let points = weights[2] / 2;
            all.record(points, msg("head-answers-sound").text("label", name));
        }
    }
}

/// A lead that does not reach is stretched, and pulls at its plug.
fn stretched(job: &JobState, spot: u8, all: &mut Gathered) {
    match lead_plan(job, WhichLead::Spot(spot)) {
        Some(Err(why)) => all.record(8, why),
        Some(Ok(_)) => {
            let said = msg("evidence-lead-reaches").text("label", label(job, spot));
            all.record(-2, said);
        }
        None => {}
    }
}

/// Rules of the route that keep water out.
fn route(job: &JobState, all: &mut Gathered) {
    let rules = &job.loom.rules;
    let keeps = [RouteRule::LeavesCabinDownward, RouteRule::GrommetSealed];
    if keeps.iter().all(|rule| rules.contains(rule)) {
        all.record(-4, msg("evidence-route-kept"));
    } else {
        all.not_known(msg("unknown-route"));
    }
}
