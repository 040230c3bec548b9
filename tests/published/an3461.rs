//! AN3461 Rev 6 (M. Pedley, March 2013), equations 25, 26, 28, 29; values
//! computed from these equations in double precision.

use rakeline_core::sample::UpVector;

/// Roll and pitch by equations 25 and 26: equations 28 and 29 of the same
/// vector seen with its x and y axes turned by 90 degrees.
fn roll_first(g: [f64; 3]) -> (f64, f64) {
    let turned = UpVector::of([g[1], -g[0], g[2]]).unwrap();
    let (pitch, roll) = turned.euler();
    (-roll.0, pitch.0)
}

/// Roll and pitch by equations 28 and 29.
fn pitch_first(g: [f64; 3]) -> (f64, f64) {
    let (roll, pitch) = UpVector::of(g).unwrap().euler();
    (roll.0, pitch.0)
}

fn close(found: (f64, f64), roll: f64, pitch: f64) {
    assert!((found.0 - roll).abs() < 0.001, "{found:?}");
    assert!((found.1 - pitch).abs() < 0.001, "{found:?}");
}

#[test]
fn three_vectors_give_the_angles_of_the_note() {
    close(roll_first([0.5, 0.0, 0.866_025]), 0.0, -30.0);
    close(roll_first([-0.5, 0.5, 0.5f64.sqrt()]), 35.264, 30.0);
    close(pitch_first([-0.5, 0.5, 0.5f64.sqrt()]), 30.0, 35.264);
    close(roll_first([0.1, 0.2, 0.974_679]), 11.596, -5.739);
    close(pitch_first([0.1, 0.2, 0.974_679]), 11.537, -5.858);
}
