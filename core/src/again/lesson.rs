//! What one job teaches: all of its knowledge of the model, nothing of its
//! customer.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::told::{Told, told};
use crate::decide::mark_out::NoDrill;
use crate::decide::parts::PartLine;
use crate::estimate::budget::Part;
use crate::job::{
    CentreBy, Field, Instrument, JobState, Limit, PLACES, Particular, Row, Standing, may_be_handed,
    parts_planned, rake_read, read_by, stages_spent,
};
use crate::kit::KitSheet;
use crate::steps::StepName;
use crate::units::{Degrees, Millimetres, Offset};

/// Whether a job was brought to its end.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum HandedOver {
    /// Handed over, and it did not come back.
    Done,
    /// Still in work.
    NotYet,
    /// It came back: something was wrong.
    CameBack,
}

/// A face angle as one job found it, its ± in parts.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FaceLearned {
    /// + faces up.
    pub rake: Degrees,
    /// Standard uncertainty of the reading itself.
    pub u: Degrees,
    /// What the ground put in.
    pub u_ground: Degrees,
    /// What the phone's own error or the gauge's ± put in.
    pub u_instrument: Degrees,
    /// What read it.
    pub read_by: Instrument,
}

/// Who passed a lesson on, as far as they said.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct TaughtBy {
    /// The workshop's name, empty where it is not said.
    pub workshop: String,
    /// The fitter's name, empty where it is not said.
    pub fitter: String,
}

impl Lesson {
    /// Whether it was brought to its end: only then are its minutes and
    /// parts those of a whole job.
    #[must_use]
    pub fn is_finished(&self) -> bool {
        self.handed_over != HandedOver::NotYet
    }
}

impl TaughtBy {
    /// Both, as far as said.
    #[must_use]
    pub fn words(&self) -> String {
        let parts = [self.fitter.trim(), self.workshop.trim()];
        let said: Vec<&str> = parts.into_iter().filter(|part| !part.is_empty()).collect();
        said.join(", ")
    }
}

/// What one job teaches the next on the same model.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Lesson {
    /// The job's name in the store.
    pub id: String,
    /// What the vehicle is called: make, model, body, years.
    pub vehicle: String,
    /// When the job was last worked on.
    pub at: DateTime<FixedOffset>,
    /// Whether it was brought to its end.
    pub handed_over: HandedOver,
    /// The kit as it was fitted.
    pub kit: KitSheet,
    /// Centre line to the left outer edge.
    pub half_left: Millimetres,
    /// Centre line to the right outer edge.
    pub half_right: Millimetres,
    /// Marks, straight, left to right.
    pub offsets: Vec<Offset>,
    /// How the centre line was found.
    pub centre: Option<CentreBy>,
    /// Height of the row.
    pub row: Option<Row>,
    /// Limits changed for this bumper.
    pub limits: Vec<(Limit, Millimetres)>,
    /// Face angles, left to right, as far as they were read.
    pub faces: Vec<Option<FaceLearned>>,
    /// Areas to keep clear of.
    pub no_drill: Vec<NoDrill>,
    /// Typed fields that may be handed on.
    pub typed: Vec<(Field, String)>,
    /// Words about the places of control box, grommet and supply point.
    pub words: Vec<(StepName, String)>,
    /// Parts beyond those of the kit.
    pub extra: Vec<PartLine>,
    /// All parts as decided.
    pub parts: Vec<PartLine>,
    /// Working minutes of all stages; `None` where none were counted.
    pub minutes: Option<u32>,
    /// What is worth knowing beforehand.
    pub told: Vec<Told>,
    /// Who passed it on; `None` for an own job.
    pub by: Option<TaughtBy>,
}

/// What a job teaches; `None` while it has no marks or no face was read.
#[must_use]
pub fn lesson(job: &JobState) -> Option<Lesson> {
    // Every field of a job is named here, so that a new one is decided on:
    // what stays behind with its vehicle and customer is bound to `_`.
    let JobState {
        id,
        name: _,
        created: _,
        changed,
        revision: _,
        clock: _,
        kit,
        particulars: _,
        typed,
        marks,
        spots,
        mark_out,
        check: _,
        phone: _,
        ground: _,
        load_allowance: _,
        behind: _,
        rings: _,
        holes: _,
        loom: _,
        learned: _,
        quote,
        walk: _,
        fault,
        measuring: _,
        steps,
        waits: _,
        spent: _,
        standing,
        visits,
        photos: _,
        card_photos: _,
        coverage: _,
        before: _,
        sheets,
    } = job;
    let marks = marks.as_ref()?;
    let faces: Vec<Option<FaceLearned>> = spots.iter().map(|spot| face(job, spot)).collect();
    if fault.elsewhere.is_some() || faces.iter().all(Option::is_none) {
        return None;
    }
    let minutes: u32 = stages_spent(job).iter().map(|(_, minutes)| minutes).sum();
    let handed_over = if !visits.is_empty() || *standing == Standing::CameBack {
        HandedOver::CameBack
    } else if *standing == Standing::Done || !sheets.is_empty() {
        HandedOver::Done
    } else {
        HandedOver::NotYet
    };
    let typed = typed
        .iter()
        .filter(|(field, text)| {
            // Minutes come from the work done, not from what was quoted.
            may_be_handed(*field) && *field != Field::QuoteMinutes && !text.trim().is_empty()
        })
        .cloned()
        .collect();
    let words = steps
        .words
        .iter()
        .filter(|(step, _)| PLACES.contains(&step.0.as_str()))
        .cloned()
        .collect();
    Some(Lesson {
        id: id.0.clone(),
        vehicle: job.particular(Particular::Vehicle).trim().to_owned(),
        at: *changed,
        handed_over,
        kit: kit.clone(),
        half_left: marks.half_left,
        half_right: marks.half_right,
        offsets: marks.offsets.clone(),
        centre: mark_out.centre,
        row: mark_out.row,
        limits: mark_out.limits.iter().copied().collect(),
        faces,
        no_drill: mark_out.no_drill.clone(),
        typed,
        words,
        extra: quote.extra.clone(),
        parts: parts_planned(job),
        minutes: (minutes > 0).then_some(minutes),
        told: told(job),
        by: None,
    })
}

fn face(job: &JobState, spot: &crate::job::Spot) -> Option<FaceLearned> {
    let read = rake_read(job, spot)?;
    let ground = read.budget.part(Part::Ground);
    let zeroing = read.budget.part(Part::Zeroing).0;
    let instrument = zeroing.hypot(read.budget.part(Part::Gauge).0);
    let all = read.budget.total().0;
    let own = all * all - ground.0 * ground.0 - instrument * instrument;
    Some(FaceLearned {
        rake: read.rake.value,
        u: Degrees(own.max(0.0).sqrt().max(U_LEAST)),
        u_ground: ground,
        u_instrument: Degrees(instrument),
        read_by: read_by(job, &read)?,
    })
}

/// Least standard uncertainty of a reading: no face is smoother, degrees
/// (our own figure). A typed angle carries only its gauge's.
pub(super) const U_LEAST: f64 = 0.1;
