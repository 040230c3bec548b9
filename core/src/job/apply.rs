//! The only way a job changes.

use chrono::{DateTime, FixedOffset};

use super::entry::Field;
use super::event::JobEvent;
use super::marks::{holds_the_rules, moved};
use super::state::{ClockTrust, JobState, Marks, MarksFrom, SheetIssue, TakenReading, Tape};
use super::{
    before, behind, card_photos, check, coverage, fault, holes, kit_asked, learned, loom, mark_out,
    measuring,
};
use super::{job_photos, quote, rings_chosen, standing, steps_done, time_spent, waits, walk};
use crate::text::{Message, msg};
use crate::units::Offset;

/// Longest text that a job keeps in one field, characters.
pub const TEXT_GREATEST: usize = 500;

/// Fields that are emptied once what stood there counts.
const TAKEN: [Field; 7] = [
    Field::FaceAngle,
    Field::NoDrillFrom,
    Field::NoDrillTo,
    Field::NoDrillWhat,
    Field::OldHole,
    Field::MoveTo,
    Field::LearnObject,
];

/// Why an event did not change the job; the job is as it was.
#[derive(Clone, Debug, PartialEq)]
pub struct Refusal(pub Message);

/// Applies one event to a job and gives the job that follows.
///
/// | event | what follows |
/// |---|---|
/// | `Named`, `ParticularTyped`, `Typed` | kept, cut at [`TEXT_GREATEST`] characters |
/// | `MarksPlanned` | marks set, tape to be laid; readings at marks that moved are dropped |
/// | `MarkOut` | see [`super::MarkOutEvent`]; a moved mark voids what belongs to it |
/// | `Check` | see [`super::CheckEvent`] |
/// | `TapeLaid` | needs marks |
/// | `FaceRead` | needs marks and a spot of this kit; joins the readings there |
/// | `FaceDropped` | the last reading there goes; needs one |
/// | `ReadingTakenOut` | that reading there goes; needs it |
/// | `KitChosen` | needs that no hole is drilled; with as many heads and marks inside its limits marks and readings stay, else they go; sets taken by hand go |
/// | `KitFilled` | what is typed for asked fields goes on the job's sheet |
/// | `Behind` | answers, photos, no-drill areas; the panel's material only before the first hole |
/// | `Rings` | by hand needs a reason and the hole that is there; seated needs the hole, cured paint, dry primer |
/// | `Holes` | a hole needs its plan, the cautions and the mark confirmed from behind |
/// | `Loom` | answers; a fuse that is too large is refused |
/// | `Learned` | a run needs its object, the sheet's procedure and the gate; one at a time |
/// | `Quote` | parts by hand and prices as typed |
/// | `Walk` | needs its gate; a new learn or a moved mark voids the test before it |
/// | `Fault` | symptoms and findings, kept as said |
/// | `Measuring(PhoneUsed)` | refused where another phone's readings, or the same phone's with another case or feet, would be corrected by it |
/// | `Measuring(Swept)` | needs a sweep that closes |
/// | other `Measuring` | kept; all face angles follow |
/// | `Steps` | answers and how steps ended; a skip needs its reason, done needs that no wait runs there |
/// | `Wait` | one wait a step at a time |
/// | `WorkedAt` | the time since the last event counts for that stage |
/// | `Time` | a stage's minutes as corrected |
/// | `Standing` | how the job stands; a visit needs its reason |
/// | `Photo` | a photo joins or leaves the job, something is drawn on it |
/// | `Cards` | a photo or a tap more or less voids what was measured; `Measured` is of all that is there |
/// | `Coverage` | kept |
/// | `Before(TakenOver)` | needs a job without marks that took nothing over yet; nothing of it counts as seen |
/// | `Before(MarksAsBefore)` | needs half widths that agree and marks inside the rules |
/// | `SheetIssued` | the next number |
///
/// Every event raises the job's revision by one. A time before the last event is taken as the last event's, and the job
/// remembers that the clock went back.
///
/// # Errors
/// A [`Refusal`] that says what has to come first.
pub fn apply(
    job: &JobState,
    event: JobEvent,
    at: DateTime<FixedOffset>,
) -> Result<JobState, Refusal> {
    let mut next = job.clone();
    let at = steady(&mut next, at);
    next.revision = next.revision.saturating_add(1);
    time_spent::count(&mut next, &event, job.changed, at);
    match event {
        JobEvent::Named(name) => next.name = cut(name),
        JobEvent::ParticularTyped(which, text) => {
            next.particulars.insert(which, cut(text));
        }
        JobEvent::Typed(field, text) => {
            next.typed.insert(field, cut(text));
        }
        JobEvent::MarksPlanned {
            half_left,
            half_right,
            kind,
            offsets,
        } => {
            holds_the_rules(job, half_left, half_right, &offsets)?;
            void_moved(&mut next, &offsets)?;
            next.marks = Some(Marks {
                half_left,
                half_right,
                from: MarksFrom::Plan(kind),
                offsets,
                tape: Tape::NotYet,
            });
        }
        JobEvent::MarkOut(event) => mark_out::apply(&mut next, event)?,
        JobEvent::Check(event) => check::apply(&mut next, event, at)?,
        JobEvent::TapeLaid => match &mut next.marks {
            Some(marks) => marks.tape = Tape::On(at),
            None => return Err(Refusal(msg("refused-no-marks"))),
        },
        JobEvent::FaceRead { spot, reading } => {
            if next.marks.is_none() {
                return Err(Refusal(msg("refused-no-marks")));
            }
            let place = next.spots.get_mut(spot);
            let place = place.ok_or_else(|| no_such_spot(job, spot))?;
            place.readings.push(TakenReading { reading, at });
        }
        JobEvent::FaceDropped { spot } => {
            let place = next.spots.get_mut(spot);
            let place = place.ok_or_else(|| no_such_spot(job, spot))?;
            if place.readings.pop().is_none() {
                let label = place.label.clone();
                return Err(Refusal(msg("refused-no-reading").text("label", label)));
            }
        }
        JobEvent::ReadingTakenOut { spot, reading } => {
            let place = next.spots.get_mut(spot);
            let place = place.ok_or_else(|| no_such_spot(job, spot))?;
            if reading >= place.readings.len() {
                let label = place.label.clone();
                return Err(Refusal(msg("refused-no-reading").text("label", label)));
            }
            place.readings.remove(reading);
        }
        JobEvent::KitChosen(kit) => kit_asked::chosen(&mut next, *kit)?,
        JobEvent::KitFilled(asked) => kit_asked::filled(&mut next, &asked)?,
        JobEvent::Behind(event) => behind::apply(&mut next, event)?,
        JobEvent::Rings(event) => rings_chosen::apply(&mut next, event, at)?,
        JobEvent::Holes(event) => holes::apply(&mut next, event, at)?,
        JobEvent::Loom(event) => loom::apply(&mut next, event, at)?,
        JobEvent::Learned(event) => learned::apply(&mut next, event, at)?,
        JobEvent::Quote(event) => quote::apply(&mut next, event)?,
        JobEvent::Walk(event) => walk::apply(&mut next, event, at)?,
        JobEvent::Fault(event) => fault::apply(&mut next, event, at)?,
        JobEvent::Measuring(event) => measuring::apply(&mut next, event)?,
        JobEvent::Steps(event) => steps_done::apply(&mut next, event, at)?,
        JobEvent::Wait(event) => waits::apply(&mut next, event, at)?,
        // Counted above.
        JobEvent::WorkedAt(_) => {}
        JobEvent::Time(event) => time_spent::apply(&mut next, event)?,
        JobEvent::Standing(event) => standing::apply(&mut next, event, at)?,
        JobEvent::Photo(event) => job_photos::apply(&mut next, event, at)?,
        JobEvent::Cards(event) => card_photos::apply(&mut next, event)?,
        JobEvent::Coverage(event) => coverage::apply(&mut next, event),
        JobEvent::Before(event) => before::apply(&mut next, event)?,
        JobEvent::SheetIssued { zone } => {
            next.sheets.push(SheetIssue {
                number: next_number(job),
                at,
                zone: cut(zone),
                revision: next.revision,
            });
            standing::sheet_issued(&mut next);
        }
    }
    Ok(next)
}

/// The number of the next job sheet: one more than the last.
fn next_number(job: &JobState) -> u32 {
    job.sheets
        .last()
        .map_or(1, |last| last.number.saturating_add(1))
}

/// The job as it was before a step, brought back after others followed.
///
/// What was typed since, the sheets that were issued, runs of the obstacle
/// learn and what is known of the clock stay. What was typed and then taken by the step stands in its
/// field again.
#[must_use]
pub fn step_back(job: &JobState, before: &JobState, at: DateTime<FixedOffset>) -> JobState {
    let mut typed = job.typed.clone();
    for field in TAKEN {
        let was = before.typed(field);
        if job.typed(field).trim().is_empty() && !was.is_empty() {
            typed.insert(field, was.to_owned());
        }
    }
    check::tape_of(&mut typed, job, before);
    let mut back = JobState {
        name: job.name.clone(),
        changed: job.changed,
        revision: job.revision.saturating_add(1),
        clock: job.clock,
        particulars: job.particulars.clone(),
        typed,
        sheets: job.sheets.clone(),
        spent: job.spent.clone(),
        steps: steps_done::back(&job.steps, &before.steps),
        ..before.clone()
    };
    if back.learned.keep_runs(&job.learned) {
        walk::box_changed(&mut back.walk, job.changed);
    }
    // The phone in the hand is no step; but readings come back with theirs.
    let profile = &job.measuring.profile;
    if back.measuring.profile.is_none() || back.measuring.profile == *profile {
        back.phone.clone_from(&job.phone);
        back.measuring.profile.clone_from(profile);
    }
    steady(&mut back, at);
    back
}

/// The job as it was after a step that was taken back: the step is done
/// again. As [`step_back`], but what the step had taken from its fields is
/// gone from them again.
#[must_use]
pub fn step_again(job: &JobState, after: &JobState, at: DateTime<FixedOffset>) -> JobState {
    let mut again = step_back(job, after, at);
    for field in TAKEN {
        again.typed.remove(&field);
        if let Some(typed) = after.typed.get(&field) {
            again.typed.insert(field, typed.clone());
        }
    }
    check::tape_of(&mut again.typed, job, after);
    again
}

pub(super) fn no_such_spot(job: &JobState, spot: usize) -> Refusal {
    let heads = i64::try_from(job.spots.len()).unwrap_or(i64::MAX);
    let asked = i64::try_from(spot).unwrap_or(i64::MAX);
    Refusal(
        msg("refused-no-such-spot")
            .count("asked", asked.saturating_add(1))
            .count("heads", heads),
    )
}

/// The event's time, never before the last one.
fn steady(next: &mut JobState, at: DateTime<FixedOffset>) -> DateTime<FixedOffset> {
    if at >= next.changed {
        next.changed = at;
        return at;
    }
    // Rounded up: it is the most that a time on the sheet may be off.
    let back = (next.changed - at).num_seconds() / 60 + 1;
    let before = match next.clock {
        ClockTrust::Steady => 0,
        ClockTrust::WentBack { minutes } => minutes,
    };
    next.clock = ClockTrust::WentBack {
        minutes: back.max(before),
    };
    next.changed
}

/// A text cut at [`TEXT_GREATEST`] characters.
pub(super) fn cut(text: String) -> String {
    if text.chars().count() <= TEXT_GREATEST {
        text
    } else {
        text.chars().take(TEXT_GREATEST).collect()
    }
}

/// What belongs to a mark is void where the mark moves; see [`void_spots`].
pub(super) fn void_moved(next: &mut JobState, offsets: &[Offset]) -> Result<(), Refusal> {
    let Some(before) = &next.marks else {
        return Ok(());
    };
    let moved: Vec<usize> = (0..offsets.len())
        .filter(|spot| match before.offsets.get(*spot) {
            Some(old) => moved(*old, offsets[*spot]),
            None => true,
        })
        .collect();
    void_spots(next, &moved)
}

/// What belongs to these marks is void: their readings, their tape, what was
/// seen and confirmed behind them, a set taken by hand; and the customer's
/// agreement. A mark with a hole cannot move.
pub(super) fn void_spots(next: &mut JobState, moved: &[usize]) -> Result<(), Refusal> {
    let index = |spot: &usize| u8::try_from(*spot).unwrap_or(u8::MAX);
    for spot in moved {
        if next.holes.drilled.contains_key(&index(spot)) {
            let label = next.spots.get(*spot).map_or("", |s| &s.label).to_owned();
            return Err(Refusal(msg("refused-mark-drilled").text("label", label)));
        }
    }
    for spot in moved {
        next.measuring.forget_turn(*spot);
        if let Some(place) = next.spots.get_mut(*spot) {
            place.readings.clear();
        }
        behind::void_spot(next, index(spot));
        rings_chosen::void_spot(next, index(spot));
        for field in check::tape_fields(index(spot)) {
            next.typed.remove(&field);
        }
    }
    check::void(&mut next.check, moved);
    if !moved.is_empty() {
        let at = next.changed;
        walk::void_moved(&mut next.walk, at);
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::decide::mark_out::PlanKind;
    use crate::estimate::rake::{Against, FaceReading};
    use crate::job::{JobId, plans};
    use crate::kit;
    use crate::units::{Degrees, Millimetres, Millis};

    fn at(minute: u32) -> DateTime<FixedOffset> {
        let text = format!("2026-03-12T09:{minute:02}:00+01:00");
        DateTime::parse_from_rfc3339(&text).unwrap()
    }

    fn started() -> JobState {
        let sheet = include_str!("../../../assets/kits/plain-four.json");
        JobState::start(JobId("a1".to_owned()), kit::parse(sheet).unwrap(), at(0))
    }

    fn typed(text: &str) -> JobEvent {
        JobEvent::Typed(Field::HalfLeft, text.to_owned())
    }

    /// The symmetric plan for two equal half widths.
    fn planned(job: &JobState, half: f64) -> JobEvent {
        let mut job = job.clone();
        for field in [Field::HalfLeft, Field::HalfRight] {
            job.typed.insert(field, half.to_string());
        }
        JobEvent::MarksPlanned {
            half_left: Millimetres(half),
            half_right: Millimetres(half),
            kind: PlanKind::Symmetric,
            offsets: plans(&job).unwrap().unwrap().symmetric.marks.clone(),
        }
    }

    fn read(spot: usize) -> JobEvent {
        let at = Millis(10.0);
        let typed = FaceReading::typed(Degrees(-2.0), Degrees(0.2), Against::Level, at);
        JobEvent::FaceRead {
            spot,
            reading: typed.unwrap(),
        }
    }

    fn after(job: &JobState, events: impl IntoIterator<Item = JobEvent>) -> JobState {
        events
            .into_iter()
            .fold(job.clone(), |job, event| apply(&job, event, at(1)).unwrap())
    }

    fn refused(job: &JobState, event: JobEvent) -> String {
        apply(job, event, at(1)).unwrap_err().0.key.into_owned()
    }

    #[test]
    fn what_needs_marks_is_refused_without_them() {
        let job = started();
        assert_eq!(refused(&job, JobEvent::TapeLaid), "refused-no-marks");
        assert_eq!(refused(&job, read(0)), "refused-no-marks");
    }

    #[test]
    fn a_spot_that_the_kit_does_not_have_is_refused() {
        let job = started();
        let job = after(&job, [planned(&job, 860.0)]);
        let refusal = apply(&job, read(4), at(1)).unwrap_err();
        let said = msg("refused-no-such-spot")
            .count("asked", 5)
            .count("heads", 4);
        assert_eq!(refusal, Refusal(said));
        let dropped = JobEvent::FaceDropped { spot: usize::MAX };
        assert_eq!(refused(&job, dropped), "refused-no-such-spot");
    }

    #[test]
    fn a_reading_that_is_not_there_cannot_be_taken_back() {
        let dropped = JobEvent::FaceDropped { spot: 2 };
        let refusal = apply(&started(), dropped, at(1)).unwrap_err();
        let said = msg("refused-no-reading").text("label", "3");
        assert_eq!(refusal, Refusal(said));
    }

    #[test]
    fn marks_that_break_a_rule_or_miss_a_head_are_refused() {
        let job = started();
        let marks = |offsets: &[f64]| JobEvent::MarksPlanned {
            half_left: Millimetres(860.0),
            half_right: Millimetres(860.0),
            kind: PlanKind::Even,
            offsets: offsets.iter().map(|mm| Offset(*mm)).collect(),
        };
        assert_eq!(refused(&job, marks(&[-100.0, 100.0])), "refused-mark-count");
        let outside = marks(&[-700.0, -230.0, 230.0, 700.0]);
        assert_eq!(refused(&job, outside), "mark-out-breaks");
        let no_figure = marks(&[f64::NAN, -230.0, 230.0, 680.0]);
        assert!(apply(&job, no_figure, at(1)).is_err());
        let no_width = JobEvent::MarksPlanned {
            half_left: Millimetres(f64::NAN),
            half_right: Millimetres(860.0),
            kind: PlanKind::Even,
            offsets: [-680.0, -230.0, 230.0, 680.0].map(Offset).to_vec(),
        };
        assert!(apply(&job, no_width, at(1)).is_err());
    }

    #[test]
    fn marks_planned_anew_void_only_the_readings_at_marks_that_moved() {
        let job = started();
        let job = after(&job, [planned(&job, 860.0), JobEvent::TapeLaid]);
        let job = after(&job, (0..4).map(read));
        let same = after(&job, [planned(&job, 860.0)]);
        assert_eq!(same.spots, job.spots);
        let moved = after(&job, [planned(&job, 900.0)]);
        assert_eq!(moved.read_count(), 0);
        assert_eq!(moved.marks.unwrap().tape, Tape::NotYet);
    }

    #[test]
    fn a_refused_event_leaves_no_trace() {
        let job = started();
        let before = job.clone();
        assert!(apply(&job, JobEvent::TapeLaid, at(5)).is_err());
        assert_eq!(job, before);
    }

    #[test]
    fn long_text_is_cut_between_letters() {
        let job = after(&started(), [typed(&"ß".repeat(TEXT_GREATEST + 9))]);
        assert_eq!(job.typed(Field::HalfLeft), "ß".repeat(TEXT_GREATEST));
    }

    #[test]
    fn a_clock_that_goes_back_keeps_the_order_and_the_greatest_step() {
        let job = apply(&started(), typed("8"), at(40)).unwrap();
        let job = apply(&job, typed("86"), at(10)).unwrap();
        let job = apply(&job, typed("860"), at(30)).unwrap();
        assert_eq!(job.changed, at(40));
        assert_eq!(job.clock, ClockTrust::WentBack { minutes: 31 });
        let job = apply(&job, typed("861"), at(50)).unwrap();
        assert_eq!(job.changed, at(50));
        assert_eq!(job.clock, ClockTrust::WentBack { minutes: 31 });
    }

    #[test]
    fn the_same_moment_in_another_time_zone_is_no_step_back() {
        let job = apply(&started(), typed("8"), at(40)).unwrap();
        let utc = at(41).with_timezone(&FixedOffset::east_opt(0).unwrap());
        let job = apply(&job, typed("86"), utc).unwrap();
        assert_eq!(job.clock, ClockTrust::Steady);
    }

    #[test]
    fn an_issue_shows_the_job_until_it_changes_and_numbers_go_up() {
        let issue = || JobEvent::SheetIssued {
            zone: "UTC".to_owned(),
        };
        let job = after(&started(), [issue()]);
        assert_eq!(job.issued().unwrap().number, 1);
        let changed = after(&job, [typed("860")]);
        assert_eq!(changed.issued(), None);
        let again = after(&changed, [issue()]);
        assert_eq!(again.issued().unwrap().number, 2);
        assert_eq!(again.sheets.len(), 2);
    }

    #[test]
    fn a_step_back_keeps_what_came_by_typing_paper_and_clock() {
        let start = started();
        let before = after(&start, [planned(&start, 860.0)]);
        let zone = "UTC".to_owned();
        let rest = [
            JobEvent::TapeLaid,
            JobEvent::Named("Van".to_owned()),
            typed("861"),
            JobEvent::SheetIssued { zone },
        ];
        let job = after(&before, rest);
        let back = step_back(&job, &before, at(0));
        assert_eq!(back.marks, before.marks);
        assert_eq!(
            (back.name.as_str(), back.typed(Field::HalfLeft)),
            ("Van", "861")
        );
        assert_eq!(back.sheets, job.sheets);
        assert_eq!(back.issued(), None);
        assert!(back.revision > job.revision);
        assert_eq!(back.changed, job.changed);
        assert!(matches!(back.clock, ClockTrust::WentBack { .. }));
    }
}
