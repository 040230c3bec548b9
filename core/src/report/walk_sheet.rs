//! A page to walk by: where the pole goes, with boxes to tick; for nine
//! points, for the grid of 0.1 m, and after a learn beginning at what was
//! learned.

use chrono::{DateTime, FixedOffset};

use super::{Block, Document, Section};
use crate::decide::walk_test::{PointBy, WalkPoint};
use crate::drawing::walk_plan;
use crate::job::{
    JobState, WalkKind, WalkTest, object_asked, offset_words, point_words, walk_cautions,
    walk_points,
};
use crate::text::{Message, msg};
use crate::units::Offset;

/// What may sound at a point, as the heads of the columns to tick.
const SOUNDS: [&str; 4] = [
    "walk-sheet-nothing",
    "walk-sheet-slow",
    "walk-sheet-quick",
    "walk-sheet-steady",
];

/// The points of a walk test with their distances, to tick by hand: one a
/// line, or of the grid one a square. Points at a learned object come first.
///
/// # Errors
/// A message while the width of the vehicle is not known, or where what was
/// learned is.
pub fn walk_sheet(
    job: &JobState,
    kind: WalkKind,
    at: DateTime<FixedOffset>,
) -> Result<Document, Message> {
    if let Some(object) = object_asked(job) {
        // Without its place the page would leave out what matters most.
        return Err(msg("walk-object-first").message("object", object.name()));
    }
    let points = walk_points(job, kind)?;
    let numbered: Vec<(i64, WalkPoint)> = (1_i64..).zip(points.iter().copied()).collect();
    let test = WalkTest {
        at,
        kind,
        points,
        taps: Vec::new(),
        void: None,
    };
    let mut blocks = Vec::new();
    if let Some(object) = &job.walk.learned {
        blocks.push(Block::Lines(vec![
            msg("walk-sheet-after-learn").message("what", object.what.name()),
        ]));
    }
    blocks.extend(walk_plan(job, &test, None).map(Block::Drawing));
    let (rows, at_object): (Vec<_>, Vec<_>) = numbered
        .into_iter()
        .partition(|(_, point)| point.by == PointBy::Row);
    match kind {
        WalkKind::Nine => {
            let all: Vec<_> = at_object.into_iter().chain(rows).collect();
            blocks.push(to_tick(&all));
        }
        WalkKind::Grid => {
            if !at_object.is_empty() {
                blocks.push(to_tick(&at_object));
            }
            blocks.extend(squares(&rows));
        }
    }
    let mut lines = vec![msg("walk-sheet-how")];
    lines.extend(walk_cautions());
    blocks.push(Block::Lines(lines));
    Ok(Document {
        title: msg("walk-sheet-title"),
        sections: vec![Section {
            heading: msg("walk-sheet-job").text("job", job.name.clone()),
            blocks,
        }],
    })
}

/// One point a line.
fn to_tick(points: &[(i64, WalkPoint)]) -> Block {
    let head = [
        "walk-sheet-number",
        "walk-sheet-across",
        "walk-sheet-behind",
    ];
    let rows = points.iter().map(|(number, point)| {
        let across = match point.by {
            PointBy::Row => offset_words(point.across),
            _ => point_words(point),
        };
        let mut row = vec![
            msg("walk-sheet-figure").count("number", *number),
            across,
            msg("sheet-mm").number("mm", point.behind.0, 0),
        ];
        row.extend(SOUNDS.map(|_| msg("walk-sheet-box")));
        row
    });
    Block::Table {
        head: head.into_iter().chain(SOUNDS).map(msg).collect(),
        rows: rows.collect(),
    }
}

/// A box a square, row by row; columns by letters, which are told below.
fn squares(points: &[(i64, WalkPoint)]) -> Vec<Block> {
    let Some((_, first)) = points.first() else {
        return Vec::new();
    };
    let same_row = |point: &WalkPoint| (point.behind.0 - first.behind.0).abs() < 1.0;
    let columns: Vec<Offset> = points
        .iter()
        .take_while(|(_, point)| same_row(point))
        .map(|(_, point)| point.across)
        .collect();
    let mut head = vec![msg("walk-sheet-behind"), msg("walk-sheet-number")];
    let letters = (0..columns.len()).map(letter);
    head.extend(letters.map(|letter| msg("literal").text("text", letter)));
    let rows = points.chunks(columns.len()).filter_map(|row| {
        let ((first, point), (last, _)) = (row.first()?, row.last()?);
        let numbers = msg("walk-sheet-from-to")
            .count("first", *first)
            .count("last", *last);
        let mut cells = vec![msg("sheet-mm").number("mm", point.behind.0, 0), numbers];
        cells.extend(row.iter().map(|_| msg("walk-sheet-square")));
        Some(cells)
    });
    let rows = rows.collect();
    let told = columns.iter().enumerate().map(|(column, across)| {
        msg("walk-sheet-column")
            .text("letter", letter(column))
            .message("across", offset_words(*across))
    });
    vec![
        Block::Table { head, rows },
        Block::Lines(vec![
            msg("walk-sheet-squares-key"),
            msg("walk-sheet-columns").list("columns", told.collect::<Vec<_>>()),
        ]),
    ]
}

/// A to Z, then AA and on.
fn letter(column: usize) -> String {
    let last = char::from(b'A' + u8::try_from(column % 26).unwrap_or(0));
    match column / 26 {
        0 => last.to_string(),
        before => format!("{}{last}", letter(before - 1)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{Field, JobEvent, JobId, WalkEvent, apply};
    use crate::kit;

    fn at() -> DateTime<FixedOffset> {
        DateTime::parse_from_rfc3339("2026-03-12T15:00:00+01:00").unwrap()
    }

    fn job() -> JobState {
        let sheet = include_str!("../../../assets/kits/plain-four.json");
        let mut job = JobState::start(JobId("a1".to_owned()), kit::parse(sheet).unwrap(), at());
        for field in [Field::HalfLeft, Field::HalfRight] {
            job.typed.insert(field, "860".to_owned());
        }
        job
    }

    fn learned() -> JobState {
        let mut job = job();
        for (field, text) in [
            (Field::ObjectWhat, "tow ball"),
            (Field::ObjectWidth, "60"),
            (Field::ObjectReach, "140"),
        ] {
            job.typed.insert(field, text.to_owned());
        }
        apply(&job, JobEvent::Walk(WalkEvent::ObjectLearned), at()).unwrap()
    }

    /// Rows of each table, and cells of its first row.
    fn tables(document: &Document) -> Vec<(usize, usize)> {
        let blocks = document.sections.iter().flat_map(|one| &one.blocks);
        let tables = blocks.filter_map(|block| match block {
            Block::Table { head, rows } => {
                assert!(rows.iter().all(|row| row.len() == head.len()));
                Some((rows.len(), head.len()))
            }
            _ => None,
        });
        tables.collect()
    }

    #[test]
    fn nine_points_are_one_a_line() {
        let page = walk_sheet(&job(), WalkKind::Nine, at()).unwrap();
        assert_eq!(tables(&page), [(9, 7)]);
    }

    #[test]
    fn the_grid_has_a_box_for_every_square() {
        let page = walk_sheet(&job(), WalkKind::Grid, at()).unwrap();
        let points = walk_points(&job(), WalkKind::Grid).unwrap().len();
        let [(rows, cells)] = tables(&page)[..] else {
            panic!("one table");
        };
        assert_eq!(rows * (cells - 2), points);
        assert_eq!(letter(25), "Z");
        assert_eq!(letter(26), "AA");
    }

    #[test]
    fn after_a_learn_the_page_begins_at_what_was_learned() {
        let nine = walk_sheet(&learned(), WalkKind::Nine, at()).unwrap();
        assert_eq!(tables(&nine), [(12, 7)]);
        let grid = walk_sheet(&learned(), WalkKind::Grid, at()).unwrap();
        assert_eq!(tables(&grid)[0], (3, 7));
        for page in [nine, grid] {
            let text = format!("{page:?}");
            assert!(text.contains("walk-sheet-after-learn"));
            assert!(text.contains("walk-point-behind-object"));
        }
    }

    #[test]
    fn without_a_width_there_is_no_page_and_it_says_so() {
        let mut bare = job();
        bare.typed.clear();
        let why = walk_sheet(&bare, WalkKind::Grid, at()).unwrap_err();
        assert_eq!(why.key, "walk-no-width");
    }
}
