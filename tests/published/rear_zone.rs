//! Grid of ISO 17386 and detection area of UN R158, as quoted in secondary
//! sources, and the geometry of general practice with ultrasound behind a
//! vehicle (ringing of a closed 40 kHz transducer from its component page,
//! time of flight as in TI SLAA941); the figures are computed on them.

use rakeline_core::decide::coverage::{
    Air, Area, Beam, Celsius, HeadInPlace, Place, Sensor, Target, View, ground_pickup_change, map,
    predict, summary, too_close,
};
use rakeline_core::kit::BeamWay;
use rakeline_core::units::{Degrees, Millimetres, Millis, Offset};

fn near(found: f64, wanted: f64, within: f64) {
    assert!((found - wanted).abs() <= within, "{found} {wanted}");
}

fn sensor() -> Sensor {
    Sensor::new(
        Millimetres(1537.5),
        48.0,
        [Degrees(100.0), Degrees(50.0)],
        BeamWay::OneWay,
        Millis(1.2),
    )
    .unwrap()
}

fn head(offset: f64) -> HeadInPlace {
    HeadInPlace {
        label: "1".to_owned(),
        offset: Offset(offset),
        forward: Millimetres(0.0),
        height: Millimetres(500.0),
        aim: Degrees(0.0),
        turn: Degrees(0.0),
        sensor: sensor(),
    }
}

#[test]
fn a_zone_of_1_8_by_0_8_metres_has_144_squares() {
    let area = Area::detection(Millimetres(900.0), Millimetres(900.0));
    assert_eq!(area.size(), (18, 8));
    near(area.row(0).0, 250.0, 1e-9);
    near(area.column(0).0, -850.0, 1e-9);
    let heads = [head(-300.0), head(300.0)];
    let found = map(&heads, View::Above(Target::Pole), area, &Air::REFERENCE);
    let found = summary(&found, &heads);
    assert_eq!(found.counted + found.too_close, 144);
}

#[test]
fn what_lies_inside_the_detection_area() {
    let area = Area::detection(Millimetres(900.0), Millimetres(900.0));
    // Behind the rearmost point and off the centre, metres.
    for (behind, across, inside) in [
        (0.50, 0.85, true),
        (0.50, 0.95, false),
        (0.19, 0.0, false),
        (1.00, 0.90, true),
        (1.01, 0.0, false),
    ] {
        let found = area.contains(Millimetres(across * 1e3), Millimetres(behind * 1e3));
        assert_eq!(found, inside, "{behind} {across}");
    }
}

#[test]
fn a_width_of_no_whole_squares_leaves_as_much_out_on_either_side() {
    let area = Area::detection(Millimetres(864.0), Millimetres(864.0));
    assert_eq!(area.size(), (17, 8));
    near(area.column(0).0, -800.0, 1e-9);
    near(area.column(16).0, 800.0, 1e-9);
    let uneven = Area::detection(Millimetres(880.0), Millimetres(850.0));
    assert_eq!(uneven.size(), (17, 8));
    near(uneven.columns_from.0 + 880.0, 15.0, 1e-9);
    near(850.0 - uneven.columns_to.0, 15.0, 1e-9);
}

#[test]
fn ringing_hides_what_is_near() {
    near(too_close(Millis(1.2), &Air::REFERENCE).0, 205.9, 0.05);
    near(too_close(Millis(1.0), &Air::REFERENCE).0, 171.6, 0.05);
    // 30 ms there and back.
    near(too_close(Millis(30.0), &Air::REFERENCE).0, 5148.0, 0.5);
}

#[test]
fn time_of_flight_of_a_metre() {
    let frost = Air {
        celsius: Celsius::new(0.0).unwrap(),
        ..Air::REFERENCE
    };
    near(2000.0 / Air::REFERENCE.speed(), 5.8275, 0.0005);
    near(2000.0 / frost.speed(), 6.0371, 0.0005);
}

#[test]
fn lower_beam_edge_meets_the_ground() {
    // Height, half width, aim; where the ground is met, and the slant.
    for (height, half, aim, flat, slant) in [
        (500.0, 30.0, 0.0, 0.866, 1.000),
        (500.0, 30.0, 5.0, 1.072, 1.183),
        (450.0, 25.0, 0.0, 0.965, 1.065),
    ] {
        // A kerb at the place where the edge of a two-way beam meets the
        // ground has 6 dB less than one on the axis at that range.
        let sensor = Sensor::new(
            Millimetres(1500.0),
            48.0,
            [Degrees(100.0), Degrees(2.0 * half)],
            BeamWay::TwoWay,
            Millis(1.2),
        )
        .unwrap();
        let head = |aim: f64| HeadInPlace {
            height: Millimetres(height),
            aim: Degrees(aim),
            sensor,
            ..head(0.0)
        };
        let at = Place {
            across: Offset(0.0),
            behind: Millimetres(flat * 1e3),
        };
        let see = |aim: f64| predict(&[head(aim)], &Target::Kerb, at, &Air::REFERENCE)[0];
        let (edge, axis) = (see(aim), see(aim - half));
        near(edge.range.0, slant * 1e3, 0.6);
        let lost = axis.level.unwrap().0 - edge.level.unwrap().0;
        near(lost, 20.0 * 2f64.log10(), 0.02);
    }
}

#[test]
fn a_pole_between_two_heads() {
    let heads = [head(-300.0), head(300.0)];
    let at = Place {
        across: Offset(-100.0),
        behind: Millimetres(500.0),
    };
    let found = predict(&heads, &Target::Pole, at, &Air::REFERENCE);
    near(found[0].range.0 + 37.5, 538.5, 0.05);
    near(found[1].range.0 + 37.5, 640.3, 0.05);
}

#[test]
fn spreading_and_absorption() {
    let at = |behind: f64| Place {
        across: Offset(0.0),
        behind: Millimetres(behind),
    };
    let wall = |behind: f64| {
        let found = predict(&[head(0.0)], &Target::Wall, at(behind), &Air::REFERENCE);
        found[0].level.unwrap().0
    };
    let alpha = Air::REFERENCE.absorption(48e3);
    near(2.0 * 1.5 * alpha, 4.785, 0.001);
    // A wall spreads once: half of 20.915 dB.
    near(
        wall(300.0) - wall(1000.0) - 1.4 * alpha,
        20.915 / 2.0,
        0.001,
    );
}

#[test]
fn computed_values_of_a_48_kilohertz_head() {
    let beam = Beam::new(48.0, Degrees(100.0), Degrees(50.0), BeamWay::OneWay).unwrap();
    near(beam.across * 1e3, 3.2905, 5e-5);
    near(beam.upright * 1e3, 5.9644, 5e-5);
    let place = |behind: f64| Place {
        across: Offset(0.0),
        behind: Millimetres(behind),
    };
    let level = |target: &Target, behind: f64| {
        predict(&[head(0.0)], target, place(behind), &Air::REFERENCE)[0]
            .level
            .unwrap()
            .0
    };
    let pole = level(&Target::Pole, 1537.5);
    near(pole, 0.0, 1e-9);
    near(pole - level(&Target::Wall, 1500.0), -16.13, 0.005);
    let alpha = Air::REFERENCE.absorption(48e3);
    near(alpha, 1.595, 0.0005);
    for (aim, change) in [(-5.0, 4.65), (-10.0, 8.73), (5.0, -5.32)] {
        let found = ground_pickup_change(&beam, Millimetres(500.0), Degrees(aim), &Air::REFERENCE);
        near(found.unwrap().0, change, 0.005);
    }
}
