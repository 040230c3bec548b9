//! Zeroing: finding this phone's own error.

use rakeline_core::estimate::seating::Seating;
use rakeline_core::estimate::zero::{Phone, PhoneProfile, poses, solve};
use rakeline_core::json;
use rakeline_core::text::msg;
use rakeline_core::units::Millis;

use crate::{Fault, Feet, Still};

/// How the phone is held for one reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq, uniffi::Enum)]
pub enum Pose {
    /// Back on the wall, top edge up.
    BackUpright,
    /// Back on the wall, top edge down.
    BackUpsideDown,
    /// Screen on the wall, top edge up.
    ScreenIn,
    /// Screen on the wall, top edge down.
    ScreenInUpsideDown,
    /// On its back on a table.
    Table,
    /// The same, turned end for end.
    TableTurned,
}

/// One pose with its reading.
#[derive(Clone, Copy, Debug, PartialEq, uniffi::Record)]
pub struct PoseReading {
    /// How the phone was held.
    pub pose: Pose,
    /// What it read.
    pub still: Still,
}

impl PoseReading {
    fn taken(self) -> Result<poses::PoseReading, Fault> {
        Ok(poses::PoseReading {
            pose: match self.pose {
                Pose::BackUpright => poses::Pose::BackUpright,
                Pose::BackUpsideDown => poses::Pose::BackUpsideDown,
                Pose::ScreenIn => poses::Pose::ScreenIn,
                Pose::ScreenInUpsideDown => poses::Pose::ScreenInUpsideDown,
                Pose::Table => poses::Pose::Table,
                Pose::TableTurned => poses::Pose::TableTurned,
            },
            still: self.still.reading()?,
        })
    }
}

/// What zeroing found.
#[derive(Clone, Debug, PartialEq, uniffi::Record)]
pub struct Zeroing {
    /// All of it as JSON, for [`crate::face_angle`].
    pub json: String,
    /// Root mean square of what is left after the fit, degrees.
    pub spread: f64,
    /// Face angle at an upright face before zeroing minus after it, degrees.
    pub was_off_by: f64,
}

/// Zeroes a phone from its poses: the first three at least.
///
/// # Errors
/// [`Fault::Invalid`] when a figure is none, [`Fault::Impossible`] when poses
/// are missing or do not fit.
#[uniffi::export]
pub fn zero_phone(poses: &[PoseReading], feet: Feet, at_ms: f64) -> Result<Zeroing, Fault> {
    let taken: Result<Vec<_>, Fault> = poses.iter().map(|pose| pose.taken()).collect();
    let profile = PhoneProfile {
        name: String::new(),
        case: String::new(),
        feet: feet.into(),
    };
    let found = solve::zero_phone(&taken?, profile, Seating::Assumed, Millis(at_ms));
    let found = found.map_err(|fault| Fault::impossible(&fault.message()))?;
    let json = json::write(&found).map_err(|fault| unreadable(&fault))?;
    Ok(Zeroing {
        json,
        spread: found.spread.0,
        was_off_by: found.was_off_by.0,
    })
}

fn unreadable(fault: &json::Fault) -> Fault {
    Fault::unreadable(&msg("record-damaged").text("why", fault.to_string()))
}

/// The phone of a zeroing, as it came without one.
pub(crate) fn phone_of(zeroing: Option<&str>) -> Result<Phone, Fault> {
    match zeroing {
        None => Ok(Phone::Unzeroed),
        Some(text) => json::read(text)
            .map(|zeroing| Phone::Zeroed(Box::new(zeroing)))
            .map_err(|fault| unreadable(&fault)),
    }
}
