//! Spectra and resampling against numpy and scipy.

use rakeline_core::estimate::beep::RATE;
use rakeline_core::estimate::beep::bank::{LENGTHS, densities};
use rakeline_core::estimate::beep::edges::tone_sum;
use rakeline_core::estimate::beep::resample::Resampler;
use rakeline_tests::cabin::{Kind, Noise};
use rakeline_tests::oracle;
use serde_json::{Value, json};

fn numbers(value: &Value) -> Vec<f64> {
    let list = value.as_array().map(Vec::as_slice).unwrap_or_default();
    list.iter().filter_map(Value::as_f64).collect()
}

#[test]
fn densities_of_every_window_agree_with_numpy() {
    for (level, length) in LENGTHS.into_iter().enumerate().take(3) {
        let samples = Noise::new(Kind::Fan, 40 + level as u64).take(length);
        let (first_hz, step_hz, found) = densities(&samples, level);
        let asked = json!({ "samples": samples, "rate": RATE });
        let answer = oracle::run("beep_spectrum.py", &asked);
        let wanted = numbers(&answer["densities"]);
        let first = (first_hz / step_hz).round() as usize;
        assert!(found.len() > 500);
        let most = found.iter().copied().fold(0.0, f32::max);
        for (at, density) in found.iter().enumerate() {
            let apart = (f64::from(*density) - wanted[first + at]).abs();
            assert!(apart < 1e-5 * f64::from(most), "bin {at} of {length}");
        }
    }
}

#[test]
fn sums_at_one_frequency_agree_with_the_chirp_z_transform() {
    let samples = Noise::new(Kind::White, 44).take(1600);
    let tones = [2000.0, 2013.7, 2700.5, 3999.1];
    let asked = json!({ "samples": samples, "rate": RATE, "tones": tones });
    let wanted = numbers(&oracle::run("beep_spectrum.py", &asked)["at_tones"]);
    for (tone, wanted) in tones.into_iter().zip(wanted) {
        let found = tone_sum(&samples, RATE, tone).norm();
        assert!(
            (found - wanted).abs() < 1e-6 * wanted.max(0.01),
            "{found} {wanted}"
        );
    }
}

#[test]
fn a_tone_comes_through_from_every_rate_at_its_own_time() {
    for rate in [
        8_000.0, 11_025.0, 16_000.0, 22_050.0, 44_100.0, 48_000.0, 96_000.0,
    ] {
        for tone in [600.0, 2700.0, 3400.0] {
            let wave = |at: f64| (core::f64::consts::TAU * tone * at).sin();
            let input: Vec<f32> = (0..rate as usize)
                .map(|n| wave(n as f64 / rate) as f32)
                .collect();
            let mut made = Vec::new();
            let mut resampler = Resampler::new(rate);
            for part in input.chunks(777) {
                resampler.push(part, &mut made);
            }
            assert!(made.len() > 15_800, "{} at {rate}", made.len());
            for (n, sample) in made.iter().enumerate().skip(400) {
                let apart = (f64::from(*sample) - wave(n as f64 / RATE)).abs();
                assert!(apart < 2e-3, "{tone} Hz from {rate}: {apart} at {n}");
            }
        }
    }
}

#[test]
fn what_16_khz_cannot_hold_does_not_fold_back() {
    for rate in [44_100.0, 48_000.0, 96_000.0] {
        let wave = |n: usize| (core::f64::consts::TAU * 13_000.0 * n as f64 / rate).sin() as f32;
        let input: Vec<f32> = (0..rate as usize).map(wave).collect();
        let mut made = Vec::new();
        Resampler::new(rate).push(&input, &mut made);
        let most = made
            .iter()
            .skip(400)
            .fold(0.0f32, |most, s| most.max(s.abs()));
        assert!(most < 1e-3, "{most} from {rate}");
    }
}
