//! Frames in, beeps out, through the platform; and everything that a
//! microphone can get wrong.

use std::cell::RefCell;
use std::rc::Rc;

use rakeline::platform::memory::MemoryPlatform;
use rakeline::platform::{MicrophoneEvent, MicrophoneFault};
use rakeline_core::estimate::beep::{Beep, EarState, Hearing, Onset, OwnTone, ToneGate, Trouble};
use rakeline_tests::cabin::{Kind, Noise, Tone, add_tone};
use rakeline_tests::tilt_sim::rng::Rng;

/// Our kit's tone.
const KIT: f64 = 2_750.0;

/// A phone whose microphone runs.
struct Cabin {
    phone: MemoryPlatform,
    events: Rc<RefCell<Vec<MicrophoneEvent>>>,
    rate: f64,
}

impl Cabin {
    fn at(rate: f64, gate: ToneGate) -> Self {
        let phone = MemoryPlatform::new();
        phone.microphone.set_rate(rate);
        let cabin = Self {
            phone,
            events: Rc::default(),
            rate,
        };
        cabin.start(gate);
        cabin
    }

    fn start(&self, gate: ToneGate) {
        let events = self.events.clone();
        let sink = Rc::new(move |event| events.borrow_mut().push(event));
        self.phone.platform().microphone.start(gate, sink);
    }

    /// Plays sound from time 0 in batches of 80 ms.
    fn play(&self, samples: &[f32]) {
        let batch = (self.rate * 0.08) as usize;
        for (at, frames) in samples.chunks(batch).enumerate() {
            let first_ms = (at * batch) as f64 * 1000.0 / self.rate;
            self.phone.microphone.play(frames, 1, first_ms);
        }
    }

    fn heard(&self) -> Vec<Hearing> {
        let events = self.events.borrow();
        let heard = events.iter().filter_map(|event| match event {
            MicrophoneEvent::Heard(hearing) => Some(hearing.clone()),
            _ => None,
        });
        heard.collect()
    }

    fn beeps(&self) -> Vec<Beep> {
        self.heard()
            .into_iter()
            .flat_map(|heard| heard.beeps)
            .collect()
    }

    fn state(&self) -> EarState {
        self.heard().last().expect("something was heard").state
    }

    fn fault(&self) -> Option<MicrophoneFault> {
        match self.events.borrow().last() {
            Some(MicrophoneEvent::Fault(fault)) => Some(fault.clone()),
            _ => None,
        }
    }
}

/// Noise of a quiet cabin.
fn quiet(seconds: f64, rate: f64) -> Vec<f32> {
    let mut rng = Rng::new(3);
    (0..(seconds * rate) as usize)
        .map(|_| rng.normal(0.002) as f32)
        .collect()
}

fn beep(start_ms: f64) -> Tone {
    Tone {
        start_ms,
        length_ms: 120.0,
        hertz: KIT,
        size: 0.08,
    }
}

fn with(mut samples: Vec<f32>, rate: f64, tones: &[Tone]) -> Vec<f32> {
    let mut rng = Rng::new(8);
    for tone in tones {
        add_tone(&mut samples, rate, tone, &mut rng);
    }
    samples
}

#[test]
fn ten_beeps_are_ten_beeps_at_their_times() {
    let cabin = Cabin::at(48_000.0, ToneGate::Any);
    let tones: Vec<Tone> = (0..10)
        .map(|at| beep(1_000.0 + 900.0 * f64::from(at)))
        .collect();
    cabin.play(&with(quiet(12.0, 48_000.0), 48_000.0, &tones));
    let beeps = cabin.beeps();
    assert_eq!(beeps.len(), 10, "{beeps:#?}");
    for (beep, tone) in beeps.iter().zip(&tones) {
        assert!((beep.start_ms - tone.start_ms).abs() < 20.0, "{beep:?}");
        assert!(
            (beep.end_ms - tone.start_ms - tone.length_ms).abs() < 50.0,
            "{beep:?}"
        );
        assert!((beep.tone_hz - KIT).abs() < 5.0, "{beep:?}");
        assert_eq!(beep.onset, Onset::Heard);
    }
}

#[test]
fn eight_and_ninety_six_kilohertz_hear_the_same() {
    for rate in [8_000.0, 11_025.0, 44_100.0, 96_000.0] {
        let cabin = Cabin::at(rate, ToneGate::Any);
        let tones = [beep(1_000.0), beep(2_500.0), beep(3_000.0)];
        cabin.play(&with(quiet(6.0, rate), rate, &tones));
        let beeps = cabin.beeps();
        assert_eq!(beeps.len(), 3, "{rate}: {beeps:?}");
        for (beep, tone) in beeps.iter().zip(&tones) {
            assert!(
                (beep.start_ms - tone.start_ms).abs() < 20.0,
                "{rate}: {beep:?}"
            );
        }
    }
}

#[test]
fn stereo_is_heard_whichever_side_lives() {
    let rate = 48_000.0;
    let sound = with(quiet(4.0, rate), rate, &[beep(1_500.0)]);
    for sides in [[1.0, 1.0], [1.0, 0.0], [0.0, 1.0], [1.0, -1.0]] {
        let cabin = Cabin::at(rate, ToneGate::Any);
        for (at, frames) in sound.chunks(3_840).enumerate() {
            let planar: Vec<f32> = sides
                .iter()
                .flat_map(|side| frames.iter().map(move |sample| side * sample))
                .collect();
            let first_ms = at as f64 * 80.0;
            cabin.phone.microphone.play(&planar, 2, first_ms);
        }
        assert_eq!(cabin.beeps().len(), 1, "{sides:?}");
    }
}

#[test]
fn a_refused_microphone_says_so_and_what_to_do() {
    let cabin = Cabin::at(48_000.0, ToneGate::Any);
    cabin
        .phone
        .microphone
        .fail_starts(Some(MicrophoneFault::Refused));
    cabin.start(ToneGate::Any);
    assert_eq!(cabin.fault(), Some(MicrophoneFault::Refused));
    assert!(!cabin.phone.microphone.running());
    let said = rakeline::texts::say(&MicrophoneFault::Refused.message());
    assert!(said.contains("Allow it"), "{said}");
}

#[test]
fn a_microphone_taken_by_a_call_ends_the_run_and_can_be_started_again() {
    let cabin = Cabin::at(48_000.0, ToneGate::Any);
    cabin.phone.microphone.lose(MicrophoneFault::Taken);
    assert_eq!(cabin.fault(), Some(MicrophoneFault::Taken));
    cabin.play(&with(quiet(3.0, 48_000.0), 48_000.0, &[beep(1_000.0)]));
    assert_eq!(cabin.beeps(), [], "nothing is heard after the end");
    cabin.start(ToneGate::Any);
    cabin.play(&with(quiet(3.0, 48_000.0), 48_000.0, &[beep(1_000.0)]));
    assert_eq!(cabin.beeps().len(), 1);
}

#[test]
fn silence_only_is_named_and_is_no_beep() {
    let cabin = Cabin::at(44_100.0, ToneGate::Any);
    cabin.play(&vec![0.0; 3 * 44_100]);
    assert_eq!(cabin.state().trouble, Some(Trouble::Silent));
    assert_eq!(cabin.beeps(), []);
    assert!(cabin.state().level_db <= -100.0);
}

#[test]
fn clipping_is_named_and_the_beeps_are_heard_all_the_same() {
    let rate = 48_000.0;
    let cabin = Cabin::at(rate, ToneGate::Any);
    let loud = Tone {
        size: 4.0,
        length_ms: 400.0,
        ..beep(1_000.0)
    };
    cabin.play(&with(quiet(2.2, rate), rate, &[loud]));
    let troubled = cabin
        .heard()
        .iter()
        .any(|heard| heard.state.trouble == Some(Trouble::Clipping));
    assert!(troubled);
    let beeps = cabin.beeps();
    assert_eq!(beeps.len(), 1, "{beeps:?}");
    assert!((beeps[0].tone_hz - KIT).abs() < 5.0);
}

#[test]
fn a_radio_playing_tones_passes_no_gate_but_its_own() {
    let rate = 48_000.0;
    let mut rng = Rng::new(21);
    let scale = [523.3, 587.3, 659.3, 784.0, 880.0, 1046.5, 1174.7, 1318.5];
    let notes: Vec<Tone> = (0..24)
        .map(|at| Tone {
            start_ms: 500.0 + 400.0 * f64::from(at),
            length_ms: rng.uniform(120.0, 380.0),
            hertz: scale[(rng.share() * 8.0) as usize % 8],
            size: 0.1,
        })
        .collect();
    let mut sound = with(quiet(11.0, rate), rate, &notes);
    let gated = Cabin::at(rate, ToneGate::Near(KIT));
    gated.play(&sound);
    assert_eq!(gated.beeps(), [], "other tones do not count");
    // At the kit's own tone it cannot be told apart, and counts: never a
    // silence that was none.
    let twin = Tone {
        start_ms: 10_200.0,
        ..beep(0.0)
    };
    sound.extend(quiet(1.0, rate));
    let gated = Cabin::at(rate, ToneGate::Near(KIT));
    gated.play(&with(sound, rate, &[twin]));
    assert_eq!(gated.beeps().len(), 1);
}

#[test]
fn a_beep_cut_by_the_start_is_told_as_cut() {
    let rate = 48_000.0;
    let cabin = Cabin::at(rate, ToneGate::Any);
    let cut = Tone {
        start_ms: -200.0,
        length_ms: 500.0,
        ..beep(0.0)
    };
    cabin.play(&with(quiet(4.0, rate), rate, &[cut, beep(2_000.0)]));
    let beeps = cabin.beeps();
    assert_eq!(beeps.len(), 2, "{beeps:?}");
    assert_eq!(beeps[0].onset, Onset::CutByStart);
    assert!((beeps[0].end_ms - 300.0).abs() < 50.0, "{beeps:?}");
    assert_eq!(beeps[1].onset, Onset::Heard);
}

#[test]
fn the_apps_own_tones_never_count_and_the_kits_beside_them_does() {
    let rate = 48_000.0;
    let own = Tone {
        start_ms: 1_000.0,
        length_ms: 240.0,
        hertz: 880.0,
        size: 0.2,
    };
    let cabin = Cabin::at(rate, ToneGate::Any);
    cabin.phone.platform().microphone.own_tone(OwnTone {
        start_ms: 1_000.0,
        end_ms: 1_240.0,
        tones_hz: vec![880.0],
    });
    cabin.play(&with(quiet(4.0, rate), rate, &[own, beep(1_600.0)]));
    let beeps = cabin.beeps();
    assert_eq!(beeps.len(), 1, "{beeps:?}");
    assert!((beeps[0].tone_hz - KIT).abs() < 5.0, "{beeps:?}");
}

#[test]
fn too_noisy_is_said_before_anything_is_counted() {
    let rate = 48_000.0;
    let cabin = Cabin::at(rate, ToneGate::Near(KIT));
    let mut rng = Rng::new(5);
    let loud: Vec<f32> = (0..144_000).map(|_| rng.normal(0.3) as f32).collect();
    cabin.play(&loud);
    let state = cabin.state();
    assert_eq!(state.trouble, Some(Trouble::TooNoisy));
    let said = rakeline::texts::say(&Trouble::TooNoisy.message(state.margin_db));
    assert!(said.contains("Too noisy by"), "{said}");
    let cabin = Cabin::at(rate, ToneGate::Near(KIT));
    cabin.play(&quiet(3.0, rate));
    assert_eq!(cabin.state().trouble, None);
}

#[test]
fn sound_that_is_missing_proves_no_silence() {
    let rate = 48_000.0;
    let cabin = Cabin::at(rate, ToneGate::Any);
    let sound = quiet(2.0, rate);
    for (at, frames) in sound.chunks(3_840).enumerate() {
        cabin.phone.microphone.play(frames, 1, at as f64 * 80.0);
    }
    assert!(cabin.state().unbroken_since_ms.abs() < 1.0);
    for (at, frames) in sound.chunks(3_840).enumerate() {
        cabin
            .phone
            .microphone
            .play(frames, 1, 5_000.0 + at as f64 * 80.0);
    }
    let state = cabin.state();
    assert!((state.unbroken_since_ms - 5_000.0).abs() < 1.0, "{state:?}");
    assert!(state.settled_ms >= 5_000.0 && state.settled_ms < 7_000.0);
}

#[test]
fn nothing_for_longer_than_a_blink_is_sound_that_was_lost() {
    let rate = 48_000.0;
    for (lost, whole_from) in [(0.010, 0.0), (0.030, 1_030.0)] {
        let cabin = Cabin::at(rate, ToneGate::Any);
        let mut sound = quiet(2.0, rate);
        let hole = 48_000..48_000 + (lost * rate) as usize;
        sound[hole].fill(0.0);
        cabin.play(&sound);
        let state = cabin.state();
        assert!(
            (state.unbroken_since_ms - whole_from).abs() < 1.0,
            "{state:?}"
        );
        assert_eq!(state.trouble, None);
    }
}

#[test]
fn a_hiss_is_too_noisy_at_once_and_a_click_is_not() {
    let rate = 48_000.0;
    for (length, noisy) in [(0.004, false), (0.5, true)] {
        let cabin = Cabin::at(rate, ToneGate::Near(KIT));
        let mut rng = Rng::new(6);
        let mut sound = quiet(4.0, rate);
        for sample in &mut sound[96_000..96_000 + (length * rate) as usize] {
            *sample = rng.normal(0.3) as f32;
        }
        cabin.play(&sound);
        let heard = cabin.heard();
        let mut said = heard.iter().map(|heard| heard.state.trouble);
        assert_eq!(said.any(|said| said == Some(Trouble::TooNoisy)), noisy);
        assert_eq!(cabin.state().trouble, None, "over again");
    }
}

#[test]
fn batches_that_come_late_are_no_gap() {
    let rate = 48_000.0;
    let cabin = Cabin::at(rate, ToneGate::Any);
    let sound = with(quiet(4.0, rate), rate, &[beep(1_500.0)]);
    for (at, frames) in sound.chunks(4_800).enumerate() {
        let late = if at % 2 == 1 { 90.0 } else { 0.0 };
        let (first, arrived) = (at as f64 * 4_800.0, (at + 1) as f64 * 100.0 + late);
        cabin.phone.microphone.deliver(frames, 1, first, arrived);
    }
    let beeps = cabin.beeps();
    assert_eq!(beeps.len(), 1, "{beeps:?}");
    assert!((beeps[0].start_ms - 1_500.0).abs() < 20.0, "{beeps:?}");
    assert!(cabin.state().unbroken_since_ms.abs() < 1.0);
}

#[test]
fn frames_that_are_no_numbers_or_come_back_in_time_do_no_harm() {
    let cabin = Cabin::at(48_000.0, ToneGate::Any);
    let bad = [f32::NAN, f32::INFINITY, -f32::INFINITY, 1e30];
    for at in [0.0, 500.0, 100.0, 100.0, f64::NAN, -1e18, 1e18] {
        cabin.phone.microphone.play(&bad.repeat(200), 1, at);
        cabin.phone.microphone.play(&[], 1, at);
    }
    assert_eq!(cabin.beeps(), []);
    assert!(cabin.state().level_db.is_finite());
}

#[test]
fn an_engine_and_an_indicator_are_no_beeps() {
    for kind in [Kind::Brown, Kind::Fan, Kind::Clicks] {
        let cabin = Cabin::at(16_000.0, ToneGate::Near(KIT));
        cabin.play(&Noise::new(kind, 6).take(16_000 * 30));
        assert_eq!(cabin.beeps(), [], "{kind:?}");
    }
}
