//! Two taps at once do what one does.

use rakeline::driver::Intent;
use rakeline::route::Route;
use rakeline_core::decide::mark_out::PlanKind;
use rakeline_core::job::{Facing, Field};
use rakeline_core::units::Millis;

use crate::bench::Bench;
use crate::scenario;

#[test]
fn start_a_job_twice_starts_one() {
    let mut bench = Bench::new();
    let (first, second) = (bench.new_id(), bench.new_id());
    bench.at_once([Intent::StartJob(first.clone()), Intent::StartJob(second)]);
    assert_eq!(bench.job().id, first);
    assert_eq!(bench.app.jobs.len(), 1);
    assert_eq!(bench.killed().app.jobs.len(), 1);
}

#[test]
fn open_a_job_twice_opens_it_once() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let id = bench.job().id.clone();
    bench.send(Intent::GoJobs);
    let depth = bench.phone.page.depth();
    bench.at_once([Intent::OpenJob(id.clone()), Intent::OpenJob(id)]);
    assert_eq!(bench.phone.page.depth(), depth + 1);
}

#[test]
fn an_answer_that_comes_late_does_not_close_the_job_started_since() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let old = bench.job().id.clone();
    bench.send(Intent::GoJobs);
    let new = bench.new_id();
    bench.at_once([Intent::OpenJob(old), Intent::StartJob(new.clone())]);
    assert_eq!(bench.job().id, new);
}

#[test]
fn plan_twice_is_one_step() {
    let mut bench = Bench::new();
    bench.send(Intent::StartJob(bench.new_id()));
    scenario::type_half_widths(&mut bench, "871", "868");
    let plan = Intent::PlanMarks(PlanKind::Symmetric);
    bench.at_once([plan.clone(), plan]);
    assert_eq!(
        bench.app.open.as_ref().map(|open| open.before.len()),
        Some(1)
    );
}

#[test]
fn tape_is_on_twice_is_one_step_and_keeps_the_first_time() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    bench.send(Intent::TapeOn);
    let before = bench.job().clone();
    bench.pass(Millis(50.0));
    let starts = bench.phone.motion.starts();
    bench.at_once([Intent::TapeOn, Intent::TapeOn]);
    assert_eq!(bench.job(), &before);
    assert_eq!(bench.phone.motion.starts(), starts);
}

#[test]
fn take_typed_twice_takes_one() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.send(Intent::Type(Field::FaceAngle, "2.5".to_owned()));
    let take = Intent::TakeTyped(Facing::Down);
    bench.at_once([take.clone(), take]);
    assert_eq!(bench.readings(), [1, 0, 0, 0]);
}

#[test]
fn delete_twice_deletes_one_and_undo_brings_it_back_whole() {
    let mut bench = Bench::new();
    scenario::to_rings(&mut bench);
    let job = bench.job().clone();
    bench.send(Intent::GoJobs);
    let delete = Intent::DeleteJob(job.id.clone());
    bench.at_once([delete.clone(), delete]);
    assert_eq!((bench.app.jobs.len(), bench.app.trash.len()), (0, 1));
    assert_eq!(bench.notice(), Some("job-deleted"));
    let restore = Intent::RestoreJob(job.id.clone());
    bench.at_once([restore.clone(), restore]);
    assert_eq!((bench.app.jobs.len(), bench.app.trash.len()), (1, 0));
    bench.send(Intent::OpenJob(job.id.clone()));
    assert_eq!(bench.job(), &job);
}

#[test]
fn a_deleted_job_comes_back_after_a_restart_too() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let job = bench.job().clone();
    bench.send(Intent::GoJobs);
    bench.send(Intent::DeleteJob(job.id.clone()));
    let mut bench = bench.killed();
    assert_eq!((bench.app.jobs.len(), bench.app.trash.len()), (0, 1));
    bench.send(Intent::RestoreJob(job.id.clone()));
    bench.send(Intent::OpenJob(job.id.clone()));
    assert_eq!(bench.job(), &job);
}

#[test]
fn delete_and_open_at_once_deletes() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let id = bench.job().id.clone();
    bench.send(Intent::GoJobs);
    bench.at_once([Intent::DeleteJob(id.clone()), Intent::OpenJob(id)]);
    assert_eq!((bench.app.jobs.len(), bench.app.trash.len()), (0, 1));
    assert_eq!(bench.app.open, None);
    assert_eq!(bench.app.route, Route::Jobs);
}

#[test]
fn issue_twice_is_one_number_and_one_print() {
    let mut bench = Bench::new();
    scenario::to_rings(&mut bench);
    bench.at_once([Intent::IssueSheet, Intent::IssueSheet]);
    assert_eq!(bench.job().sheets.len(), 1);
    assert_eq!(bench.phone.print.count(), 1);
}

#[test]
fn an_unchanged_job_prints_again_under_its_number_and_a_changed_one_gets_the_next() {
    let mut bench = Bench::new();
    scenario::to_sheet(&mut bench);
    bench.pass(Millis(60_000.0));
    bench.send(Intent::IssueSheet);
    assert_eq!(bench.job().sheets.len(), 1);
    assert_eq!(bench.phone.print.count(), 2);
    bench.send(Intent::Rename("Scar End van, white".to_owned()));
    assert_eq!(bench.job().issued(), None);
    bench.send(Intent::IssueSheet);
    assert_eq!(bench.job().issued().map(|issue| issue.number), Some(2));
    assert_eq!(bench.phone.print.count(), 3);
}
