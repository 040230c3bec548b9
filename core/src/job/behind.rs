//! What the job knows of what is behind the bumper: answers for the whole
//! bumper with exceptions for spots, depths, panel.
//!
//! Answers are events; depth and panel are typed fields that count as soon
//! as a length stands there. An exception belongs to its mark: where the
//! mark moves, what opens the drill is void, and what keeps it shut stays
//! until it is looked again.

use serde::{Deserialize, Serialize};

use super::apply::Refusal;
use super::entry::{Field, Whose, read_length};
use super::photos::{self, BehindPhoto};
use super::state::JobState;
use crate::decide::drill::GREATEST_DEPTH;
use crate::decide::look_behind::{Behind, LookBehind, Looked};
use crate::kit::Material;
use crate::table::Table;
use crate::text::{Message, msg};
use crate::units::Millimetres;

/// Thickest panel that a bumper has, mm (our own figure).
pub const PANEL_GREATEST: Millimetres = Millimetres(15.0);

/// What was answered for the bumper or one spot.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Answer {
    /// What is behind it.
    pub behind: Option<Behind>,
}

/// What the job knows of what is behind.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct BehindState {
    /// What the panel is made of.
    pub material: Material,
    /// The answer for all spots without one of their own.
    pub bumper: Answer,
    /// Exceptions by spot, 0 for the leftmost.
    pub spots: Table<u8, Answer>,
    /// Photos, oldest first.
    pub photos: Vec<BehindPhoto>,
}

impl Default for BehindState {
    fn default() -> Self {
        Self {
            material: Material::Plastic,
            bumper: Answer::default(),
            spots: Table::new(),
            photos: Vec::new(),
        }
    }
}

/// What was found out about the bumper from behind.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum BehindEvent {
    /// What the panel is made of was said.
    MaterialChosen(Material),
    /// It was answered what is behind.
    Seen(Whose, Behind),
    /// A spot's own answer was taken back: the bumper's holds again.
    ExceptionDropped(u8),
    /// A photo was kept.
    PhotoKept(BehindPhoto),
    /// A photo was taken out, by the key of its picture.
    PhotoDropped(String),
}

pub(super) fn apply(next: &mut JobState, event: BehindEvent) -> Result<(), Refusal> {
    match event {
        BehindEvent::MaterialChosen(material) => {
            super::holes::nothing_drilled(next)?;
            next.behind.material = material;
        }
        BehindEvent::Seen(whose, behind) => answer(next, whose)?.behind = Some(behind),
        BehindEvent::ExceptionDropped(spot) => {
            next.behind.spots.remove(&spot);
            forget_typed(next, spot);
        }
        BehindEvent::PhotoKept(photo) => photos::keep(next, photo)?,
        BehindEvent::PhotoDropped(blob) => next.behind.photos.retain(|photo| photo.blob != blob),
    }
    Ok(())
}

fn answer(next: &mut JobState, whose: Whose) -> Result<&mut Answer, Refusal> {
    match whose {
        Whose::Bumper => Ok(&mut next.behind.bumper),
        Whose::Spot(spot) if usize::from(spot) < next.spots.len() => {
            Ok(next.behind.spots.or_default(spot))
        }
        Whose::Spot(_) => Err(Refusal(msg("refused-no-spot"))),
    }
}

/// What was found behind a mark belongs to it: where the mark moved, 'clear'
/// and a measured depth are void. What kept the drill shut stays until it is
/// looked again, an obstacle with its photos; a depth less than the bumper's
/// leaves 'could not see'. So the bumper's 'clear' never covers a bad find.
pub(super) fn void_spot(next: &mut JobState, spot: u8) {
    let found = next.behind.spots.get(&spot).and_then(|a| a.behind.clone());
    match found {
        Some(Behind::SomethingThere(_)) => return forget_typed(next, spot),
        Some(Behind::CouldNotSee) => {}
        Some(Behind::SeenAndClear) | None if less_deep(next, spot) => {
            next.behind.spots.or_default(spot).behind = Some(Behind::CouldNotSee);
        }
        Some(Behind::SeenAndClear) | None => {
            next.behind.spots.remove(&spot);
        }
    }
    let here = |photo: &BehindPhoto| photo.whose == Whose::Spot(spot);
    next.behind.photos.retain(|photo| !here(photo));
    forget_typed(next, spot);
}

/// Whether a spot's own depth is less than the bumper's.
fn less_deep(job: &JobState, spot: u8) -> bool {
    let depth = |whose| typed_depth(job, whose).and_then(Result::ok);
    match (depth(Whose::Spot(spot)), depth(Whose::Bumper)) {
        (Some(own), Some(bumper)) => own < bumper,
        _ => false,
    }
}

fn forget_typed(next: &mut JobState, spot: u8) {
    let whose = Whose::Spot(spot);
    next.typed.remove(&Field::Depth(whose));
    next.typed.remove(&Field::Panel(whose));
}

/// A typed length that counts; what is wrong with one that does not. `None`
/// where nothing stands.
fn length_up_to(
    job: &JobState,
    field: Field,
    greatest: Millimetres,
) -> Option<Result<Millimetres, Message>> {
    let typed = job.typed(field);
    if typed.trim().is_empty() {
        return None;
    }
    Some(read_length(typed).and_then(|length| {
        if length.0 > 0.0 && length <= greatest {
            Ok(length)
        } else {
            Err(msg("entry-length-outside")
                .number("typed", length.0, 1)
                .mm("greatest", greatest.0))
        }
    }))
}

/// The free depth as typed for the bumper or one spot.
#[must_use]
pub fn typed_depth(job: &JobState, whose: Whose) -> Option<Result<Millimetres, Message>> {
    length_up_to(job, Field::Depth(whose), GREATEST_DEPTH)
}

/// The panel's thickness as typed for the bumper or one spot.
#[must_use]
pub fn typed_panel(job: &JobState, whose: Whose) -> Option<Result<Millimetres, Message>> {
    length_up_to(job, Field::Panel(whose), PANEL_GREATEST)
}

/// Everything seen and measured behind, as the drill gate takes it; areas to
/// keep clear of are with the mark-out. A figure typed wrong counts as not
/// measured.
#[must_use]
pub fn look(job: &JobState) -> LookBehind {
    let looked = |whose: Whose, answer: Option<&Answer>| Looked {
        behind: answer.and_then(|a| a.behind.clone()),
        depth: typed_depth(job, whose).and_then(Result::ok),
        panel: typed_panel(job, whose).and_then(Result::ok),
    };
    let exceptions = (0_u8..)
        .zip(&job.spots)
        .map(|(index, spot)| {
            let own = job.behind.spots.get(&index);
            (spot.label.clone(), looked(Whose::Spot(index), own))
        })
        .filter(|(_, looked)| *looked != Looked::default())
        .collect();
    LookBehind {
        bumper: looked(Whose::Bumper, Some(&job.behind.bumper)),
        exceptions,
        no_drill: Vec::new(),
    }
}

/// An answer in words.
#[must_use]
pub fn behind_words(behind: Option<&Behind>) -> Message {
    match behind {
        None => msg("behind-not-looked"),
        Some(Behind::SeenAndClear) => msg("behind-seen-and-clear"),
        Some(Behind::CouldNotSee) => msg("behind-could-not-see"),
        Some(Behind::SomethingThere(what)) if what.is_empty() => msg("behind-something"),
        Some(Behind::SomethingThere(what)) => msg("behind-something-is")
            .list("what", what.iter().map(|what| what.message()).collect()),
    }
}

/// The first line of the screen: whether the drill may be used as far as
/// what is behind decides.
#[must_use]
pub fn behind_headline(job: &JobState) -> Message {
    let look = look(job);
    let open: Vec<String> = job
        .spots
        .iter()
        .filter(|spot| look.behind(&spot.label) != Some(&Behind::SeenAndClear))
        .map(|spot| spot.label.clone())
        .collect();
    if job.behind.bumper.behind.is_none() && job.behind.spots.is_empty() {
        msg("behind-headline-none")
    } else if open.is_empty() {
        msg("behind-headline-clear")
    } else {
        msg("behind-headline-shut").text("labels", open.join(", "))
    }
}
