//! The font of printed pages: which glyphs a text takes and how wide it is.
//!
//! Roboto, one weight, in Latin, Greek and Cyrillic; each character is one
//! glyph. What the font does not have shows as [`UNKNOWN`].

use krilla::text::{Font, GlyphId, KrillaGlyph};
use skrifa::instance::{LocationRef, Size};
use skrifa::metrics::GlyphMetrics;
use skrifa::{FontRef, MetadataProvider};

/// The font file; its licence stands beside it.
const ROBOTO: &[u8] = include_bytes!("../../../assets/fonts/Roboto-Regular.ttf");

/// What stands for a letter that the font does not have; the letter itself
/// stays in the text that is copied or read out.
const UNKNOWN: char = '?';

/// A font that text can be set in.
pub(super) struct Face {
    font: Font,
    reference: FontRef<'static>,
}

/// One line of glyphs.
pub(super) struct Line {
    pub(super) glyphs: Vec<KrillaGlyph>,
    /// The text that the glyphs stand for.
    pub(super) text: String,
    /// Its width at size 1.
    pub(super) width: f64,
}

impl Face {
    /// The font that is built in; `None` if it cannot be read.
    pub(super) fn built_in() -> Option<Self> {
        Some(Self {
            font: Font::new(ROBOTO.into(), 0)?,
            reference: FontRef::new(ROBOTO).ok()?,
        })
    }

    pub(super) fn font(&self) -> Font {
        self.font.clone()
    }

    /// The width of a line at size 1.
    pub(super) fn width(&self, text: &str) -> f64 {
        self.line(text).width
    }

    /// Sets a text in one line.
    pub(super) fn line(&self, text: &str) -> Line {
        let charmap = self.reference.charmap();
        let metrics = GlyphMetrics::new(&self.reference, Size::unscaled(), LocationRef::default());
        let em = self.font.units_per_em();
        let mut width = 0.0;
        let glyphs = text
            .char_indices()
            .map(|(from, letter)| {
                let known = charmap.map(letter).or_else(|| charmap.map(UNKNOWN));
                let glyph = known.unwrap_or_default();
                let advance = metrics.advance_width(glyph).unwrap_or_default() / em;
                width += f64::from(advance);
                let range = from..from + letter.len_utf8();
                let id = GlyphId::new(glyph.to_u32());
                KrillaGlyph::new(id, advance, 0.0, 0.0, 0.0, range, None)
            })
            .collect();
        Line {
            glyphs,
            text: text.to_owned(),
            width,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_of_one_width_and_unknown_letters_still_take_room() {
        let face = Face::built_in().unwrap();
        let width = |text: &str| face.line(text).width;
        assert!((width("111") - width("408")).abs() < 1e-6);
        assert!(width("\u{4e2d}") > 0.1);
        assert_eq!(face.line("±3 mm").glyphs.len(), 5);
    }
}
