//! From a job to its job sheet.

use chrono::{DateTime, FixedOffset};

use super::angles::angles;
use super::fitting::{fitting, not_fitted};
use super::learned::{learned, not_learned};
use super::{Block, Document, Section, head_row};
use crate::decide::mark_out::NoDrill;
use crate::decide::ring_set::Verdict;
use crate::drawing::{marks_drawing, shape_from_above};
use crate::estimate::ground::{Ground, GroundHow};
use crate::estimate::rake::{Against, Origin, U_UNZEROED};
use crate::job::{
    CentreBy, ClockTrust, JobState, Particular, Spot, Tape, along_the_face, height_fault,
    offset_words, rake_at, ring_choice, row_words, tape_checked, tape_limits_changed,
};
use crate::moment;
use crate::text::{Message, msg};
use crate::units::{COVERAGE_95, Degrees, Estimate};

/// The job sheet as of a moment, in the time zone of that name.
#[must_use]
pub fn job_sheet(job: &JobState, at: DateTime<FixedOffset>, zone: &str) -> Document {
    let mut sections = vec![particulars(job, at, zone)];
    sections.push(marks(job));
    sections.push(heads(job));
    sections.extend(angles(job, at));
    sections.extend(checked(job));
    sections.extend(fitting(job));
    sections.extend(learned(job));
    let mut open = not_done(job);
    open.extend(not_fitted(job));
    open.extend(not_learned(job));
    if !open.is_empty() {
        sections.push(Section {
            heading: msg("sheet-not-done"),
            blocks: vec![Block::Lines(open)],
        });
    }
    sections.push(Section {
        heading: msg("sheet-cautions"),
        blocks: vec![Block::Lines(cautions())],
    });
    Document {
        title: msg("sheet-title"),
        sections,
    }
}

fn particulars(job: &JobState, at: DateTime<FixedOffset>, zone: &str) -> Section {
    let id = job.id.0.clone();
    let number = match job.issued() {
        Some(issue) => msg("sheet-job-issue")
            .text("id", id)
            .count("issue", i64::from(issue.number)),
        None => msg("sheet-job-draft").text("id", id),
    };
    let mut pairs = vec![
        (msg("sheet-job"), number),
        (
            msg("sheet-date"),
            msg("sheet-date-zone")
                .text("date", moment::date_and_clock(&at))
                .text("offset", moment::offset(&at))
                .text("zone", zone),
        ),
    ];
    if !job.name.trim().is_empty() {
        pairs.push((msg("sheet-name"), literal(job.name.trim())));
    }
    for which in Particular::ALL {
        if which == Particular::KitSerial {
            pairs.push((msg("sheet-kit"), literal(&job.kit.name)));
        }
        let text = job.particular(which).trim();
        let value = if text.is_empty() {
            msg("sheet-not-given")
        } else {
            literal(text)
        };
        pairs.push((which.message(), value));
    }
    let mut blocks = vec![Block::Pairs(pairs)];
    if let ClockTrust::WentBack { minutes } = job.clock {
        blocks.push(Block::Lines(vec![
            msg("clock-went-back").count("minutes", minutes),
        ]));
    }
    Section {
        heading: msg("sheet-particulars"),
        blocks,
    }
}

pub(super) fn literal(text: &str) -> Message {
    msg("literal").text("text", text)
}

fn marks(job: &JobState) -> Section {
    let mut blocks = vec![Block::Drawing(marks_drawing(job))];
    if let Some(marks) = &job.marks {
        let tape = match marks.tape {
            Tape::On(at) => msg("sheet-tape-on").text("when", moment::date_and_clock(&at)),
            Tape::NotYet => msg("sheet-tape-not-yet"),
        };
        blocks.push(Block::Pairs(vec![
            (
                msg("sheet-half-widths"),
                msg("sheet-half-widths-are")
                    .mm("left", marks.half_left.0)
                    .mm("right", marks.half_right.0),
            ),
            (msg("sheet-plan"), marks.from.message()),
            (msg("sheet-tape"), tape),
        ]));
    }
    let centre = job.mark_out.centre.map(CentreBy::message);
    let found = [
        centre.map(|by| (msg("sheet-centre"), by)),
        row_words(job).map(|row| (msg("sheet-row"), row)),
    ];
    let found: Vec<(Message, Message)> = found.into_iter().flatten().collect();
    if !found.is_empty() {
        blocks.push(Block::Pairs(found));
    }
    let along = along_the_face(job);
    if !along.is_empty() {
        blocks.extend(shape_from_above(job).map(Block::Drawing));
        blocks.push(Block::Lines(along));
    }
    if let Some(fault) = height_fault(job) {
        blocks.push(Block::Lines(vec![fault]));
    }
    let areas: Vec<Message> = job.mark_out.no_drill.iter().map(area_words).collect();
    if !areas.is_empty() {
        blocks.push(Block::Lines(areas));
    }
    Section {
        heading: msg("sheet-marks"),
        blocks,
    }
}

fn area_words(area: &NoDrill) -> Message {
    msg("sheet-kept-clear")
        .message("why", area.why.message())
        .message("from", offset_words(area.from))
        .message("to", offset_words(area.to))
}

fn heads(job: &JobState) -> Section {
    Section {
        heading: msg("sheet-heads"),
        blocks: vec![head_row::table(job), Block::Lines(how_to_read(job))],
    }
}

/// What the figures of the table are meant against; nothing that this job
/// does not have.
fn how_to_read(job: &JobState) -> Vec<Message> {
    let on_board = |origin: &Origin| {
        matches!(
            origin,
            Origin::Typed {
                against: Against::Board,
                ..
            }
        )
    };
    let mut lines = Vec::new();
    if !labels_where(job, |origin| !on_board(origin)).is_empty() {
        lines.push(msg("sheet-ground").message("how", ground_words(&job.ground)));
    }
    let board = labels_where(job, on_board);
    if !board.is_empty() {
        lines.push(msg("sheet-gauge-on-board").text("labels", board.join(", ")));
    }
    if job.spots.iter().any(Spot::is_read) {
        lines.push(msg("sheet-plus-minus"));
    }
    if job.marks.is_some() {
        lines.push(msg("sheet-straight"));
        lines.push(msg("sheet-position-why"));
    }
    lines
}

/// Labels of the heads whose face angle comes from such a source.
pub(super) fn labels_where(job: &JobState, such: impl Fn(&Origin) -> bool) -> Vec<String> {
    job.spots
        .iter()
        .filter(|spot| rake_at(job, spot).is_some_and(|rake| such(&rake.origin)))
        .map(|spot| spot.label.clone())
        .collect()
}

fn ground_words(ground: &Ground) -> Message {
    match &ground.how {
        GroundHow::LooksLevel => {
            msg("sheet-ground-by-eye").deg("plus", ground.nose_up.expanded().0)
        }
        GroundHow::Board => msg("sheet-ground-board")
            .message("nose", nose(ground))
            .message("lean", lean(ground)),
        GroundHow::Bay { name, measured } => msg("sheet-ground-bay")
            .text("name", name)
            .text("measured", measured)
            .message("nose", nose(ground))
            .message("lean", lean(ground)),
        GroundHow::Sill => msg("sheet-ground-sill")
            .message("nose", nose(ground))
            .deg("plus", ground.right_up.expanded().0),
        GroundHow::GaugeOnBoard => msg("sheet-ground-gauge"),
    }
}

fn nose(ground: &Ground) -> Message {
    let words = if ground.nose_up.value.0 < 0.0 {
        msg("sheet-nose-down")
    } else {
        msg("sheet-nose-up")
    };
    sized(words, ground.nose_up)
}

fn lean(ground: &Ground) -> Message {
    let words = if ground.right_up.value.0 < 0.0 {
        msg("sheet-right-down")
    } else {
        msg("sheet-right-up")
    };
    sized(words, ground.right_up)
}

fn sized(words: Message, slope: Estimate<Degrees>) -> Message {
    words
        .deg("angle", slope.value.abs().0)
        .deg("plus", slope.expanded().0)
}

/// The check before drilling, as far as it went.
fn checked(job: &JobState) -> Option<Section> {
    job.marks.as_ref()?;
    let time = |at: &DateTime<FixedOffset>| moment::date_and_clock(at);
    let tape = tape_checked(job).as_ref().map_or_else(
        || msg("sheet-check-tape-open"),
        |at| msg("sheet-check-tape").text("when", time(at)),
    );
    let seen: Vec<String> = job
        .check
        .seen_behind
        .iter()
        .filter_map(|seen| job.spots.get(seen.spot))
        .map(|spot| spot.label.clone())
        .collect();
    let behind = if seen.is_empty() {
        msg("sheet-check-behind-open")
    } else {
        msg("sheet-check-behind").text("labels", seen.join(", "))
    };
    let agreed = job.check.agreed.as_ref().map_or_else(
        || msg("sheet-check-agreed-open"),
        |agreed| {
            msg("agreed-by")
                .text("name", agreed.name.clone())
                .message("how", agreed.how.message())
                .text("when", time(&agreed.at))
        },
    );
    let mut blocks = vec![Block::Pairs(vec![
        (msg("sheet-check-tape-name"), tape),
        (msg("sheet-check-behind-name"), behind),
        (msg("sheet-check-agreed-name"), agreed),
    ])];
    let limits = tape_limits_changed(job);
    if !limits.is_empty() {
        blocks.push(Block::Lines(limits));
    }
    Some(Section {
        heading: msg("sheet-check"),
        blocks,
    })
}

/// What a reader of the sheet must know was not done or not settled.
fn not_done(job: &JobState) -> Vec<Message> {
    let mut lines = Vec::new();
    if job.marks.is_none() {
        lines.push(msg("sheet-open-marks"));
    }
    let unread: Vec<String> = job
        .spots
        .iter()
        .filter(|spot| rake_at(job, spot).is_none())
        .map(|spot| spot.label.clone())
        .collect();
    if !unread.is_empty() {
        lines.push(msg("sheet-open-faces").text("labels", unread.join(", ")));
    }
    let before = labels_where(job, |origin| matches!(origin, Origin::Before { .. }));
    if !before.is_empty() {
        lines.push(msg("sheet-open-before").text("labels", before.join(", ")));
    }
    for spot in &job.spots {
        let Some(choice) = ring_choice(job, spot) else {
            continue;
        };
        let key = match choice.verdict {
            Verdict::Sure { .. } => continue,
            Verdict::CloseCall { .. } => "sheet-open-close-call",
            Verdict::CannotBeServed { .. } => "sheet-open-cannot",
        };
        lines.push(msg(key).text("label", spot.label.clone()));
    }
    let unzeroed = labels_where(job, |origin| *origin == Origin::Unzeroed);
    if !unzeroed.is_empty() {
        lines.push(
            msg("sheet-open-unzeroed")
                .text("labels", unzeroed.join(", "))
                .deg("plus", U_UNZEROED.0 * COVERAGE_95),
        );
    }
    let unseen: Vec<String> = job
        .spots
        .iter()
        .enumerate()
        .filter(|(spot, _)| !job.check.seen_behind.iter().any(|seen| seen.spot == *spot))
        .map(|(_, place)| place.label.clone())
        .collect();
    if !unseen.is_empty() {
        lines.push(msg("sheet-open-behind").text("labels", unseen.join(", ")));
    }
    lines
}

fn cautions() -> Vec<Message> {
    [
        "caution-maker",
        "caution-behind",
        "caution-hot",
        "caution-raised",
        "caution-aid",
    ]
    .into_iter()
    .map(msg)
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::estimate::rake::FaceReading;
    use crate::job::{Field, JobEvent, JobId, apply, plans};
    use crate::kit;
    use crate::units::Millis;

    fn at() -> DateTime<FixedOffset> {
        DateTime::parse_from_rfc3339("2026-03-12T09:30:00+01:00").unwrap()
    }

    fn fresh() -> JobState {
        let sheet = include_str!("../../../assets/kits/plain-four.json");
        JobState::start(JobId("a1".to_owned()), kit::parse(sheet).unwrap(), at())
    }

    fn read(against: Against) -> JobState {
        let mut job = fresh();
        for field in [Field::HalfLeft, Field::HalfRight] {
            job.typed.insert(field, "860".to_owned());
        }
        let plan = plans(&job).unwrap().unwrap().symmetric;
        let event = JobEvent::MarksPlanned {
            half_left: crate::units::Millimetres(860.0),
            half_right: crate::units::Millimetres(860.0),
            kind: crate::decide::mark_out::PlanKind::Symmetric,
            offsets: plan.marks.clone(),
        };
        let job = apply(&job, event, at()).unwrap();
        let reading = FaceReading::typed(Degrees(1.0), Degrees(0.2), against, Millis(1.0));
        let read = JobEvent::FaceRead {
            spot: 1,
            reading: reading.unwrap(),
        };
        apply(&job, read, at()).unwrap()
    }

    fn keys(lines: &[Message]) -> Vec<&str> {
        lines.iter().map(|line| &*line.key).collect()
    }

    #[test]
    fn a_fresh_job_claims_nothing_that_was_not_done() {
        let job = fresh();
        assert_eq!(how_to_read(&job), []);
        let open = not_done(&job);
        let said = ["sheet-open-marks", "sheet-open-faces", "sheet-open-behind"];
        assert_eq!(keys(&open), said);
        let Some(Block::Pairs(pairs)) = job_sheet(&job, at(), "UTC").sections[0]
            .blocks
            .first()
            .cloned()
        else {
            panic!("pairs come first");
        };
        assert_eq!(pairs[0].1, msg("sheet-job-draft").text("id", "a1"));
    }

    #[test]
    fn the_ground_by_eye_is_said_with_its_figure() {
        let mut job = read(Against::Level);
        let by_eye =
            |plus| msg("sheet-ground").message("how", msg("sheet-ground-by-eye").deg("plus", plus));
        assert_eq!(how_to_read(&job)[0], by_eye(1.96));
        job.ground.nose_up.u = Degrees(0.5);
        assert_eq!(how_to_read(&job)[0], by_eye(0.98));
    }

    #[test]
    fn a_gauge_zeroed_on_the_board_says_nothing_of_the_eye() {
        let job = read(Against::Board);
        let said = [
            "sheet-gauge-on-board",
            "sheet-plus-minus",
            "sheet-straight",
            "sheet-position-why",
        ];
        assert_eq!(keys(&how_to_read(&job)), said);
    }

    #[test]
    fn a_typed_angle_is_no_unzeroed_phone() {
        let open = not_done(&read(Against::Level));
        assert!(!keys(&open).contains(&"sheet-open-unzeroed"));
    }

    #[test]
    fn every_way_to_find_the_ground_has_its_own_words() {
        let nose_down = Ground {
            nose_up: Estimate::new(Degrees(-0.75), Degrees(0.1)),
            ..Ground::looks_level()
        };
        let sill = Ground {
            how: GroundHow::Sill,
            ..nose_down.clone()
        };
        let words = ground_words(&sill);
        let nose = msg("sheet-nose-down").deg("angle", 0.75).deg("plus", 0.196);
        let said = msg("sheet-ground-sill")
            .message("nose", nose)
            .deg("plus", 1.96);
        assert_eq!(words, said);
        let board = Ground {
            how: GroundHow::Board,
            ..nose_down.clone()
        };
        assert_eq!(ground_words(&board).key, "sheet-ground-board");
        let bay = nose_down.saved_as("2".to_owned(), "2026-03-09".to_owned());
        assert_eq!(ground_words(&bay).key, "sheet-ground-bay");
        assert_eq!(
            ground_words(&Ground::gauge_on_board()).key,
            "sheet-ground-gauge"
        );
    }

    #[test]
    fn every_row_has_as_many_cells_as_the_head() {
        for job in [fresh(), read(Against::Level)] {
            let document = job_sheet(&job, at(), "UTC");
            let mut heads = 0;
            for section in &document.sections {
                for block in &section.blocks {
                    if let Block::Table { head, rows } = block {
                        assert!(rows.iter().all(|row| row.len() == head.len()));
                        if section.heading.key == "sheet-heads" {
                            assert_eq!(rows.len(), job.spots.len());
                            heads += 1;
                        }
                    }
                }
            }
            assert_eq!(heads, 1);
        }
    }
}
