//! Measuring from photos of mark cards: a photo comes, the worker looks at
//! it, it is stored, and all photos are solved together.

use std::rc::Rc;

use rakeline_core::estimate::photo::result::{FlatKind, Outcome};
use rakeline_core::estimate::photo::seen::PhotoSeen;
use rakeline_core::job::{CARD_PHOTOS_GREATEST, CardPhoto, CardPhotosEvent, CardPrint, JobEvent};
use rakeline_core::text::{Message, msg};

use super::cards_draft::Doing;
use super::cards_keep;
use super::cards_queue;
use super::centre::{centre, centred};
use super::guide::{self, GuideIntent};
use super::intent::{Action, Now};
use super::photos::PictureUse;
use super::sight;
use super::state::{AppState, Notice, UndoOf};
use super::work::{self, Back};
use crate::platform::{CameraFault, Picture, PictureFrom, StorageFault, Task, WorkEvent};

/// What is said on the screen of the photos.
#[derive(Clone, Debug, PartialEq)]
pub enum CardsIntent {
    /// A photo is wanted.
    Ask(PictureFrom),
    /// It came, or none was chosen.
    Came(Result<Option<Picture>, CameraFault>),
    /// It is in the store, or not.
    Stored(Result<(), StorageFault>),
    /// The photo whose look failed is looked at again, or all are solved
    /// again.
    Again,
    /// What is under way is given up.
    Stop,
    /// A tap, or a photo taken out.
    Said(CardPhotosEvent),
    /// A photo, by its place, is kept with what was measured drawn on it.
    Keep(usize),
    /// Said of the live picture.
    Guide(GuideIntent),
    /// A short distance in a photo, by its place, with a flat thing.
    Flat(usize, FlatKind, Vec<[f64; 2]>),
}

pub(super) fn handle(app: &mut AppState, said: CardsIntent, now: &Now) -> Vec<Action> {
    let mut actions = handled(app, said, now);
    actions.extend(cards_queue::next(app));
    actions
}

fn handled(app: &mut AppState, said: CardsIntent, now: &Now) -> Vec<Action> {
    match said {
        CardsIntent::Guide(said) => guide::handle(app, said),
        CardsIntent::Ask(from) => {
            if let Some(full) = is_full(app) {
                return fail(app, full);
            }
            vec![Action::ChoosePicture(PictureUse::Cards, from)]
        }
        CardsIntent::Came(Ok(None)) => Vec::new(),
        CardsIntent::Came(Ok(Some(picture))) => cards_queue::came(app, Rc::new(picture)),
        CardsIntent::Came(Err(fault)) => fail(app, fault.message()),
        CardsIntent::Stored(outcome) => stored(app, outcome, now),
        CardsIntent::Again => match app.drafts.cards.again.take() {
            Some(picture) => look(app, picture),
            None => solve(app),
        },
        CardsIntent::Stop => {
            if let Some((_, _, Doing::Centre(head, tap))) = app.drafts.cards.under {
                app.drafts.cards.under = None;
                let mut actions = vec![Action::StopWork];
                actions.extend(centred(app, (head, tap), None, now));
                return actions;
            }
            stop(app)
        }
        CardsIntent::Said(CardPhotosEvent::HeadTapped(head, tap)) => centre(app, head, tap, now),
        CardsIntent::Said(event) => changed(app, event, now),
        CardsIntent::Keep(photo) => cards_keep::keep(app, photo, now),
        CardsIntent::Flat(photo, flat, taps) => {
            let seen = app.job().and_then(|job| job.card_photos.photos.get(photo));
            let Some(photo) = seen.map(|photo| Box::new(photo.seen.clone())) else {
                return Vec::new();
            };
            if cards_queue::photo_under_way(app) {
                return fail(app, msg("cards-busy"));
            }
            app.drafts.cards.flat = None;
            start(app, Task::FlatLength { photo, flat, taps }, Doing::Flat)
        }
    }
}

fn fail(app: &mut AppState, message: Message) -> Vec<Action> {
    app.drafts.cards.trouble = Some(message);
    Vec::new()
}

/// That no further photo is taken, where it is so.
pub(super) fn is_full(app: &AppState) -> Option<Message> {
    let photos = app.job().map_or(0, |job| job.card_photos.photos.len());
    let most = i64::try_from(CARD_PHOTOS_GREATEST).unwrap_or(i64::MAX);
    (photos >= CARD_PHOTOS_GREATEST).then(|| msg("cards-too-many-photos").count("most", most))
}

/// Whether the worker and the store are free.
pub(super) fn is_idle(app: &AppState) -> bool {
    let draft = &app.drafts.cards;
    draft.under.is_none() && draft.storing.is_none() && app.making.is_none()
}

/// A photo from the live picture.
pub(super) fn came(app: &mut AppState, picture: Picture, now: &Now) -> Vec<Action> {
    handle(app, CardsIntent::Came(Ok(Some(picture))), now)
}

/// Cards of the marks, and the one after the last for the centre mark.
pub(super) fn cards(app: &AppState) -> usize {
    app.job().map_or(0, |job| job.spots.len() + 1)
}

pub(super) fn look(app: &mut AppState, picture: Rc<Picture>) -> Vec<Action> {
    let task = Task::SeePhoto {
        marks: cards(app),
        file: picture.bytes.clone(),
    };
    start(app, task, Doing::Look(picture))
}

pub(super) fn start(app: &mut AppState, task: Task, doing: Doing) -> Vec<Action> {
    if app.making.is_some() {
        if let Doing::Look(picture) = doing {
            app.drafts.cards.again = Some(picture);
        }
        return fail(app, msg("cards-busy"));
    }
    sight::give_way(app);
    guide::give_way(app);
    app.worked += 1;
    let draft = &mut app.drafts.cards;
    if draft.again.is_none() {
        draft.trouble = None;
    }
    draft.under = Some((app.worked, 0.0, doing));
    vec![Action::StartWork(app.worked, task)]
}

/// Solves all photos as they are.
fn solve(app: &mut AppState) -> Vec<Action> {
    let Some(job) = app.job() else {
        return Vec::new();
    };
    let state = &job.card_photos;
    let nothing = state.photos.iter().all(|photo| photo.seen.cards.is_empty());
    // Where a photo is on its way all are solved when it is there.
    if nothing || cards_queue::photo_under_way(app) {
        return Vec::new();
    }
    // The print that was photographed, not what was printed since.
    let line = match state.print() {
        CardPrint::Line(line) => Some(line),
        CardPrint::NotMeasured => None,
        CardPrint::NotKept => app.settings.check_line(),
    };
    let task = Task::SolvePhotos {
        photos: state.photos.iter().map(|p| p.seen.clone()).collect(),
        marks: job.spots.len(),
        line: line.map(|line| line.measured()),
        taps: state.taps.clone(),
    };
    start(app, task, Doing::Solve)
}

/// Opening the screen: what was not solved yet is.
pub(super) fn open(app: &mut AppState) -> Vec<Action> {
    let waiting = cards_queue::next(app);
    let unsolved = app
        .job()
        .is_some_and(|job| job.card_photos.outcome.is_none());
    match waiting.is_empty() && unsolved {
        true => solve(app),
        false => waiting,
    }
}

/// The check line was measured: the photos of the open job count it in,
/// wherever it was typed.
pub(super) fn line_changed(app: &mut AppState, now: &Now) -> Vec<Action> {
    let print = CardPrint::of(app.settings.check_line());
    let other = app
        .job()
        .is_some_and(|job| !job.card_photos.photos.is_empty() && job.card_photos.print() != print);
    if !other {
        return Vec::new();
    }
    let said = JobEvent::Cards(CardPhotosEvent::PrintSaid(print));
    let mut actions = work::event(app, said, Back::Typing, now);
    actions.extend(solve(app));
    actions
}

fn stop(app: &mut AppState) -> Vec<Action> {
    match app.drafts.cards.under.take() {
        Some((_, _, doing)) => {
            if let Doing::Look(picture) = doing {
                app.drafts.cards.again = Some(picture);
            }
            app.drafts.cards.trouble = Some(msg("cards-stopped"));
            vec![Action::StopWork]
        }
        None => Vec::new(),
    }
}

/// Gives up what only the screen that is left needs; a photo that was being
/// looked at waits for the screen to come back.
pub(super) fn leave(app: &mut AppState) -> Vec<Action> {
    let draft = &mut app.drafts.cards;
    let Some((_, _, doing)) = draft.under.take() else {
        return Vec::new();
    };
    if let Doing::Look(picture) = doing {
        draft.waiting.push_front(picture);
    }
    vec![Action::StopWork]
}

/// What the worker said, where it is about these photos.
pub(super) fn worked(
    app: &mut AppState,
    number: u64,
    event: &WorkEvent,
    now: &Now,
) -> Option<Vec<Action>> {
    let mut actions = told(app, number, event, now)?;
    actions.extend(cards_queue::next(app));
    Some(actions)
}

fn told(app: &mut AppState, number: u64, event: &WorkEvent, now: &Now) -> Option<Vec<Action>> {
    let draft = &mut app.drafts.cards;
    let (known, share, doing) = draft.under.as_mut()?;
    if *known != number {
        return None;
    }
    if let WorkEvent::Progress(done) = event {
        *share = *done;
        return Some(Vec::new());
    }
    let doing = doing.clone();
    draft.under = None;
    Some(match (event, doing) {
        (WorkEvent::Failed(_), Doing::Centre(head, tap)) => centred(app, (head, tap), None, now),
        (WorkEvent::Done(bytes), Doing::Centre(head, tap)) => {
            let found = read::<Option<[f64; 2]>>(bytes).flatten();
            centred(app, (head, tap), found, now)
        }
        (WorkEvent::Failed(message), doing) => {
            if let Doing::Look(picture) = doing {
                draft.again = Some(picture);
            }
            fail(app, message.clone())
        }
        (WorkEvent::Done(bytes), Doing::Look(picture)) => looked(app, bytes, &picture, now),
        (WorkEvent::Done(bytes), Doing::Solve) => match read::<Outcome>(bytes) {
            Some(outcome) => {
                let measured = CardPhotosEvent::Measured(Box::new(outcome));
                work::event(app, JobEvent::Cards(measured), Back::Typing, now)
            }
            None => fail(app, msg("cards-unreadable")),
        },
        (WorkEvent::Done(bytes), Doing::Flat) => match read(bytes) {
            Some(length) => {
                app.drafts.cards.flat = Some(length);
                Vec::new()
            }
            None => fail(app, msg("cards-unreadable")),
        },
        (WorkEvent::Progress(_), _) => Vec::new(),
    })
}

pub(super) fn read<T: serde::de::DeserializeOwned>(bytes: &[u8]) -> Option<T> {
    rakeline_core::json::read(std::str::from_utf8(bytes).ok()?).ok()
}

fn looked(app: &mut AppState, bytes: &[u8], picture: &Picture, now: &Now) -> Vec<Action> {
    let Some(seen) = read::<PhotoSeen>(bytes) else {
        return fail(app, msg("cards-unreadable"));
    };
    let Some(job) = app.job() else {
        return Vec::new();
    };
    let blob = format!("cards-{}-{}", job.id.0, now.at.timestamp_millis());
    app.drafts.cards.storing = Some(CardPhoto {
        blob: blob.clone(),
        at: now.at,
        seen,
        print: CardPrint::of(app.settings.check_line()),
    });
    vec![Action::PutBlob(
        PictureUse::Cards,
        blob,
        picture.bytes.clone(),
    )]
}

fn stored(app: &mut AppState, outcome: Result<(), StorageFault>, now: &Now) -> Vec<Action> {
    let Some(photo) = app.drafts.cards.storing.take() else {
        return Vec::new();
    };
    match outcome {
        Ok(()) => changed(app, CardPhotosEvent::Seen(Box::new(photo)), now),
        Err(fault) => fail(app, msg("level-not-stored").message("why", fault.message())),
    }
}

/// Photos or taps changed: the job keeps it, and all is solved anew.
pub(super) fn changed(app: &mut AppState, event: CardPhotosEvent, now: &Now) -> Vec<Action> {
    let dropped = matches!(event, CardPhotosEvent::Dropped(_));
    let chosen = matches!(event, CardPhotosEvent::ShapeChosen(_));
    app.notice = None;
    let mut actions = work::event(app, JobEvent::Cards(event), Back::Step, now);
    if dropped {
        app.notice = Some(Notice {
            message: msg("behind-photo-out"),
            undo: Some(UndoOf::Step),
        });
    }
    if !chosen
        && app
            .notice
            .as_ref()
            .is_none_or(|notice| notice.undo.is_some())
    {
        actions.extend(solve(app));
    }
    actions
}
