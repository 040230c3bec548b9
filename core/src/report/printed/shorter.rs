//! A document made short enough for its one page. Typed texts that are long
//! end in '…', lists say how much more the workshop's file holds. The page's
//! own sentences (limits, after-care, what was not done) are never cut.

use super::super::wording::shortened;
use super::super::{Block, Document, Section};
use crate::text::{Message, msg};

/// How much of a document stays.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Cut {
    /// Longest typed text, characters.
    pub(super) letters: usize,
    /// Most lines or rows of a list.
    pub(super) rows: usize,
    /// Most photos.
    pub(super) photos: usize,
    /// Whether drawings stay.
    pub(super) drawings: Drawings,
}

/// What becomes of drawings.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Drawings {
    Stay,
    Go,
}

/// Step by step less; the last leaves what always fits (our own figures).
pub(super) const CUTS: [Cut; 6] = [
    cut(160, 24, 12, Drawings::Stay),
    cut(100, 16, 8, Drawings::Stay),
    cut(70, 10, 4, Drawings::Stay),
    cut(50, 4, 4, Drawings::Stay),
    cut(50, 6, 4, Drawings::Go),
    cut(30, 4, 0, Drawings::Go),
];

const fn cut(letters: usize, rows: usize, photos: usize, drawings: Drawings) -> Cut {
    Cut {
        letters,
        rows,
        photos,
        drawings,
    }
}

/// Sections whose lists may be cut: all of them stands in the workshop's
/// file. In every other section only typed texts are.
const LISTS: [&str; 3] = ["customer-what", "sheet-heads", "sheet-walk"];

/// The document with so much of it; a last line says what '…' means where
/// anything was cut.
pub(super) fn shorter(document: &Document, cut: Cut) -> Document {
    let title = shortened(&document.title, cut.letters);
    let mut sections: Vec<Section> = document
        .sections
        .iter()
        .map(|one| section(one, cut))
        .collect();
    let whole: Vec<Section> = document.sections.iter().map(bare).collect();
    let here: Vec<Section> = sections.iter().map(bare).collect();
    // A drawing that is left out is missed by nobody on this page.
    if title != document.title || here != whole {
        let told = Block::Lines(vec![msg("sheet-shortened")]);
        if let Some(last) = sections.last_mut() {
            last.blocks.push(told);
        }
    }
    Document { title, sections }
}

/// The key to a drawing's signs: without the drawing it says nothing.
const KEY_TO_DRAWING: &str = "sheet-walk-key";

/// A section without its drawings and what belongs to them.
fn bare(section: &Section) -> Section {
    let mut bare = section.clone();
    bare.blocks
        .retain(|block| !matches!(block, Block::Drawing(_)));
    for block in &mut bare.blocks {
        if let Block::Lines(lines) = block {
            lines.retain(|line| line.key != KEY_TO_DRAWING);
        }
    }
    bare
}

fn section(section: &Section, cut: Cut) -> Section {
    let lists = LISTS.contains(&&*section.heading.key);
    let stripped = (lists && cut.drawings == Drawings::Go).then(|| bare(section));
    let section = stripped.as_ref().unwrap_or(section);
    let blocks = section.blocks.iter().map(|one| {
        match one {
            Block::Drawing(drawing) => Block::Drawing(drawing.clone()),
            Block::Photos(photos) if photos.len() > cut.photos => {
                // The rest is said below.
                Block::Photos(photos[..cut.photos].to_vec())
            }
            Block::Photos(photos) => Block::Photos(photos.clone()),
            Block::Pairs(pairs) => Block::Pairs(
                pairs
                    .iter()
                    .map(|(name, value)| {
                        let at = |text: &Message| shortened(text, cut.letters);
                        (at(name), at(value))
                    })
                    .collect(),
            ),
            Block::Lines(lines) => {
                let mut kept: Vec<Message> = lines
                    .iter()
                    .map(|line| shortened(line, cut.letters))
                    .collect();
                if lists && kept.len() > cut.rows {
                    let left = kept.len() - cut.rows;
                    kept.truncate(cut.rows);
                    kept.push(more("sheet-more-lines", left));
                }
                Block::Lines(kept)
            }
            Block::Table { head, rows } => {
                let kept = if lists {
                    rows.len().min(cut.rows)
                } else {
                    rows.len()
                };
                let rows = rows[..kept].iter().map(|row| {
                    row.iter()
                        .map(|cell| shortened(cell, cut.letters))
                        .collect()
                });
                Block::Table {
                    head: head.clone(),
                    rows: rows.collect(),
                }
            }
        }
    });
    let mut blocks: Vec<Block> = blocks.collect();
    blocks.retain(|one| !matches!(one, Block::Photos(photos) if photos.is_empty()));
    let told = left_out(section, cut, lists);
    if !told.is_empty() {
        blocks.push(Block::Lines(told));
    }
    Section {
        heading: shortened(&section.heading, cut.letters),
        blocks,
    }
}

/// What is said of rows and photos that were left out of a section.
fn left_out(section: &Section, cut: Cut, lists: bool) -> Vec<Message> {
    let (mut rows, mut photos) = (0, 0);
    for block in &section.blocks {
        match block {
            Block::Table { rows: all, .. } if lists => {
                rows += all.len().saturating_sub(cut.rows);
            }
            Block::Photos(all) => photos += all.len().saturating_sub(cut.photos),
            _ => {}
        }
    }
    let mut told = Vec::new();
    if rows > 0 {
        told.push(more("sheet-more-rows", rows));
    }
    if photos > 0 {
        told.push(more("sheet-more-photos", photos));
    }
    told
}

fn more(key: &'static str, left: usize) -> Message {
    msg(key).count("left", i64::try_from(left).unwrap_or(i64::MAX))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::{BumperView, bumper_from_behind};
    use crate::units::Millimetres;

    const LAST: Cut = CUTS[CUTS.len() - 1];

    fn document() -> Document {
        let line = |number: usize| msg("literal").text("text", format!("line {number}"));
        let lines = Block::Lines((0..30).map(line).collect());
        let with = |key: &'static str| Section {
            heading: msg(key),
            blocks: vec![lines.clone()],
        };
        Document {
            title: msg("customer-title"),
            sections: vec![with("sheet-walk"), with("customer-limits")],
        }
    }

    fn count(section: &Section) -> usize {
        match &section.blocks[0] {
            Block::Lines(lines) => lines.len(),
            _ => 0,
        }
    }

    #[test]
    fn a_list_says_how_much_more_there_is_and_the_limits_stay_whole() {
        let short = shorter(&document(), LAST);
        assert_eq!(count(&short.sections[0]), 5);
        let Block::Lines(lines) = &short.sections[0].blocks[0] else {
            panic!("lines");
        };
        assert_eq!(lines[4], msg("sheet-more-lines").count("left", 26));
        assert_eq!(count(&short.sections[1]), 30);
        let told = Block::Lines(vec![msg("sheet-shortened")]);
        assert_eq!(short.sections[1].blocks.last(), Some(&told));
    }

    #[test]
    fn a_drawing_goes_with_the_key_to_its_signs_and_nothing_is_said_of_it() {
        let drawing = bumper_from_behind(&BumperView {
            half_left: Millimetres(800.0),
            half_right: Millimetres(800.0),
            marks: Vec::new(),
            no_drill: Vec::new(),
            row: None,
        });
        let seen = msg("literal").text("text", "seen at all points".to_owned());
        let document = Document {
            title: msg("customer-title"),
            sections: vec![Section {
                heading: msg("sheet-walk"),
                blocks: vec![
                    Block::Drawing(drawing),
                    Block::Lines(vec![msg(KEY_TO_DRAWING), seen.clone()]),
                ],
            }],
        };
        assert_eq!(shorter(&document, CUTS[0]), document);
        let short = shorter(&document, CUTS[4]);
        assert_eq!(short.sections[0].blocks, [Block::Lines(vec![seen])]);
    }

    #[test]
    fn a_document_that_is_short_is_not_changed() {
        let mut short = document();
        short.sections.remove(0);
        assert_eq!(shorter(&short, LAST), short);
    }
}
