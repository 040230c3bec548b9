//! Tones by WebAudio.

use std::cell::RefCell;

use wasm_bindgen::JsValue;
use wasm_bindgen_futures::spawn_local;
use web_sys::{AudioContext, AudioContextState, OscillatorType};

use super::call::{method, settled};
use crate::platform::{Sound, Tone};

/// The browser's loudspeaker.
#[derive(Default)]
pub(super) struct WebSound(RefCell<Option<AudioContext>>);

/// One note: start and end in seconds after now, hertz.
type Note = (f64, f64, f32);

fn notes(tone: Tone) -> (OscillatorType, &'static [Note]) {
    match tone {
        Tone::Moving => (OscillatorType::Triangle, &[(0.0, 0.06, 330.0)]),
        Tone::Captured => (
            OscillatorType::Sine,
            &[(0.0, 0.09, 880.0), (0.1, 0.24, 1320.0)],
        ),
        Tone::Refused => (
            OscillatorType::Square,
            &[(0.0, 0.12, 196.0), (0.18, 0.34, 196.0)],
        ),
        Tone::Done => (
            OscillatorType::Sine,
            &[(0.0, 0.1, 660.0), (0.12, 0.22, 880.0), (0.24, 0.5, 1320.0)],
        ),
    }
}

const LOUDNESS: f32 = 0.35;
/// Seconds in which a note swells and fades, so that it does not click.
const RAMP: f64 = 0.01;

impl WebSound {
    fn context(&self) -> Option<AudioContext> {
        let mut place = self.0.borrow_mut();
        if place.is_none() {
            *place = AudioContext::new().ok();
        }
        place.clone()
    }

    fn resumed(&self) -> Option<AudioContext> {
        let context = self.context()?;
        if context.state() != AudioContextState::Running
            && let Some(Ok(promise)) = method(&context, "resume", &[])
        {
            spawn_local(async move {
                let _ = settled(promise).await;
            });
        }
        Some(context)
    }
}

impl Sound for WebSound {
    fn unlock(&self) {
        self.resumed();
    }

    fn tone(&self, tone: Tone) {
        // Without sound the screen and the hand still tell.
        if let Some(context) = self.resumed() {
            let (shape, notes) = notes(tone);
            for note in notes {
                let _ = play(&context, shape, *note);
            }
        }
    }
}

fn play(context: &AudioContext, shape: OscillatorType, note: Note) -> Result<(), JsValue> {
    let (start, end, hertz) = note;
    let now = context.current_time();
    let (start, end) = (now + start, now + end);
    let oscillator = context.create_oscillator()?;
    oscillator.set_type(shape);
    oscillator.frequency().set_value(hertz);
    let gain = context.create_gain()?;
    let level = gain.gain();
    level.set_value_at_time(0.0, start)?;
    level.linear_ramp_to_value_at_time(LOUDNESS, start + RAMP)?;
    level.set_value_at_time(LOUDNESS, end - RAMP)?;
    level.linear_ramp_to_value_at_time(0.0, end)?;
    oscillator.connect_with_audio_node(&gain)?;
    gain.connect_with_audio_node(&context.destination())?;
    oscillator.start_with_when(start)?;
    oscillator.stop_with_when(end)?;
    Ok(())
}
