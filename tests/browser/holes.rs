//! From the look behind to the head in its hole, and the parts it took.

use rakeline_tests::browser::Server;

use crate::fitter::{
    PATIENCE, first_screen, job_at_first_mark, look, saved, setup, texts, type_face_down,
};

#[test]
fn a_hole_is_drilled_by_the_plan_and_its_parts_stand_on_the_list_until_bought() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    job_at_first_mark(&phone);
    for (index, angle) in ["5.5", "4.0", "4.0", "5.5"].into_iter().enumerate() {
        type_face_down(&phone, index + 1, angle);
    }
    phone.wait_for("To the job sheet", PATIENCE);
    phone.tap_named("Behind");
    phone.wait_for("Could not see", PATIENCE);
    phone.tap_nth("Seen and clear", 0);
    phone.wait_for("Seen and clear behind every head", PATIENCE);
    phone.type_into("Free depth", "62");
    phone.tap_named("To the holes");
    phone.wait_for("Do not drill: the saw's centre drill", PATIENCE);
    phone.type_into("Centre drill past the saw's teeth", "18");
    phone.wait_for("All of this is so", PATIENCE);
    let plans = texts(&phone, ".ring .verdict");
    assert!(
        plans.iter().all(|plan| plan.starts_with("Drill 21 mm")),
        "{plans:?}"
    );
    phone.tap_nth("Step by step", 0);
    phone.wait_for("Measure how thick the panel is", PATIENCE);
    look(&phone, "holes-plan");
    phone.tap_named("All of this is so");
    phone.tap_named("Mark 1 is confirmed from behind");
    phone.tap_named("Hole 1 is drilled");
    phone.wait_for("How the head goes in", PATIENCE);
    phone.wait_for("Take ring 2 off the head first", PATIENCE);
    look(&phone, "holes-head");
    // All holes first; a head may go in before, from its card.
    phone.wait_for("Mark 2 is confirmed from behind", PATIENCE);
    phone.tap_named("Head 1 sits: arrow up, clicked home, tugged");
    phone.wait_for("Arrow up, clicked home, tugged", PATIENCE);
    phone.tap_named("Loom");
    phone.tap_named("Parts and quote");
    phone.wait_for("Another part", PATIENCE);
    phone.type_into("Another part", "grommet");
    phone.tap_named("Add the part");
    phone.wait_for("1 × grommet", PATIENCE);
    look(&phone, "parts");
    saved(&phone);
    phone.tap_named("All jobs");
    phone.wait_for("Start a job", PATIENCE);
    phone.tap_named("Parts to buy");
    phone.wait_for("1 × grommet", PATIENCE);
    look(&phone, "restock");
    phone.tap_named("All bought again");
    phone.wait_for("Nothing to buy", PATIENCE);
    look(&phone, "restock-done");
    phone.tap_named("Undo");
    phone.wait_for("1 × grommet", PATIENCE);
    assert_eq!(phone.errors(), Vec::<String>::new());
}
