//! Listening in a real browser: a sound file for a microphone, the audio
//! thread, the worker that listens.

use std::{env, fs, process};

use rakeline_core::estimate::beep::{Beep, Hearing};
use rakeline_tests::browser::{Phone, PhoneSetup, Server};
use rakeline_tests::cabin::{Tone, add_tone, wav};
use rakeline_tests::tilt_sim::rng::Rng;

/// Samples a second of the file.
const FILE_RATE: u32 = 48_000;
const KIT: f64 = 2_750.0;

/// The same way as the app's microphone goes, told to the test.
const LISTEN: &str = r"(async () => {
    window.heard = [];
    const stream = await navigator.mediaDevices.getUserMedia({ audio: {
        echoCancellation: false, noiseSuppression: false, autoGainControl: false } });
    const context = new AudioContext();
    await context.audioWorklet.addModule('/ear.js');
    const ear = new AudioWorkletNode(context, 'ear');
    const channel = new MessageChannel();
    const worker = new Worker('/hear.js', { type: 'module' });
    worker.onmessage = ({ data }) => window.heard.push(typeof data === 'string' ? data : [...data]);
    worker.postMessage({ port: channel.port1, rate: context.sampleRate, gate: 0,
        origin: performance.timeOrigin }, [channel.port1]);
    ear.port.postMessage({ port: channel.port2 }, [channel.port2]);
    context.createMediaStreamSource(stream).connect(ear);
    ear.connect(context.destination);
    await context.resume();
    return performance.now();
})()";

/// A quiet cabin with beeps; the browser plays it again and again.
fn sound(seconds: f64, beeps_at_ms: &[f64]) -> Vec<u8> {
    let rate = f64::from(FILE_RATE);
    let mut rng = Rng::new(12);
    let count = (seconds * rate) as usize;
    let mut samples: Vec<f32> = (0..count).map(|_| rng.normal(0.002) as f32).collect();
    for start_ms in beeps_at_ms {
        let tone = Tone {
            start_ms: *start_ms,
            length_ms: 150.0,
            hertz: KIT,
            size: 0.1,
        };
        add_tone(&mut samples, rate, &tone, &mut rng);
    }
    wav::written(&samples, FILE_RATE)
}

fn heard(phone: &Phone) -> Vec<Hearing> {
    let told: Vec<Vec<Option<f64>>> =
        serde_json::from_value(phone.eval("window.heard")).expect("numbers only");
    let read = |numbers: &Vec<Option<f64>>| {
        // What is no number travels as null.
        let numbers: Vec<f64> = numbers.iter().map(|n| n.unwrap_or(f64::NAN)).collect();
        Hearing::from_numbers(&numbers).expect("a hearing")
    };
    told.iter().map(read).collect()
}

/// The file plays in real time: a busy machine drops samples, and then a
/// beep is cut in two or missed. One time of these it gets through whole.
const TIMES: usize = 3;

#[test]
fn the_page_hears_exactly_the_beeps_of_the_file() {
    let path = env::temp_dir().join(format!("rakeline-beeps-{}.wav", process::id()));
    // The page needs a while until it hears anything.
    let starts = [3_000.0, 4_000.0, 5_500.0, 7_000.0, 7_400.0];
    fs::write(&path, sound(30.0, &starts)).expect("the file is written");
    let server = Server::start();
    let file = path.to_string_lossy().into_owned();
    let flag = |name: &str, value: &str| (name.to_owned(), value.to_owned());
    let phone = Phone::open(
        &server,
        PhoneSetup {
            flags: vec![
                flag("use-fake-device-for-media-stream", "1"),
                flag("use-fake-ui-for-media-stream", "1"),
                flag("use-file-for-fake-audio-capture", &file),
            ],
            ..PhoneSetup::default()
        },
    );
    let mut begun = 0.0;
    let mut beeps: Vec<Beep> = Vec::new();
    for _ in 0..TIMES {
        phone.goto("/");
        begun = phone.eval(LISTEN).as_f64().expect("a time");
        let settled = |from: f64| {
            heard(&phone)
                .last()
                .is_some_and(|h| h.state.settled_ms > from)
        };
        phone.until("ten seconds were heard", || settled(begun + 10_000.0));
        beeps = heard(&phone).into_iter().flat_map(|h| h.beeps).collect();
        if beeps.len() == starts.len() {
            break;
        }
    }
    assert_eq!(beeps.len(), starts.len(), "{beeps:#?}");
    for pair in beeps.windows(2).zip(starts.windows(2)) {
        let apart = pair.0[1].start_ms - pair.0[0].start_ms;
        assert!((apart - (pair.1[1] - pair.1[0])).abs() < 40.0, "{beeps:#?}");
    }
    for beep in &beeps {
        assert!((beep.tone_hz - KIT).abs() < 10.0, "{beep:?}");
        assert!(
            beep.start_ms > begun - 500.0,
            "on the page's clock: {beep:?}"
        );
    }
    let _ = fs::remove_file(&path);
}
