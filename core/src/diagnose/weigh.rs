//! All evidence weighed: the list of suspects.

use super::cause::Cause;
use super::contradict::contradictions;
use super::evidence::{Evidence, From, Gathered, answers, label};
use super::weights::{fits, prior};
use super::{aim, feed, field, fit, plugs, seen, walked};
use crate::job::{JobState, Symptom, Where};
use crate::order;
use crate::text::{Message, msg};

/// A head where a symptom does not point counts for so much less, as a share
/// of what speaks for it.
const ELSEWHERE: f64 = 0.5;
/// From so few points on a cause is as good as ruled out.
const RULED_OUT: i32 = -10;

/// A possible cause with everything that was weighed.
#[derive(Clone, Debug, PartialEq)]
pub struct Suspect {
    /// Which.
    pub cause: Cause,
    /// Prior, symptoms and evidence together, in decibans.
    pub points: i32,
    /// What speaks for it, the heaviest first.
    pub for_it: Vec<Evidence>,
    /// What speaks against it, the heaviest first.
    pub against: Vec<Evidence>,
    /// What is not known.
    pub unknown: Vec<Message>,
    /// What to do once it is this, where the record says more than the
    /// check: the first thing first.
    pub steps: Vec<Message>,
    /// Heads where something speaks for it.
    pub heads: Vec<u8>,
    /// The head to look at first, for a cause at a head.
    pub first_head: Option<u8>,
}

impl Suspect {
    /// Whether more speaks against it than is worth a look.
    #[must_use]
    pub fn is_ruled_out(&self) -> bool {
        self.points <= RULED_OUT
    }

    /// Its name, with the heads where that is known.
    #[must_use]
    pub fn name(&self, job: &JobState) -> Message {
        if self.heads.is_empty() || self.heads.len() == job.spots.len() {
            return self.cause.message();
        }
        let labels: Vec<String> = self.heads.iter().map(|spot| label(job, *spot)).collect();
        msg("suspect-at-heads")
            .message("cause", self.cause.message())
            .text("labels", labels.join(", "))
    }
}

/// The suspects and what to say about the whole.
#[derive(Clone, Debug, PartialEq)]
pub struct Diagnosis {
    /// Possible causes, the likeliest first; all of them once a symptom is said.
    pub suspects: Vec<Suspect>,
    /// What contradicts itself or the record; what was found at the car counts more.
    pub contradictions: Vec<Message>,
    /// The first line: what the order goes by.
    pub outcome: Message,
}

/// Weighs every cause for what the system does.
///
/// A cause's points are its prior, how it fits the symptoms (the best fit
/// whole, the others half: two faults may each have one's own) and its
/// evidence. A cause at a head is weighed at each head and counts at the
/// likeliest; where no symptom that it fits points, what speaks for it
/// counts half. So evidence for a cause never lowers it, and an answer that
/// was not given changes nothing.
#[must_use]
pub fn diagnose(job: &JobState) -> Diagnosis {
    if job.fault.symptoms.is_empty() {
        return Diagnosis {
            suspects: Vec::new(),
            contradictions: contradictions(job),
            outcome: msg("diagnosis-no-symptom"),
        };
    }
    let mut suspects: Vec<Suspect> = Cause::ALL
        .into_iter()
        .map(|cause| suspect(job, cause))
        .collect();
    order::sort_by_key(&mut suspects, |suspect| (-suspect.points, suspect.cause));
    Diagnosis {
        contradictions: contradictions(job),
        outcome: outcome(job, &suspects),
        suspects,
    }
}

fn suspect(job: &JobState, cause: Cause) -> Suspect {
    let (fit, symptoms) = symptoms(job, cause);
    let (gathered, sum, heads, first_head) = if cause.is_at_head() {
        at_heads(job, cause)
    } else {
        let all = at_vehicle(job, cause);
        let sum = all.points();
        (all, sum, Vec::new(), None)
    };
    let mut evidence = symptoms;
    evidence.extend(gathered.evidence);
    evidence.extend((prior(cause) != 0).then(|| Evidence {
        points: prior(cause),
        said: msg("evidence-prior"),
        from: From::Prior,
    }));
    let (mut for_it, mut against): (Vec<_>, Vec<_>) =
        evidence.into_iter().partition(|one| one.points > 0);
    order::sort_by_key(&mut for_it, |one| -one.points);
    order::sort_by_key(&mut against, |one| one.points);
    Suspect {
        cause,
        points: i32::from(prior(cause)) + fit + sum,
        for_it,
        against,
        unknown: gathered.unknown,
        steps: match cause {
            Cause::ObjectInField => seen::object_steps(job),
            _ => Vec::new(),
        },
        heads,
        first_head,
    }
}

/// How a cause fits what the system does.
fn symptoms(job: &JobState, cause: Cause) -> (i32, Vec<Evidence>) {
    let fits = fits(cause);
    let mut said: Vec<Evidence> = Symptom::ALL
        .into_iter()
        .zip(fits)
        .filter(|(symptom, _)| job.fault.symptoms.contains_key(symptom))
        .map(|(symptom, points)| {
            let words = msg(if points > 0 {
                "evidence-fits"
            } else {
                "evidence-does-not-fit"
            });
            Evidence {
                points,
                said: words.message("symptom", symptom.message()),
                from: From::Symptom,
            }
        })
        .collect();
    order::sort_by_key(&mut said, |one| -one.points);
    let mut sum = 0;
    for (place, one) in said.iter_mut().enumerate() {
        // Only the best fit counts whole; what another fault does is not
        // held against this one.
        one.points = match (place, one.points) {
            (0, points) => points,
            (_, points) if points > 0 => (points + 1) / 2,
            _ => 0,
        };
        sum += i32::from(one.points);
    }
    said.retain(|one| one.points != 0);
    (sum, said)
}

/// Weighs a cause at each head; gives the likeliest head's evidence.
fn at_heads(job: &JobState, cause: Cause) -> (Gathered, i32, Vec<u8>, Option<u8>) {
    let count = u8::try_from(job.spots.len()).unwrap_or(u8::MAX);
    let mut best: Option<(i32, u8, Gathered)> = None;
    let mut heads = Vec::new();
    for spot in 0..count {
        let mut all = at_head(job, cause, spot);
        if !pointed_at(job, cause, spot) {
            all.evidence.iter_mut().for_each(elsewhere);
        }
        let sum = all.points();
        if sum > 0 {
            heads.push(spot);
        }
        if best.as_ref().is_none_or(|(most, _, _)| sum > *most) {
            best = Some((sum, spot, all));
        }
    }
    match best {
        Some((sum, spot, all)) => {
            let first = (!heads.is_empty()).then_some(spot);
            (all, sum, heads, first)
        }
        None => (Gathered::default(), 0, heads, None),
    }
}

/// What speaks for a cause at a head where no symptom points.
fn elsewhere(one: &mut Evidence) {
    if one.points > 0 {
        one.points = (f64::from(one.points) * ELSEWHERE).round() as i16;
        one.said = msg("evidence-elsewhere").message("said", one.said.clone());
    }
}

/// Whether a symptom that the cause fits may mean this head. Where it fits
/// none, every head may be meant.
fn pointed_at(job: &JobState, cause: Cause, spot: u8) -> bool {
    let heads = job.spots.len();
    let mut fitting = Symptom::ALL
        .into_iter()
        .zip(fits(cause))
        .filter(|(_, points)| *points > 0)
        .filter_map(|(symptom, _)| Some((symptom, *job.fault.symptoms.get(&symptom)?)))
        .peekable();
    if fitting.peek().is_none() {
        return true;
    }
    fitting.any(|(symptom, place)| match (symptom, place) {
        (Symptom::MissesMiddle, Where::NotKnown) => is_inner(spot, heads),
        _ => place.means(spot, heads),
    })
}

/// The inner half of the heads.
fn is_inner(spot: u8, heads: usize) -> bool {
    let spot = usize::from(spot);
    let outer = heads / 4;
    spot >= outer && spot + outer < heads
}

fn at_head(job: &JobState, cause: Cause, spot: u8) -> Gathered {
    let place = job
        .marks
        .as_ref()
        .and_then(|marks| marks.offsets.get(usize::from(spot)).copied());
    let mut all = answers(job, cause, Some(spot));
    all.join(aim::at_head(job, cause, spot));
    if cause == Cause::AimBelowLevel {
        all.join(seen::ground(job, spot));
    }
    all.join(fit::at_head(job, cause, spot));
    all.join(plugs::at_head(job, cause, spot));
    all.join(walked::at(job, cause, place));
    all
}

fn at_vehicle(job: &JobState, cause: Cause) -> Gathered {
    let mut all = answers(job, cause, None);
    all.join(match cause {
        Cause::Load => aim::load(job),
        Cause::HeightOutside => aim::height(job),
        Cause::ObjectInField => field::object(job),
        Cause::LearnedWrong => field::learned(job),
        Cause::GapBetween => field::gap(job),
        Cause::SupplyDrop => feed::drop(job),
        Cause::PulsedFeed => feed::pulsed(job),
        _ => Gathered::default(),
    });
    match cause {
        Cause::ObjectInField => all.join(seen::object(job)),
        Cause::GapBetween => all.join(seen::middle(job)),
        _ => {}
    }
    all.join(walked::at(job, cause, None));
    all
}

/// The first line: what the order goes by, and whether it says much.
fn outcome(job: &JobState, suspects: &[Suspect]) -> Message {
    let found = !job.fault.found.is_empty() || !job.fault.aims.is_empty();
    let of_record = |one: &Evidence| one.from == From::Record;
    let record = suspects.iter().any(|suspect| {
        let mut all = suspect.for_it.iter().chain(&suspect.against);
        all.any(of_record)
    });
    match (record, found) {
        (false, false) => return msg("diagnosis-symptoms-only"),
        (false, true) => return msg("diagnosis-answers-only"),
        (true, _) => {}
    }
    match suspects {
        [first, ..] if first.is_ruled_out() => msg("diagnosis-all-ruled-out"),
        [first, second, ..] if first.points - second.points < 3 => msg("diagnosis-two-alike")
            .message("first", first.name(job))
            .message("second", second.name(job)),
        _ => msg("diagnosis-by-record"),
    }
}
