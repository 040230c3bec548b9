//! Answers, symptoms, tests and record that contradict each other: each kind
//! is told in words with what to look at, and nothing panics.

use rakeline::texts::say;
use rakeline_core::decide::coverage::ObjectKind;
use rakeline_core::decide::supply::LampCircuit;
use rakeline_core::decide::walk_test::Sounded::{Far, Nothing};
use rakeline_core::diagnose::{diagnose, next_question};
use rakeline_core::job::{Answered, Field, Finding, Found, RingWay, Symptom, Where, YesNo};
use rakeline_core::kit::Material;
use rakeline_core::steps::{Question, Truth};
use rakeline_tests::dice::Dice;
use rakeline_tests::fault_cases::{Record, by_chance};

fn metal(mut record: Record) -> Record {
    record.job.behind.material = Material::Metal;
    record
}

fn no_tow_bar(mut record: Record) -> Record {
    record.job.steps.answers.insert(Question::TowBar, Truth::No);
    record
}

fn tow_ball(mut record: Record) -> Record {
    record.job.coverage.object = Some(ObjectKind::TowBall);
    record
}

fn silent(record: Record) -> Record {
    record.answers(&[0, 1, 2, 3].map(|spot| (spot, Answered::Nothing)))
}

/// Every kind of contradiction with a record that has it.
fn kinds() -> Vec<(&'static str, Record)> {
    use Finding as F;
    use Symptom as S;
    let here = Record::right;
    vec![
        (
            "object",
            here().not_so(F::ObjectThere).so(F::GoesWithoutObject),
        ),
        ("load", here().does(S::LoadedAlarm).not_so(F::OnlyLoaded)),
        (
            "ground",
            here().does(S::SeesGround).not_so(F::OnlyRoughGround),
        ),
        (
            "constant-load",
            here().does(S::ConstantAlarm).so(F::OnlyLoaded),
        ),
        (
            "constant-late",
            here().does(S::ConstantAlarm).does(S::LateWarning),
        ),
        ("water", here().so(F::GoesWhenDry).not_at(F::WaterSeen, 1)),
        (
            "feed",
            here()
                .so(F::GoesOnSteadyFeed)
                .not_so(F::FeedPulsed)
                .so(F::VoltsEnough),
        ),
        (
            "head-both",
            here()
                .does_at(S::DeadHead, Where::Head(1))
                .does_at(S::ConstantAlarm, Where::Head(1)),
        ),
        (
            "walk-saw-all",
            here().walked([Some(Far); 9]).does(S::MissesMiddle),
        ),
        (
            "never-sounds",
            here().walked([Some(Nothing); 9]).does(S::ConstantAlarm),
        ),
        ("never-sounds", silent(here()).does(S::ConstantAlarm)),
        ("all-answer", here().all_answer().does(S::DeadHead)),
        (
            "head-answers",
            here().all_answer().does_at(S::DeadHead, Where::Head(2)),
        ),
        (
            "metal-on-plastic",
            here().so(F::PanelMetal).not_at(F::InsertThere, 0),
        ),
        ("plastic-on-metal", metal(here()).not_so(F::PanelMetal)),
        ("tow-bar", no_tow_bar(tow_ball(here()))),
        ("tow-bar", no_tow_bar(here().tow_hitch())),
        ("nothing-learned", here().so(F::LearnedSame)),
        ("learned-gone", no_tow_bar(here().learned("tow bar"))),
        (
            "learned-gone",
            here().learned("step").not_so(F::ObjectThere),
        ),
        ("lamp-plain", here().so(F::FeedPulsed)),
        (
            "lamp-pulsed",
            here().lamp(LampCircuit::Led).not_so(F::FeedPulsed),
        ),
        (
            "volts",
            here()
                .supply("8.5", "0.05", LampCircuit::Plain)
                .so(F::VoltsEnough),
        ),
        ("height", here().not_so(F::HeightRight)),
        ("height", here().height(300.0).so(F::HeightRight)),
        ("spacing", here().not_so(F::SpacingRight)),
        (
            "spacing",
            here()
                .marks([-690.0, -400.0, 400.0, 690.0])
                .so(F::SpacingRight),
        ),
        (
            "insert",
            Record::right_metal()
                .so(F::PanelMetal)
                .not_at(F::InsertThere, 2),
        ),
        ("arrow", here().not_at(F::HeadUp, 1)),
        (
            "ring",
            here()
                .beside(1, [-3.5, -3.5], 9.0, RingWay::Lowers)
                .so(F::RingRight),
        ),
        (
            "aim",
            here()
                .beside(1, [-8.0, -8.0], 2.0, RingWay::Lifts)
                .so_at(F::PointsUp, 1),
        ),
        (
            "aim",
            here()
                .beside(1, [6.0, 6.0], 9.0, RingWay::Lifts)
                .not_at(F::PointsUp, 1),
        ),
        (
            "paint",
            here().typed(Field::PaintOn(3), "0.9").so(F::PaintThin),
        ),
        (
            "plug",
            here()
                .answers(&[(0, Answered::Shown(1)), (1, Answered::Shown(0))])
                .so_at(F::PlugRight, 0),
        ),
    ]
}

#[test]
fn every_kind_of_contradiction_is_told_with_what_to_look_at() {
    for (kind, record) in kinds() {
        let found = diagnose(&record.job).contradictions;
        let key = format!("contradiction-{kind}");
        let told = found.iter().find(|one| one.key == key);
        let told = told.unwrap_or_else(|| panic!("{kind}: {found:?}"));
        let words = say(told);
        let sentences = words.split_terminator(['.', '?']).count();
        assert!(sentences >= 2, "{kind} says what to do: {words}");
        assert!(!words.contains(&key), "{words}");
    }
    let mut names: Vec<&str> = kinds().into_iter().map(|(kind, _)| kind).collect();
    names.dedup();
    assert!(names.len() >= 25, "{}", names.len());
}

#[test]
fn what_agrees_is_not_told() {
    let record = Record::right()
        .all_answer()
        .does(Symptom::SeesGround)
        .so(Finding::RingRight)
        .so(Finding::HeightRight)
        .so(Finding::SpacingRight)
        .so(Finding::PlugRight)
        .not_so(Finding::PanelMetal)
        .not_so(Finding::FeedPulsed);
    assert_eq!(diagnose(&record.job).contradictions, []);
    let elsewhere = Record::elsewhere()
        .does(Symptom::ConstantAlarm)
        .so(Finding::PanelMetal)
        .so(Finding::LearnedSame);
    assert_eq!(diagnose(&elsewhere.job).contradictions, []);
}

#[test]
fn answers_thrown_by_chance_have_an_outcome_and_never_a_panic() {
    let mut dice = Dice(31);
    for case in by_chance(120, 2, 32) {
        let mut job = case.job;
        for symptom in Symptom::ALL {
            if dice.below(2) == 0 {
                let head = u8::try_from(dice.below(4)).unwrap_or(0);
                let places = [
                    Where::NotKnown,
                    Where::Left,
                    Where::Right,
                    Where::Head(head),
                ];
                job.fault.symptoms.insert(symptom, places[dice.below(4)]);
            }
        }
        for finding in Finding::ALL {
            let answer = [YesNo::Yes, YesNo::No][dice.below(2)];
            let head = u8::try_from(dice.below(4)).unwrap_or(0);
            let spot = [None, Some(head)][dice.below(2)];
            job.fault.found.push(Found {
                finding,
                spot,
                answer,
            });
        }
        let found = diagnose(&job);
        assert!(!say(&found.outcome).is_empty());
        for line in &found.contradictions {
            assert!(!say(line).contains("contradiction-"), "{line:?}");
        }
        let asked = next_question(&job, &found, &[]);
        assert!(asked.is_none_or(|asked| !say(&asked.finding.message()).is_empty()));
    }
}
