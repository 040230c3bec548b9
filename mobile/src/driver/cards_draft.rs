//! Photos of mark cards under way.

use std::collections::VecDeque;
use std::rc::Rc;

use rakeline_core::estimate::photo::result::Tap;
use rakeline_core::job::CardPhoto;
use rakeline_core::text::{Message, msg};
use rakeline_core::units::{Estimate, Millimetres};

use crate::platform::Picture;

/// What the worker does.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Doing {
    Look(Rc<Picture>),
    Solve,
    Flat,
    Centre(usize, Tap),
}

/// Photos of mark cards under way.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CardsDraft {
    /// Number of the worker's task, the share that is done, and what it is.
    pub(super) under: Option<(u64, f32, Doing)>,
    /// A photo that could not be looked at, for another try.
    pub(super) again: Option<Rc<Picture>>,
    /// Photos that wait for their turn.
    pub(super) waiting: VecDeque<Rc<Picture>>,
    /// Why there is nothing to show.
    pub trouble: Option<Message>,
    /// A photo on its way to the store.
    pub(super) storing: Option<CardPhoto>,
    /// The short distance that was measured last.
    pub flat: Option<Estimate<Millimetres>>,
}

impl CardsDraft {
    /// What is said of the work under way.
    #[must_use]
    pub fn under_way(&self) -> Option<Message> {
        let (_, share, doing) = self.under.as_ref()?;
        let percent = f64::from(*share) * 100.0;
        Some(match doing {
            Doing::Look(_) => msg("cards-looking").number("percent", percent, 0),
            Doing::Centre(..) => msg("cards-centring"),
            Doing::Solve | Doing::Flat => msg("cards-solving"),
        })
    }

    /// What stays when a screen of the job is left: photos.
    pub(super) fn kept(&mut self) -> Self {
        Self {
            trouble: self.trouble.take().filter(|_| self.again.is_some()),
            again: self.again.take(),
            waiting: std::mem::take(&mut self.waiting),
            storing: self.storing.take(),
            ..Self::default()
        }
    }

    /// Whether another try makes sense.
    #[must_use]
    pub fn can_try_again(&self) -> bool {
        self.under.is_none() && self.storing.is_none() && self.trouble.is_some()
    }
}
