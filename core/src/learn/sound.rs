//! One sound of the kit, in however many parts it is told.

use super::event::Heard;
use super::state::Run;
use crate::units::Millis;

/// Sounds with a shorter pause are one: a control box that was out of reverse
/// and in again is silent for longer (our own figure).
const JOIN: Millis = Millis(250.0);

/// How a sound is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Told {
    /// Over, from its beginning to its end.
    Whole,
    /// Over; its beginning was not heard.
    Cut,
    /// It sounds on.
    GoesOn,
}

/// What a sound was taken for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Fate {
    /// Nothing yet.
    Open,
    /// It belongs to the engagement of this index.
    Cycle(usize),
    /// It confirms nothing.
    Nothing,
}

/// A sound at the kit's tone, short pauses included.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Sound {
    pub(super) from: Millis,
    pub(super) to: Millis,
    pub(super) fate: Fate,
}

/// What is told, with the sound that it belongs to.
#[derive(Clone, Copy, Debug)]
pub(super) struct Part {
    /// From the beginning of the sound to the end of what is told.
    pub(super) whole: Heard,
    pub(super) told: Told,
    pub(super) fate: Fate,
    /// Whether it was told before, up to an earlier time.
    pub(super) again: bool,
}

impl Sound {
    pub(super) fn lasted(&self) -> Millis {
        Millis(self.to.0 - self.from.0)
    }

    /// Whether something heard is a part of it.
    pub(super) fn holds(&self, heard: Heard) -> bool {
        heard.start.0 <= self.to.0 + JOIN.0 && heard.end.0 + JOIN.0 >= self.from.0
    }
}

/// Joins what is told to the sound that it goes on with. Nothing counts twice:
/// a sound has one fate, however long it lasts.
pub(super) fn join(next: &mut Run, told: Told, heard: Heard) -> Part {
    let known = next.sound.filter(|sound| sound.holds(heard));
    let mut sound = known.unwrap_or(Sound {
        from: heard.start,
        to: heard.end,
        fate: Fate::Open,
    });
    let again = known.is_some_and(|known| heard.start < known.to);
    if heard.start < sound.from {
        sound.from = heard.start;
    }
    if heard.end > sound.to {
        sound.to = heard.end;
    }
    // A sound of before may be told after a newer one.
    if next.sound.is_none_or(|newest| sound.to >= newest.to) {
        next.sound = Some(sound);
    }
    Part {
        whole: Heard {
            start: sound.from,
            ..heard
        },
        told,
        fate: sound.fate,
        again,
    }
}

/// A part that confirms nothing by itself still belongs to the sound that it
/// goes on with, so that the next part is not taken for a new one.
pub(super) fn goes_on_with(next: &mut Run, heard: Heard) {
    let known = next.sound.as_mut().filter(|sound| sound.holds(heard));
    let Some(sound) = known else {
        return;
    };
    if heard.end > sound.to {
        sound.to = heard.end;
    }
    if let Fate::Cycle(index) = sound.fate
        && let Some(cycle) = next.cycles.get_mut(index)
    {
        cycle.sounds_to(heard.end);
    }
}

/// Does something with what was heard, and notes which engagement took it.
pub(super) fn settle(next: &mut Run, heard: Heard, take: impl FnOnce(&mut Run)) {
    let before: Vec<u32> = next.cycles.iter().map(|cycle| cycle.beeps).collect();
    take(next);
    let beeps = |index: usize| before.get(index).copied().unwrap_or_default();
    let mut taken = next.cycles.iter().enumerate();
    let taken = taken.find(|(index, cycle)| cycle.beeps != beeps(*index));
    let taken = taken.map(|(index, _)| index);
    if let (Some(index), Some(sound)) = (taken, next.sound.as_mut())
        && sound.fate == Fate::Open
        && sound.holds(heard)
    {
        sound.fate = Fate::Cycle(index);
    }
}

/// The sound that goes with this confirms nothing more.
pub(super) fn is_nothing(next: &mut Run, heard: Heard) {
    if let Some(sound) = next.sound.as_mut()
        && sound.holds(heard)
    {
        sound.fate = Fate::Nothing;
    }
}
