//! Kit sheets: typed quickly, kept, copied, deleted and brought back, from a
//! file and to a file, used by a job.

use rakeline::driver::{Intent, KitIntent};
use rakeline::platform::OpenedFile;
use rakeline::route::{KitId, Route};
use rakeline_core::job::{Asked, Field, asked_for_holes};
use rakeline_core::kit::QuickField;

use crate::bench::Bench;
use crate::scenario;

const PLAIN: &str = include_str!("../../assets/kits/plain-four.json");

const QUICK: [(QuickField, &str); 9] = [
    (QuickField::Name, "Shelf kit"),
    (QuickField::Labels, "1 2 3 4"),
    (QuickField::Hole, "21"),
    (QuickField::Rings, "2 5 9 14"),
    (QuickField::LeastAim, "0"),
    (QuickField::GreatestAim, "9"),
    (QuickField::TargetAim, "4"),
    (QuickField::Inner, "280"),
    (QuickField::CornerGap, "180"),
];

fn kits(bench: &mut Bench, intent: KitIntent) {
    bench.send(Intent::Kits(intent));
}

fn type_quick(bench: &mut Bench) {
    kits(bench, KitIntent::Go(Route::NewKit));
    for (field, text) in QUICK {
        kits(bench, KitIntent::QuickTyped(field, text.to_owned()));
    }
}

fn with_quick() -> Bench {
    let mut bench = Bench::new();
    type_quick(&mut bench);
    kits(&mut bench, KitIntent::QuickKeep(KitId("k1".to_owned())));
    bench
}

fn import(bench: &mut Bench, text: &str) {
    let (name, text) = ("kit.json".to_owned(), text.to_owned());
    bench.phone.files.will_open(OpenedFile::Text { name, text });
    kits(bench, KitIntent::OpenFile);
}

/// The keys of what is said about a file that is refused.
fn refused(text: &str) -> Vec<String> {
    let mut bench = Bench::new();
    let before = bench.phone.storage.records();
    import(&mut bench, text);
    assert!(bench.app.kits.own.is_empty());
    assert_eq!(bench.phone.storage.records(), before, "nothing is changed");
    let faults = bench.app.kits.import_faults.iter();
    faults.map(|why| why.key.clone().into_owned()).collect()
}

#[test]
fn a_quick_sheet_survives_a_kill_half_typed_and_starts_the_next_job() {
    let mut bench = Bench::new();
    type_quick(&mut bench);
    let mut bench = bench.killed();
    assert_eq!(bench.app.kits.quick.get(QuickField::Rings), "2 5 9 14");
    kits(&mut bench, KitIntent::QuickKeep(KitId("k1".to_owned())));
    assert_eq!(bench.app.route, Route::Kit(KitId("k1".to_owned())));
    let mut bench = bench.killed();
    assert_eq!(bench.app.kits.own.len(), 1);
    kits(&mut bench, KitIntent::Go(Route::Jobs));
    bench.send(Intent::StartJob(bench.new_id()));
    assert_eq!(bench.job().kit.name, "Shelf kit");
}

#[test]
fn a_quick_sheet_with_a_fault_is_not_kept_and_goes_back_to_the_field() {
    let mut bench = Bench::new();
    type_quick(&mut bench);
    let inches = (QuickField::Hole, "0.8".to_owned());
    kits(&mut bench, KitIntent::QuickTyped(inches.0, inches.1));
    kits(&mut bench, KitIntent::QuickPage(4));
    kits(&mut bench, KitIntent::QuickKeep(KitId("k1".to_owned())));
    assert!(bench.app.kits.own.is_empty());
    assert_eq!(bench.app.kits.page, 0);
    assert_eq!(bench.app.kits.quick_faults[0].0, QuickField::Hole);
}

#[test]
fn what_a_quick_sheet_left_open_is_asked_at_the_holes_and_goes_on_the_sheet() {
    let mut bench = with_quick();
    kits(&mut bench, KitIntent::Go(Route::Jobs));
    scenario::to_rings(&mut bench);
    let asked = asked_for_holes(bench.job());
    assert_eq!(asked.len(), 4);
    for (asked, text) in asked.iter().zip(["17", "12", "19", "14"]) {
        bench.send(Intent::Type(Field::Asked(*asked), text.to_owned()));
    }
    bench.send(Intent::Fill(asked));
    assert!(asked_for_holes(bench.job()).is_empty());
    let kept = &bench.app.kits.own[0].sheet;
    assert_eq!(**kept, bench.job().kit, "the library's sheet follows");
    bench.send(Intent::Type(Field::Asked(Asked::Bend), "-4".to_owned()));
    let before = bench.job().kit.clone();
    bench.send(Intent::Fill(vec![Asked::Bend]));
    assert_eq!(bench.notice(), Some("kit-fault-negative"));
    assert_eq!(bench.job().kit, before);
}

#[test]
fn a_deleted_sheet_comes_back_and_a_copy_has_its_own_name() {
    let mut bench = with_quick();
    let id = KitId("k1".to_owned());
    kits(
        &mut bench,
        KitIntent::Copy(id.clone(), KitId("k2".to_owned())),
    );
    let names: Vec<&str> = bench
        .app
        .kits
        .own
        .iter()
        .map(|k| k.sheet.name.as_str())
        .collect();
    assert_eq!(names, ["Shelf kit", "Shelf kit (2)"]);
    kits(&mut bench, KitIntent::Delete(id.clone()));
    assert_eq!(bench.killed().app.kits.own.len(), 1);
    kits(&mut bench, KitIntent::BringBack);
    assert_eq!(bench.killed().app.kits.own.len(), 2);
}

#[test]
fn fields_of_a_newer_version_survive_import_edit_and_export() {
    let mut bench = Bench::new();
    let newer = PLAIN.replace(
        "\"aim\": { \"least\": 0",
        "\"later\": [1, 2], \"aim\": { \"swivel\": 3, \"least\": 0",
    );
    assert_ne!(newer, PLAIN);
    import(&mut bench, &newer.replace("Bench kit P4", "From elsewhere"));
    let id = bench.app.kits.own[0].id.clone();
    kits(&mut bench, KitIntent::Go(Route::EditKit(id.clone())));
    let typed = |path: &str, text: &str| KitIntent::FieldTyped(path.to_owned(), text.to_owned());
    kits(&mut bench, typed("mark_out.inner", "275"));
    kits(&mut bench, KitIntent::EditKeep);
    kits(&mut bench, KitIntent::SaveFile(id));
    let files = bench.phone.share.files();
    let text = String::from_utf8(files[0].bytes.clone()).unwrap();
    let value: serde_json::Value = serde_json::from_str(&text).unwrap();
    assert_eq!(value["later"], serde_json::json!([1, 2]));
    assert_eq!(value["aim"]["swivel"], serde_json::json!(3));
    assert_eq!(value["mark_out"]["inner"], serde_json::json!(275.0));
}

#[test]
fn an_edited_sheet_with_a_fault_is_not_kept_and_names_it() {
    let mut bench = with_quick();
    let id = KitId("k1".to_owned());
    kits(&mut bench, KitIntent::Go(Route::EditKit(id.clone())));
    let least = KitIntent::FieldTyped("aim.least".to_owned(), "12".to_owned());
    kits(&mut bench, least);
    kits(&mut bench, KitIntent::EditKeep);
    let editing = bench.app.kits.editing.as_ref().unwrap();
    assert_eq!(
        editing.faults[0].message().key,
        "kit-fault-least-above-greatest"
    );
    assert_eq!(bench.app.kits.own[0].sheet.aim.least.0, 0.0);
}

#[test]
fn a_contradiction_in_the_full_editor_is_told_as_it_is_typed() {
    let mut bench = with_quick();
    let id = KitId("k1".to_owned());
    kits(&mut bench, KitIntent::Go(Route::EditKit(id)));
    let least = |text: &str| KitIntent::FieldTyped("aim.least".to_owned(), text.to_owned());
    let faults = |bench: &Bench| {
        let editing = bench.app.kits.editing.as_ref().expect("edited");
        editing
            .faults
            .iter()
            .map(|f| f.at.clone())
            .collect::<Vec<_>>()
    };
    assert!(faults(&bench).is_empty());
    kits(&mut bench, least("12"));
    assert_eq!(faults(&bench), ["aim"]);
    // What is only missing is told when the sheet is to be kept.
    kits(&mut bench, least(""));
    assert!(faults(&bench).is_empty());
    kits(&mut bench, KitIntent::EditKeep);
    assert_eq!(faults(&bench), ["aim.least"]);
    kits(&mut bench, least("1"));
    assert!(faults(&bench).is_empty());
}

#[test]
fn a_full_sheet_is_typed_from_nothing_and_survives_a_kill() {
    let mut bench = Bench::new();
    kits(&mut bench, KitIntent::Go(Route::Kits));
    let id = KitId("full".to_owned());
    kits(&mut bench, KitIntent::TypeFull(id.clone()));
    assert_eq!(bench.app.route, Route::EditKit(id.clone()));
    let typed = |path: &str, text: &str| KitIntent::FieldTyped(path.to_owned(), text.to_owned());
    kits(&mut bench, typed("name", "From nothing"));
    let mut bench = bench.killed();
    kits(&mut bench, KitIntent::Go(Route::Kits));
    assert!(bench.app.kits.begun().is_some());
    // It goes on with the one that was begun.
    kits(&mut bench, KitIntent::TypeFull(KitId("other".to_owned())));
    assert_eq!(bench.app.route, Route::EditKit(id.clone()));
    for list in ["heads.labels", "rings"] {
        kits(&mut bench, KitIntent::EntryAdded(list.to_owned()));
    }
    for (path, text) in [
        ("heads.labels[0]", "L"),
        ("rings[0].name", "2"),
        ("rings[0].lift", "2"),
        ("aim.least", "0"),
        ("aim.greatest", "9"),
        ("aim.target", "4"),
        ("mark_out.inner", "280"),
        ("mark_out.corner_gap_least", "180"),
        ("holes.head", "21"),
    ] {
        kits(&mut bench, typed(path, text));
    }
    kits(&mut bench, KitIntent::EditKeep);
    assert_eq!(bench.app.route, Route::Kit(id));
    let bench = bench.killed();
    assert_eq!(bench.app.kits.own[0].sheet.name, "From nothing");
    assert!(bench.app.kits.begun().is_none());
}

#[test]
fn a_full_sheet_begun_and_thrown_away_leaves_nothing() {
    let mut bench = Bench::new();
    kits(&mut bench, KitIntent::TypeFull(KitId("full".to_owned())));
    let name = KitIntent::FieldTyped("name".to_owned(), "Never mind".to_owned());
    kits(&mut bench, name);
    kits(&mut bench, KitIntent::EditThrow);
    assert_eq!(bench.app.route, Route::Kits);
    let bench = bench.killed();
    assert!(bench.app.kits.own.is_empty() && bench.app.kits.begun().is_none());
}

#[test]
fn what_was_edited_and_not_kept_survives_a_kill_and_can_be_thrown_away() {
    let mut bench = with_quick();
    let id = KitId("k1".to_owned());
    kits(&mut bench, KitIntent::Go(Route::EditKit(id.clone())));
    let inner = KitIntent::FieldTyped("mark_out.inner".to_owned(), "27x".to_owned());
    kits(&mut bench, inner);
    let mut bench = bench.killed();
    let typed = |bench: &Bench| {
        let editing = bench.app.kits.editing.as_ref().expect("edited");
        editing.draft.typed("mark_out.inner")
    };
    kits(&mut bench, KitIntent::Go(Route::Kits));
    kits(&mut bench, KitIntent::Go(Route::EditKit(id.clone())));
    assert_eq!(typed(&bench), "27x");
    assert!(bench.app.kits.is_unkept(&id));
    assert_eq!(bench.app.kits.own[0].sheet.mark_out.inner.0, 280.0);
    kits(&mut bench, KitIntent::EditThrow);
    assert_eq!(typed(&bench), "280");
    let mut bench = bench.killed();
    kits(&mut bench, KitIntent::Go(Route::Kits));
    kits(&mut bench, KitIntent::Go(Route::EditKit(id)));
    assert_eq!(typed(&bench), "280");
}

#[test]
fn another_kit_is_taken_while_no_hole_is_drilled() {
    let mut bench = Bench::new();
    scenario::to_rings(&mut bench);
    let metal = KitId("metal-four".to_owned());
    kits(&mut bench, KitIntent::UseHere(metal));
    assert!(bench.job().kit.name.contains("M4"));
    assert_eq!(bench.job().spots.len(), 4);
    bench.send(Intent::Undo);
    assert!(bench.job().kit.name.contains("P4"));
}

#[test]
fn a_file_with_duplicate_labels_is_refused() {
    let text = PLAIN.replace(
        "[\"1\", \"2\", \"3\", \"4\"]",
        "[\"1\", \"2\", \"2\", \"4\"]",
    );
    assert_eq!(refused(&text), ["kit-fault-twice"]);
}

#[test]
fn a_file_without_a_ring_is_refused() {
    let mut value: serde_json::Value = serde_json::from_str(PLAIN).unwrap();
    value["rings"] = serde_json::json!([]);
    assert!(refused(&value.to_string()).contains(&"kit-fault-too-few".to_owned()));
}

#[test]
fn a_file_whose_least_aim_is_above_its_greatest_is_refused() {
    let text = PLAIN.replace(
        "\"least\": 0, \"greatest\": 9",
        "\"least\": 10, \"greatest\": 9",
    );
    assert!(refused(&text).contains(&"kit-fault-least-above-greatest".to_owned()));
}

#[test]
fn a_file_in_inches_is_refused() {
    let text = PLAIN.replace("\"units\": \"mm\"", "\"units\": \"in\"");
    assert_eq!(refused(&text), ["kit-fault-units"]);
}

#[test]
fn negative_and_absurd_sizes_are_refused() {
    let text = PLAIN.replace("\"holes\": { \"head\": 21", "\"holes\": { \"head\": -21");
    assert_eq!(refused(&text), ["kit-fault-negative"]);
    let text = PLAIN.replace("\"holes\": { \"head\": 21", "\"holes\": { \"head\": 21000");
    assert_eq!(refused(&text), ["kit-fault-too-great"]);
}

#[test]
fn an_unknown_insert_is_refused() {
    let metal = include_str!("../../assets/kits/metal-four.json");
    let text = metal.replace(
        "\"ring\": \"14\", \"insert\": \"steep\"",
        "\"ring\": \"14\", \"insert\": \"odd\"",
    );
    assert_ne!(text, metal);
    assert_eq!(refused(&text), ["kit-fault-unknown-insert"]);
}

#[test]
fn ten_megabytes_a_wrong_version_and_no_json_are_refused() {
    let large = format!("{PLAIN}{}", " ".repeat(10_000_000));
    assert_eq!(refused(&large), ["kit-fault-document-too-large"]);
    let newer = PLAIN.replace("\"rakeline_kit\": 1", "\"rakeline_kit\": 2");
    assert_eq!(refused(&newer), ["kit-fault-version"]);
    assert_eq!(refused("heads: 4"), ["kit-fault-not-json"]);
}
