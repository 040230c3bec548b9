//! What a backup brings that is not what its name says, and backups that
//! never left the phone.

use rakeline::backup::Brings;
use rakeline::driver::{BackupIntent, Intent, Whole};
use rakeline::platform::Shared;
use rakeline::platform::memory::MemoryPlatform;
use rakeline_core::units::Millis;

use crate::backup::{backup, fault, full_phone, look, made, open_elsewhere, plan};
use crate::backup_bad::zip;
use crate::bench::Bench;
use crate::scenario;
use crate::store::photo;

const KIT: &str = include_str!("../../assets/kits/plain-four.json");

fn odd(bench: &Bench) -> Vec<&str> {
    let odd = plan(bench).odd.iter();
    odd.map(|(_, why)| &*why.key).collect()
}

#[test]
fn settings_kit_sheets_and_jobs_put_by_of_a_wrong_type_are_named_and_left_out() {
    let mut bench = Bench::on(MemoryPlatform::new());
    let file = zip(&[
        ("settings.json", b"[]"),
        ("kits/k1.json", b"[1]"),
        ("kits/k2.json", b"{\"name\":\"no sheet\"}"),
        ("kits/k3.json", KIT.as_bytes()),
        ("kits/k4.json", b"{\"rakeline_kit\":77,\"all\":\"new\"}"),
        ("before/a1/1/2.json", b"{}"),
        ("before/a1/1.json", b"\xff\xd8"),
    ]);
    look(&mut bench, file, "");
    assert_eq!(
        odd(&bench),
        [
            "backup-bad-settings",
            "kit-fault-not-a-kit-sheet",
            "kit-fault-not-a-kit-sheet",
            "backup-bad-id",
            "backup-not-text"
        ]
    );
    backup(&mut bench, BackupIntent::TakeIn(Brings::It));
    let records = bench.phone.storage.records();
    let kits = records.keys().filter(|key| key.starts_with("kit/"));
    assert_eq!(kits.collect::<Vec<_>>(), ["kit/k3", "kit/k4"]);
    assert_ne!(records.get("settings").map(String::as_str), Some("[]"));
}

#[test]
fn a_picture_whose_key_leads_elsewhere_is_named_and_the_rest_is_taken_in_to_its_end() {
    let mut donor = Bench::new();
    scenario::to_sheet(&mut donor);
    let blob = photo(&mut donor).expect("a photo");
    let id = donor.job().id.0.clone();
    let text = donor.phone.storage.records()[&format!("job/{id}")].replace(&blob, "a/b");
    let mut bench = Bench::on(MemoryPlatform::new());
    let name = format!("jobs/{id}.json");
    let file = zip(&[
        ("photos/a/b.jpg", &[0xff, 0xd8, 1]),
        ("photos/...jpg", &[0xff, 0xd8, 1]),
        (&name, text.as_bytes()),
    ]);
    look(&mut bench, file, "");
    assert_eq!(odd(&bench), ["backup-bad-picture", "backup-bad-picture"]);
    backup(&mut bench, BackupIntent::TakeIn(Brings::It));
    assert_eq!(bench.app.backup.fault, None);
    assert_eq!(bench.app.jobs.len(), 1);
    assert_eq!(bench.phone.storage.blobs(), [""; 0]);
}

#[test]
fn kit_sheets_stand_once_on_the_shelf_after_a_backup_was_taken_in() {
    let bench = Bench::new();
    bench.phone.storage.plant("kit/k1", KIT);
    bench.phone.storage.plant("kit/k2", "no sheet");
    let mut bench = bench.killed();
    let file = zip(&[("kits/k3.json", KIT.as_bytes())]);
    look(&mut bench, file, "");
    backup(&mut bench, BackupIntent::TakeIn(Brings::Nothing));
    bench.read_kits();
    bench.settle();
    assert_eq!(bench.app.kits.own.len(), 2);
    assert_eq!(bench.app.kits.unreadable.len(), 1);
}

#[test]
fn photos_come_only_with_the_side_of_a_job_that_is_taken() {
    let mut donor = Bench::new();
    scenario::to_sheet(&mut donor);
    let id = donor.job().id.0.clone();
    let key = format!("job/{id}");
    let old = donor.phone.storage.records()[&key].clone();
    donor.pass(Millis(60_000.0));
    let blob = photo(&mut donor).expect("a photo");
    let new = donor.phone.storage.records()[&key].clone();
    donor.pass(Millis(60_000.0));
    donor.send(Intent::Undo);
    let newest = donor.phone.storage.records()[&key].clone();
    assert!(new.contains(&blob) && !newest.contains(&blob));
    let (job, picture) = (format!("jobs/{id}.json"), format!("photos/{blob}.jpg"));
    let bytes: &[u8] = &[0xff, 0xd8, 1];
    let on = |text: &str| {
        let phone = Bench::on(MemoryPlatform::new());
        phone.phone.storage.plant(&key, text);
        phone.killed()
    };
    // The one here is newer and has dropped the photo: none is offered.
    let mut bench = on(&newest);
    look(
        &mut bench,
        zip(&[(&picture, bytes), (&job, new.as_bytes())]),
        "",
    );
    assert_eq!(plan(&bench).photos, [""; 0]);
    assert!(!plan(&bench).brings(Brings::Nothing));
    // The one here is newer and names the photo, which is gone: it comes.
    let mut bench = on(&new);
    look(
        &mut bench,
        zip(&[(&picture, bytes), (&job, old.as_bytes())]),
        "",
    );
    assert_eq!(plan(&bench).photos, std::slice::from_ref(&blob));
    // The one there is newer: its photo comes with it, not without.
    let file = zip(&[(&picture, bytes), (&job, new.as_bytes())]);
    for (choice, count) in [(Brings::Nothing, 0), (Brings::It, 1)] {
        let mut bench = on(&old);
        look(&mut bench, file.clone(), "");
        backup(&mut bench, BackupIntent::TakeIn(choice));
        assert_eq!(bench.phone.storage.blobs().len(), count);
    }
}

#[test]
fn a_backup_that_went_nowhere_is_none_and_one_handed_over_is_said_so() {
    let mut bench = full_phone();
    for (end, why) in [
        (Shared::Dismissed, "backup-not-sent"),
        (Shared::NoTaker, "share-no-taker"),
        (Shared::Failed("no".to_owned()), "share-failed"),
    ] {
        bench.phone.share.end_next(end);
        backup(&mut bench, BackupIntent::Make(Whole::Open));
        assert_eq!(fault(&bench), why);
        assert_eq!(bench.app.settings.backed_up, None);
    }
    bench.phone.share.end_next(Shared::HandedOver);
    made(&mut bench, Whole::Open);
    assert_eq!(bench.notice(), Some("backup-handed-over"));
    assert!(bench.app.settings.backed_up.is_some());
}

#[test]
fn one_job_without_a_passphrase_takes_no_other_job_along() {
    let mut bench = full_phone();
    let id = bench.app.jobs[0].id.clone();
    let file = made(&mut bench, Whole::JobOpen(id.clone()));
    let opened = open_elsewhere(&file, None);
    let names = opened["texts"].as_object().expect("texts").keys();
    let jobs: Vec<&String> = names.filter(|name| name.starts_with("jobs/")).collect();
    assert_eq!(jobs, [&format!("jobs/{}.json", id.0)]);
    assert_eq!(bench.app.settings.backed_up, None);
}
