//! The walk test and the search for a fault, as a fitter goes through them.

use rakeline_tests::browser::{Server, Shot};

use crate::fitter::{PATIENCE, first_screen, job_with_marks, look, path, saved, setup, texts};

#[test]
fn the_walk_test_goes_from_the_gate_to_the_job_sheet() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    job_with_marks(&phone);
    phone.tap_named("Walk test");
    phone.wait_for("All of this is so", PATIENCE);
    look(&phone, "walk-gate");
    phone.tap_named("All of this is so");
    phone.wait_for("Walk the nine points", PATIENCE);
    look(&phone, "walk-ready");
    phone.tap_named("Walk the nine points");
    phone.wait_for("Point 1 of 9", PATIENCE);
    phone.shot("walk-first", Shot::Screen);
    for sounds in [
        "Steady tone",
        "Steady tone",
        "Quick beeps",
        "Slow beeps",
        "Nothing",
    ] {
        phone.tap_nth(sounds, 0);
    }
    phone.wait_for("Point 6 of 9", PATIENCE);
    look(&phone, "walk-point");
    phone.tap_named("Lead me by voice");
    phone.wait_for("Carry the pole there", PATIENCE);
    for _ in 5..9 {
        phone.tap_nth("Slow beeps", 0);
    }
    phone.wait_for("Seen at 8 of 9 points", PATIENCE);
    look(&phone, "walk-done");
    for head in ["1", "3", "2", "4"] {
        phone.tap_named(&format!("Head {head} answers"));
    }
    phone.wait_for("Heads 2 and 3 are swapped", PATIENCE);
    look(&phone, "walk-heads");
    saved(&phone);
    phone.tap_named("To the job sheet");
    phone.wait_for("Nothing sounded:", PATIENCE);
    look(&phone, "walk-sheet");
}

#[test]
fn a_fault_is_found_by_questions_on_a_vehicle_that_is_not_here() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    phone.tap_named("Find a fault on a vehicle that is not here");
    phone.wait_for("What does it do?", PATIENCE);
    assert!(path(&phone).ends_with("/fault"));
    look(&phone, "fault-empty");
    phone.tap_named("Sounds for the ground");
    phone.wait_for("Causes, the likeliest first", PATIENCE);
    look(&phone, "fault-causes");
    phone.shot("fault-first", Shot::Screen);
    phone.tap_nth("No", 0);
    phone.rest(std::time::Duration::from_millis(300));
    let first = texts(&phone, ".ring .verdict");
    assert!(first[0].contains("points below level"), "{first:?}");
    phone.tap_nth("Why:", 0);
    phone.wait_for("Speaks for it", PATIENCE);
    look(&phone, "fault-why");
    // An answer for one head, given and changed afterwards.
    phone.tap_nth("All questions", 0);
    phone.tap_nth("At one head", 0);
    let row = "[...document.querySelectorAll('[role=group]')]\
        .find((one) => (one.getAttribute('aria-label') || '').startsWith('Head 2: '))";
    let pressed = format!("{row}.querySelector('[aria-pressed=true]').innerText");
    for (nth, answer) in ["Yes", "No", "Not known"].into_iter().enumerate() {
        phone.eval(&format!("{row}.querySelectorAll('button')[{nth}].click()"));
        phone.until("the head's answer", || phone.eval(&pressed) == answer);
    }
    phone.tap_nth("All questions", 0);
    phone.tap_named("Where does a fitted head point?");
    phone.wait_for("Never rest a phone on a head", PATIENCE);
    phone.tap_nth("2", 0);
    look(&phone, "fault-fitted");
    saved(&phone);
}
