//! The file that passes a model's knowledge on to a colleague.
//!
//! Out goes what [`Lesson`] holds, without customer, plate, vehicle number,
//! photos, places and times of day; words that hold any value of the
//! customer are left out. In comes nothing that was not checked: version,
//! sizes, figures, the kit sheet by its own reader.

use chrono::{FixedOffset, Offset as _, Utc};
use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::kinds::UNKNOWN_PHONE;
use super::kit_words;
use super::lesson::{Lesson, TaughtBy, lesson};
use super::name::VehicleName;
use super::secrets::{Secrets, plain, words_of};
use super::told::Told;
use crate::decide::look_behind::Obstacle;
use crate::decide::mark_out::NoDrillReason;
use crate::decide::parts::{Part, PartLine};
use crate::estimate::rake::MOST_RAKE;
use crate::job::{
    Field, HALF_WIDTH_GREATEST, HALF_WIDTH_LEAST, Instrument, JobState, MINUTES_GREATEST, PLACES,
    Particular, TEXT_GREATEST, may_be_handed,
};
use crate::json;
use crate::kit;
use crate::text::{Message, msg};

/// The version that is written; earlier ones are read as well. 1 did not
/// know how the reversing lamp is fed.
pub const PASSED_VERSION: u32 = 2;
/// A longer file is refused before it is read, bytes.
pub const PASSED_LARGEST: usize = 2_000_000;
/// Most lessons of a file.
pub const TEACHES_GREATEST: usize = 60;

/// What a colleague passed on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PassedOn {
    /// [`PASSED_VERSION`].
    pub rakeline_again: u32,
    /// Who, as far as they said.
    pub by: TaughtBy,
    /// What their jobs teach.
    pub lessons: Vec<Lesson>,
}

/// Why a file is not taken in; nothing of it is kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PassedFault {
    /// Larger than such a file can be.
    TooLarge(usize),
    /// Not such a file, or broken off.
    NotOne,
    /// Of another version of the format.
    Version(u64),
    /// A figure or word in it cannot be, and where.
    Wrong(&'static str),
}

impl PassedFault {
    /// What the fitter is told.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::TooLarge(bytes) => msg("passed-too-large")
                .count("bytes", i64::try_from(*bytes).unwrap_or(i64::MAX))
                .count("most", PASSED_LARGEST as i64),
            Self::NotOne => msg("passed-not-one"),
            Self::Version(found) => msg("passed-version")
                .count("found", i64::try_from(*found).unwrap_or(i64::MAX))
                .count("known", i64::from(PASSED_VERSION)),
            Self::Wrong(place) => msg("passed-wrong").message("place", msg(place)),
        }
    }
}

/// Reads a file that a colleague passed on.
///
/// # Errors
/// The first thing that is wrong with it.
pub fn read_passed(text: &str) -> Result<PassedOn, PassedFault> {
    if text.len() > PASSED_LARGEST {
        return Err(PassedFault::TooLarge(text.len()));
    }
    let value = json::parse(text.trim_start_matches('\u{feff}'));
    let value = value.map_err(|_| PassedFault::NotOne)?;
    let version = value.get("rakeline_again").and_then(Value::as_u64);
    match version {
        None => return Err(PassedFault::NotOne),
        Some(found) if !(1..=u64::from(PASSED_VERSION)).contains(&found) => {
            return Err(PassedFault::Version(found));
        }
        Some(_) => {}
    }
    let mut passed: PassedOn = json::of_value(&value).map_err(|_| PassedFault::NotOne)?;
    if passed.lessons.is_empty() || passed.lessons.len() > TEACHES_GREATEST {
        return Err(PassedFault::Wrong("passed-at-lessons"));
    }
    texts_fit([&passed.by.workshop, &passed.by.fitter])?;
    for (at, lesson) in passed.lessons.iter_mut().enumerate() {
        check(lesson)?;
        // Names of theirs mean nothing here, and must not hide an own job.
        lesson.id = format!("theirs-{}", at + 1);
        lesson.by = Some(passed.by.clone());
        // No phone of theirs is one of ours.
        for face in lesson.faces.iter_mut().flatten() {
            if let Instrument::Unzeroed(phone) = &mut face.read_by {
                UNKNOWN_PHONE.clone_into(phone);
            }
        }
    }
    Ok(passed)
}

fn texts_fit<'a>(texts: impl IntoIterator<Item = &'a String>) -> Result<(), PassedFault> {
    let long = |text: &&String| text.chars().count() > TEXT_GREATEST;
    if texts.into_iter().any(|text| long(&text)) {
        return Err(PassedFault::Wrong("passed-at-words"));
    }
    Ok(())
}

/// Holds a lesson against what jobs can be.
fn check(lesson: &mut Lesson) -> Result<(), PassedFault> {
    let ensure = |so: bool, place: &'static str| so.then_some(()).ok_or(PassedFault::Wrong(place));
    lesson.kit =
        kit::parse(&kit::to_json(&lesson.kit)).map_err(|_| PassedFault::Wrong("passed-at-kit"))?;
    let heads = lesson.kit.head_count();
    let same = lesson.offsets.len() == heads && lesson.faces.len() == heads;
    ensure(same, "passed-at-heads")?;
    let half = HALF_WIDTH_LEAST.0..=HALF_WIDTH_GREATEST.0;
    let halves = half.contains(&lesson.half_left.0) && half.contains(&lesson.half_right.0);
    ensure(halves, "passed-at-halves")?;
    let bumper = -lesson.half_left.0..=lesson.half_right.0;
    let inside = lesson.offsets.iter().all(|at| bumper.contains(&at.0));
    let rising = lesson.offsets.windows(2).all(|pair| pair[0].0 < pair[1].0);
    ensure(inside && rising, "passed-at-marks")?;
    for face in lesson.faces.iter().flatten() {
        let parts = [face.u_ground.0, face.u_instrument.0];
        let fits = face.rake.abs() <= MOST_RAKE
            && (face.u.0 >= super::lesson::U_LEAST && face.u.0 <= 10.0)
            && parts.iter().all(|part| (0.0..=10.0).contains(part));
        ensure(fits, "passed-at-faces")?;
    }
    let reach = |mm: f64| mm.abs() <= HALF_WIDTH_GREATEST.0;
    let areas = &lesson.no_drill;
    let areas_fit = areas.len() <= 40
        && (areas.iter()).all(|a| reach(a.from.0) && reach(a.to.0) && a.from <= a.to);
    ensure(areas_fit, "passed-at-areas")?;
    let row = lesson.row.is_none_or(|row| {
        let above = row
            .above_ground
            .is_none_or(|mm| (0.0..=3000.0).contains(&mm.0));
        row.from_line.abs().0 <= 2000.0 && above
    });
    let limits = lesson.limits.len() <= 8
        && (lesson.limits.iter()).all(|(_, mm)| (0.0..=2000.0).contains(&mm.0));
    ensure(row && limits, "passed-at-marks")?;
    let typed = lesson.typed.len() <= 64
        && (lesson.typed.iter()).all(|(f, _)| may_be_handed(*f) && *f != Field::QuoteMinutes);
    let mut steps = lesson.words.iter().map(|(step, _)| step.0.as_str());
    let places = lesson.words.len() <= PLACES.len() && steps.all(|step| PLACES.contains(&step));
    ensure(typed && places, "passed-at-words")?;
    let parts = |lines: &[PartLine]| lines.len() <= 100 && lines.iter().all(|l| l.count <= 1000);
    let minutes = lesson.minutes.is_none_or(|m| m <= MINUTES_GREATEST);
    ensure(
        parts(&lesson.extra) && parts(&lesson.parts) && minutes,
        "passed-at-parts",
    )?;
    let told = lesson.told.len() <= 64 && lesson.told.iter().all(told_fits);
    ensure(told, "passed-at-told")?;
    ensure(
        !VehicleName::read(&lesson.vehicle).is_empty(),
        "passed-at-name",
    )?;
    let mut texts = vec![&lesson.vehicle, &lesson.id];
    texts.extend(lesson.typed.iter().map(|(_, text)| text));
    texts.extend(lesson.words.iter().map(|(_, text)| text));
    for area in &lesson.no_drill {
        if let NoDrillReason::Other(words) = &area.why {
            texts.push(words);
        }
    }
    for line in lesson.extra.iter().chain(&lesson.parts) {
        if let Part::Other(words) = &line.part {
            texts.push(words);
        }
    }
    texts_fit(texts)
}

fn told_fits(told: &Told) -> bool {
    let short = |text: &str| text.chars().count() <= TEXT_GREATEST;
    match told {
        Told::Behind { label, what } => {
            let other = |what: &Obstacle| match what {
                Obstacle::Other(words) => short(words),
                _ => true,
            };
            short(label) && what.len() <= 16 && what.iter().all(other)
        }
        Told::Depth { label, depth } => short(label) && (0.0..=1000.0).contains(&depth.0),
        Told::Volts { volts, .. } => volts.abs() <= 100.0,
        Told::Set { label, set } => {
            short(label) && short(&set.ring) && set.insert.as_deref().is_none_or(short)
        }
        Told::Lamp(_) | Told::Fault(_) | Told::CameBack(_) => true,
        // Their customer's words stay with them.
        Told::Visit { .. } => false,
    }
}

/// What a vehicle is called in a file, and what stays here.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ModelWords {
    /// Make, model and body, without years.
    pub model: String,
    /// Words that stand in a customer's name or another that stays here.
    pub left_out: Vec<String>,
}

/// What the model of these jobs is called in a file, and which words of it
/// are left out unless the fitter says that they are the make's or model's.
#[must_use]
pub fn model_words(jobs: &[JobState], own: &[String]) -> ModelWords {
    let kept_in = secrets(jobs, own);
    let mut teach = jobs.iter().filter(|job| lesson(job).is_some());
    let vehicle = teach
        .next()
        .map_or("", |job| job.particular(Particular::Vehicle));
    let vehicle = VehicleName::without_years(vehicle);
    let (model, left_out) = kept_in.parted(&vehicle);
    ModelWords { model, left_out }
}

fn secrets(jobs: &[JobState], own: &[String]) -> Secrets {
    let mut kept_in: Vec<String> = own.to_vec();
    kept_in.extend(jobs.iter().flat_map(customers));
    Secrets::of(&kept_in)
}

/// The file of what these jobs teach, to be handed to a colleague. `own` are
/// further words that must not go along, such as the workshop's own name
/// where it is not to be said. `model` is what the fitter says that make and
/// model are called; empty where nothing was said: then it is what is typed
/// in the jobs, without the words of [`ModelWords::left_out`].
///
/// # Errors
/// Nothing to pass on, or a model without a name.
pub fn pass_on(
    jobs: &[JobState],
    by: TaughtBy,
    own: &[String],
    model: &str,
) -> Result<String, Message> {
    let kept_in = secrets(jobs, own);
    let mut lessons: Vec<Lesson> = jobs.iter().filter_map(lesson).collect();
    lessons.truncate(TEACHES_GREATEST);
    if lessons.is_empty() {
        return Err(msg("pass-nothing"));
    }
    for (at, lesson) in lessons.iter_mut().enumerate() {
        lesson.id = (at + 1).to_string();
        let years = VehicleName::read(&lesson.vehicle).years;
        without_customer(lesson, &kept_in);
        if !model.trim().is_empty() {
            let said = VehicleName::without_years(model);
            lesson.vehicle = years.map_or(said, |years| VehicleName::with_years(model, years));
        }
        if VehicleName::read(&lesson.vehicle).is_empty() {
            return Err(msg("pass-no-name"));
        }
        if lesson.kit.name.is_empty() {
            return Err(msg("pass-no-kit-name"));
        }
    }
    let passed = PassedOn {
        rakeline_again: PASSED_VERSION,
        by,
        lessons,
    };
    let value = json::to_value(&passed).map_err(|_| msg("pass-nothing"))?;
    Ok(json::pretty(&value))
}

/// Everything in a job that says whose vehicle it is or who worked on it.
fn customers(job: &JobState) -> Vec<String> {
    let mut all = vec![job.typed(Field::AgreedName).to_owned()];
    let vehicle: Vec<String> = words_of(job.particular(Particular::Vehicle)).collect();
    // A job is often named after its vehicle.
    all.extend(words_of(&job.name).filter(|word| !vehicle.contains(word)));
    for (which, text) in &job.particulars {
        match which {
            // How far it has run names nobody.
            Particular::Vehicle | Particular::Odometer => {}
            // As one word: part of a plate is no name.
            Particular::Plate | Particular::KitSerial => all.push(plain(text)),
            Particular::Vin => all.extend(vin_and_its_end(text)),
            Particular::Customer | Particular::Fitter => all.push(text.clone()),
        }
    }
    all.extend(job.check.agreed.as_ref().map(|agreed| agreed.name.clone()));
    all.extend(job.measuring.profile.as_ref().map(|p| p.name.clone()));
    all
}

/// A vehicle's number, and its last eight and six signs, by which workshops
/// call a vehicle as well.
fn vin_and_its_end(text: &str) -> Vec<String> {
    let whole = plain(text);
    let signs: Vec<char> = whole.chars().collect();
    let ends = [8, 6].into_iter().filter(|end| signs.len() > *end);
    let ends: Vec<String> = ends
        .map(|end| signs[signs.len() - end..].iter().collect())
        .collect();
    std::iter::once(whole).chain(ends).collect()
}

fn without_customer(lesson: &mut Lesson, kept_in: &Secrets) {
    // The day is enough; the time zone would say where.
    let day = lesson.at.date_naive().and_hms_opt(0, 0, 0);
    let utc: FixedOffset = Utc.fix();
    if let Some(day) = day {
        lesson.at = day.and_utc().with_timezone(&utc);
    }
    lesson.vehicle = kept_in.taken_out_of(&lesson.vehicle);
    kit_words::leave_out(lesson, kept_in);
    for face in lesson.faces.iter_mut().flatten() {
        if let Instrument::Unzeroed(phone) = &mut face.read_by {
            phone.clear();
        }
    }
    lesson.typed.retain(|(_, text)| !kept_in.told_by(text));
    lesson.words.retain(|(_, text)| !kept_in.told_by(text));
    for area in &mut lesson.no_drill {
        if let NoDrillReason::Other(words) = &mut area.why
            && kept_in.told_by(words)
        {
            words.clear();
        }
    }
    let stays = |line: &PartLine| match &line.part {
        Part::Other(words) => !kept_in.told_by(words),
        _ => true,
    };
    lesson.extra.retain(stays);
    lesson.parts.retain(stays);
    // A visit is told in the customer's words.
    lesson
        .told
        .retain(|told| !matches!(told, Told::Visit { .. }));
    for told in &mut lesson.told {
        if let Told::Behind { what, .. } = told {
            what.retain(|what| match what {
                Obstacle::Other(words) => !kept_in.told_by(words),
                _ => true,
            });
        }
    }
}
