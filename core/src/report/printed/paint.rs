//! Pages laid out, painted into a PDF.

use std::num::{NonZeroU16, NonZeroU32};

use chrono::{Datelike, Timelike};
use krilla::configure::{Archival, ConfigurationBuilder};
use krilla::geom::{Size, Transform};
use krilla::image::Image;
use krilla::metadata::{DateTime, Metadata};
use krilla::page::PageSettings;
use krilla::surface::Surface;
use krilla::tagging::{
    Artifact, ArtifactType, ContentTag, Identifier, Node, SpanTag, TableHeaderScope, Tag, TagGroup,
    TagKind, TagTree,
};
use krilla::{Document as Pdf, SerializeSettings};

use super::super::lettering::Face;
use super::super::pdf::{POINTS, PdfFault, draw, draw_scaled, write};
use super::super::{Document, SheetPhoto};
use super::lay::{BOTTOM, Laid, Means, Placed, SIDE, What};
use super::notes::{Frame, notes};
use super::wrap::plain;
use super::{Pictures, SheetLook, standing};
use crate::drawing::{Anchor, At, Pen, line};
use crate::text::{Message, msg};

/// What the file is held to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Conform {
    PdfA,
    Plain,
}

fn settings(conform: Conform) -> SerializeSettings {
    let mut settings = SerializeSettings {
        enable_tagging: true,
        ..SerializeSettings::default()
    };
    if conform == Conform::PdfA {
        let wanted = ConfigurationBuilder::new().with_archival_validator(Archival::A2_A);
        if let Ok(configuration) = wanted.finish() {
            settings.configuration = configuration;
        }
    }
    settings
}

fn metadata(title: String, look: &SheetLook) -> Metadata {
    let at = look.at;
    let part = |value: u32| u8::try_from(value).unwrap_or(0);
    let offset = at.offset().local_minus_utc() / 60;
    let date = DateTime::new(u16::try_from(at.year()).unwrap_or(0))
        .month(part(at.month()))
        .day(part(at.day()))
        .hour(part(at.hour()))
        .minute(part(at.minute()))
        .second(part(at.second()))
        .utc_offset_hour(i8::try_from(offset / 60).unwrap_or(0))
        .utc_offset_minute(part(offset.unsigned_abs() % 60));
    Metadata::new()
        .title(title)
        .creator("Rakeline".to_owned())
        .language("en".to_owned())
        .creation_date(date)
}

/// Paints all pages.
pub(super) fn paint(
    laid: &Laid,
    document: &Document,
    look: &SheetLook,
    pictures: &Pictures,
    face: &Face,
    say: &dyn Fn(&Message) -> String,
    conform: Conform,
) -> Result<Vec<u8>, PdfFault> {
    let mut pdf = Pdf::new_with(settings(conform));
    pdf.set_metadata(metadata(say(&document.title), look));
    let At(width, height) = standing(look.paper);
    let mut leaves: Vec<Vec<Identifier>> = vec![Vec::new(); laid.tags.len()];
    for (index, page) in laid.pages.iter().enumerate() {
        let number = index + 1;
        let size = PageSettings::from_wh((width * POINTS) as f32, (height * POINTS) as f32)
            .ok_or(PdfFault::Page { number })?;
        let mut sheet = pdf.start_page_with(size);
        let mut surface = sheet.surface();
        surface.push_transform(&Transform::from_scale(POINTS as f32, POINTS as f32));
        for placed in page {
            let found = piece(&mut surface, placed, laid, pictures, face, say);
            if let (Some(tag), Some(found)) = (placed.tag, found) {
                leaves[tag].push(found);
            }
        }
        foot(&mut surface, look, face, say, (number, laid.pages.len()));
        surface.pop();
        surface.finish();
        sheet.finish();
    }
    pdf.set_tag_tree(tree(laid, leaves));
    pdf.finish()
        .map_err(|fault| PdfFault::Writer(format!("{fault:?}")))
}

/// Paints one piece between its marks; gives the mark of what is read out.
fn piece(
    surface: &mut Surface,
    placed: &Placed,
    laid: &Laid,
    pictures: &Pictures,
    face: &Face,
    say: &dyn Fn(&Message) -> String,
) -> Option<Identifier> {
    let content = match (&placed.what, placed.tag) {
        (_, None) => ContentTag::Artifact(Artifact::with_kind(ArtifactType::Layout)),
        (What::Text(..), _) => ContentTag::Span(SpanTag::empty()),
        _ => ContentTag::Other,
    };
    let mark = surface.start_tagged(content);
    match &placed.what {
        What::Text(at, anchor, size, text) => {
            // The end of a line is the end of a word, also for who copies it.
            let text = format!("{text} ");
            write(surface, face, &text, *at, *anchor, *size);
        }
        What::Rule(from, to, _) => {
            let item = line(Pen::Thin, &[(from.0, from.1), (to.0, to.1)]);
            draw(surface, &item, face, say);
        }
        What::Drawing(drawing, at, scale) => {
            let (x, y) = (at.0 - drawing.from.0 * scale, at.1 - drawing.from.1 * scale);
            let place =
                Transform::from_row(*scale as f32, 0.0, 0.0, *scale as f32, x as f32, y as f32);
            surface.push_transform(&place);
            for item in &drawing.items {
                draw_scaled(surface, item, face, say, *scale);
            }
            surface.pop();
        }
        What::Photo(index, at, size) => {
            if let Some(photo) = laid.photos.get(*index) {
                picture(surface, photo, pictures, (*at, *size), face, say);
            }
        }
    }
    surface.end_tagged();
    placed.tag.map(|_| mark)
}

/// A photo with what was drawn on it, or a frame that says it is missing.
fn picture(
    surface: &mut Surface,
    photo: &SheetPhoto,
    pictures: &Pictures,
    (at, size): (At, At),
    face: &Face,
    say: &dyn Fn(&Message) -> String,
) {
    let read = pictures.get(&photo.blob).and_then(|bytes| {
        let data = bytes.clone().into();
        let image = if bytes.starts_with(b"\x89PNG") {
            Image::from_png(data, false)
        } else {
            Image::from_jpeg(data, false)
        };
        image.ok()
    });
    let fitted = Size::from_wh(size.0 as f32, size.1 as f32);
    match (read, fitted) {
        (Some(image), Some(fitted)) => {
            surface.push_transform(&Transform::from_translate(at.0 as f32, at.1 as f32));
            surface.draw_image(image, fitted);
            surface.pop();
        }
        _ => {
            let (right, low) = (at.0 + size.0, at.1 + size.1);
            let corners = [
                (at.0, at.1),
                (right, at.1),
                (right, low),
                (at.0, low),
                (at.0, at.1),
            ];
            draw(surface, &line(Pen::Thin, &corners), face, say);
            let middle = At(at.0 + size.0 / 2.0, at.1 + size.1 / 2.0);
            let words = say(&msg("sheet-photo-missing"));
            write(surface, face, &words, middle, Anchor::Middle, 2.6);
        }
    }
    notes(surface, &photo.notes, Frame { at, size }, face);
}

fn foot(
    surface: &mut Surface,
    look: &SheetLook,
    face: &Face,
    say: &dyn Fn(&Message) -> String,
    (page, pages): (usize, usize),
) {
    let At(width, height) = standing(look.paper);
    let y = height - BOTTOM + 8.0;
    let count = |number: usize| i64::try_from(number).unwrap_or(i64::MAX);
    let numbered = msg("sheet-page")
        .count("page", count(page))
        .count("pages", count(pages));
    let kind = ArtifactType::Footer;
    surface.start_tagged(ContentTag::Artifact(Artifact::with_kind(kind)));
    write(
        surface,
        face,
        &plain(&say(&look.foot)),
        At(SIDE, y),
        Anchor::Start,
        2.4,
    );
    let right = At(width - SIDE, y);
    write(
        surface,
        face,
        &plain(&say(&numbered)),
        right,
        Anchor::End,
        2.4,
    );
    surface.end_tagged();
}

/// The tree of what is read out, from groups and the marks in them.
fn tree(laid: &Laid, mut leaves: Vec<Vec<Identifier>>) -> TagTree {
    let mut groups: Vec<TagGroup> = laid
        .tags
        .iter()
        .zip(&mut leaves)
        .map(|(tag, leaves)| {
            let marks = leaves.drain(..).map(Node::Leaf).collect();
            TagGroup::with_children(kind(&tag.means), marks)
        })
        .collect();
    // A group stands after the one it belongs to, so that from the last to
    // the first each is whole when it is handed on.
    let mut top = Vec::new();
    let mut held: Vec<Vec<TagGroup>> = vec![Vec::new(); laid.tags.len()];
    for index in (0..laid.tags.len()).rev() {
        let Some(mut group) = groups.pop() else { break };
        group
            .children
            .extend(held[index].drain(..).rev().map(Node::Group));
        match laid.tags[index].within {
            Some(parent) => held[parent].push(group),
            None => top.push(Node::Group(group)),
        }
    }
    top.reverse();
    let mut tree = TagTree::from(top);
    tree.lang = Some("en".to_owned());
    tree
}

fn kind(means: &Means) -> TagKind {
    let first = NonZeroU16::MIN;
    match means {
        Means::Title => Tag::Hn(first, None).into(),
        Means::Heading(words) => Tag::Hn(first.saturating_add(1), Some(words.clone())).into(),
        Means::Paragraph => Tag::P.into(),
        Means::Table => Tag::Table.into(),
        Means::Row => Tag::TR.into(),
        Means::HeadCell => Tag::TH(TableHeaderScope::Both)
            .with_col_span(Some(NonZeroU32::MIN))
            .into(),
        Means::Cell => Tag::TD.into(),
        Means::Figure(words) => Tag::Figure(Some(words.clone())).into(),
    }
}
