//! How the angles of a job are measured: phone, contact, ground, load,
//! corner angles, level photos. Facts only; what follows from them is
//! worked out in [`super::measured`].

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::apply::Refusal;
use super::entry::turn_too_far;
use super::state::{JobState, Spot};
use crate::decide::ring_set::{LOAD_ALLOWANCE, LOAD_ALLOWANCE_CARRIER};
use crate::estimate::contact::Roundness;
use crate::estimate::ground::Ground;
use crate::estimate::level::ScreenTurn;
use crate::estimate::rake::{Against, FaceReading};
use crate::estimate::still::StillReading;
use crate::estimate::turn::{MOST_TURN, Station, close_sweep};
use crate::estimate::zero::{Phone, PhoneProfile};
use crate::text::msg;
use crate::units::{Degrees, Estimate};

/// Greatest allowance for load that may be typed, degrees.
pub const LOAD_GREATEST: Degrees = Degrees(5.0);
/// Most level photos that a job keeps.
pub const PHOTOS_GREATEST: usize = 12;

/// What the vehicle carries, in words.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub enum Load {
    /// A car.
    #[default]
    Car,
    /// A van, estate or tow car whose rear sinks a good deal.
    Carrier,
    /// The fitter's own figure.
    Own(Degrees),
}

impl Load {
    /// Added to the sheet's least aim.
    #[must_use]
    pub fn allowance(self) -> Degrees {
        match self {
            Self::Car => LOAD_ALLOWANCE,
            Self::Carrier => LOAD_ALLOWANCE_CARRIER,
            Self::Own(own) => own,
        }
    }
}

/// The two ends of a line that the fitter laid over a picture: shares of
/// the picture's width, to the right and down from its upper left corner.
pub type PictureLine = [[f64; 2]; 2];

/// A photo taken against level. Its picture is a blob of its own, never
/// inside the record.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LevelPhoto {
    /// Key of the picture in the blob store.
    pub blob: String,
    /// Width of the picture, pixels.
    pub width: u32,
    /// Height of the picture, pixels.
    pub height: u32,
    /// How the phone was held when it was taken; `None` for a picture that
    /// came from a file.
    pub held: Option<StillReading>,
    /// How the screen was turned then.
    pub turn: ScreenTurn,
    /// When it was taken or chosen.
    pub at: DateTime<FixedOffset>,
    /// The line that the fitter laid over it.
    pub line: Option<PictureLine>,
}

/// How the angles of a job are measured.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Measuring {
    /// The phone and what it wears; `None` until it was used.
    pub profile: Option<PhoneProfile>,
    /// How round the face is, up and down.
    pub roundness: Roundness,
    /// What the vehicle carries.
    pub load: Load,
    /// What typed angles are measured against.
    pub gauge: Against,
    /// Typed corner angles by spot; a shorter list leaves the rest open.
    pub turns: Vec<Option<Estimate<Degrees>>>,
    /// The sweep, from the centre to the centre; empty without one.
    pub stations: Vec<Station>,
    /// Level photos, oldest first.
    pub photos: Vec<LevelPhoto>,
}

impl Measuring {
    /// The corner angle typed for a spot.
    #[must_use]
    pub fn typed_turn(&self, spot: usize) -> Option<Estimate<Degrees>> {
        self.turns.get(spot).copied().flatten()
    }

    /// Forgets the corner angle of a spot whose mark moved.
    pub(super) fn forget_turn(&mut self, spot: usize) {
        if let Some(turn) = self.turns.get_mut(spot) {
            *turn = None;
        }
    }
}

/// Something that happened to how angles are measured.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum MeasuringEvent {
    /// The job is read by this phone.
    PhoneUsed {
        /// Zeroed or not.
        phone: Phone,
        /// Its name, case and feet.
        profile: PhoneProfile,
    },
    /// The same phone was given another name.
    PhoneRenamed {
        /// As it was called.
        before: String,
        /// As it is called now.
        after: String,
    },
    /// All that a phone read was taken out, to be read anew: the face angles,
    /// and the panel beside fitted heads.
    ReadingsDropped,
    /// How the ground lies was said or measured.
    GroundFound(Ground),
    /// What typed angles are measured against.
    GaugeSet(Against),
    /// How round the face is.
    RoundnessFound(Roundness),
    /// What the vehicle carries.
    LoadSaid(Load),
    /// A corner angle was typed.
    TurnTyped {
        /// Which spot.
        spot: usize,
        /// Corner angle, + to the right.
        turn: Estimate<Degrees>,
    },
    /// A typed corner angle was taken out.
    TurnDropped {
        /// Which spot.
        spot: usize,
    },
    /// A sweep was closed.
    Swept(Vec<Station>),
    /// The sweep was taken out.
    SweepDropped,
    /// A level photo was kept.
    PhotoKept(LevelPhoto),
    /// A line was laid over a level photo.
    LineLaid {
        /// Key of the photo's picture.
        blob: String,
        /// The line.
        line: PictureLine,
    },
    /// A level photo was taken out.
    PhotoDropped {
        /// Key of its picture.
        blob: String,
    },
}

pub(super) fn apply(next: &mut JobState, event: MeasuringEvent) -> Result<(), Refusal> {
    match event {
        MeasuringEvent::PhoneUsed { phone, profile } => use_phone(next, phone, profile)?,
        MeasuringEvent::PhoneRenamed { before, after } => rename_phone(next, &before, after),
        MeasuringEvent::ReadingsDropped => {
            for spot in &mut next.spots {
                spot.readings.clear();
            }
            next.fault.drop_readings();
        }
        MeasuringEvent::GroundFound(ground) => next.ground = ground,
        MeasuringEvent::GaugeSet(against) => next.measuring.gauge = against,
        MeasuringEvent::RoundnessFound(roundness) => next.measuring.roundness = roundness,
        MeasuringEvent::LoadSaid(load) => {
            let allowance = load.allowance();
            if !(0.0..=LOAD_GREATEST.0).contains(&allowance.0) {
                return Err(Refusal(
                    msg("load-out-of-range")
                        .deg("typed", allowance.0)
                        .deg("greatest", LOAD_GREATEST.0),
                ));
            }
            next.measuring.load = load;
            next.load_allowance = allowance;
        }
        MeasuringEvent::TurnTyped { spot, turn } => type_turn(next, spot, turn)?,
        MeasuringEvent::TurnDropped { spot } => next.measuring.forget_turn(spot),
        MeasuringEvent::Swept(stations) => {
            close_sweep(&stations, &next.ground).map_err(Refusal)?;
            next.measuring.stations = stations;
        }
        MeasuringEvent::SweepDropped => next.measuring.stations.clear(),
        MeasuringEvent::PhotoKept(photo) => {
            if next.measuring.photos.len() >= PHOTOS_GREATEST {
                let most = i64::try_from(PHOTOS_GREATEST).unwrap_or(i64::MAX);
                return Err(Refusal(msg("level-too-many-photos").count("most", most)));
            }
            next.measuring.photos.push(photo);
        }
        MeasuringEvent::LineLaid { blob, line } => {
            let photos = &mut next.measuring.photos;
            if let Some(photo) = photos.iter_mut().find(|photo| photo.blob == blob) {
                photo.line = Some(line);
            }
        }
        MeasuringEvent::PhotoDropped { blob } => {
            next.measuring.photos.retain(|photo| photo.blob != blob);
        }
    }
    Ok(())
}

fn rename_phone(next: &mut JobState, before: &str, after: String) {
    if let Phone::Zeroed(zeroing) = &mut next.phone
        && zeroing.profile.name == before
    {
        zeroing.profile.name.clone_from(&after);
    }
    if let Some(profile) = &mut next.measuring.profile
        && profile.name == before
    {
        profile.name = after;
    }
}

/// One zeroing must not correct what another phone read: the readings come
/// out first, or the job goes on with the phone that took them.
fn use_phone(next: &mut JobState, phone: Phone, profile: PhoneProfile) -> Result<(), Refusal> {
    let held = |spot: &Spot| {
        let mut readings = spot.readings.iter();
        readings.any(|taken| matches!(taken.reading, FaceReading::Held { .. }))
    };
    let read = next.spots.iter().any(held) || next.fault.holds_readings();
    if let Some(before) = &next.measuring.profile
        && read
        && before.name != profile.name
    {
        return Err(Refusal(
            msg("refused-other-phone")
                .text("before", before.name.clone())
                .text("now", profile.name),
        ));
    }
    if let Some(before) = &next.measuring.profile
        && read
        && (before.case != profile.case || before.feet != profile.feet)
    {
        return Err(Refusal(msg("refused-phone-changed")));
    }
    next.phone = phone;
    next.measuring.profile = Some(profile);
    Ok(())
}

fn type_turn(next: &mut JobState, spot: usize, turn: Estimate<Degrees>) -> Result<(), Refusal> {
    if spot >= next.spots.len() {
        return Err(Refusal(msg("refused-no-marks")));
    }
    let usable = turn.value.0.is_finite() && turn.u.0 > 0.0;
    if !usable || turn.value.abs() > MOST_TURN {
        return Err(Refusal(turn_too_far(turn.value)));
    }
    let turns = &mut next.measuring.turns;
    if turns.len() <= spot {
        turns.resize(spot + 1, None);
    }
    if let Some(place) = turns.get_mut(spot) {
        *place = Some(turn);
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::estimate::contact::Feet;
    use crate::job::{JobEvent, JobId, apply};
    use crate::kit;

    fn at() -> DateTime<FixedOffset> {
        DateTime::parse_from_rfc3339("2026-03-12T09:00:00+01:00").unwrap()
    }

    fn started() -> JobState {
        let sheet = include_str!("../../../assets/kits/plain-four.json");
        JobState::start(JobId("a1".to_owned()), kit::parse(sheet).unwrap(), at())
    }

    fn after(job: &JobState, event: MeasuringEvent) -> Result<JobState, Refusal> {
        apply(job, JobEvent::Measuring(event), at())
    }

    #[test]
    fn load_in_words_sets_the_allowance_and_a_silly_one_is_refused() {
        let job = started();
        let carrier = after(&job, MeasuringEvent::LoadSaid(Load::Carrier)).unwrap();
        assert_eq!(carrier.load_allowance, LOAD_ALLOWANCE_CARRIER);
        for own in [-1.0, 40.0, f64::NAN] {
            let silly = MeasuringEvent::LoadSaid(Load::Own(Degrees(own)));
            assert_eq!(after(&job, silly).unwrap_err().0.key, "load-out-of-range");
        }
    }

    #[test]
    fn a_corner_angle_beyond_the_corner_or_for_no_spot_is_refused() {
        let job = started();
        let turn = |spot, angle| MeasuringEvent::TurnTyped {
            spot,
            turn: Estimate::new(Degrees(angle), Degrees(3.0)),
        };
        let typed = after(&job, turn(3, -24.0)).unwrap();
        assert_eq!(typed.measuring.typed_turn(3).unwrap().value, Degrees(-24.0));
        assert_eq!(typed.measuring.typed_turn(0), None);
        let round = msg("turn-out-of-range")
            .deg("typed", 120.0)
            .deg("by", 35.0)
            .deg("greatest", 85.0);
        assert_eq!(after(&job, turn(3, 120.0)), Err(Refusal(round)));
        assert!(after(&job, turn(4, 10.0)).is_err());
        let dropped = after(&typed, MeasuringEvent::TurnDropped { spot: 3 }).unwrap();
        assert_eq!(dropped.measuring.typed_turn(3), None);
    }

    #[test]
    fn a_renamed_phone_is_the_same_phone() {
        let profile = |name: &str| PhoneProfile {
            name: name.to_owned(),
            case: String::new(),
            feet: Feet::None,
        };
        let used = MeasuringEvent::PhoneUsed {
            phone: Phone::Unzeroed,
            profile: profile("Slate"),
        };
        let job = after(&started(), used).unwrap();
        let renamed = MeasuringEvent::PhoneRenamed {
            before: "Slate".to_owned(),
            after: "Bench phone".to_owned(),
        };
        let job = after(&job, renamed).unwrap();
        assert_eq!(job.measuring.profile, Some(profile("Bench phone")));
    }

    #[test]
    fn a_sweep_that_does_not_close_is_refused() {
        let swept = MeasuringEvent::Swept(Vec::new());
        assert_eq!(
            after(&started(), swept).unwrap_err().0.key,
            "sweep-too-short"
        );
    }
}
