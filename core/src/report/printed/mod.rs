//! The job sheet on paper: a [`Document`] laid out on pages and written as a
//! tagged PDF/A with fonts embedded.

mod lay;
mod paint;
mod picture;
mod table;
mod wrap;

#[cfg(test)]
mod tests;

pub use picture::{ON_PAPER, for_paper};

use std::collections::BTreeMap;

use super::lettering::Face;
use super::pdf::PdfFault;
use super::{Document, Length, Paper, SheetLook};
use crate::drawing::At;
use crate::text::Message;

/// Lettering of a page: body text, mm high (10 pt).
const BODY: f64 = 3.5;

/// Smallest body text that is still read at arm's length, mm (6.5 pt; our
/// own figure).
const BODY_LEAST: f64 = 2.3;

/// Pictures of a sheet by blob: JPEG, upright, without location.
pub type Pictures = BTreeMap<String, Vec<u8>>;

/// Writes a document as PDF/A-2a (ISO 19005-2, level A: tagged), held to it
/// by the writer's own validation; where that refuses, as plain PDF.
///
/// # Errors
/// [`PdfFault`], each a fault of the program or its font, not of the job.
pub fn sheet_pdf(
    document: &Document,
    look: &SheetLook,
    pictures: &Pictures,
    say: &dyn Fn(&Message) -> String,
) -> Result<Vec<u8>, PdfFault> {
    let face = Face::built_in().ok_or(PdfFault::Font)?;
    let laid = laid_out(document, look, &face, say);
    let painted = |conform| paint::paint(&laid, document, look, pictures, &face, say, conform);
    painted(paint::Conform::PdfA).or_else(|_| painted(paint::Conform::Plain))
}

fn laid_out(
    document: &Document,
    look: &SheetLook,
    face: &Face,
    say: &dyn Fn(&Message) -> String,
) -> lay::Laid {
    let mut body = BODY;
    loop {
        let laid = lay::lay(document, look, face, say, body);
        let fits = look.length == Length::AsNeeded || laid.pages.len() <= 1;
        if fits || body <= BODY_LEAST {
            return laid;
        }
        body = (body * 0.94).max(BODY_LEAST);
    }
}

/// The paper standing on its short side, mm.
fn standing(paper: Paper) -> At {
    let At(long, short) = paper.lying();
    At(short, long)
}
