//! A microphone that hears what the test plays.

use std::cell::{Cell, RefCell};

use rakeline_core::estimate::beep::{Hearing, OwnTone, ToneGate};

use crate::platform::{Microphone, MicrophoneEvent, MicrophoneFault, MicrophoneSink};

/// A scripted microphone: allowed, at 48 kHz, unless told otherwise.
pub struct MemoryMicrophone {
    sink: RefCell<Option<MicrophoneSink>>,
    fault: RefCell<Option<MicrophoneFault>>,
    rate: Cell<f64>,
    starts: Cell<u32>,
    #[cfg(feature = "worker")]
    ear: RefCell<Option<crate::ear::Ear>>,
}

impl Default for MemoryMicrophone {
    fn default() -> Self {
        Self {
            sink: RefCell::default(),
            fault: RefCell::default(),
            rate: Cell::new(48_000.0),
            starts: Cell::new(0),
            #[cfg(feature = "worker")]
            ear: RefCell::default(),
        }
    }
}

impl MemoryMicrophone {
    /// Every start from now on ends in this fault at once; `None` heals.
    pub fn fail_starts(&self, fault: Option<MicrophoneFault>) {
        self.fault.replace(fault);
    }

    /// The device's rate from the next start on, hertz.
    pub fn set_rate(&self, rate: f64) {
        self.rate.set(rate);
    }

    /// Hands over what was heard, as it is. Nothing happens while stopped.
    pub fn heard(&self, hearing: Hearing) {
        self.tell(MicrophoneEvent::Heard(hearing));
    }

    /// The running microphone is lost.
    pub fn lose(&self, fault: MicrophoneFault) {
        let sink = self.sink.take();
        if let Some(sink) = sink {
            sink(MicrophoneEvent::Fault(fault));
        }
    }

    /// Plays frames, one channel after the other, the first heard at
    /// `first_ms`; the real ear listens.
    #[cfg(feature = "worker")]
    pub fn play(&self, planar: &[f32], channels: usize, first_ms: f64) {
        let heard = self
            .ear
            .borrow_mut()
            .as_mut()
            .map(|ear| ear.hear_at(planar, channels, first_ms));
        if let Some(heard) = heard {
            self.heard(heard);
        }
    }

    /// Plays frames, one channel after the other, the first of which is the
    /// device's frame number `first`; they come over at `arrived_ms`.
    #[cfg(feature = "worker")]
    pub fn deliver(&self, planar: &[f32], channels: usize, first: f64, arrived_ms: f64) {
        let heard = self
            .ear
            .borrow_mut()
            .as_mut()
            .map(|ear| ear.hear(planar, channels, first, arrived_ms));
        if let Some(heard) = heard {
            self.heard(heard);
        }
    }

    /// Whether it runs.
    #[must_use]
    pub fn running(&self) -> bool {
        self.sink.borrow().is_some()
    }

    /// How often it was started.
    #[must_use]
    pub fn starts(&self) -> u32 {
        self.starts.get()
    }

    fn tell(&self, event: MicrophoneEvent) {
        let sink = self.sink.borrow().clone();
        if let Some(sink) = sink {
            sink(event);
        }
    }
}

impl Microphone for MemoryMicrophone {
    fn start(&self, gate: ToneGate, sink: MicrophoneSink) {
        self.starts.set(self.starts.get() + 1);
        if let Some(fault) = self.fault.borrow().clone() {
            self.sink.replace(None);
            sink(MicrophoneEvent::Fault(fault));
            return;
        }
        self.sink.replace(Some(sink));
        #[cfg(feature = "worker")]
        self.ear
            .replace(Some(crate::ear::Ear::new(self.rate.get())));
        self.gate(gate);
        self.tell(MicrophoneEvent::Started {
            rate: self.rate.get(),
        });
    }

    fn gate(&self, gate: ToneGate) {
        #[cfg(feature = "worker")]
        if let Some(ear) = self.ear.borrow_mut().as_mut() {
            ear.set_gate(gate);
        }
        let _ = gate;
    }

    fn own_tone(&self, own: OwnTone) {
        #[cfg(feature = "worker")]
        if let Some(ear) = self.ear.borrow_mut().as_mut() {
            ear.own_tone(own);
            return;
        }
        drop(own);
    }

    fn stop(&self) {
        self.sink.replace(None);
    }
}
