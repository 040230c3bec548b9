//! Tones by WebAudio.

use std::cell::RefCell;

use wasm_bindgen::JsValue;
use wasm_bindgen_futures::spawn_local;
use web_sys::{AudioContext, AudioContextState, OscillatorType};

use super::call::{method, settled};
use crate::platform::{Note, Sound, Tone};

/// The browser's loudspeaker.
#[derive(Default)]
pub(super) struct WebSound(RefCell<Option<AudioContext>>);

fn shape(tone: Tone) -> OscillatorType {
    match tone {
        Tone::Moving => OscillatorType::Triangle,
        Tone::Refused => OscillatorType::Square,
        Tone::Captured | Tone::Done | Tone::In | Tone::Out => OscillatorType::Sine,
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
            for note in tone.notes() {
                let _ = play(&context, shape(tone), *note);
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
