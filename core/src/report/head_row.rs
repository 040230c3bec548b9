//! Each head's story on one line of the workshop's file: where it is and how
//! well that is known, its face, its set, where it points, its hole, its
//! photo.

use super::Block;
use super::job_sheet::literal;
use crate::decide::drill::Making;
use crate::decide::mark_out::TapeLimits;
use crate::estimate::photo::against::against_plan;
use crate::job::{
    Hole, JobState, Spot, TakenBy, aim_at, face_with_plus_minus, head_photo, hole, offset_words,
    ring_choice, set_taken, tape_checked,
};
use crate::moment;
use crate::text::{Message, msg};
use crate::units::COVERAGE_95;

/// The columns.
const HEAD: [&str; 7] = [
    "sheet-head",
    "sheet-position",
    "sheet-face",
    "sheet-ring",
    "sheet-aim",
    "sheet-hole",
    "sheet-photo-column",
];

/// All heads, left to right.
pub(super) fn table(job: &JobState) -> Block {
    let spots = job.spots.iter().enumerate();
    Block::Table {
        head: HEAD.into_iter().map(msg).collect(),
        rows: spots.map(|(index, spot)| row(job, index, spot)).collect(),
    }
}

fn row(job: &JobState, index: usize, spot: &Spot) -> Vec<Message> {
    let none = || msg("sheet-not-measured");
    let choice = ring_choice(job, spot);
    let taken = set_taken(job, index);
    let ring = match (&choice, taken) {
        (Some(choice), Some(taken)) if taken.by == TakenBy::Rule => choice.headline(),
        (Some(_), Some(taken)) => taken.set.name(),
        (Some(choice), None) => choice.headline(),
        (None, _) => none(),
    };
    vec![
        literal(&spot.label),
        position(job, index).unwrap_or_else(none),
        face_with_plus_minus(job, spot).unwrap_or_else(none),
        ring,
        aim_at(job, index).unwrap_or_else(none),
        made(job, index),
        photo(job, index),
    ]
}

/// Where the mark is, with how far it may be off: as photos measured it, else
/// within the limit of the tape that was read back, else not known.
fn position(job: &JobState, index: usize) -> Option<Message> {
    let marks = job.marks.as_ref()?;
    let place = offset_words(*marks.offsets.get(index)?);
    let taped = tape_checked(job).map(|_| TapeLimits::default().mark.0);
    Some(match by_photos(job, index).or(taped) {
        Some(plus) => msg("sheet-position-plus")
            .message("position", place)
            .number("plus", plus, 1),
        None => msg("sheet-position-unread").message("position", place),
    })
}

/// The 95 % interval that photos of mark cards left at a mark, mm.
fn by_photos(job: &JobState, index: usize) -> Option<f64> {
    let outcome = job.card_photos.outcome.as_ref()?;
    let marks = job.marks.as_ref()?;
    let against = against_plan(&outcome.measured, &marks.offsets);
    let mark = against.into_iter().find(|mark| mark.mark == index)?;
    Some(mark.at.u.0 * COVERAGE_95)
}

fn made(job: &JobState, index: usize) -> Message {
    let Hole::Drilled(drilled) = hole(job, index) else {
        return msg("sheet-hole-not-made");
    };
    let how = msg(match drilled.making {
        Making::Saw(_) => "sheet-hole-saw",
        Making::StepDrill(_) => "sheet-hole-step-drill",
        Making::KeepOldHole(_) => "sheet-hole-kept",
        Making::WidenOldHole { .. } => "sheet-hole-widened",
        Making::CoverOldHole(_) => "sheet-hole-covered",
    });
    msg("sheet-hole-made")
        .number("diameter", drilled.diameter.0, 1)
        .message("how", how)
}

fn photo(job: &JobState, index: usize) -> Message {
    let photo = u8::try_from(index)
        .ok()
        .and_then(|head| head_photo(job, head));
    photo.map_or_else(
        || msg("sheet-photo-none"),
        |photo| msg("sheet-photo-taken").text("when", moment::day_and_clock(&photo.at)),
    )
}

#[cfg(test)]
mod tests {
    use chrono::DateTime;

    use super::*;
    use crate::decide::mark_out::PlanKind;
    use crate::job::{Drilled, JobId, Marks, MarksFrom, Photo, PhotoOf, Tape};
    use crate::units::{Millimetres, Offset};

    #[test]
    fn a_head_s_hole_photo_and_position_stand_on_its_own_line() {
        let at = DateTime::parse_from_rfc3339("2026-03-12T09:30:00+01:00").unwrap();
        let sheet = include_str!("../../../assets/kits/plain-four.json");
        let kit = crate::kit::parse(sheet).unwrap();
        let mut job = JobState::start(JobId("a1".to_owned()), kit, at);
        job.marks = Some(Marks {
            half_left: Millimetres(860.0),
            half_right: Millimetres(860.0),
            from: MarksFrom::Plan(PlanKind::Even),
            offsets: [-690.0, -230.0, 230.0, 690.0].map(Offset).to_vec(),
            tape: Tape::On(at),
        });
        let making = Making::StepDrill(Millimetres(21.0));
        let diameter = making.diameter();
        let drilled = Drilled {
            at,
            diameter,
            making,
        };
        job.holes.drilled.insert(0, drilled);
        job.photos.push(Photo {
            blob: "p".to_owned(),
            original: None,
            width: 4,
            height: 3,
            of: PhotoOf::Head(0),
            at,
            elevation: None,
            notes: Vec::new(),
        });
        let Block::Table { head, rows } = table(&job) else {
            panic!("a table");
        };
        assert!(rows.iter().all(|row| row.len() == head.len()));
        let made = msg("sheet-hole-made")
            .number("diameter", 21.0, 1)
            .message("how", msg("sheet-hole-step-drill"));
        assert_eq!(rows[0][5], made);
        assert_eq!(rows[0][6].key, "sheet-photo-taken");
        assert_eq!(
            rows[1][5..],
            ["sheet-hole-not-made", "sheet-photo-none"].map(msg)
        );
        assert_eq!(rows[0][1].key, "sheet-position-unread");
        job.check.tape = vec![crate::decide::mark_out::TapeReading::default(); 4];
        job.check.tape_at = Some(at);
        let Block::Table { rows, .. } = table(&job) else {
            panic!("a table");
        };
        let place = offset_words(Offset(-690.0));
        let taped = msg("sheet-position-plus")
            .message("position", place)
            .number("plus", 2.0, 1);
        assert_eq!(rows[0][1], taped);
    }
}
