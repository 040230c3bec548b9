//! Symptoms, answers, fitted aims by events.

use super::*;
use crate::job::{JobEvent, JobId, apply};
use crate::kit;

fn at() -> DateTime<FixedOffset> {
    DateTime::parse_from_rfc3339("2026-03-12T15:00:00+01:00").unwrap()
}

fn started() -> JobState {
    let sheet = include_str!("../../../../assets/kits/plain-four.json");
    JobState::start(JobId("a1".to_owned()), kit::parse(sheet).unwrap(), at())
}

fn after(job: &JobState, event: FaultEvent) -> Result<JobState, Message> {
    apply(job, JobEvent::Fault(event), at()).map_err(|refusal| refusal.0)
}

fn answered(finding: Finding, spot: Option<u8>, answer: YesNo) -> FaultEvent {
    FaultEvent::Answered(Found {
        finding,
        spot,
        answer,
    })
}

#[test]
fn an_answer_for_a_head_counts_before_the_one_for_the_vehicle() {
    let job = after(&started(), answered(Finding::HeadUp, None, YesNo::Yes)).unwrap();
    let job = after(&job, answered(Finding::HeadUp, Some(2), YesNo::No)).unwrap();
    assert_eq!(job.fault.answer(Finding::HeadUp, Some(2)), Some(YesNo::No));
    assert_eq!(job.fault.answer(Finding::HeadUp, Some(1)), Some(YesNo::Yes));
    let job = after(&job, answered(Finding::HeadUp, Some(2), YesNo::Yes)).unwrap();
    assert_eq!(job.fault.found.len(), 2);
    let job = after(&job, FaultEvent::NotKnown(Finding::HeadUp, Some(2))).unwrap();
    assert_eq!(job.fault.found.len(), 1);
}

#[test]
fn a_head_that_the_kit_does_not_have_is_refused() {
    let symptom = FaultEvent::SymptomSaid(Symptom::DeadHead, Where::Head(4));
    assert_eq!(
        after(&started(), symptom).unwrap_err().key,
        "refused-no-such-spot"
    );
    let found = answered(Finding::HeadUp, Some(200), YesNo::No);
    assert!(after(&started(), found).is_err());
}

#[test]
fn a_side_means_its_half_of_the_heads() {
    let left: Vec<u8> = (0..4).filter(|s| Where::Left.means(*s, 4)).collect();
    assert_eq!(left, [0, 1]);
    // With five the middle one belongs to both sides.
    let right: Vec<u8> = (0..5).filter(|s| Where::Right.means(*s, 5)).collect();
    assert_eq!(right, [2, 3, 4]);
    assert!((0..4).all(|s| Where::NotKnown.means(s, 4)));
}

fn beside(way: RingWay, figures: [&str; 3]) -> Result<JobState, Message> {
    let mut job = started();
    let fields = [
        Field::BesideLeft(1),
        Field::BesideRight(1),
        Field::RingAdds(1),
    ];
    for (field, text) in fields.into_iter().zip(figures) {
        job.typed.insert(field, text.to_owned());
    }
    let aim = fitted_typed(&job, 1, way)?;
    after(
        &job,
        FaultEvent::AimFound {
            spot: 1,
            aim: Box::new(aim),
        },
    )
}

#[test]
fn a_fitted_head_points_where_the_mean_of_both_sides_and_its_ring_say() {
    let job = beside(RingWay::Lifts, ["-4.0", "-3.0", "5"]).unwrap();
    let aim = fitted_aim(&job, 1).unwrap();
    assert!((aim.value.0 - 1.5).abs() < 1e-9);
    // Ground by eye alone is 1 degree; nothing is averaged away.
    assert!(aim.u.0 > 1.0 && aim.u.0 < 1.6, "{}", aim.u.0);
    let down = beside(RingWay::Lowers, ["-4.0", "-3.0", "5"]).unwrap();
    assert!((fitted_aim(&down, 1).unwrap().value.0 + 8.5).abs() < 1e-9);
    assert_eq!(fitted_aim(&down, 0), None);
}

#[test]
fn sides_that_differ_widen_the_plus_minus() {
    let alike = beside(RingWay::Lifts, ["-4", "-4", "5"]).unwrap();
    let apart = beside(RingWay::Lifts, ["-8", "0", "5"]).unwrap();
    let u = |job: &JobState| fitted_aim(job, 1).unwrap().u.0;
    assert!(u(&apart) > u(&alike) + 0.5);
}

#[test]
fn what_is_no_angle_beside_a_fitted_head_is_named() {
    let way = RingWay::Lifts;
    let key = |figures| beside(way, figures).unwrap_err().key.into_owned();
    assert_eq!(key(["", "-3", "5"]), "entry-not-an-angle");
    assert_eq!(key(["-4", "steep", "5"]), "entry-not-an-angle");
    assert_eq!(key(["-4", "-3", "-5"]), "fitted-ring-outside");
    assert_eq!(key(["-4", "-70", "5"]), "entry-face-too-steep");
}

#[test]
fn paint_and_sinking_are_read_as_lengths() {
    let mut job = started();
    assert_eq!(paint_typed(&job, 0), None);
    job.typed.insert(Field::PaintOn(0), "0.3".to_owned());
    job.typed.insert(Field::RearSinks, "-40".to_owned());
    assert_eq!(paint_typed(&job, 0), Some(Ok(Millimetres(0.3))));
    assert!(sinks_typed(&job).unwrap().is_err());
}

#[test]
fn clearing_keeps_that_another_fitted_it() {
    let job = after(&started(), FaultEvent::FittedElsewhere).unwrap();
    let said = FaultEvent::SymptomSaid(Symptom::WetAlarm, Where::Left);
    let job = after(&after(&job, said).unwrap(), FaultEvent::Cleared).unwrap();
    assert!(job.fault.symptoms.is_empty());
    assert_eq!(job.fault.elsewhere, Some(at()));
}
