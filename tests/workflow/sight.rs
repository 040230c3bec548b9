//! What the heads will see, on the memory platform: asked of the worker,
//! followed by the slider, kept off the customer's page.

use rakeline::driver::{Intent, MarkOutIntent, Sheets, SightIntent, WalkIntent};
use rakeline::route::{Route, Step};
use rakeline::texts::say;
use rakeline_core::decide::coverage::ObjectKind;
use rakeline_core::decide::walk_test::Sounded;
use rakeline_core::drawing::{Day, Item, Probe, Sight, Squares, Standing};
use rakeline_core::job::{
    AirField, CoverageEvent, Field, JobEvent, ObjectField, WalkEvent, WalkKind, would_break,
};
use rakeline_core::report::{Block, customer_sheet, job_sheet, workshop_sheet};
use rakeline_core::units::Offset;
use rakeline_tests::printed::Printed;

use crate::bench::Bench;

/// The sample job's marks, with the prediction on the screen.
fn seen() -> Bench {
    let mut bench = Bench::new();
    let id = bench.new_id();
    bench.send(Intent::OpenSample(id));
    bench.send(Intent::GoStep(Step::Sight));
    bench
}

fn sight(bench: &Bench) -> Sight {
    let shown = bench.app.drafts.sight.shown.as_ref();
    shown.expect("a prediction").as_ref().clone()
}

fn ask(bench: &mut Bench, said: SightIntent) -> Sight {
    bench.send(Intent::Sight(said));
    sight(bench)
}

fn typed(bench: &mut Bench, field: Field, text: &str) -> Sight {
    bench.send(Intent::Type(field, text.to_owned()));
    sight(bench)
}

#[test]
fn a_job_without_readings_is_shown_with_what_is_assumed() {
    let bench = seen();
    let sight = sight(&bench);
    assert!(say(&sight.headline).contains('%'));
    let based: Vec<String> = sight.based.iter().map(say).collect();
    assert!(based[0].starts_with("Calibrated"), "{based:?}");
    assert!(based.iter().any(|line| line.contains("assumed")));
    assert_eq!(bench.app.drafts.sight.trouble, None);
}

#[test]
fn five_degrees_lower_says_how_much_more_of_the_ground_comes_in() {
    let mut bench = seen();
    let before = sight(&bench);
    let lower = ask(&mut bench, SightIntent::Tilt(-5.0, Squares::Coarse));
    assert_ne!(before.above, lower.above);
    assert_eq!(lower.ground.len(), 4);
    let back = ask(&mut bench, SightIntent::Tilt(0.0, Squares::Fine));
    assert_eq!(back, before);
    ask(&mut bench, SightIntent::Only(Some(1)));
    let one = ask(&mut bench, SightIntent::Tilt(-5.0, Squares::Fine));
    assert_eq!(one.ground.len(), 1);
    assert!(one.ground[0] == lower.ground[1], "{:?}", one.ground);
    assert_eq!(bench.app.drafts.sight.asked.tilted, [0.0, -5.0, 0.0, 0.0]);
}

#[test]
fn while_one_picture_is_made_the_newest_wish_waits_and_only_that() {
    let mut bench = seen();
    let started = bench.phone.work.started();
    bench.phone.work.wait_next();
    for by in [-1.0, -2.0, -3.0, -4.0] {
        bench.send(Intent::Sight(SightIntent::Tilt(by, Squares::Coarse)));
    }
    assert_eq!(bench.phone.work.started(), started + 1);
    bench.phone.work.go_on();
    bench.settle();
    assert_eq!(bench.phone.work.started(), started + 2);
    let direct = ask(&mut bench, SightIntent::Tilt(-4.0, Squares::Coarse));
    assert_eq!(direct, sight(&bench));
}

#[test]
fn a_worker_that_dies_is_said_and_the_next_try_works() {
    let mut bench = seen();
    bench.phone.work.die_next();
    bench.send(Intent::Sight(SightIntent::Day(Day::Winter)));
    assert!(bench.app.drafts.sight.trouble.is_some());
    ask(&mut bench, SightIntent::Again);
    assert_eq!(bench.app.drafts.sight.trouble, None);
}

#[test]
fn sheets_under_way_are_not_given_up_for_a_picture() {
    let mut bench = seen();
    bench.phone.work.wait_next();
    bench.send(Intent::MakeSheets(Sheets::MarkCards));
    bench.send(Intent::Sight(SightIntent::Day(Day::Winter)));
    assert_eq!(bench.phone.work.waiting(), 1);
    bench.phone.work.go_on();
    bench.settle();
    assert_eq!(bench.phone.share.files().len(), 1);
    let air = &sight(&bench).based[1];
    assert!(say(air).starts_with("Winter"), "{}", say(air));
}

#[test]
fn weather_that_cannot_be_is_said_and_the_picture_stays() {
    let mut bench = seen();
    let before = sight(&bench);
    for (field, text) in [
        (AirField::Celsius, "-60"),
        (AirField::Celsius, "80"),
        (AirField::Humidity, "0"),
        (AirField::Humidity, "130"),
        (AirField::Pressure, "30"),
    ] {
        let field = Field::Air(field);
        let told = typed(&mut bench, field, text);
        assert_eq!(told.faults.len(), 1, "{text}");
        assert_eq!(told.above, before.above);
        typed(&mut bench, field, "");
    }
    let frost = typed(&mut bench, Field::Air(AirField::Celsius), "-6");
    assert_eq!(frost.faults, []);
    assert_ne!(frost.lines, before.lines);
}

#[test]
fn a_place_tells_which_head_sees_it_and_by_how_much() {
    let mut bench = seen();
    let near = ask(&mut bench, SightIntent::Probe(Probe::Above(228.0, 700.0)));
    let words: Vec<String> = near.probe.iter().map(say).collect();
    assert_eq!(words.len(), 4);
    assert!(words[2].contains("sees it"), "{words:?}");
    assert!(words[2].contains("dB to spare"), "{words:?}");
    let side = ask(&mut bench, SightIntent::Probe(Probe::Side(1400.0, 1150.0)));
    assert_eq!(side.probe.len(), 4);
    let kerb = ask(&mut bench, SightIntent::Standing(Standing::Kerb));
    assert!(kerb.based.iter().any(|line| line.key == "sight-kerb-loss"));
}

#[test]
fn a_tow_ball_is_shifted_away_first_and_learned_second() {
    let mut bench = seen();
    let said = CoverageEvent::ObjectSaid(Some(ObjectKind::TowBall));
    bench.send(Intent::Fit(Box::new(JobEvent::Coverage(said))));
    assert_eq!(sight(&bench).object[0].key, "object-figure-missing");
    typed(&mut bench, Field::Object(ObjectField::Behind), "260");
    let told = typed(&mut bench, Field::Object(ObjectField::Height), "480");
    let keys: Vec<&str> = told.object.iter().map(|line| &*line.key).collect();
    assert_eq!(keys[0], "object-seen-by");
    assert!(keys[1].starts_with("object-shift"), "{keys:?}");
    assert!(keys[2].starts_with("object-learn"), "{keys:?}");
}

#[test]
fn the_prediction_is_in_the_workshops_part_and_not_on_the_customers_page() {
    let mut bench = seen();
    bench.send(Intent::GoStep(Step::Sheet));
    let sight = sight(&bench);
    let now = bench.job().changed;
    let customer = format!("{:?}", job_sheet(bench.job(), now, "Europe/Berlin"));
    let workshop = format!("{:?}", workshop_sheet(&sight));
    let key = format!("{:?}", sight.headline.key);
    assert!(workshop.contains(&key));
    assert!(!customer.contains(&key));
    assert!(!customer.contains("sight-"));
}

#[test]
fn the_picture_comes_again_after_the_app_was_killed_on_it() {
    let bench = seen();
    let again = bench.killed();
    assert!(matches!(again.app.route, Route::Job(_, Step::Sight)));
    assert_eq!(sight(&again), sight(&bench));
}

#[test]
fn the_workshops_file_predicts_what_was_fitted_and_not_what_was_tried() {
    let mut bench = seen();
    let fitted = sight(&bench);
    let tried = ask(&mut bench, SightIntent::Tilt(-8.0, Squares::Fine));
    assert_ne!(tried.ground, fitted.ground);
    bench.send(Intent::MakeSheets(Sheets::Data));
    let files = bench.phone.share.files();
    let text = std::str::from_utf8(&files.last().expect("a file").bytes).expect("text");
    for line in &fitted.ground {
        assert!(text.contains(&say(line)), "{}", say(line));
    }
    assert!(!text.contains(&say(&tried.ground[0])));
}

#[test]
fn what_is_assumed_of_the_air_is_named() {
    let mut bench = seen();
    let air = |sight: &Sight| say(&sight.based[1]);
    assert!(air(&sight(&bench)).starts_with("Air not typed"));
    let one = typed(&mut bench, Field::Air(AirField::Celsius), "12");
    assert!(air(&one).contains("humidity and pressure assumed"));
    typed(&mut bench, Field::Air(AirField::Humidity), "0");
    let all = typed(&mut bench, Field::Air(AirField::Pressure), "1000");
    assert!(air(&all).contains("humidity assumed"), "{}", air(&all));
    let all = typed(&mut bench, Field::Air(AirField::Humidity), "55");
    assert!(air(&all).starts_with("Air as typed:"), "{}", air(&all));
}

#[test]
fn an_object_where_a_head_still_rings_is_said_so_and_has_advice() {
    let mut bench = seen();
    let said = CoverageEvent::ObjectSaid(Some(ObjectKind::TowBall));
    bench.send(Intent::Fit(Box::new(JobEvent::Coverage(said))));
    typed(&mut bench, Field::Object(ObjectField::Across), "-228");
    typed(&mut bench, Field::Object(ObjectField::Behind), "90");
    let told = typed(&mut bench, Field::Object(ObjectField::Height), "480");
    let line = |key: &str| told.object.iter().find(|line| line.key == key);
    let near = line("object-too-close-for").expect("said");
    assert!(say(near).contains('2'), "{}", say(near));
    assert!(line("object-not-seen").is_none());
    assert!(
        told.object
            .iter()
            .any(|line| line.key.starts_with("object-shift"))
    );
    let wheel = CoverageEvent::ObjectSaid(Some(ObjectKind::SpareWheel));
    bench.send(Intent::Fit(Box::new(JobEvent::Coverage(wheel))));
    assert_eq!(sight(&bench).object[0].key, "object-radius-missing");
}

#[test]
fn the_label_of_all_heads_says_where_they_differ() {
    let mut bench = seen();
    let tilt = |bench: &Bench| bench.app.drafts.sight.tilt();
    assert_eq!(tilt(&bench), Some(0.0));
    ask(&mut bench, SightIntent::Tilt(-2.0, Squares::Fine));
    assert_eq!(tilt(&bench), Some(-2.0));
    ask(&mut bench, SightIntent::Only(Some(2)));
    ask(&mut bench, SightIntent::Tilt(-5.0, Squares::Fine));
    assert_eq!(tilt(&bench), Some(-5.0));
    ask(&mut bench, SightIntent::Only(None));
    assert_eq!(tilt(&bench), None);
    // Moved together they are alike again.
    ask(&mut bench, SightIntent::Tilt(1.0, Squares::Fine));
    assert_eq!(tilt(&bench), Some(1.0));
}

#[test]
fn a_spot_moved_on_the_map_takes_the_map_with_it_and_comes_back() {
    let mut bench = seen();
    let before = sight(&bench);
    let places = |bench: &Bench| bench.job().marks.as_ref().expect("marks").offsets.clone();
    let at = places(&bench);
    let to = |by: f64| Intent::MarkOut(MarkOutIntent::Move(1, Offset(at[1].0 + by)));
    bench.send(to(10.0));
    assert!((places(&bench)[1].0 - at[1].0 - 10.0).abs() < 1e-9);
    assert_ne!(sight(&bench).above, before.above);
    bench.send(Intent::Undo);
    assert_eq!(places(&bench), at);
    assert_eq!(sight(&bench), before);
    // The plan's rules hold: it stays, and the rule is told.
    let broken = would_break(bench.job(), 1, Offset(at[1].0 + 400.0));
    bench.send(to(400.0));
    assert_eq!(places(&bench), at);
    let notice = bench.app.notice.as_ref().expect("the rule");
    assert_eq!(Some(&notice.message), broken.first());
    // What was refused is no longer said once a step goes.
    bench.send(to(-1.0));
    assert!(bench.app.notice.is_none());
}

#[test]
fn no_map_and_no_prediction_is_on_the_customers_page() {
    let mut bench = seen();
    let said = CoverageEvent::ObjectSaid(Some(ObjectKind::TowBall));
    bench.send(Intent::Fit(Box::new(JobEvent::Coverage(said))));
    typed(&mut bench, Field::Object(ObjectField::Behind), "260");
    let told = typed(&mut bench, Field::Object(ObjectField::Height), "480");
    // A walk test against the prediction is the workshop's as well.
    for walk in [WalkEvent::GateHeeded, WalkEvent::Started(WalkKind::Nine)] {
        bench.send(Intent::Fit(Box::new(JobEvent::Walk(walk))));
    }
    for _ in 0..9 {
        bench.send(Intent::Walk(WalkIntent::Sounded(Sounded::Nothing)));
    }
    let now = bench.job().changed;
    let page = customer_sheet(bench.job(), now);
    let drawings = page.sections.iter().flat_map(|one| &one.blocks);
    let mapped = drawings.filter(|block| match block {
        Block::Drawing(drawing) => {
            let squares = |item: &Item| matches!(item, Item::Squares { .. });
            drawing.items.iter().any(squares)
        }
        _ => false,
    });
    assert_eq!(mapped.count(), 0);
    let keys = format!("{page:?}");
    assert!(keys.contains("sheet-walk"), "the walk test itself is there");
    let lines = [&told.lines, &told.ground, &told.based, &told.object];
    for line in lines.into_iter().flatten().chain([&told.headline]) {
        assert!(!keys.contains(&format!("{:?}", line.key)), "{}", line.key);
    }
    for stays in ["walk-miss", "walk-surprise", "walk-predicted"] {
        assert!(!keys.contains(stays), "{stays}");
    }
    bench.send(Intent::MakeSheets(Sheets::Customer));
    let files = bench.phone.share.files();
    let file = &files.last().expect("a file").bytes;
    let text = Printed::new("sheet-customer-no-map", file).texts().concat();
    for word in ["rediction", "redicted", "dB to spare", "of the squares"] {
        assert!(!text.contains(word), "{word} in {text}");
    }
}

#[test]
fn without_marks_it_says_what_comes_first() {
    let mut bench = Bench::new();
    let id = bench.new_id();
    bench.send(Intent::StartJob(id));
    bench.send(Intent::GoStep(Step::Sight));
    let trouble = bench.app.drafts.sight.trouble.as_ref().expect("words");
    assert_eq!(trouble.key, "coverage-no-marks");
}
