//! Android: devices behind the host written in Kotlin.
//!
//! The host (`mobile/android`) gives a [`Phone`] to [`install`] before the
//! app starts. What the app asks goes straight to it; what comes back is
//! reported by the functions of [`report`] from whatever thread it came on,
//! queued in [`post`], and told on the app's own thread by the [`Desk`].
//!
//! **Boundary:** no hand-written JNI; everything crosses by UniFFI.

mod camera;
mod clock;
mod ear;
mod files;
mod motion;
mod page;
mod page_script;
mod phone;
mod post;
#[cfg(feature = "rehearsal")]
mod rehearsal;
mod report;
mod share;
mod signals;
mod storage;
mod store;
mod work;

use std::rc::Rc;

use super::Platform;
pub use phone::{
    Phone, PhoneFacts, PhoneFault, PhoneNote, PhoneTone, PictureOutcome, ShareOutcome, SharedFile,
    SoundFault, TextOutcome, TiltFault, TiltReading, TiltSource, TiltWanted, install,
};
pub use post::Desk;
#[cfg(feature = "rehearsal")]
pub use rehearsal::Rehearsal;
pub use report::*;

/// The phone's devices on the app's own thread, and the desk that tells them
/// what comes; `None` before [`install`].
#[must_use]
pub fn platform() -> Option<(Platform, Desk)> {
    let phone = phone::installed()?;
    let facts = phone.facts().ok()?;
    let desk = Desk::open();
    let platform = Platform {
        storage: Rc::new(storage::AndroidStorage::open(&facts.files_folder)),
        motion: Rc::new(motion::AndroidMotion::new(&phone, &desk)),
        sound: Rc::new(signals::AndroidSound(phone)),
        vibration: Rc::new(signals::AndroidVibration(phone)),
        speech: Rc::new(signals::AndroidSpeech(phone)),
        camera: Rc::new(camera::AndroidCamera::new(&phone, &desk)),
        microphone: Rc::new(ear::AndroidMicrophone::new(&phone, &desk)),
        clock: Rc::new(clock::AndroidClock::new(&phone, &facts)),
        print: Rc::new(signals::AndroidPrint(phone)),
        wake: Rc::new(signals::AndroidWake(phone)),
        files: Rc::new(files::AndroidFiles::new(&phone, &desk)),
        page: Rc::new(page::AndroidPage::new(&phone, &desk, &facts)),
        work: Rc::new(work::AndroidWork::new(&desk)),
        share: Rc::new(share::AndroidShare::new(&phone, &desk)),
    };
    Some((platform, desk))
}
