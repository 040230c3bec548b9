//! Backup and the way back: opened and made by other people's programs,
//! merged without a loss, and refused where something is wrong with it.

use std::collections::BTreeMap;

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use rakeline::backup::{Brings, Plan, Verdict};
use rakeline::driver::{BackupIntent, Intent, WayBack, Whole};
use rakeline::platform::StorageFault;
use rakeline::platform::memory::MemoryPlatform;
use rakeline_core::units::Millis;
use rakeline_tests::oracle;
use serde_json::{Value, json};

use crate::bench::Bench;
use crate::job_list::three;
use crate::scenario;
use crate::store::photo;

pub(crate) const PASSPHRASE: &str = "nine small tarns, one beck";

pub(crate) fn backup(bench: &mut Bench, said: BackupIntent) {
    bench.send(Intent::Backup(said));
}

/// A phone with three jobs, one of them with a photo and an issued sheet,
/// and one that was deleted.
pub(crate) fn full_phone() -> Bench {
    let mut bench = three();
    scenario::to_sheet(&mut bench);
    photo(&mut bench);
    bench.send(Intent::IssueSheet);
    bench.send(Intent::GoJobs);
    let last = bench.app.jobs.last().expect("a job").id.clone();
    bench.send(Intent::DeleteJob(last));
    bench
}

/// Makes a backup and gives its bytes.
pub(crate) fn made(bench: &mut Bench, whole: Whole) -> Vec<u8> {
    backup(bench, BackupIntent::Typed(PASSPHRASE.to_owned()));
    backup(bench, BackupIntent::Make(whole));
    assert_eq!(bench.app.backup.fault, None);
    let files = bench.phone.share.files();
    files.last().expect("a file").bytes.clone()
}

/// Chooses a file and looks into it.
pub(crate) fn look(bench: &mut Bench, bytes: Vec<u8>, passphrase: &str) {
    bench.phone.files.will_choose("backup.zip.age", bytes);
    backup(bench, BackupIntent::Choose);
    backup(bench, BackupIntent::KeyTyped(passphrase.to_owned()));
    backup(bench, BackupIntent::Look);
}

pub(crate) fn plan(bench: &Bench) -> &Plan {
    match &bench.app.backup.back {
        WayBack::Planned(_, plan) => plan,
        other => panic!("no plan: {other:?}, {:?}", bench.app.backup.fault),
    }
}

pub(crate) fn fault(bench: &Bench) -> &str {
    &bench.app.backup.fault.as_ref().expect("refused").key
}

/// All that makes up jobs: records, briefs but for the time of deletion,
/// pictures with their bytes. That a backup was not taken in to its end is
/// none of them.
pub(crate) fn jobs_of(bench: &Bench) -> BTreeMap<String, Vec<u8>> {
    let storage = &bench.phone.storage;
    let records = storage.records().into_iter();
    let mut all: BTreeMap<String, Vec<u8>> = records
        .filter(|(key, _)| !key.starts_with("brief/trash/") && key != "restoring")
        .map(|(key, text)| (key, text.into_bytes()))
        .collect();
    for key in storage.blobs() {
        let bytes = storage.picture(&key).expect("a picture");
        all.insert(format!("picture {key}"), bytes);
    }
    all
}

pub(crate) fn open_elsewhere(bytes: &[u8], passphrase: Option<&str>) -> Value {
    let asked = json!({
        "do": "open", "file": STANDARD.encode(bytes), "passphrase": passphrase,
    });
    oracle::run("archive.py", &asked)
}

pub(crate) fn made_elsewhere(
    entries: &[(String, Vec<u8>)],
    passphrase: Option<&str>,
    way: &str,
) -> Vec<u8> {
    let entries: Vec<Value> = entries
        .iter()
        .map(|(name, bytes)| json!([name, STANDARD.encode(bytes)]))
        .collect();
    let asked = json!({
        "do": "make", "entries": entries, "passphrase": passphrase, "way": way,
    });
    let answer = oracle::run("archive.py", &asked);
    STANDARD
        .decode(answer["file"].as_str().expect("a file"))
        .expect("base64")
}

fn entries_of(opened: &Value) -> Vec<(String, Vec<u8>)> {
    let texts = opened["texts"].as_object().expect("texts");
    texts
        .iter()
        .map(|(name, text)| {
            let bytes = STANDARD
                .decode(text.as_str().expect("base64"))
                .expect("base64");
            (name.clone(), bytes)
        })
        .collect()
}

#[test]
fn a_locked_backup_is_opened_by_pyrage_and_zipfile_and_holds_every_byte() {
    let mut bench = full_phone();
    let bytes = made(&mut bench, Whole::Locked);
    assert!(bytes.starts_with(b"age-encryption.org/v1\n"));
    let opened = open_elsewhere(&bytes, Some(PASSPHRASE));
    assert_eq!(opened["bad"], Value::Null);
    let entries: BTreeMap<String, Vec<u8>> = entries_of(&opened).into_iter().collect();
    for (key, text) in bench.phone.storage.records() {
        let name = match key.split_once('/') {
            Some(("job", id)) => format!("jobs/{id}.json"),
            Some(("trash", id)) => format!("deleted/{id}.json"),
            Some(("kit", id)) => format!("kits/{id}.json"),
            _ => continue,
        };
        assert_eq!(entries[&name], text.into_bytes(), "{name}");
    }
    let blobs = bench.phone.storage.blobs();
    assert_eq!(blobs.len(), 1);
    let picture = bench.phone.storage.picture(&blobs[0]).expect("a picture");
    assert_eq!(entries[&format!("photos/{}.jpg", blobs[0])], picture);
    let pdf = entries.iter().find(|(name, _)| name.starts_with("papers/"));
    assert!(pdf.is_some_and(|(_, bytes)| bytes.starts_with(b"%PDF-")));
    assert!(bench.app.settings.backed_up.is_some());
}

#[test]
fn an_open_backup_is_a_plain_zip() {
    let mut bench = full_phone();
    let bytes = made(&mut bench, Whole::Open);
    let opened = open_elsewhere(&bytes, None);
    assert_eq!(opened["bad"], Value::Null);
    assert!(opened["texts"]["rakeline.json"].is_string());
}

#[test]
fn an_empty_phone_gets_back_every_byte() {
    let mut bench = full_phone();
    let bytes = made(&mut bench, Whole::Locked);
    let mut other = Bench::on(MemoryPlatform::new());
    look(&mut other, bytes, PASSPHRASE);
    assert_eq!(plan(&other).count(Verdict::New), 4);
    backup(&mut other, BackupIntent::TakeIn(Brings::Nothing));
    assert_eq!(other.notice(), Some("restored"));
    let (mut here, mut there) = (jobs_of(&bench), jobs_of(&other));
    // The backup was made before it was noted that it was made.
    assert!(here.remove("settings").is_some() && there.remove("settings").is_some());
    assert_eq!(there, here);
    assert_eq!(other.app.jobs, bench.app.jobs);
    assert_eq!(other.killed().app.jobs, bench.app.jobs);
    assert_eq!(other.app.trash.len(), 1);
}

#[test]
fn archives_made_by_pyrage_and_zipfile_are_taken_in() {
    let mut bench = full_phone();
    let bytes = made(&mut bench, Whole::Open);
    let mut entries = entries_of(&open_elsewhere(&bytes, None));
    // Any order, and a file that is none of ours.
    entries.reverse();
    entries.push(("notes.txt".to_owned(), b"kept by the workshop".to_vec()));
    for (passphrase, way) in [
        (Some(PASSPHRASE), "deflated"),
        (None, "stored"),
        (None, "streamed"),
    ] {
        let foreign = made_elsewhere(&entries, passphrase, way);
        let mut other = Bench::on(MemoryPlatform::new());
        look(&mut other, foreign, passphrase.unwrap_or_default());
        assert_eq!(plan(&other).foreign, 1, "{way}");
        backup(&mut other, BackupIntent::TakeIn(Brings::Nothing));
        assert_eq!(other.app.jobs, bench.app.jobs, "{way}");
        assert_eq!(other.phone.storage.blobs().len(), 1, "{way}");
    }
}

#[test]
fn one_job_moves_by_its_own_file() {
    let mut bench = full_phone();
    let id = bench.app.jobs[0].id.clone();
    let bytes = made(&mut bench, Whole::JobLocked(id.clone()));
    assert!(
        bench.app.settings.backed_up.is_none(),
        "it is not everything"
    );
    let mut other = three();
    look(&mut other, bytes, PASSPHRASE);
    assert_eq!(plan(&other).jobs.len(), 1);
    backup(&mut other, BackupIntent::TakeIn(Brings::Nothing));
    assert_eq!(other.app.jobs.len(), 4);
    assert!(other.app.jobs.iter().any(|job| job.id == id));
}

#[test]
fn taken_in_twice_adds_nothing() {
    let mut bench = full_phone();
    let bytes = made(&mut bench, Whole::Locked);
    let before = jobs_of(&bench);
    look(&mut bench, bytes, PASSPHRASE);
    let plan = plan(&bench);
    assert_eq!(plan.count(Verdict::Same), 4);
    assert!(!plan.brings(Brings::It));
    backup(&mut bench, BackupIntent::TakeIn(Brings::It));
    assert_eq!(jobs_of(&bench), before);
}

/// A backup, then one job changed on each of two phones.
fn parted() -> (Bench, Bench, Vec<u8>) {
    let mut bench = three();
    let bytes = made(&mut bench, Whole::Locked);
    let mut other = Bench::on(MemoryPlatform::new());
    look(&mut other, bytes, PASSPHRASE);
    backup(&mut other, BackupIntent::TakeIn(Brings::Nothing));
    other.pass(Millis(600_000.0));
    bench.pass(Millis(600_000.0));
    let id = bench.app.jobs[0].id.clone();
    other.send(Intent::OpenJob(id));
    other.send(Intent::Rename("changed on the other phone".to_owned()));
    other.send(Intent::GoJobs);
    let bytes = made(&mut other, Whole::Locked);
    (bench, other, bytes)
}

#[test]
fn a_later_change_there_is_shown_and_taken_only_when_asked_and_the_older_is_put_by() {
    let (mut bench, _, bytes) = parted();
    let old = bench.app.jobs[0].clone();
    look(&mut bench, bytes.clone(), PASSPHRASE);
    assert_eq!(plan(&bench).count(Verdict::NewerThere), 1);
    backup(&mut bench, BackupIntent::TakeIn(Brings::Nothing));
    assert!(bench.app.jobs.contains(&old));
    look(&mut bench, bytes, PASSPHRASE);
    backup(&mut bench, BackupIntent::TakeIn(Brings::It));
    let names: Vec<&str> = bench.app.jobs.iter().map(|job| job.name.as_str()).collect();
    assert!(names.contains(&"changed on the other phone"), "{names:?}");
    let records = bench.phone.storage.records();
    let kept = format!("kept/job/{}/", old.id.0);
    let kept: Vec<_> = records
        .iter()
        .filter(|(key, _)| key.starts_with(&kept))
        .collect();
    assert_eq!(kept.len(), 1);
    assert_eq!(rakeline_core::json::sum(kept[0].1), old.sum);
}

#[test]
fn a_later_change_here_stays() {
    let (mut bench, _, bytes) = parted();
    bench.pass(Millis(600_000.0));
    let id = bench.app.jobs[0].id.clone();
    bench.send(Intent::OpenJob(id));
    bench.send(Intent::Rename("changed here later".to_owned()));
    bench.send(Intent::GoJobs);
    let before = jobs_of(&bench);
    look(&mut bench, bytes, PASSPHRASE);
    assert_eq!(plan(&bench).count(Verdict::NewerHere), 1);
    backup(&mut bench, BackupIntent::TakeIn(Brings::It));
    assert_eq!(jobs_of(&bench), before);
}

#[test]
fn a_job_deleted_here_stays_deleted() {
    let mut bench = three();
    let bytes = made(&mut bench, Whole::Locked);
    let id = bench.app.jobs[0].id.clone();
    bench.send(Intent::DeleteJob(id));
    look(&mut bench, bytes, PASSPHRASE);
    assert_eq!(plan(&bench).count(Verdict::DeletedHere), 1);
    backup(&mut bench, BackupIntent::TakeIn(Brings::It));
    assert_eq!((bench.app.jobs.len(), bench.app.trash.len()), (2, 1));
}

#[test]
fn a_record_of_a_newer_version_goes_out_and_comes_in_whole() {
    let mut bench = three();
    let text = "{\"version\":7,\"job\":{\"all\":\"new\"}}";
    bench.phone.storage.plant("job/newer", text);
    let bytes = made(&mut bench, Whole::Locked);
    let mut other = Bench::on(MemoryPlatform::new());
    look(&mut other, bytes, PASSPHRASE);
    assert_eq!(plan(&other).count(Verdict::New), 4);
    backup(&mut other, BackupIntent::TakeIn(Brings::Nothing));
    assert_eq!(other.phone.storage.records()["job/newer"], text);
    assert_eq!(other.app.unreadable[0].why.key, "record-newer");
}

#[test]
fn each_single_write_of_a_restore_may_fail_once_and_doing_it_again_ends_it() {
    let mut bench = full_phone();
    let bytes = made(&mut bench, Whole::Open);
    let mut whole = Bench::on(MemoryPlatform::new());
    look(&mut whole, bytes.clone(), "");
    backup(&mut whole, BackupIntent::TakeIn(Brings::Nothing));
    let storage = &whole.phone.storage;
    let (commits, pictures) = (storage.commits(), storage.pictures());
    assert!(commits > 4 && pictures == 1);
    let all = jobs_of(&whole);
    for nth in 1..=commits + pictures {
        let mut other = Bench::on(MemoryPlatform::new());
        let storage = other.phone.storage.clone();
        if nth <= commits {
            storage.fail_commit(nth, StorageFault::Full);
        } else {
            storage.fail_picture(nth - commits, StorageFault::Full);
        }
        look(&mut other, bytes.clone(), "");
        backup(&mut other, BackupIntent::TakeIn(Brings::Nothing));
        assert_eq!(fault(&other), "restore-broken-off", "write {nth}");
        for (key, text) in jobs_of(&other) {
            assert_eq!(all.get(&key), Some(&text), "write {nth}: {key}");
        }
        look(&mut other, bytes.clone(), "");
        backup(&mut other, BackupIntent::TakeIn(Brings::Nothing));
        assert_eq!(jobs_of(&other), all, "write {nth}");
    }
}

#[test]
fn a_passphrase_that_is_too_short_makes_no_backup() {
    let mut bench = three();
    backup(&mut bench, BackupIntent::Typed("short".to_owned()));
    backup(&mut bench, BackupIntent::Make(Whole::Locked));
    assert_eq!(fault(&bench), "backup-short");
    assert!(bench.phone.share.files().is_empty());
}

#[test]
fn a_phone_without_room_for_the_backup_says_so_and_hands_out_nothing() {
    let mut bench = three();
    bench.phone.share.full_after(1);
    backup(&mut bench, BackupIntent::Typed(PASSPHRASE.to_owned()));
    backup(&mut bench, BackupIntent::Make(Whole::Locked));
    assert_eq!(fault(&bench), "backup-not-written");
    assert!(bench.phone.share.files().is_empty());
    assert_eq!(bench.app.settings.backed_up, None);
}

#[test]
fn an_old_backup_is_reminded_of_once_jobs_changed_since() {
    let mut bench = three();
    let due = |bench: &Bench, days: i64| {
        let now = bench.app.jobs[0].changed + chrono::TimeDelta::days(days);
        rakeline::driver::backup_due(&bench.app, &now).map(|said| said.key.into_owned())
    };
    assert_eq!(due(&bench, 0).as_deref(), Some("backup-never"));
    made(&mut bench, Whole::Locked);
    assert_eq!(due(&bench, 40), None, "nothing changed since");
    bench.pass(Millis(60_000.0));
    let id = bench.app.jobs[0].id.clone();
    bench.send(Intent::OpenJob(id));
    bench.send(Intent::Rename("changed".to_owned()));
    bench.send(Intent::GoJobs);
    assert_eq!(due(&bench, 29), None);
    assert_eq!(due(&bench, 31).as_deref(), Some("backup-old"));
}
