//! Source: none; cards on curved bumpers by seed, seen exactly with noise
//! of known size, against their truth.

#![allow(clippy::expect_used, reason = "a test stops here")]

use rakeline_core::estimate::photo::heads::{below_line, on_face};
use rakeline_core::estimate::photo::measured::{Given, measure};
use rakeline_core::estimate::photo::result::{Print, Tap};
use rakeline_core::estimate::photo::scene::{PhotoFault, solve_photos};
use rakeline_core::units::Millimetres;
use rakeline_tests::dice::Dice;
use rakeline_tests::photo_solve::errors::{Errors, run};
use rakeline_tests::photo_solve::{Harm, Kind, Scene, harmed, normal};

const GIVEN: Given = Given {
    marks: 4,
    print: Print {
        factor: 1.0,
        u: 0.0,
    },
    u_tip: Millimetres(0.0),
};

fn kind(photos: usize, noise: f64) -> Kind {
    Kind {
        marks: 4,
        photos,
        noise,
        centre: false,
    }
}

fn holds(photos: usize, noise: f64, spacing: f64, width: f64) {
    let errors: Errors = run(900..912, kind(photos, noise));
    assert_eq!(errors.refused, 0);
    assert!(errors.spacing_95() <= spacing, "{}", errors.spacing_95());
    assert!(errors.width_95() <= width, "{}", errors.width_95());
    let normalised = errors.normalised();
    assert!((0.4..=1.5).contains(&normalised), "{normalised}");
}

#[test]
fn three_photos_are_true_to_one_and_two_millimetres() {
    holds(3, 0.06, 1.0, 2.0);
}

#[test]
fn one_photo_is_true_to_three_and_five_millimetres() {
    holds(1, 0.06, 3.0, 5.0);
}

#[test]
fn three_photos_in_low_light_are_true_to_two_and_four_millimetres() {
    holds(3, 0.15, 2.0, 4.0);
}

#[test]
fn a_card_on_the_centre_mark_tells_left_from_right() {
    let kind = Kind {
        centre: true,
        ..kind(3, 0.06)
    };
    let truth = Scene::any(5, kind);
    let scene = solve_photos(&truth.seen(5, 0.06)).expect("a scene");
    let found = measure(&scene, &GIVEN).expect("measures");
    for mark in &found.marks {
        let card = &truth.cards[mark.mark];
        let (straight, along) = (mark.straight.expect("straight"), mark.along.expect("along"));
        assert!((straight.value.0 - truth.tip(card).x).abs() < 1.5);
        assert!((along.value.0 - card.s).abs() < 1.5);
        let turn = truth.bumper.turn(card.s).to_degrees();
        let found = mark.turn.expect("a turn");
        assert!(
            (found.value.0 - turn).abs() < 3.0 * found.u.0.max(0.3),
            "{found:?} {turn}"
        );
    }
    // The shape from above gives the same straight places again.
    let shape = found.plan_curve().expect("a shape");
    for mark in &found.marks {
        let (straight, along) = (mark.straight.expect("straight"), mark.along.expect("along"));
        let again = shape.straight(along.value).value.0;
        assert!(
            (again - straight.value.0).abs() < 6.0,
            "{again} {straight:?}"
        );
    }
}

/// What becomes of harmed photos: refused, or true within their ±.
fn never_confident(photos: usize, harm: Harm) {
    for seed in 40..42 {
        let truth = Scene::any(seed, kind(photos, 0.06));
        let Ok(scene) = solve_photos(&harmed(&truth, seed, 0.06, harm)) else {
            continue;
        };
        let Ok(found) = measure(&scene, &GIVEN) else {
            continue;
        };
        for gap in found.gaps.iter().chain([&found.width]) {
            let (a, b) = (&truth.cards[gap.left], &truth.cards[gap.right]);
            let off = gap.chord.value.0 - (truth.tip(a) - truth.tip(b)).norm();
            assert!(
                off.abs() < 1.0 + 2.0 * gap.chord.expanded().0,
                "{harm:?}, seed {seed}: off by {off}, said ±{}",
                gap.chord.expanded().0
            );
        }
    }
}

#[test]
fn harmed_photos_are_refused_or_true_within_their_limits() {
    for harm in Harm::ALL {
        never_confident(3, harm);
    }
    for harm in [Harm::Cropped, Harm::OneCardSmaller, Harm::Stretched] {
        never_confident(1, harm);
    }
}

#[test]
fn mirrored_photos_and_moved_cards_are_named() {
    let truth = Scene::any(3, kind(3, 0.06));
    let mirrored = solve_photos(&harmed(&truth, 3, 0.06, Harm::Mirrored));
    assert_eq!(mirrored.err(), Some(PhotoFault::Mirrored { photo: 0 }));
    let moved = solve_photos(&harmed(&truth, 3, 0.06, Harm::CardMoved));
    assert!(matches!(moved, Err(PhotoFault::DoesNotFit { .. })));
    let alone = Scene::any(4, kind(1, 0.06));
    let smaller = solve_photos(&harmed(&alone, 4, 0.06, Harm::OneCardSmaller));
    assert!(matches!(smaller, Err(PhotoFault::OffCurve { .. })));
    let stretched = solve_photos(&harmed(&alone, 4, 0.06, Harm::Stretched));
    assert_eq!(stretched.err(), Some(PhotoFault::NotAsTaken { photo: 0 }));
}

#[test]
fn heads_and_a_line_tapped_are_where_they_are() {
    let mut off = Vec::new();
    for seed in 20..24 {
        let truth = Scene::any(seed, kind(3, 0.06));
        let scene = solve_photos(&truth.seen(seed, 0.06)).expect("a scene");
        let mut dice = Dice(seed);
        let mut tap = |s: f64, up: f64| {
            let shot = &truth.shots[1];
            let at = truth.bumper.on_face(s, up);
            let pixel = shot.camera.project(&(shot.turn * (at - shot.eye)));
            let pixel = pixel.expect("in front");
            let (dx, dy) = (0.5 * normal(&mut dice), 0.5 * normal(&mut dice));
            Tap {
                photo: 1,
                x: pixel.x + dx,
                y: pixel.y + dy,
                u: 0.5,
            }
        };
        let middle = truth.cards.iter().map(|c| truth.tip(c).x).sum::<f64>() / 4.0;
        for card in &truth.cards {
            let near = on_face(&scene, &GIVEN, &[tap(card.s, -14.0)]).expect("on the face");
            let at = truth.bumper.on_face(card.s, -14.0);
            off.push((near.straight.value.0 - (at.x - middle)) / near.straight.u.0);
            off.push((near.above.value.0 + 14.0) / near.above.u.0);
        }
        // Beyond the outermost card the face is not known so well.
        let outer = &truth.cards[3];
        let at_card = on_face(&scene, &GIVEN, &[tap(outer.s, 20.0)]).expect("on the face");
        let beyond = on_face(&scene, &GIVEN, &[tap(outer.s + 130.0, 20.0)]);
        assert!(beyond.expect("on the face").straight.u.0 > 1.5 * at_card.straight.u.0);
        let line = [-450.0, 40.0, 520.0].map(|s| tap(s, 120.0));
        let below = below_line(&scene, &GIVEN, &line);
        assert_eq!(below.len(), 4);
        for (mark, below) in below {
            let miss = below.value.0 - 120.0;
            assert!(miss.abs() < 1.0 + 2.0 * below.u.0, "{mark}: {below:?}");
        }
    }
    let rms = (off.iter().map(|x| x * x).sum::<f64>() / off.len() as f64).sqrt();
    assert!((0.4..=1.4).contains(&rms), "{rms}");
    // Far from the face nothing is measured.
    let truth = Scene::any(20, kind(3, 0.06));
    let scene = solve_photos(&truth.seen(20, 0.06)).expect("a scene");
    let sky = Tap {
        photo: 1,
        x: 2000.0,
        y: -4000.0,
        u: 1.0,
    };
    assert_eq!(on_face(&scene, &GIVEN, &[sky]), None);
}
