//! Pictures and prints of the page, under `target/screens`.

use std::fs;
use std::path::Path;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde_json::{Value, json};

use super::Phone;

/// What of the page a picture shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shot {
    /// What the screen shows.
    Screen,
    /// The page from top to bottom.
    WholePage,
}

impl Phone {
    /// Shows the page as it is printed, or again as on a screen.
    ///
    /// # Panics
    /// If the browser refuses.
    pub fn media(&self, media: &str) {
        self.cdp("Emulation.setEmulatedMedia", json!({ "media": media }));
    }

    /// The page printed on A4 as a PDF file, also saved beside the pictures.
    ///
    /// # Panics
    /// If it cannot be printed or saved.
    pub fn print_pdf(&self, name: &str) -> Vec<u8> {
        let answer = self.cdp(
            "Page.printToPDF",
            json!({
            "preferCSSPageSize": true, "printBackground": true,
            "paperWidth": 8.27, "paperHeight": 11.69 }),
        );
        save(&format!("{name}.pdf"), &answer)
    }

    /// Saves a picture as `target/screens/NAME.png`; returns its height in px.
    ///
    /// # Panics
    /// If it cannot be taken or saved.
    pub fn shot(&self, name: &str, what: Shot) -> u32 {
        let whole = what == Shot::WholePage;
        let mut params = json!({ "format": "png", "captureBeyondViewport": whole });
        if whole {
            let metrics = self.cdp("Page.getLayoutMetrics", json!({}));
            let size = &metrics["cssContentSize"];
            params["clip"] = json!({
                "x": 0, "y": 0, "width": size["width"], "height": size["height"], "scale": 1 });
        }
        let answer = self.cdp("Page.captureScreenshot", params);
        let png = save(&format!("{name}.png"), &answer);
        // Height in the header chunk, PNG (ISO/IEC 15948) 11.2.2.
        let height = png.get(20..24).and_then(|bytes| bytes.try_into().ok());
        u32::from_be_bytes(height.expect("a PNG has a header"))
    }
}

/// Saves the `data` of an answer (base64) under `target/screens`.
fn save(name: &str, answer: &Value) -> Vec<u8> {
    let data = answer["data"].as_str().expect("the answer carries data");
    let bytes = STANDARD.decode(data).expect("the data is base64");
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../target/screens");
    fs::create_dir_all(&folder).expect("target/screens can be made");
    fs::write(folder.join(name), &bytes).expect("the file can be saved");
    bytes
}
