//! Homographies and their uncertainty. Values computed in double precision
//! from exact synthetic views (they test the arithmetic): normalised direct
//! linear transformation, Hartley and Zisserman, Multiple View Geometry,
//! algorithm 4.2 (points of a public script); first-order propagation as in
//! Criminisi, Reid, Zisserman, BMVC 1997. And OpenCV's `findHomography` on
//! the same points.

#![allow(clippy::expect_used, reason = "a test stops here")]

use rakeline_core::estimate::photo::plane::{Flat, distance_on_plane, homography, normalising};
use rakeline_core::units::{Estimate, Millimetres};
use rakeline_tests::dice::Dice;
use rakeline_tests::oracle;
use rakeline_tests::photo_solve::within;
use serde_json::json;

type Pixel = [f64; 2];

/// The view of the published case, millimetres to pixels.
fn view([x, y]: Pixel) -> Pixel {
    let w = 1e-4 * x - 5e-5 * y + 1.0;
    [
        (2.0 * x + 0.1 * y + 1500.0) / w,
        (0.05 * x + 1.9 * y + 900.0) / w,
    ]
}

fn flat(width: f64, height: f64) -> Flat {
    let side = |mm: f64| Estimate::new(Millimetres(mm), Millimetres(0.0));
    Flat {
        width: side(width),
        height: side(height),
        u_off: Millimetres(0.0),
    }
}

fn corners(width: f64, height: f64) -> [Pixel; 4] {
    [[0.0, 0.0], [width, 0.0], [width, height], [0.0, height]]
}

/// Moves so that the flat thing's upper left corner is the origin.
fn seen(width: f64, height: f64, from: Pixel) -> [Pixel; 4] {
    corners(width, height).map(|[x, y]| view([x + from[0], y + from[1]]))
}

#[test]
fn points_are_brought_to_mean_zero_and_mean_distance_root_two() {
    let points = [
        [163.0, 274.0],
        [329.0, 153.0],
        [435.0, 71.0],
        [349.0, 270.0],
        [180.0, 154.0],
        [119.0, 113.0],
    ];
    let [s, x, y] = normalising(&points);
    assert!((s - 0.010_853_284_7).abs() < 5e-11);
    assert!((x + 2.848_987_2).abs() < 5e-8);
    assert!((y + 1.872_191_6).abs() < 5e-8);
    assert!((-x / s - 262.5).abs() < 1e-9 && (-y / s - 172.5).abs() < 1e-9);
}

#[test]
fn a_card_alone_gives_four_hundred_millimetres_back() {
    // Pixels as printed, four decimals.
    let card = [
        [1500.0, 900.0],
        [1657.0159, 896.6051],
        [1666.8287, 1000.9753],
        [1509.4721, 1005.2752],
    ];
    let targets = [[1126.7562, 961.8352], [1867.8643, 943.7000]];
    for (given, [x, y]) in card.iter().zip(corners(85.6, 53.98)) {
        let [u, v] = view([x, y]);
        assert!((u - given[0]).abs() < 6e-5 && (v - given[1]).abs() < 6e-5);
    }
    let found = distance_on_plane(&flat(85.6, 53.98), &card, &targets, 0.0).expect("a plane");
    assert!((found.value.0 - 400.0).abs() < 0.005, "{found:?}");
}

#[test]
fn half_a_pixel_on_every_coordinate_gives_the_first_order_uncertainty() {
    let cases = [
        (85.6, 53.98, [-200.0, 27.0], [200.0, 27.0], 4.03),
        (297.0, 210.0, [-200.0, 105.0], [200.0, 105.0], 1.11),
        (520.0, 111.0, [60.0, 150.0], [460.0, 150.0], 0.59),
    ];
    for (width, height, a, b, want) in cases {
        let found = distance_on_plane(
            &flat(width, height),
            &seen(width, height, [0.0, 0.0]),
            &[view(a), view(b)],
            0.5,
        )
        .expect("a plane");
        assert!((found.value.0 - 400.0).abs() < 1e-6);
        assert!((found.u.0 / want - 1.0).abs() < 0.02, "{width}: {found:?}");
    }
}

#[test]
fn a_sheet_of_another_size_carries_its_scale_into_the_distance() {
    let targets = [[-200.0, 105.0], [200.0, 105.0]].map(view);
    let cases = [(297.0, 210.0, 2.0, 2.69), (85.6, 53.98, 0.13, 0.61)];
    for (width, height, too_wide, want) in cases {
        let seen = seen(width, height, [0.0, 0.0]);
        let right = distance_on_plane(&flat(width, height), &seen, &targets, 0.0);
        let wrong = distance_on_plane(&flat(width + too_wide, height), &seen, &targets, 0.0);
        let off = wrong.expect("a plane").value.0 - right.expect("a plane").value.0;
        assert!((off - want).abs() < 0.005, "{off}");
    }
}

#[test]
fn opencv_finds_the_same_homographies() {
    let mut dice = Dice(61);
    let mut cases = Vec::new();
    for case in 0..40 {
        let n = 4 + case % 5;
        let points: Vec<Pixel> = (0..n)
            .map(|i| {
                // Around a circle, so that no three stand on a line.
                let angle = f64::from(i) / f64::from(n) * std::f64::consts::TAU;
                let far = within(&mut dice, 80.0, 140.0);
                [far * angle.cos(), far * angle.sin()]
            })
            .collect();
        let to = points.iter().map(|p| {
            let [x, y] = view(*p);
            [
                x + within(&mut dice, -0.3, 0.3),
                y + within(&mut dice, -0.3, 0.3),
            ]
        });
        let to: Vec<Pixel> = to.collect();
        cases.push((points, to));
    }
    let asked: Vec<_> = cases
        .iter()
        .map(|(from, to)| json!({ "from": from, "to": to }))
        .collect();
    let theirs = oracle::run(
        "photo_plane.py",
        &json!({ "homographies": asked, "poses": [] }),
    );
    let theirs = theirs["homographies"].as_array().expect("a list");
    for ((from, to), theirs) in cases.iter().zip(theirs) {
        let ours = homography(from, to).expect("determined");
        for ([x, y], [u, v]) in from.iter().zip(to) {
            let at = |r: usize| {
                let row = &theirs[r];
                let cell = |c: usize| row[c].as_f64().expect("a number");
                cell(0) * x + cell(1) * y + cell(2)
            };
            let mine = ours * nalgebra::Vector3::new(*x, *y, 1.0);
            let off = (mine.x / mine.z - at(0) / at(2)).hypot(mine.y / mine.z - at(1) / at(2));
            let left = (at(0) / at(2) - u).hypot(at(1) / at(2) - v);
            // Four points: exact. More: theirs goes on to the least
            // geometric error, so both differ by a part of what is left.
            assert!(off < 1e-4 + 0.3 * left.max(0.1), "{off} {left}");
            if from.len() == 4 {
                // It takes points in single precision.
                assert!(off < 5e-4, "{off}");
            }
        }
    }
}
