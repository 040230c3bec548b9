//! A run of the obstacle learn: the microphone, the screen that stays on, and
//! time that passes.

use std::rc::Rc;

use rakeline_core::estimate::beep::{OwnTone, ToneGate};

use super::{FromDevice, Shell, TURN};
use crate::driver::{Action, Intent, LearnIntent};
use crate::platform::{Tone, VolumeKeys};

impl Shell {
    pub(super) fn learn(&self, action: Action) {
        let platform = &self.platform;
        match action {
            Action::Hush => platform.speech.hush(),
            Action::StartLearn => self.start_learn(),
            Action::StopLearn => {
                platform.wake.release();
                platform.page.volume_keys(VolumeKeys::Loudness);
                self.learn_turns.borrow_mut().take();
            }
            Action::StartMicrophone => self.start_microphone(),
            Action::HearOnly(tone) => {
                let gate = tone.map_or(ToneGate::Any, ToneGate::Near);
                platform.microphone.gate(gate);
            }
            Action::StopMicrophone => platform.microphone.stop(),
            _ => {}
        }
    }

    /// A tone of our own is told to the ear: it does not count.
    pub(super) fn sound(&self, tone: Tone) {
        let start = self.platform.clock.monotonic().0;
        let notes = tone.notes();
        let end = notes.iter().fold(0.0_f64, |end, note| end.max(note.1));
        self.platform.microphone.own_tone(OwnTone {
            start_ms: start,
            end_ms: start + 1000.0 * end,
            tones_hz: notes.iter().map(|note| f64::from(note.2)).collect(),
        });
        self.platform.sound.tone(tone);
    }

    fn start_microphone(&self) {
        self.platform.sound.unlock();
        let shell = self.clone();
        let sink = Rc::new(move |event| {
            shell.post(FromDevice::Intent(Intent::Learn(LearnIntent::Ear(event))));
        });
        self.platform.microphone.start(ToneGate::Any, sink);
    }

    /// The screen stays on and time passes while a run is on.
    fn start_learn(&self) {
        self.platform.sound.unlock();
        self.platform.wake.hold();
        self.platform.page.volume_keys(VolumeKeys::Count);
        let shell = self.clone();
        let tick = Rc::new(move || {
            shell.post(FromDevice::Intent(Intent::Learn(LearnIntent::Tick)));
        });
        let turns = self.platform.page.every(TURN, tick);
        self.learn_turns.borrow_mut().replace(turns);
    }
}
