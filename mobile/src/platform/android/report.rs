//! What the host reports, from whatever thread it comes on.

use std::sync::{Arc, Mutex, PoisonError};

use super::ear;
use super::phone::{
    PictureOutcome, ShareOutcome, SoundFault, TextOutcome, TiltFault, TiltReading, TiltSource,
};
use super::post::{BACK, HANDED_OVER, SEEN, Said, send};
use crate::platform::{Visibility, VolumeKeys};

/// A batch of tilt readings of a run, oldest first. `step` is the sensor's
/// resolution in its own unit, 0 where it does not tell.
#[uniffi::export]
pub fn tilt_came(run: u64, source: TiltSource, step: f64, batch: Vec<TiltReading>) {
    send(
        run,
        Said::Tilt {
            source,
            step,
            batch,
        },
    );
}

/// No readings come any more.
#[uniffi::export]
pub fn tilt_ended(run: u64, fault: TiltFault) {
    send(run, Said::TiltEnded(fault));
}

/// The microphone of a run gives so many samples a second from now on.
#[uniffi::export]
pub fn sound_started(run: u64, rate: f64) {
    ear::begin(run, rate);
    send(run, Said::SoundStarted(rate));
}

/// Mono frames as 16-bit little-endian PCM, the first of which is the run's
/// frame number `first`; they came over at `arrived_ms` on the clock of the
/// phone.
#[uniffi::export]
pub fn sound_came(run: u64, frames: &[u8], first: f64, arrived_ms: f64) {
    if let Some(heard) = ear::hear(run, frames, first, arrived_ms) {
        send(run, Said::Heard(heard));
    }
}

/// Nothing is heard any more.
#[uniffi::export]
pub fn sound_ended(run: u64, fault: SoundFault) {
    send(run, Said::SoundEnded(fault));
}

/// A picture that was wished for.
#[uniffi::export]
pub fn picture_came(wish: u64, outcome: PictureOutcome) {
    send(wish, Said::Picture(outcome));
}

/// A text file that was wished for.
#[uniffi::export]
pub fn text_came(wish: u64, outcome: TextOutcome) {
    send(wish, Said::Text(outcome));
}

/// What became of a file that was to be shared.
#[uniffi::export]
pub fn share_done(wish: u64, outcome: ShareOutcome) {
    send(wish, Said::Shared(outcome));
}

/// Another app handed a file over.
#[uniffi::export]
pub fn file_handed_over(outcome: TextOutcome) {
    send(HANDED_OVER, Said::Text(outcome));
}

/// The back button. The app answers with `leave` when there is no step back.
#[uniffi::export]
pub fn back_pressed() {
    send(BACK, Said::Back);
}

/// The app is on the screen.
#[uniffi::export]
pub fn shown() {
    send(SEEN, Said::Seen(Visibility::Shown));
}

/// The app is in the background.
#[uniffi::export]
pub fn hidden() {
    send(SEEN, Said::Seen(Visibility::Hidden));
}

static PATH: Mutex<Option<Arc<str>>> = Mutex::new(None);

/// Where the app stands, so that the host can keep it over the app's end.
#[uniffi::export]
#[must_use]
pub fn path() -> String {
    let path = PATH.lock().unwrap_or_else(PoisonError::into_inner);
    path.as_deref().unwrap_or("/").to_owned()
}

static VOLUME_KEYS: Mutex<VolumeKeys> = Mutex::new(VolumeKeys::Loudness);

/// Whether the volume keys stand for 'in' and 'out' now: while an obstacle
/// learn runs.
#[uniffi::export]
#[must_use]
pub fn volume_keys_count() -> bool {
    let keys = VOLUME_KEYS.lock().unwrap_or_else(PoisonError::into_inner);
    *keys == VolumeKeys::Count
}

pub(super) fn volume_keys(keys: VolumeKeys) {
    *VOLUME_KEYS.lock().unwrap_or_else(PoisonError::into_inner) = keys;
}

pub(super) fn stands_at(path: &str) {
    *PATH.lock().unwrap_or_else(PoisonError::into_inner) = Some(path.into());
}
