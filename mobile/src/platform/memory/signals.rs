//! Tones, pulses, prints and the kept screen, noted instead of made.

use std::cell::{Cell, RefCell};

use crate::platform::{Print, Pulse, Sound, Speech, Tone, Vibration, Wake};

/// Notes tones.
#[derive(Default)]
pub struct MemorySound {
    tones: RefCell<Vec<Tone>>,
    unlocked: Cell<u32>,
}

impl MemorySound {
    /// The tones so far, oldest first; the list starts anew.
    pub fn take(&self) -> Vec<Tone> {
        self.tones.take()
    }

    /// How often sound was unlocked.
    #[must_use]
    pub fn unlocks(&self) -> u32 {
        self.unlocked.get()
    }
}

impl Sound for MemorySound {
    fn unlock(&self) {
        self.unlocked.set(self.unlocked.get() + 1);
    }

    fn tone(&self, tone: Tone) {
        self.tones.borrow_mut().push(tone);
    }
}

/// Notes pulses.
#[derive(Default)]
pub struct MemoryVibration(RefCell<Vec<Pulse>>);

impl MemoryVibration {
    /// The pulses so far, oldest first; the list starts anew.
    pub fn take(&self) -> Vec<Pulse> {
        self.0.take()
    }
}

impl Vibration for MemoryVibration {
    fn pulse(&self, pulse: Pulse) {
        self.0.borrow_mut().push(pulse);
    }
}

/// Notes what is said aloud.
#[derive(Default)]
pub struct MemorySpeech(RefCell<Vec<String>>);

impl MemorySpeech {
    /// What was said so far, oldest first; the list starts anew.
    pub fn take(&self) -> Vec<String> {
        self.0.take()
    }
}

impl Speech for MemorySpeech {
    fn say(&self, words: &str) {
        self.0.borrow_mut().push(words.to_owned());
    }

    fn hush(&self) {}
}

/// Counts prints.
#[derive(Default)]
pub struct MemoryPrint(Cell<u32>);

impl MemoryPrint {
    /// How often printing was asked for.
    #[must_use]
    pub fn count(&self) -> u32 {
        self.0.get()
    }
}

impl Print for MemoryPrint {
    fn print(&self) {
        self.0.set(self.0.get() + 1);
    }
}

/// Knows whether the screen is kept on.
#[derive(Default)]
pub struct MemoryWake(Cell<bool>);

impl MemoryWake {
    /// Whether the screen is kept on now.
    #[must_use]
    pub fn held(&self) -> bool {
        self.0.get()
    }
}

impl Wake for MemoryWake {
    fn hold(&self) {
        self.0.set(true);
    }

    fn release(&self) {
        self.0.set(false);
    }
}
