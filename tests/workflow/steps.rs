//! All steps of a job: survey, done, skipped, as usual, waits, visits.

use rakeline::driver::{Intent, KEPT_JOB_PREFIX, WorkshopIntent, counts, rings};
use rakeline::route::Step;
use rakeline::steps::book;
use rakeline::texts::say;
use rakeline_core::job::{
    HolesEvent, JobEvent, JobState, Limit, Photo, PhotoEvent, PhotoOf, RingsEvent, Standing,
    StandingEvent, StepStands, StepsEvent, WaitEvent, limit_value, paint_warning, stages_spent,
    step_path, wait_words,
};
use rakeline_core::record;
use rakeline_core::report::{Block, kept};
use rakeline_core::steps::{Question, Stage, StepName, Truth, read_book};
use rakeline_core::units::Millis;

use crate::bench::Bench;
use crate::fitting::{drill, ready_to_drill};
use crate::scenario;

fn fit(bench: &mut Bench, event: JobEvent) {
    bench.send(Intent::Fit(Box::new(event)));
}

fn started() -> Bench {
    let mut bench = Bench::new();
    let id = bench.new_id();
    bench.send(Intent::StartJob(id));
    bench
}

fn job(bench: &Bench) -> &JobState {
    bench.app.job().unwrap()
}

fn name(name: &str) -> StepName {
    StepName(name.to_owned())
}

fn stands(bench: &Bench, wanted: &str) -> Option<StepStands> {
    let path = step_path(job(bench), book());
    let step = path
        .into_iter()
        .flat_map(|stage| stage.steps)
        .find(|step| step.sheet.name.0 == wanted)?;
    Some(step.stands)
}

#[test]
fn what_can_hurt_is_listed_until_the_survey_says_no() {
    let mut bench = started();
    assert!(stands(&bench, "raised").is_some());
    assert_eq!(stands(&bench, "paint"), None);
    let answers = [
        (Question::Raised, Truth::No),
        (Question::Painted, Truth::Yes),
    ];
    for (question, truth) in answers {
        fit(
            &mut bench,
            JobEvent::Steps(StepsEvent::Answered(question, truth)),
        );
    }
    assert_eq!(stands(&bench, "raised"), None);
    // Nothing is painted before the rings are known; curing waits for the paint.
    assert!(matches!(
        stands(&bench, "paint"),
        Some(StepStands::Blocked(_))
    ));
    assert!(matches!(
        stands(&bench, "paint-cured"),
        Some(StepStands::Blocked(_))
    ));
}

#[test]
fn nothing_is_painted_before_its_ring_is_settled() {
    let mut bench = Bench::new();
    scenario::to_rings(&mut bench);
    let painted = StepsEvent::Answered(Question::Painted, Truth::Yes);
    fit(&mut bench, JobEvent::Steps(painted));
    let Some(StepStands::Blocked(why)) = stands(&bench, "paint") else {
        panic!("painting is open on close calls");
    };
    assert_eq!(why.key, "paint-waits");
    assert_eq!(paint_warning(job(&bench)), Some(why));
    for event in [
        StepsEvent::Done(name("paint")),
        StepsEvent::DoneAsUsual(vec![name("paint")]),
    ] {
        fit(&mut bench, JobEvent::Steps(event));
        assert_eq!(bench.notice(), Some("paint-waits"));
        assert!(job(&bench).steps.ended.is_empty());
    }
    // Sure of every ring, or one taken by hand: the paint may come.
    let mut sure = ready_to_drill();
    let painted = StepsEvent::Answered(Question::Painted, Truth::Yes);
    fit(&mut sure, JobEvent::Steps(painted));
    assert_eq!(stands(&sure, "paint"), Some(StepStands::Due));
    assert_eq!(paint_warning(job(&sure)), None);
    fit(&mut sure, JobEvent::Steps(StepsEvent::Done(name("paint"))));
    assert_eq!(stands(&sure, "paint"), Some(StepStands::Done));
}

#[test]
fn a_gate_blocks_its_stage_and_cannot_be_closed_as_usual() {
    let mut bench = started();
    assert!(matches!(
        stands(&bench, "lamps-before"),
        Some(StepStands::Blocked(_))
    ));
    let path = step_path(job(&bench), book());
    let survey = path
        .iter()
        .find(|stage| stage.stage == Stage::Survey)
        .unwrap();
    assert!(survey.as_usual().is_empty());
    drop(path);
    fit(
        &mut bench,
        JobEvent::Steps(StepsEvent::Done(name("raised"))),
    );
    assert_eq!(stands(&bench, "lamps-before"), Some(StepStands::Due));
    let path = step_path(job(&bench), book());
    let survey = path
        .iter()
        .find(|stage| stage.stage == Stage::Survey)
        .unwrap();
    let usual = survey.as_usual();
    assert!(usual.contains(&name("lamps-before")) && !usual.contains(&name("assistance-before")));
}

#[test]
fn a_step_is_skipped_only_with_a_reason_and_the_reason_is_kept() {
    let mut bench = started();
    let skip = |why: &str| JobEvent::Steps(StepsEvent::Skipped(name("grommet"), why.to_owned()));
    fit(&mut bench, skip("  "));
    assert_eq!(stands(&bench, "grommet"), Some(StepStands::Due));
    fit(&mut bench, skip("box outside, loom stays outside"));
    let why = "box outside, loom stays outside".to_owned();
    assert_eq!(
        stands(&bench, "grommet"),
        Some(StepStands::Skipped(why.clone()))
    );
    let killed = bench.killed();
    assert!(matches!(&killed.app.open, Some(open) if open.job.steps.ended.len() == 1));
}

#[test]
fn what_can_hurt_counts_as_there_until_the_survey_says_no() {
    let mut bench = started();
    for gate in ["raised", "trim-off"] {
        assert!(stands(&bench, gate).is_some(), "{gate}");
    }
    let no = StepsEvent::Answered(Question::Trim, Truth::No);
    fit(&mut bench, JobEvent::Steps(no));
    assert_eq!(stands(&bench, "trim-off"), None);
}

#[test]
fn what_was_skipped_first_and_then_done_on_its_screen_is_done() {
    let mut bench = ready_to_drill();
    let away = StepsEvent::Skipped(name("tape"), "no tape at hand".to_owned());
    // The tape is on since the faces were read.
    fit(&mut bench, JobEvent::Steps(away));
    assert_eq!(stands(&bench, "tape"), Some(StepStands::Done));
}

#[test]
fn two_waits_run_at_once_and_outlive_a_killed_app() {
    let mut bench = started();
    let start = |step: &str, minutes| JobEvent::Wait(WaitEvent::Started(name(step), minutes));
    fit(&mut bench, start("primer-dry", 20));
    fit(&mut bench, start("self-test", 1));
    fit(&mut bench, start("self-test", 2));
    assert_eq!(job(&bench).waits.len(), 2);
    let killed = bench.killed();
    assert_eq!(job(&killed).waits, job(&bench).waits);
}

#[test]
fn paint_that_cures_holds_the_heads_back_and_says_how_long() {
    let mut bench = ready_to_drill();
    fit(&mut bench, JobEvent::Holes(HolesEvent::CautionsHeeded));
    drill(&mut bench, 0);
    let painted = StepsEvent::Answered(Question::Painted, Truth::Yes);
    fit(&mut bench, JobEvent::Steps(painted));
    let seat = || JobEvent::Rings(RingsEvent::Seated(0));
    fit(&mut bench, seat());
    assert_eq!(bench.notice(), Some("heads-paint-first"));
    fit(&mut bench, JobEvent::Steps(StepsEvent::Done(name("paint"))));
    let start = WaitEvent::Started(name("paint-cured"), 30);
    fit(&mut bench, JobEvent::Wait(start));
    bench.pass(Millis(10.0 * 60_000.0));
    for refused in [
        seat(),
        JobEvent::Steps(StepsEvent::Done(name("paint-cured"))),
        JobEvent::Steps(StepsEvent::Done(name("heads-in"))),
    ] {
        fit(&mut bench, refused);
        let said = bench.app.notice.as_ref().map(|notice| say(&notice.message));
        let said = said.expect("it is said");
        assert!(said.contains("Paint cured: 20:00 to go"), "{said}");
    }
    assert!(job(&bench).rings.seated.is_empty());
    let path = step_path(job(&bench), book());
    let mut steps = path.into_iter().flat_map(|stage| stage.steps);
    let heads = steps.find(|step| step.sheet.name.0 == "heads-in").unwrap();
    assert!(matches!(heads.stands, StepStands::Blocked(_)));
    assert_eq!(heads.held_by.map(|wait| wait.minutes), Some(30));
    bench.pass(Millis(20.0 * 60_000.0));
    fit(
        &mut bench,
        JobEvent::Steps(StepsEvent::Done(name("paint-cured"))),
    );
    assert_eq!(stands(&bench, "heads-in"), Some(StepStands::Due));
    fit(&mut bench, seat());
    assert!(job(&bench).rings.seated.contains_key(&0));
}

#[test]
fn seconds_are_counted_while_a_wait_runs_on_its_screen() {
    let mut bench = started();
    let start = JobEvent::Wait(WaitEvent::Started(name("self-test"), 2));
    fit(&mut bench, start);
    assert!(!counts(&bench.app, bench.now().at), "not on this screen");
    bench.send(Intent::GoStep(Step::Whole));
    assert!(counts(&bench.app, bench.now().at));
    let shown = |bench: &Bench| {
        let wait = job(bench).waits[0].clone();
        say(&wait_words(job(bench), &wait, bench.now().at)[0])
    };
    assert_eq!(shown(&bench), "2:00 to go");
    bench.pass(Millis(1_000.0));
    bench.send(Intent::SecondPassed);
    assert_eq!(shown(&bench), "1:59 to go");
    bench.pass(Millis(119_000.0));
    assert!(!counts(&bench.app, bench.now().at), "it is over");
}

#[test]
fn a_job_in_which_nothing_was_ticked_says_on_its_sheet_what_is_open() {
    let bench = started();
    assert!(job(&bench).steps.ended.is_empty());
    let sections = kept(job(&bench), book());
    let steps = sections.iter().find(|one| one.heading.key == "sheet-steps");
    let Some(Block::Lines(lines)) = steps.map(|section| &section.blocks[0]) else {
        panic!("the steps that are open are not on the sheet");
    };
    let open: Vec<String> = lines.iter().map(say).collect();
    let [open] = &open[..] else {
        panic!("one line: {open:?}");
    };
    assert!(open.starts_with("Not recorded: ") && open.contains("Walk test"));
}

#[test]
fn a_step_file_that_does_not_parse_says_what_is_wrong_with_it() {
    let step = r#"{"name":"tape","depth":"quick","asks":["tick"]}"#;
    let file = |steps: &str| {
        format!(r#"{{"version":1,"stages":[{{"stage":"survey","steps":[{steps}]}}]}}"#)
    };
    for (text, says) in [
        ("{".to_owned(), "no step file"),
        (r#"{"version":3,"stages":[]}"#.to_owned(), "version 3"),
        (file(""), "0 steps"),
        (file(&step.replace("tape", "Tape 1")), "'Tape 1'"),
        (file(&format!("{step},{step}")), "'tape' stands twice"),
        (
            file(&step.replace("]}", r#"],"after":["saw"]}"#)),
            "waits for 'saw'",
        ),
        (file(&step.replace("quick", "deep")), "no step file"),
    ] {
        let fault = read_book(&text).expect_err("it does not parse");
        let words = say(&fault.0);
        assert!(words.contains(says), "{words}");
    }
}

#[test]
fn minutes_at_a_step_are_those_of_its_stage() {
    let mut bench = started();
    bench.pass(Millis(5.0 * 60_000.0));
    fit(
        &mut bench,
        JobEvent::Steps(StepsEvent::Done(name("loom-laid"))),
    );
    bench.pass(Millis(3.0 * 60_000.0));
    fit(&mut bench, JobEvent::Steps(StepsEvent::Done(name("tidy"))));
    let spent = [(Stage::Loom, 5), (Stage::HandOver, 3)];
    assert_eq!(stages_spent(job(&bench)), spent);
    bench.send(Intent::Undo);
    assert_eq!(stands(&bench, "tidy"), Some(StepStands::Due));
}

#[test]
fn the_workshops_limits_stand_in_every_new_job_where_they_make_sense() {
    let mut bench = Bench::new();
    for (limit, text) in [(Limit::Clearance, "12"), (Limit::Inner, "soon")] {
        let typed = WorkshopIntent::Limit(limit, text.to_owned());
        bench.send(Intent::Workshop(typed));
    }
    let mut bench = bench.killed();
    bench.send(Intent::StartJob(bench.new_id()));
    let limit = |bench: &Bench, limit| limit_value(job(bench), limit).map(|mm| mm.0);
    assert_eq!(limit(&bench, Limit::Clearance), Some(12.0));
    let sheet = job(&bench).kit.mark_out.inner.0;
    assert_eq!(limit(&bench, Limit::Inner), Some(sheet));
    bench.send(Intent::GoJobs);
    let empty = WorkshopIntent::Limit(Limit::Clearance, String::new());
    bench.send(Intent::Workshop(empty));
    bench.send(Intent::StartJob(bench.new_id()));
    let sheet = job(&bench).kit.mark_out.clearance.0;
    assert_eq!(limit(&bench, Limit::Clearance), Some(sheet));
}

#[test]
fn photos_before_and_after_stand_side_by_side_on_the_workshops_file() {
    let mut bench = started();
    for (step, blob) in [("damage", "b1"), ("damage", "b2"), ("bumper-after", "a1")] {
        let photo = Photo {
            blob: blob.to_owned(),
            original: None,
            width: 40,
            height: 30,
            of: PhotoOf::Step(name(step)),
            at: bench.now().at,
            elevation: None,
            notes: Vec::new(),
        };
        fit(
            &mut bench,
            JobEvent::Photo(PhotoEvent::Taken(Box::new(photo))),
        );
    }
    let sections = kept(job(&bench), book());
    let photos = sections
        .iter()
        .find(|one| one.heading.key == "sheet-photos");
    let rows: Vec<Vec<&str>> = photos
        .map(|section| section.blocks.iter())
        .into_iter()
        .flatten()
        .filter_map(|block| match block {
            Block::Photos(row) => Some(row.iter().map(|one| one.blob.as_str()).collect()),
            _ => None,
        })
        .collect();
    assert_eq!(rows, [vec!["b1", "a1"], vec!["b2"]]);
}

#[test]
fn the_end_of_a_wait_is_told_once() {
    let mut bench = started();
    let start = JobEvent::Wait(WaitEvent::Started(name("self-test"), 2));
    fit(&mut bench, start);
    let tones = |bench: &Bench| bench.phone.sound.take().len();
    tones(&bench);
    let later = |bench: &mut Bench, minutes: f64| {
        bench.pass(Millis(minutes * 60_000.0));
        let now = bench.now().at;
        let due = rings(&bench.app, now);
        bench.send(Intent::WaitOver);
        due
    };
    assert!(!later(&mut bench, 1.9));
    assert_eq!(tones(&bench), 0);
    assert!(later(&mut bench, 0.2));
    assert_eq!(tones(&bench), 1);
    let notice = bench.app.notice.as_ref().map(|notice| say(&notice.message));
    assert!(notice.expect("a notice").contains("the wait is over"));
    assert!(!later(&mut bench, 1.0), "once");
    assert_eq!(tones(&bench), 0);
}

#[test]
fn the_file_stays_as_it_was_handed_over_when_the_vehicle_comes_again() {
    let mut bench = started();
    bench.send(Intent::IssueSheet);
    assert_eq!(job(&bench).standing, Standing::Done);
    let before = job(&bench).clone();
    bench.send(Intent::CameAgain("beeps in the rain".to_owned()));
    assert_eq!(job(&bench).standing, Standing::CameBack);
    assert_eq!(job(&bench).visits[0].sheet, 1);
    let done = StandingEvent::VisitWritten("plug dried".to_owned());
    fit(&mut bench, JobEvent::Standing(done));
    let key = format!("{KEPT_JOB_PREFIX}{}/1", before.id.0);
    let kept = bench.phone.storage.records()[&key].clone();
    assert_eq!(record::read(&kept).unwrap(), before);
    // Without a reason nothing happens.
    bench.send(Intent::CameAgain(" ".to_owned()));
    assert_eq!(job(&bench).visits.len(), 1);
}
