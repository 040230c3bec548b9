//! Stored texts that can't be read: kept, named, never overwritten.

use rakeline::driver::{Intent, KEPT_SETTINGS_KEY, SETTINGS_KEY};
use rakeline::platform::memory::MemoryPlatform;
use rakeline_core::job::JobId;

use crate::bench::Bench;
use crate::scenario;

/// A phone that holds this text under this key.
fn holding(key: &str, text: &str) -> Bench {
    let phone = MemoryPlatform::new();
    phone.storage.plant(key, text);
    Bench::on(phone)
}

/// Does all kinds of work, then holds the text against what it was.
fn unchanged_by_any_work(mut bench: Bench, key: &str, text: &str) {
    scenario::to_sheet(&mut bench);
    let id = bench.job().id.clone();
    bench.send(Intent::GoJobs);
    bench.send(Intent::DeleteJob(id.clone()));
    bench.send(Intent::RestoreJob(id));
    let bad = JobId(key.split_once('/').map_or(key, |(_, id)| id).to_owned());
    for intent in [
        Intent::OpenJob(bad.clone()),
        Intent::DeleteJob(bad.clone()),
        Intent::RestoreJob(bad),
        Intent::GoJobs,
    ] {
        bench.send(intent);
    }
    assert_eq!(bench.phone.storage.records()[key], text);
    let after = bench.killed();
    assert_eq!(after.phone.storage.records()[key], text);
    assert_eq!(after.app.unreadable.len(), 1, "still named");
}

#[test]
fn a_broken_off_job_is_named_and_stays_byte_for_byte() {
    let text = "{\"version\":1,\"job\":{\"id\":\"00";
    let bench = holding("job/broken", text);
    let named = &bench.app.unreadable[0];
    assert_eq!(
        (named.key.as_str(), &*named.why.key),
        ("job/broken", "record-not-a-record")
    );
    unchanged_by_any_work(bench, "job/broken", text);
}

#[test]
fn a_job_that_does_not_fit_its_version_is_named_and_stays() {
    let text = "{ \"version\": 1, \"job\": {\"id\": \"odd\"} }";
    let bench = holding("job/odd", text);
    assert_eq!(bench.app.unreadable[0].why.key, "record-damaged");
    unchanged_by_any_work(bench, "job/odd", text);
}

#[test]
fn a_record_of_a_newer_version_is_named_and_stays() {
    let text = "{\"version\":7,\"job\":{\"all\":\"new\"}}";
    let bench = holding("job/newer", text);
    let why = &bench.app.unreadable[0].why;
    assert_eq!(why.key, "record-newer");
    unchanged_by_any_work(bench, "job/newer", text);
}

#[test]
fn a_deleted_job_that_cannot_be_read_is_named_and_stays() {
    let bench = holding("trash/broken", "no JSON at all");
    unchanged_by_any_work(bench, "trash/broken", "no JSON at all");
}

#[test]
fn a_record_in_the_place_of_another_job_is_named_and_neither_is_overwritten() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let id = bench.job().id.clone();
    let text = bench.phone.storage.records()[&format!("job/{}", id.0)].clone();
    bench.send(Intent::GoJobs);
    bench.phone.storage.plant("job/astray", &text);
    let mut bench = bench.killed();
    assert_eq!(bench.app.unreadable[0].why.key, "record-of-another-job");
    assert_eq!(bench.app.jobs.len(), 1);
    bench.send(Intent::OpenJob(JobId("astray".to_owned())));
    assert_eq!(bench.notice(), Some("record-of-another-job"));
    assert_eq!(bench.phone.storage.records()["job/astray"], text);
}

#[test]
fn a_job_is_not_deleted_onto_a_record_that_cannot_be_read() {
    let mut bench = Bench::new();
    scenario::to_marks(&mut bench);
    let id = bench.job().id.clone();
    let key = format!("trash/{}", id.0);
    bench.send(Intent::GoJobs);
    bench.phone.storage.plant(&key, "precious");
    let mut bench = bench.killed();
    bench.send(Intent::DeleteJob(id));
    assert_eq!(bench.notice(), Some("record-kept"));
    assert_eq!(bench.phone.storage.records()[&key], "precious");
    assert_eq!(bench.app.jobs.len(), 1);
}

#[test]
fn broken_settings_are_put_by_and_what_can_be_read_of_them_is_used() {
    let text = r#"{"last_kit":{"made":"by hand"},"fitter":"A. Beck"}"#;
    let mut bench = holding(SETTINGS_KEY, text);
    bench.send(Intent::StartJob(bench.new_id()));
    let fitter = rakeline_core::job::Particular::Fitter;
    assert_eq!(bench.job().particular(fitter), "A. Beck");
    assert!(bench.saved());
    let records = bench.phone.storage.records();
    assert_eq!(records[KEPT_SETTINGS_KEY], text);
    assert_ne!(records[SETTINGS_KEY], text);
}

#[test]
fn settings_that_are_no_json_start_anew_and_are_put_by_once() {
    let mut bench = holding(SETTINGS_KEY, "}{");
    scenario::to_sheet(&mut bench);
    assert_eq!(bench.phone.storage.records()[KEPT_SETTINGS_KEY], "}{");
    let after = bench.killed();
    assert_eq!(after.app.settings.fitter, "A. Beck, Beckside Workshop");
    assert_eq!(after.app.broken_settings, None);
}

#[test]
fn broken_settings_are_put_by_before_any_other_commit_and_their_logo_stays() {
    let text = "{\"fitter\":5,\"logo\":{\"blob\":\"logo-17\"}}";
    let bench = holding(SETTINGS_KEY, text);
    let storage = &bench.phone.storage;
    storage.plant_picture("logo-17", &[0xff, 0xd8, 1]);
    // A record without its brief: the start commits one.
    let mut donor = Bench::new();
    scenario::to_marks(&mut donor);
    let id = donor.job().id.0.clone();
    let key = format!("job/{id}");
    storage.plant(&key, &donor.phone.storage.records()[&key]);
    let mut after = bench.killed();
    let records = after.phone.storage.records();
    assert!(records.contains_key(&format!("brief/{key}")));
    assert_eq!(records[KEPT_SETTINGS_KEY], text);
    after.send(Intent::StartJob(after.new_id()));
    assert_eq!(after.phone.storage.records()[KEPT_SETTINGS_KEY], text);
    assert_eq!(after.killed().phone.storage.blobs(), ["logo-17"]);
}
