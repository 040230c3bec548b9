//! What was taken over from earlier jobs on the same model. It says what to
//! expect; nothing in it counts as seen or measured on this vehicle until
//! this vehicle agrees, see [`super::agreed`].
//!
//! By its type it cannot carry what every vehicle has to show anew: the look
//! behind, cautions, the customer's agreement, walk test, obstacle learn,
//! readings at the supply.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::agreed::{Agrees, halves_agree};
use super::apply::{Refusal, cut, void_moved};
use super::centre_line::CentreBy;
use super::entry::Field;
use super::limit::Limit;
use super::marks::holds_the_rules;
use super::row::Row;
use super::state::{JobState, Marks, MarksFrom, Particular, Tape};
use super::took::Took;
use crate::decide::mark_out::NoDrill;
use crate::decide::parts::PartLine;
use crate::steps::StepName;
use crate::table::Table;
use crate::text::{Message, msg};
use crate::units::{Degrees, Estimate, Millimetres, Offset};

/// Most earlier jobs that one job takes over from (our own figure: more
/// vehicles hardly narrow what is expected of the next).
pub const EARLIER_JOBS_GREATEST: usize = 24;

/// Steps whose written words are about the model and not about one vehicle:
/// the places of control box, grommet and supply point.
pub const PLACES: [&str; 4] = ["box-place", "box-place-cabin", "grommet", "supply"];

/// An earlier job, as it is named where something comes from it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FromJob {
    /// Its name in the store.
    pub id: String,
    /// What the vehicle is called there.
    pub vehicle: String,
    /// When it was last worked on.
    pub at: DateTime<FixedOffset>,
    /// The workshop that passed it on, empty where it did not say;
    /// `None` for an own job.
    pub theirs: Option<String>,
}

impl FromJob {
    /// 'from job 12.03.2026', or a colleague's.
    #[must_use]
    pub fn message(&self) -> Message {
        let day = crate::moment::date(&self.at);
        match &self.theirs {
            None => msg("before-from").text("day", day),
            Some(who) if who.is_empty() => msg("before-from-colleague").text("day", day),
            Some(who) => msg("before-from-theirs")
                .text("day", day)
                .text("who", who.clone()),
        }
    }
}

/// What read a face angle. The error of one that was never zeroed is the
/// same each time it reads.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Instrument {
    /// A zeroed phone.
    Zeroed,
    /// A phone as it came, by its name.
    Unzeroed(String),
    /// An angle gauge.
    Gauge,
}

/// The face angle that the next vehicle of a model is expected to have.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ExpectedFace {
    /// Pooled over the vehicles, + faces up.
    pub rake: Degrees,
    /// Standard uncertainty for the next vehicle: spread between vehicles
    /// and what the pooled value itself is not known to.
    pub u: Degrees,
    /// What the ground put into the readings, the same for all.
    pub u_ground: Degrees,
    /// What the instrument put into them, the same for all.
    pub u_instrument: Degrees,
    /// Spread from vehicle to vehicle as found, standard deviation; 0 for
    /// one vehicle.
    pub between: Degrees,
    /// Vehicles read.
    pub vehicles: u16,
    /// What read them, if it was the same each time.
    pub read_by: Option<Instrument>,
}

impl ExpectedFace {
    /// Expected value with everything in its ±.
    #[must_use]
    pub fn estimate(&self) -> Estimate<Degrees> {
        let u = self.u.0.hypot(self.u_ground.0).hypot(self.u_instrument.0);
        Estimate::new(self.rake, Degrees(u))
    }
}

/// The half widths that the next vehicle is expected to have.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ExpectedHalves {
    /// Centre line to the left outer edge.
    pub left: Estimate<Millimetres>,
    /// Centre line to the right outer edge.
    pub right: Estimate<Millimetres>,
}

/// What earlier jobs hand on to a new one.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Handed {
    /// The jobs, best first.
    pub from: Vec<FromJob>,
    /// What the vehicle is called.
    pub vehicle: String,
    /// Expected half widths.
    pub halves: Option<ExpectedHalves>,
    /// Marks, straight, left to right.
    pub offsets: Vec<Offset>,
    /// How the centre line was found; told, not taken over.
    pub centre: Option<CentreBy>,
    /// Height of the row.
    pub row: Option<Row>,
    /// Limits changed for this bumper.
    pub limits: Table<Limit, Millimetres>,
    /// Expected face angles, left to right.
    pub faces: Vec<Option<ExpectedFace>>,
    /// Areas to keep clear of.
    pub no_drill: Vec<NoDrill>,
    /// Fields as they were typed; see [`may_be_handed`].
    pub typed: Vec<(Field, String)>,
    /// Words written down at the steps of [`PLACES`].
    pub words: Table<StepName, String>,
    /// Parts beyond those of the kit.
    pub extra: Vec<PartLine>,
    /// Minutes and parts of the earlier jobs.
    pub took: Took,
}

/// What a job took over.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Before {
    /// From these jobs, best first; empty for a job of its own.
    pub from: Vec<FromJob>,
    /// Expected half widths.
    pub halves: Option<ExpectedHalves>,
    /// Marks, straight, left to right.
    pub offsets: Vec<Offset>,
    /// Expected face angles, left to right.
    pub faces: Vec<Option<ExpectedFace>>,
    /// Areas to keep clear of, as they were handed on.
    pub no_drill: Vec<NoDrill>,
    /// Height of the row, as it was handed on.
    pub row: Option<Row>,
    /// Limits, as they were handed on.
    pub limits: Table<Limit, Millimetres>,
    /// Words at steps, as they were handed on.
    pub words: Table<StepName, String>,
    /// Minutes and parts of the earlier jobs.
    pub took: Took,
}

/// Something about what earlier jobs hand on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum BeforeEvent {
    /// It was taken over.
    TakenOver(Box<Handed>),
    /// The half widths agree: the marks go where they were.
    MarksAsBefore {
        /// Centre line to the left outer edge.
        half_left: Millimetres,
        /// Centre line to the right outer edge.
        half_right: Millimetres,
    },
    /// It is another bumper: areas, height of the row and limits of the
    /// earlier ones go out, as far as they stand as they came.
    BumperDropped,
}

pub(super) fn apply(next: &mut JobState, event: BeforeEvent) -> Result<(), Refusal> {
    match event {
        BeforeEvent::TakenOver(handed) => take_over(next, *handed),
        BeforeEvent::MarksAsBefore {
            half_left,
            half_right,
        } => marks_as_before(next, half_left, half_right),
        BeforeEvent::BumperDropped => {
            drop_bumper(next);
            Ok(())
        }
    }
}

/// Whether what is written down at a step stands there as it came from an
/// earlier vehicle and the step was not ended on this one.
#[must_use]
pub fn words_as_before(job: &JobState, step: &StepName) -> bool {
    let before = job.before.words.get(step);
    before.is_some() && before == job.steps.words.get(step) && !job.steps.ended.contains_key(step)
}

/// Where the marks come from: the earlier jobs, best first. Empty for marks
/// of this job's own.
#[must_use]
pub fn marks_from_words(job: &JobState) -> Vec<Message> {
    let before = |marks: &Marks| marks.from == MarksFrom::Before;
    if job.marks.as_ref().is_some_and(before) {
        job.before.from.iter().map(FromJob::message).collect()
    } else {
        Vec::new()
    }
}

/// Whether anything of the earlier bumper stands in this job as it came.
#[must_use]
pub fn holds_earlier_bumper(job: &JobState) -> bool {
    let mut without = job.clone();
    drop_bumper(&mut without);
    without.mark_out != job.mark_out
}

fn drop_bumper(next: &mut JobState) {
    let before = &next.before;
    let mark_out = &mut next.mark_out;
    mark_out
        .no_drill
        .retain(|area| !before.no_drill.contains(area));
    if before.row.is_some() && mark_out.row == before.row {
        mark_out.row = None;
        next.typed.remove(&Field::RowFromLine);
    }
    for (limit, value) in &before.limits {
        if mark_out.limits.get(limit) == Some(value) {
            mark_out.limits.remove(limit);
            next.typed.remove(&Field::Limit(*limit));
        }
    }
}

fn take_over(next: &mut JobState, handed: Handed) -> Result<(), Refusal> {
    if next.marks.is_some() || !next.before.from.is_empty() {
        return Err(Refusal(msg("before-too-late")));
    }
    let heads = next.spots.len();
    let fits = handed.offsets.len() == heads;
    next.before = Before {
        from: handed.from,
        halves: handed.halves.filter(|_| fits),
        offsets: if fits { handed.offsets } else { Vec::new() },
        faces: if fits && handed.faces.len() == heads {
            handed.faces
        } else {
            Vec::new()
        },
        no_drill: handed.no_drill.clone(),
        row: handed.row,
        limits: handed.limits.clone(),
        words: Table::new(),
        took: handed.took,
    };
    next.before.from.truncate(EARLIER_JOBS_GREATEST);
    if !handed.vehicle.is_empty() && next.particular(Particular::Vehicle).trim().is_empty() {
        next.particulars
            .insert(Particular::Vehicle, cut(handed.vehicle));
    }
    next.mark_out.row = handed.row.or(next.mark_out.row);
    for (limit, value) in &handed.limits {
        next.mark_out.limits.insert(*limit, *value);
    }
    next.mark_out.no_drill.extend(handed.no_drill);
    for (field, text) in handed.typed {
        if may_be_handed(field) && next.typed(field).trim().is_empty() {
            next.typed.insert(field, cut(text));
        }
    }
    let places = handed.words.iter();
    for (step, words) in places.filter(|(step, _)| PLACES.contains(&step.0.as_str())) {
        let words = cut(words.clone());
        next.before.words.insert(step.clone(), words.clone());
        if !next.steps.words.contains_key(step) {
            next.steps.words.insert(step.clone(), words);
        }
    }
    next.quote.extra.extend(handed.extra);
    Ok(())
}

fn marks_as_before(
    next: &mut JobState,
    half_left: Millimetres,
    half_right: Millimetres,
) -> Result<(), Refusal> {
    match halves_agree(next) {
        Agrees::Yes => {}
        Agrees::NotYet => return Err(Refusal(msg("before-halves-first"))),
        Agrees::No(why) => {
            let first = why.into_iter().next();
            return Err(Refusal(first.unwrap_or_else(|| msg("before-halves-first"))));
        }
    }
    let offsets = next.before.offsets.clone();
    holds_the_rules(next, half_left, half_right, &offsets)?;
    void_moved(next, &offsets)?;
    next.marks = Some(Marks {
        half_left,
        half_right,
        from: MarksFrom::Before,
        offsets,
        tape: Tape::NotYet,
    });
    Ok(())
}

/// Whether what is typed in a field may go from job to job of a model.
/// Whatever was read or said on one vehicle stays there; a new field has to
/// be decided here.
#[must_use]
pub fn may_be_handed(field: Field) -> bool {
    match field {
        Field::RowFromLine
        | Field::Limit(_)
        | Field::Route(_)
        | Field::Straight(_)
        | Field::GrommetToBox
        | Field::Slack
        | Field::QuoteMinutes => true,
        Field::HalfLeft
        | Field::HalfRight
        | Field::RowHeight
        | Field::FaceAngle
        | Field::GaugePlusMinus
        | Field::SillAngle
        | Field::BayName
        | Field::LoadOwn
        | Field::CornerAngle(_)
        | Field::SweepTape(_)
        | Field::NoDrillFrom
        | Field::NoDrillTo
        | Field::NoDrillWhat
        | Field::OldHole
        | Field::MoveTo
        | Field::TapeMark(_)
        | Field::TapeLine(_)
        | Field::AgreedName
        | Field::Depth(_)
        | Field::Panel(_)
        | Field::OldHoleSize(_)
        | Field::ReachPastTeeth
        | Field::StepDrillReach
        | Field::BumperCelsius
        | Field::Volts(_)
        | Field::FuseAmperes
        | Field::QuoteAnHour
        | Field::HandReason(_)
        | Field::PartWords
        | Field::BehindWords(_)
        | Field::LearnObject
        | Field::Asked(_)
        | Field::WalkShare
        | Field::WalkStartUp
        | Field::WalkLatency
        | Field::WalkStartUpMost
        | Field::WalkLatencyMost
        | Field::ObjectWhat
        | Field::ObjectAcross
        | Field::ObjectWidth
        | Field::ObjectReach
        | Field::BesideLeft(_)
        | Field::BesideRight(_)
        | Field::RingAdds(_)
        | Field::PaintOn(_)
        | Field::RearSinks
        | Field::Air(_)
        | Field::Object(_)
        | Field::FullWidth
        | Field::RowLineWhat
        | Field::TapeLimit(_) => false,
    }
}
