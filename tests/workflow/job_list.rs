//! The list of jobs: what is found, how it is ordered, what it is kept by.

use std::pin::pin;
use std::task::{Context, Poll, Waker};

use rakeline::driver::{BRIEF_PREFIX, Intent, ListIntent, SHOWN, SortBy, listed, read_store};
use rakeline::platform::memory::{MemoryPlatform, MemoryStorage};
use rakeline_core::job::{JobEvent, JobId, Particular, Standing, StandingEvent};
use rakeline_core::units::Millis;

use crate::bench::Bench;
use crate::scenario;

/// Three jobs of two customers, started a minute after one another.
pub(crate) fn three() -> Bench {
    let mut bench = Bench::new();
    for (name, customer, vehicle, plate) in [
        ("Dent", "Fell & Ghyll", "Tarn Carrier, 2023", "FG 12 TARN"),
        ("", "beck farm", "Moor Van", "BF-7 MOOR"),
        (
            "Ghyll's second",
            "Fell & Ghyll",
            "Tarn Carrier, 2019",
            "FG 3 OLD",
        ),
    ] {
        bench.send(Intent::StartJob(bench.new_id()));
        bench.send(Intent::Rename(name.to_owned()));
        for (which, text) in [
            (Particular::Customer, customer),
            (Particular::Vehicle, vehicle),
            (Particular::Plate, plate),
        ] {
            bench.send(Intent::Particular(which, text.to_owned()));
        }
        bench.pass(Millis(60_000.0));
        bench.send(Intent::GoJobs);
    }
    bench
}

fn plates(bench: &Bench) -> Vec<&str> {
    let rows = listed(&bench.app).rows;
    rows.into_iter().map(|row| row.plate.as_str()).collect()
}

fn search(bench: &mut Bench, words: &str) -> Vec<String> {
    bench.send(Intent::List(ListIntent::Words(words.to_owned())));
    plates(bench).into_iter().map(str::to_owned).collect()
}

#[test]
fn jobs_are_found_by_customer_plate_vehicle_kit_name_and_day() {
    let mut bench = three();
    assert_eq!(plates(&bench), ["FG 3 OLD", "BF-7 MOOR", "FG 12 TARN"]);
    assert_eq!(search(&mut bench, "FELL"), ["FG 3 OLD", "FG 12 TARN"]);
    assert_eq!(search(&mut bench, "fell dent"), ["FG 12 TARN"]);
    assert_eq!(
        search(&mut bench, "bf7m"),
        ["BF-7 MOOR"],
        "plate without gaps"
    );
    assert_eq!(search(&mut bench, "tarn 2019"), ["FG 3 OLD"]);
    assert_eq!(
        search(&mut bench, "  "),
        ["FG 3 OLD", "BF-7 MOOR", "FG 12 TARN"]
    );
    let kit = bench.app.jobs[0].kit.clone();
    assert_eq!(search(&mut bench, &kit).len(), 3);
    let year = rakeline_core::moment::sorted_date(&bench.app.jobs[0].created)[..4].to_owned();
    let day = rakeline_core::moment::sorted_date(&bench.app.jobs[0].created);
    assert_eq!(search(&mut bench, &year).len(), 3);
    assert_eq!(search(&mut bench, &day).len(), 3);
    assert_eq!(search(&mut bench, "1999"), [""; 0]);
    assert_eq!(search(&mut bench, "1999-01"), [""; 0]);
}

#[test]
fn a_job_is_found_by_the_end_of_its_vehicles_number_and_by_its_kits_serial_number() {
    let mut bench = three();
    let id = bench.app.jobs[0].id.clone();
    bench.send(Intent::OpenJob(id));
    for (which, text) in [
        (Particular::Vin, "ZFGT1A2B 3C4D55667"),
        (Particular::KitSerial, "KS-90417"),
    ] {
        bench.send(Intent::Particular(which, text.to_owned()));
    }
    bench.send(Intent::GoJobs);
    let plate = plates(&bench)[0].to_owned();
    assert_eq!(
        search(&mut bench, "3c4d55667"),
        std::slice::from_ref(&plate)
    );
    assert_eq!(search(&mut bench, "ks90417"), std::slice::from_ref(&plate));
    let mut bench = bench.killed();
    assert_eq!(search(&mut bench, "55667"), [plate], "also from its brief");
}

#[test]
fn jobs_are_filtered_by_standing_and_kit_and_all_come_back() {
    let mut bench = three();
    let id = bench.app.jobs[1].id.clone();
    bench.send(Intent::OpenJob(id));
    let paint = StandingEvent::Chosen(Standing::WaitingForPaint);
    bench.send(Intent::Fit(Box::new(JobEvent::Standing(paint))));
    bench.send(Intent::GoJobs);
    let only = ListIntent::Standing(Some(Standing::WaitingForPaint));
    bench.send(Intent::List(only));
    assert_eq!(plates(&bench), ["BF-7 MOOR"]);
    bench.send(Intent::List(ListIntent::Kit(Some(
        "no such kit".to_owned(),
    ))));
    assert_eq!(listed(&bench.app).found, 0);
    bench.send(Intent::List(ListIntent::Open));
    assert_eq!(listed(&bench.app).found, 3);
}

#[test]
fn jobs_are_ordered_as_wished() {
    let mut bench = three();
    let mut by = |sort| {
        bench.send(Intent::List(ListIntent::Sort(sort)));
        plates(&bench).join("|")
    };
    assert_eq!(by(SortBy::Started), "FG 3 OLD|BF-7 MOOR|FG 12 TARN");
    assert_eq!(by(SortBy::Customer), "BF-7 MOOR|FG 3 OLD|FG 12 TARN");
    assert_eq!(by(SortBy::Plate), "BF-7 MOOR|FG 12 TARN|FG 3 OLD");
    assert_eq!(by(SortBy::Vehicle), "BF-7 MOOR|FG 3 OLD|FG 12 TARN");
}

#[test]
fn a_thousand_jobs_open_from_their_briefs_and_every_record_is_looked_over_after_it() {
    let one = three();
    let mut records = one.phone.storage.records();
    let (key, text) = records
        .iter()
        .find(|(key, _)| key.starts_with("job/"))
        .map(|(key, text)| (key.clone(), text.clone()))
        .expect("a job");
    let id = key.trim_start_matches("job/").to_owned();
    let brief = records[&format!("{BRIEF_PREFIX}{key}")].clone();
    for n in 0..1_000 {
        let other = format!("job/feed{n:012x}");
        records.insert(format!("{BRIEF_PREFIX}{other}"), brief.clone());
        records.insert(other, text.replace(&id, &format!("feed{n:012x}")));
    }
    // A record that was read is named, for it says that it is broken: one
    // of the newest fifty and one far behind them.
    let broken = [7, 993].map(|n| format!("job/feed{n:012x}"));
    for key in &broken {
        records.insert(key.clone(), "not read at the start".to_owned());
    }
    let phone = MemoryPlatform::with(MemoryStorage::holding(records), "/");
    // No record is read for the list: the broken ones stand in it.
    let mut context = Context::from_waker(Waker::noop());
    let Poll::Ready(Ok(stored)) = pin!(read_store(&*phone.storage)).poll(&mut context) else {
        panic!("the store answers at once");
    };
    assert_eq!((stored.entries.len(), stored.records.len()), (1_003, 0));
    let mut bench = Bench::on(phone);
    assert_eq!(bench.app.jobs.len(), 1_001);
    let unreadable = bench.app.unreadable.iter().map(|one| &one.key);
    assert_eq!(unreadable.collect::<Vec<_>>(), [&broken[0], &broken[1]]);
    assert_eq!(listed(&bench.app).rows.len(), SHOWN);
    bench.send(Intent::List(ListIntent::More));
    assert_eq!(listed(&bench.app).rows.len(), 2 * SHOWN);
    bench.pass(Millis(3_600_000.0));
    bench.send(Intent::OpenJob(JobId(format!("feed{:012x}", 500))));
    bench.send(Intent::Rename("The five hundredth".to_owned()));
    assert!(bench.saved());
    assert_eq!(bench.app.jobs[0].name, "The five hundredth");
    assert_eq!(bench.killed().app.jobs, bench.app.jobs);
}

#[test]
fn a_store_of_an_earlier_version_gets_its_briefs_at_the_first_start() {
    let bench = three();
    let mut old = bench.phone.storage.records();
    old.retain(|key, _| !key.starts_with(BRIEF_PREFIX));
    let phone = MemoryPlatform::with(MemoryStorage::holding(old), "/");
    let after = Bench::on(phone);
    assert_eq!(after.app.jobs, bench.app.jobs);
    assert_eq!(after.phone.storage.records(), bench.phone.storage.records());
    assert_eq!(after.phone.storage.commits(), 1);
}

#[test]
fn an_entry_says_of_every_step_what_its_record_says() {
    let mut bench = Bench::new();
    scenario::to_sheet(&mut bench);
    let records = bench.phone.storage.records();
    let key = format!("job/{}", bench.job().id.0);
    let made = rakeline::driver::JobEntry::of(bench.job(), &records[&key]);
    assert_eq!(bench.app.jobs, [made]);
    assert_eq!(bench.app.jobs[0].standing, Standing::Done);
}

#[test]
fn jobs_between_two_days_are_those_started_or_changed_then() {
    let mut bench = three();
    let day = |at: &chrono::DateTime<chrono::FixedOffset>| rakeline_core::moment::sorted_date(at);
    let today = day(&bench.app.jobs[0].created);
    let found = |bench: &mut Bench, from: &str, to: &str| {
        bench.send(Intent::List(ListIntent::From(from.to_owned())));
        bench.send(Intent::List(ListIntent::To(to.to_owned())));
        listed(&bench.app).found
    };
    assert_eq!(found(&mut bench, &today, &today), 3);
    assert_eq!(found(&mut bench, "2000-01-01", "2000-12-31"), 0);
    assert_eq!(found(&mut bench, "2000-01-01", ""), 3);
    assert_eq!(found(&mut bench, "", "2000-12-31"), 0);
    assert_eq!(found(&mut bench, "9999-01-01", ""), 0);
    assert!(!bench.app.list.is_open());
    assert_eq!(found(&mut bench, "2027-01-01", "2026-01-01"), 0);
    assert!(bench.app.list.is_upside_down());
    assert_eq!(
        found(&mut bench, "no day", ""),
        3,
        "what is no day counts for none"
    );
    assert!(bench.app.list.is_open());
}
