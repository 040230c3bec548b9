//! A quick sheet typed on the phone from a leaflet.

use rakeline_tests::browser::Phone;

use crate::fitter::PATIENCE;

/// Types the five parts of a quick sheet; `seen` is told of each before it is
/// left. `kit` is its name, the cycles of its obstacle learn and the seconds
/// of silence at the end.
pub fn type_quick_sheet(phone: &Phone, kit: [&str; 3], seen: impl Fn(usize)) {
    let [name, cycles, silence] = kit;
    let parts: [(&str, &[(&str, &str)]); 5] = [
        (
            "On to the rings",
            &[
                ("Name of the kit", name),
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
                ("Cycles of the obstacle learn", cycles),
                ("Silence at the end", silence),
            ],
        ),
    ];
    for (part, (onward, fields)) in (1..).zip(parts) {
        phone.wait_for(&format!("Part {part} of 5"), PATIENCE);
        for (label, text) in fields {
            phone.type_into(label, text);
        }
        seen(part);
        phone.tap_named(onward);
    }
}
