//! The microphone: frames are heard on the thread that brings them, and only
//! beeps go on.

use std::cell::Cell;
use std::sync::{Mutex, MutexGuard, PoisonError};

use rakeline_core::estimate::beep::{Hearing, OwnTone, ToneGate};

use super::phone::{Handle, PhoneFault, SoundFault};
use super::post::{Desk, Number, Said};
use crate::ear::Ear;
use crate::platform::{Microphone, MicrophoneEvent, MicrophoneFault, MicrophoneSink};

/// Full scale of 16-bit sound.
const FULL: f32 = 32_768.0;

struct Hearer {
    run: Number,
    ear: Option<Ear>,
    gate: ToneGate,
}

static HEARER: Mutex<Option<Hearer>> = Mutex::new(None);

fn hearer() -> MutexGuard<'static, Option<Hearer>> {
    HEARER.lock().unwrap_or_else(PoisonError::into_inner)
}

/// The run's frames come at this rate.
pub(super) fn begin(run: Number, rate: f64) {
    if let Some(hearer) = hearer().as_mut().filter(|hearer| hearer.run == run) {
        let mut ear = Ear::new(rate);
        ear.set_gate(hearer.gate);
        hearer.ear = Some(ear);
    }
}

/// Hears frames of a run, the first of which is its frame number `first`, come
/// over at `arrived_ms`; nothing of one that ended.
pub(super) fn hear(run: Number, frames: &[u8], first: f64, arrived_ms: f64) -> Option<Hearing> {
    let mut hearer = hearer();
    let ear = hearer
        .as_mut()
        .filter(|hearer| hearer.run == run)?
        .ear
        .as_mut()?;
    let mono: Vec<f32> = frames
        .chunks_exact(2)
        .map(|pair| f32::from(i16::from_le_bytes([pair[0], pair[1]])) / FULL)
        .collect();
    Some(ear.hear(&mono, 1, first, arrived_ms))
}

/// The phone's microphone.
pub(super) struct AndroidMicrophone {
    phone: Handle,
    desk: Desk,
    run: Cell<Option<Number>>,
}

impl AndroidMicrophone {
    pub(super) fn new(phone: &Handle, desk: &Desk) -> Self {
        Self {
            phone: *phone,
            desk: desk.clone(),
            run: Cell::new(None),
        }
    }
}

fn why(fault: SoundFault) -> MicrophoneFault {
    match fault {
        SoundFault::Refused => MicrophoneFault::Refused,
        SoundFault::Taken => MicrophoneFault::Taken,
        SoundFault::NoMicrophone => MicrophoneFault::NoMicrophone,
        SoundFault::Ended => MicrophoneFault::Ended,
        SoundFault::Failed { why } => MicrophoneFault::Failed(why),
    }
}

impl Microphone for AndroidMicrophone {
    fn start(&self, gate: ToneGate, sink: MicrophoneSink) {
        self.stop();
        let run = Desk::number();
        self.run.set(Some(run));
        *hearer() = Some(Hearer {
            run,
            ear: None,
            gate,
        });
        let told = sink.clone();
        self.desk.hear(run, move |said| match said {
            Said::SoundStarted(rate) => told(MicrophoneEvent::Started { rate }),
            Said::Heard(hearing) => told(MicrophoneEvent::Heard(hearing)),
            Said::SoundEnded(fault) => told(MicrophoneEvent::Fault(why(fault))),
            _ => {}
        });
        if let Err(fault) = self.phone.ask(|phone| phone.start_sound(run)) {
            self.desk.forget(run);
            sink(MicrophoneEvent::Fault(match fault {
                PhoneFault::Refused => MicrophoneFault::Refused,
                PhoneFault::Missing => MicrophoneFault::NoMicrophone,
                PhoneFault::Failed { why } => MicrophoneFault::Failed(why),
            }));
        }
    }

    fn gate(&self, gate: ToneGate) {
        if let Some(hearer) = hearer().as_mut() {
            hearer.gate = gate;
            if let Some(ear) = hearer.ear.as_mut() {
                ear.set_gate(gate);
            }
        }
    }

    fn own_tone(&self, own: OwnTone) {
        if let Some(ear) = hearer().as_mut().and_then(|hearer| hearer.ear.as_mut()) {
            ear.own_tone(own);
        }
    }

    fn stop(&self) {
        if let Some(run) = self.run.take() {
            self.desk.forget(run);
            *hearer() = None;
            self.phone.tell(|phone| phone.stop_sound());
        }
    }
}
