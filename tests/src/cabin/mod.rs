//! Sound of a vehicle's cabin, made by ourselves: noises, clicks, voices,
//! chimes, and beeps at a stated E/N0; and how well they are heard.
//!
//! Everything is at [`RATE`] unless said otherwise, full scale at ±1.

pub mod espeak;
pub mod noise;
pub mod score;
pub mod tones;
pub mod voice;
pub mod wav;

pub use noise::{Kind, Noise, density_at};
pub use score::{hear, hear_at, hear_in};
pub use tones::{Tone, add_tone, amplitude_for};

/// Samples a second.
pub const RATE: f64 = 16_000.0;
