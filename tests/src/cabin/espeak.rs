//! Speech by espeak-ng, several voices reading sentences of our own.

use std::process::{Command, Stdio};

use rakeline_core::estimate::beep::resample::Resampler;

use super::wav::read;

const SENTENCES: [&str; 8] = [
    "Put the board down beside the rear wheel and tell me what it reads now.",
    "I'll be another five minutes, the second head will not go into its ring.",
    "Turn left at the lights, then the workshop is on your right behind the trees.",
    "Seven hundred and eighty two millimetres, did you get that, seven eight two.",
    "Morning! Are you nearly done? She wants the van back before three o'clock.",
    "Leave it in reverse a moment longer, no, no, back out, that was too soon.",
    "The weather for the coast: cloud, rain later, wind easing in the evening.",
    "Who moved the ladder? Oh well. Easy, easy, easy, and stop.",
];
const VOICES: [(&str, u32, u32); 6] = [
    ("en-gb", 40, 150),
    ("en-us", 60, 175),
    ("en-gb+f2", 55, 165),
    ("en-us+f4", 75, 190),
    ("en-gb+m3", 30, 140),
    ("en-us+croak", 45, 160),
];

/// All sentences by all voices, one after the other, at 16 kHz.
///
/// # Errors
/// When espeak-ng is not there or gives no sound; with what to do.
pub fn speech() -> Result<Vec<f32>, String> {
    let mut all = Vec::new();
    for (voice, tone, speed) in VOICES {
        for sentence in SENTENCES {
            let made = Command::new("espeak-ng")
                .args([
                    "-v",
                    voice,
                    "-p",
                    &tone.to_string(),
                    "-s",
                    &speed.to_string(),
                ])
                .args(["--stdout", sentence])
                .stderr(Stdio::null())
                .output()
                .map_err(|e| format!("espeak-ng does not start ({e}): install espeak-ng"))?;
            let (samples, rate) =
                read(&made.stdout).ok_or_else(|| format!("espeak-ng gave no sound for {voice}"))?;
            Resampler::new(f64::from(rate)).push(&samples, &mut all);
        }
    }
    Ok(all)
}
