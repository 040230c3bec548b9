//! Facts that change a job, in the past tense.

use serde::{Deserialize, Serialize};

use super::before::BeforeEvent;
use super::behind::BehindEvent;
use super::card_photos::CardPhotosEvent;
use super::check::CheckEvent;
use super::coverage::CoverageEvent;
use super::entry::Field;
use super::fault::FaultEvent;
use super::holes::HolesEvent;
use super::job_photos::PhotoEvent;
use super::kit_asked::Asked;
use super::learned::LearnedEvent;
use super::loom::LoomEvent;
use super::mark_out::MarkOutEvent;
use super::measuring::MeasuringEvent;
use super::quote::QuoteEvent;
use super::rings_chosen::RingsEvent;
use super::standing::StandingEvent;
use super::state::Particular;
use super::steps_done::StepsEvent;
use super::time_spent::TimeCorrected;
use super::waits::WaitEvent;
use super::walk::WalkEvent;
use crate::decide::mark_out::PlanKind;
use crate::estimate::rake::FaceReading;
use crate::kit::KitSheet;
use crate::steps::Stage;
use crate::units::{Millimetres, Offset};

/// Something that happened in a job.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum JobEvent {
    /// The fitter named the job.
    Named(String),
    /// A particular was typed.
    ParticularTyped(Particular, String),
    /// A field's text changed. Kept as typed; it counts once it is used.
    Typed(Field, String),
    /// A mark-out was chosen for these half widths.
    MarksPlanned {
        /// Centre line to the left outer edge.
        half_left: Millimetres,
        /// Centre line to the right outer edge.
        half_right: Millimetres,
        /// Which plan.
        kind: PlanKind,
        /// Straight offsets, left to right.
        offsets: Vec<Offset>,
    },
    /// Something about the mark-out besides.
    MarkOut(MarkOutEvent),
    /// Something before drilling.
    Check(CheckEvent),
    /// The tape crosses are on the bumper.
    TapeLaid,
    /// The face angle at a spot was read or typed.
    FaceRead {
        /// Which spot, 0 for the leftmost.
        spot: usize,
        /// What was read.
        reading: FaceReading,
    },
    /// The last reading at a spot was taken back.
    FaceDropped {
        /// Which spot.
        spot: usize,
    },
    /// One reading at a spot was taken out.
    ReadingTakenOut {
        /// Which spot.
        spot: usize,
        /// Which of its readings, 0 for the oldest.
        reading: usize,
    },
    /// Another kit will be fitted.
    KitChosen(Box<KitSheet>),
    /// What is typed for these fields belongs on the job's sheet.
    KitFilled(Vec<Asked>),
    /// Something was found out about the bumper from behind.
    Behind(BehindEvent),
    /// Something was decided or done about ring sets.
    Rings(RingsEvent),
    /// Something happened at the holes.
    Holes(HolesEvent),
    /// Something was answered about leads and supply.
    Loom(LoomEvent),
    /// Something happened about the obstacle learn.
    Learned(LearnedEvent),
    /// Something was said about parts and prices.
    Quote(QuoteEvent),
    /// Something happened in walk test or function check.
    Walk(WalkEvent),
    /// Something was said or found about a fault.
    Fault(FaultEvent),
    /// How the angles are measured changed.
    Measuring(MeasuringEvent),
    /// Something about a step of the work.
    Steps(StepsEvent),
    /// Something about a wait.
    Wait(WaitEvent),
    /// This stage is worked at: the time since the last event is its own.
    WorkedAt(Stage),
    /// A stage's working minutes were corrected.
    Time(TimeCorrected),
    /// How the job stands with its customer.
    Standing(StandingEvent),
    /// Something about a photo.
    Photo(PhotoEvent),
    /// Something about photos of mark cards.
    Cards(CardPhotosEvent),
    /// Something was said about what is behind the vehicle.
    Coverage(CoverageEvent),
    /// Something about what earlier jobs of the model hand on.
    Before(BeforeEvent),
    /// A job sheet was issued.
    SheetIssued {
        /// Name of the time zone.
        zone: String,
    },
}
