//! Bad input around what the heads will see, the walk test and the search for
//! a fault: each has an outcome in words, no panic, no empty screen.

use rakeline::driver::{Intent, SightIntent, TILT_GREATEST, WalkIntent};
use rakeline::route::Step;
use rakeline::texts::say;
use rakeline_core::decide::walk_test::Sounded;
use rakeline_core::diagnose::{Cause, diagnose};
use rakeline_core::drawing::{Item, Sight, SightAsked, Squares, sight};
use rakeline_core::job::{
    AirField, Asked, FaultEvent, Field, JobEvent, JobState, Symptom, WalkEvent, WalkKind, Where,
    air_of, walk_half, walk_headline, walk_points,
};
use rakeline_core::report::job_sheet;
use rakeline_core::units::{Degrees, Millimetres};

use crate::bench::Bench;
use crate::scenario;

/// A job with marks and no readings.
fn marked() -> Bench {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    bench.send(Intent::GoStep(Step::Sight));
    bench
}

fn shown(bench: &Bench) -> Sight {
    let shown = bench.app.drafts.sight.shown.as_ref();
    shown.expect("a prediction").as_ref().clone()
}

/// No figure of a picture is NaN or endless.
fn is_drawn(sight: &Sight) {
    for drawing in [&sight.above, &sight.side] {
        assert!(!drawing.items.is_empty());
        for item in &drawing.items {
            let figures: Vec<f64> = match item {
                Item::Line { points, .. } | Item::Area { points, .. } => {
                    points.iter().flat_map(|at| [at.0, at.1]).collect()
                }
                Item::Circle { centre, radius, .. } => vec![centre.0, centre.1, *radius],
                Item::Squares { runs, .. } => runs.iter().flatten().copied().collect(),
                Item::Text { at, size, .. } => vec![at.0, at.1, *size],
            };
            assert!(figures.iter().all(|figure| figure.is_finite()), "{item:?}");
        }
    }
}

fn with(change: impl FnOnce(&mut JobState)) -> Result<Sight, String> {
    let mut job = marked().job().clone();
    change(&mut job);
    sight(&job, &SightAsked::default()).map_err(|why| say(&why))
}

#[test]
fn a_sheet_without_beam_widths_is_asked_for_them_and_shown_with_typical_ones() {
    let mut bench = Bench::new();
    bench.send(Intent::StartJob(bench.new_id()));
    let told = with(|job| {
        if let Some(sensing) = &mut job.kit.sensing {
            sensing.beam_across = None;
            sensing.beam_upright = None;
        }
    });
    let told = told.expect("a picture");
    is_drawn(&told);
    let based: Vec<String> = told.based.iter().map(say).collect();
    assert!(
        based.iter().filter(|line| line.contains("ypical")).count() >= 2,
        "{based:?}"
    );
    assert!(told.asked.contains(&Asked::BeamAcross), "{:?}", told.asked);
    assert!(told.asked.contains(&Asked::BeamUpright), "{:?}", told.asked);
}

#[test]
fn a_temperature_of_minus_60_or_80_is_refused_in_words_and_the_map_stays() {
    let mut bench = marked();
    let before = shown(&bench);
    for text in ["-60", "80"] {
        let field = Field::Air(AirField::Celsius);
        bench.send(Intent::Type(field, text.to_owned()));
        let told = shown(&bench);
        assert_eq!(told.above, before.above);
        let (of, why) = &told.faults[0];
        assert_eq!(*of, field);
        assert!(say(why).contains(&text.replace('-', "")), "{}", say(why));
        is_drawn(&told);
    }
}

#[test]
fn a_humidity_of_nothing_or_over_100_is_refused_in_words_and_the_map_stays() {
    let mut bench = marked();
    let before = shown(&bench);
    for text in ["0", "100.5", "130", "-5"] {
        let field = Field::Air(AirField::Humidity);
        bench.send(Intent::Type(field, text.to_owned()));
        let told = shown(&bench);
        assert_eq!(told.above, before.above, "{text}");
        assert!(!say(&told.faults[0].1).is_empty());
        assert_eq!(air_of(bench.job()).humidity.get(), 50.0);
    }
    bench.send(Intent::Type(
        Field::Air(AirField::Humidity),
        "100".to_owned(),
    ));
    assert_eq!(shown(&bench).faults, []);
}

#[test]
fn a_head_that_faces_into_the_vehicle_is_named_and_sees_nothing() {
    let told = with(|job| job.kit.aim.target = Degrees(110.0)).expect("a picture");
    is_drawn(&told);
    assert_eq!(told.troubles.len(), 4);
    assert!(
        say(&told.troubles[0]).contains("1"),
        "{}",
        say(&told.troubles[0])
    );
    assert!(
        say(&told.headline).starts_with("0 %"),
        "{}",
        say(&told.headline)
    );
}

#[test]
fn a_range_of_nothing_is_said_on_the_map_and_at_the_walk_test() {
    for range in [0.0, -5.0, f64::NAN, f64::INFINITY] {
        let change = |job: &mut JobState| {
            if let Some(sensing) = &mut job.kit.sensing {
                sensing.rated_range = Some(Millimetres(range));
            }
        };
        let why = with(change).expect_err("no range");
        assert!(why.contains("range"), "{why}");
        let mut job = marked().job().clone();
        change(&mut job);
        for kind in [WalkKind::Nine, WalkKind::Grid] {
            let why = walk_points(&job, kind).expect_err("no range");
            assert!(say(&why).contains("range"), "{}", say(&why));
        }
    }
}

#[test]
fn a_walk_test_left_half_done_says_so_on_the_screen_and_on_the_sheet() {
    let mut bench = marked();
    bench.send(Intent::GoStep(Step::Walk));
    let gate = JobEvent::Walk(WalkEvent::GateHeeded);
    bench.send(Intent::Fit(Box::new(gate)));
    bench.send(Intent::Walk(WalkIntent::Start(WalkKind::Nine)));
    for _ in 0..3 {
        bench.send(Intent::Walk(WalkIntent::Sounded(Sounded::Nothing)));
    }
    bench.send(Intent::GoStep(Step::Sheet));
    let bench = bench.killed();
    assert_eq!(walk_half(bench.job()).map(|half| half.done), Some(3));
    let words = say(&walk_headline(bench.job()));
    assert!(words.contains("3 of 9"), "{words}");
    let sheet = job_sheet(bench.job(), bench.job().changed, "UTC");
    let sheet = format!("{sheet:?}");
    assert!(sheet.contains("walk-headline-half-done"));
    assert!(!sheet.contains("walk-share-reached") && !sheet.contains("walk-share-missed"));
}

#[test]
fn a_record_without_readings_has_a_map_a_walk_and_a_diagnosis() {
    let mut bench = marked();
    is_drawn(&shown(&bench));
    let assumed: Vec<String> = shown(&bench).based.iter().map(say).collect();
    assert!(
        assumed.iter().any(|line| line.contains("assumed")),
        "{assumed:?}"
    );
    assert_eq!(
        walk_points(bench.job(), WalkKind::Nine).map(|all| all.len()),
        Ok(9)
    );
    let said = FaultEvent::SymptomSaid(Symptom::SeesGround, Where::NotKnown);
    bench.send(Intent::Fit(Box::new(JobEvent::Fault(said))));
    let found = diagnose(bench.job());
    assert_eq!(found.suspects.len(), Cause::ALL.len());
    let aim = found
        .suspects
        .iter()
        .find(|one| one.cause == Cause::AimBelowLevel);
    assert!(!aim.expect("in the list").unknown.is_empty());
    assert!(!say(&found.outcome).is_empty());
}

#[test]
fn a_tilt_or_a_head_that_cannot_be_leaves_the_map_as_it_is() {
    let mut bench = marked();
    let before = shown(&bench);
    bench.send(Intent::Sight(SightIntent::Tilt(f64::NAN, Squares::Fine)));
    assert_eq!(shown(&bench), before);
    for by in [f64::INFINITY, -400.0] {
        bench.send(Intent::Sight(SightIntent::Tilt(by, Squares::Fine)));
        is_drawn(&shown(&bench));
    }
    let most = bench.app.drafts.sight.tilt();
    assert_eq!(most, Some(-TILT_GREATEST));
    bench.send(Intent::Sight(SightIntent::Only(Some(99))));
    is_drawn(&shown(&bench));
}
