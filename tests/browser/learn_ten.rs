//! The obstacle learn of a kit with ten cycles and six seconds of quiet, typed
//! from its leaflet: with a microphone that plays a file, and by taps alone.

use std::fs;
use std::path::Path;
use std::time::{Duration, Instant};

use rakeline_tests::browser::{Phone, PhoneSetup, Server, Shot};

use crate::fitter::{PATIENCE, first_screen, job_with_marks, look, saved, setup};
use crate::learn::{
    DWELL, HAND, heard_beep, hears, listen_and_start, out_of_reverse, outcome, sound,
};
use crate::quick_sheet::type_quick_sheet;

/// The kit's tone, which no sheet tells: it is learned from the first beep.
const TONE: f64 = 2_150.0;
/// Cycles of the kit.
const CYCLES: usize = 10;
/// The first beep of a file, seconds after the microphone was opened, and the
/// time from one to the next.
const LEAD: f64 = 16.0;
const APART: f64 = 6.0;
/// A busy machine may drop sound of a file on its way; then it is played anew.
const TIMES: usize = 3;

/// When a file beeps, seconds: so many times in every cycle but the last.
fn beeps(in_a_cycle: usize) -> Vec<f64> {
    let mut all = Vec::new();
    for cycle in 0..CYCLES {
        let first = LEAD + APART * cycle as f64;
        let more = if cycle + 1 < CYCLES { in_a_cycle } else { 1 };
        all.extend((0..more).map(|beep| first + 0.8 * beep as f64));
    }
    all
}

/// A phone with everything said about a learn of ten cycles, up to the gate.
fn open(server: &Server, setup: PhoneSetup, prepare: impl Fn(&Phone)) -> Phone {
    let phone = Phone::open(server, setup);
    prepare(&phone);
    phone.goto("/");
    phone.wait_for("Start a job", PATIENCE);
    before_the_run(&phone);
    phone
}

fn before_the_run(phone: &Phone) {
    phone.tap_named("Kit sheets");
    phone.wait_for("Type a quick sheet", PATIENCE);
    phone.tap_named("Type a quick sheet");
    let cycles = CYCLES.to_string();
    type_quick_sheet(phone, ["Ten times kit", &cycles, "6"], |_| {});
    phone.wait_for("Kept. The next job starts with it.", PATIENCE);
    phone.tap_named("Start the next job with it");
    phone.wait_for("With Ten times kit", PATIENCE);
    job_with_marks(phone);
    phone.tap_named("Obstacle learn");
    phone.wait_for("What is to be ignored", PATIENCE);
    // The sheet gives no zone shift: none is offered.
    assert!(!phone.has("First: move the near zone out"));
    phone.tap_named("removable tow bar");
    phone.tap_named("It beeps too");
    phone.wait_for("All of this is so", PATIENCE);
    look(phone, "learn-ten-gate");
    phone.tap_named("All of this is so");
    saved(phone);
}

/// Shifts ten times, each as soon as the one before is done, and stays in
/// reverse the last time. Tells whether every beep was heard.
fn shifted(phone: &Phone, stays: Duration) -> bool {
    for cycle in 1..=CYCLES {
        phone.tap_named("In reverse");
        phone.wait_for(&format!("Cycle {cycle} of {CYCLES}"), PATIENCE);
        let over = || phone.has("Put the result away");
        let last = cycle == CYCLES;
        let said = if last {
            "Stay in reverse. Keep still."
        } else {
            "Heard. Now out."
        };
        let heard = || phone.has(said);
        phone.until("the beep, or the end", || heard() || over());
        if over() {
            return false;
        }
        if !last {
            phone.rest(stays);
            if over() {
                return false;
            }
            out_of_reverse(phone);
        }
    }
    true
}

/// Runs with a file of these beeps until none was lost on its way.
fn with_file(name: &str, beeps: &[f64], stays: Duration) -> (Server, Phone) {
    let seconds = beeps.iter().fold(0.0, |end: f64, beep| end.max(*beep)) + 12.0;
    let file = sound(name, seconds, beeps);
    let server = Server::start();
    let mut phone = opened(&server, &file);
    for time in 1..=TIMES {
        let all = shifted(&phone, stays);
        if all {
            phone.wait_for("Put the result away", PATIENCE);
        }
        if (all && !phone.has("Sound was missing in the quiet time")) || time == TIMES {
            break;
        }
        drop(phone);
        phone = opened(&server, &file);
    }
    let _ = fs::remove_file(file);
    (server, phone)
}

fn opened(server: &Server, file: &Path) -> Phone {
    let phone = open(server, hears(Some(file)), |_| {});
    let opened = Instant::now();
    listen_and_start(&phone);
    phone.wait_for("the first beep in reverse gives the kit's tone", PATIENCE);
    // Reverse goes in some seconds before the first beep: ten without one fail.
    let before = Duration::from_secs_f64(LEAD - 4.0);
    phone.rest(before.saturating_sub(opened.elapsed()));
    phone
}

#[test]
fn ten_beeps_of_a_file_and_six_seconds_of_silence_are_learned() {
    let (_server, phone) = with_file("ten", &beeps(1), Duration::from_millis(600));
    assert_eq!(outcome(&phone), "Learned");
    assert!(phone.has("10 of 10 cycles confirmed"));
    look(&phone, "learn-ten-learned");
    saved(&phone);
    phone.tap_named("Sheet");
    phone.wait_for("now ignores the removable tow bar", PATIENCE);
}

#[test]
fn one_more_beep_in_the_quiet_time_of_ten_fails() {
    let mut all = beeps(1);
    all.push(LEAD + APART * (CYCLES - 1) as f64 + 3.0);
    let (_server, phone) = with_file("eleven", &all, Duration::from_millis(600));
    let said = outcome(&phone);
    assert!(said.contains("s of the quiet time"), "{said}");
    assert!(phone.has("Not known what the box ignores"));
    look(&phone, "learn-ten-failed");
}

#[test]
fn several_beeps_in_each_of_ten_engagements_count_once() {
    let (_server, phone) = with_file("many", &beeps(2), Duration::from_millis(2_000));
    assert_eq!(outcome(&phone), "Learned");
    assert!(phone.has("10 of 10 cycles confirmed"));
}

#[test]
fn a_tab_hidden_after_three_of_ten_interrupts() {
    let server = Server::start();
    let phone = open(&server, hears(None), |phone| phone.hear_beeps(TONE));
    listen_and_start(&phone);
    for cycle in 1..=3 {
        phone.tap_named("In reverse");
        phone.wait_for(&format!("Cycle {cycle} of {CYCLES}"), PATIENCE);
        phone.rest(DWELL);
        heard_beep(&phone);
        // Known from the first beep on, and told.
        phone.wait_for("Listening from 21", PATIENCE);
        out_of_reverse(&phone);
    }
    phone.hide_for(Duration::from_millis(1_200));
    phone.wait_for("Interrupted", PATIENCE);
    assert!(phone.has("Not known what the box ignores"));
    assert!(phone.has("All of this is so: start again"));
    look(&phone, "learn-ten-interrupted");
    saved(&phone);
}

#[test]
fn ten_by_taps_only_are_by_hand() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    before_the_run(&phone);
    phone.tap_named("Taps only");
    phone.tap_named("Start the run");
    phone.wait_for("Into reverse when you are ready", PATIENCE);
    for cycle in 1..CYCLES {
        phone.tap_named("In reverse");
        phone.wait_for(&format!("Cycle {cycle} of {CYCLES}"), PATIENCE);
        phone.rest(DWELL);
        out_of_reverse(&phone);
    }
    phone.rest(HAND);
    phone.tap_named("In reverse");
    phone.wait_for("then tap 'It beeped'", PATIENCE);
    phone.tap_named("It beeped: the quiet time runs");
    phone.wait_for("Stay in reverse. Keep still.", PATIENCE);
    phone.shot("learn-ten-quiet", Shot::Screen);
    phone.wait_for("Put the result away", PATIENCE);
    assert_eq!(outcome(&phone), "By hand, not confirmed");
    look(&phone, "learn-ten-by-hand");
}
