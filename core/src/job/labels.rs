//! Heads by their labels. The mark-out counts heads from the left; what
//! stands on the heads is the kit's, and may run the other way.

use super::state::JobState;
use crate::text::{Arg, Message};

/// Arguments of the mark-out's messages that count a head from 1.
const HEADS: [&str; 2] = ["head", "other_head"];

/// A message of the mark-out with each head under its label.
pub(super) fn labelled(job: &JobState, mut message: Message) -> Message {
    put_labels(job, &mut message);
    message
}

fn put_labels(job: &JobState, message: &mut Message) {
    for (name, arg) in &mut message.args {
        match arg {
            Arg::Count(count) if HEADS.contains(&name.as_ref()) => {
                let index = usize::try_from(*count - 1).ok();
                if let Some(spot) = index.and_then(|index| job.spots.get(index)) {
                    *arg = Arg::Text(spot.label.clone());
                }
            }
            Arg::Message(inner) => put_labels(job, inner),
            Arg::List(all) => all.iter_mut().for_each(|inner| put_labels(job, inner)),
            _ => {}
        }
    }
}
