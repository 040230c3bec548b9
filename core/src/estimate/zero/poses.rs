//! The poses of zeroing, and how a bad one is recognised and named.

use serde::{Deserialize, Serialize};

use crate::estimate::rake::Side;
use crate::estimate::still::StillReading;
use crate::estimate::zero::SourceKind;
use crate::sample::azimuth_change;
use crate::text::{Message, msg};
use crate::units::Degrees;

/// How the phone is held for one reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
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

impl Pose {
    /// All six in the order of the guide; the last two are an option.
    pub const ALL: [Self; 6] = [
        Self::BackUpright,
        Self::BackUpsideDown,
        Self::ScreenIn,
        Self::ScreenInUpsideDown,
        Self::Table,
        Self::TableTurned,
    ];

    /// Poses on the wall.
    pub const WALL: usize = 4;

    /// What the fitter is asked to do, also spoken.
    #[must_use]
    pub fn ask(self) -> Message {
        msg(match self {
            Self::BackUpright => "zero-pose-back-upright",
            Self::BackUpsideDown => "zero-pose-back-upside-down",
            Self::ScreenIn => "zero-pose-screen-in",
            Self::ScreenInUpsideDown => "zero-pose-screen-in-upside-down",
            Self::Table => "zero-pose-table",
            Self::TableTurned => "zero-pose-table-turned",
        })
    }

    /// Side that touches.
    #[must_use]
    pub fn side(self) -> Side {
        match self {
            Self::ScreenIn | Self::ScreenInUpsideDown => Side::Screen,
            Self::BackUpright | Self::BackUpsideDown | Self::Table | Self::TableTurned => {
                Side::Back
            }
        }
    }

    /// +1 with the top edge up, -1 with it down, 0 on the table.
    fn top_edge(self) -> f64 {
        match self {
            Self::BackUpright | Self::ScreenIn => 1.0,
            Self::BackUpsideDown | Self::ScreenInUpsideDown => -1.0,
            Self::Table | Self::TableTurned => 0.0,
        }
    }
}

/// One pose with its reading.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct PoseReading {
    /// How the phone was held.
    pub pose: Pose,
    /// What it read.
    pub still: StillReading,
}

/// What the two table poses buy, from simulation (95 of 100 phones, face
/// angle -20): raw 0.39 -> 0.31 degree, normalised 0.90 -> 0.48.
#[must_use]
pub fn table_poses_buy(kind: SourceKind) -> Message {
    let (without, with) = match kind {
        SourceKind::Raw => (0.39, 0.31),
        SourceKind::Normalised => (0.90, 0.48),
    };
    msg("zero-table-buys")
        .number("without", without, 1)
        .number("with", with, 1)
}

/// A wall pose may turn in its plane by this much.
pub const MOST_TURNED: Degrees = Degrees(15.0);
/// A wall may lean by this much.
pub const MOST_LEAN: Degrees = Degrees(10.0);
/// A table may slope by this much.
pub const MOST_TABLE_SLOPE: Degrees = Degrees(8.0);
/// Noisier than this, the phone moved while it was read.
pub const MOST_NOISE: Degrees = Degrees(0.2);

/// Why a pose is not taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BadPose {
    /// Turned in the plane of the wall.
    NotUpright(Degrees),
    /// Top edge the wrong way.
    WrongWayUp,
    /// The other side is on the wall or table.
    WrongSide,
    /// The surface leans or slopes too much.
    SurfaceLeans(Degrees),
    /// It moved while it was read.
    Moved(Degrees),
    /// It was not moved since a pose before.
    SamePoseTwice,
    /// Not the kind of sensor of the poses before.
    OtherSource,
}

impl BadPose {
    /// What the fitter is told.
    #[must_use]
    pub fn message(self) -> Message {
        match self {
            Self::NotUpright(by) => msg("zero-bad-not-upright").deg("by", by.0),
            Self::WrongWayUp => msg("zero-bad-wrong-way-up"),
            Self::WrongSide => msg("zero-bad-wrong-side"),
            Self::SurfaceLeans(by) => msg("zero-bad-surface-leans").deg("by", by.0),
            Self::Moved(by) => msg("zero-bad-moved").number("by", by.0, 2),
            Self::SamePoseTwice => msg("zero-bad-same-twice"),
            Self::OtherSource => msg("zero-bad-other-source"),
        }
    }
}

/// Checks a pose against what it should be and against those before it.
///
/// # Errors
/// What is wrong with it; it is then not to be kept.
pub fn check_pose(before: &[PoseReading], next: &PoseReading) -> Result<(), BadPose> {
    let still = &next.still;
    let kind = SourceKind::from(still.source);
    if before
        .iter()
        .any(|b| SourceKind::from(b.still.source) != kind)
    {
        return Err(BadPose::OtherSource);
    }
    if still.u_noise > MOST_NOISE {
        return Err(BadPose::Moved(still.u_noise));
    }
    if before.last().is_some_and(|b| unmoved(&b.still, still)) {
        return Err(BadPose::SamePoseTwice);
    }
    let [x, y, z] = still.up.0;
    if next.pose.top_edge() == 0.0 {
        return table(z);
    }
    let lean = Degrees::asin(z).abs();
    if lean > MOST_LEAN {
        return Err(BadPose::SurfaceLeans(lean));
    }
    if y * next.pose.top_edge() < -0.5 {
        return Err(BadPose::WrongWayUp);
    }
    let turned = Degrees(x.atan2(y * next.pose.top_edge()).to_degrees()).abs();
    if turned > MOST_TURNED {
        return Err(BadPose::NotUpright(turned));
    }
    sides(before, next)
}

fn table(z: f64) -> Result<(), BadPose> {
    let slope = Degrees(z.clamp(-1.0, 1.0).abs().acos().to_degrees());
    if slope > MOST_TABLE_SLOPE {
        Err(BadPose::SurfaceLeans(slope))
    } else if z < 0.0 {
        Err(BadPose::WrongSide)
    } else {
        Ok(())
    }
}

/// Closer than the noise of both: nobody touched the phone in between. A
/// source that rounds may say the same of a table both ways round.
pub(crate) fn unmoved(a: &StillReading, b: &StillReading) -> bool {
    let noise = a.u_noise.0.hypot(b.u_noise.0).clamp(1e-6, 0.02);
    let flat_and_rounded = a.source.step_angle().0 > 0.0 && a.up.0[2] > 0.9;
    !flat_and_rounded && a.up.angle_to(b.up).0 < 2.0 * noise
}

/// Where the azimuth is known, back and screen on one wall look opposite
/// ways.
fn sides(before: &[PoseReading], next: &PoseReading) -> Result<(), BadPose> {
    for b in before.iter().filter(|b| b.pose.top_edge() != 0.0) {
        let Some((then, now)) = b.still.azimuth.zip(next.still.azimuth) else {
            continue;
        };
        let opposite = azimuth_change(then, now).abs() > Degrees(90.0);
        if opposite != (b.pose.side() != next.pose.side()) {
            return Err(BadPose::WrongSide);
        }
    }
    Ok(())
}
