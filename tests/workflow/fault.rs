//! The search for a fault: on a job, and on a vehicle that is not here.

use rakeline::driver::{Intent, WalkIntent};
use rakeline::route::{Route, Step};
use rakeline_core::diagnose::{Cause, diagnose, next_question};
use rakeline_core::job::{
    FaultEvent, Field, Finding, Found, JobEvent, RingWay, Symptom, Where, YesNo, fitted_aim,
};

use crate::bench::Bench;
use crate::scenario;

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
