//! Photos of mark cards that came while another was looked at or stored:
//! each in its turn, none lost.

use std::rc::Rc;

use super::cards::{is_idle, look};
use super::cards_draft::Doing;
use super::intent::Action;
use super::state::AppState;
use crate::platform::Picture;

/// Whether a photo is on its way: being looked at or stored.
pub(super) fn photo_under_way(app: &AppState) -> bool {
    let draft = &app.drafts.cards;
    let looked_at = matches!(draft.under, Some((_, _, Doing::Look(_))));
    looked_at || draft.storing.is_some()
}

/// A photo that the fitter took or chose: looked at now, or in its turn.
pub(super) fn came(app: &mut AppState, picture: Rc<Picture>) -> Vec<Action> {
    if photo_under_way(app) {
        app.drafts.cards.waiting.push_back(picture);
        return Vec::new();
    }
    // What is told of the photo before it is over.
    app.drafts.cards.again = None;
    look(app, picture)
}

/// The next photo in turn, where the worker is free. What is told of one
/// that could not be looked at stays, with its other try.
pub(super) fn next(app: &mut AppState) -> Vec<Action> {
    if !is_idle(app) {
        return Vec::new();
    }
    let Some(picture) = app.drafts.cards.waiting.pop_front() else {
        return Vec::new();
    };
    let again = app.drafts.cards.again.take();
    let trouble = app.drafts.cards.trouble.take();
    let actions = look(app, picture);
    let draft = &mut app.drafts.cards;
    draft.trouble = draft.trouble.take().or(trouble.filter(|_| again.is_some()));
    draft.again = draft.again.take().or(again);
    actions
}
