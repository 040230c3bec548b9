//! The search for a fault: on a job, and on a vehicle that is not here.

use rakeline::driver::{Intent, Measure, Target, WalkIntent};
use rakeline::route::{Route, Step};
use rakeline::texts::say;
use rakeline_core::decide::coverage::ObjectKind;
use rakeline_core::diagnose::{Cause, From, diagnose, next_question};
use rakeline_core::estimate::contact::Feet;
use rakeline_core::estimate::rake::Side;
use rakeline_core::job::{
    BesideHead, CoverageEvent, FaultEvent, Field, Finding, Found, JobEvent, ObjectField, RingWay,
    Symptom, Where, YesNo, beside_angle, fitted_aim,
};
use rakeline_tests::tilt_sim::chain::against_gravity;
use rakeline_tests::tilt_sim::on_face;

use crate::bench::Bench;
use crate::{hand, scenario};

fn fault(bench: &mut Bench, event: FaultEvent) {
    bench.send(Intent::Fit(Box::new(JobEvent::Fault(event))));
}

fn first(bench: &Bench) -> Cause {
    diagnose(bench.job()).suspects[0].cause
}

/// Answers the question that is asked.
fn answer(bench: &mut Bench, answer: YesNo) -> Finding {
    let found = diagnose(bench.job());
    let passed = &bench.app.drafts.walk.passed;
    let asked = next_question(bench.job(), &found, passed).expect("a question");
    let (finding, spot) = (asked.finding, asked.spot);
    fault(
        bench,
        FaultEvent::Answered(Found {
            finding,
            spot,
            answer,
        }),
    );
    finding
}

#[test]
fn a_vehicle_that_is_not_here_is_diagnosed_by_questions() {
    let mut bench = Bench::new();
    bench.send(Intent::StartFault(bench.new_id()));
    assert!(matches!(bench.app.route, Route::Job(_, Step::Fault)));
    assert_eq!(diagnose(bench.job()).outcome.key, "diagnosis-no-symptom");
    let said = FaultEvent::SymptomSaid(Symptom::DeadHead, Where::Head(2));
    fault(&mut bench, said);
    assert_eq!(first(&bench), Cause::Socket);
    assert_eq!(answer(&mut bench, YesNo::Yes), Finding::PlugRight);
    assert_eq!(first(&bench), Cause::LooseConnector);
    assert_eq!(answer(&mut bench, YesNo::Yes), Finding::WiggleChanges);
    assert_eq!(first(&bench), Cause::LooseConnector);
    assert!(bench.saved());
    let bench = bench.killed();
    assert_eq!(first(&bench), Cause::LooseConnector);
}

#[test]
fn a_question_can_be_put_by_and_another_comes() {
    let mut bench = Bench::new();
    bench.send(Intent::StartFault(bench.new_id()));
    let said = FaultEvent::SymptomSaid(Symptom::LateWarning, Where::NotKnown);
    fault(&mut bench, said);
    let asked = |bench: &Bench| {
        let found = diagnose(bench.job());
        let asked = next_question(bench.job(), &found, &bench.app.drafts.walk.passed);
        asked.map(|asked| (asked.finding, asked.spot))
    };
    let mut seen = Vec::new();
    while let Some((finding, spot)) = asked(&bench) {
        assert!(!seen.contains(&(finding, spot)), "{finding:?} again");
        seen.push((finding, spot));
        bench.send(Intent::Walk(WalkIntent::Pass(finding, spot)));
    }
    assert!(seen.len() > 5);
}

#[test]
fn a_fitted_head_is_read_beside_and_the_ring_counts() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    for _ in 0..4 {
        scenario::type_face(&mut bench, "4.0", rakeline_core::job::Facing::Down, "0.3");
    }
    bench.send(Intent::GoStep(Step::Fault));
    let said = FaultEvent::SymptomSaid(Symptom::SeesGround, Where::NotKnown);
    fault(&mut bench, said);
    bench.send(Intent::Walk(WalkIntent::AimOf(1)));
    bench.send(Intent::Walk(WalkIntent::AimTaken(RingWay::Lowers)));
    assert_eq!(bench.notice(), Some("entry-not-an-angle"));
    for (field, text) in [
        (Field::BesideLeft(1), "-4.1"),
        (Field::BesideRight(1), "-3.9"),
        (Field::RingAdds(1), "9"),
    ] {
        bench.send(Intent::Type(field, text.to_owned()));
    }
    bench.send(Intent::Walk(WalkIntent::AimTaken(RingWay::Lowers)));
    let aim = fitted_aim(bench.job(), 1).expect("an aim");
    assert!((aim.value.0 + 13.0).abs() < 1e-9);
    let found = diagnose(bench.job());
    let first = &found.suspects[0];
    assert_eq!((first.cause, first.first_head), (Cause::RingWrong, Some(1)));
}

#[test]
fn a_fitted_head_is_read_beside_with_the_phone() {
    let mut bench = hand::measured();
    bench.send(Intent::GoStep(Step::Fault));
    bench.send(Intent::Walk(WalkIntent::AimOf(1)));
    bench.send(Intent::Type(Field::RingAdds(1), "9".to_owned()));
    hand::measure(&mut bench, Measure::Beside(1, BesideHead::Left));
    let beside = |rake: f64| {
        let gravity = against_gravity(rake, hand::SPOTS[1][1], hand::ground_up());
        on_face(hand::back(), Side::Back, gravity, 0.5)
    };
    hand::hold(&mut bench, beside(-4.4), 1600.0);
    let left = beside_angle(bench.job(), 1, BesideHead::Left).expect("read");
    assert!((left.value.0 + 4.4).abs() < 0.6, "{left:?}");
    // It goes on to the other side by itself, once the phone has left.
    let target = |bench: &Bench| bench.app.reading.as_ref().map(|held| held.target);
    let right = Target::Beside(1, BesideHead::Right);
    assert_eq!(target(&bench), Some(right));
    hand::hold(&mut bench, beside(-3.4), 1600.0);
    assert_eq!(target(&bench), None);
    // What is typed does not count against what was read.
    bench.send(Intent::Type(Field::BesideLeft(1), "-20".to_owned()));
    bench.send(Intent::Walk(WalkIntent::AimTaken(RingWay::Lifts)));
    let aim = fitted_aim(bench.job(), 1).expect("an aim");
    assert!((aim.value.0 - (9.0 - 3.9)).abs() < 0.6, "{aim:?}");
    // Until the reading is taken out.
    fault(&mut bench, FaultEvent::BesideDropped(1, BesideHead::Left));
    bench.send(Intent::Walk(WalkIntent::AimTaken(RingWay::Lifts)));
    let typed = fitted_aim(bench.job(), 1).expect("an aim");
    assert!(typed.value.0 < aim.value.0 - 5.0, "{typed:?}");
    bench.send(Intent::Undo);
    bench.send(Intent::Undo);
    assert!(beside_angle(bench.job(), 1, BesideHead::Left).is_some());
}

#[test]
fn another_phone_beside_a_fitted_head_is_refused_and_the_marks_stay_read() {
    let mut bench = hand::measured();
    let read = bench.readings();
    bench.send(Intent::GoStep(Step::Fault));
    bench.send(Intent::Walk(WalkIntent::AimOf(1)));
    hand::measure(&mut bench, Measure::FeetSet(Feet::None));
    hand::measure(&mut bench, Measure::Beside(1, BesideHead::Left));
    let up = on_face(
        hand::back(),
        Side::Back,
        against_gravity(-4.0, 0.0, hand::ground_up()),
        0.0,
    );
    hand::hold(&mut bench, up, 1600.0);
    assert_eq!(hand::refusal(&bench).as_deref(), Some("beside-other-phone"));
    assert!(beside_angle(bench.job(), 1, BesideHead::Left).is_none());
    assert_eq!(bench.readings(), read);
}

#[test]
fn reading_all_marks_again_lets_go_of_what_was_read_beside_the_heads() {
    let mut bench = hand::measured();
    bench.send(Intent::GoStep(Step::Fault));
    bench.send(Intent::Walk(WalkIntent::AimOf(1)));
    hand::measure(&mut bench, Measure::Beside(1, BesideHead::Left));
    let gravity = against_gravity(-4.0, hand::SPOTS[1][1], hand::ground_up());
    let up = on_face(hand::back(), Side::Back, gravity, 0.5);
    hand::hold(&mut bench, up, 1600.0);
    assert!(beside_angle(bench.job(), 1, BesideHead::Left).is_some());
    hand::measure(&mut bench, Measure::FeetSet(Feet::None));
    bench.send(Intent::GoStep(Step::Faces));
    hand::measure(&mut bench, Measure::ReadAllAgain);
    assert!(beside_angle(bench.job(), 1, BesideHead::Left).is_none());
    // The phone without its feet may read now.
    hand::hold(&mut bench, up, 1600.0);
    assert_eq!(bench.readings(), [1, 0, 0, 0]);
}

#[test]
fn an_answer_for_a_head_is_changed_and_taken_back_afterwards() {
    let mut bench = Bench::new();
    bench.send(Intent::StartFault(bench.new_id()));
    let said = FaultEvent::SymptomSaid(Symptom::SeesGround, Where::NotKnown);
    fault(&mut bench, said);
    let at = |answer| {
        FaultEvent::Answered(Found {
            finding: Finding::RingRight,
            spot: Some(1),
            answer,
        })
    };
    fault(&mut bench, at(YesNo::No));
    assert_eq!(first(&bench), Cause::RingWrong);
    fault(&mut bench, at(YesNo::Yes));
    assert_ne!(first(&bench), Cause::RingWrong);
    assert_eq!(bench.job().fault.found.len(), 1);
    fault(
        &mut bench,
        FaultEvent::NotKnown(Finding::RingRight, Some(1)),
    );
    assert!(bench.job().fault.found.is_empty());
    bench.send(Intent::Undo);
    assert_eq!(bench.job().fault.found.len(), 1);
}

#[test]
fn cleared_for_the_next_visit_every_question_is_open_again() {
    let mut bench = Bench::new();
    bench.send(Intent::StartFault(bench.new_id()));
    let said = || FaultEvent::SymptomSaid(Symptom::LateWarning, Where::NotKnown);
    let asked = |bench: &Bench| {
        let found = diagnose(bench.job());
        let asked = next_question(bench.job(), &found, &bench.app.drafts.walk.passed);
        asked.map(|asked| (asked.finding, asked.spot))
    };
    fault(&mut bench, said());
    let first = asked(&bench).expect("a question");
    bench.send(Intent::Walk(WalkIntent::Pass(first.0, first.1)));
    assert_ne!(asked(&bench), Some(first));
    fault(&mut bench, FaultEvent::Cleared);
    fault(&mut bench, said());
    assert_eq!(asked(&bench), Some(first));
}

#[test]
fn a_fixed_object_whose_place_is_known_is_said_to_be_heard_and_by_which_heads() {
    let mut bench = Bench::new();
    scenario::to_faces(&mut bench);
    let ball = CoverageEvent::ObjectSaid(Some(ObjectKind::TowBall));
    bench.send(Intent::Fit(Box::new(JobEvent::Coverage(ball))));
    bench.send(Intent::GoStep(Step::Fault));
    let said = FaultEvent::SymptomSaid(Symptom::ConstantAlarm, Where::NotKnown);
    fault(&mut bench, said);
    let object = |bench: &Bench| {
        let suspects = diagnose(bench.job()).suspects;
        let mut object = suspects
            .into_iter()
            .filter(|one| one.cause == Cause::ObjectInField);
        object.next().expect("it is in the list")
    };
    let before = object(&bench);
    assert!(
        before
            .unknown
            .iter()
            .any(|one| one.key == "unknown-object-place")
    );
    for (field, text) in [(ObjectField::Behind, "300"), (ObjectField::Height, "500")] {
        bench.send(Intent::Type(Field::Object(field), text.to_owned()));
    }
    let known = object(&bench);
    assert!(known.points > before.points);
    let heard = known.for_it.iter().find(|one| one.from == From::Prediction);
    let words = say(&heard.expect("a prediction").said);
    assert!(words.starts_with("Predicted: heard by"), "{words}");
    assert!(known.steps[0].key.starts_with("object-shift"));
    assert!(known.steps[1].key.starts_with("object-learn"));
}

#[test]
fn symptoms_and_answers_are_cleared_and_brought_back() {
    let mut bench = Bench::new();
    bench.send(Intent::StartFault(bench.new_id()));
    let said = FaultEvent::SymptomSaid(Symptom::WetAlarm, Where::Left);
    fault(&mut bench, said);
    fault(&mut bench, FaultEvent::Cleared);
    assert!(bench.job().fault.symptoms.is_empty());
    assert!(bench.job().fault.elsewhere.is_some());
    bench.send(Intent::Undo);
    assert!(bench.job().fault.symptoms.contains_key(&Symptom::WetAlarm));
}
