//! What was drawn on a photo, on paper: black with a white edge, so that it
//! is seen on a dark photo and on a light one, also printed without colour.
//! Nothing of it lies beside the photo.

use krilla::color::luma;
use krilla::geom::{Path, PathBuilder};
use krilla::paint::{Fill, FillRule, LineCap, LineJoin, Stroke};
use krilla::surface::Surface;

use super::super::lettering::Face;
use super::super::pdf::{circle, write};
use super::wrap::lines;
use crate::drawing::{Anchor, At};
use crate::job::{Note, PicturePlace};

/// Black of a drawn line, mm.
const LINE: f32 = 0.5;
/// Black with its white edge, mm.
const EDGED: f32 = 1.5;
/// Lettering of words, mm.
const WORDS: f64 = 3.0;
/// Smallest lettering to which many words shrink, mm.
const WORDS_LEAST: f64 = 1.6;
/// White around words, mm.
const MARGIN: f64 = 0.6;
/// From baseline to baseline, in letterings.
const LEADING: f64 = 1.25;
/// Ends words that do not fit their photo.
const MORE: &str = "…";

/// A photo's place on the page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Frame {
    /// Upper left corner, mm.
    pub(super) at: At,
    /// Width and height, mm.
    pub(super) size: At,
}

impl Frame {
    fn on(self, place: PicturePlace) -> At {
        At(
            self.at.0 + f64::from(place.x) * self.size.0,
            self.at.1 + f64::from(place.y) * self.size.1,
        )
    }
}

/// Draws what is noted on a photo.
pub(super) fn notes(surface: &mut Surface, notes: &[Note], frame: Frame, face: &Face) {
    if notes.is_empty() {
        return;
    }
    let Some(edge) = rectangle(frame) else { return };
    surface.push_clip_path(&edge, &FillRule::NonZero);
    for note in notes {
        for path in paths(note, frame) {
            edged(surface, &path);
        }
        if let Note::Words(place, words) = note {
            let placed = words_on(face, words, frame.on(*place), frame);
            written(surface, &placed, face);
        }
    }
    surface.pop();
}

fn paths(note: &Note, frame: Frame) -> Vec<Path> {
    let lines = match note {
        Note::Arrow(from, to) => {
            let (from, to) = (frame.on(*from), frame.on(*to));
            let (x, y) = (to.0 - from.0, to.1 - from.1);
            let long = x.hypot(y).max(0.1);
            let (x, y) = (x / long * 3.0, y / long * 3.0);
            let barb = |side: f64| At(to.0 - x - side * y * 0.5, to.1 - y + side * x * 0.5);
            vec![vec![from, to], vec![barb(1.0), to, barb(-1.0)]]
        }
        Note::Circle(middle, edge) => {
            let (middle, edge) = (frame.on(*middle), frame.on(*edge));
            let radius = (edge.0 - middle.0).hypot(edge.1 - middle.1).max(0.5);
            return circle(middle, radius).into_iter().collect();
        }
        Note::Words(..) => Vec::new(),
    };
    lines.iter().filter_map(|line| through(line)).collect()
}

fn through(points: &[At]) -> Option<Path> {
    let (first, rest) = points.split_first()?;
    let mut path = PathBuilder::new();
    path.move_to(first.0 as f32, first.1 as f32);
    for at in rest {
        path.line_to(at.0 as f32, at.1 as f32);
    }
    path.finish()
}

fn rectangle(frame: Frame) -> Option<Path> {
    let (left, top) = (frame.at.0 as f32, frame.at.1 as f32);
    let (right, low) = (
        (frame.at.0 + frame.size.0) as f32,
        (frame.at.1 + frame.size.1) as f32,
    );
    let mut path = PathBuilder::new();
    path.move_to(left, top);
    path.line_to(right, top);
    path.line_to(right, low);
    path.line_to(left, low);
    path.close();
    path.finish()
}

/// Black in the middle, white on both sides.
fn edged(surface: &mut Surface, path: &Path) {
    surface.set_fill(None);
    for (grey, width) in [(255, EDGED), (0, LINE)] {
        surface.set_stroke(Some(Stroke {
            paint: luma::Color::new(grey).into(),
            width,
            line_cap: LineCap::Round,
            line_join: LineJoin::Round,
            ..Stroke::default()
        }));
        surface.draw_path(path);
    }
}

/// Words in lines on a white field inside their photo.
#[derive(Clone, Debug, PartialEq)]
struct Placed {
    field: Frame,
    size: f64,
    lines: Vec<String>,
}

/// Words as near their place as the photo lets them: wrapped at its width,
/// smaller where there are many, cut with '…' where they do not fit at all.
fn words_on(face: &Face, words: &str, place: At, frame: Frame) -> Placed {
    let width = (frame.size.0 - 2.0 * MARGIN).max(0.1);
    let room = (frame.size.1 - 2.0 * MARGIN).max(0.1);
    let mut size = WORDS;
    let mut broken = lines(face, words, size, width);
    while broken.len() as f64 * size * LEADING > room && size > WORDS_LEAST {
        size = (size * 0.9).max(WORDS_LEAST);
        broken = lines(face, words, size, width);
    }
    let most = ((room / (size * LEADING)) as usize).max(1);
    if broken.len() > most {
        broken.truncate(most);
        if let Some(last) = broken.last_mut() {
            while face.width(&format!("{last}{MORE}")) * size > width && last.pop().is_some() {}
            last.push_str(MORE);
        }
    }
    let widest = broken
        .iter()
        .map(|line| face.width(line) * size)
        .fold(0.0, f64::max);
    let field = At(
        widest + 2.0 * MARGIN,
        broken.len() as f64 * size * LEADING + 2.0 * MARGIN,
    );
    // Words stand on their place: the first line's baseline is there.
    let inside = |at: f64, least: f64, most: f64| at.min(most).max(least);
    let (right, low) = (
        frame.at.0 + frame.size.0 - field.0,
        frame.at.1 + frame.size.1 - field.1,
    );
    let at = At(
        inside(place.0 - MARGIN, frame.at.0, right),
        inside(place.1 - size - MARGIN, frame.at.1, low),
    );
    Placed {
        field: Frame { at, size: field },
        size,
        lines: broken,
    }
}

fn written(surface: &mut Surface, placed: &Placed, face: &Face) {
    if let Some(field) = rectangle(placed.field) {
        surface.set_stroke(None);
        surface.set_fill(Some(Fill {
            paint: luma::Color::new(255).into(),
            ..Fill::default()
        }));
        surface.draw_path(&field);
    }
    for (number, line) in placed.lines.iter().enumerate() {
        let at = At(
            placed.field.at.0 + MARGIN,
            placed.field.at.1 + MARGIN + placed.size + number as f64 * placed.size * LEADING,
        );
        write(
            surface,
            face,
            &format!("{line} "),
            at,
            Anchor::Start,
            placed.size,
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn frame() -> Frame {
        Frame {
            at: At(16.0, 40.0),
            size: At(42.0, 31.0),
        }
    }

    #[test]
    fn words_never_stand_off_their_photo() {
        let face = Face::built_in().unwrap();
        let long = "Donaudampfschifffahrtsgesellschaft and a scratch ".repeat(10);
        let texts = ["pushed home", "\u{202e}scratch\nbelow\u{7}", &long];
        for words in texts {
            for (x, y) in [(0.0, 0.0), (1.0, 1.0), (0.97, 0.02), (0.5, 0.5)] {
                let frame = frame();
                let place = frame.on(PicturePlace { x, y });
                let placed = words_on(&face, words, place, frame);
                let (field, size) = (placed.field, frame.size);
                assert!(field.at.0 >= frame.at.0 && field.at.1 >= frame.at.1);
                assert!(field.at.0 + field.size.0 <= frame.at.0 + size.0 + 1e-9);
                assert!(field.at.1 + field.size.1 <= frame.at.1 + size.1 + 1e-9);
                assert!(placed.size >= WORDS_LEAST);
                let widest = frame.size.0 - 2.0 * MARGIN + 1e-9;
                assert!(placed.lines.iter().all(|line| {
                    face.width(line) * placed.size <= widest
                        && !line.chars().any(|c| c.is_control() || c == '\u{202e}')
                }));
            }
        }
    }

    #[test]
    fn short_words_keep_their_size_and_long_ones_say_that_they_go_on() {
        let face = Face::built_in().unwrap();
        let placed = words_on(&face, "pushed home", At(20.0, 50.0), frame());
        assert_eq!((placed.size, placed.lines.len()), (WORDS, 1));
        let long = "scratch ".repeat(200);
        let placed = words_on(&face, &long, At(20.0, 50.0), frame());
        assert!(placed.lines.last().unwrap().ends_with(MORE));
    }
}
