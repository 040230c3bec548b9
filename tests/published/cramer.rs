//! O. Cramer, J. Acoust. Soc. Am. 93, 1993: speed of sound in humid air, as
//! reused in IEC 61094-2:2009, annex F, table F.2 (coefficients and table
//! F.1 anchors as transcribed in the public tests of jmrplens/phonometry).
//! The polynomial stands here as an independent check of the speed that
//! predictions use (ISO 9613-1, which knows no humidity).

use rakeline_core::decide::coverage::{Air, Celsius, Hectopascals, Humidity};

fn cramer(t: f64, p: f64, humidity: f64) -> f64 {
    const A: [f64; 16] = [
        331.5024,
        0.603_055,
        -0.000_528,
        51.471_935,
        0.149_587_4,
        -0.000_782,
        -1.82e-7,
        3.73e-8,
        -2.93e-10,
        -85.209_31,
        -0.228_525,
        5.91e-5,
        -2.835_149,
        -2.15e-13,
        29.179_762,
        0.000_486,
    ];
    let kelvin = t + 273.15;
    let saturated = (1.237_884_7e-5 * kelvin * kelvin - 1.912_131_6e-2 * kelvin + 33.937_110_47
        - 6343.1645 / kelvin)
        .exp();
    let enhancement = 1.00062 + 3.14e-8 * p + 5.6e-7 * t * t;
    let xw = humidity / 100.0 * enhancement * saturated / p;
    let xc = 0.0004;
    let cubic = |i: usize| A[i] + A[i + 1] * t + A[i + 2] * t * t;
    cubic(0)
        + cubic(3) * xw
        + cubic(6) * p
        + cubic(9) * xc
        + A[12] * xw * xw
        + A[13] * p * p
        + A[14] * xc * xc
        + A[15] * xw * p * xc
}

#[test]
fn table_f1_anchors() {
    assert!((cramer(23.0, 101_325.0, 50.0) - 345.866_52).abs() < 0.000_5);
    assert!((cramer(20.0, 80_000.0, 65.0) - 344.382_67).abs() < 0.000_5);
}

#[test]
fn the_speed_that_predictions_use_is_within_half_a_percent() {
    for (celsius, pascals, humidity) in [
        (0.0, 101_325.0, 50.0),
        (10.0, 95_000.0, 90.0),
        (20.0, 80_000.0, 65.0),
        (23.0, 101_325.0, 50.0),
        (30.0, 101_325.0, 60.0),
    ] {
        let air = Air {
            celsius: Celsius::new(celsius).unwrap(),
            humidity: Humidity::new(humidity).unwrap(),
            pressure: Hectopascals::new(pascals / 100.0).unwrap(),
        };
        let off = air.speed() / cramer(celsius, pascals, humidity) - 1.0;
        assert!(off.abs() < 0.005, "{celsius} {off}");
    }
}
