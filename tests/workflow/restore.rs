//! What a backup brings beyond new jobs: damaged and newer records, photos
//! of every kind, settings, kit sheets, colleagues' files; and what happens
//! where it is broken off.

use std::cell::Cell;
use std::task::{Context, Poll, Waker};

use rakeline::backup::{BackupOf, Brings, Stop, Verdict, make};
use rakeline::driver::{BackupIntent, Boot, Intent, PutByWhy, StoreIntent, WayBack, Whole};
use rakeline::platform::memory::MemoryPlatform;
use rakeline::route::{Route, Step};
use rakeline_core::again::{TaughtBy, pass_on};
use rakeline_core::text::Message;
use rakeline_tests::again_cases::EARLIER;

use crate::again::job;
use crate::backup::{PASSPHRASE, backup, fault, full_phone, look, made, plan};
use crate::backup_bad::zip;
use crate::bench::Bench;
use crate::job_list::three;
use crate::scenario;
use crate::store::{photo, store};

fn take(bench: &mut Bench, newer: Brings) {
    backup(bench, BackupIntent::TakeIn(newer));
}

/// A fresh phone that took in this backup.
fn moved_to(bytes: Vec<u8>) -> Bench {
    let mut other = Bench::on(MemoryPlatform::new());
    look(&mut other, bytes, PASSPHRASE);
    take(&mut other, Brings::Nothing);
    assert_eq!(other.notice(), Some("restored"));
    other
}

/// The same record as a newer version would write it.
pub(crate) fn newer(text: &str) -> String {
    let version = format!("\"version\":{}}}", rakeline_core::record::VERSION);
    let rest = text.strip_suffix(&version).expect("the version comes last");
    format!("{rest}\"version\":99}}")
}

#[test]
fn a_photo_of_each_kind_comes_back_byte_for_byte() {
    let kinds: [&[u8]; 3] = [
        &[0xff, 0xd8, 0xff, 0xe0, 1],
        b"\x89PNG\r\n\x1a\n",
        b"RIFF\x06\0\0\0WEBPVP8 ",
    ];
    for bytes in kinds {
        let mut bench = Bench::new();
        scenario::to_marks(&mut bench);
        let blob = photo(&mut bench).expect("a photo");
        bench.phone.storage.plant_picture(&blob, bytes);
        bench.send(Intent::GoJobs);
        let file = made(&mut bench, Whole::Locked);
        let other = moved_to(file);
        let there = other.phone.storage.picture(&blob);
        assert_eq!(there.as_deref(), Some(bytes));
    }
}

#[test]
fn a_damaged_record_is_brought_back_when_asked_and_the_damaged_text_is_put_by() {
    let mut bench = three();
    let bytes = made(&mut bench, Whole::Locked);
    let id = bench.app.jobs[0].id.clone();
    let (key, damaged) = (format!("job/{}", id.0), "{\"version\":1,\"jo");
    bench.phone.storage.plant(&key, damaged);
    let mut bench = bench.killed();
    assert_eq!(bench.app.unreadable.len(), 1);
    look(&mut bench, bytes.clone(), PASSPHRASE);
    assert_eq!(plan(&bench).count(Verdict::UnreadableHere), 1);
    assert!(!plan(&bench).brings(Brings::Nothing));
    take(&mut bench, Brings::Nothing);
    assert_eq!(bench.phone.storage.records()[&key], damaged);
    look(&mut bench, bytes, PASSPHRASE);
    take(&mut bench, Brings::It);
    assert_eq!(bench.app.unreadable, []);
    assert_eq!(bench.app.jobs.len(), 3);
    let sum = rakeline_core::json::sum(damaged);
    let kept = format!("kept/{key}/restored-{sum:x}");
    assert_eq!(bench.phone.storage.records()[&kept], damaged);
    store(&mut bench, StoreIntent::PutBy);
    let all = bench.app.store.put_by.as_ref().expect("listed");
    assert_eq!((all.len(), all[0].why), (1, PutByWhy::Restored));
    assert_eq!(all[0].job, None);
}

#[test]
fn a_newer_versions_record_takes_the_place_of_an_older_one_only_when_asked() {
    let mut bench = three();
    let id = bench.app.jobs[0].id.clone();
    let key = format!("job/{}", id.0);
    let old = bench.phone.storage.records()[&key].clone();
    let file = made(&mut bench, Whole::Locked);
    let mut other = moved_to(file);
    other.phone.storage.plant(&key, &newer(&old));
    let bytes = made(&mut other, Whole::Locked);
    look(&mut bench, bytes.clone(), PASSPHRASE);
    assert_eq!(plan(&bench).count(Verdict::NewerVersionThere), 1);
    take(&mut bench, Brings::Nothing);
    assert_eq!(bench.phone.storage.records()[&key], old);
    look(&mut bench, bytes, PASSPHRASE);
    take(&mut bench, Brings::It);
    let records = bench.phone.storage.records();
    assert_eq!(records[&key], newer(&old));
    let sum = rakeline_core::json::sum(&old);
    assert_eq!(records[&format!("kept/{key}/restored-{sum:x}")], old);
    assert!(bench.app.unreadable[0].is_newer());
    // The older one never takes the place of the newer version's.
    let mut again = bench.killed();
    let donor = three();
    donor.phone.storage.plant(&key, &old);
    let bytes = made(&mut donor.killed(), Whole::Locked);
    look(&mut again, bytes, PASSPHRASE);
    assert_eq!(plan(&again).count(Verdict::UnreadableHere), 0);
    take(&mut again, Brings::It);
    assert_eq!(again.phone.storage.records()[&key], newer(&old));
}

#[test]
fn the_photos_of_a_newer_versions_record_come_along_in_both_kinds_of_backup() {
    let mut bench = three();
    let text = "{\"version\":77,\"job\":{\"all\":\"new\"}}";
    bench.phone.storage.plant("job/newer", text);
    let (blob, jpeg) = ("photo-newer-17", [0xff, 0xd8, 9]);
    bench.phone.storage.plant_picture(blob, &jpeg);
    let one = Whole::JobLocked(rakeline_core::job::JobId("newer".to_owned()));
    for whole in [Whole::Locked, one] {
        let file = made(&mut bench, whole);
        let other = moved_to(file);
        assert_eq!(other.phone.storage.records()["job/newer"], text);
        assert_eq!(other.phone.storage.picture(blob), Some(jpeg.to_vec()));
    }
}

/// A phone with one job, a kit sheet, a colleague's file, a fleet and
/// settings of its own.
fn workshop(fitter: &str, kit: &str) -> Bench {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    bench.app.settings.fitter = fitter.to_owned();
    bench.send(Intent::SaveAgain);
    bench.send(Intent::GoJobs);
    bench.phone.storage.plant("kit/k1", kit);
    bench
}

const KIT: &str = include_str!("../../assets/kits/plain-four.json");
const OTHER_KIT: &str = include_str!("../../assets/kits/metal-four.json");

#[test]
fn settings_and_kit_sheets_that_differ_are_named_and_taken_only_when_asked() {
    let mut donor = workshop("A. Beck", KIT);
    let bytes = made(&mut donor, Whole::Locked);
    let mut bench = workshop("B. Ghyll", OTHER_KIT);
    let before = bench.phone.storage.records();
    look(&mut bench, bytes.clone(), PASSPHRASE);
    assert!(plan(&bench).settings_differ.is_some());
    let kits: Vec<&str> = plan(&bench)
        .kits_differ
        .iter()
        .map(|kit| &*kit.name)
        .collect();
    assert_eq!(kits, ["Bench kit P4 (invented)"]);
    take(&mut bench, Brings::It);
    let after = bench.phone.storage.records();
    for key in ["settings", "kit/k1"] {
        assert_eq!(after[key], before[key], "{key}");
    }
    look(&mut bench, bytes, PASSPHRASE);
    backup(&mut bench, BackupIntent::TakeTheirs(Brings::It));
    take(&mut bench, Brings::Nothing);
    assert_eq!(bench.app.settings.fitter, "A. Beck");
    let after = bench.phone.storage.records();
    assert_eq!(after["kit/k1"], KIT);
    let kept = |prefix: &str| {
        let mut kept = after.iter().filter(|(key, _)| key.starts_with(prefix));
        kept.next().map(|(_, text)| text.clone())
    };
    assert_eq!(kept("kept/kit/k1/").as_ref(), Some(&before["kit/k1"]));
    assert_eq!(kept("kept/settings/").as_ref(), Some(&before["settings"]));
}

#[test]
fn what_is_this_phones_own_makes_no_settings_differ_and_is_never_taken() {
    let mut donor = workshop("A. Beck", KIT);
    donor.app.settings.phone.name = "the other phone".to_owned();
    made(&mut donor, Whole::Locked);
    let bytes = made(&mut donor, Whole::Locked);
    let mut bench = workshop("A. Beck", KIT);
    look(&mut bench, bytes.clone(), PASSPHRASE);
    assert_eq!(plan(&bench).settings_differ, None);
    assert!(plan(&bench).kits_differ.is_empty());
    let mut bench = workshop("B. Ghyll", KIT);
    look(&mut bench, bytes, PASSPHRASE);
    backup(&mut bench, BackupIntent::TakeTheirs(Brings::It));
    take(&mut bench, Brings::Nothing);
    assert_eq!(bench.app.settings.fitter, "A. Beck");
    assert_eq!(bench.app.settings.phone.name, "");
}

#[test]
fn colleagues_files_and_fleets_move_along() {
    let mut donor = workshop("A. Beck", KIT);
    let passed = pass_on(&[job(&EARLIER)], TaughtBy::default(), &[], "").expect("a file");
    donor.phone.storage.plant("again/c1", &passed);
    donor.phone.storage.plant("again/bad", "{\"no\":\"file\"}");
    let fleet = rakeline_core::again::Fleet {
        id: "f1".to_owned(),
        vehicle: "Tarn Carrier".to_owned(),
        count: 3,
        from: Vec::new(),
        jobs: Vec::new(),
        theirs: Vec::new(),
        left_out: Vec::new(),
    };
    donor.app.settings.fleets.push(fleet.clone());
    // With the settings that the next backup notes in the store.
    made(&mut donor, Whole::Locked);
    let bytes = made(&mut donor, Whole::Locked);
    let mut bench = workshop("A. Beck", KIT);
    look(&mut bench, bytes.clone(), PASSPHRASE);
    assert_eq!((plan(&bench).passed.len(), plan(&bench).fleets), (1, 1));
    assert_eq!(plan(&bench).odd.len(), 1, "the one that is none");
    take(&mut bench, Brings::Nothing);
    assert_eq!(bench.phone.storage.records()["again/c1"], passed);
    assert_eq!(bench.app.settings.fleets, [fleet]);
    look(&mut bench, bytes, PASSPHRASE);
    assert!(!plan(&bench).brings(Brings::It), "nothing twice");
}

#[test]
fn a_restore_that_is_broken_off_is_named_at_the_next_start_until_it_is_done_or_left() {
    let mut donor = full_phone();
    let bytes = made(&mut donor, Whole::Locked);
    let mut bench = Bench::on(MemoryPlatform::new());
    let file = bench
        .phone
        .files
        .will_choose("drain.zip.age", bytes.clone());
    backup(&mut bench, BackupIntent::Choose);
    backup(&mut bench, BackupIntent::KeyTyped(PASSPHRASE.to_owned()));
    backup(&mut bench, BackupIntent::Look);
    file.tear_at(0);
    take(&mut bench, Brings::Nothing);
    assert_eq!(fault(&bench), "restore-broken-off");
    let mut bench = bench.killed();
    assert_eq!(bench.app.store.half.as_deref(), Some("drain.zip.age"));
    let mut left = bench.killed();
    store(&mut left, StoreIntent::LeaveHalf);
    assert_eq!(left.killed().app.store.half, None);
    look(&mut bench, bytes, PASSPHRASE);
    take(&mut bench, Brings::Nothing);
    assert_eq!(bench.app.store.half, None);
    assert_eq!(bench.killed().app.store.half, None);
}

#[test]
fn a_page_that_is_taken_over_stops_taking_in() {
    let mut donor = full_phone();
    let bytes = made(&mut donor, Whole::Open);
    let mut bench = Bench::on(MemoryPlatform::new());
    look(&mut bench, bytes, "");
    bench.phone.storage.hold();
    take(&mut bench, Brings::Nothing);
    assert!(matches!(bench.app.backup.back, WayBack::Taking(..)));
    bench.phone.storage.open_elsewhere();
    bench.settle();
    assert_eq!(bench.app.boot, Boot::Elsewhere);
    bench.phone.storage.release();
    bench.settle();
    let keys: Vec<String> = bench.phone.storage.records().into_keys().collect();
    assert_eq!(keys, ["restoring"], "the write under way, and no more");
}

#[test]
fn going_back_to_a_job_while_a_backup_is_taken_in_opens_none() {
    let mut bench = three();
    let bytes = made(&mut full_phone(), Whole::Open);
    look(&mut bench, bytes, "");
    bench.phone.storage.hold();
    take(&mut bench, Brings::Nothing);
    let route = bench.app.route.clone();
    let id = bench.app.jobs[0].id.clone();
    bench.send(Intent::Popped(Route::Job(id, Step::Measures).path()));
    assert_eq!(bench.notice(), Some("restore-wait"));
    assert_eq!((&bench.app.opening, &bench.app.route), (&None, &route));
    bench.phone.storage.release();
    bench.settle();
    assert_eq!(bench.notice(), Some("restored"));
}

#[test]
fn stop_ends_the_way_back_between_two_jobs() {
    let mut bench = Bench::on(MemoryPlatform::new());
    let bytes = made(&mut full_phone(), Whole::Open);
    look(&mut bench, bytes, "");
    bench.phone.storage.hold();
    take(&mut bench, Brings::Nothing);
    backup(&mut bench, BackupIntent::Stop);
    bench.phone.storage.release();
    bench.settle();
    assert_eq!(fault(&bench), "restore-broken-off");
    assert_eq!(bench.app.jobs.len(), 0);
    assert!(bench.phone.share.files().is_empty());
}

#[test]
fn a_job_changed_here_since_it_was_shown_is_left_out_and_that_is_said() {
    let mut donor = full_phone();
    let bytes = made(&mut donor, Whole::Open);
    let mut bench = Bench::on(MemoryPlatform::new());
    look(&mut bench, bytes, "");
    let id = donor.app.jobs[0].id.0.clone();
    bench.phone.storage.plant(&format!("job/{id}"), "{}");
    take(&mut bench, Brings::Nothing);
    assert_eq!(bench.notice(), Some("restored-changed"));
    assert_eq!(bench.phone.storage.records()[&format!("job/{id}")], "{}");
}

#[test]
fn a_job_that_stands_in_a_backup_twice_comes_once() {
    let donor = three();
    let id = donor.app.jobs[0].id.0.clone();
    let text = donor.phone.storage.records()[&format!("job/{id}")].clone();
    let (first, second) = (format!("jobs/{id}.json"), format!("deleted/{id}.json"));
    let bytes = zip(&[(&first, text.as_bytes()), (&second, text.as_bytes())]);
    let mut bench = Bench::on(MemoryPlatform::new());
    look(&mut bench, bytes, "");
    assert_eq!(plan(&bench).count(Verdict::New), 1);
    assert_eq!(plan(&bench).odd[0].1.key, "backup-job-twice");
    take(&mut bench, Brings::It);
    assert_eq!((bench.app.jobs.len(), bench.app.trash.len()), (1, 0));
}

/// Makes an open backup of everything; `meanwhile` is called as it begins.
fn made_while(bench: &Bench, meanwhile: &dyn Fn(&Stop)) -> Result<usize, Message> {
    let platform = bench.phone.platform();
    let stop = Stop::default();
    let begun = Cell::new(false);
    let told = |_| {
        if !begun.replace(true) {
            meanwhile(&stop);
        }
    };
    let (of, now) = (BackupOf::All(None), bench.now().at);
    let settings = bench.app.settings.clone();
    let mut making = Box::pin(make(&platform, &of, &settings, now, &told, &stop));
    for _ in 0..100_000 {
        let mut context = Context::from_waker(Waker::noop());
        if let Poll::Ready(made) = making.as_mut().poll(&mut context) {
            return made.map(|made| made.jobs);
        }
    }
    panic!("the backup never ends");
}

#[test]
fn stop_ends_a_backup_and_hands_nothing_out() {
    let bench = full_phone();
    let stopped = made_while(&bench, &|stop| stop.set(true));
    assert_eq!(stopped.unwrap_err().key, "backup-stopped");
    assert!(bench.phone.share.files().is_empty());
}

#[test]
fn a_job_that_is_moved_to_the_deleted_ones_while_a_backup_is_made_is_in_it() {
    let bench = three();
    let id = bench.app.jobs[0].id.0.clone();
    let storage = bench.phone.storage.clone();
    let made = made_while(&bench, &|_| {
        let text = storage.records()[&format!("job/{id}")].clone();
        storage.plant(&format!("trash/{id}"), &text);
        storage.lose(&format!("job/{id}"));
    });
    assert_eq!(made, Ok(3));
    let files = bench.phone.share.files();
    let mut other = Bench::on(MemoryPlatform::new());
    look(&mut other, files.last().expect("a file").bytes.clone(), "");
    take(&mut other, Brings::Nothing);
    assert_eq!((other.app.jobs.len(), other.app.trash.len()), (2, 1));
}
