//! What a tap on 'same again' takes, into which job, and what is said of it.

use rakeline::driver::{AgainIntent, FleetView, Intent, told_apart_by};
use rakeline_core::again::{Line, TaughtBy, pass_on, pictures};
use rakeline_core::job::{
    BehindPhoto, Facing, MarksFrom, Particular, Whose, agreement_words, faces_open,
    marks_from_words, words_as_before,
};
use rakeline_core::steps::StepName;
use rakeline_core::units::Millimetres;
use rakeline_tests::again_cases::{EARLIER, full_job};

use crate::again::{again, earlier, job, open_offer, start, with_jobs};
use crate::again_passed::bring;
use crate::bench::Bench;
use crate::scenario;

fn asked(bench: &Bench) -> String {
    let words = agreement_words(bench.job());
    words.first().map_or_else(String::new, rakeline::texts::say)
}

/// A job of its own on the model, left for what earlier ones offer.
fn hinted(bench: &mut Bench) -> rakeline_core::job::JobId {
    let id = bench.new_id();
    bench.send(Intent::StartJob(id.clone()));
    let vehicle = "Tarn Carrier van 2023".to_owned();
    bench.send(Intent::Particular(Particular::Vehicle, vehicle.clone()));
    bench.send(Intent::Particular(Particular::Plate, "TC 1".to_owned()));
    again(bench, AgainIntent::GoFor(vehicle));
    id
}

#[test]
fn the_hint_fills_the_job_it_stands_in_and_begins_no_second_one() {
    let mut bench = with_jobs(&[job(&EARLIER)]);
    let id = hinted(&mut bench);
    let other = bench.new_id();
    again(&mut bench, AgainIntent::Start(other));
    assert_eq!(bench.job().id, id);
    assert_eq!(bench.job().particular(Particular::Plate), "TC 1");
    assert_eq!(bench.job().before.from[0].id, "e1");
    assert!(bench.saved());
    assert_eq!(bench.app.jobs.len(), 2, "the earlier one and this one");
    // It can be taken back.
    bench.send(Intent::Undo);
    assert!(bench.job().before.from.is_empty());
    assert_eq!(bench.job().particular(Particular::Plate), "TC 1");
    // And it is there after the app was closed, once.
    bench.send(Intent::Redo);
    let bench = bench.killed();
    assert_eq!(bench.app.jobs.len(), 2);
}

#[test]
fn a_fleet_from_the_hint_has_the_job_it_stands_in_as_its_first() {
    let mut bench = with_jobs(&[job(&EARLIER)]);
    let id = hinted(&mut bench);
    again(&mut bench, AgainIntent::FleetTyped("2".to_owned()));
    let other = bench.new_id();
    again(&mut bench, AgainIntent::FleetStart(other));
    assert_eq!(bench.app.settings.fleets[0].jobs, [id]);
    assert_eq!(bench.app.jobs.len(), 2);
}

#[test]
fn a_job_that_was_left_for_the_list_takes_nothing_over_later() {
    let mut bench = with_jobs(&[job(&EARLIER)]);
    let id = hinted(&mut bench);
    bench.send(Intent::GoJobs);
    start(&mut bench);
    assert_ne!(bench.job().id, id);
    assert_eq!(bench.app.jobs.len(), 3);
}

#[test]
fn marks_left_out_take_their_faces_along_and_faces_bring_their_marks() {
    let mut bench = with_jobs(&[job(&EARLIER)]);
    open_offer(&mut bench);
    assert_eq!(
        bench.app.again.taken(),
        [Line::Marks, Line::Faces, Line::Quote]
    );
    again(&mut bench, AgainIntent::Leave(Line::Marks));
    assert_eq!(bench.app.again.taken(), [Line::Quote]);
    again(&mut bench, AgainIntent::Take(Line::Faces));
    assert_eq!(
        bench.app.again.taken(),
        [Line::Marks, Line::Faces, Line::Quote]
    );
}

#[test]
fn what_is_asked_after_the_half_widths_is_what_is_open() {
    let mut bench = with_jobs(&[job(&EARLIER)]);
    start(&mut bench);
    scenario::type_half_widths(&mut bench, "871", "868");
    assert!(asked(&bench).contains("Read 2 faces"), "{}", asked(&bench));
    bench.send(Intent::ShowMarks);
    bench.send(Intent::TapeOn);
    scenario::type_face(&mut bench, "5.5", Facing::Down, "0.3");
    assert!(
        asked(&bench).contains("Read one face more"),
        "{}",
        asked(&bench)
    );
    assert_eq!(faces_open(bench.job()), [2]);
}

#[test]
fn faces_left_out_are_all_to_be_read_and_it_says_so() {
    let mut bench = with_jobs(&[job(&EARLIER)]);
    open_offer(&mut bench);
    again(&mut bench, AgainIntent::Leave(Line::Faces));
    let id = bench.new_id();
    again(&mut bench, AgainIntent::Start(id));
    scenario::type_half_widths(&mut bench, "871", "868");
    assert!(
        asked(&bench).contains("Read every face"),
        "{}",
        asked(&bench)
    );
    bench.send(Intent::ShowMarks);
    bench.send(Intent::TapeOn);
    assert_eq!(faces_open(bench.job()), [0, 1, 2, 3]);
    assert!(
        asked(&bench).contains("Read every face"),
        "{}",
        asked(&bench)
    );
}

#[test]
fn a_face_that_no_earlier_job_has_read_is_asked_for_by_its_head() {
    let mut first = job(&EARLIER);
    first.spots[3].readings.clear();
    let mut bench = with_jobs(&[first]);
    start(&mut bench);
    scenario::type_half_widths(&mut bench, "871", "868");
    assert!(asked(&bench).contains("Read also 4"), "{}", asked(&bench));
    bench.send(Intent::ShowMarks);
    bench.send(Intent::TapeOn);
    assert_eq!(faces_open(bench.job()), [0, 2, 3]);
}

#[test]
fn marks_as_before_name_their_job_and_planned_anew_say_why() {
    let mut bench = with_jobs(&[job(&EARLIER)]);
    start(&mut bench);
    scenario::type_half_widths(&mut bench, "871", "868");
    bench.send(Intent::ShowMarks);
    let from = marks_from_words(bench.job());
    assert_eq!(from.len(), 1);
    assert_eq!(from[0].key, "before-from");
    let mut bench = with_jobs(&[job(&EARLIER)]);
    start(&mut bench);
    // The outer right mark would be a millimetre too near the corner.
    scenario::type_half_widths(&mut bench, "869", "866");
    bench.send(Intent::ShowMarks);
    let marks = bench.job().marks.clone().expect("planned");
    assert!(matches!(marks.from, MarksFrom::Plan(_)));
    assert_eq!(marks.half_right, Millimetres(866.0));
    assert_eq!(bench.notice(), Some("before-marks-anew"));
    assert!(marks_from_words(bench.job()).is_empty());
}

#[test]
fn places_come_along_and_stay_marked_until_their_step_is_ended() {
    let mut first = full_job().expect("a job");
    first.visits.clear();
    let grommet = StepName("grommet".to_owned());
    let supply = StepName("supply".to_owned());
    first
        .steps
        .words
        .insert(grommet.clone(), "left of the tow eye".to_owned());
    first
        .steps
        .words
        .insert(supply.clone(), "lamp plug, left".to_owned());
    let mut bench = with_jobs(&[first]);
    open_offer(&mut bench);
    let offer = bench.app.again.offer.clone().expect("an offer");
    let places = offer.lines.iter().find(|line| line.line == Line::Places);
    let says: Vec<&str> = places
        .expect("places")
        .says
        .iter()
        .map(|m| &*m.key)
        .collect();
    assert!(says.contains(&"again-place-grommet"), "{says:?}");
    assert!(says.contains(&"again-place-supply"), "{says:?}");
    // Readings at the supply are told of the earlier vehicle, and no more.
    let told: Vec<&str> = offer.told.iter().map(|(line, _)| &*line.key).collect();
    assert!(told.contains(&"told-volts-on"), "{told:?}");
    assert!(told.contains(&"told-lamp-pulsed"), "{told:?}");
    let id = bench.new_id();
    again(&mut bench, AgainIntent::Start(id));
    for step in [&grommet, &supply] {
        assert!(words_as_before(bench.job(), step), "{step:?}");
        assert!(!bench.job().steps.ended.contains_key(step));
    }
    let volts = rakeline_core::job::Field::Volts(rakeline_core::decide::supply::Reading::ReverseOn);
    assert_eq!(bench.job().typed(volts), "");
}

#[test]
fn visits_are_told_with_why_and_what_was_done() {
    let mut bench = with_jobs(&[full_job().expect("a job")]);
    open_offer(&mut bench);
    let offer = bench.app.again.offer.clone().expect("an offer");
    let told: Vec<String> = offer
        .told
        .iter()
        .map(|(line, _)| rakeline::texts::say(line))
        .collect();
    assert!(
        told.iter()
            .any(|line| line.contains("reversed into a post")),
        "{told:?}"
    );
}

#[test]
fn photos_of_the_look_behind_are_shown_of_own_jobs_only() {
    let mut own = job(&EARLIER);
    let at = own.changed;
    own.behind.photos.push(BehindPhoto {
        blob: "blob-own".to_owned(),
        whose: Whose::Bumper,
        original: None,
        width: 40,
        height: 30,
        at,
    });
    let file = pass_on(&[job(&earlier(2, 0.1))], TaughtBy::default(), &[], "").expect("a file");
    assert!(!file.contains("blob"));
    let mut bench = with_jobs(&[own]);
    again(&mut bench, AgainIntent::Go);
    bring(&mut bench, file);
    open_offer(&mut bench);
    let offer = bench.app.again.offer.clone().expect("an offer");
    assert_eq!(offer.from.len(), 2);
    let seen = pictures(&offer, &bench.app.again.jobs);
    assert_eq!(seen.len(), 1);
    assert_eq!(seen[0].blob, "blob-own");
    assert_eq!(seen[0].from.key, "before-from");
}

#[test]
fn a_job_that_comes_back_from_a_colleague_counts_once() {
    let own = job(&EARLIER);
    let file = pass_on(std::slice::from_ref(&own), TaughtBy::default(), &[], "").expect("a file");
    let mut bench = with_jobs(&[own]);
    again(&mut bench, AgainIntent::Go);
    bring(&mut bench, file);
    open_offer(&mut bench);
    let offer = bench.app.again.offer.clone().expect("an offer");
    assert_eq!(offer.from.len(), 1);
    assert_eq!(offer.from[0].theirs, None, "the own one counts");
}

#[test]
fn vehicles_of_a_fleet_are_told_apart_by_their_plates() {
    let mut bench = with_jobs(&[job(&EARLIER)]);
    open_offer(&mut bench);
    again(&mut bench, AgainIntent::FleetTyped("2".to_owned()));
    let id = bench.new_id();
    again(&mut bench, AgainIntent::FleetStart(id.clone()));
    bench.send(Intent::Particular(Particular::Plate, "TC 77".to_owned()));
    bench.send(Intent::Particular(
        Particular::Customer,
        "Fell & Ghyll".to_owned(),
    ));
    bench.send(Intent::GoJobs);
    again(&mut bench, AgainIntent::FleetGo(id.0.clone()));
    let next = bench.new_id();
    again(&mut bench, AgainIntent::FleetNext(next));
    assert_eq!(bench.job().particular(Particular::Plate), "");
    bench.send(Intent::GoJobs);
    again(&mut bench, AgainIntent::FleetGo(id.0.clone()));
    let view = FleetView::of(&bench.app, &id.0).expect("the fleet");
    let titles: Vec<Option<String>> = view.jobs.iter().map(told_apart_by).collect();
    assert_eq!(titles, [Some("TC 77".to_owned()), None]);
}
