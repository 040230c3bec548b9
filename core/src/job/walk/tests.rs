//! Walk test and function check by events.

mod runs;

use super::*;
use crate::decide::walk_test::{LimitFrom, PointBy};
use crate::job::{Field, JobEvent, JobId, apply};
use crate::kit;
use crate::text::Message;
use crate::units::Millis;

fn at(minute: u32) -> DateTime<FixedOffset> {
    let text = format!("2026-03-12T15:{minute:02}:00+01:00");
    DateTime::parse_from_rfc3339(&text).unwrap()
}

fn typed(job: &mut JobState, field: Field, text: &str) {
    job.typed.insert(field, text.to_owned());
}

fn started() -> JobState {
    let sheet = include_str!("../../../../assets/kits/plain-four.json");
    let mut job = JobState::start(JobId("a1".to_owned()), kit::parse(sheet).unwrap(), at(0));
    typed(&mut job, Field::HalfLeft, "860");
    typed(&mut job, Field::HalfRight, "860");
    job
}

fn after(job: &JobState, events: impl IntoIterator<Item = WalkEvent>) -> JobState {
    events.into_iter().fold(job.clone(), |job, event| {
        apply(&job, JobEvent::Walk(event), at(5)).unwrap()
    })
}

fn refused(job: &JobState, event: WalkEvent) -> Message {
    apply(job, JobEvent::Walk(event), at(5)).unwrap_err().0
}

fn under_way() -> JobState {
    let events = [WalkEvent::GateHeeded, WalkEvent::Started(WalkKind::Nine)];
    after(&started(), events)
}

fn tap(point: u16, sounded: Sounded) -> WalkEvent {
    WalkEvent::Sounded { point, sounded }
}

fn shown(spot: u8, shown: u8) -> WalkEvent {
    WalkEvent::HeadAnswered {
        spot,
        answered: Answered::Shown(shown),
    }
}

#[test]
fn nothing_goes_before_the_gate() {
    let job = started();
    for event in [
        WalkEvent::Started(WalkKind::Nine),
        tap(0, Sounded::Far),
        shown(0, 0),
    ] {
        assert_eq!(refused(&job, event).key, "refused-walk-gate");
    }
}

#[test]
fn a_gate_of_hours_ago_is_heeded_again() {
    let job = under_way();
    let late = at(5) + GATE_HOLDS + TimeDelta::minutes(1);
    let event = JobEvent::Walk(tap(0, Sounded::Far));
    let refusal = apply(&job, event, late).unwrap_err();
    assert_eq!(refusal.0.key, "refused-walk-gate");
    assert!(walk_gate_open(&job, at(5)));
}

#[test]
fn a_whole_test_has_a_share_and_a_half_done_one_says_how_far_it_came() {
    let job = under_way();
    let half = after(&job, (0..4).map(|point| tap(point, Sounded::Near)));
    assert_eq!(walk_half(&half), Some(Half { done: 4, of: 9 }));
    assert_eq!(walk_headline(&half).key, "walk-headline-half-done");
    let said = share_words(&half, half.walk.test.as_ref().unwrap()).unwrap();
    assert_eq!(said.words.key, "walk-share-half-done");
    let whole = after(&half, (4..9).map(|point| tap(point, Sounded::Far)));
    assert_eq!(walk_half(&whole), None);
    assert_eq!(walk_headline(&whole).key, "walk-share-reached");
    let missed = after(&whole, [7, 8].map(|point| tap(point, Sounded::Nothing)));
    assert_eq!(walk_headline(&missed).key, "walk-share-missed");
}

#[test]
fn a_second_tap_at_a_point_takes_the_place_of_the_first() {
    let job = under_way();
    let twice = after(&job, [tap(0, Sounded::Far), tap(0, Sounded::Near)]);
    let test = twice.walk.test.as_ref().unwrap();
    assert_eq!(test.taps.len(), 1);
    assert_eq!(test.at_point(0), Some(Sounded::Near));
    assert_eq!(
        refused(&job, tap(9, Sounded::Far)).key,
        "refused-no-such-point"
    );
}

#[test]
fn without_a_width_there_is_no_test_and_it_says_so() {
    let mut job = after(&started(), [WalkEvent::GateHeeded]);
    typed(&mut job, Field::HalfLeft, "");
    let event = WalkEvent::Started(WalkKind::Nine);
    assert_eq!(refused(&job, event).key, "walk-no-width");
}

#[test]
fn swapped_sockets_are_found_by_the_order_in_which_they_answer() {
    let job = after(
        &started(),
        [
            WalkEvent::GateHeeded,
            shown(0, 1),
            shown(1, 0),
            shown(2, 2),
            shown(3, 3),
        ],
    );
    let said = swapped_words(&job);
    assert_eq!(
        said,
        [msg("heads-swapped").text("label", "1").text("other", "2")]
    );
    let round = after(&job, [shown(0, 1), shown(1, 2), shown(2, 0)]);
    let keys: Vec<_> = swapped_words(&round).into_iter().map(|m| m.key).collect();
    assert_eq!(keys, ["heads-in-other-socket"; 3]);
}

#[test]
fn a_head_that_the_kit_does_not_have_is_refused() {
    let job = after(&started(), [WalkEvent::GateHeeded]);
    assert_eq!(refused(&job, shown(4, 0)).key, "refused-no-such-spot");
    assert_eq!(refused(&job, shown(0, 9)).key, "refused-no-such-spot");
}

fn with_object(job: &JobState) -> JobState {
    let mut job = job.clone();
    for (field, text) in [
        (Field::ObjectWhat, "tow ball"),
        (Field::ObjectWidth, "50"),
        (Field::ObjectReach, "120"),
    ] {
        typed(&mut job, field, text);
    }
    after(&job, [WalkEvent::ObjectLearned])
}

#[test]
fn a_new_learn_voids_the_test_and_the_next_one_begins_at_the_object() {
    let whole = after(&under_way(), (0..9).map(|point| tap(point, Sounded::Far)));
    let learned = with_object(&whole);
    assert_eq!(walk_headline(&learned).key, "walk-headline-void-learn");
    let again = WalkEvent::Started(WalkKind::Nine);
    assert_eq!(refused(&learned, again.clone()).key, "refused-walk-gate");
    let job = after(&learned, [WalkEvent::GateHeeded, again]);
    let points = &job.walk.test.as_ref().unwrap().points;
    assert_eq!(points.len(), 12);
    let by: Vec<PointBy> = points.iter().take(4).map(|point| point.by).collect();
    assert_eq!(
        by,
        [
            PointBy::BehindObject,
            PointBy::LeftOfObject,
            PointBy::RightOfObject,
            PointBy::Row
        ]
    );
}

#[test]
fn what_is_no_longer_seen_after_a_learn_is_told() {
    let whole = after(&under_way(), (0..9).map(|point| tap(point, Sounded::Far)));
    let events = [WalkEvent::GateHeeded, WalkEvent::Started(WalkKind::Nine)];
    let job = after(&with_object(&whole), events);
    let seen = after(&job, (0..12).map(|point| tap(point, Sounded::Far)));
    assert!(no_longer_seen(&seen).is_empty());
    // Just behind the object, and the middle of the first row.
    let unseen = after(&seen, [0, 4].map(|point| tap(point, Sounded::Nothing)));
    let keys: Vec<_> = no_longer_seen(&unseen).into_iter().map(|m| m.key).collect();
    assert_eq!(keys, ["walk-not-seen-at-object", "walk-no-longer-seen"]);
}

/// The job after events in that minute.
fn in_minute(job: &JobState, minute: u32, events: Vec<WalkEvent>) -> JobState {
    events.into_iter().fold(job.clone(), |job, event| {
        apply(&job, JobEvent::Walk(event), at(minute)).unwrap()
    })
}

fn lost(job: &JobState) -> Vec<String> {
    let lost = no_longer_seen(job).into_iter();
    lost.map(|words| words.key.into_owned()).collect()
}

#[test]
fn of_each_point_the_latest_test_counts_before_the_learn_and_since() {
    let start = || vec![WalkEvent::GateHeeded, WalkEvent::Started(WalkKind::Nine)];
    let taps = |all: &[(u16, Sounded)]| all.iter().map(|(p, s)| tap(*p, *s)).collect();
    // The first test saw the middle of the first row; the second one, half
    // done, did not look there any more: at the other points it counts.
    let first = in_minute(&started(), 1, start());
    let all: Vec<WalkEvent> = (0..9).map(|point| tap(point, Sounded::Far)).collect();
    let first = in_minute(&first, 2, all);
    let second = in_minute(&first, 3, start());
    let second = in_minute(&second, 4, taps(&[(0, Sounded::Nothing)]));
    let learned = with_object(&second);
    let since = in_minute(&learned, 6, start());
    let unseen = [(3, Sounded::Nothing), (4, Sounded::Nothing)];
    let job = in_minute(&since, 7, taps(&unseen));
    // Point 3 was not seen by the newer test before the learn either.
    assert_eq!(lost(&job), ["walk-no-longer-seen"]);
    // Walked again: what was found since the learn stands until its own tap.
    let again = in_minute(&job, 8, start());
    assert_eq!(lost(&again), ["walk-no-longer-seen"]);
    let other = in_minute(&again, 9, taps(&[(0, Sounded::Nothing), (5, Sounded::Far)]));
    assert_eq!(lost(&other).len(), 2);
    let seen = in_minute(&other, 10, taps(&[(4, Sounded::Far)]));
    assert_eq!(lost(&seen), ["walk-not-seen-at-object"]);
}

#[test]
fn what_was_seen_before_a_mark_moved_was_another_system() {
    let start = || vec![WalkEvent::GateHeeded, WalkEvent::Started(WalkKind::Nine)];
    let all: Vec<WalkEvent> = (0..9).map(|point| tap(point, Sounded::Far)).collect();
    let mut job = in_minute(&in_minute(&started(), 1, start()), 2, all);
    void_moved(&mut job.walk, at(3));
    let since = in_minute(&with_object(&job), 6, start());
    let unseen = in_minute(&since, 7, vec![tap(4, Sounded::Nothing)]);
    assert!(lost(&unseen).is_empty());
}

#[test]
fn the_function_check_begins_anew_and_silent_heads_are_named() {
    let nothing = |spot| WalkEvent::HeadAnswered {
        spot,
        answered: Answered::Nothing,
    };
    let events = [WalkEvent::GateHeeded, nothing(2), shown(0, 1), shown(1, 0)];
    let job = after(&started(), events);
    let keys: Vec<_> = head_troubles(&job).into_iter().map(|m| m.key).collect();
    assert_eq!(keys, ["heads-swapped", "head-answers-nothing"]);
    let anew = after(&job, [WalkEvent::HeadsAnew]);
    assert!(anew.walk.heads.is_empty());
    assert!(head_troubles(&anew).is_empty());
}

#[test]
fn a_typed_share_counts_and_nonsense_is_named() {
    let mut job = started();
    typed(&mut job, Field::WalkShare, "75 %");
    assert!((share_limit(&job).unwrap().least - 0.75).abs() < 1e-12);
    for bad in ["0", "101", "most", "NaN", "-5"] {
        typed(&mut job, Field::WalkShare, bad);
        let fault = share_limit(&job).unwrap_err();
        assert_eq!(fault, msg("walk-share-no-figure").text("typed", bad));
    }
}

#[test]
fn typed_times_are_held_against_their_limits() {
    let mut job = started();
    typed(&mut job, Field::WalkLatency, "360 ms");
    typed(&mut job, Field::WalkStartUp, "590");
    let keys: Vec<_> = times_said(&job).into_iter().map(|m| m.key).collect();
    assert_eq!(keys, ["walk-time-within", "walk-time-over"]);
    typed(&mut job, Field::WalkLatency, "soon");
    assert_eq!(times_said(&job)[1].key, "walk-time-no-figure");
}

#[test]
fn the_limits_of_the_times_are_typed_and_say_where_they_come_from() {
    let mut job = started();
    let from = |job: &JobState| time_limit(job, WalkTime::StartUp).map(|limit| limit.from);
    assert_eq!(from(&job), Ok(LimitFrom::SecondHand));
    typed(&mut job, Field::WalkStartUp, "590");
    typed(&mut job, Field::WalkStartUpMost, "500 ms");
    assert_eq!(from(&job), Ok(LimitFrom::Typed));
    assert_eq!(times_said(&job)[0].key, "walk-time-over");
    assert_eq!(starts_late_by(&job), Some(Millis(90.0)));
    typed(&mut job, Field::WalkStartUpMost, "800");
    assert_eq!(times_said(&job)[0].key, "walk-time-within");
    assert_eq!(starts_late_by(&job), None);
    for bad in ["0", "-5", "soon", "99999", "NaN"] {
        typed(&mut job, Field::WalkStartUpMost, bad);
        assert_eq!(
            from(&job).unwrap_err().key,
            "walk-time-limit-no-figure",
            "{bad}"
        );
        // Our default holds until it is put right.
        assert_eq!(times_said(&job)[0].key, "walk-time-within");
    }
}

#[test]
fn an_object_that_is_half_typed_is_not_learned() {
    let mut job = started();
    assert_eq!(
        refused(&job, WalkEvent::ObjectLearned).key,
        "walk-object-no-name"
    );
    typed(&mut job, Field::ObjectWhat, "spare wheel");
    typed(&mut job, Field::ObjectWidth, "-3");
    typed(&mut job, Field::ObjectReach, "200");
    assert_eq!(
        refused(&job, WalkEvent::ObjectLearned).key,
        "entry-length-outside"
    );
}

#[test]
fn misses_and_surprises_are_told_against_the_prediction() {
    let job = under_way();
    let test = job.walk.test.as_ref().unwrap();
    assert_eq!(
        against_prediction(&job, test).unwrap_err().key,
        "coverage-no-marks"
    );
    let mut job = job.clone();
    job.marks = Some(crate::job::Marks {
        half_left: Millimetres(860.0),
        half_right: Millimetres(860.0),
        from: crate::job::MarksFrom::Hand,
        offsets: [-680.0, -230.0, 230.0, 680.0].map(Offset).to_vec(),
        tape: crate::job::Tape::NotYet,
    });
    // Near the middle a pole is seen; at the far corners of the last row not
    // by much either way, so only the first row is held here.
    let job = after(&job, [tap(0, Sounded::Near), tap(1, Sounded::Nothing)]);
    let found = against_prediction(&job, job.walk.test.as_ref().unwrap()).unwrap();
    assert_eq!(found.points.len(), 2);
    assert!(found.points.iter().all(|one| one.predicted));
    assert_eq!(found.misses.len(), 1);
    assert!(found.surprises.is_empty());
    assert!(!found.assumed.is_empty());
}

#[test]
fn a_cleared_learn_voids_the_walk_and_stepping_back_does_not_bring_it_again() {
    use crate::job::{LearnedEvent, step_back};
    let walked = after(&under_way(), (0..9).map(|point| tap(point, Sounded::Far)));
    let cleared = JobEvent::Learned(LearnedEvent::Cleared);
    let cleared = apply(&walked, cleared, at(10)).unwrap();
    assert_eq!(walk_headline(&cleared).key, "walk-headline-void-learn");
    let back = step_back(&cleared, &walked, at(11));
    assert!(back.walk.test.is_none());
    assert_eq!(back.walk.earlier.len(), 1);
}
