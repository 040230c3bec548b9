//! An offer in words.

use super::lesson::Lesson;
use super::offer::{Line, OfferLine, SAME_BUMPER, counted};
use crate::decide::ring_set::face_words;
use crate::job::{ExpectedFace, Field, FromJob, Handed, WhichLead, offset_words, with_plus_minus};
use crate::text::{Message, msg};

/// The lines of an offer that have something to say.
pub(super) fn lines(alike: &[&Lesson], from: &[FromJob], handed: &Handed) -> Vec<OfferLine> {
    let all = from_all(from);
    let first = from.first().map_or_else(|| all.clone(), FromJob::message);
    let says = |line: Line| match line {
        Line::Marks => (marks(handed), all.clone()),
        Line::Faces => (faces(alike, handed), all.clone()),
        Line::NoDrill => (areas(handed), all.clone()),
        Line::Places => (places(handed), first.clone()),
        Line::Leads => (leads(alike, handed), first.clone()),
        Line::Quote => (handed.took.words(), all.clone()),
    };
    Line::ALL
        .into_iter()
        .map(|line| {
            let (says, from) = says(line);
            OfferLine { line, says, from }
        })
        .filter(|line| !line.says.is_empty())
        .collect()
}

fn from_all(from: &[FromJob]) -> Message {
    match from {
        [] => msg("before-from-jobs").count("jobs", 0).text("day", ""),
        [one] => one.message(),
        [newest, ..] => msg("before-from-jobs")
            .count("jobs", counted(from.len()))
            .text("day", crate::moment::date(&newest.at)),
    }
}

fn marks(handed: &Handed) -> Vec<Message> {
    let mut says = Vec::new();
    if let Some(halves) = handed.halves {
        says.push(
            msg("again-halves")
                .mm("left", halves.left.value.0)
                .mm("right", halves.right.value.0),
        );
    }
    let marks = handed.offsets.iter().map(|at| offset_words(*at)).collect();
    says.push(msg("again-marks").list("marks", marks));
    if let Some(by) = handed.centre {
        says.push(msg("again-centre").message("how", by.message()));
    }
    if let Some(row) = handed.row {
        says.push(msg("again-row").mm("from_line", row.from_line.0));
    }
    for (limit, value) in &handed.limits {
        says.push(
            msg("again-limit")
                .message("limit", limit.message())
                .mm("value", value.0),
        );
    }
    says
}

fn faces(alike: &[&Lesson], handed: &Handed) -> Vec<Message> {
    let labels = alike.first().map_or(&[][..], |best| &best.kit.heads.labels);
    let say = |(label, face): (&String, &Option<ExpectedFace>)| {
        let face = face.as_ref()?;
        let estimate = face.estimate();
        let words = with_plus_minus(face_words(estimate.value), estimate.expanded());
        Some(if face.vehicles > 1 {
            msg("again-face-spread")
                .text("label", label.clone())
                .message("face", words)
                .deg("between", face.between.0)
                .count("vehicles", i64::from(face.vehicles))
        } else {
            msg("again-face")
                .text("label", label.clone())
                .message("face", words)
        })
    };
    labels.iter().zip(&handed.faces).filter_map(say).collect()
}

fn areas(handed: &Handed) -> Vec<Message> {
    let say = |area: &crate::decide::mark_out::NoDrill| {
        msg("again-area")
            .message("from", offset_words(area.from))
            .message("to", offset_words(area.to))
            .message("why", area.why.message())
    };
    handed.no_drill.iter().map(say).collect()
}

fn places(handed: &Handed) -> Vec<Message> {
    let say = |(step, words): &(crate::steps::StepName, String)| {
        let key = match step.0.as_str() {
            "box-place-cabin" => "again-place-cabin",
            "grommet" => "again-place-grommet",
            "supply" => "again-place-supply",
            _ => "again-place",
        };
        msg(key).text("words", words.clone())
    };
    handed.words.iter().map(say).collect()
}

fn leads(alike: &[&Lesson], handed: &Handed) -> Vec<Message> {
    let label = |spot: u8| {
        let labels = alike.first().map(|best| &best.kit.heads.labels);
        let label = labels.and_then(|labels| labels.get(usize::from(spot)));
        label.cloned().unwrap_or_default()
    };
    let say = |(field, text): &(Field, String)| {
        let said = |key: &'static str| Some(msg(key).text("typed", text.clone()));
        match field {
            Field::Route(WhichLead::Spot(spot)) => Some(
                msg("again-route-head")
                    .text("label", label(*spot))
                    .text("typed", text.clone()),
            ),
            Field::Route(WhichLead::Display) => said("again-route-display"),
            Field::Route(WhichLead::Speaker) => said("again-route-speaker"),
            Field::Route(WhichLead::Supply) => said("again-route-supply"),
            Field::Straight(WhichLead::Spot(spot)) => Some(
                msg("again-straight-head")
                    .text("label", label(*spot))
                    .text("typed", text.clone()),
            ),
            Field::Straight(_) => said("again-straight"),
            Field::GrommetToBox => said("again-route-shared"),
            Field::Slack => said("again-slack"),
            _ => None,
        }
    };
    handed.typed.iter().filter_map(say).collect()
}

/// What is said of jobs that do not count: another bumper under one name.
pub(super) fn other_bumpers(best: &Lesson, others: &[&Lesson]) -> Option<Message> {
    let apart = |lesson: &&Lesson| {
        let left = (best.half_left - lesson.half_left).abs().0;
        left.max((best.half_right - lesson.half_right).abs().0)
    };
    let most = others.iter().map(apart).fold(0.0, f64::max);
    if !others.is_empty() && most <= SAME_BUMPER.0 {
        return Some(msg("again-other-marks").count("jobs", counted(others.len())));
    }
    (!others.is_empty()).then(|| {
        msg("again-other-bumper")
            .count("jobs", counted(others.len()))
            .mm("by", most)
    })
}
