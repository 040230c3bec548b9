//! Where everything stands on the pages, in millimetres from the upper left
//! corner; and what each piece is, for those who hear the sheet read out.

use super::super::lettering::Face;
use super::super::{Block, Document, SheetPhoto};
use super::wrap::lines;
use super::{SheetLook, standing, table};
use crate::drawing::{Anchor, At, Drawing};
use crate::text::Message;

/// White border on the left and right, mm: printers reach to 6 mm.
pub(super) const SIDE: f64 = 16.0;
/// White border above, mm.
pub(super) const TOP: f64 = 14.0;
/// White border below, with the foot line, mm.
pub(super) const BOTTOM: f64 = 16.0;

/// From baseline to baseline, in letterings.
const LEADING: f64 = 1.32;

/// Highest drawing, mm.
const DRAWING_HIGHEST: f64 = 75.0;

/// Highest photo, mm, with body text of its usual size.
const PHOTO_HIGHEST: f64 = 62.0;

/// What a piece of a page is.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum What {
    /// One line of text, at the anchor on its baseline.
    Text(At, Anchor, f64, String),
    /// A ruled line.
    Rule(At, At, f64),
    /// A drawing, its upper left corner there, so many times its size.
    Drawing(Drawing, At, f64),
    /// A picture by its index in [`Laid::photos`], there and so large.
    Photo(usize, At, At),
}

/// A piece of a page; `tag` is where it belongs in [`Laid::tags`], none for
/// what is only there for the eye.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Placed {
    pub(super) what: What,
    pub(super) tag: Option<usize>,
}

/// What a group of pieces means.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Means {
    Title,
    Heading(String),
    Paragraph,
    Table,
    Row,
    HeadCell,
    Cell,
    Figure(String),
}

/// A group in the order of reading.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Tag {
    pub(super) means: Means,
    pub(super) within: Option<usize>,
}

/// Pages laid out.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Laid {
    pub(super) pages: Vec<Vec<Placed>>,
    pub(super) tags: Vec<Tag>,
    pub(super) photos: Vec<SheetPhoto>,
    pub(super) body: f64,
}

/// The pen on the page: where the next piece goes.
pub(super) struct Cursor<'a> {
    pub(super) laid: Laid,
    pub(super) face: &'a Face,
    pub(super) say: &'a dyn Fn(&Message) -> String,
    pub(super) size: At,
    pub(super) y: f64,
    pub(super) body: f64,
}

impl Cursor<'_> {
    pub(super) fn width(&self) -> f64 {
        self.size.0 - 2.0 * SIDE
    }

    fn left_on_page(&self) -> f64 {
        self.size.1 - BOTTOM - self.y
    }

    pub(super) fn tag(&mut self, means: Means, within: Option<usize>) -> usize {
        self.laid.tags.push(Tag { means, within });
        self.laid.tags.len() - 1
    }

    pub(super) fn place(&mut self, what: What, tag: Option<usize>) {
        if let Some(page) = self.laid.pages.last_mut() {
            page.push(Placed { what, tag });
        }
    }

    fn turn(&mut self) {
        self.laid.pages.push(Vec::new());
        self.y = TOP;
    }

    /// Turns the page if so much does not fit any more; says whether it did.
    pub(super) fn room(&mut self, height: f64) -> bool {
        let turns = height > self.left_on_page() && self.y > TOP;
        if turns {
            self.turn();
        }
        turns
    }

    pub(super) fn line_height(&self, size: f64) -> f64 {
        size * LEADING
    }

    /// Writes lines one below the other from `x`; they may turn the page.
    fn write(&mut self, x: f64, width: f64, size: f64, text: &str, tag: usize) {
        for line in lines(self.face, text, size, width) {
            let height = self.line_height(size);
            self.room(height);
            let at = At(x, self.y + size);
            self.place(What::Text(at, Anchor::Start, size, line), Some(tag));
            self.y += height;
        }
    }
}

/// Lays a document out with a body text of so many millimetres.
pub(super) fn lay(
    document: &Document,
    look: &SheetLook,
    face: &Face,
    say: &dyn Fn(&Message) -> String,
    body: f64,
) -> Laid {
    let mut cursor = Cursor {
        laid: Laid {
            body,
            ..Laid::default()
        },
        face,
        say,
        size: standing(look.paper),
        y: TOP,
        body,
    };
    cursor.turn();
    head(&mut cursor, document, look);
    for section in &document.sections {
        let heading = say(&section.heading);
        let size = body * 1.25;
        cursor.y += body * 0.8;
        // A heading never stands alone at the foot of a page.
        cursor.room(size * 2.0 + body * 4.0);
        let tag = cursor.tag(Means::Heading(heading.clone()), None);
        let width = cursor.width();
        cursor.write(SIDE, width, size, &heading, tag);
        let y = cursor.y + body * 0.1;
        let rule = What::Rule(At(SIDE, y), At(SIDE + width, y), 0.25);
        cursor.place(rule, None);
        cursor.y += body * 0.5;
        for block in &section.blocks {
            self::block(&mut cursor, block);
            cursor.y += body * 0.35;
        }
    }
    cursor.laid
}

/// Logo and workshop's lines on the left, the title below them.
fn head(cursor: &mut Cursor, document: &Document, look: &SheetLook) {
    let (body, width) = (cursor.body, cursor.width());
    if let Some(logo) = &look.logo {
        cursor.laid.photos.push(SheetPhoto {
            blob: logo.blob.clone(),
            caption: crate::text::msg("sheet-logo"),
            size: logo.size,
            notes: Vec::new(),
        });
        let (wide, high) = (f64::from(logo.size.0.max(1)), f64::from(logo.size.1.max(1)));
        let scale = (body * 12.0 / wide).min(body * 5.0 / high);
        let size = At(wide * scale, high * scale);
        let tag = cursor.tag(
            Means::Figure((cursor.say)(&crate::text::msg("sheet-logo"))),
            None,
        );
        let at = At(SIDE + width - size.0, TOP);
        cursor.place(What::Photo(0, at, size), Some(tag));
    }
    for (index, line) in look.workshop.iter().enumerate() {
        let size = if index == 0 { body * 1.2 } else { body };
        let tag = cursor.tag(Means::Paragraph, None);
        cursor.write(SIDE, width * 0.7, size, line, tag);
    }
    if look.logo.is_some() {
        cursor.y = cursor.y.max(TOP + body * 5.4);
    }
    let title = (cursor.say)(&document.title);
    let tag = cursor.tag(Means::Title, None);
    cursor.y += body * 0.4;
    cursor.write(SIDE, width, body * 1.8, &title, tag);
}

fn block(cursor: &mut Cursor, block: &Block) {
    match block {
        Block::Pairs(pairs) => table::pairs(cursor, pairs),
        Block::Table { head, rows } => table::table(cursor, head, rows),
        Block::Lines(words) => {
            for line in words {
                let text = (cursor.say)(line);
                let tag = cursor.tag(Means::Paragraph, None);
                let (body, width) = (cursor.body, cursor.width());
                cursor.write(SIDE, width, body, &text, tag);
                cursor.y += body * 0.2;
            }
        }
        Block::Drawing(drawing) => draw(cursor, drawing),
        Block::Photos(photos) => self::photos(cursor, photos),
    }
}

fn draw(cursor: &mut Cursor, drawing: &Drawing) {
    let At(wide, high) = drawing.size;
    if !(wide > 0.0 && high > 0.0) {
        return;
    }
    let scale = (cursor.width() / wide).min(DRAWING_HIGHEST * cursor.body / super::BODY / high);
    cursor.room(high * scale);
    let tag = cursor.tag(Means::Figure((cursor.say)(&drawing.title)), None);
    let at = At(SIDE + (cursor.width() - wide * scale) / 2.0, cursor.y);
    cursor.place(What::Drawing(drawing.clone(), at, scale), Some(tag));
    cursor.y += high * scale;
}

/// Photos in rows of up to four, each with its words below.
fn photos(cursor: &mut Cursor, photos: &[SheetPhoto]) {
    let across = photos.len().clamp(2, 4);
    let gap = 3.0;
    let share = (cursor.width() - gap * (across as f64 - 1.0)) / across as f64;
    for row in photos.chunks(across) {
        let small = cursor.body * 0.85;
        let highest = PHOTO_HIGHEST * cursor.body / super::BODY;
        let fitted: Vec<At> = row.iter().map(|photo| fit(photo, share, highest)).collect();
        let words: Vec<Vec<String>> = row
            .iter()
            .map(|photo| lines(cursor.face, &(cursor.say)(&photo.caption), small, share))
            .collect();
        let high = fitted.iter().map(|size| size.1).fold(0.0, f64::max);
        let deep = words.iter().map(Vec::len).max().unwrap_or(0) as f64;
        let line = cursor.line_height(small);
        cursor.room(high + deep * line + 2.0);
        for (index, ((photo, size), words)) in row.iter().zip(fitted).zip(words).enumerate() {
            let x = SIDE + index as f64 * (share + gap);
            let caption = (cursor.say)(&photo.caption);
            cursor.laid.photos.push(photo.clone());
            let picture = cursor.laid.photos.len() - 1;
            let tag = cursor.tag(Means::Figure(caption), None);
            let at = At(x, cursor.y);
            cursor.place(What::Photo(picture, at, size), Some(tag));
            let tag = cursor.tag(Means::Paragraph, None);
            for (number, text) in words.into_iter().enumerate() {
                let at = At(x, cursor.y + high + 0.8 + small + number as f64 * line);
                cursor.place(What::Text(at, Anchor::Start, small, text), Some(tag));
            }
        }
        cursor.y += high + deep * line + 2.0;
    }
}

/// A photo inside its share of the width, as high as it may be.
fn fit(photo: &SheetPhoto, share: f64, highest: f64) -> At {
    let (wide, high) = (f64::from(photo.size.0), f64::from(photo.size.1));
    if !(wide > 0.0 && high > 0.0) {
        return At(share, (share * 0.75).min(highest));
    }
    let scale = (share / wide).min(highest / high);
    At(wide * scale, high * scale)
}
