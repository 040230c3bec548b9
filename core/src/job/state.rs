//! What a job is: one fitting on one vehicle for one customer.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::agreed::measured_before;
use super::before::Before;
use super::behind::BehindState;
use super::card_photos::CardPhotos;
use super::check::Check;
use super::coverage::CoverageState;
use super::entry::Field;
use super::fault::FaultState;
use super::holes::HolesState;
use super::job_photos::Photo;
use super::learned::LearnedState;
use super::loom::LoomState;
use super::mark_out::MarkOut;
use super::measuring::Measuring;
use super::quote::QuoteState;
use super::rings_chosen::RingsState;
use super::standing::{Standing, Visit};
use super::steps_done::StepsState;
use super::time_spent::TimeSpent;
use super::waits::Wait;
use super::walk::WalkState;
use crate::decide::mark_out::PlanKind;
use crate::decide::ring_set::LOAD_ALLOWANCE;
use crate::estimate::ground::Ground;
use crate::estimate::rake::FaceReading;
use crate::estimate::zero::Phone;
use crate::kit::KitSheet;
use crate::table::Table;
use crate::text::{Message, msg};
use crate::units::{Degrees, Millimetres, Offset};

/// Name of a job in the store: hexadecimal digits given by the shell.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct JobId(pub String);

/// A particular of the job that is free text.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Particular {
    /// Customer's name.
    Customer,
    /// Make, model, body, year: one line, by which earlier jobs are found.
    Vehicle,
    /// Number plate.
    Plate,
    /// Vehicle identification number (ISO 3779).
    Vin,
    /// What the odometer showed, with its unit.
    Odometer,
    /// Who fits.
    Fitter,
    /// Serial number of the kit that was fitted.
    KitSerial,
}

impl Particular {
    /// All, in the order in which they are asked.
    pub const ALL: [Self; 7] = [
        Self::Customer,
        Self::Vehicle,
        Self::Plate,
        Self::Vin,
        Self::Odometer,
        Self::Fitter,
        Self::KitSerial,
    ];

    /// Its name.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::Customer => "particular-customer",
            Self::Vehicle => "particular-vehicle",
            Self::Plate => "particular-plate",
            Self::Vin => "particular-vin",
            Self::Odometer => "particular-odometer",
            Self::Fitter => "particular-fitter",
            Self::KitSerial => "particular-kit-serial",
        })
    }
}

/// How far the times of this job can be trusted.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum ClockTrust {
    /// Every event came after the one before.
    Steady,
    /// The phone's clock went back by at most so many minutes.
    WentBack {
        /// Greatest step back, minutes.
        minutes: i64,
    },
}

/// Whether the tape crosses are on the bumper.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Tape {
    /// Not yet said.
    NotYet,
    /// Said at this time.
    On(DateTime<FixedOffset>),
}

/// Where marks come from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MarksFrom {
    /// One of the plans.
    Plan(PlanKind),
    /// A plan, and then moved by hand.
    Hand,
    /// Where they were on an earlier vehicle of the model.
    Before,
}

impl MarksFrom {
    /// Its name on the screen.
    #[must_use]
    pub fn message(self) -> Message {
        match self {
            Self::Plan(kind) => kind.message(),
            Self::Hand => msg("plan-by-hand"),
            Self::Before => msg("plan-as-before"),
        }
    }
}

/// The marks as planned.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Marks {
    /// Centre line to the left outer edge, as planned with.
    pub half_left: Millimetres,
    /// Centre line to the right outer edge, as planned with.
    pub half_right: Millimetres,
    /// Where they come from.
    pub from: MarksFrom,
    /// Straight offsets, left to right.
    pub offsets: Vec<Offset>,
    /// Whether they are on the bumper.
    pub tape: Tape,
}

/// A reading at a mark with its time of day.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct TakenReading {
    /// As read or typed; nothing is corrected in it.
    pub reading: FaceReading,
    /// When.
    pub at: DateTime<FixedOffset>,
}

/// One place for a head.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Spot {
    /// The head's label from the kit sheet.
    pub label: String,
    /// Readings of its face angle, oldest first.
    pub readings: Vec<TakenReading>,
}

impl Spot {
    /// Whether its face angle was read or typed.
    #[must_use]
    pub fn is_read(&self) -> bool {
        !self.readings.is_empty()
    }
}

/// A job sheet that was issued.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SheetIssue {
    /// 1 for the first.
    pub number: u32,
    /// When.
    pub at: DateTime<FixedOffset>,
    /// Name of the time zone, as the platform gives it.
    pub zone: String,
    /// The job's [`JobState::revision`] that it shows.
    #[serde(default)]
    pub revision: u64,
}

/// A stored job. It changes only through [`super::apply`].
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobState {
    /// Its name in the store.
    pub id: JobId,
    /// What the fitter calls it; empty until typed.
    pub name: String,
    /// When it was started.
    pub created: DateTime<FixedOffset>,
    /// Last event.
    pub changed: DateTime<FixedOffset>,
    /// Changes so far; it only grows, also when a step is taken back.
    #[serde(default)]
    pub revision: u64,
    /// Whether the clock ran steadily.
    pub clock: ClockTrust,
    /// The kit sheet as it was when the job was started.
    pub kit: KitSheet,
    /// Free text particulars.
    pub particulars: Table<Particular, String>,
    /// What stands in a field exactly as typed, also when it can't be used.
    #[serde(with = "typed_fields")]
    pub typed: Table<Field, String>,
    /// Marks, once planned.
    pub marks: Option<Marks>,
    /// Spots, left to right, one a head.
    pub spots: Vec<Spot>,
    /// What the mark-out is asked besides the half widths.
    #[serde(default)]
    pub mark_out: MarkOut,
    /// Tape read back and what was agreed before drilling.
    #[serde(default)]
    pub check: Check,
    /// The phone that reads the faces.
    pub phone: Phone,
    /// How the ground under the vehicle lies.
    pub ground: Ground,
    /// Added to the sheet's least aim for a loaded rear, degrees.
    pub load_allowance: Degrees,
    /// What is behind the bumper.
    #[serde(default)]
    pub behind: BehindState,
    /// Ring sets taken and heads that sit.
    #[serde(default)]
    pub rings: RingsState,
    /// Marks confirmed and holes made.
    #[serde(default)]
    pub holes: HolesState,
    /// Leads and supply.
    #[serde(default)]
    pub loom: LoomState,
    /// Obstacle learn.
    #[serde(default)]
    pub learned: LearnedState,
    /// Parts and prices.
    #[serde(default)]
    pub quote: QuoteState,
    /// Walk test and function check.
    #[serde(default)]
    pub walk: WalkState,
    /// What is said and found about a fault.
    #[serde(default)]
    pub fault: FaultState,
    /// How the angles are measured.
    #[serde(default)]
    pub measuring: Measuring,
    /// Steps of the work.
    #[serde(default)]
    pub steps: StepsState,
    /// Waits, oldest first.
    #[serde(default)]
    pub waits: Vec<Wait>,
    /// Working time.
    #[serde(default)]
    pub spent: TimeSpent,
    /// How it stands with its customer.
    #[serde(default)]
    pub standing: Standing,
    /// Visits after the hand-over, oldest first.
    #[serde(default)]
    pub visits: Vec<Visit>,
    /// Photos, oldest first.
    #[serde(default)]
    pub photos: Vec<Photo>,
    /// What is measured from photos of mark cards.
    #[serde(default)]
    pub card_photos: CardPhotos,
    /// What is behind the vehicle.
    #[serde(default)]
    pub coverage: CoverageState,
    /// What was taken over from earlier jobs of the model.
    #[serde(default)]
    pub before: Before,
    /// Job sheets issued so far.
    pub sheets: Vec<SheetIssue>,
}

impl JobState {
    /// A new job with the kit that will be fitted.
    #[must_use]
    pub fn start(id: JobId, kit: KitSheet, at: DateTime<FixedOffset>) -> Self {
        let spots = kit
            .heads
            .labels
            .iter()
            .map(|label| Spot {
                label: label.clone(),
                readings: Vec::new(),
            })
            .collect();
        Self {
            id,
            name: String::new(),
            created: at,
            changed: at,
            revision: 0,
            clock: ClockTrust::Steady,
            kit,
            particulars: Table::new(),
            typed: Table::new(),
            marks: None,
            spots,
            mark_out: MarkOut::default(),
            check: Check::default(),
            phone: Phone::Unzeroed,
            ground: Ground::looks_level(),
            load_allowance: LOAD_ALLOWANCE,
            behind: BehindState::default(),
            rings: RingsState::default(),
            holes: HolesState::default(),
            loom: LoomState::default(),
            learned: LearnedState::default(),
            quote: QuoteState::default(),
            walk: WalkState::default(),
            fault: FaultState::default(),
            measuring: Measuring::default(),
            steps: StepsState::default(),
            waits: Vec::new(),
            spent: TimeSpent::default(),
            standing: Standing::default(),
            visits: Vec::new(),
            photos: Vec::new(),
            card_photos: CardPhotos::default(),
            coverage: CoverageState::default(),
            before: Before::default(),
            sheets: Vec::new(),
        }
    }

    /// What stands in a field.
    #[must_use]
    pub fn typed(&self, field: Field) -> &str {
        self.typed.get(&field).map_or("", String::as_str)
    }

    /// A particular, empty when not typed.
    #[must_use]
    pub fn particular(&self, which: Particular) -> &str {
        self.particulars.get(&which).map_or("", String::as_str)
    }
}

impl JobState {
    /// The issued job sheet that shows the job as it is; `None` when it was
    /// never issued or changed since.
    #[must_use]
    pub fn issued(&self) -> Option<&SheetIssue> {
        let last = self.sheets.last()?;
        (last.revision == self.revision).then_some(last)
    }

    /// How many spots have a face angle: read, or measured before where this
    /// vehicle agrees.
    #[must_use]
    pub fn read_count(&self) -> usize {
        let known =
            |(at, spot): &(usize, &Spot)| spot.is_read() || measured_before(self, *at).is_some();
        self.spots.iter().enumerate().filter(known).count()
    }

    /// Whether every spot has a face angle.
    #[must_use]
    pub fn all_read(&self) -> bool {
        self.read_count() == self.spots.len()
    }
}

/// Typed fields are stored as pairs: a field may carry a number, which a key
/// of a JSON object cannot.
mod typed_fields {
    use serde::{Deserialize, Deserializer, Serializer};

    use super::{Field, Table};

    pub(super) fn serialize<S: Serializer>(
        typed: &Table<Field, String>,
        to: S,
    ) -> Result<S::Ok, S::Error> {
        to.collect_seq(typed)
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(
        from: D,
    ) -> Result<Table<Field, String>, D::Error> {
        let pairs = Vec::<(Field, String)>::deserialize(from)?;
        Ok(pairs.into_iter().collect())
    }
}
