//! How the phone on the bench is held: on a face, or on the way to the next.

use rakeline::platform::Clock;
use rakeline_core::sample::RawSample;
use rakeline_core::units::{Degrees, Millis};

use crate::bench::{Bench, SAMPLE};

impl Bench {
    /// Feeds one sample now, then lets its time pass.
    pub fn sample(&mut self, sample: RawSample) {
        self.phone.motion.samples([sample]);
        self.pass(SAMPLE);
    }

    /// The phone lies with its back on a face of this angle, as a browser
    /// reports it: rounded to 0.1 degree, with a little noise.
    pub fn rest_on(&mut self, rake: f64, time: Millis) {
        for _ in 0..(time.0 / SAMPLE.0) as u32 {
            self.samples += 1;
            let noise = [0.0, 0.1, 0.0, -0.1, 0.0][self.samples as usize % 5];
            let sample = self.euler(90.0 - rake + noise, 0.0);
            self.sample(sample);
        }
    }

    /// The phone is carried to the next mark.
    pub fn carry(&mut self, time: Millis) {
        for _ in 0..(time.0 / SAMPLE.0) as u32 {
            self.samples += 1;
            let swing = f64::from(self.samples % 7) * 6.0;
            let sample = self.euler(60.0 + swing, swing);
            self.sample(sample);
        }
    }

    /// A sample of the browser's orientation now.
    pub fn euler(&self, beta: f64, gamma: f64) -> RawSample {
        RawSample::Euler {
            at: self.phone.clock.monotonic(),
            alpha: None,
            beta,
            gamma,
            step: Degrees(0.1),
        }
    }

    /// Carries the phone to a face of this angle and holds it there.
    pub fn hold_to(&mut self, rake: f64) {
        self.carry(Millis(600.0));
        self.rest_on(rake, Millis(1500.0));
    }
}
