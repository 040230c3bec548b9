//! Tones, pulses, voice, paper, and the screen that stays on.

use super::phone::{Handle, PhoneNote, PhoneTone};
use crate::platform::{Print, Pulse, Sound, Speech, Tone, Vibration, Wake};

/// The loudspeaker.
pub(super) struct AndroidSound(pub(super) Handle);

fn shape(tone: Tone) -> PhoneTone {
    match tone {
        Tone::Moving => PhoneTone::Triangle,
        Tone::Refused => PhoneTone::Square,
        Tone::Captured | Tone::Done | Tone::In | Tone::Out => PhoneTone::Sine,
    }
}

impl Sound for AndroidSound {
    /// Nothing forbids sound here.
    fn unlock(&self) {}

    fn tone(&self, tone: Tone) {
        let note = |note: &(f64, f64, f32)| PhoneNote {
            from_ms: 1_000.0 * note.0,
            to_ms: 1_000.0 * note.1,
            hertz: f64::from(note.2),
        };
        let notes = tone.notes().iter().map(note).collect();
        self.0.tell(|phone| phone.sound(shape(tone), notes));
    }
}

/// The vibration motor.
pub(super) struct AndroidVibration(pub(super) Handle);

/// Milliseconds on, off, on.
fn pattern(pulse: Pulse) -> &'static [u32] {
    match pulse {
        Pulse::Moving => &[40],
        Pulse::Captured => &[140],
        Pulse::Refused => &[60, 60, 60, 60, 60],
        Pulse::Done => &[140, 90, 320],
        Pulse::In => &[90],
        Pulse::Out => &[40, 60, 40],
        Pulse::Quiet => &[400],
    }
}

impl Vibration for AndroidVibration {
    fn pulse(&self, pulse: Pulse) {
        self.0.tell(|phone| phone.pulse(pattern(pulse).to_vec()));
    }
}

/// The phone's voice.
pub(super) struct AndroidSpeech(pub(super) Handle);

impl Speech for AndroidSpeech {
    fn say(&self, words: &str) {
        self.0.tell(|phone| phone.say(words.to_owned()));
    }

    fn hush(&self) {
        self.0.tell(|phone| phone.hush());
    }
}

/// The system's print view.
pub(super) struct AndroidPrint(pub(super) Handle);

impl Print for AndroidPrint {
    fn print(&self) {
        self.0.tell(|phone| phone.print());
    }
}

/// The screen's own sleep.
pub(super) struct AndroidWake(pub(super) Handle);

impl Wake for AndroidWake {
    fn hold(&self) {
        self.0.tell(|phone| phone.hold_awake());
    }

    fn release(&self) {
        self.0.tell(|phone| phone.let_sleep());
    }
}
