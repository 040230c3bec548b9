//! Evidence out of what the heads are predicted to see: how much of the
//! ground, how well between the middle heads, and which of them hear the
//! fixed object. A prediction weighs little, and says that it is one.

use super::aim;
use super::evidence::{Gathered, label};
use crate::decide::coverage::{
    Advice, Area, HeadInPlace, Target, View, advise, ground_pickup, ground_pickup_change, map,
    summary,
};
use crate::job::{JobState, air_of, fixed_object, heads_in_place, offset_words};
use crate::text::{Message, msg};
use crate::units::{Decibels, Degrees};

/// Decibels of ground that are worth a point (our own figure).
const GROUND_A_POINT: f64 = 2.0;
/// What the ground may weigh, either way.
const GROUND: (f64, f64) = (-2.0, 4.0);
/// From so much to spare on, the middle is seen well, dB.
const WELL: f64 = 6.0;

/// The heads with the aim that was found at the car, where it was.
fn heads(job: &JobState) -> Option<Vec<HeadInPlace>> {
    let mut heads = heads_in_place(job).ok()?.heads;
    for (spot, head) in (0_u8..).zip(&mut heads) {
        if let Some(aim) = aim::known(job, spot) {
            head.aim = aim.value;
        }
    }
    Some(heads)
}

fn points(change: Decibels, limits: (f64, f64)) -> i16 {
    let points = (change.0 / GROUND_A_POINT).clamp(limits.0, limits.1);
    points.round() as i16
}

/// Ground pick-up of a head whose aim is known.
pub(super) fn ground(job: &JobState, spot: u8) -> Gathered {
    let mut all = Gathered::default();
    if aim::known(job, spot).is_none() {
        return all;
    }
    let heads = heads(job).unwrap_or_default();
    let Some(head) = heads.get(usize::from(spot)) else {
        return all;
    };
    let change = ground_pickup_change(&head.sensor.beam, head.height, head.aim, &air_of(job));
    if let Some(change) = change {
        let words = msg(if change.0 >= 0.0 {
            "evidence-ground-more"
        } else {
            "evidence-ground-less"
        });
        let words = words
            .text("label", label(job, spot))
            .number("db", change.0.abs(), 1);
        all.predicted(points(change, GROUND), words);
    }
    all
}

/// Ground pick-up of a head once the rear has sunk.
pub(super) fn ground_loaded(job: &JobState, spot: u8, lower: Degrees) -> Gathered {
    let mut all = Gathered::default();
    let heads = heads(job).unwrap_or_default();
    let Some(head) = heads.get(usize::from(spot)) else {
        return all;
    };
    let (beam, air) = (&head.sensor.beam, air_of(job));
    let at = |aim| ground_pickup(beam, head.height, aim, &air);
    if let (Some(empty), Some(loaded)) = (at(head.aim), at(head.aim - lower)) {
        let change = loaded - empty;
        let words = msg("evidence-ground-loaded")
            .text("label", label(job, spot))
            .deg("lower", lower.0)
            .number("db", change.0, 1);
        all.predicted(points(change, (0.0, GROUND.1)), words);
    }
    all
}

/// The weakest place between the two middle heads.
pub(super) fn middle(job: &JobState) -> Gathered {
    let mut all = Gathered::default();
    let heads = heads(job).unwrap_or_default();
    let half = heads.len() / 2;
    let pair = heads.get(half.wrapping_sub(1)..=half);
    let (Some(pair), Some(marks)) = (pair, &job.marks) else {
        return all;
    };
    let area = Area::detection(marks.half_left, marks.half_right);
    let found = map(&heads, View::Above(Target::Pole), area, &air_of(job));
    let Some(weakest) = summary(&found, pair).weakest else {
        return all;
    };
    let spare = weakest.level.map_or(f64::NEG_INFINITY, |level| level.0);
    let points = if spare < 0.0 {
        6
    } else if spare < WELL {
        2
    } else {
        -3
    };
    let [left, right] = weakest.between;
    let words = msg("evidence-weakest-place")
        .text("left", left)
        .text("right", right)
        .message("across", offset_words(weakest.at.across))
        .number("behind", weakest.at.behind.0 / 1e3, 2)
        .message("spare", spare_words(weakest.level));
    all.predicted(points, words);
    let places = (0_u8..).take(heads.len()).skip(half - 1).take(2);
    if places
        .into_iter()
        .any(|spot| aim::known(job, spot).is_none())
    {
        all.not_known(msg("unknown-predicted-aim"));
    }
    all
}

fn spare_words(level: Option<Decibels>) -> Message {
    match level {
        Some(level) if level.0 >= 0.0 => msg("sight-spare").number("db", level.0, 0),
        Some(level) => msg("sight-short").number("db", -level.0, 0),
        None => msg("sight-no-echo"),
    }
}

/// What the heads make of the fixed object; `None` without one that is
/// typed whole, or without marks.
fn advice(job: &JobState) -> Option<Advice> {
    let object = fixed_object(job)?.ok()?;
    Some(advise(&heads(job)?, &object, &air_of(job), &job.kit))
}

/// Whether a head hears the fixed object.
pub(super) fn object(job: &JobState) -> Gathered {
    let mut all = Gathered::default();
    if matches!(fixed_object(job), Some(Err(_))) {
        all.not_known(msg("unknown-object-place"));
    }
    let Some(found) = advice(job) else {
        return all;
    };
    let said = |key: &'static str, heads: &[String]| msg(key).text("heads", heads.join(", "));
    if !found.seen_by.is_empty() {
        all.predicted(6, said("evidence-object-heard", &found.seen_by));
    } else if !found.too_close_for.is_empty() {
        all.predicted(3, said("evidence-object-near", &found.too_close_for));
    } else {
        all.predicted(-8, msg("evidence-object-not-heard"));
    }
    all
}

/// What to do about the fixed object, the first thing first: zone shift,
/// then obstacle learn, each with its reason.
pub(super) fn object_steps(job: &JobState) -> Vec<Message> {
    match advice(job) {
        Some(found) if !(found.seen_by.is_empty() && found.too_close_for.is_empty()) => found.steps,
        _ => Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use chrono::DateTime;

    use super::*;
    use crate::decide::coverage::ObjectKind;
    use crate::diagnose::evidence::{Evidence, From};
    use crate::job::{Field, JobId, Marks, MarksFrom, ObjectField, Tape};
    use crate::kit;
    use crate::units::{Millimetres, Offset};

    fn job(inner: f64) -> JobState {
        let at = DateTime::parse_from_rfc3339("2026-03-12T15:00:00+01:00").unwrap();
        let sheet = include_str!("../../../assets/kits/plain-four.json");
        let mut job = JobState::start(JobId("a1".to_owned()), kit::parse(sheet).unwrap(), at);
        job.marks = Some(Marks {
            half_left: Millimetres(860.0),
            half_right: Millimetres(860.0),
            from: MarksFrom::Hand,
            offsets: [-700.0, -inner, inner, 700.0].map(Offset).to_vec(),
            tape: Tape::NotYet,
        });
        job
    }

    fn only(all: &Gathered) -> &Evidence {
        assert_eq!(all.evidence.len(), 1, "{all:?}");
        assert_eq!(all.evidence[0].from, From::Prediction);
        &all.evidence[0]
    }

    #[test]
    fn a_wide_middle_is_predicted_weak_and_a_narrow_one_is_not() {
        let (narrow, wide) = (middle(&job(220.0)), middle(&job(690.0)));
        assert!(only(&narrow).points < only(&wide).points);
        assert_eq!(only(&wide).said.key, "evidence-weakest-place");
        assert!(only(&wide).points > 0, "{wide:?}");
        assert_eq!(narrow.unknown, [msg("unknown-predicted-aim")]);
    }

    #[test]
    fn without_marks_nothing_is_predicted() {
        let mut job = job(220.0);
        job.marks = None;
        for all in [ground(&job, 0), middle(&job), object(&job)] {
            assert_eq!(all, Gathered::default());
        }
        assert!(object_steps(&job).is_empty());
    }

    #[test]
    fn an_aim_that_is_not_known_predicts_no_ground() {
        assert_eq!(ground(&job(220.0), 1), Gathered::default());
    }

    fn with_ball(behind: &str) -> JobState {
        let mut job = job(220.0);
        job.coverage.object = Some(ObjectKind::TowBall);
        for (field, text) in [(ObjectField::Behind, behind), (ObjectField::Height, "480")] {
            job.typed.insert(Field::Object(field), text.to_owned());
        }
        job
    }

    #[test]
    fn an_object_that_is_heard_speaks_for_it_and_says_what_to_do_first() {
        let near = with_ball("350");
        let all = object(&near);
        assert_eq!(only(&all).said.key, "evidence-object-heard");
        let steps = object_steps(&near);
        assert!(steps[0].key.starts_with("object-shift"), "{steps:?}");
        assert!(steps[1].key.starts_with("object-learn"), "{steps:?}");
        let far = with_ball("2400");
        let all = object(&far);
        assert!(only(&all).points < 0, "{all:?}");
        assert!(object_steps(&far).is_empty());
        let all = object(&with_ball(""));
        assert_eq!(all.unknown, [msg("unknown-object-place")]);
    }

    #[test]
    fn a_rear_that_sinks_picks_up_more_of_the_ground() {
        let by = |lower: f64| ground_loaded(&job(220.0), 1, Degrees(lower));
        assert!(by(0.0).evidence.is_empty());
        let far = by(5.0);
        assert!(only(&far).points > 0);
        assert_eq!(only(&far).said.key, "evidence-ground-loaded");
    }
}
