//! What the host gives: the phone as the app asks for it.

use std::sync::{Arc, Mutex, PoisonError};

use uniffi::UnexpectedUniFFICallbackError;

/// What does not change while the app runs.
#[derive(Clone, Debug, PartialEq, Eq, uniffi::Record)]
pub struct PhoneFacts {
    /// The app's own folder for files.
    pub files_folder: String,
    /// System and model ('Android 14, Pixel 7').
    pub device: String,
    /// IANA name of the time zone; empty where the system does not tell.
    pub zone: String,
    /// Where the app was when the system ended it; empty at a fresh start.
    pub path: String,
}

/// Why the host did not do what it was asked.
#[derive(Clone, Debug, PartialEq, Eq, uniffi::Error)]
pub enum PhoneFault {
    /// The fitter said no.
    Refused,
    /// The phone has no such device, or no app for it.
    Missing,
    /// Anything else, in the system's own words.
    Failed {
        /// Those words.
        why: String,
    },
}

impl std::fmt::Display for PhoneFault {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Refused => f.write_str("refused"),
            Self::Missing => f.write_str("missing"),
            Self::Failed { why } => f.write_str(why),
        }
    }
}

impl std::error::Error for PhoneFault {}

/// A host that throws has failed; the app goes on.
impl From<UnexpectedUniFFICallbackError> for PhoneFault {
    fn from(thrown: UnexpectedUniFFICallbackError) -> Self {
        Self::Failed { why: thrown.reason }
    }
}

/// What readings are wanted for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, uniffi::Enum)]
pub enum TiltWanted {
    /// Which way is up: raw acceleration first.
    Up,
    /// How far the phone turned as well: an orientation from the gyroscope.
    Turn,
}

/// Where readings come from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, uniffi::Enum)]
pub enum TiltSource {
    /// The accelerometer itself, gravity included, m/s².
    Acceleration,
    /// Gravity as the system computes it, m/s²; where there is nothing raw.
    Gravity,
    /// Quaternion device -> world without the compass.
    Rotation,
}

/// One reading with the sensor's own time.
#[derive(Clone, Copy, Debug, PartialEq, uniffi::Record)]
pub struct TiltReading {
    /// Milliseconds on the clock of [`Phone::elapsed_ms`].
    pub at_ms: f64,
    /// x; of a quaternion its x.
    pub x: f64,
    /// y.
    pub y: f64,
    /// z.
    pub z: f64,
    /// w of a quaternion, else 0.
    pub w: f64,
}

/// Why readings ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq, uniffi::Enum)]
pub enum TiltFault {
    /// The phone has no such sensor.
    NoSensor,
    /// The system ended it.
    Stopped,
}

/// Why sound ended.
#[derive(Clone, Debug, PartialEq, Eq, uniffi::Enum)]
pub enum SoundFault {
    /// The fitter said no, now or for good.
    Refused,
    /// Another app or a call holds the microphone.
    Taken,
    /// The phone has none.
    NoMicrophone,
    /// The system ended it.
    Ended,
    /// Anything else.
    Failed {
        /// In the system's own words.
        why: String,
    },
}

/// What came of asking for a picture.
#[derive(Clone, Debug, PartialEq, Eq, uniffi::Enum)]
pub enum PictureOutcome {
    /// Its file.
    Taken {
        /// JPEG or PNG.
        bytes: Vec<u8>,
    },
    /// The fitter came back without one, or the camera app gave none.
    Nothing,
    /// The fitter said no.
    Refused,
    /// There is no camera, or no app for it.
    NoCamera,
    /// Anything else.
    Failed {
        /// In the system's own words.
        why: String,
    },
}

/// What came of asking for a text file.
#[derive(Clone, Debug, PartialEq, Eq, uniffi::Enum)]
pub enum TextOutcome {
    /// It was read.
    Read {
        /// Its name.
        name: String,
        /// What is in it.
        bytes: Vec<u8>,
    },
    /// Larger than asked for.
    TooLarge {
        /// Its size.
        bytes: u64,
    },
    /// None was chosen.
    Nothing,
    /// Anything else.
    Failed {
        /// In the system's own words.
        why: String,
    },
}

/// What became of a shared file.
#[derive(Clone, Debug, PartialEq, Eq, uniffi::Enum)]
pub enum ShareOutcome {
    /// The system shows who can take it.
    HandedOver,
    /// No app takes such a file.
    NoTaker,
    /// Anything else.
    Failed {
        /// In the system's own words.
        why: String,
    },
}

/// A file that leaves the app.
#[derive(Clone, Debug, PartialEq, Eq, uniffi::Record)]
pub struct SharedFile {
    /// Its name with its ending.
    pub name: String,
    /// Its media type.
    pub mime: String,
    /// What is in it.
    pub bytes: Vec<u8>,
}

/// One note.
#[derive(Clone, Copy, Debug, PartialEq, uniffi::Record)]
pub struct PhoneNote {
    /// Begin after the tone's own, ms.
    pub from_ms: f64,
    /// End, ms.
    pub to_ms: f64,
    /// Frequency, hertz.
    pub hertz: f64,
}

/// The shape of a tone's waves.
#[derive(Clone, Copy, Debug, PartialEq, Eq, uniffi::Enum)]
pub enum PhoneTone {
    /// Round.
    Sine,
    /// Softly edged.
    Triangle,
    /// Harsh.
    Square,
}

/// The phone, as the host serves it. Calls come on the app's thread and
/// return at once; what takes time is reported later with the run's or the
/// wish's own number.
#[uniffi::export(with_foreign)]
pub trait Phone: Send + Sync {
    /// What does not change.
    fn facts(&self) -> Result<PhoneFacts, PhoneFault>;
    /// Minutes that the zone is ahead of UTC at a time (ms since 1970).
    fn minutes_ahead(&self, at_ms: i64) -> Result<i32, PhoneFault>;
    /// Milliseconds since the phone started, sleep included: the sensors' clock.
    fn elapsed_ms(&self) -> Result<f64, PhoneFault>;
    /// Starts tilt readings; batches come by `tilt_came`.
    fn start_tilt(&self, run: u64, wanted: TiltWanted) -> Result<(), PhoneFault>;
    /// Ends them.
    fn stop_tilt(&self) -> Result<(), PhoneFault>;
    /// Starts the microphone, asking for it first; frames come by `sound_came`.
    fn start_sound(&self, run: u64) -> Result<(), PhoneFault>;
    /// Ends it.
    fn stop_sound(&self) -> Result<(), PhoneFault>;
    /// Opens the system's camera app; `picture_came` answers.
    fn take_picture(&self, wish: u64) -> Result<(), PhoneFault>;
    /// Lets the fitter choose a picture; `picture_came` answers.
    fn choose_picture(&self, wish: u64) -> Result<(), PhoneFault>;
    /// Lets the fitter choose a text file; `text_came` answers.
    fn open_text(&self, wish: u64, most: u64) -> Result<(), PhoneFault>;
    /// Offers a file to other apps; `share_done` answers.
    fn share(&self, wish: u64, file: SharedFile) -> Result<(), PhoneFault>;
    /// Says something; what was being said ends.
    fn say(&self, words: String) -> Result<(), PhoneFault>;
    /// Ends what is being said.
    fn hush(&self) -> Result<(), PhoneFault>;
    /// Sounds notes.
    fn sound(&self, shape: PhoneTone, notes: Vec<PhoneNote>) -> Result<(), PhoneFault>;
    /// Vibrates: milliseconds on, off, on.
    fn pulse(&self, pattern: Vec<u32>) -> Result<(), PhoneFault>;
    /// The screen stays on.
    fn hold_awake(&self) -> Result<(), PhoneFault>;
    /// The screen may sleep.
    fn let_sleep(&self) -> Result<(), PhoneFault>;
    /// Degrees of the screen against the device: 0, 90, 180, 270.
    fn screen_angle(&self) -> Result<f64, PhoneFault>;
    /// Opens the system's print view of the page.
    fn print(&self) -> Result<(), PhoneFault>;
    /// The app has no step left to go back to.
    fn leave(&self) -> Result<(), PhoneFault>;
}

static PHONE: Mutex<Option<Arc<dyn Phone>>> = Mutex::new(None);

/// Gives the phone to the app. The host calls it before the app starts, and
/// again for an activity that took the place of another.
#[uniffi::export]
pub fn install(phone: Arc<dyn Phone>) {
    *PHONE.lock().unwrap_or_else(PoisonError::into_inner) = Some(phone);
}

/// The phone that is installed now.
pub(super) fn installed() -> Option<Handle> {
    PHONE
        .lock()
        .unwrap_or_else(PoisonError::into_inner)
        .is_some()
        .then_some(Handle)
}

/// The phone, whichever activity serves it.
#[derive(Clone, Copy)]
pub(super) struct Handle;

impl Handle {
    /// Asks the phone of the present activity.
    pub(super) fn ask<T>(
        self,
        ask: impl FnOnce(&dyn Phone) -> Result<T, PhoneFault>,
    ) -> Result<T, PhoneFault> {
        let phone = PHONE.lock().unwrap_or_else(PoisonError::into_inner).clone();
        match phone {
            Some(phone) => ask(phone.as_ref()),
            None => Err(PhoneFault::Missing),
        }
    }

    /// Tells the phone something that the app does not wait for: without it
    /// the screen still says all.
    pub(super) fn tell(self, tell: impl FnOnce(&dyn Phone) -> Result<(), PhoneFault>) {
        let _ = self.ask(tell);
    }

    /// What does not change.
    pub(super) fn facts(self) -> Result<PhoneFacts, PhoneFault> {
        self.ask(|phone| phone.facts())
    }
}
