//! Leads and supply of a job: typed routes and readings, judged; answers
//! about lamp circuit and fuse.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::apply::Refusal;
use super::entry::{Field, WhichLead, read_length};
use super::state::JobState;
use super::typed_unit::{AMPERES, VOLTS, typed_figure};
use crate::decide::leads::{self, DEFAULT_SLACK, LeadKit, LeadOf, LeadPlan, Route, RouteRule};
use crate::decide::supply::{
    self, Amperes, Celsius, CrossSection, FuseAnswer, Judged, LampCircuit, Reading, System, Volts,
};
use crate::kit::OutputKind;
use crate::order;
use crate::text::{Message, msg};
use crate::units::Millimetres;

/// A lead in the engine or boot room on a hot day, °C: voltage drop is
/// judged at it (our own figure).
pub const WARM_LEAD: Celsius = Celsius(60.0);

/// What was answered about leads and supply.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct LoomState {
    /// Rules of the route that were checked.
    pub rules: Vec<RouteRule>,
    /// When the supply's cautions were heeded, 'All of this is so'.
    pub cautions: Option<DateTime<FixedOffset>>,
    /// The vehicle's supply.
    pub system: System,
    /// How the reversing lamp is fed.
    pub lamp: Option<LampCircuit>,
    /// The supply lead's cross-section.
    pub cross_section: CrossSection,
    /// The fuse at the take-off.
    pub fuse: Option<FuseAnswer>,
    /// Which leads of the kit are laid.
    pub lead_kit: LeadKit,
}

impl Default for LoomState {
    fn default() -> Self {
        Self {
            rules: Vec::new(),
            cautions: None,
            system: System::Twelve,
            lamp: None,
            cross_section: CrossSection::Mm2_0_75,
            fuse: None,
            lead_kit: LeadKit::AsNeeded,
        }
    }
}

/// Something that was answered about leads and supply.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum LoomEvent {
    /// All rules of the route are kept.
    RulesKept,
    /// The supply's cautions were heeded, all of them.
    CautionsHeeded,
    /// 12 or 24 V.
    SystemChosen(System),
    /// How the reversing lamp is fed.
    LampFound(LampCircuit),
    /// Which lead brings the supply.
    CrossSectionChosen(CrossSection),
    /// The fuse of the typed rating is fitted at the take-off.
    FuseFitted,
    /// The fuse is not fitted.
    FuseNotFitted,
    /// Which leads of the kit are laid.
    LeadKitChosen(LeadKit),
}

pub(super) fn apply(
    next: &mut JobState,
    event: LoomEvent,
    at: DateTime<FixedOffset>,
) -> Result<(), Refusal> {
    match event {
        LoomEvent::RulesKept => next.loom.rules = RouteRule::ALL.to_vec(),
        LoomEvent::CautionsHeeded => next.loom.cautions = Some(at),
        LoomEvent::SystemChosen(system) => next.loom.system = system,
        LoomEvent::LampFound(lamp) => next.loom.lamp = Some(lamp),
        LoomEvent::CrossSectionChosen(section) => next.loom.cross_section = section,
        LoomEvent::LeadKitChosen(kit) => next.loom.lead_kit = kit,
        LoomEvent::FuseNotFitted => next.loom.fuse = Some(FuseAnswer::NotFitted),
        LoomEvent::FuseFitted => {
            let rating = fuse_typed(next).map_err(Refusal)?;
            let answer = FuseAnswer::FittedAtTakeOff(rating);
            if let Some(why) = supply::fuse_missing(&next.kit, answer) {
                return Err(Refusal(why));
            }
            next.loom.fuse = Some(answer);
        }
    }
    Ok(())
}

/// The fuse's rating as typed, else what belongs there.
///
/// # Errors
/// What stands there instead of a rating.
pub fn fuse_typed(job: &JobState) -> Result<Amperes, Message> {
    let typed = job.typed(Field::FuseAmperes).trim();
    if typed.is_empty() {
        return Ok(supply::fuse(&job.kit).rating);
    }
    typed_figure(typed, &AMPERES)
        .filter(|value| *value > 0.0)
        .map(Amperes)
        .ok_or_else(|| msg("entry-not-amperes").text("typed", typed))
}

/// The leads that this job's kit has: one a head, then those of what tells
/// the driver, and the supply's.
#[must_use]
pub fn leads_of(job: &JobState) -> Vec<WhichLead> {
    let mut all: Vec<WhichLead> = (0_u8..)
        .zip(&job.spots)
        .map(|(spot, _)| WhichLead::Spot(spot))
        .collect();
    let leads = job.kit.leads.as_ref();
    let output = job.kit.output.as_ref().map(|output| output.kind);
    let display = leads.is_some_and(|leads| leads.display.is_some())
        || matches!(output, Some(OutputKind::Display | OutputKind::Both));
    let speaker = leads.is_some_and(|leads| leads.speaker.is_some())
        || matches!(output, Some(OutputKind::Speaker | OutputKind::Both));
    all.extend(display.then_some(WhichLead::Display));
    all.extend(speaker.then_some(WhichLead::Speaker));
    all.push(WhichLead::Supply);
    all
}

fn of(job: &JobState, which: WhichLead) -> LeadOf {
    match which {
        WhichLead::Spot(spot) => LeadOf::Head(
            job.spots
                .get(usize::from(spot))
                .map_or_else(String::new, |place| place.label.clone()),
        ),
        WhichLead::Display => LeadOf::Display,
        WhichLead::Speaker => LeadOf::Speaker,
        WhichLead::Supply => LeadOf::Supply,
    }
}

/// Its name.
#[must_use]
pub fn lead_name(job: &JobState, which: WhichLead) -> Message {
    of(job, which).message()
}

/// What the typed route of a lead comes to; `None` until it is typed.
#[must_use]
pub fn lead_plan(job: &JobState, which: WhichLead) -> Option<Result<LeadPlan, Message>> {
    let given = |field| Some(job.typed(field)).filter(|text| !text.trim().is_empty());
    let own = given(Field::Route(which))?;
    let route = || -> Result<Route, Message> {
        let mut stretches = vec![read_length(own)?];
        if matches!(which, WhichLead::Spot(_)) {
            let common = given(Field::GrommetToBox).ok_or_else(|| msg("loom-grommet-missing"))?;
            stretches.push(read_length(common)?);
        }
        let straight = given(Field::Straight(which)).map(read_length).transpose()?;
        let slack = match (which, given(Field::Slack)) {
            (WhichLead::Spot(_), Some(typed)) => read_length(typed)?,
            (WhichLead::Spot(_), None) => DEFAULT_SLACK,
            _ => Millimetres(0.0),
        };
        Ok(Route {
            of: of(job, which),
            stretches,
            straight,
            slack,
            kit: job.loom.lead_kit,
        })
    };
    Some(route().and_then(|route| leads::plan(&job.kit, &route).map_err(|fault| fault.message())))
}

/// The leads that reach, as far as their routes are typed.
#[must_use]
pub fn lead_plans(job: &JobState) -> Vec<LeadPlan> {
    leads_of(job)
        .into_iter()
        .filter_map(|which| lead_plan(job, which)?.ok())
        .collect()
}

/// The readings in the order of work.
pub const READINGS: [Reading; 3] = [Reading::ReverseOn, Reading::ReverseOff, Reading::EarthDrop];

/// A reading as typed and judged; `None` until it is typed.
#[derive(Clone, Debug, PartialEq)]
pub enum ReadVolts {
    /// No figure.
    NotAFigure(Message),
    /// Judged.
    Judged(Volts, Judged),
}

impl ReadVolts {
    /// What is wrong with it; `None` when it is fine.
    #[must_use]
    pub fn trouble(&self, reading: Reading) -> Option<Message> {
        match self {
            Self::NotAFigure(why) => Some(why.clone()),
            Self::Judged(_, judged) => judged.message(reading),
        }
    }
}

/// A reading as typed.
#[must_use]
pub fn volts(job: &JobState, reading: Reading) -> Option<ReadVolts> {
    let typed = job.typed(Field::Volts(reading)).trim();
    if typed.is_empty() {
        return None;
    }
    Some(match typed_figure(typed, &VOLTS) {
        None => ReadVolts::NotAFigure(msg("entry-not-volts").text("typed", typed)),
        Some(value) => {
            let volts = Volts(value);
            ReadVolts::Judged(volts, supply::judge(job.loom.system, reading, volts))
        }
    })
}

/// What is wrong with a reading as typed, by itself or for this kit; `None`
/// where it is fine or not typed.
#[must_use]
pub fn volts_trouble(job: &JobState, reading: Reading) -> Option<Message> {
    let read = volts(job, reading)?;
    read.trouble(reading).or_else(|| match (reading, read) {
        (Reading::ReverseOn, ReadVolts::Judged(on, _)) => supply::too_high_for_kit(&job.kit, on),
        _ => None,
    })
}

/// Volts lost in the supply lead and, if too few arrive, what to do. `None`
/// until route and current are known.
#[must_use]
pub fn supply_drop(job: &JobState) -> Option<(Message, Option<Message>)> {
    let current = Amperes(job.kit.supply.as_ref().and_then(|supply| supply.amperes)?);
    let (Some(Ok(lead)), Some(ReadVolts::Judged(on, Judged::Fine))) = (
        lead_plan(job, WhichLead::Supply),
        volts(job, Reading::ReverseOn),
    ) else {
        return None;
    };
    let section = job.loom.cross_section;
    // What is left over is coiled, never cut: the current runs through it too.
    let laid = lead.needs + lead.left_over;
    let drop = supply::voltage_drop(section, laid * 2.0, current, WARM_LEAD);
    let said = msg("loom-drop")
        .number("drop", drop.0, 2)
        .number("arrives", on.0 - drop.0, 1)
        .number("celsius", WARM_LEAD.0, 0);
    Some((said, supply::arrives_too_low(&job.kit, on, drop)))
}

/// Everything about leads and supply that is not as it should be, in the
/// order of the screen; what was not typed or answered is not in it.
#[must_use]
pub fn loom_troubles(job: &JobState) -> Vec<Message> {
    let mut all: Vec<Message> = leads_of(job)
        .into_iter()
        .filter_map(|which| lead_plan(job, which)?.err())
        .collect();
    all.extend(
        READINGS
            .into_iter()
            .filter_map(|reading| volts_trouble(job, reading)),
    );
    all.extend(supply::kit_not_for(&job.kit, job.loom.system));
    let fuse = job.loom.fuse;
    all.extend(fuse.and_then(|answer| supply::fuse_missing(&job.kit, answer)));
    if let Some((_, Some(low))) = supply_drop(job) {
        all.push(low);
    }
    all
}

/// What of leads and supply is still open, in words.
#[must_use]
pub fn loom_open(job: &JobState) -> Vec<Message> {
    let mut untyped: Vec<WhichLead> = leads_of(job)
        .into_iter()
        .filter(|which| lead_plan(job, *which).is_none())
        .collect();
    order::sort_by_key(&mut untyped, |which| *which);
    untyped.dedup();
    let mut all = Vec::new();
    if !untyped.is_empty() {
        let names = untyped.iter().map(|which| lead_name(job, *which)).collect();
        all.push(msg("loom-open-leads").list("leads", names));
    }
    if job.loom.cautions.is_none() {
        all.push(msg("loom-open-cautions"));
    }
    if READINGS.into_iter().any(|r| volts(job, r).is_none()) {
        all.push(msg("loom-open-readings"));
    }
    if matches!(job.loom.lamp, None | Some(LampCircuit::NotKnown)) {
        all.push(msg("loom-open-lamp"));
    }
    if !fuse_fitted(job) {
        all.push(msg("loom-open-fuse"));
    }
    if job.loom.rules.len() < RouteRule::ALL.len() {
        all.push(msg("loom-open-rules"));
    }
    all
}

/// Whether a fuse that suits this job's kit sits at the take-off.
#[must_use]
pub fn fuse_fitted(job: &JobState) -> bool {
    match job.loom.fuse {
        Some(answer @ FuseAnswer::FittedAtTakeOff(_)) => {
            supply::fuse_missing(&job.kit, answer).is_none()
        }
        Some(FuseAnswer::NotFitted) | None => false,
    }
}

/// Whether every lead is measured and reaches.
#[must_use]
pub fn leads_reach(job: &JobState) -> bool {
    leads_of(job)
        .into_iter()
        .all(|which| matches!(lead_plan(job, which), Some(Ok(_))))
}

/// The first line of the screen.
#[must_use]
pub fn loom_headline(job: &JobState) -> Message {
    let troubles = loom_troubles(job);
    let open = loom_open(job);
    if !troubles.is_empty() {
        msg("loom-headline-trouble").count(
            "troubles",
            i64::try_from(troubles.len()).unwrap_or(i64::MAX),
        )
    } else if open.is_empty() {
        msg("loom-headline-done")
    } else {
        msg("loom-headline-open")
    }
}
