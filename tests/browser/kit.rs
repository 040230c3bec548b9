//! A kit typed on the phone, used at once; the drill that stays shut.

use std::time::Instant;

use rakeline_tests::browser::Server;

use crate::fitter::{
    PATIENCE, first_screen, job_at_first_mark, look, saved, setup, type_face_down, verdicts,
};

/// The fields in the order of the screens.
const SCREENS: [(&str, &[(&str, &str)]); 5] = [
    (
        "On to the rings",
        &[
            ("Name of the kit", "Shelf kit"),
            ("Labels of the heads", "1 2 3 4"),
            ("Hole for a head", "21"),
        ],
    ),
    ("On to the aim", &[("What the rings add", "2 5 9 14")]),
    (
        "On to the marks",
        &[
            ("Least aim", "0"),
            ("Greatest aim", "9"),
            ("Aim to be near to", "4"),
        ],
    ),
    (
        "On to lead and learn",
        &[
            ("Inner limit", "280"),
            ("Least corner gap", "180"),
            ("Depth behind the face", "17"),
        ],
    ),
    (
        "Keep the sheet",
        &[
            ("Length of a head's lead", "2400"),
            ("Cycles of the obstacle learn", "6"),
            ("Silence at the end", "4"),
        ],
    ),
];

#[test]
fn a_quick_sheet_typed_on_the_phone_decides_rings_and_the_drill_stays_shut_unseen() {
    let server = Server::start();
    let phone = first_screen(&server, setup());
    phone.tap_named("Kit sheets");
    phone.wait_for("Type a quick sheet", PATIENCE);
    look(&phone, "kits");
    phone.tap_named("Type a quick sheet");
    let begun = Instant::now();
    for (index, (onward, fields)) in SCREENS.iter().enumerate() {
        phone.wait_for(&format!("Part {} of 5", index + 1), PATIENCE);
        for (label, text) in *fields {
            phone.type_into(label, text);
        }
        if index < 2 {
            look(&phone, &format!("kit-quick-{}", index + 1));
        }
        phone.tap_named(onward);
    }
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
