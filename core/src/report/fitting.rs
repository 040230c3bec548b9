//! The fitting on the job sheet: what is behind, holes and heads, leads and
//! supply, parts. What was not done or could not be seen is said.

use super::walk::{not_walked, walk};
use super::{Block, Section};
use crate::decide::look_behind::Behind;
use crate::decide::supply::{self, FuseAnswer, Judged};
use crate::job::{
    Hole, JobState, READINGS, ReadVolts, hand_cautions, hole, lead_plan, leads_of, look, loom_open,
    parts_used, photo_name, seen_from_behind, set_needs_other_hole, sets_taken, taken_words, volts,
    volts_trouble,
};
use crate::moment;
use crate::text::{Message, msg};

/// The sections of the fitting, as far as it has come.
pub(super) fn fitting(job: &JobState) -> Vec<Section> {
    let sections = [behind(job), holes(job), loom(job), walk(job), parts(job)];
    sections.into_iter().flatten().collect()
}

fn literal(text: &str) -> Message {
    msg("literal").text("text", text)
}

fn spots(job: &JobState) -> impl Iterator<Item = (u8, &str)> {
    (0_u8..).zip(job.spots.iter().map(|spot| spot.label.as_str()))
}

fn behind(job: &JobState) -> Option<Section> {
    let look = look(job);
    let any = job
        .spots
        .iter()
        .any(|spot| look.behind(&spot.label).is_some());
    if !any && job.behind.photos.is_empty() {
        return None;
    }
    let size = |length: Option<crate::units::Millimetres>| {
        length.map_or_else(
            || msg("sheet-not-measured"),
            |length| msg("sheet-mm").number("mm", length.0, 1),
        )
    };
    let rows = job.spots.iter().map(|spot| {
        vec![
            literal(&spot.label),
            crate::job::behind_words(look.behind(&spot.label)),
            size(look.depth(&spot.label)),
            size(look.panel(&spot.label)),
        ]
    });
    let head = [
        "sheet-head",
        "sheet-behind-what",
        "behind-depth",
        "behind-panel",
    ];
    let mut blocks = vec![Block::Table {
        head: head.into_iter().map(msg).collect(),
        rows: rows.collect(),
    }];
    let photos = job.behind.photos.iter();
    let photos: Vec<Message> = photos
        .map(|photo| msg("sheet-photo").message("photo", photo_name(job, photo)))
        .collect();
    if !photos.is_empty() {
        blocks.push(Block::Lines(photos));
    }
    Some(Section {
        heading: msg("sheet-behind"),
        blocks,
    })
}

fn holes(job: &JobState) -> Option<Section> {
    let taken = sets_taken(job);
    let mut lines: Vec<Message> = spots(job)
        .zip(&taken)
        .filter_map(|((_, label), taken)| {
            let words = taken_words(taken.as_ref()?)?;
            Some(
                msg("sheet-head-line")
                    .text("label", label.to_owned())
                    .message("what", words),
            )
        })
        .collect();
    let places = job.spots.iter().enumerate();
    lines.extend(places.flat_map(|(place, spot)| {
        let mut known = hand_cautions(job, place);
        known.extend(set_needs_other_hole(job, place));
        known.into_iter().map(|what| {
            msg("sheet-head-line")
                .text("label", spot.label.clone())
                .message("what", what)
        })
    }));
    if job.holes.drilled.is_empty() && lines.is_empty() {
        return None;
    }
    let mut blocks = Vec::new();
    if !job.holes.drilled.is_empty() {
        let rows = spots(job)
            .zip(&taken)
            .map(|((spot, label), taken)| {
                let made = match hole(job, usize::from(spot)) {
                    made @ Hole::Drilled(_) => made.headline(),
                    Hole::Plan(_) | Hole::Shut(_) => msg("sheet-hole-not-made"),
                };
                let seated = match job.rings.seated.get(&spot) {
                    Some(at) => msg("sheet-seated").text("when", moment::day_and_clock(at)),
                    None => msg("sheet-not-seated"),
                };
                let set = taken
                    .as_ref()
                    .map_or_else(|| msg("sheet-not-measured"), |taken| taken.set.name());
                vec![literal(label), set, made, seated]
            })
            .collect();
        let head = ["sheet-head", "sheet-ring", "sheet-hole", "sheet-sits"];
        blocks.push(Block::Table {
            head: head.into_iter().map(msg).collect(),
            rows,
        });
    }
    let unseen: Vec<&str> = spots(job)
        .filter(|(spot, _)| {
            job.holes.drilled.contains_key(spot) && !seen_from_behind(job, usize::from(*spot))
        })
        .map(|(_, label)| label)
        .collect();
    if !unseen.is_empty() {
        lines.push(msg("sheet-hole-unseen").text("labels", unseen.join(", ")));
    }
    if !lines.is_empty() {
        blocks.push(Block::Lines(lines));
    }
    Some(Section {
        heading: msg("sheet-holes"),
        blocks,
    })
}

/// Whether anything was typed or answered about leads and supply.
fn loom_begun(job: &JobState) -> bool {
    job.loom != crate::job::LoomState::default()
        || leads_of(job)
            .into_iter()
            .any(|which| lead_plan(job, which).is_some())
        || READINGS
            .into_iter()
            .any(|reading| volts(job, reading).is_some())
}

fn loom(job: &JobState) -> Option<Section> {
    if !loom_begun(job) {
        return None;
    }
    let mut lines: Vec<Message> = leads_of(job)
        .into_iter()
        .filter_map(|which| lead_plan(job, which))
        .map(|plan| match plan {
            Ok(plan) => plan.message(),
            Err(why) => why,
        })
        .collect();
    for reading in READINGS {
        match volts(job, reading) {
            // It counts for nothing, and so it does not stand on the sheet.
            Some(ReadVolts::Judged(_, Judged::Refused { .. })) => {}
            Some(ReadVolts::Judged(typed, _)) => lines.push(match volts_trouble(job, reading) {
                Some(trouble) => trouble,
                None => msg("sheet-volts")
                    .message("reading", reading.name())
                    .number("volts", typed.0, 2),
            }),
            Some(ReadVolts::NotAFigure(why)) => lines.push(why),
            None => {}
        }
    }
    lines.extend(supply::kit_not_for(&job.kit, job.loom.system));
    if let Some(lamp) = job.loom.lamp {
        lines.push(match lamp.message() {
            Some(what_to_do) => what_to_do,
            None => msg("sheet-lamp-plain"),
        });
    }
    if let Some(FuseAnswer::FittedAtTakeOff(rating)) = job.loom.fuse {
        lines.push(msg("fuse-is-fitted").number("rating", rating.0, 1));
    }
    if !job.loom.rules.is_empty() {
        lines.push(msg("loom-rules-kept"));
    }
    Some(Section {
        heading: msg("sheet-loom"),
        blocks: vec![Block::Lines(lines)],
    })
}

fn parts(job: &JobState) -> Option<Section> {
    let used = parts_used(job);
    if used.is_empty() {
        return None;
    }
    let lines = used.iter().map(|line| {
        msg("part-line")
            .count("count", i64::from(line.count))
            .message("part", line.part.message())
    });
    Some(Section {
        heading: msg("sheet-parts"),
        blocks: vec![Block::Lines(lines.collect())],
    })
}

/// What of the fitting was not done or could not be seen.
pub(super) fn not_fitted(job: &JobState) -> Vec<Message> {
    let look = look(job);
    let labels = |such: &dyn Fn(Option<&Behind>) -> bool| -> Vec<&str> {
        let all = job.spots.iter().map(|spot| spot.label.as_str());
        all.filter(|label| such(look.behind(label))).collect()
    };
    let mut lines = Vec::new();
    let not_looked = labels(&|behind| behind.is_none());
    if !not_looked.is_empty() {
        lines.push(msg("sheet-open-look").text("labels", not_looked.join(", ")));
    }
    let hidden = labels(&|behind| behind == Some(&Behind::CouldNotSee));
    if !hidden.is_empty() {
        lines.push(msg("sheet-open-hidden").text("labels", hidden.join(", ")));
    }
    let open: Vec<&str> = spots(job)
        .filter(|(spot, _)| !job.holes.drilled.contains_key(spot))
        .map(|(_, label)| label)
        .collect();
    if !open.is_empty() {
        lines.push(msg("sheet-open-holes").text("labels", open.join(", ")));
    }
    let loose: Vec<&str> = spots(job)
        .filter(|(spot, _)| {
            job.holes.drilled.contains_key(spot) && !job.rings.seated.contains_key(spot)
        })
        .map(|(_, label)| label)
        .collect();
    if !loose.is_empty() {
        lines.push(msg("sheet-open-seated").text("labels", loose.join(", ")));
    }
    if loom_begun(job) {
        lines.extend(loom_open(job));
    } else {
        lines.push(msg("sheet-open-loom"));
    }
    lines.extend(not_walked(job));
    lines
}
