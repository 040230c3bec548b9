//! What the heads of a job will see: its spots, aims and corner angles as
//! heads in place, with what had to be assumed said.

use serde::{Deserialize, Serialize};

use super::entry::{AirField, Field, ObjectField, read_length};
use super::measured::{corner_angle, plan_curve};
use super::rings::ring_choice;
use super::rings_chosen::sets_taken;
use super::state::JobState;
use crate::decide::coverage::{
    Air, Celsius, FixedObject, HeadInPlace, Hectopascals, Humidity, ObjectKind, Place, Sensor,
    Target, wheel_radius,
};
use crate::estimate::rake::Turn;
use crate::kit::{BeamWay, KitSheet};
use crate::text::{Message, msg};
use crate::units::{Degrees, Estimate, Millimetres, Millis, Offset};

/// Frequency where the sheet gives none, kHz (component page of a closed
/// 40 kHz transducer: 40.0 ± 1.0 kHz).
pub const TYPICAL_KILOHERTZ: f64 = 40.0;
/// Full beam width across where the sheet gives none: middle of the 30 to
/// 160 degrees of an article on ultrasonic sensors for reverse driving.
pub const TYPICAL_ACROSS: Degrees = Degrees(95.0);
/// Full beam width up and down where the sheet gives none: middle of the 20
/// to 80 degrees of the same article, and the -6 dB width of the component.
pub const TYPICAL_UPRIGHT: Degrees = Degrees(50.0);
/// Ringing where the sheet gives none (the component's: at most 1.2 ms).
pub const TYPICAL_RINGING: Millis = Millis(1.2);
/// Rated range where the sheet gives none (assumed).
pub const ASSUMED_RANGE: Millimetres = Millimetres(1600.0);
/// Height of the heads where neither job nor sheet says it (assumed).
pub const ASSUMED_HEIGHT: Millimetres = Millimetres(520.0);
/// An object farther out than this is not on the vehicle.
pub const OBJECT_GREATEST: Millimetres = Millimetres(2500.0);

/// What a job knows about what is behind the vehicle.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct CoverageState {
    /// The fixed object, if there is one.
    pub object: Option<ObjectKind>,
}

/// What was said about what is behind the vehicle.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum CoverageEvent {
    /// Which fixed object there is, or none.
    ObjectSaid(Option<ObjectKind>),
}

pub(super) fn apply(next: &mut JobState, event: CoverageEvent) {
    match event {
        CoverageEvent::ObjectSaid(object) => next.coverage.object = object,
    }
}

/// Heads in place, and what the prediction stands on.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// The heads, left to right.
    pub heads: Vec<HeadInPlace>,
    /// Standard uncertainty of each head's aim, degrees; `None` where the
    /// aim is assumed.
    pub u_aims: Vec<Option<Degrees>>,
    /// What is assumed, in words.
    pub assumed: Vec<Message>,
    /// Heads that can't see anything, in words.
    pub troubles: Vec<Message>,
}

/// The air of the day: what is typed and can be, else reference air's.
#[must_use]
pub fn air_of(job: &JobState) -> Air {
    let typed = |field| job.typed(Field::Air(field));
    Air {
        celsius: Celsius::read(typed(AirField::Celsius)).unwrap_or(Air::REFERENCE.celsius),
        humidity: Humidity::read(typed(AirField::Humidity)).unwrap_or(Air::REFERENCE.humidity),
        pressure: Hectopascals::read(typed(AirField::Pressure)).unwrap_or(Air::REFERENCE.pressure),
    }
}

/// What is wrong with a typed figure of the air; `None` when it fits or is
/// empty. Until it is mended the prediction is for reference air's.
#[must_use]
pub fn air_trouble(job: &JobState, field: AirField) -> Option<Message> {
    let typed = job.typed(Field::Air(field));
    if typed.trim().is_empty() {
        return None;
    }
    match field {
        AirField::Celsius => Celsius::read(typed).err(),
        AirField::Humidity => Humidity::read(typed).err(),
        AirField::Pressure => Hectopascals::read(typed).err(),
    }
}

/// The kit's beam and calibration, and what had to be assumed for it.
///
/// # Errors
/// A message when the sheet's figures make no beam.
pub fn sensor_of(kit: &KitSheet) -> Result<(Sensor, Vec<Message>), Message> {
    let mut assumed = Vec::new();
    let sensing = kit.sensing.as_ref();
    let range = sensing.and_then(|s| s.rated_range).unwrap_or_else(|| {
        assumed.push(msg("assumed-range").mm("range", ASSUMED_RANGE.0));
        ASSUMED_RANGE
    });
    let kilohertz = sensing
        .and_then(|s| s.frequency_kilohertz)
        .unwrap_or_else(|| {
            assumed.push(msg("typical-frequency").number("kilohertz", TYPICAL_KILOHERTZ, 0));
            TYPICAL_KILOHERTZ
        });
    let across = sensing.and_then(|s| s.beam_across).unwrap_or_else(|| {
        assumed.push(msg("typical-across").number("angle", TYPICAL_ACROSS.0, 0));
        TYPICAL_ACROSS
    });
    let upright = sensing.and_then(|s| s.beam_upright).unwrap_or_else(|| {
        assumed.push(msg("typical-upright").number("angle", TYPICAL_UPRIGHT.0, 0));
        TYPICAL_UPRIGHT
    });
    let way = sensing.and_then(|s| s.beam_way).unwrap_or_else(|| {
        assumed.push(msg("assumed-way"));
        BeamWay::OneWay
    });
    let ringing = sensing.and_then(|s| s.ringing).unwrap_or_else(|| {
        assumed.push(msg("typical-ringing").number("millis", TYPICAL_RINGING.0, 1));
        TYPICAL_RINGING
    });
    let sensor = Sensor::new(range, kilohertz, [across, upright], way, ringing)?;
    Ok((sensor, assumed))
}

/// The heads of a job where they sit and point.
///
/// # Errors
/// A message while no marks are planned, or when the sheet makes no beam.
pub fn heads_in_place(job: &JobState) -> Result<Placed, Message> {
    let marks = job.marks.as_ref().ok_or_else(|| msg("coverage-no-marks"))?;
    let (sensor, mut assumed) = sensor_of(&job.kit)?;
    let height = height_of(job, &mut assumed);
    let curve = plan_curve(job);
    if curve.is_none() {
        assumed.push(msg("assumed-straight"));
    }
    let aims = aims(job);
    let (mut not_read, mut not_turned) = (Vec::new(), Vec::new());
    let mut placed = Placed {
        heads: Vec::new(),
        u_aims: Vec::new(),
        assumed,
        troubles: Vec::new(),
    };
    for (index, (spot, offset)) in job.spots.iter().zip(&marks.offsets).enumerate() {
        let label = || msg("literal").text("text", spot.label.clone());
        let aim = aims.get(index).copied().flatten();
        if aim.is_none() {
            not_read.push(label());
        }
        let turn = match corner_angle(job, index) {
            Turn::Known(turn) => turn.value,
            Turn::NotKnown => {
                not_turned.push(label());
                Degrees(0.0)
            }
        };
        let forward = curve
            .as_ref()
            .and_then(|curve| Some(curve.place(curve.along(*offset)?.value).1.value));
        let head = HeadInPlace {
            label: spot.label.clone(),
            offset: *offset,
            forward: forward.unwrap_or_default(),
            height,
            aim: aim.map_or(job.kit.aim.target, |aim| aim.value),
            turn,
            sensor,
        };
        if !head.faces_out() {
            placed
                .troubles
                .push(msg("coverage-faces-in").text("label", spot.label.clone()));
        }
        placed.u_aims.push(aim.map(|aim| aim.u));
        placed.heads.push(head);
    }
    if !not_read.is_empty() {
        let target = msg("assumed-aim").list("heads", not_read);
        placed.assumed.push(target.deg("aim", job.kit.aim.target.0));
    }
    if !not_turned.is_empty() {
        placed
            .assumed
            .push(msg("assumed-turn").list("heads", not_turned));
    }
    Ok(placed)
}

fn height_of(job: &JobState, assumed: &mut Vec<Message>) -> Millimetres {
    if let Some(height) = job.mark_out.row.and_then(|row| row.above_ground) {
        return height;
    }
    if let Some(range) = &job.kit.height {
        let middle = (range.least + range.greatest) * 0.5;
        assumed.push(msg("assumed-height-sheet").mm("height", middle.0));
        return middle;
    }
    assumed.push(msg("assumed-height").mm("height", ASSUMED_HEIGHT.0));
    ASSUMED_HEIGHT
}

/// Where each head points with the set that goes in.
fn aims(job: &JobState) -> Vec<Option<Estimate<Degrees>>> {
    let aim = |(spot, taken): (_, Option<super::SetTaken>)| {
        let choice = ring_choice(job, spot)?;
        Some(choice.candidate(&job.kit, &taken?.set)?.aim)
    };
    job.spots.iter().zip(sets_taken(job)).map(aim).collect()
}

/// What is wrong with a typed figure of the fixed object; `None` when it
/// fits or is empty.
#[must_use]
pub fn object_trouble(job: &JobState, field: ObjectField) -> Option<Message> {
    let typed = job.typed(Field::Object(field));
    if typed.trim().is_empty() {
        return None;
    }
    read_object(field, typed).err()
}

fn read_object(field: ObjectField, typed: &str) -> Result<Millimetres, Message> {
    let length = read_length(&typed.replace('−', "-"))?;
    let fits = match field {
        ObjectField::Radius => return wheel_radius(length),
        ObjectField::Across => length.abs() <= OBJECT_GREATEST,
        ObjectField::Behind | ObjectField::Height => length.0 >= 0.0 && length <= OBJECT_GREATEST,
    };
    if fits {
        Ok(length)
    } else {
        Err(msg("object-out-of-range")
            .mm("typed", length.0)
            .mm("greatest", OBJECT_GREATEST.0))
    }
}

/// The fixed object of the job; `None` without one.
///
/// # Errors
/// A message that says which figure is missing or wrong.
#[must_use]
pub fn fixed_object(job: &JobState) -> Option<Result<FixedObject, Message>> {
    let kind = job.coverage.object?;
    Some(object_as_typed(job, kind))
}

fn object_as_typed(job: &JobState, kind: ObjectKind) -> Result<FixedObject, Message> {
    let figure = |field| match job.typed(Field::Object(field)) {
        typed if typed.trim().is_empty() => Err(msg(match field {
            ObjectField::Radius => "object-radius-missing",
            _ => "object-figure-missing",
        })),
        typed => read_object(field, typed),
    };
    let across = match job.typed(Field::Object(ObjectField::Across)) {
        typed if typed.trim().is_empty() => Millimetres(0.0),
        typed => read_object(ObjectField::Across, typed)?,
    };
    let behind = figure(ObjectField::Behind)?;
    let height = figure(ObjectField::Height)?;
    let target = match kind {
        ObjectKind::TowBall => Target::TowBall { height },
        ObjectKind::SpareWheel => Target::SpareWheel {
            height,
            radius: figure(ObjectField::Radius)?,
        },
    };
    let across = Offset(across.0);
    Ok(FixedObject {
        target,
        at: Place { across, behind },
    })
}

#[cfg(test)]
mod tests {
    use chrono::{DateTime, FixedOffset};

    use super::*;
    use crate::decide::coverage::{Advice, advise, map};
    use crate::decide::coverage::{Area, View};
    use crate::decide::mark_out::{PlanKind, solve};
    use crate::job::{JobEvent, JobId, apply as apply_event, task_for};
    use crate::kit::parse;

    const SHEET: &str = include_str!("../../../assets/kits/metal-four.json");

    fn at() -> DateTime<FixedOffset> {
        DateTime::parse_from_rfc3339("2026-03-02T09:00:00+01:00").unwrap()
    }

    fn started() -> JobState {
        JobState::start(JobId("1".to_owned()), parse(SHEET).unwrap(), at())
    }

    fn planned() -> JobState {
        let job = started();
        let half = Millimetres(860.0);
        let task = task_for(&job, half, half);
        let plans = solve(&task).unwrap();
        let offsets = plans.symmetric.marks.clone();
        let event = JobEvent::MarksPlanned {
            half_left: half,
            half_right: half,
            kind: PlanKind::Symmetric,
            offsets,
        };
        apply_event(&job, event, at()).unwrap()
    }

    fn typed(job: &JobState, field: Field, text: &str) -> JobState {
        apply_event(job, JobEvent::Typed(field, text.to_owned()), at()).unwrap()
    }

    #[test]
    fn before_the_marks_it_says_what_comes_first() {
        assert_eq!(heads_in_place(&started()), Err(msg("coverage-no-marks")));
    }

    #[test]
    fn a_job_without_readings_is_shown_with_what_is_assumed() {
        let placed = heads_in_place(&planned()).unwrap();
        assert_eq!(placed.heads.len(), 4);
        let keys: Vec<&str> = placed.assumed.iter().map(|m| &*m.key).collect();
        let wanted = [
            "assumed-height-sheet",
            "assumed-straight",
            "assumed-aim",
            "assumed-turn",
        ];
        assert_eq!(keys, wanted);
        assert!(placed.troubles.is_empty());
    }

    #[test]
    fn a_sheet_without_beam_stands_on_typical_values_that_say_so() {
        let mut job = planned();
        job.kit.sensing = None;
        let (sensor, assumed) = sensor_of(&job.kit).unwrap();
        assert_eq!(assumed.len(), 6);
        assert!((sensor.beam.hertz - 40_000.0).abs() < 1e-9);
        assert_eq!(super::super::asked_for_coverage(&job).len(), 5);
        let placed = heads_in_place(&job).unwrap();
        let area = Area::detection(Millimetres(860.0), Millimetres(860.0));
        let found = map(
            &placed.heads,
            View::Above(Target::Pole),
            area,
            &air_of(&job),
        );
        assert!(found.levels.iter().all(|level| level.is_finite()));
    }

    #[test]
    fn a_range_of_nothing_is_refused_in_words() {
        let mut kit = started().kit;
        let sensing = kit.sensing.as_mut().unwrap();
        sensing.rated_range = Some(Millimetres(0.0));
        assert_eq!(sensor_of(&kit).unwrap_err().key, "coverage-no-range");
    }

    #[test]
    fn a_head_turned_into_the_vehicle_is_named() {
        let mut job = planned();
        job.kit.aim.target = Degrees(100.0);
        let placed = heads_in_place(&job).unwrap();
        assert_eq!(placed.troubles.len(), 4);
        assert_eq!(placed.troubles[0].key, "coverage-faces-in");
    }

    #[test]
    fn typed_weather_counts_once_it_can_be() {
        let celsius = Field::Air(AirField::Celsius);
        let job = typed(&planned(), celsius, "-60");
        assert_eq!(air_of(&job), Air::REFERENCE);
        let trouble = air_trouble(&job, AirField::Celsius).unwrap();
        assert_eq!(trouble.key, "air-celsius-outside");
        let job = typed(&job, celsius, "-6");
        assert_eq!(air_trouble(&job, AirField::Celsius), None);
        assert!(air_of(&job).speed() < Air::REFERENCE.speed());
        let dry = typed(&job, Field::Air(AirField::Humidity), "0");
        let trouble = air_trouble(&dry, AirField::Humidity).unwrap();
        assert_eq!(trouble.key, "air-humidity-outside");
    }

    fn advice(job: &JobState) -> Advice {
        let object = fixed_object(job).unwrap().unwrap();
        let heads = heads_in_place(job).unwrap().heads;
        advise(&heads, &object, &air_of(job), &job.kit)
    }

    #[test]
    fn a_tow_ball_in_the_zone_is_shifted_away_first_and_learned_second() {
        let event = JobEvent::Coverage(CoverageEvent::ObjectSaid(Some(ObjectKind::TowBall)));
        let job = apply_event(&planned(), event, at()).unwrap();
        let missing = fixed_object(&job).unwrap().unwrap_err();
        assert_eq!(missing.key, "object-figure-missing");
        let job = typed(&job, Field::Object(ObjectField::Behind), "260");
        let job = typed(&job, Field::Object(ObjectField::Height), "48 cm");
        let found = advice(&job);
        assert!(!found.seen_by.is_empty());
        assert!(found.steps[0].key.starts_with("object-shift"));
        assert!(found.steps[1].key.starts_with("object-learn"));
        let far = typed(&job, Field::Object(ObjectField::Across), "2400");
        assert_eq!(advice(&far).steps, [msg("object-not-seen")]);
        let wrong = typed(&job, Field::Object(ObjectField::Height), "9 m");
        let trouble = object_trouble(&wrong, ObjectField::Height).unwrap();
        assert_eq!(trouble.key, "object-out-of-range");
    }
}
