//! What the store never loses and what really goes: pictures whose jobs are
//! gone, pictures of what was put by, checks that go on, deletion for good.

use rakeline::backup::Brings;
use rakeline::driver::{
    BackupIntent, EraseWhat, Intent, Odd, PhotoIntent, PutByWhy, StoreIntent, TRASH_DAYS, Whole,
    bereft_words,
};
use rakeline::platform::memory::{MemoryPlatform, MemoryStorage};
use rakeline_core::job::JobId;
use rakeline_core::units::Millis;

use crate::backup::{PASSPHRASE, backup, look, made};
use crate::bench::Bench;
use crate::job_list::three;
use crate::restore::newer;
use crate::scenario;
use crate::store::{days_later, erase, keys_of, photo, store};

/// A phone with one job that has a photo, on the list.
fn with_photo() -> (Bench, JobId, String) {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let blob = photo(&mut bench).expect("a photo");
    let id = bench.job().id.clone();
    bench.send(Intent::GoJobs);
    (bench, id, blob)
}

/// The browser lost the records; the pictures are there.
fn records_lost(bench: &Bench) -> Bench {
    let storage = MemoryStorage::default().with_blobs_of(&bench.phone.storage);
    Bench::on(MemoryPlatform::with(storage, "/"))
}

/// A job that no other phone has.
fn today(bench: &mut Bench) {
    bench.send(Intent::StartJob(JobId("today".to_owned())));
    bench.send(Intent::GoJobs);
}

#[test]
fn pictures_stay_where_all_records_are_lost_until_a_backup_brings_their_jobs_back() {
    let (mut bench, _, blob) = with_photo();
    let bytes = made(&mut bench, Whole::Locked);
    let mut bench = days_later(&records_lost(&bench), 3);
    assert_eq!(bench.phone.storage.blobs(), std::slice::from_ref(&blob));
    assert!(bereft_words(&bench.app).is_some());
    // A job of today does not make them anybody's.
    today(&mut bench);
    let mut bench = days_later(&bench, 3);
    assert_eq!(bench.phone.storage.blobs(), std::slice::from_ref(&blob));
    look(&mut bench, bytes, PASSPHRASE);
    backup(&mut bench, BackupIntent::TakeIn(Brings::Nothing));
    assert_eq!(bereft_words(&bench.app), None);
    assert!(!bench.phone.storage.records().contains_key("kept/pictures"));
    assert_eq!(days_later(&bench, 3).phone.storage.blobs(), [blob]);
}

#[test]
fn pictures_without_jobs_go_for_good_when_that_is_confirmed() {
    let (bench, ..) = with_photo();
    let mut bench = records_lost(&bench);
    store(&mut bench, StoreIntent::AskErase(EraseWhat::Pictures));
    store(&mut bench, StoreIntent::Spare);
    assert_eq!(bench.phone.storage.blobs().len(), 1, "asked, and kept");
    erase(&mut bench, EraseWhat::Pictures);
    assert_eq!(bench.phone.storage.blobs(), [""; 0]);
    assert_eq!(bereft_words(&bench.killed().app), None);
}

#[test]
fn a_dropped_photo_stays_while_the_job_before_a_visit_names_it() {
    let mut bench = Bench::new();
    scenario::to_sheet(&mut bench);
    let kept = photo(&mut bench).expect("a photo");
    bench.send(Intent::CameAgain("False alarm in rain".to_owned()));
    bench.phone.clock.advance(Millis(5.0));
    let dropped = photo(&mut bench).expect("a photo");
    for blob in [&kept, &dropped] {
        bench.send(Intent::Photo(PhotoIntent::Drop(blob.clone())));
    }
    bench.send(Intent::GoJobs);
    assert_eq!(days_later(&bench, 3).phone.storage.blobs(), [kept]);
}

#[test]
fn a_job_deleted_for_good_takes_its_dropped_photos_along_at_once() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let blob = photo(&mut bench).expect("a photo");
    bench.send(Intent::Photo(PhotoIntent::Drop(blob)));
    let id = bench.job().id.clone();
    bench.send(Intent::GoJobs);
    bench.send(Intent::DeleteJob(id.clone()));
    erase(&mut bench, EraseWhat::Job(id.clone()));
    assert_eq!(keys_of(&bench, &id), [""; 0]);
}

#[test]
fn what_was_put_by_is_listed_and_can_be_a_job_of_its_own_with_its_photos() {
    let mut bench = Bench::new();
    scenario::to_sheet(&mut bench);
    let blob = photo(&mut bench).expect("a photo");
    bench.send(Intent::Rename("before the visit".to_owned()));
    bench.send(Intent::CameAgain("False alarm in rain".to_owned()));
    bench.send(Intent::Rename("after the visit".to_owned()));
    let id = bench.job().id.clone();
    bench.send(Intent::GoJobs);
    store(&mut bench, StoreIntent::PutBy);
    let all = bench.app.store.put_by.clone().expect("listed");
    assert_eq!(all.len(), 1);
    assert_eq!(all[0].why, PutByWhy::Visit);
    let own = bench.new_id();
    let said = StoreIntent::OwnJob(all[0].key.clone(), own.clone());
    store(&mut bench, said);
    assert_eq!(bench.job().name, "before the visit");
    assert!(bench.saved());
    bench.send(Intent::GoJobs);
    assert_eq!(bench.app.jobs.len(), 2);
    // The other one goes for good; the photo is this one's too.
    bench.send(Intent::DeleteJob(id.clone()));
    erase(&mut bench, EraseWhat::Job(id));
    assert_eq!(bench.phone.storage.blobs(), [blob]);
    assert_eq!(bench.killed().app.jobs[0].id, own);
}

#[test]
fn a_check_that_began_before_a_job_was_changed_does_not_bring_its_old_entry_back() {
    let mut bench = three();
    let before = bench.app.jobs[0].clone();
    let key = format!("job/{}", before.id.0);
    let text = bench.phone.storage.records()[&key].clone();
    bench.send(Intent::OpenJob(before.id.clone()));
    bench.send(Intent::Rename("changed meanwhile".to_owned()));
    bench.send(Intent::GoJobs);
    let odd = Odd {
        key,
        sum: before.sum,
        text: Some(text),
    };
    store(&mut bench, StoreIntent::LookedOver(Ok(vec![odd])));
    assert_eq!(bench.app.jobs[0].name, "changed meanwhile");
}

#[test]
fn a_damaged_job_older_than_the_newest_fifty_is_named_soon_after_the_start() {
    let mut bench = Bench::new();
    for _ in 0..60 {
        bench.send(Intent::StartJob(bench.new_id()));
        bench.pass(Millis(1_000.0));
        bench.send(Intent::GoJobs);
    }
    let oldest = bench.app.jobs.last().expect("a job").id.clone();
    let key = format!("job/{}", oldest.0);
    bench.phone.storage.plant(&key, "{\"version\":1,\"jo");
    let bench = bench.killed();
    assert_eq!(bench.app.unreadable.len(), 1);
    assert_eq!(bench.app.unreadable[0].key, key);
    assert_eq!(bench.app.jobs.len(), 59);
}

#[test]
fn a_check_counts_a_picture_that_is_empty() {
    let (mut bench, _, blob) = with_photo();
    bench.phone.storage.plant_picture(&blob, &[]);
    store(&mut bench, StoreIntent::Check);
    let checked = bench.app.store.checked.as_ref();
    assert_eq!(checked.map(|checked| checked.pictures), Some(1));
}

#[test]
fn a_clock_far_ahead_of_everything_deletes_nothing_for_good() {
    let (mut bench, id, _) = with_photo();
    bench.send(Intent::DeleteJob(id));
    let mut bench = days_later(&bench, 400);
    assert_eq!(bench.app.trash.len(), 1);
    // A job of that day says that the clock is right.
    today(&mut bench);
    assert_eq!(days_later(&bench, TRASH_DAYS).app.trash.len(), 0);
}

#[test]
fn a_customers_all_takes_what_is_left_of_lost_jobs_and_tells_of_those_that_cannot_be_read() {
    let bench = three();
    let lost = bench.app.jobs[0].id.clone();
    bench.phone.storage.lose(&format!("job/{}", lost.0));
    bench.phone.storage.plant("job/broken", "{\"version\":1,");
    let mut bench = bench.killed();
    assert_eq!(bench.app.lost.len(), 1);
    let customer = EraseWhat::Customer("Fell & Ghyll".to_owned());
    let question = customer.question(&bench.app);
    assert_eq!(question.key, "erase-customer-unreadable");
    let said = rakeline::texts::say(&question);
    assert!(said.contains("Delete all 2 jobs"), "{said}");
    assert!(said.contains("One stored job cannot be read"), "{said}");
    erase(&mut bench, customer);
    let records = bench.phone.storage.records();
    assert!(!records.values().any(|text| text.contains("Ghyll")));
    assert!(records.contains_key("job/broken"), "it stays");
    assert_eq!(bench.app.lost, []);
}

#[test]
fn copies_of_files_that_were_handed_out_go_when_jobs_are_deleted_for_good_unless_one_just_left() {
    let (mut bench, id, _) = with_photo();
    bench.send(Intent::DeleteJob(id.clone()));
    let before = bench.phone.share.emptied();
    made(&mut bench, Whole::Locked);
    erase(&mut bench, EraseWhat::Job(id));
    assert_eq!(bench.phone.share.emptied(), before, "on its way out");
    scenario::to_marks(&mut bench);
    let id = bench.job().id.clone();
    bench.send(Intent::GoJobs);
    bench.send(Intent::DeleteJob(id.clone()));
    bench.phone.clock.advance(Millis(11.0 * 60_000.0));
    erase(&mut bench, EraseWhat::Job(id));
    assert_eq!(bench.phone.share.emptied(), before + 1);
}

#[test]
fn a_record_of_a_newer_version_is_named_by_what_can_be_read_of_it() {
    let bench = three();
    let id = bench.app.jobs[0].id.0.clone();
    let key = format!("job/{id}");
    let text = bench.phone.storage.records()[&key].clone();
    let newer = newer(&text);
    bench.phone.storage.plant(&key, &newer);
    bench.phone.storage.lose(&format!("brief/{key}"));
    let bench = bench.killed();
    let named = &bench.app.unreadable[0];
    assert!(named.is_newer());
    let about = rakeline::texts::say(named.about.as_ref().expect("something"));
    for part in [
        "Ghyll's second",
        "Tarn Carrier, 2019",
        "FG 3 OLD",
        "Fell & Ghyll",
    ] {
        assert!(about.contains(part), "{about}");
    }
    assert_eq!(bench.phone.storage.records()[&key], newer, "kept whole");
}
