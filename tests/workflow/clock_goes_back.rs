//! A clock that the fitter or the network sets back.

use chrono::TimeDelta;
use rakeline::driver::Intent;
use rakeline::platform::Clock;
use rakeline_core::job::ClockTrust;
use rakeline_core::report::job_sheet;

use crate::bench::Bench;
use crate::scenario::{self, FACES};
use crate::sheet_text::text_of;

fn set_back(bench: &Bench, minutes: i64) {
    let earlier = bench.phone.clock.now() - TimeDelta::minutes(minutes);
    bench.phone.clock.set(earlier, "Europe/Paris");
}

#[test]
fn the_order_of_events_is_kept_and_the_sheet_says_it() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.hold_to(FACES[0]);
    set_back(&bench, 90);
    for face in &FACES[1..] {
        bench.hold_to(*face);
    }
    let job = bench.job();
    let times: Vec<_> = job.spots.iter().map(|spot| spot.readings[0].at).collect();
    assert!(times.is_sorted());
    assert_eq!(job.clock, ClockTrust::WentBack { minutes: 90 });
    let text = text_of(&job_sheet(job, job.changed, "Europe/Paris"));
    assert!(text.contains("went back by 90 minutes"), "{text}");
}

#[test]
fn a_step_back_does_not_forget_that_the_clock_went_back() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    set_back(&bench, 30);
    bench.hold_to(FACES[0]);
    bench.send(Intent::Undo);
    assert_eq!(bench.job().clock, ClockTrust::WentBack { minutes: 30 });
    assert!(bench.job().changed > bench.phone.clock.now());
}

#[test]
fn a_job_changed_after_its_sheet_under_a_clock_set_back_is_not_the_issued_one() {
    let mut bench = Bench::new();
    scenario::to_sheet(&mut bench);
    set_back(&bench, 30);
    bench.send(Intent::Rename("Another name".to_owned()));
    assert_eq!(bench.job().sheets[0].at, bench.job().changed);
    assert_eq!(bench.job().issued(), None);
}

#[test]
fn the_reading_goes_on_while_the_date_jumps() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.carry(rakeline_core::units::Millis(600.0));
    bench.rest_on(FACES[0], rakeline_core::units::Millis(300.0));
    set_back(&bench, 60 * 24 * 400);
    bench.rest_on(FACES[0], rakeline_core::units::Millis(1200.0));
    assert_eq!(bench.readings(), [1, 0, 0, 0]);
}
