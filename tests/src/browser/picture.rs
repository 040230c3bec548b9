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
        let take = || self.cdp("Page.captureScreenshot", json!({ "format": "png" }));
        let answer = match what {
            Shot::Screen => take(),
            Shot::WholePage => self.whole_page(self.screen().0, take),
        };
        let png = save(&format!("{name}.png"), &answer);
        // Height in the header chunk, PNG (ISO/IEC 15948) 11.2.2.
        let height = png.get(20..24).and_then(|bytes| bytes.try_into().ok());
        u32::from_be_bytes(height.expect("a PNG has a header"))
    }

    /// Does something while the screen is so wide, CSS px, and as high as the
    /// page: what sticks to the foot of the screen then stands at its end.
    ///
    /// # Panics
    /// If the browser refuses.
    pub(super) fn whole_page<T>(&self, width: u32, work: impl FnOnce() -> T) -> T {
        let (own_width, own_height) = self.screen();
        if width != own_width {
            self.set_screen(width, own_height);
        }
        let height = self.eval(
            "new Promise((done) => requestAnimationFrame(() => \
             done(Math.ceil(document.documentElement.scrollHeight))))",
        );
        let height = height.as_u64().and_then(|height| height.try_into().ok());
        self.set_screen(width, height.unwrap_or(own_height).max(own_height));
        // Two frames: one that lays out, one that shows it.
        self.eval(
            "new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))\
             .then(() => true)",
        );
        let done = work();
        self.set_screen(own_width, own_height);
        done
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
