//! Storage that is refused, full, slow or torn: what was typed stays on the
//! screen until it is kept.

use rakeline::driver::{Boot, Intent, Saved};
use rakeline::platform::StorageFault;
use rakeline::platform::memory::MemoryPlatform;
use rakeline::route::{Route, Step};
use rakeline_core::job::{Field, JobId};
use rakeline_core::record;

use crate::bench::Bench;
use crate::scenario;

fn torn() -> StorageFault {
    StorageFault::Failed("torn".to_owned())
}

/// The job as it is stored.
fn stored(bench: &Bench, id: &JobId) -> rakeline_core::job::JobState {
    let records = bench.phone.storage.records();
    let text = records.get(&format!("job/{}", id.0)).expect("stored");
    record::read(text).expect("readable")
}

#[test]
fn storage_refused_at_the_start_is_said_and_the_work_can_still_be_done() {
    let phone = MemoryPlatform::new();
    phone.storage.refuse();
    let mut bench = Bench::on(phone);
    assert!(matches!(&bench.app.boot, Boot::NoStorage(why) if why.key == "storage-refused"));
    scenario::to_rings(&mut bench);
    assert_eq!(bench.readings(), [1, 1, 1, 1]);
    assert_eq!(bench.not_saved(), Some("storage-refused"));
}

#[test]
fn settings_that_could_not_be_read_at_the_start_are_not_overwritten() {
    let phone = MemoryPlatform::new();
    let settings = r#"{"last_kit":null,"fitter":"A. Beck"}"#;
    phone.storage.plant("settings", settings);
    phone.storage.fail("disk asleep");
    let mut bench = Bench::on(phone);
    bench.phone.storage.heal();
    bench.send(Intent::StartJob(bench.new_id()));
    assert!(bench.saved());
    assert_eq!(bench.phone.storage.records()["settings"], settings);
}

#[test]
fn storage_full_at_any_commit_keeps_what_was_typed_and_saves_it_again() {
    let mut whole = Bench::new();
    scenario::to_sheet(&mut whole);
    let commits = whole.phone.storage.commits();
    assert!(commits > 12);
    for nth in 1..=commits {
        let mut bench = Bench::new();
        for later in nth..=commits {
            bench.phone.storage.fail_commit(later, StorageFault::Full);
        }
        scenario::to_sheet(&mut bench);
        assert_eq!(bench.job(), whole.job(), "full from commit {nth}");
        assert_eq!(bench.not_saved(), Some("storage-full"));
        bench.phone.storage.heal();
        bench.send(Intent::SaveAgain);
        assert!(bench.saved());
        assert_eq!(bench.killed().app.job(), Some(whole.job()));
    }
}

#[test]
fn each_single_commit_may_fail_once_and_the_next_one_makes_it_good() {
    let mut whole = Bench::new();
    scenario::to_sheet(&mut whole);
    let commits = whole.phone.storage.commits();
    for nth in 1..commits {
        let mut bench = Bench::new();
        bench.phone.storage.fail_commit(nth, torn());
        scenario::to_sheet(&mut bench);
        assert!(bench.saved(), "only commit {nth} failed");
        assert_eq!(&stored(&bench, &bench.job().id), whole.job());
    }
}

#[test]
fn an_older_commit_that_fails_under_a_newer_one_does_not_cry_wolf() {
    let mut bench = Bench::new();
    bench.send(Intent::StartJob(bench.new_id()));
    bench.phone.storage.fail_commit(1, torn());
    bench.phone.storage.hold();
    bench.send(Intent::Type(Field::HalfLeft, "87".to_owned()));
    bench.send(Intent::Type(Field::HalfLeft, "871".to_owned()));
    assert!(!bench.saved(), "nothing shows as saved while it waits");
    bench.phone.storage.release();
    bench.settle();
    assert!(bench.saved());
    assert_eq!(stored(&bench, &bench.job().id), *bench.job());
}

#[test]
fn an_older_commit_that_goes_through_is_not_the_newest() {
    let mut bench = Bench::new();
    bench.send(Intent::StartJob(bench.new_id()));
    bench.phone.storage.fail_commit(2, torn());
    bench.phone.storage.hold();
    bench.send(Intent::Type(Field::HalfLeft, "87".to_owned()));
    bench.send(Intent::Type(Field::HalfLeft, "871".to_owned()));
    bench.phone.storage.release();
    bench.settle();
    assert_eq!(bench.not_saved(), Some("storage-failed"));
    assert_eq!(bench.job().typed(Field::HalfLeft), "871");
}

#[test]
fn a_job_that_is_not_saved_cannot_be_left() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    bench.phone.storage.fill();
    bench.send(Intent::Rename("Scar End van".to_owned()));
    let depth = bench.phone.page.depth();
    bench.send(Intent::GoJobs);
    assert_eq!(bench.notice(), Some("leave-not-saved"));
    assert_eq!(bench.job().name, "Scar End van");
    assert_eq!(bench.phone.page.depth(), depth, "no step of the history");
    bench.back();
    bench.back();
    assert_eq!(
        bench.job().name,
        "Scar End van",
        "within the job one may go"
    );
    assert_eq!(bench.notice(), Some("leave-not-saved"));
    assert_eq!(bench.phone.page.address(), bench.app.route.path());
    bench.phone.storage.heal();
    bench.send(Intent::SaveAgain);
    assert!(bench.saved());
    bench.send(Intent::GoJobs);
    assert_eq!(bench.app.route, Route::Jobs);
}

#[test]
fn a_job_left_while_its_commit_was_under_way_comes_back_when_that_fails() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    bench.phone.storage.fail_commit(1, StorageFault::Full);
    bench.phone.storage.hold();
    bench.send(Intent::Rename("Scar End van".to_owned()));
    bench.send(Intent::GoJobs);
    assert_eq!(bench.app.route, Route::Jobs);
    bench.phone.storage.release();
    bench.settle();
    assert_eq!(bench.job().name, "Scar End van");
    assert_eq!(bench.not_saved(), Some("storage-full"));
    assert_eq!(bench.phone.page.address(), bench.app.route.path());
    bench.send(Intent::SaveAgain);
    assert_eq!(stored(&bench, &bench.job().id).name, "Scar End van");
}

#[test]
fn a_job_left_while_its_commit_was_under_way_and_kept_is_done_with() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    bench.phone.storage.hold();
    bench.send(Intent::Rename("Scar End van".to_owned()));
    bench.send(Intent::GoJobs);
    bench.phone.storage.release();
    bench.settle();
    assert_eq!(
        (&bench.app.route, &bench.app.left[..]),
        (&Route::Jobs, &[][..])
    );
}

#[test]
fn a_job_left_behind_another_one_goes_along_with_its_next_change() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let first = bench.job().id.clone();
    bench.phone.storage.fail_commit(1, torn());
    bench.phone.storage.hold();
    bench.send(Intent::Rename("Scar End van".to_owned()));
    bench.send(Intent::GoJobs);
    bench.send(Intent::StartJob(bench.new_id()));
    bench.phone.storage.release();
    bench.settle();
    assert_ne!(bench.job().id, first);
    assert_eq!(bench.notice(), Some("left-not-saved"));
    assert!(bench.saved(), "the open job itself is kept");
    assert_eq!(stored(&bench, &first).name, "");
    bench.send(Intent::Type(Field::HalfLeft, "871".to_owned()));
    assert_eq!(stored(&bench, &first).name, "Scar End van");
    assert_eq!(bench.app.left, []);
}

#[test]
fn a_job_left_behind_another_one_opens_when_that_is_left() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let first = bench.job().id.clone();
    bench.phone.storage.fail_commit(1, torn());
    bench.phone.storage.hold();
    bench.send(Intent::Rename("Scar End van".to_owned()));
    bench.send(Intent::GoJobs);
    bench.send(Intent::StartJob(bench.new_id()));
    bench.phone.storage.release();
    bench.settle();
    bench.send(Intent::GoJobs);
    assert_eq!(
        (&bench.job().id, bench.job().name.as_str()),
        (&first, "Scar End van")
    );
    assert!(matches!(
        bench.app.open.as_ref().map(|open| &open.saved),
        Some(Saved::No(_))
    ));
    assert_eq!(bench.phone.page.address(), bench.app.route.path());
}

#[test]
fn a_job_opened_again_before_it_is_kept_is_as_it_was_left() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let id = bench.job().id.clone();
    bench.phone.storage.fail_commit(1, torn());
    bench.phone.storage.hold();
    bench.send(Intent::Rename("Scar End van".to_owned()));
    bench.send(Intent::GoJobs);
    bench.send(Intent::OpenJob(id));
    assert_eq!(bench.job().name, "Scar End van");
    bench.phone.storage.release();
    bench.settle();
    assert_eq!(bench.job().name, "Scar End van");
    assert_eq!(bench.not_saved(), Some("storage-failed"));
}

#[test]
fn a_delete_that_fails_is_said_and_deletes_nothing() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let id = bench.job().id.clone();
    bench.send(Intent::GoJobs);
    bench.phone.storage.fail_commit(1, torn());
    bench.send(Intent::DeleteJob(id.clone()));
    assert_eq!(bench.notice(), Some("storage-failed"));
    assert_eq!((bench.app.jobs.len(), bench.app.trash.len()), (1, 0));
    bench.send(Intent::DeleteJob(id));
    assert_eq!((bench.app.jobs.len(), bench.app.trash.len()), (0, 1));
}

#[test]
fn a_job_that_cannot_be_read_just_now_is_said_and_the_list_stays() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let id = bench.job().id.clone();
    bench.send(Intent::GoJobs);
    bench.phone.storage.fail("asleep");
    bench.send(Intent::OpenJob(id.clone()));
    assert_eq!(bench.notice(), Some("storage-failed"));
    bench.phone.storage.heal();
    bench.send(Intent::OpenJob(id.clone()));
    assert!(matches!(&bench.app.route, Route::Job(open, Step::Marks) if *open == id));
}
