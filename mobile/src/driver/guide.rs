//! Guidance while mark cards are shot: the live picture is looked at a few
//! times a second, so that a bad set is noticed on the spot.
//!
//! One frame is under way at a time; the next is asked for once the worker
//! has told of it. A shot goes the way of any other photo.

use std::rc::Rc;

use rakeline_core::estimate::photo::seen::PhotoSeen;
use rakeline_core::text::Message;

use super::cards;
use super::held::{self, Target};
use super::intent::{Action, Now};
use super::level::CameraState;
use super::state::AppState;
use crate::platform::{CameraFault, Picture, Task, WorkEvent};
use crate::route::{Route, Step};

/// The live picture and what is seen in it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct GuideDraft {
    /// What the camera does.
    pub camera: CameraState,
    /// What was seen in the frame looked at last.
    pub seen: Option<Rc<PhotoSeen>>,
    /// Why the frame looked at last told nothing.
    pub trouble: Option<Message>,
    frame: Frame,
}

/// The frame under way.
#[derive(Clone, Debug, Default, PartialEq)]
enum Frame {
    /// None; the next may be asked for.
    #[default]
    Free,
    /// The camera is asked.
    Asked,
    /// The worker looks at it, by the task's number.
    Looked(u64),
    /// It is to be a photo.
    Shot,
    /// None came; the fitter asks again.
    Paused,
}

/// What is said of the live picture.
#[derive(Clone, Debug, PartialEq)]
pub enum GuideIntent {
    /// It is wanted.
    Start,
    /// The frame that shows now becomes a photo.
    Shoot,
    /// It is looked at again after a failure.
    Look,
    /// It is not wanted any more.
    Stop,
}

pub(super) fn handle(app: &mut AppState, said: GuideIntent) -> Vec<Action> {
    match said {
        GuideIntent::Start => {
            app.drafts.guide = GuideDraft {
                camera: CameraState::Asked,
                ..GuideDraft::default()
            };
            let mut actions = held::start(app, Target::Level);
            actions.push(Action::StartCamera);
            actions
        }
        GuideIntent::Shoot => {
            let full = cards::is_full(app);
            if app.drafts.guide.camera != CameraState::Live || full.is_some() {
                app.drafts.guide.trouble = full;
                return Vec::new();
            }
            app.drafts.guide.frame = Frame::Shot;
            vec![Action::TakePhoto]
        }
        GuideIntent::Look => {
            app.drafts.guide.frame = Frame::Free;
            app.drafts.guide.trouble = None;
            Vec::new()
        }
        GuideIntent::Stop => {
            let mut actions = leave(app);
            actions.extend(held::stop(app));
            actions
        }
    }
}

/// Frees the camera.
pub(super) fn leave(app: &mut AppState) -> Vec<Action> {
    let before = std::mem::take(&mut app.drafts.guide);
    match before.camera {
        CameraState::Off => Vec::new(),
        _ => vec![Action::StopCamera],
    }
}

/// Whether the camera's answers are for this screen.
pub(super) fn is_here(app: &AppState) -> bool {
    matches!(app.route, Route::Job(_, Step::Cards))
}

/// A frame came, or none.
pub(super) fn came(
    app: &mut AppState,
    came: Result<Option<Picture>, CameraFault>,
    now: &Now,
) -> Vec<Action> {
    match came {
        Ok(Some(picture)) => frame(app, picture, now),
        Ok(None) => Vec::new(),
        Err(fault) => missed(app, &fault),
    }
}

fn missed(app: &mut AppState, fault: &CameraFault) -> Vec<Action> {
    app.drafts.guide.frame = Frame::Paused;
    app.drafts.guide.trouble = Some(fault.message());
    Vec::new()
}

fn frame(app: &mut AppState, picture: Picture, now: &Now) -> Vec<Action> {
    match app.drafts.guide.frame {
        Frame::Shot => {
            app.drafts.guide.frame = Frame::Free;
            cards::came(app, picture, now)
        }
        Frame::Asked if cards::is_idle(app) => {
            let task = Task::SeePhoto {
                marks: cards::cards(app),
                file: picture.bytes,
            };
            app.worked += 1;
            app.drafts.guide.frame = Frame::Looked(app.worked);
            vec![Action::StartWork(app.worked, task)]
        }
        Frame::Asked => {
            app.drafts.guide.frame = Frame::Free;
            Vec::new()
        }
        Frame::Free | Frame::Looked(_) | Frame::Paused => Vec::new(),
    }
}

/// The worker was taken for something else: its answer is not waited for.
pub(super) fn give_way(app: &mut AppState) {
    if matches!(app.drafts.guide.frame, Frame::Looked(_)) {
        app.drafts.guide.frame = Frame::Free;
    }
}

/// What the worker said, where it is about a frame.
pub(super) fn worked(app: &mut AppState, number: u64, event: &WorkEvent) -> Option<Vec<Action>> {
    let draft = &mut app.drafts.guide;
    if draft.frame != Frame::Looked(number) {
        return None;
    }
    match event {
        WorkEvent::Progress(_) => {}
        WorkEvent::Done(bytes) => {
            draft.frame = Frame::Free;
            draft.seen = cards::read::<PhotoSeen>(bytes).map(Rc::new);
            draft.trouble = None;
        }
        WorkEvent::Failed(message) => {
            draft.frame = Frame::Free;
            draft.seen = None;
            draft.trouble = Some(message.clone());
        }
    }
    Some(Vec::new())
}

/// Asks for the next frame once nothing is under way.
pub(super) fn follow(app: &mut AppState) -> Vec<Action> {
    let draft = &app.drafts.guide;
    let free = draft.frame == Frame::Free && draft.camera == CameraState::Live;
    if !free || !is_here(app) || !cards::is_idle(app) {
        return Vec::new();
    }
    app.drafts.guide.frame = Frame::Asked;
    vec![Action::TakePhoto]
}
