//! The store over the years: deleted jobs, deleting for good, checks and
//! what they mend, two pages at once, and one write that fails.

use std::collections::BTreeMap;

use rakeline::driver::{
    BRIEF_PREFIX, Boot, Checked, EraseWhat, Intent, PhotoIntent, PictureFrom, Shows, StoreIntent,
    TRASH_DAYS, customers,
};
use rakeline::platform::memory::{MemoryPlatform, MemoryStorage};
use rakeline::platform::{PersistAnswer, Picture, Room, StorageFault};
use rakeline_core::job::{JobId, Particular, Whose};
use rakeline_core::record;
use rakeline_core::units::Millis;

use crate::bench::Bench;
use crate::job_list::three;
use crate::scenario;

const DAY: Millis = Millis(24.0 * 60.0 * 60.0 * 1000.0);

pub(crate) fn store(bench: &mut Bench, said: StoreIntent) {
    bench.send(Intent::Store(said));
}

pub(crate) fn erase(bench: &mut Bench, what: EraseWhat) {
    store(bench, StoreIntent::AskErase(what));
    store(bench, StoreIntent::Erase);
}

pub(crate) fn days_later(bench: &Bench, days: i64) -> Bench {
    for _ in 0..days {
        bench.phone.clock.advance(DAY);
    }
    bench.killed()
}

/// Keys of the store that name this job.
pub(crate) fn keys_of(bench: &Bench, id: &JobId) -> Vec<String> {
    let records = bench.phone.storage.records();
    let keys = records.into_keys().chain(bench.phone.storage.blobs());
    keys.filter(|key| key.contains(&id.0)).collect()
}

/// The job on the screen gets a photo of the bumper.
pub(crate) fn photo(bench: &mut Bench) -> Option<String> {
    bench.phone.camera.gives(Picture {
        bytes: vec![0xff, 0xd8, 1, 2, 3],
        width: 30,
        height: 40,
    });
    let bumper = Shows::Behind(Whose::Bumper);
    bench.send(Intent::Photo(PhotoIntent::Ask(bumper, PictureFrom::Camera)));
    let photos = &bench.job().behind.photos;
    photos.last().map(|photo| photo.blob.clone())
}

#[test]
fn a_deleted_job_can_come_back_for_its_days_and_goes_for_good_after_them() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let blob = photo(&mut bench).expect("a photo");
    let id = bench.job().id.clone();
    bench.send(Intent::GoJobs);
    bench.send(Intent::DeleteJob(id.clone()));
    let bench = days_later(&bench, TRASH_DAYS - 1);
    assert_eq!(bench.app.trash.len(), 1);
    assert!(bench.phone.storage.blobs().contains(&blob));
    let bench = days_later(&bench, 1);
    assert_eq!(bench.app.trash, []);
    assert_eq!(keys_of(&bench, &id), [""; 0]);
}

#[test]
fn a_job_deleted_before_days_were_counted_gets_all_of_them() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let id = bench.job().id.clone();
    bench.send(Intent::GoJobs);
    bench.send(Intent::DeleteJob(id.clone()));
    bench
        .phone
        .storage
        .lose(&format!("{BRIEF_PREFIX}trash/{}", id.0));
    let bench = days_later(&bench, 400);
    assert_eq!(bench.app.trash.len(), 1);
    let bench = days_later(&bench, TRASH_DAYS);
    assert_eq!(bench.app.trash.len(), 0);
}

#[test]
fn one_job_is_really_deleted_with_all_that_was_kept_of_it() {
    let mut bench = Bench::new();
    scenario::to_sheet(&mut bench);
    let blob = photo(&mut bench).expect("a photo");
    bench.send(Intent::CameAgain("False alarm in rain".to_owned()));
    let id = bench.job().id.clone();
    bench.send(Intent::GoJobs);
    assert!(
        bench
            .phone
            .storage
            .records()
            .keys()
            .any(|key| key.starts_with("kept/job/"))
    );
    // A job that was not deleted first is not meant.
    erase(&mut bench, EraseWhat::Job(id.clone()));
    assert!(keys_of(&bench, &id).contains(&blob));
    bench.send(Intent::DeleteJob(id.clone()));
    erase(&mut bench, EraseWhat::Job(id.clone()));
    assert_eq!(bench.notice(), Some("erased"));
    assert_eq!(keys_of(&bench, &id), [""; 0]);
    assert_eq!((bench.app.jobs.len(), bench.app.trash.len()), (0, 0));
    assert_eq!(bench.killed().app.trash, []);
}

#[test]
fn a_customers_jobs_all_go_and_nobody_elses() {
    let mut bench = three();
    let second = bench.app.jobs[0].id.clone();
    bench.send(Intent::DeleteJob(second));
    let names = customers(&bench.app);
    assert_eq!(
        names,
        [("beck farm".to_owned(), 1), ("Fell & Ghyll".to_owned(), 2)]
    );
    let before = bench.phone.storage.records();
    let customer = EraseWhat::Customer("fell  &  ghyll".to_owned());
    store(&mut bench, StoreIntent::AskErase(customer.clone()));
    store(&mut bench, StoreIntent::Spare);
    store(&mut bench, StoreIntent::Erase);
    assert_eq!(bench.phone.storage.records(), before, "asked, and kept");
    erase(&mut bench, customer);
    assert_eq!((bench.app.jobs.len(), bench.app.trash.len()), (1, 0));
    assert_eq!(bench.app.jobs[0].customer, "beck farm");
    let records = bench.phone.storage.records();
    assert!(!records.values().any(|text| text.contains("Ghyll")));
}

#[test]
fn deleting_for_good_that_fails_deletes_nothing() {
    let mut bench = three();
    let before = bench.phone.storage.records();
    let torn = StorageFault::Failed("torn".to_owned());
    bench.phone.storage.fail_commit(1, torn);
    erase(&mut bench, EraseWhat::Customer("beck farm".to_owned()));
    assert_eq!(bench.notice(), Some("storage-failed"));
    assert_eq!(bench.phone.storage.records(), before);
    assert_eq!(bench.app.jobs.len(), 3);
    erase(&mut bench, EraseWhat::Customer("beck farm".to_owned()));
    assert_eq!(bench.app.jobs.len(), 2);
}

#[test]
fn a_check_of_a_whole_store_says_so_and_changes_nothing() {
    let mut bench = three();
    let before = bench.phone.storage.records();
    store(&mut bench, StoreIntent::Check);
    let whole = Checked {
        read: 3,
        ..Checked::default()
    };
    assert_eq!(bench.app.store.checked, Some(whole));
    assert_eq!(bench.phone.storage.records(), before);
}

#[test]
fn a_check_mends_the_list_and_names_what_is_damaged_or_gone_and_deletes_nothing() {
    let mut bench = three();
    let ids: Vec<JobId> = bench.app.jobs.iter().map(|job| job.id.clone()).collect();
    let key = |at: usize| format!("job/{}", ids[at].0);
    // Written past the list, as by a version that knew no briefs.
    let text = bench.phone.storage.records()[&key(0)].clone();
    let mut job = record::read(&text).expect("a job");
    job.particulars
        .insert(Particular::Customer, "Scar End".to_owned());
    bench
        .phone
        .storage
        .plant(&key(0), &record::write(&job).expect("written"));
    bench.phone.storage.plant(&key(1), "{\"version\":1,\"jo");
    bench.phone.storage.lose(&key(2));
    let before = bench.phone.storage.records();
    store(&mut bench, StoreIntent::Check);
    let found = Checked {
        read: 3,
        mended: 1,
        unreadable: 1,
        lost: 1,
        pictures: 0,
    };
    assert_eq!(bench.app.store.checked, Some(found));
    assert_eq!(bench.app.jobs.len(), 1);
    assert_eq!(bench.app.jobs[0].customer, "Scar End");
    assert_eq!(bench.app.unreadable[0].key, key(1));
    assert_eq!(bench.app.lost[0].id, ids[2]);
    let after = bench.phone.storage.records();
    let changed: Vec<&String> = before
        .iter()
        .filter(|(key, text)| after.get(*key) != Some(text))
        .map(|(key, _)| key)
        .collect();
    assert_eq!(changed, [&format!("{BRIEF_PREFIX}{}", key(0))]);
}

#[test]
fn a_record_that_is_gone_is_named_at_the_start_until_it_is_taken_off_the_list() {
    let bench = three();
    let id = bench.app.jobs[1].id.clone();
    bench.phone.storage.lose(&format!("job/{}", id.0));
    let mut bench = bench.killed();
    assert_eq!(bench.app.jobs.len(), 2);
    assert_eq!(bench.app.lost[0].plate, "BF-7 MOOR");
    store(&mut bench, StoreIntent::Forget(id));
    assert_eq!(bench.app.lost, []);
    assert_eq!(bench.killed().app.lost, []);
}

#[test]
fn a_check_says_how_many_pictures_are_gone() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let blob = photo(&mut bench).expect("a photo");
    bench.send(Intent::GoJobs);
    let storage = MemoryStorage::holding(bench.phone.storage.records());
    let mut bench = Bench::on(MemoryPlatform::with(storage, "/"));
    assert!(bench.app.jobs[0].blobs.contains(&blob));
    store(&mut bench, StoreIntent::Check);
    assert_eq!(
        bench.app.store.checked.as_ref().map(|c| c.pictures),
        Some(1)
    );
}

#[test]
fn room_is_told_in_photos_and_whether_the_jobs_stay() {
    let mut bench = Bench::new();
    let room = Room {
        used: 30_000_000,
        most: 3_030_000_000,
    };
    bench.phone.storage.answer_room(room);
    bench
        .phone
        .storage
        .answer_persist(PersistAnswer::MayBeCleared);
    store(&mut bench, StoreIntent::Go);
    let words = bench.app.store.room_words().expect("told");
    assert_eq!(words.key, "room-left");
    assert!(rakeline::texts::say(&words).contains("1000 more photos"));
    assert_eq!(bench.app.store.kept, Some(PersistAnswer::MayBeCleared));
    bench.phone.storage.answer_room(Room {
        used: 1,
        most: 200_000_000,
    });
    store(&mut bench, StoreIntent::Go);
    store(
        &mut bench,
        StoreIntent::Room(Some(Room {
            used: 1,
            most: 200_000_000,
        })),
    );
    assert_eq!(
        bench.app.store.room_words().expect("told").key,
        "room-short"
    );
}

#[test]
fn a_second_page_says_that_the_first_works_and_can_take_over() {
    let phone = MemoryPlatform::new();
    phone.storage.open_elsewhere();
    let mut bench = Bench::on(phone);
    assert_eq!(bench.app.boot, Boot::Elsewhere);
    bench.send(Intent::StartJob(bench.new_id()));
    assert_eq!(bench.phone.storage.commits(), 0);
    store(&mut bench, StoreIntent::TakeOver);
    assert_eq!(bench.app.boot, Boot::Ready);
    scenario::to_marks(&mut bench);
    assert!(bench.saved());
}

#[test]
fn the_page_that_is_taken_over_writes_no_more_and_reads_anew_when_it_comes_back() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let id = bench.job().id.clone();
    bench.phone.storage.open_elsewhere();
    bench.settle();
    assert_eq!(bench.app.boot, Boot::Elsewhere);
    let commits = bench.phone.storage.commits();
    bench.send(Intent::Rename("from the page that was left".to_owned()));
    assert_eq!(bench.phone.storage.commits(), commits);
    // The other page changes the job meanwhile.
    let other = bench.killed();
    let mut other = other;
    other.send(Intent::Rename("by the other page".to_owned()));
    for (key, value) in other.phone.storage.records() {
        bench.phone.storage.plant(&key, &value);
    }
    store(&mut bench, StoreIntent::TakeOver);
    assert_eq!(bench.job().id, id);
    assert_eq!(bench.job().name, "by the other page");
}

#[test]
fn what_a_page_could_not_keep_before_it_was_taken_over_comes_back_with_it() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    bench.phone.storage.fill();
    bench.send(Intent::Rename("not kept".to_owned()));
    bench.phone.storage.open_elsewhere();
    bench.settle();
    bench.phone.storage.heal();
    store(&mut bench, StoreIntent::TakeOver);
    assert_eq!(bench.job().name, "not kept");
    assert_eq!(bench.not_saved(), Some("storage-full"));
    bench.send(Intent::SaveAgain);
    assert!(bench.saved());
}

/// A day with every kind of write: records, settings, pictures, a visit,
/// deletion and way back, deletion for good.
fn a_day(bench: &mut Bench) {
    scenario::to_marks(bench);
    photo(bench);
    bench.send(Intent::Rename("Scar End van".to_owned()));
    bench.send(Intent::CameAgain("False alarm".to_owned()));
    let id = bench.job().id.clone();
    bench.send(Intent::SaveAgain);
    bench.send(Intent::GoJobs);
    bench.send(Intent::DeleteJob(id.clone()));
    bench.send(Intent::RestoreJob(id.clone()));
    bench.send(Intent::DeleteJob(id.clone()));
    erase(bench, EraseWhat::Job(id));
}

/// Whether every record has its brief and every brief its record, and the
/// brief says what the record says.
fn assert_whole(records: &BTreeMap<String, String>, when: &str) {
    let jobs = |key: &&String| key.starts_with("job/") || key.starts_with("trash/");
    for key in records.keys().filter(jobs) {
        let brief = records.get(&format!("{BRIEF_PREFIX}{key}"));
        let sum = format!("{:x}", rakeline_core::json::sum(&records[key]));
        assert!(
            brief.is_some_and(|brief| brief.ends_with(&sum)),
            "{when}: {key}"
        );
    }
    let briefs = records
        .keys()
        .filter_map(|key| key.strip_prefix(BRIEF_PREFIX));
    for key in briefs {
        assert!(records.contains_key(key), "{when}: {key}");
    }
    let count = |prefix: &str| records.keys().filter(|key| key.starts_with(prefix)).count();
    assert!(
        count("job/") + count("trash/") <= 1,
        "{when}: in two places"
    );
}

#[test]
fn each_single_write_may_fail_once_and_the_store_is_before_or_after_it_never_between() {
    let mut whole = Bench::new();
    a_day(&mut whole);
    let (commits, pictures) = (
        whole.phone.storage.commits(),
        whole.phone.storage.pictures(),
    );
    assert!(commits > 10 && pictures == 1);
    let torn = || StorageFault::Failed("torn".to_owned());
    for nth in 1..=commits + pictures {
        let mut bench = Bench::new();
        let storage = bench.phone.storage.clone();
        if nth <= commits {
            storage.fail_commit(nth, torn());
        } else {
            storage.fail_picture(nth - commits, torn());
        }
        a_day(&mut bench);
        assert_whole(&storage.records(), &format!("write {nth} failed"));
        let after = bench.killed();
        assert_eq!(after.app.unreadable, [], "write {nth} failed");
        assert_eq!(after.app.lost, [], "write {nth} failed");
        let open = |app: &rakeline::driver::AppState| (app.jobs.clone(), app.trash.clone());
        if bench.app.open.is_none() {
            assert_eq!(open(&after.app), open(&bench.app), "write {nth} failed");
        }
    }
}
