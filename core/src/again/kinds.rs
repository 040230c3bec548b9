//! Kinds under one name: bumpers as wide and marked alike whose faces
//! contradict each other, as before and after a facelift. Their readings are
//! never pooled.

use std::cmp::Reverse;

use super::lesson::{FaceLearned, Lesson};
use super::name::VehicleName;
use super::offer::counted;
use super::pool::{SPREAD_SCALE, paule_mandel};
use crate::decide::ring_set::face_words;
use crate::job::Instrument;
use crate::order;
use crate::text::{Message, msg};
use crate::units::{COVERAGE_95, Degrees};

/// Most lessons that are compared, the best.
const COMPARED: usize = 96;

/// Whether two faces can be of one kind: they differ by no more than the ±
/// of both readings and the spread between vehicles allow (95 %, with
/// [`SPREAD_SCALE`]). It is the measure by which a vehicle is held against a
/// single earlier one.
fn agree(one: &FaceLearned, other: &FaceLearned) -> bool {
    let mut square = 2.0 * SPREAD_SCALE * SPREAD_SCALE;
    for face in [one, other] {
        square += face.u.0.powi(2) + face.u_ground.0.powi(2);
        if !same_phone(&one.read_by, &other.read_by) {
            square += face.u_instrument.0.powi(2);
        }
    }
    (one.rake.0 - other.rake.0).abs() <= COVERAGE_95 * square.sqrt()
}

/// The error of one phone that was never zeroed is in both and drops out.
fn same_phone(one: &Instrument, other: &Instrument) -> bool {
    matches!(one, Instrument::Unzeroed(name) if !name.starts_with(UNKNOWN_PHONE)) && one == other
}

/// Name of an unzeroed phone of which nothing is known: a colleague's, or
/// several.
pub(super) const UNKNOWN_PHONE: &str = "\u{0}";

/// Whether the faces that both have read agree; `None` where there is none.
fn alike(one: &Lesson, other: &Lesson) -> Option<bool> {
    let both = one.faces.iter().zip(&other.faces);
    let mut both = both
        .filter_map(|(a, b)| Some((a.as_ref()?, b.as_ref()?)))
        .peekable();
    both.peek()?;
    Some(both.all(|(a, b)| agree(a, b)))
}

/// The kinds among lessons of one bumper, best first: a lesson is of a kind
/// with each that it agrees with, and with those that these agree with.
/// First comes the kind nearest to the years wanted, then the one with most
/// jobs, then the one of the best job.
pub(super) fn kinds<'a>(wanted: &VehicleName, lessons: &[&'a Lesson]) -> Vec<Vec<&'a Lesson>> {
    let compared = lessons.get(..COMPARED).unwrap_or(lessons);
    let mut of: Vec<usize> = (0..compared.len()).collect();
    for (later, lesson) in compared.iter().enumerate() {
        for (earlier, other) in compared.iter().enumerate().take(later) {
            if of[later] != of[earlier] && alike(lesson, other) == Some(true) {
                let (low, high) = (of[later].min(of[earlier]), of[later].max(of[earlier]));
                let joined = of.iter_mut().filter(|kind| **kind == high);
                joined.for_each(|kind| *kind = low);
            }
        }
    }
    // One that shares no face with the best's kind does not contradict it.
    for at in 1..compared.len() {
        let mut best = (0..compared.len()).filter(|other| of[*other] == 0);
        if of[at] != 0 && best.all(|other| alike(compared[at], compared[other]).is_none()) {
            of[at] = 0;
        }
    }
    let mut kinds: Vec<Vec<&'a Lesson>> = Vec::new();
    for kind in 0..compared.len() {
        let members = compared.iter().zip(&of).filter(|(_, of)| **of == kind);
        let members: Vec<&'a Lesson> = members.map(|(lesson, _)| *lesson).collect();
        if !members.is_empty() {
            kinds.push(members);
        }
    }
    let apart = |kind: &Vec<&Lesson>| {
        let years = |lesson: &&Lesson| wanted.years_apart(&VehicleName::read(&lesson.vehicle));
        kind.iter().map(years).min()
    };
    order::sort_by_key(&mut kinds, |kind| (apart(kind), Reverse(kind.len())));
    kinds
}

/// The label of the head at which the kinds differ most, and each kind in
/// words by it: its face and how many jobs. Empty for a single kind.
pub(super) fn told(kinds: &[Vec<&Lesson>]) -> (String, Vec<Message>) {
    let Some(best) = kinds.first().and_then(|kind| kind.first()) else {
        return (String::new(), Vec::new());
    };
    if kinds.len() < 2 {
        return (String::new(), Vec::new());
    }
    let face = |kind: &Vec<&Lesson>, spot: usize| -> Option<f64> {
        let faces = kind.iter().filter_map(|lesson| lesson.faces.get(spot));
        let values: Vec<(f64, f64)> = faces.flatten().map(|f| (f.rake.0, f.u.0)).collect();
        Some(paule_mandel(&values)?.mean)
    };
    let apart = |spot: usize| -> f64 {
        let faces = kinds.iter().filter_map(|kind| face(kind, spot));
        let (least, greatest) = faces.fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), one| {
            (a.min(one), b.max(one))
        });
        greatest - least
    };
    let spot = (0..best.faces.len()).max_by(|a, b| apart(*a).total_cmp(&apart(*b)));
    let spot = spot.unwrap_or_default();
    let say = |kind: &Vec<&Lesson>| {
        let jobs = counted(kind.len());
        match face(kind, spot) {
            Some(face) => msg("again-kind")
                .message("face", face_words(Degrees(face)))
                .count("jobs", jobs),
            None => msg("again-kind-unread").count("jobs", jobs),
        }
    };
    let label = best.kit.heads.labels.get(spot).cloned();
    (label.unwrap_or_default(), kinds.iter().map(say).collect())
}
