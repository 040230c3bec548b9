//! The path of a job: every step that applies, with what is done, due or
//! blocked.

use super::behind::look;
use super::check::tape_checked;
use super::holes::hole;
use super::ignores::learn_done;
use super::job_photos::{PhotoOf, heads_without_photo, photos_of};
use super::learned::{ShiftTried, shift_tried};
use super::loom::{fuse_fitted, leads_reach, loom_open, loom_troubles};
use super::quote::unpriced;
use super::rings::ring_choices;
use super::rings_chosen::sets_taken;
use super::state::{JobState, Tape};
use super::steps_done::{Ended, HowEnded, PAINT, SUPPLY, ZONE_SHIFT};
use super::waits::{Wait, waits_at};
use super::walk::WalkTest;
use crate::decide::leads::RouteRule;
use crate::decide::look_behind::Behind;
use crate::decide::ring_set::Blocked;
use crate::kit::{Material, OutputKind};
use crate::steps::{
    Answers, Applies, Asks, Question, Screen, Stage, StepBook, StepName, StepSheet, Truth, Weight,
};
use crate::text::{Message, msg};

/// How a step stands.
#[derive(Clone, Debug, PartialEq)]
pub enum StepStands {
    /// To be done.
    Due,
    /// Something has to come first.
    Blocked(Message),
    /// Done, or closed as usual; the job itself may know it.
    Done,
    /// Skipped, and why.
    Skipped(String),
}

/// A step of this job.
#[derive(Clone, Debug, PartialEq)]
pub struct StepView<'a> {
    /// From the book.
    pub sheet: &'a StepSheet,
    /// How it stands.
    pub stands: StepStands,
    /// What is still missing of what is to be recorded.
    pub missing: Vec<Message>,
    /// The wait that runs at a step which has to come first.
    pub held_by: Option<Wait>,
}

/// A stage of this job.
#[derive(Clone, Debug, PartialEq)]
pub struct StageView<'a> {
    /// Which one.
    pub stage: Stage,
    /// Its steps that apply.
    pub steps: Vec<StepView<'a>>,
}

impl StageView<'_> {
    /// How many of its steps are neither done nor skipped.
    #[must_use]
    pub fn open(&self) -> usize {
        let ended =
            |step: &&StepView| matches!(step.stands, StepStands::Done | StepStands::Skipped(_));
        self.steps.len() - self.steps.iter().filter(ended).count()
    }

    /// Steps that 'Done as usual' closes: open, without a gate or a value.
    #[must_use]
    pub fn as_usual(&self) -> Vec<StepName> {
        self.steps
            .iter()
            .filter(|step| step.stands == StepStands::Due && closes_as_usual(step.sheet))
            .map(|step| step.sheet.name.clone())
            .collect()
    }
}

fn closes_as_usual(sheet: &StepSheet) -> bool {
    sheet.weight == Weight::Plain && sheet.screen.is_none() && sheet.wait().is_none()
}

impl Stage {
    /// Its name on the screen.
    #[must_use]
    pub fn message(self) -> Message {
        msg(match self {
            Self::Survey => "stage-survey",
            Self::Box => "stage-box",
            Self::Behind => "stage-behind",
            Self::Marks => "stage-marks",
            Self::Faces => "stage-faces",
            Self::Rings => "stage-rings",
            Self::Check => "stage-check",
            Self::Paint => "stage-paint",
            Self::Holes => "stage-holes",
            Self::Loom => "stage-loom",
            Self::Warn => "stage-warn",
            Self::Prove => "stage-prove",
            Self::HandOver => "stage-hand-over",
        })
    }
}

impl Answers for JobState {
    fn answer(&self, question: Question) -> Option<Truth> {
        self.steps.answers.get(&question).copied()
    }

    fn fact(&self, applies: Applies) -> Truth {
        let output = self.kit.output.as_ref().map(|output| output.kind);
        let so = match applies {
            Applies::MetalBumper => self.behind.material == Material::Metal,
            Applies::Display => matches!(output, Some(OutputKind::Display | OutputKind::Both)),
            // A kit that says nothing sounds from a speaker.
            Applies::Speaker => !matches!(output, Some(OutputKind::Display)),
            Applies::Learns => self.kit.obstacle_learn.is_some(),
            Applies::Shifts => {
                (self.kit.control_box.as_ref()).is_some_and(|control| control.zone_shift.is_some())
            }
            Applies::When(_) | Applies::Unless(_) => false,
        };
        if so { Truth::Yes } else { Truth::No }
    }
}

/// Whether a screen's work is done, as the job itself knows it.
#[must_use]
pub fn done_on_screen(job: &JobState, screen: Screen) -> bool {
    let tape = job.marks.as_ref().map(|marks| marks.tape);
    match screen {
        Screen::Quote => unpriced(job) == 0,
        Screen::Behind => {
            let looked = look(job);
            let clear = |label: &String| looked.behind(label) == Some(&Behind::SeenAndClear);
            job.spots.iter().all(|spot| clear(&spot.label))
        }
        Screen::Marks => job.marks.is_some(),
        Screen::Tape => matches!(tape, Some(Tape::On(_))),
        Screen::Faces => job.all_read(),
        Screen::Rings => job.all_read() && sets_taken(job).iter().all(Option::is_some),
        Screen::TapeCheck => tape_checked(job).is_some(),
        Screen::Agreement => job.check.agreed.is_some(),
        Screen::Holes => (0..job.spots.len()).all(|spot| hole(job, spot).is_made()),
        Screen::Leads => job.loom.rules.len() == RouteRule::ALL.len() && leads_reach(job),
        Screen::Supply => {
            job.loom.cautions.is_some()
                && fuse_fitted(job)
                && loom_open(job).is_empty()
                && loom_troubles(job).is_empty()
        }
        Screen::Learn => learn_done(job),
        Screen::Walk => {
            job.walk.test.as_ref().is_some_and(WalkTest::is_whole)
                && job.walk.heads.len() == job.spots.len()
        }
        Screen::HeadPhotos => heads_without_photo(job).is_empty(),
        Screen::Sheet => !job.sheets.is_empty(),
    }
}

/// Whether a step's work was done and recorded on a screen of its own.
fn done_elsewhere(job: &JobState, sheet: &StepSheet) -> bool {
    let on_screen = |screen| done_on_screen(job, screen);
    sheet.screen.is_some_and(on_screen) || shift_answered(job, sheet)
}

/// Whether it is the step of the zone shift and the answer was given before
/// the obstacle learn: nothing is asked twice.
fn shift_answered(job: &JobState, sheet: &StepSheet) -> bool {
    let tried = [ShiftTried::Enough, ShiftTried::NotEnough];
    sheet.name.0 == ZONE_SHIFT && shift_tried(job).is_some_and(|came| tried.contains(&came))
}

fn missing(job: &JobState, sheet: &StepSheet) -> Vec<Message> {
    if shift_answered(job, sheet) {
        return Vec::new();
    }
    let photos = photos_of(job, &PhotoOf::Step(sheet.name.clone())).count();
    let written = job.steps.words.contains_key(&sheet.name);
    let wanted = sheet.asks.iter().filter_map(|asks| match asks {
        Asks::Photo | Asks::Before | Asks::After if photos == 0 => Some(msg("step-wants-photo")),
        Asks::Words if !written => Some(msg("step-wants-words")),
        _ => None,
    });
    wanted.collect()
}

fn stands(job: &JobState, book: &StepBook, sheet: &StepSheet) -> StepStands {
    // What was skipped first and done later on its screen is done.
    if done_elsewhere(job, sheet) {
        return StepStands::Done;
    }
    if let Some(Ended { how, .. }) = job.steps.ended.get(&sheet.name) {
        return match how {
            HowEnded::Done | HowEnded::AsUsual => StepStands::Done,
            HowEnded::Skipped(why) => StepStands::Skipped(why.clone()),
        };
    }
    let first = sheet.after.iter().find_map(|name| {
        let (_, before) = book.step(name)?;
        let open = applies(job, before) && !has_ended(job, before);
        open.then(|| msg("step-after").message("first", before.what()))
    });
    let first = first.or_else(|| paint_waits(job).filter(|_| sheet.name.0 == PAINT));
    let waiting = waits_at(job, &sheet.name).next().is_some();
    match first {
        Some(first) if !waiting => StepStands::Blocked(first),
        _ => StepStands::Due,
    }
}

/// Why nothing is painted yet: the ring is painted with its head, and at
/// these heads it is not known or not settled. A set taken by hand is.
#[must_use]
pub fn paint_waits(job: &JobState) -> Option<Message> {
    let choices = ring_choices(job);
    let waits = |spot: &u8| {
        let choice = choices.get(usize::from(*spot)).and_then(Option::as_ref);
        !job.rings.by_hand.contains_key(spot)
            && choice.is_none_or(|choice| choice.blocks(Blocked::Paint))
    };
    let labels: Vec<&str> = (0_u8..)
        .zip(&job.spots)
        .filter(|(spot, _)| waits(spot))
        .map(|(_, place)| place.label.as_str())
        .collect();
    (!labels.is_empty()).then(|| msg("paint-waits").text("labels", labels.join(", ")))
}

/// What to know before painting, where the heads are or may be painted;
/// `None` where all rings are settled.
#[must_use]
pub fn paint_warning(job: &JobState) -> Option<Message> {
    match job.answer(Question::Painted) {
        Some(Truth::No) => None,
        Some(Truth::Yes) => paint_waits(job),
        None => paint_waits(job).filter(|_| job.all_read()),
    }
}

/// The wait that runs at a step which has to come first.
fn running_before(job: &JobState, sheet: &StepSheet) -> Option<Wait> {
    let mut first = sheet.after.iter();
    first.find_map(|name| waits_at(job, name).next().cloned())
}

fn has_ended(job: &JobState, sheet: &StepSheet) -> bool {
    job.steps.ended.contains_key(&sheet.name) || done_elsewhere(job, sheet)
}

fn applies(job: &JobState, sheet: &StepSheet) -> bool {
    sheet.applies.iter().all(|applies| applies.holds(job))
}

/// The path of a job by the book: stages in order, each with the steps that
/// apply to this job. A gate that is due blocks what follows in its stage.
#[must_use]
pub fn step_path<'a>(job: &JobState, book: &'a StepBook) -> Vec<StageView<'a>> {
    let views = book.stages.iter().map(|stage| {
        let mut gate: Option<Message> = None;
        let mut steps = Vec::new();
        for sheet in stage.steps.iter().filter(|sheet| applies(job, sheet)) {
            let mut stands = stands(job, book, sheet);
            if let (StepStands::Due, Some(first)) = (&stands, &gate) {
                stands = StepStands::Blocked(msg("step-after").message("first", first.clone()));
            }
            if sheet.weight == Weight::Gate && !matches!(stands, StepStands::Done) {
                gate.get_or_insert_with(|| sheet.what());
            }
            let held_by = match stands {
                StepStands::Blocked(_) => running_before(job, sheet),
                _ => None,
            };
            steps.push(StepView {
                sheet,
                stands,
                missing: missing(job, sheet),
                held_by,
            });
        }
        StageView {
            stage: stage.stage,
            steps,
        }
    });
    views.filter(|stage| !stage.steps.is_empty()).collect()
}

/// Whether a step may be skipped with a reason.
///
/// # Errors
/// Why not.
pub fn may_skip(job: &JobState, sheet: &StepSheet) -> Result<(), Message> {
    if sheet.name.0 == SUPPLY && !fuse_fitted(job) {
        return Err(msg("step-fuse-not-skipped"));
    }
    match sheet.weight {
        Weight::Gate => Err(msg("step-gate-not-skipped")),
        Weight::Plain | Weight::Value => Ok(()),
    }
}

/// What was not done and why, for the job sheet: skipped steps with their
/// reason, then steps that are simply open.
#[must_use]
pub fn not_done(job: &JobState, book: &StepBook) -> Vec<Message> {
    let path = step_path(job, book);
    let (mut lines, mut open) = (Vec::new(), Vec::new());
    for step in path.iter().flat_map(|stage| &stage.steps) {
        match &step.stands {
            StepStands::Done => {}
            StepStands::Skipped(why) => lines.push(
                msg("step-skipped-line")
                    .message("step", step.sheet.what())
                    .text("why", why.clone()),
            ),
            StepStands::Due | StepStands::Blocked(_) => open.push(step.sheet.what()),
        }
    }
    if !open.is_empty() {
        lines.push(msg("step-open-line").list("steps", open));
    }
    lines
}
