//! Cards that can't be measured on: what is said about each.

use rakeline_core::estimate::photo::luma::Luma;
use rakeline_core::estimate::photo::seen::{CardTrouble, PhotoSeen};
use rakeline_tests::scene::cases::{SMALL, shining, usual};
use rakeline_tests::scene::{Scene, render};

use crate::photo_cards::seen;

fn photographed(scene: &Scene) -> PhotoSeen {
    let shot = render(scene);
    seen(&Luma::new(shot.size.0, shot.size.1, shot.grey).expect("a picture"))
}

fn troubles(seen: &PhotoSeen) -> Vec<(Option<u16>, CardTrouble)> {
    seen.faults
        .iter()
        .map(|fault| (fault.code, fault.trouble))
        .collect()
}

fn codes(seen: &PhotoSeen) -> Vec<u16> {
    seen.cards.iter().map(|card| card.code).collect()
}

#[test]
fn a_card_cut_by_the_edge_is_said_to_be_cut() {
    let mut scene = usual(21, SMALL, 1_700.0);
    // The right edge of the picture runs through the last card's right crosses.
    let truth = scene.truth();
    let [upper, lower] = [truth.cards[3].crosses[0], truth.cards[3].crosses[1]];
    let edge = (0.3 * upper[0] + 0.7 * lower[0]) as usize;
    let shot = render(&scene);
    scene.size.0 = edge;
    let rows: Vec<u8> = shot
        .grey
        .chunks_exact(shot.size.0)
        .flat_map(|row| row[..edge].iter().copied())
        .collect();
    let seen = seen(&Luma::new(edge, shot.size.1, rows).expect("a picture"));
    assert_eq!(codes(&seen), [0, 1, 2]);
    assert_eq!(troubles(&seen), [(Some(3), CardTrouble::Cut)]);
}

#[test]
fn a_reflection_over_a_cross_is_said_to_be_one() {
    let seen = photographed(&shining(usual(22, SMALL, 1_700.0)));
    assert_eq!(codes(&seen), [1, 2, 3]);
    assert_eq!(troubles(&seen), [(Some(0), CardTrouble::Glare)]);
}

#[test]
fn blurred_cards_are_said_to_be_blurred_or_are_not_measured_on() {
    let mut scene = usual(23, SMALL, 1_700.0);
    scene.look.blur = 3.4;
    let seen = photographed(&scene);
    assert_eq!(codes(&seen), Vec::<u16>::new());
    let said: Vec<CardTrouble> = troubles(&seen).iter().map(|(_, said)| *said).collect();
    assert!(
        said.contains(&CardTrouble::Blurred) || said.contains(&CardTrouble::Unread),
        "{said:?}"
    );
}

#[test]
fn a_code_that_is_there_twice_names_no_mark() {
    let mut scene = usual(24, SMALL, 1_700.0);
    scene.cards[2].code = 1;
    let seen = photographed(&scene);
    assert_eq!(codes(&seen), [0, 3]);
    assert_eq!(troubles(&seen), [(Some(1), CardTrouble::Twice); 2]);
}

#[test]
fn a_card_of_another_job_is_not_measured_on() {
    let mut scene = usual(25, SMALL, 1_700.0);
    scene.cards[2].code = 7;
    let mut seen = photographed(&scene);
    seen.for_job(4);
    assert_eq!(codes(&seen), [0, 1, 3]);
    assert_eq!(troubles(&seen), [(Some(7), CardTrouble::WrongJob)]);
}

#[test]
fn a_mirrored_photo_is_refused_card_by_card() {
    let shot = render(&usual(26, SMALL, 1_700.0));
    let mut rows = shot.grey;
    for row in rows.chunks_exact_mut(shot.size.0) {
        row.reverse();
    }
    let seen = seen(&Luma::new(shot.size.0, shot.size.1, rows).expect("a picture"));
    assert_eq!(codes(&seen), Vec::<u16>::new());
    let mut said = troubles(&seen);
    said.sort_by_key(|(code, _)| *code);
    let all = [0, 1, 2, 3].map(|code| (Some(code), CardTrouble::Mirrored));
    assert_eq!(said, all);
}

#[test]
fn a_photo_without_cards_shows_none() {
    let mut scene = usual(27, SMALL, 1_700.0);
    scene.cards.clear();
    let seen = photographed(&scene);
    assert_eq!((codes(&seen), troubles(&seen)), (vec![], vec![]));
}

#[test]
fn a_card_far_away_is_not_measured_on() {
    let mut scene = usual(28, (640, 480), 4_000.0);
    scene.held.aim = [0.0, 80.0, 540.0];
    let seen = photographed(&scene);
    assert_eq!(codes(&seen), Vec::<u16>::new());
}
