//! From the host's threads to the app's own.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Mutex, PoisonError};

use futures_channel::mpsc::{UnboundedReceiver, UnboundedSender, unbounded};
use futures_util::StreamExt;
use rakeline_core::estimate::beep::Hearing;

use super::phone::{
    PictureOutcome, ShareOutcome, SoundFault, TextOutcome, TiltFault, TiltReading, TiltSource,
};
use crate::platform::{OwnFuture, Visibility, WorkEvent};

/// What was reported.
#[derive(Debug)]
pub(super) enum Said {
    Tilt {
        source: TiltSource,
        step: f64,
        batch: Vec<TiltReading>,
    },
    TiltEnded(TiltFault),
    SoundStarted(f64),
    Heard(Hearing),
    SoundEnded(SoundFault),
    Picture(PictureOutcome),
    Text(TextOutcome),
    Shared(ShareOutcome),
    Tick,
    Work(WorkEvent),
    Back,
    Seen(Visibility),
}

/// Who is told: a run or a wish by its own number.
pub(super) type Number = u64;

/// The back button.
pub(super) const BACK: Number = 1;
/// Shown or hidden.
pub(super) const SEEN: Number = 2;
/// A file that another app handed over.
pub(super) const HANDED_OVER: Number = 3;
const FIRST_FREE: Number = 16;

type Letter = (Number, Said);

enum Letterbox {
    /// The app does not hear yet.
    Early(Vec<Letter>),
    Open(UnboundedSender<Letter>),
}

static BOX: Mutex<Letterbox> = Mutex::new(Letterbox::Early(Vec::new()));
static NEXT: AtomicU64 = AtomicU64::new(FIRST_FREE);

/// Reports from any thread. What comes before the app hears is kept for it.
pub(super) fn send(number: Number, said: Said) {
    match &mut *BOX.lock().unwrap_or_else(PoisonError::into_inner) {
        Letterbox::Early(letters) => letters.push((number, said)),
        // After the app's end nobody hears.
        Letterbox::Open(sender) => drop(sender.unbounded_send((number, said))),
    }
}

type Told = Rc<dyn Fn(Said)>;

/// Tells on the app's own thread what was reported. Cheap to clone.
#[derive(Clone)]
pub struct Desk {
    told: Rc<RefCell<BTreeMap<Number, Told>>>,
    letters: Rc<RefCell<Option<UnboundedReceiver<Letter>>>>,
}

impl Desk {
    /// A desk that hears from now on, and what came early.
    pub(super) fn open() -> Self {
        let (sender, letters) = unbounded();
        let open = Letterbox::Open(sender.clone());
        let mut slot = BOX.lock().unwrap_or_else(PoisonError::into_inner);
        if let Letterbox::Early(early) = std::mem::replace(&mut *slot, open) {
            for letter in early {
                let _ = sender.unbounded_send(letter);
            }
        }
        Self {
            told: Rc::default(),
            letters: Rc::new(RefCell::new(Some(letters))),
        }
    }

    /// Tells until the app ends; run it once, on the app's thread.
    pub async fn serve(self) {
        let letters = self.letters.take();
        let Some(mut letters) = letters else { return };
        while let Some((number, said)) = letters.next().await {
            let told = self.told.borrow().get(&number).cloned();
            if let Some(told) = told {
                told(said);
            }
        }
    }

    /// A number that nobody has.
    pub(super) fn number() -> Number {
        NEXT.fetch_add(1, Ordering::Relaxed)
    }

    /// From now on `told` hears of a number.
    pub(super) fn hear(&self, number: Number, told: impl Fn(Said) + 'static) {
        self.told.borrow_mut().insert(number, Rc::new(told));
    }

    /// Nobody hears of it any more.
    pub(super) fn forget(&self, number: Number) {
        let gone = self.told.borrow_mut().remove(&number);
        drop(gone);
    }

    /// The one answer to a wish that `ask` makes at once, inside the tap.
    pub(super) fn wish<T: 'static, E: 'static>(
        &self,
        ask: impl FnOnce(Number) -> Result<(), E>,
        pick: impl Fn(Said) -> Option<T> + 'static,
    ) -> OwnFuture<Result<Option<T>, E>> {
        let number = Self::number();
        let (answer, answered) = unbounded();
        self.hear(number, move |said| {
            // Who asked may be gone.
            let _ = answer.unbounded_send(pick(said));
        });
        let asked = ask(number);
        let desk = self.clone();
        Box::pin(async move {
            let outcome = match asked {
                Ok(()) => Ok(answered.into_future().await.0.flatten()),
                Err(fault) => Err(fault),
            };
            desk.forget(number);
            outcome
        })
    }
}
