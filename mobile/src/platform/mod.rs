//! What the phone offers, one small trait a device.
//!
//! The app sees these traits only. [`web`](self) is the browser,
//! [`android`](self) the Android package, [`memory`] the scripted phone of the
//! tests; a further system is a further folder
//! here. No type of the user interface enters, no rule of the trade either.

mod camera;
mod clock;
mod files;
mod jpeg_file;
mod microphone;
mod motion;
mod page;
mod picture;
#[cfg(any(test, target_arch = "wasm32"))]
mod search;
mod share;
mod signals;
mod speech;
mod storage;
mod turns;
mod work;

#[cfg(feature = "android")]
pub mod android;
pub mod memory;
#[cfg(target_arch = "wasm32")]
pub mod web;

use std::future::Future;
use std::pin::Pin;
use std::rc::Rc;

pub use camera::{Camera, CameraFault, Picture, PictureFrom};
pub use clock::Clock;
pub use files::{Files, InFile, OpenedFile, OwnFuture};
pub use microphone::{Microphone, MicrophoneEvent, MicrophoneFault, MicrophoneSink};
pub use motion::{Motion, MotionEvent, MotionFault, MotionSink, SourceName};
pub use page::{Page, Ticker, Told, Visibility, VolumeKeys};
pub use picture::cleaned;
pub use share::{OutFile, OutStream, Share, Shared};
pub use signals::{Note, Print, Pulse, Sound, Tone, Vibration, Wake};
pub use speech::Speech;
pub use storage::{Alone, PersistAnswer, Room, Storage, StorageFault, Write};
pub use work::{Task, Work, WorkEvent, WorkHandle};

/// A future of this thread that may borrow its device.
pub type LocalFuture<'a, T> = Pin<Box<dyn Future<Output = T> + 'a>>;

/// Every device of the phone. Cheap to clone; clones share the devices.
#[derive(Clone)]
pub struct Platform {
    /// Where records are kept.
    pub storage: Rc<dyn Storage>,
    /// Which way is up.
    pub motion: Rc<dyn Motion>,
    /// Short tones.
    pub sound: Rc<dyn Sound>,
    /// Short pulses in the hand.
    pub vibration: Rc<dyn Vibration>,
    /// Spoken prompts.
    pub speech: Rc<dyn Speech>,
    /// Live picture and photos.
    pub camera: Rc<dyn Camera>,
    /// Beeps, and how well they are heard.
    pub microphone: Rc<dyn Microphone>,
    /// Date, time zone and monotonic time.
    pub clock: Rc<dyn Clock>,
    /// Paper.
    pub print: Rc<dyn Print>,
    /// A screen that stays on.
    pub wake: Rc<dyn Wake>,
    /// Files that the fitter chooses and keeps.
    pub files: Rc<dyn Files>,
    /// Address, history, timers.
    pub page: Rc<dyn Page>,
    /// Heavy work beside the screens.
    pub work: Rc<dyn Work>,
    /// Files that leave the app.
    pub share: Rc<dyn Share>,
}
