//! What contradicts itself: answers against each other, against symptoms,
//! against the record. It is said; what was found at the car counts more.

use super::evidence::label;
use crate::job::{Answered, Finding, JobState, Symptom, Where, YesNo, set_taken};
use crate::text::{Message, msg};

/// What contradicts itself: answers against each other, against symptoms,
/// against the record.
pub(super) fn contradictions(job: &JobState) -> Vec<Message> {
    let fault = &job.fault;
    let says = |finding, answer| {
        fault
            .found
            .iter()
            .any(|f| f.finding == finding && f.answer == answer)
    };
    let has = |symptom| fault.symptoms.contains_key(&symptom);
    let mut all = Vec::new();
    if says(Finding::ObjectThere, YesNo::No) && says(Finding::GoesWithoutObject, YesNo::Yes) {
        all.push(msg("contradiction-object"));
    }
    if has(Symptom::LoadedAlarm) && says(Finding::OnlyLoaded, YesNo::No) {
        all.push(msg("contradiction-load"));
    }
    if has(Symptom::SeesGround) && says(Finding::OnlyRoughGround, YesNo::No) {
        all.push(msg("contradiction-ground"));
    }
    if has(Symptom::ConstantAlarm) && says(Finding::OnlyLoaded, YesNo::Yes) {
        all.push(msg("contradiction-constant-load"));
    }
    if has(Symptom::MissesMiddle)
        && let Some(test) = &job.walk.test
        && test.is_whole()
        && test.taps.iter().all(|tap| tap.sounded.is_seen())
    {
        all.push(msg("contradiction-walk-saw-all"));
    }
    if let Some(Where::Head(spot)) = fault.symptoms.get(&Symptom::DeadHead)
        && let Some(head) = job.walk.heads.iter().find(|head| head.spot == *spot)
        && head.answered != Answered::Nothing
    {
        all.push(msg("contradiction-head-answers").text("label", label(job, *spot)));
    }
    for spot in 0..u8::try_from(job.spots.len()).unwrap_or(u8::MAX) {
        let recorded = set_taken(job, usize::from(spot)).and_then(|taken| taken.set.insert);
        let found = fault.answer(Finding::InsertThere, Some(spot));
        if recorded.is_some() && found == Some(YesNo::No) {
            all.push(msg("contradiction-insert").text("label", label(job, spot)));
        }
        if job.rings.seated.contains_key(&spot)
            && fault.answer(Finding::HeadUp, Some(spot)) == Some(YesNo::No)
        {
            all.push(msg("contradiction-arrow").text("label", label(job, spot)));
        }
    }
    all
}
