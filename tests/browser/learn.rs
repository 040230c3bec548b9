//! The obstacle learn with a microphone that plays a file, and by taps alone.

use std::f64::consts::TAU;
use std::fs;
use std::path::PathBuf;
use std::time::Duration;

use rakeline_tests::browser::{Phone, PhoneSetup, Server, Shot};

use crate::fitter::{PATIENCE, job_with_marks, look, saved, setup, texts};

/// Samples a second of the microphone's file.
const RATE: u32 = 44_100;
/// The kit's tone on the sheet of the first start, hertz.
const TONE: f64 = 2_150.0;
/// A hand is not faster from one tap to the next; what is, counts as one tap.
pub const HAND: Duration = Duration::from_millis(300);
/// Longer than the kit wants reverse engaged.
pub const DWELL: Duration = Duration::from_millis(1_300);
/// How long a beep sounds, seconds.
const BEEP: f64 = 0.2;

/// A file of so many seconds with beeps at these seconds, in quiet noise.
pub fn sound(name: &str, seconds: f64, beeps: &[f64]) -> PathBuf {
    let mut state = 0x9_u64;
    let count = (seconds * f64::from(RATE)) as u32;
    let samples: Vec<i16> = (0..count)
        .map(|i| {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1);
            let noise = ((state >> 33) as f64 / f64::from(1_u32 << 31) - 0.5) * 120.0;
            let t = f64::from(i) / f64::from(RATE);
            let on = beeps
                .iter()
                .any(|start| (*start..start + BEEP).contains(&t));
            let tone = if on {
                (TAU * TONE * t).sin() * 9_000.0
            } else {
                0.0
            };
            (tone + noise) as i16
        })
        .collect();
    let bytes = samples.len() as u32 * 2;
    let mut wav = Vec::new();
    wav.extend(b"RIFF");
    wav.extend((36 + bytes).to_le_bytes());
    wav.extend(b"WAVEfmt ");
    wav.extend(16_u32.to_le_bytes());
    wav.extend(1_u16.to_le_bytes());
    wav.extend(1_u16.to_le_bytes());
    wav.extend(RATE.to_le_bytes());
    wav.extend((RATE * 2).to_le_bytes());
    wav.extend(2_u16.to_le_bytes());
    wav.extend(16_u16.to_le_bytes());
    wav.extend(b"data");
    wav.extend(bytes.to_le_bytes());
    wav.extend(samples.iter().flat_map(|sample| sample.to_le_bytes()));
    let file = std::env::temp_dir().join(format!("rakeline-{}-{name}.wav", std::process::id()));
    fs::write(&file, wav).expect("the sound is written");
    file
}

/// A phone that may listen; its microphone hears that file once.
pub fn hears(file: Option<&std::path::Path>) -> PhoneSetup {
    let flag = |name: &str, value: &str| (name.to_owned(), value.to_owned());
    let mut flags = vec![
        flag("use-fake-device-for-media-stream", "1"),
        flag("use-fake-ui-for-media-stream", "1"),
        flag("autoplay-policy", "no-user-gesture-required"),
    ];
    flags.extend(file.map(|file| {
        let once = format!("{}%noloop", file.display());
        flag("use-file-for-fake-audio-capture", &once)
    }));
    PhoneSetup { flags, ..setup() }
}

/// The screen of the learn with everything said, up to the gate.
fn before_the_run(phone: &Phone) {
    job_with_marks(phone);
    phone.tap_named("Obstacle learn");
    phone.wait_for("What is to be ignored", PATIENCE);
    look(phone, "learn-first");
    phone.tap_named("Not enough");
    phone.tap_named("removable tow bar");
    phone.wait_for("All of this is so", PATIENCE);
    look(phone, "learn-gate");
    phone.tap_named("All of this is so");
    saved(phone);
}

fn open(server: &Server, setup: PhoneSetup) -> Phone {
    let phone = Phone::open(server, setup);
    phone.goto("/");
    phone.wait_for("Start a job", PATIENCE);
    before_the_run(&phone);
    phone
}

/// A phone that hears the kit whenever the test lets it beep.
fn open_to_beeps(server: &Server) -> Phone {
    let phone = Phone::open(server, hears(None));
    phone.hear_beeps(TONE);
    phone.goto("/");
    phone.wait_for("Start a job", PATIENCE);
    before_the_run(&phone);
    phone
}

pub fn listen_and_start(phone: &Phone) {
    phone.tap_named("Listen first");
    phone.wait_for("listening", PATIENCE);
    phone.wait_for("Listening from", PATIENCE);
    phone.shot("learn-listening", Shot::WholePage);
    phone.tap_named("Start the run");
    phone.wait_for("Into reverse when you are ready", PATIENCE);
}

/// A beep of the kit, and the app says that it heard it. On a busy machine
/// sound may be lost on its way to the page; the kit then beeps once more.
pub fn heard_beep(phone: &Phone) {
    let heard = || phone.has("Heard. Now out.") || phone.has("Stay in reverse. Keep still.");
    for _ in 0..4 {
        phone.beep(Duration::from_millis(200));
        for _ in 0..15 {
            if heard() {
                return;
            }
            phone.rest(Duration::from_millis(200));
        }
    }
    phone.until("the beep is heard", heard);
}

pub fn out_of_reverse(phone: &Phone) {
    phone.tap_named("Out");
    phone.until("the app says what comes next", || {
        phone.has("Out. Now in again.") || phone.has("The next is the last.")
    });
    phone.rest(HAND);
}

/// Five cycles out of six, each with so many beeps, and into reverse for the
/// last.
fn five_cycles(phone: &Phone, beeps: usize) {
    for cycle in 1..=5 {
        phone.tap_named("In reverse");
        phone.wait_for(&format!("Cycle {cycle} of 6"), PATIENCE);
        phone.rest(DWELL);
        for _ in 0..beeps {
            heard_beep(phone);
            phone.rest(Duration::from_millis(700));
        }
        if cycle == 2 {
            phone.shot("learn-run-heard", Shot::Screen);
        }
        out_of_reverse(phone);
    }
    phone.tap_named("In reverse");
    phone.rest(DWELL);
}

/// A run to its end. Where a busy machine lost sound in the quiet time the app
/// says so, and the run is done again, as a fitter would.
fn heard_through(phone: &Phone, run: impl Fn()) {
    for _ in 0..3 {
        run();
        phone.wait_for("Put the result away", PATIENCE);
        let missing = phone.has("Sound was missing in the quiet time");
        if !missing {
            return;
        }
        phone.tap_named("Learn once more");
        phone.tap_named("All of this is so: start again");
        phone.wait_for("Into reverse when you are ready", PATIENCE);
    }
}

/// Seconds of beeps, one every six seconds after a lead.
fn beeps(count: usize) -> Vec<f64> {
    (0..count).map(|beep| 14.0 + 6.0 * beep as f64).collect()
}

pub fn outcome(phone: &Phone) -> String {
    texts(phone, "h1").join(" ")
}

#[test]
fn six_beeps_and_silence_are_learned() {
    let server = Server::start();
    let phone = open_to_beeps(&server);
    listen_and_start(&phone);
    phone.shot("learn-run-ready", Shot::Screen);
    heard_through(&phone, || {
        five_cycles(&phone, 1);
        phone.shot("learn-run-last", Shot::Screen);
        heard_beep(&phone);
        phone.wait_for("Stay in reverse. Keep still.", PATIENCE);
        phone.rest(Duration::from_millis(1_500));
        phone.shot("learn-run-quiet", Shot::Screen);
    });
    assert_eq!(outcome(&phone), "Learned");
    look(&phone, "learn-learned");
    saved(&phone);
    phone.tap_named("Sheet");
    phone.wait_for("now ignores the removable tow bar", PATIENCE);
    look(&phone, "learn-sheet");
}

#[test]
fn a_beep_in_the_quiet_time_fails() {
    let server = Server::start();
    let phone = open_to_beeps(&server);
    listen_and_start(&phone);
    five_cycles(&phone, 1);
    heard_beep(&phone);
    phone.wait_for("Stay in reverse. Keep still.", PATIENCE);
    phone.rest(Duration::from_millis(800));
    phone.beep(Duration::from_millis(200));
    phone.wait_for("Put the result away", PATIENCE);
    assert!(
        outcome(&phone).contains("s of the quiet time"),
        "{}",
        outcome(&phone)
    );
    assert!(phone.has("Not known what the box ignores"));
    // The gate is read anew, and the press that says so begins the next run.
    phone.wait_for("All of this is so: start again", PATIENCE);
    assert!(phone.has("Foot on the brake all the time"));
    look(&phone, "learn-failed");
    phone.tap_named("All of this is so: start again");
    phone.wait_for("Into reverse when you are ready", PATIENCE);
}

#[test]
fn several_beeps_in_one_engagement_count_once() {
    let server = Server::start();
    let phone = open_to_beeps(&server);
    listen_and_start(&phone);
    heard_through(&phone, || {
        five_cycles(&phone, 2);
        heard_beep(&phone);
    });
    assert_eq!(outcome(&phone), "Learned");
    assert!(phone.has("6 of 6 cycles confirmed"));
}

#[test]
fn the_microphone_alone_counts_six() {
    let file = sound("alone", 70.0, &beeps(6));
    let server = Server::start();
    let phone = open(&server, hears(Some(&file)));
    phone.tap_named("Microphone only");
    listen_and_start(&phone);
    phone.shot("learn-run-alone", Shot::Screen);
    phone.wait_for("Put the result away", 60);
    assert_eq!(outcome(&phone), "By sound alone, not confirmed");
}

#[test]
fn a_hidden_tab_interrupts_for_good() {
    let server = Server::start();
    let phone = open_to_beeps(&server);
    listen_and_start(&phone);
    phone.tap_named("In reverse");
    phone.rest(DWELL);
    heard_beep(&phone);
    phone.hide_for(Duration::from_millis(1_200));
    phone.wait_for("Interrupted", PATIENCE);
    assert!(phone.has("Not known what the box ignores"));
    look(&phone, "learn-interrupted");
    saved(&phone);
    phone.reload();
    phone.wait_for("1 run before", PATIENCE);
    assert!(!phone.has("Into reverse when you are ready"));
}

#[test]
fn by_taps_alone_it_is_by_hand() {
    let server = Server::start();
    let phone = open(&server, setup());
    phone.tap_named("Taps only");
    phone.wait_for("by hand, not confirmed", PATIENCE);
    phone.tap_named("Start the run");
    phone.wait_for("Into reverse when you are ready", PATIENCE);
    for cycle in 1..=5 {
        // The keys count as taps do.
        if cycle % 2 == 0 {
            phone.press("Enter");
        } else {
            phone.tap_named("In reverse");
        }
        phone.wait_for(&format!("Cycle {cycle} of 6"), PATIENCE);
        phone.rest(Duration::from_millis(1_300));
        out_of_reverse(&phone);
    }
    phone.tap_named("In reverse");
    phone.wait_for("then tap 'It beeped'", PATIENCE);
    phone.shot("learn-run-hand-last", Shot::Screen);
    phone.tap_named("It beeped: the quiet time runs");
    phone.wait_for("Put the result away", PATIENCE);
    assert_eq!(outcome(&phone), "By hand, not confirmed");
    look(&phone, "learn-by-hand");
}

#[test]
fn a_killed_browser_leaves_an_interrupted_run() {
    let server = Server::start();
    let phone = open(&server, setup());
    phone.tap_named("Taps only");
    phone.tap_named("Start the run");
    phone.wait_for("Into reverse when you are ready", PATIENCE);
    phone.tap_named("In reverse");
    phone.rest(Duration::from_millis(1_300));
    phone.tap_named("Out");
    phone.wait_for("Out.", PATIENCE);
    phone.rest(Duration::from_millis(600));
    let path = crate::fitter::path(&phone);
    phone.kill();
    phone.goto(&path);
    phone.wait_for("1 run before", PATIENCE);
    phone.wait_for("Not known what the box ignores", PATIENCE);
    phone.tap_named("1 run before");
    phone.wait_for("Interrupted: the app was ended", PATIENCE);
}
