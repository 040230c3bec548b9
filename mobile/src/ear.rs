//! The ear of one run of the microphone: frames as the device gives them in,
//! what was heard out.
//!
//! **Boundary:** as the worker, it knows no screen, no store and no clock.

use rakeline_core::estimate::beep::channels::Channels;
use rakeline_core::estimate::beep::clock::AudioClock;
use rakeline_core::estimate::beep::{Hearing, Listener, OwnTone, ToneGate};

/// The ear of one run of the microphone.
pub struct Ear {
    listener: Listener,
    channels: Channels,
    clock: AudioClock,
    rate: f64,
    mono: Vec<f32>,
}

impl Ear {
    /// For a device of so many samples a second.
    #[must_use]
    pub fn new(rate: f64) -> Self {
        Self {
            listener: Listener::new(rate),
            channels: Channels::default(),
            clock: AudioClock::default(),
            rate,
            mono: Vec::new(),
        }
    }

    /// From now on only these tones count.
    pub fn set_gate(&mut self, gate: ToneGate) {
        self.listener.set_gate(gate);
    }

    /// The app sounds this tone itself.
    pub fn own_tone(&mut self, own: OwnTone) {
        self.listener.own_tone(own);
    }

    /// Hears frames, one channel after the other, the first of which is the
    /// device's frame number `first`; they came over at `arrived_ms`.
    pub fn hear(
        &mut self,
        planar: &[f32],
        channels: usize,
        first: f64,
        arrived_ms: f64,
    ) -> Hearing {
        let ms = 1000.0 / self.rate;
        let length = planar.len().checked_div(channels).unwrap_or(0) as f64 * ms;
        let first_ms = self.clock.first_ms(first * ms, length, arrived_ms);
        self.hear_at(planar, channels, first_ms)
    }

    /// Hears frames, the first of which was heard at `first_ms`.
    pub fn hear_at(&mut self, planar: &[f32], channels: usize, first_ms: f64) -> Hearing {
        self.channels.mix(planar, channels, &mut self.mono);
        self.listener.push(&self.mono, first_ms)
    }
}
