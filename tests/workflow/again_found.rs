//! Same again: how a model is found and named, and what goes out again.

use rakeline::driver::{AgainIntent, Intent, Place, fitted_before};
use rakeline::route::Route;
use rakeline_core::decide::mark_out::{NoDrill, NoDrillReason};
use rakeline_core::job::{BeforeEvent, JobEvent, Particular, Row, holds_earlier_bumper};
use rakeline_core::record;
use rakeline_core::units::{Millimetres, Offset};
use rakeline_tests::again_cases::EARLIER;

use crate::again::{again, job, open_offer, start, with_jobs, with_records};
use crate::bench::Bench;
use crate::scenario;

#[test]
fn the_earlier_bumpers_areas_height_and_limits_can_be_dropped_with_it() {
    let mut first = job(&EARLIER);
    let at = first.changed;
    let area = NoDrill {
        from: Offset(-90.0),
        to: Offset(90.0),
        why: NoDrillReason::Plate,
    };
    let row = Row {
        from_line: Millimetres(-70.0),
        above_ground: Some(Millimetres(520.0)),
        line: None,
    };
    first.mark_out.no_drill.push(area.clone());
    first.mark_out.row = Some(row);
    first.changed = at;
    let mut bench = with_jobs(&[first]);
    start(&mut bench);
    let mark_out = |bench: &Bench| bench.job().mark_out.clone();
    assert_eq!(mark_out(&bench).no_drill, [area]);
    let handed = mark_out(&bench).row.expect("a height");
    assert_eq!(handed.from_line, row.from_line);
    assert_eq!(
        handed.above_ground, None,
        "each vehicle stands as it stands"
    );
    scenario::type_half_widths(&mut bench, "895", "893");
    assert!(holds_earlier_bumper(bench.job()));
    let dropped = JobEvent::Before(BeforeEvent::BumperDropped);
    bench.send(Intent::Fit(Box::new(dropped)));
    assert_eq!(mark_out(&bench).no_drill, []);
    assert_eq!(mark_out(&bench).row, None);
    assert!(!holds_earlier_bumper(bench.job()));
    bench.send(Intent::Undo);
    assert!(holds_earlier_bumper(bench.job()), "it can be taken back");
}

#[test]
fn letters_that_found_a_model_are_no_name_of_a_vehicle() {
    for (typed, named) in [
        ("tarn", EARLIER.vehicle),
        ("Tarn Carier van", EARLIER.vehicle),
        ("tarn 2024", "Tarn Carrier van 2024"),
        ("TARN carrier VAN", "TARN carrier VAN"),
    ] {
        let mut bench = with_jobs(&[job(&EARLIER)]);
        again(&mut bench, AgainIntent::Go);
        again(&mut bench, AgainIntent::Typed(typed.to_owned()));
        let key = bench.app.again.found()[0].1.key.clone();
        again(&mut bench, AgainIntent::Open(key));
        let id = bench.new_id();
        again(&mut bench, AgainIntent::Start(id));
        assert_eq!(bench.job().particular(Particular::Vehicle), named);
    }
}

#[test]
fn a_job_that_cannot_be_read_is_counted() {
    let good = job(&EARLIER);
    let text = record::write(&good).expect("can be written");
    let broken = (Place::Jobs.key(&good.id), text.clone());
    let mut bench = with_records([broken].into_iter());
    let cut = text[..text.len() / 2].to_owned();
    let key = Place::Jobs.key(&good.id);
    bench.phone.storage.plant(&key, &cut);
    open_offer(&mut bench);
    assert_eq!(bench.app.again.not_read, 1);
    assert_eq!(bench.app.again.offer, None);
}

#[test]
fn a_job_whose_vehicle_was_fitted_before_says_so_and_leads_there() {
    let mut bench = with_jobs(&[job(&EARLIER)]);
    let id = bench.new_id();
    bench.send(Intent::StartJob(id));
    assert_eq!(fitted_before(&bench.app), None);
    let name = "tarn carrier VAN 2023".to_owned();
    bench.send(Intent::Particular(Particular::Vehicle, name.clone()));
    let (jobs, newest) = fitted_before(&bench.app).expect("it was");
    assert_eq!((jobs, newest), (1, job(&EARLIER).changed));
    again(&mut bench, AgainIntent::GoFor(name.clone()));
    assert_eq!(bench.app.route, Route::Again);
    assert!(bench.app.again.offer.is_some());
    let id = bench.new_id();
    again(&mut bench, AgainIntent::Start(id));
    assert_eq!(bench.job().particular(Particular::Vehicle), name);
    assert_eq!(bench.app.jobs.len(), 2, "no second job of one vehicle");
    assert_eq!(fitted_before(&bench.app), None, "it has begun from it");
}

#[test]
fn of_two_thousand_jobs_those_of_the_years_wanted_are_read() {
    let one = record::write(&job(&EARLIER)).expect("can be written");
    let old = "Tarn Carrier van 2014";
    let records = (0..2000).map(|n| {
        let id = rakeline_core::job::JobId(format!("m{n:04}"));
        let named = format!("\"id\":\"{}\"", id.0);
        let mut text = one.replacen("\"id\":\"e1\"", &named, 1);
        if n < 5 {
            text = text.replacen(EARLIER.vehicle, old, 1);
        }
        (Place::Jobs.key(&id), text)
    });
    let mut bench = with_records(records);
    again(&mut bench, AgainIntent::Go);
    again(
        &mut bench,
        AgainIntent::Typed("tarn carrier van 2013-15".to_owned()),
    );
    let key = bench.app.again.found()[0].1.key.clone();
    again(&mut bench, AgainIntent::Open(key));
    let vehicles = bench.app.again.jobs.iter();
    let read = vehicles.filter(|job| job.particular(Particular::Vehicle) == old);
    assert_eq!(read.count(), 5, "all of those years");
    let best = bench.app.again.offer.clone().expect("an offer");
    assert_eq!(best.from[0].vehicle, old);
    assert!(
        best.warnings
            .iter()
            .all(|words| words.key != "again-years-apart")
    );
}
