//! The browser's camera.

use std::cell::RefCell;
use std::rc::Rc;

use js_sys::{Array, Object, Promise, Uint8Array};
use rakeline_core::units::Degrees;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{EventTarget, Window};

use super::blobs::as_blob;
use super::call::{error_name, error_words, method, property, set, settled};
use super::listen::first_of;
use crate::platform::{Camera, CameraFault, LocalFuture, Picture, PictureFrom, cleaned};

/// Quality of a photo from the live picture.
const QUALITY: f64 = 0.9;
/// Quality of the copy of a photo.
const COPY_QUALITY: f64 = 0.85;
/// Screen refreshes to wait for the video element.
const TRIES: usize = 30;

/// Camera stream and the pictures shown.
pub(super) struct WebCamera {
    window: Window,
    stream: Rc<RefCell<Option<JsValue>>>,
    video: RefCell<Option<JsValue>>,
    urls: RefCell<Vec<String>>,
}

fn text(of: &str) -> JsValue {
    JsValue::from_str(of)
}

fn fault(error: &JsValue) -> CameraFault {
    match error_name(error).as_str() {
        "NotAllowedError" | "SecurityError" => CameraFault::Refused,
        "NotFoundError" | "NotReadableError" | "OverconstrainedError" | "AbortError" => {
            CameraFault::NoCamera
        }
        _ => CameraFault::Failed(error_words(error)),
    }
}

impl WebCamera {
    pub(super) fn new(window: &Window) -> Self {
        Self {
            window: window.clone(),
            stream: Rc::default(),
            video: RefCell::default(),
            urls: RefCell::default(),
        }
    }

    async fn ask(&self) -> Result<JsValue, CameraFault> {
        if let Some(stream) = self.stream.borrow().clone() {
            return Ok(stream);
        }
        let devices =
            property(&self.window.navigator(), "mediaDevices").ok_or(CameraFault::NoCamera)?;
        let (wanted, video) = (Object::new(), Object::new());
        set(&video, "facingMode", &text("environment"));
        let (width, height) = (Object::new(), Object::new());
        set(&width, "ideal", &JsValue::from_f64(1920.0));
        set(&height, "ideal", &JsValue::from_f64(1440.0));
        set(&video, "width", &width);
        set(&video, "height", &height);
        set(&wanted, "video", &video);
        set(&wanted, "audio", &JsValue::FALSE);
        let asked = method(&devices, "getUserMedia", &[&wanted]).ok_or(CameraFault::NoCamera)?;
        let stream = settled(asked.map_err(|error| fault(&error))?).await;
        let stream = stream.map_err(|error| fault(&error))?;
        self.stream.replace(Some(stream.clone()));
        Ok(stream)
    }

    /// The element, which the screen may draw a moment later.
    async fn element(&self, id: &str) -> Option<JsValue> {
        for _ in 0..TRIES {
            let found = self.window.document().and_then(|d| d.get_element_by_id(id));
            if let Some(found) = found {
                return Some(found.into());
            }
            let window = self.window.clone();
            let frame = Promise::new(&mut |done, _| {
                let _ = method(&window, "requestAnimationFrame", &[&done]);
            });
            let _ = settled(frame.into()).await;
        }
        None
    }

    fn make(&self, tag: &str) -> Option<JsValue> {
        let document = self.window.document()?;
        Some(document.create_element(tag).ok()?.into())
    }

    async fn grab(&self) -> Option<Vec<u8>> {
        let video = self.video.borrow().clone()?;
        let size = |name| property(&video, name).and_then(|size| size.as_f64());
        let (width, height) = (size("videoWidth")?, size("videoHeight")?);
        if width < 1.0 || height < 1.0 {
            return None;
        }
        let canvas = self.make("canvas")?;
        set(&canvas, "width", &JsValue::from_f64(width));
        set(&canvas, "height", &JsValue::from_f64(height));
        let pen = method(&canvas, "getContext", &[&text("2d")])?.ok()?;
        let zero = JsValue::from_f64(0.0);
        method(&pen, "drawImage", &[&video, &zero, &zero])?.ok()?;
        bytes_of(&as_jpeg(&canvas, QUALITY).await?).await
    }

    /// The browser decodes, turns upright and scales.
    async fn drawn_small(&self, bytes: &[u8], most: u32) -> Option<Picture> {
        let blob = as_blob(bytes)?;
        let wanted = Object::new();
        set(&wanted, "imageOrientation", &text("from-image"));
        let made = method(&self.window, "createImageBitmap", &[&blob, &wanted])?.ok()?;
        let bitmap = settled(made).await.ok()?;
        let side = |name| property(&bitmap, name).and_then(|side| side.as_f64());
        let (width, height) = (side("width")?, side("height")?);
        let scale = (f64::from(most) / width.max(height)).min(1.0);
        let (wide, high) = ((width * scale).round(), (height * scale).round());
        let canvas = self.make("canvas")?;
        set(&canvas, "width", &JsValue::from_f64(wide));
        set(&canvas, "height", &JsValue::from_f64(high));
        let pen = method(&canvas, "getContext", &[&text("2d")])?.ok()?;
        set(&pen, "imageSmoothingQuality", &text("high"));
        let zero = JsValue::from_f64(0.0);
        let (wide, high) = (JsValue::from_f64(wide), JsValue::from_f64(high));
        let drawn = method(&pen, "drawImage", &[&bitmap, &zero, &zero, &wide, &high]);
        let _ = method(&bitmap, "close", &[]);
        drawn?.ok()?;
        let copy = bytes_of(&as_jpeg(&canvas, COPY_QUALITY).await?).await?;
        cleaned(copy).ok()
    }

    async fn pick(&self, input: JsValue) -> Result<Option<Picture>, CameraFault> {
        let target: EventTarget = input.clone().unchecked_into();
        let end = first_of(&target, &["change", "cancel"]).await;
        let file = property(&input, "files")
            .and_then(|files| method(&files, "item", &[&JsValue::from_f64(0.0)]))
            .and_then(Result::ok)
            .filter(|file| !file.is_null());
        let _ = method(&input, "remove", &[]);
        let Some(file) = file.filter(|_| end == "change") else {
            return Ok(None);
        };
        let bytes = bytes_of(&file).await.ok_or(CameraFault::NotAPicture)?;
        cleaned(bytes).map(Some)
    }
}

/// What a canvas shows, as a JPEG file.
async fn as_jpeg(canvas: &JsValue, quality: f64) -> Option<JsValue> {
    let file = Promise::new(&mut |done, _| {
        let quality = JsValue::from_f64(quality);
        let _ = method(canvas, "toBlob", &[&done, &text("image/jpeg"), &quality]);
    });
    settled(file.into())
        .await
        .ok()
        .filter(|file| !file.is_null())
}

async fn bytes_of(blob: &JsValue) -> Option<Vec<u8>> {
    let buffer = method(blob, "arrayBuffer", &[])?.ok()?;
    let buffer = settled(buffer).await.ok()?;
    Some(Uint8Array::new(&buffer).to_vec())
}

impl Camera for WebCamera {
    fn live(&self, element: &str) -> LocalFuture<'_, Result<(), CameraFault>> {
        let id = element.to_owned();
        Box::pin(async move {
            let stream = self.ask().await?;
            let video = self.element(&id).await.ok_or(CameraFault::NotYet)?;
            set(&video, "srcObject", &stream);
            if let Some(Ok(played)) = method(&video, "play", &[]) {
                // Autoplay may be refused; the picture then stands until a tap.
                let _ = settled(played).await;
            }
            self.video.replace(Some(video));
            Ok(())
        })
    }

    fn stop(&self) {
        self.video.take();
        let Some(stream) = self.stream.take() else {
            return;
        };
        if let Some(Ok(tracks)) = method(&stream, "getTracks", &[]) {
            for track in Array::from(&tracks).iter() {
                let _ = method(&track, "stop", &[]);
            }
        }
    }

    fn photo(&self) -> LocalFuture<'_, Result<Picture, CameraFault>> {
        Box::pin(async { cleaned(self.grab().await.ok_or(CameraFault::NotYet)?) })
    }

    fn choose(&self, from: PictureFrom) -> LocalFuture<'_, Result<Option<Picture>, CameraFault>> {
        let input = self.make("input");
        if let Some(input) = &input {
            set(input, "type", &text("file"));
            set(input, "accept", &text("image/jpeg,image/png,image/webp"));
            set(input, "id", &text("picture-file"));
            if from == PictureFrom::Camera {
                set(input, "capture", &text("environment"));
            }
            set(input, "hidden", &JsValue::TRUE);
            if let Some(body) = self.window.document().and_then(|d| property(&d, "body")) {
                let _ = method(&body, "append", &[input]);
            }
            // At once, inside the tap.
            let _ = method(input, "click", &[]);
        }
        Box::pin(async move {
            match input {
                Some(input) => self.pick(input).await,
                None => Ok(None),
            }
        })
    }

    fn smaller(&self, picture: &Picture, most: u32) -> LocalFuture<'_, Option<Picture>> {
        let bytes = picture.bytes.clone();
        Box::pin(async move { self.drawn_small(&bytes, most).await })
    }

    fn show(&self, bytes: &[u8]) -> Option<String> {
        let maker = property(&self.window, "URL")?;
        let made = method(&maker, "createObjectURL", &[&as_blob(bytes)?])?.ok()?;
        let url = made.as_string()?;
        self.urls.borrow_mut().push(url.clone());
        Some(url)
    }

    fn hide(&self) {
        let Some(maker) = property(&self.window, "URL") else {
            return;
        };
        for url in self.urls.take() {
            let _ = method(&maker, "revokeObjectURL", &[&text(&url)]);
        }
    }

    fn screen_angle(&self) -> Degrees {
        let angle = property(&self.window, "screen")
            .and_then(|screen| property(&screen, "orientation"))
            .and_then(|orientation| property(&orientation, "angle"))
            .and_then(|angle| angle.as_f64());
        Degrees(angle.unwrap_or(0.0))
    }
}
