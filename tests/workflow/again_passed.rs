//! What is passed on to a colleague and taken in from one; fleets.

use rakeline::driver::{AgainIntent, FleetView, Intent, Letter, Said, WorkshopIntent};
use rakeline::platform::OpenedFile;
use rakeline::route::Route;
use rakeline_core::again::{Line, PassedFault, TaughtBy, fleet::stands, pass_on, read_passed};
use rakeline_core::decide::parts::{Part, PartLine};
use rakeline_core::job::{Facing, JobId, Particular};
use rakeline_tests::again_cases::{EARLIER, STAYS, full_job};
use serde_json::{Value, json};

use crate::again::{again, earlier, job, open_offer, with_jobs};
use crate::bench::Bench;
use crate::scenario;

pub fn file() -> String {
    pass_on(&[job(&EARLIER)], TaughtBy::default(), &[], "").expect("a file")
}

/// The file with one piece of its first lesson changed.
pub fn with(path: &str, value: Value) -> String {
    let mut file: Value = serde_json::from_str(&file()).expect("JSON");
    let at = format!("/lessons/0/{path}");
    *file.pointer_mut(&at).expect("that piece") = value;
    file.to_string()
}

pub fn bring(bench: &mut Bench, text: String) {
    let name = "same-again.json".to_owned();
    bench.phone.files.will_open(OpenedFile::Text { name, text });
    again(bench, AgainIntent::Bring);
}

#[test]
fn a_full_job_is_passed_on_without_any_value_of_its_customer() {
    let text =
        pass_on(&[full_job().expect("a job")], TaughtBy::default(), &[], "").expect("a file");
    for stays in STAYS {
        // A reading at the supply is told; it is not the customer's.
        assert!(stays == "11.87" || !text.contains(stays), "{stays} leaves");
    }
    for stays in ["FG12TARN", "Ghyll", "+01:00", "blob", "Deliveries"] {
        assert!(!text.contains(stays), "{stays} leaves");
    }
    assert!(text.contains("under the left seat"), "places go along");
    assert!(
        !text.contains("left trim"),
        "not where a plate stands beside them"
    );
    assert!(text.contains("T00:00:00"), "the day, not the hour");
    let back = read_passed(&text).expect("it is read back");
    assert_eq!(back.lessons.len(), 1);
    assert!(back.lessons[0].by.is_some(), "marked as theirs");
}

#[test]
fn words_that_name_the_end_of_the_vin_or_the_kits_serial_number_stay_here() {
    let mut job = full_job().expect("a job");
    for words in ["clip for C4D55667", "seal of ks 90417", "felt strip"] {
        let part = Part::Other(words.to_owned());
        job.quote.extra.push(PartLine { part, count: 1 });
    }
    let text = pass_on(&[job], TaughtBy::default(), &[], "").expect("a file");
    assert!(text.contains("felt strip"));
    for stays in ["C4D55667", "90417"] {
        assert!(!text.contains(stays), "{stays} leaves");
    }
}

#[test]
fn names_go_along_only_if_ticked() {
    let mut bench = with_jobs(&[job(&EARLIER)]);
    bench.app.settings.fitter = "A. Beck".to_owned();
    bench.send(Intent::Workshop(WorkshopIntent::Typed(
        Letter::Name,
        "Fellside Fitting".to_owned(),
    )));
    open_offer(&mut bench);
    again(&mut bench, AgainIntent::PassOn);
    again(&mut bench, AgainIntent::SayFitter(Said::Yes));
    again(&mut bench, AgainIntent::PassOn);
    let files = bench.phone.share.files();
    let text = |at: usize| String::from_utf8_lossy(&files[at].bytes).into_owned();
    assert!(!text(0).contains("Beck"));
    assert!(text(1).contains("A. Beck"));
    assert!(!text(1).contains("Fellside"), "the workshop was not ticked");
}

#[test]
fn a_colleague_s_jobs_are_offered_and_marked_as_theirs() {
    let by = TaughtBy {
        workshop: "Fellside Fitting".to_owned(),
        fitter: String::new(),
    };
    let text = pass_on(&[job(&EARLIER)], by, &[], "").expect("a file");
    let mut bench = Bench::new();
    again(&mut bench, AgainIntent::Go);
    bring(&mut bench, text.clone());
    assert_eq!(bench.notice(), Some("passed-kept"));
    bring(&mut bench, text);
    assert_eq!(bench.notice(), Some("passed-already-here"));
    // It is still there after the app was closed.
    let mut bench = bench.killed();
    open_offer(&mut bench);
    let offer = bench.app.again.offer.clone().expect("an offer");
    assert_eq!(offer.from[0].message().key, "before-from-theirs");
    let id = bench.new_id();
    again(&mut bench, AgainIntent::Start(id));
    assert_eq!(
        bench.job().before.from[0].theirs.as_deref(),
        Some("Fellside Fitting")
    );
    assert!(bench.saved());
}

#[test]
fn a_colleague_s_file_is_removed_with_a_way_back() {
    let mut bench = Bench::new();
    again(&mut bench, AgainIntent::Go);
    bring(&mut bench, file());
    let key = bench.app.again.received[0].0.clone();
    again(&mut bench, AgainIntent::Drop(key));
    assert!(bench.app.again.groups.is_empty());
    again(&mut bench, AgainIntent::BringBack);
    assert_eq!(bench.app.again.groups.len(), 1);
}

#[test]
fn a_file_of_another_version_says_so_and_is_not_kept() {
    for version in [0, 3, 900] {
        let mut file: Value = serde_json::from_str(&file()).expect("JSON");
        file["rakeline_again"] = json!(version);
        let text = file.to_string();
        assert_eq!(read_passed(&text), Err(PassedFault::Version(version)));
        let mut bench = Bench::new();
        again(&mut bench, AgainIntent::Go);
        let before = bench.phone.storage.records();
        bring(&mut bench, text);
        let fault = bench.app.again.brought_fault.clone().expect("it is said");
        assert_eq!(fault.key, "passed-version");
        assert_eq!(bench.phone.storage.records(), before);
    }
}

#[test]
fn a_broken_or_foreign_file_is_refused_whole() {
    let text = file();
    let ends = (0..text.len()).step_by(97);
    for end in ends.filter(|end| text.is_char_boundary(*end)) {
        assert_eq!(read_passed(&text[..end]), Err(PassedFault::NotOne), "{end}");
    }
    for text in ["", "[]", "{}", "null", "{\"rakeline_kit\":1}", "\u{feff}"] {
        assert_eq!(read_passed(text), Err(PassedFault::NotOne));
    }
    let large = " ".repeat(rakeline_core::again::passed::PASSED_LARGEST + 1);
    assert!(matches!(read_passed(&large), Err(PassedFault::TooLarge(_))));
    let mut file: Value = serde_json::from_str(&text).expect("JSON");
    file["lessons"][0]["unknown"] = json!(1);
    assert_eq!(read_passed(&file.to_string()), Err(PassedFault::NotOne));
}

#[test]
fn figures_that_cannot_be_are_refused_with_where() {
    let long = "x".repeat(501);
    let many: Vec<Value> = (0..41)
        .map(|n| json!({ "from": f64::from(n), "to": f64::from(n) + 1.0, "why": "plate" }))
        .collect();
    for (path, value, place) in [
        ("half_left", json!(90.0), "passed-at-halves"),
        ("half_right", json!(1e9), "passed-at-halves"),
        ("offsets", json!([-640.0, -214.0, 213.0]), "passed-at-heads"),
        (
            "offsets",
            json!([640.0, 214.0, -213.0, -640.0]),
            "passed-at-marks",
        ),
        (
            "offsets",
            json!([-9e9, -214.0, 213.0, 640.0]),
            "passed-at-marks",
        ),
        ("faces/0/rake", json!(80.0), "passed-at-faces"),
        ("faces/0/u", json!(0.0), "passed-at-faces"),
        ("faces/0/u_ground", json!(-1.0), "passed-at-faces"),
        ("vehicle", json!("2021"), "passed-at-name"),
        ("vehicle", json!(long), "passed-at-words"),
        ("minutes", json!(4_000_000), "passed-at-parts"),
        ("no_drill", json!(many), "passed-at-areas"),
        (
            "typed",
            json!([["agreed_name", "J. Ghyll"]]),
            "passed-at-words",
        ),
        (
            "typed",
            json!([[{ "volts": "ReverseOn" }, "12"]]),
            "passed-at-words",
        ),
        ("kit/heads/labels", json!([]), "passed-at-kit"),
    ] {
        let found = read_passed(&with(path, value));
        let wrong = Err(PassedFault::Wrong(place));
        // A figure that JSON's reader takes for none is no such file at all.
        assert!(
            found == wrong || found == Err(PassedFault::NotOne),
            "{path}: {found:?}"
        );
    }
}

fn finish_vehicle(bench: &mut Bench) {
    scenario::type_half_widths(bench, "871", "868");
    bench.send(Intent::ShowMarks);
    bench.send(Intent::TapeOn);
    for face in ["5.5", "4.1"] {
        scenario::type_face(bench, face, Facing::Down, "0.3");
    }
    assert!(bench.job().all_read());
}

#[test]
fn a_file_and_its_later_version_teach_each_job_once() {
    let both = [job(&EARLIER), job(&earlier(2, 0.3))];
    let older = pass_on(&both[..1], TaughtBy::default(), &[], "").expect("a file");
    let later = pass_on(&both, TaughtBy::default(), &[], "").expect("a file");
    let mut bench = Bench::new();
    again(&mut bench, AgainIntent::Go);
    bring(&mut bench, older);
    bring(&mut bench, later);
    open_offer(&mut bench);
    let offer = bench.app.again.offer.clone().expect("an offer");
    assert_eq!(offer.from.len(), 2);
}

#[test]
fn a_fleet_starts_from_a_colleagues_file_and_keeps_what_was_left_out() {
    let mut bench = Bench::new();
    again(&mut bench, AgainIntent::Go);
    bring(&mut bench, file());
    open_offer(&mut bench);
    again(&mut bench, AgainIntent::Leave(Line::Faces));
    again(&mut bench, AgainIntent::FleetTyped("2".to_owned()));
    let id = bench.new_id();
    again(&mut bench, AgainIntent::FleetStart(id.clone()));
    let first = bench.job().before.clone();
    assert_eq!(first.faces, []);
    bench.send(Intent::GoJobs);
    again(&mut bench, AgainIntent::FleetGo(id.0.clone()));
    let view = FleetView::of(&bench.app, &id.0).expect("the fleet");
    assert_ne!(view.parts.lines, [], "what their job took is known");
    let next = bench.new_id();
    again(&mut bench, AgainIntent::FleetNext(next));
    assert_eq!(bench.job().before.offsets, first.offsets);
    assert_eq!(bench.job().before.faces, [], "left out at each vehicle");
}

#[test]
fn a_deleted_vehicle_of_a_fleet_is_begun_anew_and_a_fleet_taken_off_comes_back() {
    let mut bench = with_jobs(&[job(&EARLIER)]);
    open_offer(&mut bench);
    again(&mut bench, AgainIntent::FleetTyped("1".to_owned()));
    let id = bench.new_id();
    again(&mut bench, AgainIntent::FleetStart(id.clone()));
    bench.send(Intent::GoJobs);
    bench.send(Intent::DeleteJob(id.clone()));
    again(&mut bench, AgainIntent::FleetGo(id.0.clone()));
    let left = |bench: &Bench| FleetView::of(&bench.app, &id.0).map(|view| view.fleet.left());
    assert_eq!(left(&bench), Some(1));
    let next = bench.new_id();
    again(&mut bench, AgainIntent::FleetNext(next));
    bench.send(Intent::GoJobs);
    again(&mut bench, AgainIntent::FleetGo(id.0.clone()));
    assert_eq!(left(&bench), Some(0));
    again(&mut bench, AgainIntent::FleetEnd);
    assert_eq!(left(&bench), None);
    assert_eq!(bench.notice(), Some("fleet-ended"));
    again(&mut bench, AgainIntent::FleetBringBack);
    assert_eq!(left(&bench), Some(0));
}

#[test]
fn a_fleet_has_a_job_a_vehicle_and_one_list_of_parts() {
    let mut bench = with_jobs(&[job(&EARLIER), job(&earlier(2, 0.2))]);
    open_offer(&mut bench);
    for wrong in ["", "0", "many", "61", "-3", "3.5"] {
        again(&mut bench, AgainIntent::FleetTyped(wrong.to_owned()));
        let id = bench.new_id();
        again(&mut bench, AgainIntent::FleetStart(id));
        assert_eq!(bench.notice(), Some("fleet-count-wrong"), "{wrong}");
    }
    again(&mut bench, AgainIntent::FleetTyped("3".to_owned()));
    let id = bench.new_id();
    again(&mut bench, AgainIntent::FleetStart(id.clone()));
    finish_vehicle(&mut bench);
    bench.send(Intent::GoJobs);
    again(&mut bench, AgainIntent::FleetGo(id.0.clone()));
    assert_eq!(bench.app.route, Route::Fleet(id.0.clone()));
    for vehicle in 2..=3_usize {
        let next = bench.new_id();
        again(&mut bench, AgainIntent::FleetNext(next));
        let from = bench.job().before.from.len();
        assert_eq!(from, vehicle + 1, "each vehicle starts from all before it");
        assert_eq!(bench.job().particular(Particular::Vehicle), EARLIER.vehicle);
        finish_vehicle(&mut bench);
        bench.send(Intent::GoJobs);
        again(&mut bench, AgainIntent::FleetGo(id.0.clone()));
    }
    let view = FleetView::of(&bench.app, &id.0).expect("the fleet");
    assert_eq!((view.jobs.len(), view.fleet.left()), (3, 0));
    let ids: Vec<&JobId> = view.jobs.iter().map(|job| &job.id).collect();
    assert!(ids[0] != ids[1] && ids[1] != ids[2], "a file each");
    assert!(view.jobs.iter().all(|job| stands(job).key == "fleet-faces"));
    let kits = view
        .parts
        .lines
        .iter()
        .find(|line| matches!(line.part, Part::Kit { .. }));
    assert_eq!(kits.expect("kits").count, 3);
    assert_eq!(view.parts.expected, 0);
    let more = bench.new_id();
    again(&mut bench, AgainIntent::FleetNext(more));
    assert_eq!(bench.app.open, None, "all are begun");
    // It is known after the app was closed, and its jobs stay when it goes.
    let mut bench = bench.killed();
    again(&mut bench, AgainIntent::FleetGo(id.0));
    assert_eq!(bench.app.settings.fleets.len(), 1);
    again(&mut bench, AgainIntent::FleetEnd);
    assert!(bench.app.settings.fleets.is_empty());
    assert_eq!(bench.app.jobs.len(), 5);
}

#[test]
fn parts_of_a_fleet_are_known_before_its_vehicles_are() {
    let mut bench = with_jobs(&[job(&EARLIER)]);
    open_offer(&mut bench);
    again(&mut bench, AgainIntent::FleetTyped("4".to_owned()));
    let id = bench.new_id();
    again(&mut bench, AgainIntent::FleetStart(id.clone()));
    bench.send(Intent::GoJobs);
    again(&mut bench, AgainIntent::FleetGo(id.0.clone()));
    let view = FleetView::of(&bench.app, &id.0).expect("the fleet");
    assert_eq!(view.parts.expected, 4);
    let kits = view
        .parts
        .lines
        .iter()
        .find(|line| matches!(line.part, Part::Kit { .. }));
    assert_eq!(kits.expect("kits").count, 4);
}
