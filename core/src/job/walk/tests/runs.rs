//! Walk tests and the runs of an obstacle learn before and after them.

use super::*;

/// The job after a run that failed in its first cycle.
fn failed_run(job: &JobState, minute: u32) -> JobState {
    use crate::job::{LearnedEvent, Object};
    use crate::learn::{Cause, Event, Proof, Run, Source, Ways, procedure, step};
    let run = Run::new(procedure(&job.kit).unwrap(), Ways::Hand, None);
    let run = step(&run, Event::Reverse(Source::Tap), Millis(100.0)).next;
    let run = step(&run, Event::Interrupted(Cause::Hidden), Millis(900.0)).next;
    let events = [
        LearnedEvent::ObjectPicked(Object::Rack),
        LearnedEvent::GateHeeded,
        LearnedEvent::Began(Ways::Hand),
        LearnedEvent::Ended(Box::new(Proof::of(&run))),
    ];
    events.into_iter().fold(job.clone(), |job, event| {
        apply(&job, JobEvent::Learned(event), at(minute)).unwrap()
    })
}

fn walked(job: &JobState, minute: u32) -> JobState {
    let start = [WalkEvent::GateHeeded, WalkEvent::Started(WalkKind::Nine)];
    let all = |job: &JobState, events: Vec<WalkEvent>| {
        events.into_iter().fold(job.clone(), |job, event| {
            apply(&job, JobEvent::Walk(event), at(minute)).unwrap()
        })
    };
    let begun = all(job, start.to_vec());
    let points = begun.walk.test.as_ref().unwrap().points.len();
    let points = u16::try_from(points).unwrap();
    all(
        &begun,
        (0..points).map(|point| tap(point, Sounded::Far)).collect(),
    )
}

#[test]
fn a_whole_walk_test_after_a_failed_run_says_what_is_seen() {
    use crate::job::{Ignores, ignores, learn_done};
    let job = failed_run(&walked(&started(), 5), 10);
    assert_eq!(ignores(&job), Ignores::NotKnown, "walked before it");
    assert_eq!(walk_headline(&job).key, "walk-headline-void-learn");
    let half = after(
        &job,
        [WalkEvent::GateHeeded, WalkEvent::Started(WalkKind::Nine)],
    );
    assert_eq!(ignores(&half), Ignores::NotKnown);
    let tested = walked(&job, 12);
    assert_eq!(ignores(&tested), Ignores::Tested(at(12)));
    assert!(learn_done(&tested));
    assert_eq!(ignores(&failed_run(&tested, 14)), Ignores::NotKnown);
}

#[test]
fn a_run_voids_the_walk_also_where_the_clock_was_set_back() {
    // The job's clock stands still at its latest minute.
    let job = failed_run(&walked(&started(), 20), 10);
    assert!(job.walk.test.is_none());
    assert_eq!(job.walk.earlier.len(), 1);
    let again = walked(&job, 11);
    let typed = JobEvent::Typed(Field::ObjectWidth, "5".to_owned());
    assert!(apply(&again, typed, at(12)).unwrap().walk.test.is_some());
}

#[test]
fn after_a_run_the_walk_asks_where_the_object_is_and_begins_beside_it() {
    use crate::job::{Object, object_asked};
    let mut job = failed_run(&started(), 10);
    assert_eq!(object_asked(&job), Some(Object::Rack));
    typed(&mut job, Field::ObjectWidth, "400");
    typed(&mut job, Field::ObjectReach, "120");
    let events = [WalkEvent::GateHeeded, WalkEvent::ObjectLearned];
    let said = after(&job, events);
    assert_eq!(object_asked(&said), None);
    assert_eq!(said.walk.learned.as_ref().unwrap().what, Object::Rack);
    // It was taught by the run: nothing changed behind the vehicle.
    let begun = after(&said, [WalkEvent::Started(WalkKind::Nine)]);
    assert_eq!(begun.walk.test.unwrap().points.len(), 12);
}

#[test]
fn cleared_on_the_screen_of_the_walk_is_cleared_for_the_learn() {
    use crate::job::{Ignores, ignores};
    let job = failed_run(&started(), 10);
    let cleared = after(&job, [WalkEvent::LearnCleared]);
    assert_eq!(ignores(&cleared), Ignores::Cleared);
    let said = after(&with_object(&started()), [WalkEvent::LearnCleared]);
    assert_eq!(ignores(&said), Ignores::Cleared);
    // Taught again, without a run: it is not 'cleared' any more.
    assert_eq!(ignores(&with_object(&said)), Ignores::Nothing);
}
