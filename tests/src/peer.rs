//! OpenCV on the same photos.

use std::path::Path;

use serde::Deserialize;
use serde_json::json;

use crate::oracle;
use crate::scene::Truth;

/// What OpenCV found in one photo.
#[derive(Clone, Debug, Deserialize)]
pub struct Peer {
    /// Codes by its ArUco detector.
    pub codes: Vec<u16>,
    /// cornerSubPix less truth, pixels, for every whole card's crosses.
    pub off: Vec<[f64; 2]>,
    /// Median time of decoding, ms.
    pub decode_ms: f64,
    /// Median time of detection alone, ms.
    pub detect_ms: f64,
}

#[derive(Deserialize)]
struct Answer {
    version: String,
    photos: Vec<Peer>,
}

/// Asks OpenCV about photo files; also gives its version.
///
/// # Errors
/// When the answer is not of its form.
pub fn opencv(
    photos: &[(&Path, &Truth)],
    repeats: usize,
) -> Result<(String, Vec<Peer>), serde_json::Error> {
    let photos: Vec<_> = photos
        .iter()
        .map(|(path, truth)| {
            let whole = truth.cards.iter().filter(|card| card.whole);
            let cards: Vec<_> = whole
                .map(|card| json!({ "code": card.code, "crosses": card.crosses }))
                .collect();
            json!({ "path": path, "cards": cards })
        })
        .collect();
    let task = json!({ "photos": photos, "repeats": repeats });
    let answer: Answer = serde_json::from_value(oracle::run("photo_opencv.py", &task))?;
    Ok((answer.version, answer.photos))
}
