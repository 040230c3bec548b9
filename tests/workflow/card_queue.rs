//! Photos of mark cards that come while another is looked at, or whose screen
//! is left: none is lost.

use rakeline::driver::{CardsIntent, Intent};
use rakeline::route::Step;
use rakeline_core::units::Millis;

use crate::card_photos::{at_cards, give, photo, trouble};

#[test]
fn photos_that_come_faster_than_they_are_looked_at_are_all_kept() {
    let mut bench = at_cards();
    let came = |name: &str| Intent::Cards(CardsIntent::Came(Ok(Some(photo(name)))));
    bench.phone.clock.advance(Millis(5.0));
    bench.at_once(["left.jpg", "middle.jpg", "right.jpg"].map(came));
    assert_eq!(trouble(&bench), None);
    let state = &bench.job().card_photos;
    assert_eq!(state.photos.len(), 3);
    let measured = &state.outcome.as_ref().expect("figures").measured;
    assert_eq!(measured.gaps.len(), 3);
}

#[test]
fn the_check_line_typed_while_a_photo_is_looked_at_loses_no_photo() {
    let mut bench = at_cards();
    give(&mut bench, "middle.jpg");
    bench.phone.clock.advance(Millis(5.0));
    bench.at_once([
        Intent::Cards(CardsIntent::Came(Ok(Some(photo("left.jpg"))))),
        Intent::CheckLine("249".to_owned()),
    ]);
    let state = &bench.job().card_photos;
    assert_eq!(state.photos.len(), 2);
    assert!(state.outcome.is_some(), "solved with both");
}

#[test]
fn one_that_cannot_be_looked_at_keeps_its_other_try_while_the_next_is_looked_at() {
    let mut bench = at_cards();
    let mut torn = photo("left.jpg");
    torn.bytes.truncate(torn.bytes.len() / 2);
    bench.phone.clock.advance(Millis(5.0));
    bench.at_once([
        Intent::Cards(CardsIntent::Came(Ok(Some(torn)))),
        Intent::Cards(CardsIntent::Came(Ok(Some(photo("middle.jpg"))))),
    ]);
    assert_eq!(bench.job().card_photos.photos.len(), 1);
    assert!(trouble(&bench).is_some(), "what is wrong with the first");
}

#[test]
fn a_photo_that_is_looked_at_while_the_screen_is_left_waits_for_it() {
    let mut bench = at_cards();
    bench.phone.clock.advance(Millis(5.0));
    bench.at_once([
        Intent::Cards(CardsIntent::Came(Ok(Some(photo("middle.jpg"))))),
        Intent::GoStep(Step::Check),
    ]);
    assert_eq!(bench.job().card_photos.photos.len(), 0);
    bench.send(Intent::GoStep(Step::Cards));
    assert_eq!(bench.job().card_photos.photos.len(), 1);
    assert!(bench.job().card_photos.outcome.is_some());
}
