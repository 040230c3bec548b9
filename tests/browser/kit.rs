//! A kit typed on the phone, used at once; the drill that stays shut.

use std::time::Instant;

use rakeline_tests::browser::Server;

use crate::fitter::{
    PATIENCE, first_screen, job_at_first_mark, look, saved, setup, type_face_down, verdicts,
};
use crate::quick_sheet::type_quick_sheet;

#[test]
fn a_quick_sheet_typed_on_the_phone_decides_rings_and_the_drill_stays_shut_unseen() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    phone.tap_named("Kit sheets");
    phone.wait_for("Type a quick sheet", PATIENCE);
    look(&phone, "kits");
    phone.tap_named("Type a quick sheet");
    let begun = Instant::now();
    type_quick_sheet(&phone, ["Shelf kit", "6", "4"], |part| {
        if part <= 2 {
            look(&phone, &format!("kit-quick-{part}"));
        }
    });
    phone.wait_for("Kept. The next job starts with it.", PATIENCE);
    println!(
        "quick sheet typed in {:.1} s",
        begun.elapsed().as_secs_f64()
    );
    look(&phone, "kit-kept");
    phone.tap_named("Start the next job with it");
    phone.wait_for("With Shelf kit", PATIENCE);
    job_at_first_mark(&phone);
    for (index, angle) in ["0.5", "4.0", "7.5", "4.0"].into_iter().enumerate() {
        type_face_down(&phone, index + 1, angle);
    }
    phone.wait_for("To the job sheet", PATIENCE);
    let rings = verdicts(&phone);
    assert_ne!(rings[0], rings[1], "{rings:?}");
    assert_ne!(rings[1], rings[2], "{rings:?}");
    look(&phone, "rings-quick-kit");
    phone.tap_named("Behind");
    phone.wait_for("Could not see", PATIENCE);
    phone.tap_nth("Could not see", 0);
    phone.wait_for("The drill stays shut at: 1, 2, 3, 4", PATIENCE);
    look(&phone, "behind");
    phone.tap_named("To the holes");
    phone.wait_for("Do not drill: could not see behind", PATIENCE);
    look(&phone, "holes-shut");
    phone.tap_named("Loom");
    phone.wait_for("Leads and supply: still open", PATIENCE);
    look(&phone, "loom");
    saved(&phone);
    assert_eq!(phone.errors(), Vec::<String>::new());
}
