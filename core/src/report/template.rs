//! The template: the marks at full size on sheets that are joined and laid
//! on the bumper.
//!
//! One strip, unrolled along the face: the centre line at 0, + to the right
//! seen from behind. It is cut into lying sheets that overlap; cut each
//! sheet at its left line and lay it on the right line of the one before.

use super::paper::{Page, Pages, Paper, bar, words};
use super::template_facts::{TemplateFacts, TemplateHead, Unrolled};
use super::tiles::{Tile, Whole, tiles};
use crate::drawing::{Anchor, At, Item, Lettering, Pen, Words, line};
use crate::text::{Message, msg};

/// Margin that printers leave white, mm (ours; common ones need 4 to 8).
const MARGIN: f64 = 12.0;
/// Width of the strip that neighbouring sheets share, mm.
const OVERLAP: f64 = 20.0;
/// The height line from the top edge of the sheet, mm: as high as holes and
/// headings let it be, as low as the texts below the holes do.
const HEIGHT_LINE: (f64, f64) = (80.0, 128.0);
/// What is drawn beyond the outermost holes, mm.
const BEYOND: f64 = 45.0;
/// White kept round a hole and beside the centre line, mm.
const CLEAR: f64 = 8.0;
/// Length of a check bar, mm.
const CHECK: f64 = 100.0;
/// Top of lines that run from edge to edge, mm.
const TOP: f64 = 30.0;
/// Bottom of lines that run from edge to edge, mm.
const FOOT: f64 = 196.0;

/// Lays the template out.
///
/// # Units
/// Millimetres on paper that is printed at 100 %.
#[must_use]
pub fn template(facts: &TemplateFacts, paper: Paper) -> Pages {
    let size = paper.lying();
    let cut = cut(facts, size.0 - 2.0 * MARGIN);
    let pages = cut
        .iter()
        .enumerate()
        .map(|(index, tile)| Page {
            size,
            items: sheet(facts, &cut, index, *tile, size),
        })
        .collect();
    Pages {
        title: msg("template-title").text("job", facts.job.clone()),
        pages,
    }
}

fn cut(facts: &TemplateFacts, width: f64) -> Vec<Tile> {
    let reach = |head: &TemplateHead| head.hole.0 / 2.0;
    let (mut from, mut to) = (0.0_f64, 0.0_f64);
    let mut whole = vec![Whole {
        at: 0.0,
        reach: CLEAR,
    }];
    for head in &facts.heads {
        from = from.min(head.along.0 - reach(head));
        to = to.max(head.along.0 + reach(head));
        whole.push(Whole {
            at: head.along.0,
            reach: reach(head) + CLEAR,
        });
    }
    tiles(from - BEYOND, to + BEYOND, width, OVERLAP, &whole)
}

/// Where the height line runs: lower when a line above it must be on the
/// paper too.
fn height_line(facts: &TemplateFacts) -> f64 {
    let above = facts.across.as_ref().map_or(0.0, |across| across.above.0);
    (TOP + 8.0 + above).clamp(HEIGHT_LINE.0, HEIGHT_LINE.1)
}

fn sheet(facts: &TemplateFacts, cut: &[Tile], index: usize, tile: Tile, size: At) -> Vec<Item> {
    let right = MARGIN + tile.to - tile.from;
    let level = height_line(facts);
    let mut items = headings(facts, cut.len(), index, size);
    items.extend(check_bars());
    items.extend(arrow_up());
    items.extend(joins(cut, index, right));
    items.push(line(Pen::Thin, &[(MARGIN, level), (right, level)]));
    items.push(words(
        At(MARGIN + OVERLAP + 3.0, level - 2.0),
        Anchor::Start,
        3.5,
        msg("template-height"),
    ));
    items.extend(across(facts, level, right));
    let on_sheet = |along: f64| {
        let x = MARGIN + along - tile.from;
        (MARGIN..=right).contains(&x).then_some(x)
    };
    if let Some(x) = on_sheet(0.0) {
        items.extend(centre_line(x, facts.centre.as_ref()));
    }
    for head in &facts.heads {
        if let Some(x) = on_sheet(head.along.0) {
            items.extend(hole(facts, head, At(x, level)));
        }
    }
    items
}

fn headings(facts: &TemplateFacts, of: usize, index: usize, size: At) -> Vec<Item> {
    let count = |n: usize| i64::try_from(n).unwrap_or(i64::MAX);
    let unrolled = match facts.unrolled {
        Unrolled::Straight => msg("template-straight"),
        Unrolled::AlongTheFace => msg("template-along"),
    };
    let number = msg("template-sheet")
        .count("sheet", count(index + 1))
        .count("of", count(of));
    vec![
        words(
            At(MARGIN, 15.0),
            Anchor::Start,
            5.0,
            msg("template-title").text("job", facts.job.clone()),
        ),
        words(At(size.0 - MARGIN, 15.0), Anchor::End, 5.0, number),
        words(
            At(MARGIN, 20.5),
            Anchor::Start,
            3.5,
            msg("template-scale").mm("length", CHECK),
        ),
        words(At(MARGIN, 25.5), Anchor::Start, 3.5, unrolled),
    ]
}

/// Two bars of 100 mm, one upright and one lying, lower left.
fn check_bars() -> Vec<Item> {
    let upright = At(MARGIN + OVERLAP / 2.0, 190.0);
    let top = At(upright.0, upright.1 - CHECK);
    let lying = At(upright.0 + 8.0, upright.1);
    let end = At(lying.0 + CHECK, lying.1);
    let length = |at: At| {
        let beside = At(at.0 + 4.0, at.1 + 1.3);
        words(
            beside,
            Anchor::Start,
            3.5,
            msg("template-bar").mm("length", CHECK),
        )
    };
    let mut items = bar(upright, top).to_vec();
    items.extend(bar(lying, end));
    items.extend([length(top), length(end)]);
    items
}

/// In the strip that overlaps, which holds no hole.
fn arrow_up() -> Vec<Item> {
    let (x, tip, foot) = (MARGIN + OVERLAP / 2.0, TOP, TOP + 26.0);
    let outline = [
        (0.0, tip),
        (5.0, tip + 10.0),
        (1.2, tip + 10.0),
        (1.2, foot),
        (-1.2, foot),
        (-1.2, tip + 10.0),
        (-5.0, tip + 10.0),
    ];
    vec![
        Item::Area {
            pen: Pen::Solid,
            points: outline.iter().map(|(dx, y)| At(x + dx, *y)).collect(),
        },
        words(
            At(x + 7.0, tip + 6.0),
            Anchor::Start,
            6.0,
            msg("template-up"),
        ),
    ]
}

/// The lines on which neighbours meet, with crosses that must coincide.
fn joins(cut: &[Tile], index: usize, right: f64) -> Vec<Item> {
    let sheet_number = |at: usize| i64::try_from(at + 1).unwrap_or(i64::MAX);
    let mut items = Vec::new();
    if index > 0 {
        items.extend(join(MARGIN));
        items.push(words(
            At(MARGIN + 2.0, FOOT + 4.0),
            Anchor::Start,
            3.5,
            msg("template-cut").count("before", sheet_number(index - 1)),
        ));
    }
    if let Some(next) = cut.get(index + 1) {
        let x = right - (cut[index].to - next.from);
        items.extend(join(x));
        items.push(words(
            At(x - 2.0, FOOT - 12.0),
            Anchor::End,
            3.5,
            msg("template-lay").count("next", sheet_number(index + 1)),
        ));
    }
    items
}

fn join(x: f64) -> Vec<Item> {
    let mut items = vec![line(Pen::Faint, &[(x, TOP), (x, FOOT)])];
    for y in [TOP + 20.0, FOOT - 36.0] {
        items.push(line(Pen::Thin, &[(x - 6.0, y), (x + 6.0, y)]));
        items.push(line(Pen::Thin, &[(x, y - 6.0), (x, y + 6.0)]));
        items.push(Item::Circle {
            pen: Pen::Thin,
            centre: At(x, y),
            radius: 3.0,
        });
    }
    items
}

/// The line that the height was measured from, where it is on the paper.
fn across(facts: &TemplateFacts, level: f64, right: f64) -> Vec<Item> {
    let Some(across) = &facts.across else {
        return Vec::new();
    };
    let y = level - across.above.0;
    let said = msg(if across.above.0 < 0.0 {
        "template-line-below"
    } else {
        "template-line-above"
    })
    .number("mm", across.above.0.abs(), 1)
    .message("line", across.called.clone());
    let on_paper = (TOP..=FOOT).contains(&y);
    let beside = if on_paper { y - 2.0 } else { level + 5.0 };
    let mut items = vec![words(
        At(MARGIN + OVERLAP + 3.0, beside),
        Anchor::Start,
        3.5,
        said,
    )];
    if on_paper {
        items.push(line(Pen::Outline, &[(MARGIN, y), (right, y)]));
    }
    items
}

/// The centre line, with how it was found where that is known.
fn centre_line(x: f64, found: Option<&Message>) -> [Item; 2] {
    let said = found.cloned().unwrap_or_else(|| msg("template-centre"));
    [
        line(Pen::Centre, &[(x, TOP), (x, FOOT)]),
        words(At(x + 2.0, TOP + 2.2), Anchor::Start, 4.0, said),
    ]
}

fn hole(facts: &TemplateFacts, head: &TemplateHead, at: At) -> Vec<Item> {
    let radius = head.hole.0 / 2.0;
    let arm = radius + 6.0;
    let below = at.1 + arm;
    let mut items = vec![
        Item::Circle {
            pen: Pen::Ink,
            centre: at,
            radius,
        },
        line(Pen::Thin, &[(at.0, at.1 - arm), (at.0, below)]),
        line(Pen::Thin, &[(at.0 - arm, at.1), (at.0 + arm, at.1)]),
        Item::Text {
            lettering: Lettering::Strong,
            at: At(at.0, below + 11.0),
            anchor: Anchor::Middle,
            size: 12.0,
            words: Words::Literal(head.label.clone()),
        },
    ];
    let mut lines = vec![place("template-mm", head.at.0)];
    if facts.unrolled == Unrolled::AlongTheFace {
        lines.push(place("template-mm-along", head.along.0));
    }
    lines.push(msg("template-hole").number("mm", head.hole.0, decimals(head.hole.0)));
    for (row, said) in lines.into_iter().enumerate() {
        let y = below + 17.0 + 5.0 * row as f64;
        items.push(words(At(at.0, y), Anchor::Middle, 4.0, said));
    }
    items
}

/// So many millimetres left or right of the centre line.
fn place(key: &'static str, mm: f64) -> Message {
    if mm == 0.0 {
        return msg("template-centre");
    }
    let side = msg(if mm < 0.0 { "side-left" } else { "side-right" });
    msg(key)
        .number("mm", mm.abs(), decimals(mm))
        .message("side", side)
}

fn decimals(value: f64) -> u8 {
    u8::from((value - value.round()).abs() > 0.05)
}

#[cfg(test)]
mod tests {
    use super::super::AcrossLine;
    use super::*;
    use crate::units::{Millimetres, Offset};

    fn facts(above: f64) -> TemplateFacts {
        let head = |label: &str, at: f64, hole: f64| TemplateHead {
            label: label.to_owned(),
            at: Offset(at),
            along: Millimetres(at),
            hole: Millimetres(hole),
        };
        TemplateFacts {
            job: "a".to_owned(),
            heads: vec![head("1", -620.0, 21.0), head("2", 620.0, 28.0)],
            unrolled: Unrolled::Straight,
            across: None,
            centre: None,
        }
        .from_line(AcrossLine {
            above: Millimetres(above),
            called: msg("row-line-swage"),
        })
    }

    fn holes(pages: &Pages) -> Vec<(usize, f64)> {
        let on = |(number, page): (usize, &Page)| {
            let circles = page.items.iter().filter_map(move |item| match item {
                Item::Circle {
                    pen: Pen::Ink,
                    radius,
                    ..
                } => Some((number, *radius)),
                _ => None,
            });
            circles.collect::<Vec<_>>()
        };
        pages.pages.iter().enumerate().flat_map(on).collect()
    }

    #[test]
    fn every_hole_stands_once_on_one_sheet_with_its_own_size() {
        for paper in [Paper::A4, Paper::Letter] {
            let pages = template(&facts(0.0), paper);
            let holes = holes(&pages);
            assert_eq!(holes.len(), 2, "{holes:?}");
            assert_eq!((holes[0].1, holes[1].1), (10.5, 14.0));
            assert!(holes[0].0 < holes[1].0);
        }
    }

    #[test]
    fn everything_keeps_off_the_edge_that_printers_leave_white() {
        for above in [-110.0, 0.0, 40.0, 85.0, 300.0] {
            for page in template(&facts(above), Paper::A4).pages {
                let inside = |at: &At| {
                    (5.0..=page.size.0 - 5.0).contains(&at.0)
                        && (5.0..=page.size.1 - 5.0).contains(&at.1)
                };
                for item in &page.items {
                    match item {
                        Item::Line { points, .. } | Item::Area { points, .. } => {
                            assert!(points.iter().all(inside), "{item:?}");
                        }
                        Item::Circle { centre: at, .. } | Item::Text { at, .. } => {
                            assert!(inside(at), "{item:?}");
                        }
                        Item::Squares { .. } => panic!("{item:?}"),
                    }
                }
            }
        }
    }

    #[test]
    fn a_line_above_the_marks_is_on_the_paper_as_far_as_it_fits() {
        let has_line = |above: f64| {
            let pages = template(&facts(above), Paper::A4);
            let mut items = pages.pages[0].items.iter();
            items.any(|item| {
                matches!(
                    item,
                    Item::Line {
                        pen: Pen::Outline,
                        ..
                    }
                )
            })
        };
        assert!(has_line(85.0) && has_line(-100.0));
        assert!(!has_line(140.0));
    }
}
