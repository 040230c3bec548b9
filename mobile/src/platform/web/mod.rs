//! The browser.
//!
//! **Boundary:** plain browser calls only; no script text is evaluated and
//! no inline style is set, so the page's content policy may forbid both.

mod alone;
mod blobs;
mod call;
mod camera;
mod clock;
mod database;
mod files;
mod listen;
mod microphone;
mod motion;
mod out;
mod page;
mod share;
mod sources;
mod speaker;
mod speech;
mod storage;
mod trouble;
mod wake;
mod work;

use std::rc::Rc;

use super::Platform;
use wake::{WebPrint, WebVibration, WebWake};

pub use trouble::{TroubleWords, show_trouble_on_panic};

/// The browser's devices; `None` where there is no window (a worker).
#[must_use]
pub fn platform() -> Option<Platform> {
    let window = web_sys::window()?;
    Some(Platform {
        storage: Rc::new(storage::WebStorage::new(&window)),
        motion: Rc::new(motion::WebMotion::new(&window)),
        sound: Rc::new(speaker::WebSound::default()),
        vibration: Rc::new(WebVibration::new(&window)),
        speech: Rc::new(speech::WebSpeech::new(&window)),
        camera: Rc::new(camera::WebCamera::new(&window)),
        microphone: Rc::new(microphone::WebMicrophone::new(&window)),
        clock: Rc::new(clock::WebClock::new(&window)),
        print: Rc::new(WebPrint::new(&window)),
        wake: Rc::new(WebWake::new(&window)),
        files: Rc::new(files::WebFiles::new(&window)),
        page: Rc::new(page::WebPage::new(&window)),
        work: Rc::new(work::WebWork::default()),
        share: Rc::new(share::WebShare::new(&window)),
    })
}
