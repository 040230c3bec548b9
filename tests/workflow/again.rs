//! Same again: the second vehicle of a model from the first, what agrees and
//! what does not, and what never comes along.

use rakeline::driver::{AgainIntent, Intent, Place};
use rakeline::platform::{Storage, Write};
use rakeline::route::{Route, Step};
use rakeline_core::again::{HandedOver, Line, VehicleName, lesson, offer as offered};
use rakeline_core::job::{
    Agrees, Facing, Field, JobEvent, JobId, JobState, MarksFrom, Particular, StandingEvent, apply,
    faces_agree, faces_open, halves_agree, measured_before, ring_choices,
};
use rakeline_core::record;
use rakeline_core::report::job_sheet;
use rakeline_core::text::Message;
use rakeline_tests::again_cases::{EARLIER, Earlier, done, full_job};

use crate::bench::Bench;
use crate::scenario;

/// A phone on which these jobs were done before.
pub fn with_jobs(jobs: &[JobState]) -> Bench {
    let text = |job: &JobState| record::write(job).expect("can be written");
    with_records(jobs.iter().map(|job| (Place::Jobs.key(&job.id), text(job))))
}

/// A phone with these records in its store.
pub fn with_records(records: impl Iterator<Item = (String, String)>) -> Bench {
    let bench = Bench::new();
    let writes = records
        .map(|(key, value)| Write::Put { key, value })
        .collect();
    let mut kept = bench.phone.storage.commit(writes);
    let mut now = std::task::Context::from_waker(std::task::Waker::noop());
    let kept = kept.as_mut().poll(&mut now);
    assert!(matches!(kept, std::task::Poll::Ready(Ok(()))));
    bench.killed()
}

pub fn earlier(number: u32, off: f64) -> Earlier {
    Earlier {
        number,
        faces: EARLIER.faces.map(|face| face + off),
        ..EARLIER
    }
}

pub fn job(earlier: &Earlier) -> JobState {
    done(earlier).expect("the figures keep the rules")
}

pub fn again(bench: &mut Bench, intent: AgainIntent) {
    bench.send(Intent::Again(intent));
}

/// Opens the offer of the first model in the list.
pub fn open_offer(bench: &mut Bench) {
    bench.send(Intent::GoJobs);
    again(bench, AgainIntent::Go);
    let key = bench.app.again.found()[0].1.key.clone();
    again(bench, AgainIntent::Open(key));
}

/// A job from the first model in the list.
pub fn start(bench: &mut Bench) {
    open_offer(bench);
    let id = bench.new_id();
    again(bench, AgainIntent::Start(id));
}

fn keys(words: &[Message]) -> Vec<&str> {
    words.iter().map(|words| words.key.as_ref()).collect()
}

fn warnings(bench: &Bench) -> Vec<&str> {
    bench
        .app
        .again
        .offer
        .as_ref()
        .map_or_else(Vec::new, |offer| keys(&offer.warnings))
}

fn type_face(bench: &mut Bench, angle: &str) {
    scenario::type_face(bench, angle, Facing::Down, "0.3");
}

#[test]
fn the_second_vehicle_needs_two_half_widths_and_two_faces() {
    let mut bench = with_jobs(&[job(&EARLIER)]);
    start(&mut bench);
    assert_eq!(bench.job().particular(Particular::Vehicle), EARLIER.vehicle);
    assert_eq!(bench.job().marks, None, "nothing is marked yet");
    scenario::type_half_widths(&mut bench, "872", "868");
    assert_eq!(halves_agree(bench.job()), Agrees::Yes);
    bench.send(Intent::ShowMarks);
    let marks = bench.job().marks.clone().expect("as before");
    assert_eq!(marks.from, MarksFrom::Before);
    assert_eq!(marks.offsets, job(&EARLIER).marks.expect("marks").offsets);
    bench.send(Intent::TapeOn);
    assert_eq!(faces_open(bench.job()), [0, 2]);
    type_face(&mut bench, "5.4");
    assert_eq!(faces_agree(bench.job()), Agrees::NotYet);
    assert!(
        ring_choices(bench.job())[1].is_none(),
        "one face is not enough"
    );
    type_face(&mut bench, "4.2");
    assert_eq!(faces_agree(bench.job()), Agrees::Yes);
    assert!(matches!(bench.app.route, Route::Job(_, Step::Rings)));
    assert!(bench.job().all_read());
    assert!(ring_choices(bench.job()).iter().all(Option::is_some));
    assert_eq!(bench.readings(), [1, 0, 1, 0], "nothing old is a reading");
    let sheet = format!("{:?}", job_sheet(bench.job(), bench.job().changed, "UTC"));
    assert!(sheet.contains("sheet-open-before"));
    assert!(sheet.contains("sheet-readings-before"));
}

#[test]
fn a_half_width_a_little_less_than_before_moves_the_marks_a_little_and_keeps_the_rest() {
    let mut bench = with_jobs(&[job(&EARLIER)]);
    start(&mut bench);
    // The outer right mark would be a millimetre too near the corner.
    scenario::type_half_widths(&mut bench, "869", "866");
    assert_eq!(halves_agree(bench.job()), Agrees::Yes);
    bench.send(Intent::ShowMarks);
    let marks = bench.job().marks.clone().expect("planned");
    assert!(matches!(marks.from, MarksFrom::Plan(_)));
    bench.send(Intent::TapeOn);
    assert_eq!(faces_open(bench.job()), [0, 2], "two faces still do");
    type_face(&mut bench, "5.5");
    type_face(&mut bench, "4.1");
    assert!(bench.job().all_read());
}

#[test]
fn a_face_measured_before_is_wider_than_one_read_here() {
    let mut bench = with_jobs(&[job(&EARLIER)]);
    start(&mut bench);
    scenario::type_half_widths(&mut bench, "871", "868");
    bench.send(Intent::ShowMarks);
    bench.send(Intent::TapeOn);
    type_face(&mut bench, "5.5");
    type_face(&mut bench, "4.1");
    let before = measured_before(bench.job(), 1).expect("measured before");
    let read = rakeline_core::job::rake_at(bench.job(), &bench.job().spots[0]).expect("read");
    assert!((before.rake.value.0 + 4.0).abs() < 0.1);
    assert!(before.rake.u.0 > 1.2 * read.rake.u.0, "{before:?}");
    // Reading it here takes its place.
    bench.send(Intent::ChooseSpot(1));
    type_face(&mut bench, "4.3");
    assert_eq!(measured_before(bench.job(), 1), None);
}

#[test]
fn a_facelift_under_the_same_name_opens_the_marks_and_says_by_how_much() {
    let mut bench = with_jobs(&[job(&EARLIER)]);
    start(&mut bench);
    scenario::type_half_widths(&mut bench, "895", "893");
    let Agrees::No(why) = halves_agree(bench.job()) else {
        panic!("24 mm is another bumper");
    };
    assert_eq!(keys(&why), ["before-half-off", "before-half-off"]);
    bench.send(Intent::ShowMarks);
    if bench.job().marks.is_none() {
        bench.send(Intent::PlanMarks(
            rakeline_core::decide::mark_out::PlanKind::Symmetric,
        ));
    }
    let marks = bench.job().marks.clone().expect("planned anew");
    assert!(matches!(marks.from, MarksFrom::Plan(_)));
    bench.send(Intent::TapeOn);
    for spot in 0..4 {
        assert_eq!(faces_open(bench.job()).first(), Some(&spot), "all are open");
        type_face(&mut bench, "5.0");
    }
    assert_eq!(bench.readings(), [1, 1, 1, 1]);
}

#[test]
fn faces_that_disagree_open_all_faces_and_leave_the_marks() {
    let mut bench = with_jobs(&[job(&EARLIER)]);
    start(&mut bench);
    scenario::type_half_widths(&mut bench, "871", "868");
    bench.send(Intent::ShowMarks);
    bench.send(Intent::TapeOn);
    type_face(&mut bench, "11.5");
    let Agrees::No(why) = faces_agree(bench.job()) else {
        panic!("6 degrees are another face");
    };
    assert_eq!(keys(&why), ["before-face-off"]);
    assert_eq!(faces_open(bench.job()), [1, 2, 3]);
    assert!(ring_choices(bench.job())[1].is_none());
    let marks = bench.job().marks.clone().expect("marks stay");
    assert_eq!(marks.from, MarksFrom::Before);
    // The reading was a slip: it comes out, and two that agree suffice again.
    bench.send(Intent::ReadAgain(0));
    type_face(&mut bench, "5.6");
    type_face(&mut bench, "4.0");
    assert_eq!(faces_agree(bench.job()), Agrees::Yes);
}

#[test]
fn one_unzeroed_phone_compares_with_itself() {
    let mut first = Bench::new();
    scenario::to_rings(&mut first);
    first.send(Intent::Particular(
        Particular::Vehicle,
        "Tarn Carrier".to_owned(),
    ));
    first.send(Intent::GoJobs);
    let mut bench = first;
    start(&mut bench);
    scenario::type_half_widths(&mut bench, "871", "868");
    bench.send(Intent::ShowMarks);
    bench.send(Intent::TapeOn);
    bench.hold_to(scenario::FACES[0] - 6.0);
    // 6 degrees are inside the ± of an unzeroed phone, twice; but it is the
    // same phone, and its own error is in both.
    assert!(matches!(faces_agree(bench.job()), Agrees::No(_)));
}

#[test]
fn lines_may_be_left_out_one_by_one() {
    let mut earlier = full_job().expect("a job");
    earlier.visits.clear();
    let mut bench = with_jobs(&[earlier]);
    open_offer(&mut bench);
    let offer = bench.app.again.offer.clone().expect("an offer");
    let lines: Vec<Line> = offer.lines.iter().map(|line| line.line).collect();
    assert_eq!(lines, Line::ALL);
    for line in [Line::NoDrill, Line::Leads, Line::Quote, Line::Places] {
        again(&mut bench, AgainIntent::Leave(line));
    }
    again(&mut bench, AgainIntent::Take(Line::Places));
    let id = bench.new_id();
    again(&mut bench, AgainIntent::Start(id));
    let job = bench.job();
    assert!(job.mark_out.no_drill.is_empty());
    assert_eq!(job.typed(Field::GrommetToBox), "");
    assert_eq!(job.typed(Field::QuoteMinutes), "");
    assert_eq!(job.typed(Field::RowFromLine), "-62");
    assert_eq!(job.steps.words.len(), 2);
    assert!(job.before.halves.is_some() && job.before.faces.len() == 4);
}

#[test]
fn a_job_that_came_back_is_lowered_and_counts_only_alone() {
    let mut wrong = job(&earlier(2, -3.0));
    let back = StandingEvent::CameAgain("sounds all the time".to_owned());
    wrong = apply(&wrong, JobEvent::Standing(back), wrong.changed).expect("applies");
    let right = job(&EARLIER);
    let lessons = [
        lesson(&wrong).expect("teaches"),
        lesson(&right).expect("teaches"),
    ];
    assert_eq!(lessons[0].handed_over, HandedOver::CameBack);
    let both = offered(&VehicleName::default(), &lessons).expect("an offer");
    assert_eq!(both.from.len(), 1);
    assert_eq!(both.from[0].id, right.id.0, "though the other is newer");
    assert_eq!(keys(&both.warnings), ["again-came-back-left"]);
    let told: Vec<&str> = both.told.iter().map(|(line, _)| &*line.key).collect();
    assert!(told.contains(&"told-came-back"), "{told:?}");
    let alone = offered(&VehicleName::default(), &lessons[..1]).expect("an offer");
    assert_eq!(keys(&alone.warnings), ["again-only-came-back"]);
}

#[test]
fn half_widths_of_another_body_do_not_count_and_are_told() {
    let other = Earlier {
        number: 1,
        left: 905.0,
        right: 905.0,
        ..EARLIER
    };
    let mut bench = with_jobs(&[job(&other), job(&earlier(3, 0.0))]);
    open_offer(&mut bench);
    assert_eq!(warnings(&bench), ["again-other-bumper"]);
    assert_eq!(bench.app.again.offer.as_ref().expect("offer").from.len(), 1);
}

#[test]
fn years_beyond_those_fitted_are_told() {
    let mut bench = with_jobs(&[job(&EARLIER)]);
    again(&mut bench, AgainIntent::Go);
    again(
        &mut bench,
        AgainIntent::Typed("tarn carrier van 2024".to_owned()),
    );
    let key = bench.app.again.found()[0].1.key.clone();
    again(&mut bench, AgainIntent::Open(key));
    assert_eq!(warnings(&bench), ["again-years-apart"]);
    let id = bench.new_id();
    again(&mut bench, AgainIntent::Start(id));
    assert_eq!(
        bench.job().particular(Particular::Vehicle),
        "tarn carrier van 2024"
    );
}

#[test]
fn of_two_thousand_jobs_of_one_model_the_newest_are_read_and_the_best_count() {
    let one = record::write(&job(&EARLIER)).expect("can be written");
    let records = (0..2000).map(|n| {
        let id = JobId(format!("m{n:04}"));
        let named = format!("\"id\":\"{}\"", id.0);
        (
            Place::Jobs.key(&id),
            one.replacen("\"id\":\"e1\"", &named, 1),
        )
    });
    let mut bench = with_records(records);
    open_offer(&mut bench);
    assert_eq!(bench.app.again.count_chosen(), 2000);
    assert_eq!(
        bench.app.again.jobs.len(),
        rakeline::driver::RECALLED_GREATEST
    );
    assert_eq!(warnings(&bench), ["again-many"]);
    let from = &bench.app.again.offer.as_ref().expect("an offer").from;
    assert_eq!(from.len(), rakeline_core::job::EARLIER_JOBS_GREATEST);
}

#[test]
fn several_vehicles_narrow_what_is_expected_and_show_their_spread() {
    let expect = |count: u32| {
        let offs = [0.0, 0.4, -0.3, 0.2, -0.5, 0.1, 0.3, -0.2, 0.0, -0.1];
        let lessons: Vec<_> = (1..=count)
            .zip(offs)
            .map(|(n, off)| lesson(&job(&earlier(n, off))).expect("teaches"))
            .collect();
        let offer = offered(&VehicleName::default(), &lessons).expect("an offer");
        offer.handed(&[]).faces[1].clone().expect("expected")
    };
    let (one, ten) = (expect(1), expect(10));
    assert!(ten.u.0 < 0.6 * one.u.0, "{one:?} {ten:?}");
    assert!(ten.between.0 > 0.1 && ten.between.0 < 0.5);
    assert_eq!((one.vehicles, ten.vehicles), (1, 10));
}

#[test]
fn the_median_of_earlier_minutes_stands_in_the_quote() {
    let with = |number: u32, minutes: u32| {
        let mut job = job(&earlier(number, 0.0));
        let stage = rakeline_core::steps::Stage::Holes;
        job.spent.corrected.insert(stage, minutes);
        job
    };
    let mut bench = with_jobs(&[with(1, 100), with(2, 180), with(3, 120)]);
    start(&mut bench);
    assert_eq!(bench.job().typed(Field::QuoteMinutes), "120");
}
