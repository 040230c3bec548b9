//! Power at one frequency: GNU Radio, gr-fft/python/fft/qa_goertzel.py;
//! FourierAnalysis.jl, examples/example_goertzel.jl; and the discrete
//! Fourier transform computed in double precision.

use rakeline_core::estimate::beep::edges::tone_sum;

fn wave(count: usize, value: impl Fn(f64) -> f64) -> Vec<f32> {
    (0..count).map(|n| value(n as f64) as f32).collect()
}

fn close(found: f64, printed: f64, within: f64) {
    assert!((found - printed).abs() <= within, "{found} for {printed}");
}

const TURN: f64 = core::f64::consts::TAU;

/// GNU Radio, qa_goertzel.py: a cosine of 100 Hz at 8000 samples a second,
/// magnitude over count to four places.
#[test]
fn gnu_radio_finds_half_at_the_tone_and_nothing_an_octave_below() {
    let samples = wave(8000, |n| (TURN * 100.0 * n / 8000.0).cos());
    close(tone_sum(&samples, 8000.0, 100.0).norm() / 8000.0, 0.5, 5e-5);
    close(tone_sum(&samples, 8000.0, 50.0).norm() / 8000.0, 0.0, 5e-5);
}

/// FourierAnalysis.jl, example_goertzel.jl: 5 Hz of amplitude 10 in 128
/// samples a second has the power 100 (amplitude squared).
#[test]
fn fourier_analysis_finds_the_square_of_the_amplitude() {
    let samples = wave(128, |n| 10.0 * (TURN * 5.0 * n / 128.0).sin());
    let amplitude = 2.0 * tone_sum(&samples, 128.0, 5.0).norm() / 128.0;
    close(amplitude * amplitude, 100.0, 1e-4);
}

/// The discrete Fourier transform, computed.
#[test]
fn eight_numbers_have_the_powers_of_their_transform() {
    let samples = wave(8, |n| n + 1.0);
    let powers = [1296.0, 109.254_834, 32.0, 18.745_166, 16.0];
    for (bin, power) in powers.into_iter().enumerate() {
        close(tone_sum(&samples, 8.0, bin as f64).norm_sqr(), power, 1e-5);
    }
}

/// The discrete Fourier transform, computed: between the bins too.
#[test]
fn a_tone_that_does_not_fit_the_count_keeps_most_of_its_power() {
    let samples = wave(205, |n| (TURN * 1000.0 * n / 8000.0).sin());
    let power = tone_sum(&samples, 8000.0, 1000.0).norm_sqr();
    close(power, 10_404.0, 1.0);
    close(2.0 * power.sqrt() / 205.0, 0.995_122, 5e-5);
    close(tone_sum(&samples, 8000.0, 1209.0).norm_sqr(), 23.6432, 5e-3);
    let samples = wave(4410, |n| 0.25 * (TURN * 2700.0 * n / 44_100.0).sin());
    for (hertz, amplitude) in [(2700.0, 0.25), (2705.0, 0.159_015), (2710.0, 0.0)] {
        let found = 2.0 * tone_sum(&samples, 44_100.0, hertz).norm() / 4410.0;
        close(found, amplitude, 2e-6);
    }
}
