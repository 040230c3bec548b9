//! Evidence about how heads sit: metal and insert, tight fit, paint.

use super::cause::Cause;
use super::evidence::{Gathered, is_recorded, label};
use crate::decide::drill::depth_needed;
use crate::decide::look_behind::{Behind, Obstacle};
use crate::job::{Finding, JobState, YesNo, look, paint_typed, set_taken};
use crate::kit::Material;
use crate::text::msg;
use crate::units::Millimetres;

/// A hole smaller than needed by more than this squeezes, mm (our own figure).
const SQUEEZES: Millimetres = Millimetres(0.05);
/// Paint thicker than this is thick where the sheet gives no limit, mm (our
/// own figure: two coats and lacquer are about 0.12).
const PAINT_THICK: Millimetres = Millimetres(0.2);

/// What is known of how a head sits.
pub(super) fn at_head(job: &JobState, cause: Cause, spot: u8) -> Gathered {
    match cause {
        Cause::MetalWithoutInsert => metal(job, spot),
        Cause::TightFit => tight(job, spot),
        Cause::ThickPaint => paint(job, spot),
        _ => Gathered::default(),
    }
}

/// Whether the panel is metal: as found, else as recorded once anything
/// hangs on it; plastic is what a job starts with and says little.
fn is_metal(job: &JobState) -> Option<bool> {
    match job.fault.answer(Finding::PanelMetal, None) {
        Some(answer) => Some(answer == YesNo::Yes),
        None if job.behind.material == Material::Metal => Some(true),
        None => is_recorded(job).then_some(false),
    }
}

fn metal(job: &JobState, spot: u8) -> Gathered {
    let mut all = Gathered::default();
    let name = label(job, spot);
    let found = job.fault.answer(Finding::InsertThere, Some(spot));
    let set = set_taken(job, usize::from(spot)).map(|taken| taken.set);
    match is_metal(job) {
        None => all.not_known(msg("unknown-metal")),
        Some(false) => {
            // What was found weighs by its own answer.
            if job.fault.answer(Finding::PanelMetal, None).is_none() {
                all.record(-8, msg("evidence-not-metal"));
            }
        }
        Some(true) => match (found, set) {
            (Some(YesNo::No), _) => {
                all.car(
                    30,
                    msg("evidence-metal-no-insert-found").text("label", name),
                );
            }
            (Some(YesNo::Yes), _) => {}
            (None, Some(set)) if set.insert.is_none() => {
                all.record(25, msg("evidence-metal-no-insert").text("label", name));
            }
            (None, Some(_)) => {
                all.record(
                    -12,
                    msg("evidence-metal-insert").text("label", name.clone()),
                );
                all.not_known(msg("unknown-insert").text("label", name));
            }
            (None, None) if hole_for_bare_head(job, spot) => {
                all.record(24, msg("evidence-metal-small-hole").text("label", name));
            }
            (None, None) if no_insert_in_kit(job) => {
                all.record(22, msg("evidence-metal-kit-without"));
            }
            (None, None) => {
                all.record(8, msg("evidence-metal"));
                all.not_known(msg("unknown-insert").text("label", name));
            }
        },
    }
    all
}

/// The hole is too small for any insert of the kit.
fn hole_for_bare_head(job: &JobState, spot: u8) -> bool {
    let drilled = job.holes.drilled.get(&spot);
    let mut inserts = job.kit.inserts.iter().peekable();
    inserts.peek().is_some()
        && drilled.is_some_and(|hole| inserts.all(|insert| hole.diameter < insert.hole - SQUEEZES))
}

/// The recorded kit has no insert; another's kit is not known.
fn no_insert_in_kit(job: &JobState) -> bool {
    job.kit.inserts.is_empty() && job.fault.elsewhere.is_none()
}

fn tight(job: &JobState, spot: u8) -> Gathered {
    let mut all = Gathered::default();
    let name = label(job, spot);
    hole(job, spot, &mut all);
    let look = look(job);
    if let (Some(panel), Some(grip)) = (look.panel(&name), &job.kit.heads.grip)
        && panel > grip.greatest
    {
        let said = msg("evidence-panel-thick")
            .text("label", name.clone())
            .number("panel", panel.0, 1)
            .number("greatest", grip.greatest.0, 1);
        all.record(20, said);
    }
    if let (Some(depth), Ok(needs)) = (look.depth(&name), depth_needed(&job.kit.heads))
        && depth < needs
    {
        let said = msg("evidence-depth-short")
            .text("label", name.clone())
            .number("depth", depth.0, 1)
            .number("needs", needs.0, 1);
        all.record(18, said);
    }
    if let Some(Behind::SomethingThere(what)) = look.behind(&name) {
        let presses = |what: &&Obstacle| {
            matches!(
                what,
                Obstacle::RidgeOrStep | Obstacle::Foam(_) | Obstacle::CrashBeam
            )
        };
        if let Some(what) = what.iter().find(presses) {
            let said = msg("evidence-presses")
                .text("label", name)
                .message("what", what.message());
            all.record(10, said);
        }
    }
    all
}

/// The hole that was made against the one that the head's set needs.
fn hole(job: &JobState, spot: u8, all: &mut Gathered) {
    let name = label(job, spot);
    let Some(drilled) = job.holes.drilled.get(&spot) else {
        all.not_known(msg("unknown-hole").text("label", name));
        return;
    };
    let set = set_taken(job, usize::from(spot)).map(|taken| taken.set);
    let needs = set
        .and_then(|set| set.hole(&job.kit, job.behind.material))
        .unwrap_or_else(|| job.kit.head_hole(job.behind.material));
    let figures = |key: &'static str| {
        msg(key)
            .text("label", name.clone())
            .number("hole", drilled.diameter.0, 1)
            .number("needs", needs.0, 1)
    };
    if drilled.diameter < needs - SQUEEZES {
        all.record(24, figures("evidence-hole-small"));
    } else {
        all.record(-4, figures("evidence-hole-right"));
    }
    all.not_known(msg("unknown-sits-free").text("label", name));
}

/// What the sheet allows; another's kit is not known.
fn sheet_limit(job: &JobState) -> Option<Millimetres> {
    job.kit
        .paint_limit
        .filter(|_| job.fault.elsewhere.is_none())
}

/// Paint that is thick: over the sheet's limit, else over our own.
pub(super) fn paint_limit(job: &JobState) -> Millimetres {
    sheet_limit(job).unwrap_or(PAINT_THICK)
}

fn paint(job: &JobState, spot: u8) -> Gathered {
    let mut all = Gathered::default();
    let name = label(job, spot);
    let Some(Ok(paint)) = paint_typed(job, spot) else {
        all.not_known(msg("unknown-paint").text("label", name));
        return all;
    };
    let limit = paint_limit(job);
    let (thick, thin) = if sheet_limit(job).is_some() {
        (25, -20)
    } else {
        (15, -8)
    };
    let figures = |key: &'static str| {
        msg(key)
            .text("label", name.clone())
            .number("paint", paint.0, 2)
            .number("limit", limit.0, 2)
    };
    if paint > limit {
        all.car(thick, figures("evidence-paint-thick"));
    } else {
        all.car(thin, figures("evidence-paint-thin"));
    }
    all
}
