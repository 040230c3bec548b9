//! The phone's voice.

/// Speech. Everything said is also on the screen; nothing waits for it.
pub trait Speech {
    /// Says something and returns at once; what was being said ends. Silent
    /// where the phone has no voice.
    fn say(&self, words: &str);

    /// Ends what is being said.
    fn hush(&self);
}
