//! Whole pictures against numpy and scipy, written apart from the same
//! formulas (`tests/oracles/coverage.py`); and properties.

use rakeline_core::decide::coverage::{
    Air, Area, HeadInPlace, Place, Sensor, Target, View, map, predict,
};
use rakeline_core::kit::BeamWay;
use rakeline_core::units::{Degrees, Millimetres, Millis, Offset};
use rakeline_tests::coverage_plans::{agreement, plans};

#[test]
fn ten_random_plans_agree_within_a_hundredth_of_a_decibel() {
    let plans = plans(12, 41, 50.0).unwrap();
    let found = agreement(&plans);
    assert!(found.compared > 100_000, "{found:?}");
    assert_eq!(found.unlike, 0, "{found:?}");
    assert!(found.greatest < 0.01, "{found:?}");
}

fn head(offset: f64, aim: f64, turn: f64) -> HeadInPlace {
    HeadInPlace {
        label: String::new(),
        offset: Offset(offset),
        forward: Millimetres(0.0),
        height: Millimetres(520.0),
        aim: Degrees(aim),
        turn: Degrees(turn),
        sensor: Sensor::new(
            Millimetres(1700.0),
            48.0,
            [Degrees(95.0), Degrees(52.0)],
            BeamWay::TwoWay,
            Millis(1.3),
        )
        .unwrap(),
    }
}

fn area() -> Area {
    Area {
        columns_from: Millimetres(-1500.0),
        columns_to: Millimetres(1500.0),
        rows_from: Millimetres(50.0),
        rows_to: Millimetres(3050.0),
        cell: Millimetres(100.0),
    }
}

#[test]
fn a_mirrored_bumper_has_a_mirrored_picture() {
    let heads = [head(-650.0, 2.0, -24.0), head(-210.0, -1.0, -4.0)];
    let mirrored: Vec<_> = heads
        .iter()
        .map(|h| HeadInPlace {
            offset: Offset(-h.offset.0),
            turn: -h.turn,
            ..h.clone()
        })
        .collect();
    for target in [
        Target::Pole,
        Target::Wall,
        Target::Kerb,
        Target::TowBall {
            height: Millimetres(400.0),
        },
    ] {
        let one = map(&heads, View::Above(target), area(), &Air::WINTER);
        let other = map(&mirrored, View::Above(target), area(), &Air::WINTER);
        for row in 0..one.rows {
            for column in 0..one.columns {
                let here = one.levels[row * one.columns + column];
                let there = other.levels[(row + 1) * one.columns - 1 - column];
                assert!((here - there).abs() < 1e-6, "{target:?} {row} {column}");
            }
        }
    }
}

#[test]
fn the_farther_along_a_ray_the_less_to_spare() {
    let heads = [head(0.0, 3.0, 10.0)];
    for angle in [-50.0, -20.0, 0.0, 35.0, 60.0] {
        let angle = Degrees(angle);
        let mut last = f64::INFINITY;
        for step in 1..80 {
            let r = 60.0 * f64::from(step);
            let at = Place {
                across: Offset(r * angle.sin()),
                behind: Millimetres(r * angle.cos()),
            };
            let level = predict(&heads, &Target::Pole, at, &Air::REFERENCE)[0].level;
            let level = level.unwrap().0;
            assert!(level < last, "{angle:?} {r}");
            last = level;
        }
    }
}

#[test]
fn every_head_more_sees_no_less() {
    let heads = [
        head(-650.0, 0.0, -24.0),
        head(-210.0, 2.0, 0.0),
        head(210.0, 2.0, 0.0),
    ];
    let fewer = map(&heads[..2], View::Above(Target::Pole), area(), &Air::SUMMER);
    let more = map(&heads, View::Above(Target::Pole), area(), &Air::SUMMER);
    for (fewer, more) in fewer.levels.iter().zip(&more.levels) {
        assert!(more >= fewer);
    }
}
