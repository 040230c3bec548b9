//! What contradicts itself: answers against each other, against symptoms,
//! against tests and the record, each with what to look at again. What was
//! found at the car counts more; nothing is settled here.

use super::evidence::{is_recorded, label};
use super::field::{learned_object, middle_spacing};
use super::fit::paint_limit;
use crate::decide::coverage::ObjectKind;
use crate::decide::mark_out::NoDrillReason;
use crate::decide::supply::{Judged, LampCircuit, Reading};
use crate::job::{
    Answered, Finding, HeadAnswer, Ignores, JobState, ReadVolts, RingWay, Symptom, WalkTest, Where,
    YesNo, fitted_aim, ignores, paint_typed, set_taken, volts,
};
use crate::kit::Material;
use crate::steps::{Question, Truth};
use crate::text::{Message, msg};

/// An aim is on one side of level when it is so many standard uncertainties
/// from it.
const CLEARLY: f64 = 2.0;

/// Everything that contradicts itself.
pub(super) fn contradictions(job: &JobState) -> Vec<Message> {
    let mut all = said(job);
    all.extend(against_tests(job));
    all.extend(against_record(job));
    all.extend(against_plans(job));
    for spot in 0..u8::try_from(job.spots.len()).unwrap_or(u8::MAX) {
        all.extend(at_head(job, spot));
    }
    all
}

/// Messages whose condition holds.
fn those(all: impl IntoIterator<Item = (bool, &'static str)>) -> Vec<Message> {
    let mut found = Vec::new();
    for (holds, key) in all {
        if holds {
            found.push(msg(key));
        }
    }
    found
}

/// Whether a question was answered so anywhere.
fn says(job: &JobState, finding: Finding, answer: YesNo) -> bool {
    let mut found = job.fault.found.iter();
    found.any(|found| found.finding == finding && found.answer == answer)
}

fn has(job: &JobState, symptom: Symptom) -> bool {
    job.fault.symptoms.contains_key(&symptom)
}

/// Symptoms and answers against each other.
fn said(job: &JobState) -> Vec<Message> {
    use Finding as F;
    let yes = |finding| says(job, finding, YesNo::Yes);
    let no = |finding| says(job, finding, YesNo::No);
    let mut all = those([
        (
            no(F::ObjectThere) && yes(F::GoesWithoutObject),
            "contradiction-object",
        ),
        (
            has(job, Symptom::LoadedAlarm) && no(F::OnlyLoaded),
            "contradiction-load",
        ),
        (
            has(job, Symptom::SeesGround) && no(F::OnlyRoughGround),
            "contradiction-ground",
        ),
        (
            has(job, Symptom::ConstantAlarm) && yes(F::OnlyLoaded),
            "contradiction-constant-load",
        ),
        (
            has(job, Symptom::ConstantAlarm) && has(job, Symptom::LateWarning),
            "contradiction-constant-late",
        ),
        (
            yes(F::GoesWhenDry) && no(F::WaterSeen),
            "contradiction-water",
        ),
        (
            yes(F::GoesOnSteadyFeed) && no(F::FeedPulsed) && yes(F::VoltsEnough),
            "contradiction-feed",
        ),
    ]);
    let symptoms = &job.fault.symptoms;
    let at = |symptom| symptoms.get(&symptom).copied();
    if let (Some(Where::Head(silent)), Some(Where::Head(loud))) =
        (at(Symptom::DeadHead), at(Symptom::ConstantAlarm))
        && silent == loud
    {
        all.push(msg("contradiction-head-both").text("label", label(job, silent)));
    }
    all
}

fn all_taps(test: &WalkTest, seen: bool) -> bool {
    test.is_whole() && test.taps.iter().all(|tap| tap.sounded.is_seen() == seen)
}

/// Symptoms against walk test and function check.
fn against_tests(job: &JobState) -> Vec<Message> {
    let test = job.walk.test.as_ref();
    let walked = |seen| test.is_some_and(|test| all_taps(test, seen));
    let heads = &job.walk.heads;
    let all_heads = |such: &dyn Fn(&HeadAnswer) -> bool| {
        !heads.is_empty() && heads.len() == job.spots.len() && heads.iter().all(such)
    };
    let silent = all_heads(&|head| head.answered == Answered::Nothing);
    let answering = all_heads(&|head| head.answered != Answered::Nothing);
    let dead = job.fault.symptoms.get(&Symptom::DeadHead).copied();
    let mut all = those([
        (
            has(job, Symptom::MissesMiddle) && walked(true),
            "contradiction-walk-saw-all",
        ),
        (
            has(job, Symptom::ConstantAlarm) && (walked(false) || silent),
            "contradiction-never-sounds",
        ),
        (
            dead.is_some_and(|place| !matches!(place, Where::Head(_))) && answering,
            "contradiction-all-answer",
        ),
    ]);
    if let Some(Where::Head(spot)) = dead
        && let Some(head) = heads.iter().find(|head| head.spot == spot)
        && head.answered != Answered::Nothing
    {
        all.push(msg("contradiction-head-answers").text("label", label(job, spot)));
    }
    all
}

/// Answers against what was recorded of the vehicle.
fn against_record(job: &JobState) -> Vec<Message> {
    use Finding as F;
    let yes = |finding| says(job, finding, YesNo::Yes);
    let no = |finding| says(job, finding, YesNo::No);
    let metal = job.behind.material == Material::Metal;
    let plastic = is_recorded(job) && !metal;
    let no_tow_bar = job.steps.answers.get(&Question::TowBar) == Some(&Truth::No);
    let mut areas = job.mark_out.no_drill.iter();
    let tow_bar = job.coverage.object == Some(ObjectKind::TowBall)
        || areas.any(|area| area.why == NoDrillReason::TowHitch);
    let nothing_learned = is_recorded(job)
        && learned_object(job).is_none()
        && matches!(ignores(job), Ignores::Nothing | Ignores::Cleared);
    let lamp = job.loom.lamp;
    let unsteady = matches!(
        lamp,
        Some(LampCircuit::Pulsed | LampCircuit::BusControlled | LampCircuit::Led)
    );
    let too_low = matches!(
        volts(job, Reading::ReverseOn),
        Some(ReadVolts::Judged(_, Judged::TooLow { .. }))
    );
    let mut all = those([
        (
            yes(F::PanelMetal) && plastic,
            "contradiction-metal-on-plastic",
        ),
        (no(F::PanelMetal) && metal, "contradiction-plastic-on-metal"),
        (no_tow_bar && tow_bar, "contradiction-tow-bar"),
        (
            nothing_learned && (yes(F::LearnedSame) || no(F::LearnedSame)),
            "contradiction-nothing-learned",
        ),
        (
            yes(F::FeedPulsed) && lamp == Some(LampCircuit::Plain),
            "contradiction-lamp-plain",
        ),
        (no(F::FeedPulsed) && unsteady, "contradiction-lamp-pulsed"),
        (yes(F::VoltsEnough) && too_low, "contradiction-volts"),
    ]);
    if let Some(object) = learned_object(job)
        && (no_tow_bar || no(F::ObjectThere))
    {
        all.push(msg("contradiction-learned-gone").message("what", object.name()));
    }
    all
}

/// Answers against height and spacing as they were planned.
fn against_plans(job: &JobState) -> Vec<Message> {
    let mut all = Vec::new();
    let row = job.mark_out.row.and_then(|row| row.above_ground);
    if let (Some(range), Some(height)) = (&job.kit.height, row) {
        let inside = height >= range.least && height <= range.greatest;
        let answer = if inside { YesNo::No } else { YesNo::Yes };
        if says(job, Finding::HeightRight, answer) {
            all.push(
                msg("contradiction-height")
                    .mm("height", height.0)
                    .mm("least", range.least.0)
                    .mm("greatest", range.greatest.0),
            );
        }
    }
    if let Some(middle) = middle_spacing(job) {
        let answer = if middle.is_wide() {
            YesNo::Yes
        } else {
            YesNo::No
        };
        if says(job, Finding::SpacingRight, answer) {
            all.push(
                msg("contradiction-spacing")
                    .mm("spacing", middle.spacing.0)
                    .mm("greatest", middle.greatest.0),
            );
        }
    }
    all
}

/// Answers at a head against what was recorded and measured of it.
fn at_head(job: &JobState, spot: u8) -> Vec<Message> {
    let answer = |finding| job.fault.answer(finding, Some(spot));
    let yes = |finding| answer(finding) == Some(YesNo::Yes);
    let no = |finding| answer(finding) == Some(YesNo::No);
    let recorded = set_taken(job, usize::from(spot)).and_then(|taken| taken.set.insert);
    let fitted = job.fault.aims.get(&spot);
    let aim = fitted_aim(job, spot);
    let above = aim.is_some_and(|aim| aim.value.0 > CLEARLY * aim.u.0);
    let below = aim.is_some_and(|aim| aim.value.0 < -CLEARLY * aim.u.0);
    let thick = matches!(paint_typed(job, spot), Some(Ok(paint)) if paint > paint_limit(job));
    let mut heads = job.walk.heads.iter();
    let other = heads.find(|head| head.spot == spot).and_then(|head| {
        let Answered::Shown(shown) = head.answered else {
            return None;
        };
        (shown != spot).then_some(shown)
    });
    let mut all: Vec<Message> = those([
        (
            recorded.is_some() && no(Finding::InsertThere),
            "contradiction-insert",
        ),
        (
            job.rings.seated.contains_key(&spot) && no(Finding::HeadUp),
            "contradiction-arrow",
        ),
        (
            yes(Finding::RingRight) && fitted.is_some_and(|found| found.way == RingWay::Lowers),
            "contradiction-ring",
        ),
        (
            (yes(Finding::PointsUp) && below) || (no(Finding::PointsUp) && above),
            "contradiction-aim",
        ),
        (yes(Finding::PaintThin) && thick, "contradiction-paint"),
    ])
    .into_iter()
    .map(|words| words.text("label", label(job, spot)))
    .collect();
    if let Some(shown) = other.filter(|_| yes(Finding::PlugRight)) {
        all.push(
            msg("contradiction-plug")
                .text("label", label(job, spot))
                .text("other", label(job, shown)),
        );
    }
    all
}
