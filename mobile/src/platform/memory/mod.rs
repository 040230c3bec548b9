//! A phone without a phone: every device scripted, every fault at hand.
//!
//! Tests build a [`MemoryPlatform`], give [`MemoryPlatform::platform`] to
//! the app, and keep the parts to feed readings, advance the clock, break
//! the storage and look at what was sounded, printed and shown.

mod camera;
mod clock;
mod files;
mod microphone;
mod motion;
mod page;
mod signals;
mod storage;
mod work;

use std::rc::Rc;

use super::Platform;
pub use camera::MemoryCamera;
pub use clock::MemoryClock;
pub use files::{MemoryFiles, MemoryInFile};
pub use microphone::MemoryMicrophone;
pub use motion::MemoryMotion;
pub use page::MemoryPage;
pub use signals::{MemoryPrint, MemorySound, MemorySpeech, MemoryVibration, MemoryWake};
pub use storage::MemoryStorage;
pub use work::{MemoryShare, MemoryWork};

/// All scripted devices of one phone.
#[derive(Clone)]
pub struct MemoryPlatform {
    /// Records in memory, with faults.
    pub storage: Rc<MemoryStorage>,
    /// Readings from the test.
    pub motion: Rc<MemoryMotion>,
    /// Tones that were asked for.
    pub sound: Rc<MemorySound>,
    /// Pulses that were asked for.
    pub vibration: Rc<MemoryVibration>,
    /// What was said aloud.
    pub speech: Rc<MemorySpeech>,
    /// Pictures from the test.
    pub camera: Rc<MemoryCamera>,
    /// Sound from the test.
    pub microphone: Rc<MemoryMicrophone>,
    /// A clock that moves when told.
    pub clock: Rc<MemoryClock>,
    /// Prints that were asked for.
    pub print: Rc<MemoryPrint>,
    /// Whether the screen is kept on.
    pub wake: Rc<MemoryWake>,
    /// Files from the test.
    pub files: Rc<MemoryFiles>,
    /// A history, and timers on the scripted clock.
    pub page: Rc<MemoryPage>,
    /// A worker that works at once.
    pub work: Rc<MemoryWork>,
    /// Files that left the app.
    pub share: Rc<MemoryShare>,
}

impl Default for MemoryPlatform {
    fn default() -> Self {
        Self::new()
    }
}

impl MemoryPlatform {
    /// A phone at the path `/`, with empty storage, at the default date of
    /// [`MemoryClock`].
    #[must_use]
    pub fn new() -> Self {
        Self::with(MemoryStorage::default(), "/")
    }

    /// A phone opened at `path` with what is already stored.
    #[must_use]
    pub fn with(storage: MemoryStorage, path: &str) -> Self {
        let clock = Rc::new(MemoryClock::default());
        Self {
            storage: Rc::new(storage),
            motion: Rc::default(),
            sound: Rc::default(),
            vibration: Rc::default(),
            speech: Rc::default(),
            camera: Rc::default(),
            microphone: Rc::default(),
            print: Rc::default(),
            wake: Rc::default(),
            files: Rc::default(),
            work: Rc::default(),
            share: Rc::default(),
            page: Rc::new(MemoryPage::new(clock.clone(), path)),
            clock,
        }
    }

    /// The same phone after the app was killed and opened again where it
    /// was: only what was committed is left, all devices are fresh, the
    /// clock goes on, and random numbers do not repeat.
    #[must_use]
    pub fn restarted(&self) -> Self {
        let clock = Rc::new(self.clock.gone_on());
        Self {
            storage: Rc::new(
                MemoryStorage::holding(self.storage.records()).with_blobs_of(&self.storage),
            ),
            motion: Rc::default(),
            sound: Rc::default(),
            vibration: Rc::default(),
            speech: Rc::default(),
            camera: Rc::default(),
            microphone: Rc::default(),
            print: Rc::default(),
            wake: Rc::default(),
            files: Rc::default(),
            work: Rc::default(),
            share: Rc::default(),
            page: Rc::new(self.page.reopened(clock.clone())),
            clock,
        }
    }

    /// What the app gets.
    #[must_use]
    pub fn platform(&self) -> Platform {
        Platform {
            storage: self.storage.clone(),
            motion: self.motion.clone(),
            sound: self.sound.clone(),
            vibration: self.vibration.clone(),
            speech: self.speech.clone(),
            camera: self.camera.clone(),
            microphone: self.microphone.clone(),
            clock: self.clock.clone(),
            print: self.print.clone(),
            wake: self.wake.clone(),
            files: self.files.clone(),
            page: self.page.clone(),
            work: self.work.clone(),
            share: self.share.clone(),
        }
    }
}
