//! The camera: a live picture on the screen, a photo from it, a picture
//! from a file.

use rakeline_core::estimate::photo::fault::PhotoFault;
use rakeline_core::text::{Message, msg};
use rakeline_core::units::Degrees;

use super::LocalFuture;

/// A picture without its location.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    /// The file: JPEG, PNG or WebP.
    pub bytes: Vec<u8>,
    /// Width as it is shown, pixels.
    pub width: u32,
    /// Height as it is shown, pixels.
    pub height: u32,
}

/// Why there is no picture.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CameraFault {
    /// The fitter or the browser said no.
    Refused,
    /// The phone has no camera, or another app holds it.
    NoCamera,
    /// The live picture has not begun yet.
    NotYet,
    /// The file is empty, too large, or of a kind that can't be read.
    File(PhotoFault),
    /// The file is no picture that can be kept.
    NotAPicture,
    /// Anything else, in the system's own words.
    Failed(String),
}

impl CameraFault {
    /// What the fitter is told, with what to do.
    #[must_use]
    pub fn message(&self) -> Message {
        match self {
            Self::Refused => msg("camera-refused"),
            Self::NoCamera => msg("camera-none"),
            Self::NotYet => msg("camera-not-yet"),
            Self::File(fault) => fault.message(),
            Self::NotAPicture => msg("camera-not-a-picture"),
            Self::Failed(why) => msg("camera-failed").text("why", why.clone()),
        }
    }
}

/// Where a picture comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PictureFrom {
    /// The system's own camera.
    Camera,
    /// The pictures on the phone.
    Files,
}

/// The camera that looks away from the fitter.
pub trait Camera {
    /// Shows the live picture in the video element with this id, which may
    /// come to the screen a moment later. A start while running goes on
    /// with the same picture.
    fn live(&self, element: &str) -> LocalFuture<'_, Result<(), CameraFault>>;

    /// Ends the live picture and frees the camera.
    fn stop(&self);

    /// A photo from the live picture.
    fn photo(&self) -> LocalFuture<'_, Result<Picture, CameraFault>>;

    /// Lets the fitter take a picture with the system's camera or choose one;
    /// call it inside a tap. `None` when there is none. Its location is taken
    /// out.
    fn choose(&self, from: PictureFrom) -> LocalFuture<'_, Result<Option<Picture>, CameraFault>>;

    /// A JPEG copy of a picture, upright, whose longer side has at most so
    /// many pixels; `None` where it can't be made.
    fn smaller(&self, picture: &Picture, most: u32) -> LocalFuture<'_, Option<Picture>>;

    /// An address under which the screen finds a picture of the store, until
    /// [`Camera::hide`].
    fn show(&self, bytes: &[u8]) -> Option<String>;

    /// All addresses given before are void.
    fn hide(&self);

    /// Angle of the screen against the device (W3C Screen Orientation).
    fn screen_angle(&self) -> Degrees;
}
