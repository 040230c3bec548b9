//! The job's own copy of the kit sheet: another kit, and what a quick sheet
//! left open and the work asks for.

use serde::{Deserialize, Serialize};

use super::apply::Refusal;
use super::entry::Field;
use super::loom::{READINGS, lead_plan, leads_of, volts};
use super::marks::holds_the_rules;
use super::state::{JobState, Spot};
use super::{WhichLead, behind, check, holes};
use crate::kit::{Draft, KitSheet, check_typed};
use crate::text::{Message, msg};

/// A field of the sheet that the work asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Asked {
    /// Depth of a head behind the face.
    HeadDepth,
    /// Diameter of the connector.
    ConnectorDiameter,
    /// Length of the connector.
    ConnectorLength,
    /// Room for the bend of the lead.
    Bend,
    /// Length of a head's lead.
    HeadLead,
    /// Length of the display's lead.
    DisplayLead,
    /// Length of the speaker's lead.
    SpeakerLead,
    /// Length of the supply lead.
    SupplyLead,
    /// Current of the whole kit.
    Amperes,
    /// Least supply voltage.
    LeastVolts,
    /// Greatest supply voltage.
    GreatestVolts,
    /// Cycles of the obstacle learn.
    LearnCycles,
    /// Quiet time of the obstacle learn.
    LearnSilent,
    /// Range at which the test pole is seen.
    RatedRange,
    /// Frequency of the heads.
    Frequency,
    /// Beam width across.
    BeamAcross,
    /// Beam width up and down.
    BeamUpright,
    /// How long a head rings.
    Ringing,
}

impl Asked {
    /// Where it stands on the sheet.
    fn path(self) -> &'static str {
        match self {
            Self::HeadDepth => "heads.depth",
            Self::ConnectorDiameter => "heads.connector_diameter",
            Self::ConnectorLength => "heads.connector_length",
            Self::Bend => "heads.bend",
            Self::HeadLead => "leads.head.length",
            Self::DisplayLead => "leads.display.length",
            Self::SpeakerLead => "leads.speaker.length",
            Self::SupplyLead => "leads.supply.length",
            Self::Amperes => "supply.amperes",
            Self::LeastVolts => "supply.least_volts",
            Self::GreatestVolts => "supply.greatest_volts",
            Self::LearnCycles => "obstacle_learn.cycles",
            Self::LearnSilent => "obstacle_learn.silent",
            Self::RatedRange => "sensing.rated_range",
            Self::Frequency => "sensing.frequency_kilohertz",
            Self::BeamAcross => "sensing.beam_across",
            Self::BeamUpright => "sensing.beam_upright",
            Self::Ringing => "sensing.ringing",
        }
    }

    /// Its name.
    #[must_use]
    pub fn name(self) -> Message {
        msg(match self {
            Self::HeadDepth => "kit-field-heads-depth",
            Self::ConnectorDiameter => "kit-field-heads-connector-diameter",
            Self::ConnectorLength => "kit-field-heads-connector-length",
            Self::Bend => "kit-field-heads-bend",
            Self::HeadLead => "kit-field-leads-head-length",
            Self::DisplayLead => "kit-field-leads-display-length",
            Self::SpeakerLead => "kit-field-leads-speaker-length",
            Self::SupplyLead => "kit-field-leads-supply-length",
            Self::Amperes => "kit-field-supply-amperes",
            Self::LeastVolts => "kit-field-supply-least-volts",
            Self::GreatestVolts => "kit-field-supply-greatest-volts",
            Self::LearnCycles => "kit-field-obstacle-learn-cycles",
            Self::LearnSilent => "kit-field-obstacle-learn-silent",
            Self::RatedRange => "kit-field-sensing-rated-range",
            Self::Frequency => "kit-field-sensing-frequency-kilohertz",
            Self::BeamAcross => "kit-field-sensing-beam-across",
            Self::BeamUpright => "kit-field-sensing-beam-upright",
            Self::Ringing => "kit-field-sensing-ringing",
        })
    }

    /// The unit that it is typed in.
    #[must_use]
    pub fn unit(self) -> Message {
        msg(match self {
            Self::Amperes => "kit-unit-a",
            Self::LeastVolts | Self::GreatestVolts => "kit-unit-v",
            Self::Frequency => "kit-unit-khz",
            Self::BeamAcross | Self::BeamUpright => "in-degrees",
            Self::Ringing => "kit-unit-ms",
            Self::LearnCycles => "learn-asked-times",
            Self::LearnSilent => "learn-asked-milliseconds",
            _ => "in-mm",
        })
    }

    fn given(self, kit: &KitSheet) -> bool {
        !Draft::of(kit).typed(self.path()).is_empty()
    }
}

/// What the drill gate asks of the sheet.
#[must_use]
pub fn asked_for_holes(job: &JobState) -> Vec<Asked> {
    let wanted = [
        Asked::HeadDepth,
        Asked::ConnectorDiameter,
        Asked::ConnectorLength,
        Asked::Bend,
    ];
    wanted
        .into_iter()
        .filter(|asked| !asked.given(&job.kit))
        .collect()
}

/// What the obstacle learn asks of the sheet.
#[must_use]
pub fn asked_for_learn(job: &JobState) -> Vec<Asked> {
    let wanted = [Asked::LearnCycles, Asked::LearnSilent];
    let open = |asked: &Asked| !asked.given(&job.kit);
    wanted.into_iter().filter(open).collect()
}

/// What the prediction of what the heads see asks of the sheet; typical
/// values stand in until it is typed.
#[must_use]
pub fn asked_for_coverage(job: &JobState) -> Vec<Asked> {
    let wanted = [
        Asked::RatedRange,
        Asked::Frequency,
        Asked::BeamAcross,
        Asked::BeamUpright,
        Asked::Ringing,
    ];
    wanted
        .into_iter()
        .filter(|asked| !asked.given(&job.kit))
        .collect()
}

/// What the typed routes ask of the sheet.
#[must_use]
pub fn asked_for_leads(job: &JobState) -> Vec<Asked> {
    let mut all: Vec<Asked> = leads_of(job)
        .into_iter()
        .filter(|which| lead_plan(job, *which).is_some())
        .map(|which| match which {
            WhichLead::Spot(_) => Asked::HeadLead,
            WhichLead::Display => Asked::DisplayLead,
            WhichLead::Speaker => Asked::SpeakerLead,
            WhichLead::Supply => Asked::SupplyLead,
        })
        .filter(|asked| !asked.given(&job.kit))
        .collect();
    all.dedup();
    all
}

/// What the supply's readings and its route ask of the sheet: without it
/// nothing is said of what arrives, and whether the kit takes it.
#[must_use]
pub fn asked_for_supply(job: &JobState) -> Vec<Asked> {
    let wanted = [Asked::Amperes, Asked::LeastVolts, Asked::GreatestVolts];
    let begun = READINGS.into_iter().any(|r| volts(job, r).is_some())
        || lead_plan(job, WhichLead::Supply).is_some();
    wanted
        .into_iter()
        .filter(|asked| begun && !asked.given(&job.kit))
        .collect()
}

/// What is wrong with what is typed for an asked field; `None` when it fits
/// or is empty.
#[must_use]
pub fn asked_trouble(job: &JobState, asked: Asked) -> Option<Message> {
    check_typed(asked.path(), job.typed(Field::Asked(asked)))
}

/// Puts what is typed for the asked fields on the job's sheet.
pub(super) fn filled(next: &mut JobState, asked: &[Asked]) -> Result<(), Refusal> {
    let mut draft = Draft::of(&next.kit);
    for asked in asked {
        let typed = next.typed(Field::Asked(*asked)).to_owned();
        if typed.trim().is_empty() {
            continue;
        }
        if let Some(why) = check_typed(asked.path(), &typed) {
            return Err(Refusal(why));
        }
        draft.set(asked.path(), &typed);
    }
    next.kit = draft.sheet().map_err(|faults| {
        let first = faults.first().map(crate::kit::SheetFault::message);
        Refusal(first.unwrap_or_else(|| msg("kit-none")))
    })?;
    for asked in asked {
        next.typed.remove(&Field::Asked(*asked));
    }
    Ok(())
}

/// Another kit on the same bumper. With as many heads and the marks inside
/// its limits, marks and readings stay; else they go. Sets taken by hand go.
pub(super) fn chosen(next: &mut JobState, kit: KitSheet) -> Result<(), Refusal> {
    holes::nothing_drilled(next)?;
    let same_heads = kit.head_count() == next.spots.len();
    let before = std::mem::take(&mut next.spots);
    let readings = before.into_iter().map(|spot| spot.readings);
    let readings = readings.chain(std::iter::repeat_with(Vec::new));
    next.spots = kit
        .heads
        .labels
        .iter()
        .zip(readings)
        .map(|(label, readings)| Spot {
            label: label.clone(),
            readings,
        })
        .collect();
    next.kit = kit;
    next.rings.by_hand.clear();
    next.rings.sat_with.clear();
    let Some(marks) = next.marks.take() else {
        return Ok(());
    };
    let fits = same_heads
        && holds_the_rules(next, marks.half_left, marks.half_right, &marks.offsets).is_ok();
    if fits {
        next.marks = Some(marks);
        return Ok(());
    }
    for spot in &mut next.spots {
        spot.readings.clear();
    }
    for index in 0..=u8::MAX {
        behind::void_spot(next, index);
    }
    next.mark_out.locked.clear();
    let all: Vec<usize> = (0..=usize::from(u8::MAX)).collect();
    check::void(&mut next.check, &all);
    Ok(())
}
