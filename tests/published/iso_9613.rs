//! ISO 9613-1:1993, table 1: absorption in dB/km at one atmosphere, as
//! transcribed in public test data (commuted/sound-propagation,
//! jmrplens/phonometry; 20 °C, 15 %, 6300 Hz from a public MATLAB check
//! script). Exact midbands 1000 x 10^(k/10). Saturation and relaxation
//! anchors as in python-acoustics. Ultrasonic values are the same formula
//! computed apart: they test the arithmetic, not the source.

use rakeline_core::decide::coverage::{
    Air, Celsius, Hectopascals, Humidity, relaxation, saturation,
};

fn air(celsius: f64, humidity: f64) -> Air {
    Air {
        celsius: Celsius::new(celsius).unwrap(),
        humidity: Humidity::new(humidity).unwrap(),
        pressure: Hectopascals::new(1013.25).unwrap(),
    }
}

#[test]
fn every_row_of_the_table_within_half_a_percent() {
    // °C, % humidity, k of the midband, dB/km.
    const TABLE: [(f64, f64, i32, f64); 20] = [
        (-20.0, 10.0, -13, 0.589),
        (-20.0, 70.0, 9, 27.8),
        (-20.0, 100.0, 10, 47.0),
        (-10.0, 70.0, 9, 86.2),
        (0.0, 50.0, 0, 6.83),
        (0.0, 20.0, 3, 34.6),
        (0.0, 100.0, 8, 88.0),
        (10.0, 70.0, 0, 3.66),
        (10.0, 50.0, 6, 46.7),
        (15.0, 100.0, 10, 105.0),
        (20.0, 50.0, 0, 4.66),
        (20.0, 50.0, 3, 9.86),
        (20.0, 70.0, 0, 4.98),
        (20.0, 100.0, 0, 5.42),
        (20.0, 10.0, 6, 109.0),
        (20.0, 100.0, 6, 19.4),
        (20.0, 15.0, 8, 175.0),
        (30.0, 50.0, 6, 24.5),
        (40.0, 50.0, 0, 9.52),
        (50.0, 70.0, 9, 80.3),
    ];
    for (celsius, humidity, band, printed) in TABLE {
        let hertz = 1000.0 * 10f64.powf(f64::from(band) / 10.0);
        let found = 1000.0 * air(celsius, humidity).absorption(hertz);
        let off = found / printed - 1.0;
        assert!(
            off.abs() < 0.005,
            "{celsius} {humidity} {hertz}: {found} {printed}"
        );
    }
}

#[test]
fn vapour_and_relaxation_anchors() {
    assert!((saturation(293.15) * 101.325 - 2.336_630_45).abs() < 1e-7);
    assert_eq!(relaxation(1.0, 1.0, 0.0), (24.0, 9.0));
    let vapour = 50.0 * saturation(293.15);
    assert!((vapour - 1.153_037).abs() < 1e-6);
    let (oxygen, nitrogen) = relaxation(1.0, 1.0, vapour);
    assert!((oxygen - 35_413.86).abs() < 0.05, "{oxygen}");
    assert!((nitrogen - 331.850).abs() < 0.001, "{nitrogen}");
}

#[test]
fn speed_of_sound_by_temperature() {
    // Computed from 343.2 sqrt(T / 293.15 K).
    for (celsius, speed) in [
        (-10.0, 325.165),
        (0.0, 331.286),
        (10.0, 337.296),
        (20.0, 343.200),
        (30.0, 349.005),
        (40.0, 354.714),
    ] {
        let found = air(celsius, 50.0).speed();
        assert!((found - speed).abs() < 0.001, "{celsius} {found}");
    }
}

#[test]
fn ultrasonic_absorption_computed_apart() {
    for (kilohertz, celsius, humidity, computed) in [
        (40.0, 20.0, 50.0, 1.3182),
        (40.0, 20.0, 70.0, 1.2856),
        (40.0, 0.0, 50.0, 0.4498),
        (40.0, 30.0, 50.0, 1.3405),
        (48.0, 20.0, 50.0, 1.5950),
        (50.0, 20.0, 50.0, 1.6611),
        (58.0, 20.0, 50.0, 1.9173),
    ] {
        let found = air(celsius, humidity).absorption(kilohertz * 1e3);
        assert!((found - computed).abs() < 1e-4, "{kilohertz} {found}");
    }
}

#[test]
fn measured_air_lies_in_a_wide_band_around_the_formula() {
    // Lawrence and Simmons, J. Acoust. Soc. Am. 1982 (abstract): 25 °C, 50 %.
    for (hertz, measured) in [(30e3, 0.7), (200e3, 8.0)] {
        let ratio = air(25.0, 50.0).absorption(hertz) / measured;
        assert!((0.65..1.35).contains(&ratio), "{hertz} {ratio}");
    }
}
