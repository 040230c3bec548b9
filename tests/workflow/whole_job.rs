//! From the first start to the printed job sheet, and killed at every step.

use rakeline::driver::{Boot, Intent, Phase};
use rakeline::platform::{Pulse, Tone};
use rakeline::route::{Route, Step};
use rakeline_core::decide::mark_out::PlanKind;
use rakeline_core::job::{Facing, Field, JobId, Tape, ring_choice};
use rakeline_core::report::job_sheet;
use rakeline_core::units::Millis;

use crate::bench::Bench;
use crate::golden;
use crate::scenario::{self, FACES};
use crate::sheet_text::text_of;

#[test]
fn a_job_from_the_first_start_to_its_sheet() {
    let mut bench = Bench::new();
    assert_eq!(bench.app.boot, Boot::Ready);
    scenario::to_sheet(&mut bench);
    assert!(bench.saved());
    assert_eq!(bench.phone.print.count(), 1);
    let job = bench.job();
    let issue = job.issued().expect("the sheet shows the job as it is");
    let text = text_of(&job_sheet(job, issue.at, &issue.zone));
    golden::compare("job_sheet/whole_job.txt", &text);
}

#[test]
fn the_sheet_holds_the_facts_of_the_job() {
    let mut bench = Bench::new();
    scenario::to_sheet(&mut bench);
    let job = bench.job();
    let marks = job.marks.as_ref().expect("marks are planned");
    assert_eq!((marks.half_left.0, marks.half_right.0), (871.0, 868.0));
    assert!(matches!(marks.tape, Tape::On(_)));
    let issue = job.issued().expect("issued");
    assert_eq!((issue.number, issue.zone.as_str()), (1, "Europe/Paris"));
    let text = text_of(&job_sheet(job, issue.at, &issue.zone));
    for offset in &marks.offsets {
        let side = if offset.0 < 0.0 { "left" } else { "right" };
        assert!(text.contains(&format!("{} mm {side}", offset.0.abs())));
    }
    for spot in &job.spots {
        let choice = ring_choice(job, spot).expect("read");
        assert!(text.contains(&rakeline::texts::say(&choice.headline())));
    }
    assert!(text.contains("12 Mar 2026, 09:30 (UTC +01:00, Europe/Paris)"));
}

#[test]
fn the_faces_are_read_by_themselves_and_felt_and_heard() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    assert!(bench.phone.wake.held(), "the screen stays on");
    bench.phone.sound.take();
    bench.phone.vibration.take();
    for (index, face) in FACES.into_iter().enumerate() {
        let reading = bench.app.reading.as_ref().expect("reading");
        assert_eq!(reading.spot(), index);
        bench.hold_to(face);
    }
    assert_eq!(bench.readings(), [1, 1, 1, 1]);
    let caught = [
        Pulse::Captured,
        Pulse::Captured,
        Pulse::Captured,
        Pulse::Done,
    ];
    assert_eq!(bench.phone.vibration.take(), caught);
    let tones = bench.phone.sound.take();
    let told: Vec<_> = tones.into_iter().filter(|t| *t != Tone::Moving).collect();
    let heard = [Tone::Captured, Tone::Captured, Tone::Captured, Tone::Done];
    assert_eq!(told, heard);
    assert!(matches!(bench.app.route, Route::Job(_, Step::Rings)));
    assert!(!bench.phone.motion.running());
    assert!(!bench.phone.wake.held());
}

#[test]
fn each_face_angle_is_what_the_phone_lay_on() {
    let mut bench = Bench::new();
    scenario::to_rings(&mut bench);
    let job = bench.job();
    for (spot, face) in job.spots.iter().zip(FACES) {
        let rake = rakeline_core::job::rake_at(job, spot).expect("read").rake;
        assert!(
            (rake.value.0 - face).abs() < 0.1,
            "{face}: {}",
            rake.value.0
        );
        assert!(rake.expanded().0 > 4.0, "an unzeroed phone is not exact");
    }
}

type Doing = Box<dyn Fn(&mut Bench)>;

/// Each step of a job; typing goes letter by letter elsewhere.
fn steps() -> Vec<Doing> {
    let typed = |field, text: &'static str| -> Doing {
        Box::new(move |bench| bench.send(Intent::Type(field, text.to_owned())))
    };
    let mut steps: Vec<Doing> = vec![
        Box::new(|bench| bench.send(Intent::StartJob(bench.new_id()))),
        typed(Field::HalfLeft, "871"),
        typed(Field::HalfRight, "868"),
        Box::new(|bench| bench.send(Intent::PlanMarks(PlanKind::Symmetric))),
        Box::new(|bench| bench.send(Intent::TapeOn)),
    ];
    for face in FACES {
        steps.push(Box::new(move |bench| {
            if !bench.phone.motion.running() {
                bench.send(Intent::GoStep(Step::Faces));
                bench.send(Intent::StartReading);
            }
            bench.hold_to(face);
        }));
    }
    steps.push(Box::new(scenario::particulars));
    steps.push(Box::new(|bench| bench.send(Intent::IssueSheet)));
    steps
}

#[test]
fn a_kill_after_any_step_loses_nothing_that_was_shown_as_saved() {
    let steps = steps();
    for count in 1..=steps.len() {
        let mut bench = Bench::new();
        for step in &steps[..count] {
            step(&mut bench);
        }
        assert!(bench.saved(), "after {count} steps");
        let after = bench.killed();
        assert_eq!(after.app.job(), Some(bench.job()), "after {count} steps");
        assert!(after.saved());
        assert_eq!(after.app.jobs, bench.app.jobs);
    }
}

#[test]
fn a_job_killed_after_every_step_comes_out_the_same() {
    let mut bench = Bench::new();
    for step in steps() {
        step(&mut bench);
        bench = bench.killed();
    }
    let job = bench.job();
    assert_eq!(job.read_count(), 4);
    assert_eq!(job.issued().map(|issue| issue.number), Some(1));
    assert_eq!(bench.app.settings.fitter, "A. Beck, Beckside Workshop");
    for (spot, face) in job.spots.iter().zip(FACES) {
        let rake = rakeline_core::job::rake_at(job, spot).expect("read").rake;
        assert!((rake.value.0 - face).abs() < 0.1);
    }
}

#[test]
fn reopening_the_page_does_not_lengthen_the_history() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let after = bench.killed();
    assert_eq!(after.phone.page.depth(), 0);
    assert!(matches!(after.app.route, Route::Job(_, Step::Marks)));
}

#[test]
fn the_system_back_button_goes_through_the_steps_and_loses_nothing() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    let before = bench.job().clone();
    bench.back();
    assert!(matches!(bench.app.route, Route::Job(_, Step::Marks)));
    assert!(!bench.phone.motion.running(), "no sensor off the faces");
    bench.back();
    assert!(matches!(bench.app.route, Route::Job(_, Step::Measures)));
    bench.back();
    assert_eq!((&bench.app.route, bench.app.job()), (&Route::Jobs, None));
    bench.phone.page.forward();
    bench.settle();
    assert_eq!(bench.app.job(), Some(&before));
}

#[test]
fn the_second_job_takes_kit_and_fitter_of_the_first() {
    let mut bench = Bench::new();
    scenario::to_sheet(&mut bench);
    let kit = bench.job().kit.clone();
    bench.send(Intent::GoJobs);
    let mut bench = bench.killed();
    bench.send(Intent::StartJob(bench.new_id()));
    assert_eq!(bench.job().kit, kit);
    let fitter = bench
        .job()
        .particular(rakeline_core::job::Particular::Fitter);
    assert_eq!(fitter, "A. Beck, Beckside Workshop");
    assert_eq!(bench.app.jobs.len(), 2);
}

#[test]
fn all_faces_can_be_typed_instead() {
    let mut bench = Bench::new();
    let none = rakeline::platform::MotionFault::NoSensor;
    bench.phone.motion.fail_starts(Some(none));
    scenario::to_faces(&mut bench);
    bench.pass(Millis(200.0));
    let reading = bench.app.reading.as_ref().expect("reading");
    assert!(matches!(&reading.phase, Phase::NoSensor(why) if why.key == "motion-no-sensor"));
    for angle in ["3.1", "1.5", "1.2", "2.9"] {
        scenario::type_face(&mut bench, angle, Facing::Down, "0.2");
    }
    assert_eq!(bench.readings(), [1, 1, 1, 1]);
    assert_eq!(bench.job().typed(Field::FaceAngle), "");
    assert!(matches!(bench.app.route, Route::Job(_, Step::Rings)));
    let job = bench.job();
    let now = job.changed;
    let text = text_of(&job_sheet(job, now, "Europe/Paris"));
    assert!(!text.contains("not zeroed"), "no phone was held: {text}");
    assert!(text.contains("not issued yet"));
}

#[test]
fn the_sample_job_is_ready_for_its_faces_and_is_kept() {
    let mut bench = Bench::new();
    bench.send(Intent::OpenSample(bench.new_id()));
    assert!(bench.saved());
    assert!(matches!(bench.app.route, Route::Job(_, Step::Marks)));
    assert!(bench.job().marks.is_some());
    bench.send(Intent::TapeOn);
    for face in FACES {
        bench.hold_to(face);
    }
    assert!(bench.job().all_read());
    let after = bench.killed();
    assert_eq!(after.app.job(), Some(bench.job()));
}

#[test]
fn an_address_of_no_job_says_so_and_shows_the_list() {
    let mut bench = Bench::on(rakeline::platform::memory::MemoryPlatform::with(
        Default::default(),
        "/job/beef/faces",
    ));
    assert_eq!(bench.app.route, Route::Jobs);
    assert_eq!(bench.notice(), Some("job-not-here"));
    assert_eq!(bench.phone.page.address(), "/");
    bench.send(Intent::OpenJob(JobId("beef".to_owned())));
    assert_eq!(bench.app.open, None);
}
