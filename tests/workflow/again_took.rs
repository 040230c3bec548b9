//! What earlier jobs took fills the quote of the next, as median and range.

use rakeline::driver::{AgainIntent, Intent};
use rakeline_core::again::{Line, VehicleName, lesson, offer as offered};
use rakeline_core::decide::parts::{Part, PartLine};
use rakeline_core::job::{
    Facing, Field, JobState, Standing, parts_planned, parts_quoted, parts_used, unpriced,
};
use rakeline_core::report::quote_sheet;
use rakeline_core::steps::Stage;
use rakeline_tests::again_cases::EARLIER;

use crate::again::{again, earlier, job, open_offer, start, with_jobs};
use crate::scenario;

fn took(number: u32, minutes: u32, ties: u32) -> JobState {
    let mut job = job(&earlier(number, 0.0));
    job.spent.corrected.insert(Stage::Holes, minutes);
    if ties > 0 {
        job.quote.extra.push(PartLine {
            part: Part::Other("cable ties".to_owned()),
            count: ties,
        });
    }
    job
}

fn in_work(mut job: JobState) -> JobState {
    job.standing = Standing::InWork;
    job
}

fn said(bench: &crate::bench::Bench) -> Vec<String> {
    let offer = bench.app.again.offer.as_ref().expect("an offer");
    let line = offer.lines.iter().find(|line| line.line == Line::Quote);
    let says = line.map_or(&[][..], |line| &line.says);
    says.iter().map(rakeline::texts::say).collect()
}

#[test]
fn minutes_of_a_job_in_work_do_not_count() {
    let mut bench = with_jobs(&[
        took(1, 100, 0),
        took(2, 180, 0),
        took(3, 120, 0),
        in_work(took(4, 10, 0)),
    ]);
    open_offer(&mut bench);
    assert!(
        said(&bench).contains(&"120 minutes (from 100 to 180)".to_owned()),
        "{:?}",
        said(&bench)
    );
    let id = bench.new_id();
    again(&mut bench, AgainIntent::Start(id));
    assert_eq!(bench.job().typed(Field::QuoteMinutes), "120");
    let minutes = bench.job().before.took.minutes.expect("known");
    assert_eq!(
        (minutes.least, minutes.greatest, minutes.jobs),
        (100, 180, 3)
    );
}

#[test]
fn jobs_in_work_alone_tell_neither_minutes_nor_parts() {
    let mut bench = with_jobs(&[in_work(took(1, 10, 6))]);
    open_offer(&mut bench);
    assert_eq!(said(&bench), [] as [String; 0]);
}

#[test]
fn parts_come_as_median_with_their_range() {
    let mut bench = with_jobs(&[took(1, 100, 6), took(2, 100, 10), took(3, 100, 0)]);
    open_offer(&mut bench);
    let ties = said(&bench);
    assert!(
        ties.contains(&"6 × cable ties (from 0 to 10)".to_owned()),
        "{ties:?}"
    );
    let id = bench.new_id();
    again(&mut bench, AgainIntent::Start(id));
    let extra = &bench.job().quote.extra;
    assert_eq!(extra.len(), 1);
    assert_eq!(extra[0].count, 6);
}

#[test]
fn the_survey_quote_counts_the_rings_of_earlier_jobs_until_this_vehicle_decides() {
    let earlier = job(&EARLIER);
    let rings: Vec<PartLine> = parts_planned(&earlier)
        .into_iter()
        .filter(|line| matches!(line.part, Part::Ring { .. }))
        .collect();
    assert_ne!(rings, [], "the earlier job took rings");
    let mut bench = with_jobs(&[earlier]);
    start(&mut bench);
    let quoted = parts_quoted(bench.job());
    for ring in &rings {
        assert!(quoted.contains(ring), "{ring:?} {quoted:?}");
    }
    assert_eq!(unpriced(bench.job()), quoted.len(), "each wants its price");
    let sheet = format!("{:?}", quote_sheet(bench.job(), bench.job().changed));
    assert!(sheet.contains("part-ring"), "they stand on the quote");
    assert_eq!(
        parts_used(bench.job()),
        [],
        "nothing is taken off the shelf"
    );
    // Another bumper: nothing of the earlier parts counts.
    scenario::type_half_widths(&mut bench, "895", "893");
    assert_eq!(parts_quoted(bench.job()), parts_planned(bench.job()));
    // Once all faces are known its own sets count alone.
    scenario::type_half_widths(&mut bench, "871", "868");
    bench.send(Intent::ShowMarks);
    bench.send(Intent::TapeOn);
    for face in ["5.5", "4.1"] {
        scenario::type_face(&mut bench, face, Facing::Down, "0.3");
    }
    assert!(bench.job().all_read());
    assert_eq!(parts_quoted(bench.job()), parts_planned(bench.job()));
}

#[test]
fn parts_of_another_kit_are_not_counted() {
    let mut other = took(2, 100, 9);
    other.kit.name = "Other kit (invented)".to_owned();
    let lessons = [
        lesson(&took(3, 100, 4)).expect("teaches"),
        lesson(&other).expect("teaches"),
    ];
    let offer = offered(&VehicleName::default(), &lessons).expect("an offer");
    let handed = offer.handed(&[]);
    assert_eq!(handed.extra[0].count, 4);
    assert_eq!(handed.took.minutes.expect("both").jobs, 2);
    assert_eq!(offer.handed(&[Line::Quote]).took, Default::default());
}
