//! What to heed and to do at one hole, and how ring and head go in.

use super::{Cutter, Making, Tools};
use crate::decide::ring_set::RingSet;
use crate::kit::{KitSheet, Material};
use crate::text::{Message, msg};
use crate::units::Millimetres;

/// A plastic bumper colder than this is warmed before drilling, °C (our own figure).
pub const WARM_BELOW_CELSIUS: f64 = 12.0;

/// What to heed, as one picture with one press.
pub(super) fn cautions(making: Making, material: Material, tools: &Tools) -> Vec<Message> {
    let mut all = vec![msg("drill-caution-maker")];
    if making.cutter().is_none() {
        return all;
    }
    all.push(msg("drill-caution-eyes"));
    all.push(msg("drill-caution-gloves"));
    let cold = tools.bumper_celsius.is_none_or(|t| t < WARM_BELOW_CELSIUS);
    if material == Material::Plastic && cold {
        all.push(msg("drill-caution-cold"));
    }
    if material == Material::Fibre {
        all.push(msg("drill-caution-dust"));
    }
    all
}

/// What to do at the hole, in order.
pub(super) fn steps(
    label: &str,
    making: Making,
    pilot: Option<Millimetres>,
    stop: Millimetres,
    material: Material,
) -> Vec<Message> {
    let mut all = vec![msg("drill-step-confirm-from-behind").text("label", label)];
    let cutter = making.cutter();
    if cutter.is_none() {
        all.push(making.message());
        all.push(msg("drill-step-check-edge"));
        if matches!(making, Making::CoverOldHole(_)) {
            return all;
        }
    }
    if matches!(making, Making::Saw(_) | Making::StepDrill(_)) {
        all.push(match pilot {
            Some(d) => msg("drill-step-pilot")
                .number("diameter", d.0, 1)
                .mm("stop", stop.0),
            None => msg("drill-step-pilot-thin").mm("stop", stop.0),
        });
    }
    if cutter.is_some() {
        all.push(making.message());
    }
    if cutter == Some(Cutter::Saw) {
        all.push(msg("drill-step-centre-stop").mm("stop", stop.0));
    }
    if cutter.is_some() {
        all.push(msg("drill-step-tape-off"));
    }
    all.push(msg("drill-step-swarf"));
    // A tight fit in the panel causes false alarms, so it is filed free.
    all.push(msg("drill-step-file"));
    all.push(if material == Material::Metal {
        msg("drill-step-touch-in-metal")
    } else {
        msg("drill-step-touch-in")
    });
    all
}

/// Ring and head go in: which ring comes off first, which side up, how the
/// ring seats, and where to press. `on_head` is the ring that sits on the
/// head now, by its name.
#[must_use]
pub fn fitting_steps(sheet: &KitSheet, set: &RingSet, on_head: Option<&str>) -> Vec<Message> {
    let mut all = Vec::new();
    if let Some(on_head) = on_head.filter(|on_head| *on_head != set.ring) {
        let off = |key: &'static str| msg(key).text("ring", on_head.to_owned());
        let how = sheet.ring(on_head).and_then(|ring| ring.comes_off.clone());
        all.push(match how {
            Some(how) => off("drill-step-comes-off-how").text("how", how),
            None => off("drill-step-comes-off"),
        });
    }
    all.push(
        msg("drill-step-arrow-up")
            .message("set", set.name())
            .deg("twice", set.lower_upside_down(sheet).0),
    );
    if let Some(how) = sheet.ring(&set.ring).and_then(|ring| ring.seats.clone()) {
        all.push(
            msg("drill-step-seats")
                .text("ring", set.ring.clone())
                .text("how", how),
        );
    }
    all.push(msg("drill-step-press-edge"));
    all.push(msg("drill-step-clicked-and-tugged"));
    all
}
