//! How the centre line was found and from which line the height was
//! measured: recorded, and said where the marks are used.

use rakeline::driver::{Intent, MarkOutIntent};
use rakeline::texts::say;
use rakeline_core::drawing::marks_drawing;
use rakeline_core::job::{self, CentreBy, Field, HalfWidths, RowLine, half_widths};
use rakeline_core::report::job_sheet;
use rakeline_core::units::Millimetres;

use crate::bench::Bench;
use crate::marks::{mark_out, marks, typed};
use crate::scenario;
use crate::sheet_text::text_of;

fn sheet(bench: &Bench) -> String {
    text_of(&job_sheet(bench.job(), bench.job().changed, "UTC"))
}

#[test]
fn half_of_the_full_width_fills_both_half_widths() {
    let mut bench = Bench::new();
    bench.send(Intent::StartJob(bench.new_id()));
    typed(&mut bench, Field::FullWidth, "871");
    mark_out(&mut bench, MarkOutIntent::HalveWidth);
    assert_eq!(bench.notice(), Some("full-width-looks-half"));
    assert_eq!(bench.job().typed(Field::HalfLeft), "");
    assert_eq!(bench.job().mark_out.centre, None);
    typed(&mut bench, Field::FullWidth, "1741");
    mark_out(&mut bench, MarkOutIntent::HalveWidth);
    let HalfWidths::Ready { left, right, doubt } = half_widths(bench.job()) else {
        panic!("both can be used");
    };
    assert_eq!((left, right), (Millimetres(870.5), Millimetres(870.5)));
    assert_eq!(doubt, None);
    assert_eq!(bench.job().mark_out.centre, Some(CentreBy::FullWidth));
    bench.send(Intent::ShowMarks);
    assert_eq!(marks(&bench).len(), 4);
    let after = bench.killed();
    assert_eq!(after.job().mark_out.centre, Some(CentreBy::FullWidth));
    assert_eq!(after.job().typed(Field::FullWidth), "1741");
}

#[test]
fn how_the_centre_line_was_found_stands_with_the_marks_and_is_undone() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    assert_eq!(job::centre_words(bench.job()), None);
    for (by, words) in [
        (CentreBy::Striker, "striker or lock"),
        (CentreBy::PlateHoles, "plate holes"),
        (CentreBy::FullWidth, "half of the full width"),
    ] {
        mark_out(&mut bench, MarkOutIntent::CentreBy(by));
        let said = say(&job::centre_words(bench.job()).expect("said"));
        assert_eq!(said, format!("Centre line: {words}"));
        assert!(sheet(&bench).contains(words), "{}", sheet(&bench));
    }
    bench.send(Intent::Undo);
    assert_eq!(bench.job().mark_out.centre, Some(CentreBy::PlateHoles));
}

#[test]
fn the_line_that_the_height_was_measured_from_is_said_up_or_down() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    typed(&mut bench, Field::RowHeight, "545");
    for (mm, line, words) in [
        ("-70", Some(RowLine::Swage), "70 mm below the swage line"),
        ("35", Some(RowLine::ShutLine), "35 mm above the shut line"),
        ("-95", Some(RowLine::TopEdge), "95 mm below the top edge"),
        ("-95", Some(RowLine::Other), "95 mm below another line"),
        ("0", None, "on the line across"),
    ] {
        typed(&mut bench, Field::RowFromLine, mm);
        mark_out(&mut bench, MarkOutIntent::TakeRow(line));
        let said = say(&job::row_words(bench.job()).expect("said"));
        assert_eq!(said, format!("{words}; 545 mm above the ground"));
        assert!(sheet(&bench).contains(&said), "{}", sheet(&bench));
        let drawn = format!("{:?}", marks_drawing(bench.job()));
        assert!(drawn.contains("drawing-row-ground"));
    }
    mark_out(&mut bench, MarkOutIntent::TakeRow(Some(RowLine::Other)));
    typed(&mut bench, Field::RowLineWhat, "edge of the trim");
    let said = say(&job::row_words(bench.job()).expect("said"));
    assert!(said.starts_with("on the line 'edge of the trim'"), "{said}");
}

#[test]
fn the_same_measure_from_another_line_is_another_height() {
    let mut bench = Bench::new();
    scenario::to_rings(&mut bench);
    typed(&mut bench, Field::RowFromLine, "-70");
    mark_out(&mut bench, MarkOutIntent::TakeRow(None));
    mark_out(&mut bench, MarkOutIntent::TakeRow(Some(RowLine::Swage)));
    assert_eq!(
        bench.readings(),
        [1, 1, 1, 1],
        "which line it was is no move"
    );
    mark_out(&mut bench, MarkOutIntent::TakeRow(Some(RowLine::TopEdge)));
    assert_eq!(bench.readings(), [0, 0, 0, 0]);
    assert_eq!(bench.notice(), Some("readings-lost"));
    bench.send(Intent::Undo);
    assert_eq!(bench.readings(), [1, 1, 1, 1]);
    let line = bench.job().mark_out.row.and_then(|row| row.line);
    assert_eq!(line, Some(RowLine::Swage));
}
