//! Pages as vector PDF, true to the millimetre.
//!
//! The same pages give the same bytes: no date, no random name. The font is
//! embedded, cut down to the letters that are used.

use krilla::Document;
use krilla::color::luma;
use krilla::geom::{Path, PathBuilder, Point, Transform};
use krilla::metadata::Metadata;
use krilla::page::PageSettings;
use krilla::paint::{Fill, Stroke, StrokeDash};
use krilla::surface::Surface;

use super::lettering::Face;
use super::paper::{Page, Pages};
use crate::drawing::{Anchor, At, Item, Pen, Run, Words};
use crate::text::{Message, msg};

/// Points in a millimetre: 72 points are an inch of 25.4 mm
/// (ISO 32000-1:2008, 8.3.2.3).
pub(super) const POINTS: f64 = 72.0 / 25.4;

/// How far from its centre the control points of a quarter circle lie, in
/// radii: 4/3 (sqrt 2 - 1). The radius is then kept to 0.03 %.
const QUARTER: f64 = 0.552_284_749_830_793_6;

/// Why there is no PDF.
#[derive(Clone, Debug, PartialEq)]
pub enum PdfFault {
    /// The font that is built in cannot be read.
    Font,
    /// A page has no size.
    Page {
        /// Its number from 1.
        number: usize,
    },
    /// The PDF could not be put together; the reason in the writer's words.
    Writer(String),
}

impl PdfFault {
    /// What the fitter is told.
    #[must_use]
    pub fn message(&self) -> Message {
        let why = match self {
            Self::Font => "font".to_owned(),
            Self::Page { number } => format!("page {number}"),
            Self::Writer(why) => why.clone(),
        };
        msg("pdf-failed").text("why", why)
    }
}

/// Renders pages; `say` gives the words of a message.
///
/// # Errors
/// [`PdfFault`], each a fault of the program or its font, not of the job.
pub fn pdf(pages: &Pages, say: &dyn Fn(&Message) -> String) -> Result<Vec<u8>, PdfFault> {
    let face = Face::built_in().ok_or(PdfFault::Font)?;
    let mut document = Document::new();
    document.set_metadata(
        Metadata::new()
            .title(say(&pages.title))
            .creator("Rakeline".to_owned())
            .language("en".to_owned()),
    );
    for (index, page) in pages.pages.iter().enumerate() {
        let number = index + 1;
        draw_page(&mut document, page, &face, say).ok_or(PdfFault::Page { number })?;
    }
    document
        .finish()
        .map_err(|fault| PdfFault::Writer(format!("{fault:?}")))
}

fn draw_page(
    document: &mut Document,
    page: &Page,
    face: &Face,
    say: &dyn Fn(&Message) -> String,
) -> Option<()> {
    let At(width, height) = page.size;
    let settings = PageSettings::from_wh((width * POINTS) as f32, (height * POINTS) as f32)?;
    let mut sheet = document.start_page_with(settings);
    let mut surface = sheet.surface();
    // From here on millimetres.
    surface.push_transform(&Transform::from_scale(POINTS as f32, POINTS as f32));
    for item in &page.items {
        draw(&mut surface, item, face, say);
    }
    surface.pop();
    surface.finish();
    sheet.finish();
    Some(())
}

pub(super) fn draw(
    surface: &mut Surface,
    item: &Item,
    face: &Face,
    say: &dyn Fn(&Message) -> String,
) {
    draw_scaled(surface, item, face, say, 1.0);
}

/// Draws an item where a millimetre of the drawing is `scale` on the paper:
/// lines stay as thick as they are at full size.
pub(super) fn draw_scaled(
    surface: &mut Surface,
    item: &Item,
    face: &Face,
    say: &dyn Fn(&Message) -> String,
    scale: f64,
) {
    let shape = match item {
        Item::Line { pen, points } => through(points, false).map(|path| (*pen, path)),
        Item::Area { pen, points } => through(points, true).map(|path| (*pen, path)),
        Item::Circle {
            pen,
            centre,
            radius,
        } => circle(*centre, *radius).map(|path| (*pen, path)),
        Item::Squares { pen, runs } => rows(runs).map(|path| (*pen, path)),
        Item::Text {
            at,
            anchor,
            size,
            words,
            ..
        } => {
            let text = match words {
                Words::Message(message) => say(message),
                Words::Literal(text) => text.clone(),
            };
            write(surface, face, &text, *at, *anchor, *size);
            None
        }
    };
    if let Some((pen, path)) = shape {
        let ink = ink(pen, 1.0 / scale as f32);
        surface.set_fill(ink.fill);
        surface.set_stroke(ink.stroke);
        surface.draw_path(&path);
    }
}

/// What a pen is on paper: widths in millimetres, greys only.
struct Ink {
    fill: Option<Fill>,
    stroke: Option<Stroke>,
}

fn ink(pen: Pen, times: f32) -> Ink {
    let stroke = |width: f32, grey: u8, dash: &[f32]| Ink {
        fill: None,
        stroke: Some(Stroke {
            paint: luma::Color::new(grey).into(),
            width: width * times,
            dash: (!dash.is_empty()).then(|| StrokeDash {
                array: dash.iter().map(|long| long * times).collect(),
                offset: 0.0,
            }),
            ..Stroke::default()
        }),
    };
    let fill = |grey: u8| Ink {
        fill: Some(Fill {
            paint: luma::Color::new(grey).into(),
            ..Fill::default()
        }),
        stroke: None,
    };
    match pen {
        Pen::Outline => stroke(0.4, 0, &[]),
        Pen::Thin => stroke(0.2, 0, &[]),
        Pen::Faint => stroke(0.15, 130, &[2.0, 1.5]),
        Pen::Centre => stroke(0.25, 0, &[9.0, 1.5, 1.5, 1.5]),
        Pen::Ink => stroke(0.25, 0, &[]),
        Pen::Wrong => stroke(0.6, 0, &[3.0, 1.0]),
        Pen::Tape => fill(205),
        Pen::Solid => fill(0),
        Pen::Shut | Pen::Sparse => fill(225),
        Pen::Dense => fill(190),
        Pen::Dotted => fill(240),
        Pen::Paper => Ink {
            stroke: stroke(0.25, 0, &[]).stroke,
            ..fill(255)
        },
    }
}

/// Rows of squares as one path.
fn rows(runs: &[Run]) -> Option<Path> {
    let mut path = PathBuilder::new();
    for [x, y, width, height] in runs {
        let corner = |dx: f64, dy: f64| ((x + dx) as f32, (y + dy) as f32);
        let (left, top) = corner(0.0, 0.0);
        let (right, foot) = corner(*width, *height);
        path.move_to(left, top);
        path.line_to(right, top);
        path.line_to(right, foot);
        path.line_to(left, foot);
        path.close();
    }
    path.finish()
}

fn through(points: &[At], closed: bool) -> Option<Path> {
    let (first, rest) = points.split_first()?;
    let mut path = PathBuilder::new();
    path.move_to(first.0 as f32, first.1 as f32);
    for at in rest {
        path.line_to(at.0 as f32, at.1 as f32);
    }
    if closed {
        path.close();
    }
    path.finish()
}

pub(super) fn circle(centre: At, radius: f64) -> Option<Path> {
    let mut path = PathBuilder::new();
    let on = |x: f64, y: f64| {
        (
            (centre.0 + x * radius) as f32,
            (centre.1 + y * radius) as f32,
        )
    };
    let start = on(1.0, 0.0);
    path.move_to(start.0, start.1);
    let mut way = (1.0, 0.0);
    for _ in 0..4 {
        let next = (-way.1, way.0);
        let a = on(way.0 + QUARTER * next.0, way.1 + QUARTER * next.1);
        let b = on(next.0 + QUARTER * way.0, next.1 + QUARTER * way.1);
        let c = on(next.0, next.1);
        path.cubic_to(a.0, a.1, b.0, b.1, c.0, c.1);
        way = next;
    }
    path.close();
    path.finish()
}

pub(super) fn write(
    surface: &mut Surface,
    face: &Face,
    text: &str,
    at: At,
    anchor: Anchor,
    size: f64,
) {
    let line = face.line(text);
    let back = match anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => 0.5,
        Anchor::End => 1.0,
    };
    surface.set_fill(Some(Fill::default()));
    surface.set_stroke(None);
    surface.draw_glyphs(
        Point::from_xy((at.0 - line.width * size * back) as f32, at.1 as f32),
        &line.glyphs,
        face.font(),
        &line.text,
        size as f32,
        false,
    );
}
