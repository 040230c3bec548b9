//! A tap on a fitted head: the worker moves it to the middle of the round
//! edge.

use rakeline_core::estimate::photo::result::{BAR, Tap, U_CENTRED};
use rakeline_core::job::{CardPhotosEvent, JobState};
use rakeline_core::text::msg;

use super::cards::{changed, start};
use super::cards_draft::Doing;
use super::intent::{Action, Now};
use super::state::{AppState, Notice};
use crate::platform::Task;

/// About the radius of a head in a photo, pixels: its flange, else the head,
/// at the scale of the bar across the face.
fn radius(job: &JobState, photo: usize) -> Option<f64> {
    let heads = &job.kit.heads;
    let wide = heads.flange_diameter.or(heads.diameter)?;
    let view = job.card_photos.outcome.as_ref()?.views.get(photo)?;
    let [from, to] = view.bar?;
    let scale = (to[0] - from[0]).hypot(to[1] - from[1]) / BAR.0;
    Some(wide.0 / 2.0 * scale)
}

/// A head was tapped: the worker looks for its round edge around the tap.
/// Where that can't be done the tap counts as it is.
pub(super) fn centre(app: &mut AppState, head: usize, tap: Tap, now: &Now) -> Vec<Action> {
    let asked = app.job().and_then(|job| {
        let photo = job.card_photos.photos.get(tap.photo)?;
        Some((radius(job, tap.photo)?, photo.blob.clone()))
    });
    let free = app.making.is_none() && app.drafts.cards.under.is_none();
    let Some((radius, blob)) = asked.filter(|_| free) else {
        return changed(app, CardPhotosEvent::HeadTapped(head, tap), now);
    };
    let task = Task::Centre {
        at: [tap.x, tap.y],
        radius,
        file: Vec::new(),
    };
    start(app, task, Doing::Centre(head, tap))
        .into_iter()
        .map(|action| match action {
            Action::StartWork(number, task) => Action::StartSheet(number, task, vec![blob.clone()]),
            other => other,
        })
        .collect()
}

/// A head's tap, centred where its round edge was found.
pub(super) fn centred(
    app: &mut AppState,
    (head, tap): (usize, Tap),
    found: Option<[f64; 2]>,
    now: &Now,
) -> Vec<Action> {
    let tap = match found {
        Some([x, y]) => Tap {
            x,
            y,
            u: U_CENTRED,
            ..tap
        },
        None => tap,
    };
    let actions = changed(app, CardPhotosEvent::HeadTapped(head, tap), now);
    if found.is_none() && app.notice.is_none() {
        app.notice = Some(Notice {
            message: msg("cards-not-centred"),
            undo: None,
        });
    }
    actions
}
