//! Pictures: the system's camera app and chooser for files at full size, the
//! page for the live picture.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use rakeline_core::units::Degrees;

use super::page_script::run;
use super::phone::{Handle, PhoneFault, PictureOutcome};
use super::post::{Desk, Said};
use crate::platform::{Camera, CameraFault, LocalFuture, Picture, PictureFrom, cleaned};

/// The phone's camera.
pub(super) struct AndroidCamera {
    phone: Handle,
    desk: Desk,
}

impl AndroidCamera {
    pub(super) fn new(phone: &Handle, desk: &Desk) -> Self {
        Self {
            phone: *phone,
            desk: desk.clone(),
        }
    }
}

/// Shows the back camera in a video element, which may come a moment later.
const LIVE: &str = "
    const id = ELEMENT;
    let video = null;
    for (let tries = 0; tries < 30 && !video; tries++) {
        video = document.getElementById(id);
        if (!video) await new Promise(requestAnimationFrame);
    }
    if (!video) throw new DOMException('no place for it', 'NotYet');
    window.rakelineLive ??= await navigator.mediaDevices.getUserMedia({
        video: { facingMode: 'environment', width: { ideal: 1920 }, height: { ideal: 1440 } },
        audio: false,
    });
    video.srcObject = window.rakelineLive;
    window.rakelineVideo = video;
    await video.play().catch(() => {});
";

/// Frees it.
const STOP: &str = "
    for (const track of window.rakelineLive?.getTracks() ?? []) track.stop();
    delete window.rakelineLive;
    delete window.rakelineVideo;
";

/// The picture that is shown now as JPEG in base64.
const GRAB: &str = "
    const video = window.rakelineVideo;
    if (!video?.videoWidth) throw new DOMException('not yet', 'NotYet');
    const canvas = document.createElement('canvas');
    canvas.width = video.videoWidth;
    canvas.height = video.videoHeight;
    canvas.getContext('2d').drawImage(video, 0, 0);
    return canvas.toDataURL('image/jpeg', 0.9).split(',')[1];
";

/// A JPEG copy in base64, upright, at most so many pixels long.
const SMALLER: &str = "
    const file = await (await fetch('ADDRESS')).blob();
    const bitmap = await createImageBitmap(file, { imageOrientation: 'from-image' });
    const scale = Math.min(1, MOST / Math.max(bitmap.width, bitmap.height));
    const canvas = document.createElement('canvas');
    canvas.width = Math.round(bitmap.width * scale);
    canvas.height = Math.round(bitmap.height * scale);
    const pen = canvas.getContext('2d');
    pen.imageSmoothingQuality = 'high';
    pen.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
    bitmap.close();
    return canvas.toDataURL('image/jpeg', 0.85).split(',')[1];
";

/// What a script gave, as a picture.
fn scripted(base64: &serde_json::Value) -> Result<Picture, CameraFault> {
    let bytes = STANDARD.decode(base64.as_str().unwrap_or_default());
    cleaned(bytes.map_err(|_| CameraFault::NotAPicture)?)
}

fn thrown(words: String) -> CameraFault {
    match words.split_whitespace().next().unwrap_or_default() {
        "NotAllowedError" | "SecurityError" => CameraFault::Refused,
        "NotFoundError" | "NotReadableError" | "OverconstrainedError" | "AbortError" => {
            CameraFault::NoCamera
        }
        "NotYet" => CameraFault::NotYet,
        _ => CameraFault::Failed(words),
    }
}

fn asked(fault: PhoneFault) -> CameraFault {
    match fault {
        PhoneFault::Refused => CameraFault::Refused,
        PhoneFault::Missing => CameraFault::NoCamera,
        PhoneFault::Failed { why } => CameraFault::Failed(why),
    }
}

fn picture(outcome: PictureOutcome) -> Result<Option<Picture>, CameraFault> {
    match outcome {
        PictureOutcome::Taken { bytes } => cleaned(bytes).map(Some),
        PictureOutcome::Nothing => Ok(None),
        PictureOutcome::Refused => Err(CameraFault::Refused),
        PictureOutcome::NoCamera => Err(CameraFault::NoCamera),
        PictureOutcome::Failed { why } => Err(CameraFault::Failed(why)),
    }
}

impl Camera for AndroidCamera {
    fn live(&self, element: &str) -> LocalFuture<'_, Result<(), CameraFault>> {
        // Ids are letters and hyphens of our own.
        let script = LIVE.replace("ELEMENT", &format!("'{element}'"));
        Box::pin(async move { run(&script).await.map(drop).map_err(thrown) })
    }

    fn stop(&self) {
        #[cfg(target_os = "android")]
        dioxus::core::spawn_forever(async {
            let _ = run(STOP).await;
        });
        #[cfg(not(target_os = "android"))]
        drop(run(STOP));
    }

    fn photo(&self) -> LocalFuture<'_, Result<Picture, CameraFault>> {
        Box::pin(async { scripted(&run(GRAB).await.map_err(thrown)?) })
    }

    fn choose(&self, from: PictureFrom) -> LocalFuture<'_, Result<Option<Picture>, CameraFault>> {
        let phone = self.phone;
        let answer = self.desk.wish(
            |wish| {
                phone.ask(|phone| match from {
                    PictureFrom::Camera => phone.take_picture(wish),
                    PictureFrom::Files => phone.choose_picture(wish),
                })
            },
            |said| match said {
                Said::Picture(outcome) => Some(outcome),
                _ => None,
            },
        );
        Box::pin(async move {
            match answer.await {
                Ok(Some(outcome)) => picture(outcome),
                Ok(None) => Ok(None),
                Err(fault) => Err(asked(fault)),
            }
        })
    }

    fn smaller(&self, picture: &Picture, most: u32) -> LocalFuture<'_, Option<Picture>> {
        let address = self.show(&picture.bytes);
        Box::pin(async move {
            let script = SMALLER
                .replace("MOST", &most.to_string())
                .replace("ADDRESS", &address?);
            scripted(&run(&script).await.ok()?).ok()
        })
    }

    fn show(&self, bytes: &[u8]) -> Option<String> {
        let kind = if bytes.starts_with(&[0xFF, 0xD8]) {
            "jpeg"
        } else {
            "png"
        };
        Some(format!(
            "data:image/{kind};base64,{}",
            STANDARD.encode(bytes)
        ))
    }

    /// The addresses hold the pictures themselves and go with the screen.
    fn hide(&self) {}

    fn screen_angle(&self) -> Degrees {
        let angle = self.phone.ask(|phone| phone.screen_angle());
        Degrees(angle.unwrap_or(0.0))
    }
}
