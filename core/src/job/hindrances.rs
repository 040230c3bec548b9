//! What of the job itself keeps the drill shut at a spot, beside the gate:
//! fields that cannot be read, an old hole without a size, areas to keep
//! clear of.

use super::behind::{typed_depth, typed_panel};
use super::entry::Whose;
use super::holes::typed_old_hole;
use super::limit::limits_of;
use super::state::JobState;
use crate::decide::look_behind::{NoDrill, Obstacle};
use crate::decide::mark_out::NoDrillReason;
use crate::text::{Message, msg};
use crate::units::{Millimetres, Offset};

/// What was typed at a spot and cannot be read, and an old hole under its
/// mark whose size is not typed: each would pass for nothing there.
pub(super) fn open_fields(
    job: &JobState,
    spot: usize,
    mark: Offset,
    hole: Option<Millimetres>,
) -> Vec<Message> {
    let Ok(small) = u8::try_from(spot) else {
        return Vec::new();
    };
    let here = Whose::Spot(small);
    let panel = typed_panel(job, here).or_else(|| typed_panel(job, Whose::Bumper));
    let old_hole = typed_old_hole(job, small);
    let typed = [
        ("drill-typed-old-hole", old_hole.clone()),
        ("drill-typed-panel", panel),
        // The bumper's counts as not measured, and shuts the drill by itself.
        ("drill-typed-depth", typed_depth(job, here)),
    ];
    let mut why: Vec<Message> = typed
        .into_iter()
        .filter_map(|(what, typed)| Some((what, typed?.err()?)))
        .map(|(what, wrong)| {
            msg("drill-shut-typed-wrong")
                .message("what", msg(what))
                .message("wrong", wrong)
        })
        .collect();
    let hole = hole.unwrap_or_else(|| job.kit.head_hole(job.behind.material));
    let near = hole * 0.5 + limits_of(&job.kit.mark_out, &job.mark_out.limits).clearance;
    let mut old_holes = job.mark_out.old_holes.iter();
    if old_hole.is_none() && old_holes.any(|old| (old.0 - mark.0).abs() <= near.0) {
        why.push(msg("drill-shut-old-hole-asked"));
    }
    why
}

/// The area to keep clear of that a hole at a spot would come into. Areas
/// where no set serves the face angle are the ring set's matter.
pub(super) fn in_an_area(job: &JobState, mark: Offset, hole: Millimetres) -> Option<Message> {
    let clearance = limits_of(&job.kit.mark_out, &job.mark_out.limits).clearance;
    let areas = job.mark_out.no_drill.iter();
    let mut areas = areas.filter(|area| area.why != NoDrillReason::FaceAngle);
    let hit = areas.find(|area| {
        let plain = NoDrill {
            from: area.from,
            to: area.to,
            what: Obstacle::Wiring,
        };
        plain.refuses(mark, hole, clearance)
    })?;
    Some(
        msg("drill-shut-no-drill")
            .message("what", hit.why.message())
            .mm("from", hit.from.0)
            .mm("to", hit.to.0),
    )
}
