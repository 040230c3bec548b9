//! The job sheet on paper: a [`Document`] laid out on pages and written as a
//! tagged PDF/A with fonts embedded.

mod lay;
mod notes;
mod paint;
mod picture;
mod shorter;
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

/// Smallest body text at all, mm: what 16 heads and a letterhead of the
/// longest lines come down to.
const BODY_LAST: f64 = 1.2;

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

/// As many pages as it needs, or one: first the lettering shrinks, then the
/// document is shortened step by step; what is left of the longest shrinks
/// below what is read at arm's length rather than run onto a second page.
fn laid_out(
    document: &Document,
    look: &SheetLook,
    face: &Face,
    say: &dyn Fn(&Message) -> String,
) -> lay::Laid {
    let with = |document: &Document, body: f64| lay::lay(document, look, face, say, body);
    if look.length == Length::AsNeeded {
        return with(document, BODY);
    }
    if let Some(page) = one_page(BODY_LEAST, &|body| with(document, body)) {
        return page;
    }
    for cut in shorter::CUTS {
        let less = shorter::shorter(document, cut);
        if let Some(page) = one_page(BODY_LEAST, &|body| with(&less, body)) {
            return page;
        }
    }
    let least = shorter::shorter(document, shorter::CUTS[shorter::CUTS.len() - 1]);
    let page = one_page(BODY_LAST, &|body| with(&least, body));
    page.unwrap_or_else(|| with(&least, BODY_LAST))
}

/// The page with the largest lettering from [`BODY`] down to `least` that
/// fits it.
fn one_page(least: f64, with: &dyn Fn(f64) -> lay::Laid) -> Option<lay::Laid> {
    let mut body = BODY;
    loop {
        let laid = with(body);
        if laid.pages.len() <= 1 {
            return Some(laid);
        }
        if body <= least {
            return None;
        }
        body = (body * 0.94).max(least);
    }
}

/// The paper standing on its short side, mm.
fn standing(paper: Paper) -> At {
    let At(long, short) = paper.lying();
    At(short, long)
}
