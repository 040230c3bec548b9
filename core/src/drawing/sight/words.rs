//! What the pictures come to, in words.

use super::{Day, Scene, SightAsked, Standing};
use crate::decide::coverage::{
    Area, KERB_LOSS, Summary, TEST_CELL, View, advise, ground_pickup_change, map, summary,
    too_close,
};
use crate::decide::ring_set::aim_words;
use crate::job::{
    ASSUMED_RANGE, AirField, Field, JobState, Placed, air_trouble, fixed_object, offset_words,
};
use crate::text::{Message, msg};
use crate::units::{COVERAGE_95, Degrees, Millimetres};

/// The rectangle that is summed up, and what it comes to.
pub(super) struct Summed {
    pub area: Area,
    pub summary: Summary,
}

pub(super) fn summed(scene: &Scene) -> Summed {
    let [left, right] = scene.half_widths().map(Millimetres);
    let area = Area::detection(left, right);
    let found = map(scene.heads, View::Above(scene.target), area, &scene.air);
    Summed {
        summary: summary(&found, scene.heads),
        area,
    }
}

pub(super) fn headline(summed: &Summed) -> Message {
    let area = |message: Message| {
        message
            .number("near", summed.area.rows_from.0 / 1e3, 1)
            .number("far", summed.area.rows_to.0 / 1e3, 1)
    };
    match summed.summary.share() {
        Some(share) => area(msg("sight-share").number("percent", 100.0 * share, 0)),
        None => area(msg("sight-no-share")),
    }
}

pub(super) fn lines(summed: &Summed, scene: &Scene) -> Vec<Message> {
    let of = &summed.summary;
    let mut lines = Vec::new();
    // Where no square counts, as the headline says, no gap is told of.
    let gap = match &of.gap {
        _ if of.counted == 0 => None,
        Some(gap) => Some(
            msg("sight-gap")
                .mm("wide", (gap.right - gap.left).0)
                .mm("deep", (gap.far - gap.near).0)
                .message("from", offset_words(gap.left))
                .message("to", offset_words(gap.right))
                .number("behind", gap.near.0 / 1e3, 1),
        ),
        None => Some(msg("sight-no-gap")),
    };
    lines.extend(gap);
    if let Some(weakest) = &of.weakest {
        let [left, right] = weakest.between.clone();
        lines.push(
            msg("sight-weakest")
                .text("left", left)
                .text("right", right)
                .message("across", offset_words(weakest.at.across))
                .number("behind", weakest.at.behind.0 / 1e3, 2)
                .message("spare", spare(weakest.level.map(|level| level.0))),
        );
    }
    if let Some(head) = scene.heads.first() {
        let near = too_close(head.sensor.ringing, &scene.air);
        lines.push(
            msg("sight-too-close")
                .mm("near", near.0)
                .count("squares", i64::try_from(of.too_close).unwrap_or_default())
                .mm("cell", TEST_CELL.0),
        );
    }
    lines
}

/// '7 dB to spare', '3 dB short', 'no echo'.
fn spare(level: Option<f64>) -> Message {
    match level {
        Some(level) if level >= 0.0 => msg("sight-spare").number("db", level, 0),
        Some(level) => msg("sight-short").number("db", -level, 0),
        None => msg("sight-no-echo"),
    }
}

pub(super) fn ground(scene: &Scene) -> Vec<Message> {
    let line = |head: &crate::decide::coverage::HeadInPlace| {
        let change = ground_pickup_change(&head.sensor.beam, head.height, head.aim, &scene.air);
        let what = match change {
            Some(change) if change.0 >= 0.05 => msg("sight-ground-more").number("db", change.0, 1),
            Some(change) if change.0 <= -0.05 => {
                msg("sight-ground-less").number("db", -change.0, 1)
            }
            Some(_) => msg("sight-ground-same"),
            None => msg("sight-ground-none"),
        };
        msg("sight-ground")
            .text("label", head.label.clone())
            .message("aim", aim_words(head.aim))
            .message("what", what)
    };
    scene.heads.iter().map(line).collect()
}

pub(super) fn probed(scene: &Scene) -> Vec<Message> {
    let levels = scene.at_probe();
    let line = |(head, level): (&crate::decide::coverage::HeadInPlace, _)| {
        let level: &crate::decide::coverage::HeadLevel = level;
        let what = match (level.level, level.too_close) {
            (_, true) => msg("sight-probe-near").mm("range", level.range.0),
            (Some(found), _) if found.0 >= 0.0 => {
                msg("sight-probe-seen").message("spare", spare(Some(found.0)))
            }
            (Some(found), _) => msg("sight-probe-not").message("spare", spare(Some(found.0))),
            (None, _) => msg("sight-probe-behind"),
        };
        msg("sheet-head-line")
            .text("label", head.label.clone())
            .message("what", what)
    };
    scene.all.iter().zip(&levels).map(line).collect()
}

pub(super) fn object(scene: &Scene) -> Vec<Message> {
    match fixed_object(scene.job) {
        None => Vec::new(),
        Some(Err(missing)) => vec![missing],
        Some(Ok(object)) => {
            let found = advise(scene.all, &object, &scene.air, &scene.job.kit);
            let mut lines = Vec::new();
            if !found.seen_by.is_empty() {
                lines.push(msg("object-seen-by").text("heads", found.seen_by.join(", ")));
            }
            if !found.too_close_for.is_empty() {
                lines.push(
                    msg("object-too-close-for").text("heads", found.too_close_for.join(", ")),
                );
            }
            lines.extend(found.steps);
            lines
        }
    }
}

/// Which of the air's figures were typed.
fn air_words(job: &JobState) -> Message {
    let fields = [
        (AirField::Celsius, "sight-air-celsius"),
        (AirField::Humidity, "sight-air-humidity"),
        (AirField::Pressure, "sight-air-pressure"),
    ];
    let is_assumed =
        |field| job.typed(Field::Air(field)).trim().is_empty() || air_trouble(job, field).is_some();
    let assumed: Vec<Message> = fields
        .into_iter()
        .filter(|(field, _)| is_assumed(*field))
        .map(|(_, key)| msg(key))
        .collect();
    match assumed.as_slice() {
        [] => msg("sight-air-typed"),
        [one] => msg("sight-air-but-one").message("one", one.clone()),
        [one, other] => msg("sight-air-but-two")
            .message("one", one.clone())
            .message("other", other.clone()),
        _ => msg("sight-air-assumed"),
    }
}

pub(super) fn based(scene: &Scene, placed: &Placed, asked: &SightAsked) -> Vec<Message> {
    let job = scene.job;
    let sensing = job.kit.sensing.as_ref();
    let range = sensing
        .and_then(|sensing| sensing.rated_range)
        .unwrap_or(ASSUMED_RANGE);
    let air = &scene.air;
    let day = match asked.day {
        Day::Typed => air_words(job),
        Day::Winter => msg("sight-winter"),
        Day::Summer => msg("sight-summer"),
    };
    let hertz = scene.all.first().map_or(0.0, |head| head.sensor.beam.hertz);
    let mut lines = vec![
        msg("sight-calibrated").mm("range", range.0),
        msg("sight-air")
            .message("day", day)
            .number("celsius", air.celsius.get(), 0)
            .number("humidity", air.humidity.get(), 0)
            .number("pressure", air.pressure.get(), 0)
            .number("speed", air.speed(), 0)
            .number("alpha", air.absorption(hertz), 2),
    ];
    let widest = placed
        .u_aims
        .iter()
        .flatten()
        .map(|u| u.0)
        .fold(0.0, f64::max);
    if widest > 0.0 {
        lines.push(msg("sight-aim-known").deg("plus", Degrees(widest * COVERAGE_95).0));
    }
    if asked.standing == Standing::Kerb {
        lines.push(msg("sight-kerb-loss").number("db", KERB_LOSS, 0));
    }
    lines.extend(placed.assumed.iter().cloned());
    lines
}
