//! What the live picture tells while mark cards are shot.

use super::card_words::{card_name, card_words};
use super::state::JobState;
use crate::estimate::photo::seen::PhotoSeen;
use crate::text::{Message, msg};

/// Photos that make a set: from the left, from the middle, from the right.
const SET: [&str; 3] = ["guide-from-left", "guide-from-middle", "guide-from-right"];

/// What the fitter is told beside the live picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Guide {
    /// From where the next photo is to be.
    pub from: Message,
    /// Whether all marks' cards are in the picture and well seen.
    pub ready: bool,
    /// What is seen, what is missing, what to do.
    pub lines: Vec<Message>,
}

/// What a frame of the live picture tells; `None` before the first.
#[must_use]
pub fn guide(job: &JobState, seen: Option<&PhotoSeen>) -> Guide {
    let taken = job.card_photos.photos.len();
    let from = msg(SET.get(taken).copied().unwrap_or("guide-from-more"));
    let Some(seen) = seen else {
        return Guide {
            from,
            ready: false,
            lines: vec![msg("guide-looking")],
        };
    };
    let mut lines = card_words(job, seen);
    let all_good = lines.iter().all(|line| line.key == "cards-card-good");
    let is_seen = |code: usize| seen.cards.iter().any(|card| usize::from(card.code) == code);
    let missing: Vec<Message> = (0..job.spots.len())
        .filter(|code| !is_seen(*code))
        .map(|code| card_name(job, code))
        .collect();
    let ready = all_good && missing.is_empty();
    if !missing.is_empty() && !seen.cards.is_empty() {
        lines.push(msg("guide-missing").list("cards", missing));
    }
    Guide { from, ready, lines }
}
