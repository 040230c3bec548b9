//! A phone on the bench: it sends intents through the driver and performs
//! the actions as the app's shell does, one after the other.

mod pictures;
mod recall;
mod store;
mod told;

use std::cell::{Cell, RefCell};
use std::collections::VecDeque;
use std::rc::Rc;
use std::task::{Context, Poll, Waker};

use rakeline::backup::Stop;
use rakeline::driver::{
    Action, AgainIntent, AppState, Intent, KIT_DRAFT_KEY, KIT_EDIT_KEY, KIT_PREFIX, KitIntent,
    LearnIntent, Now, Place, StoreIntent, handle, open_store,
};
use rakeline::platform::memory::MemoryPlatform;
use rakeline::platform::{
    Alone, Clock, InFile, LocalFuture, Microphone, Motion, MotionEvent, Page, Print, Sound, Speech,
    Storage, Ticker, Vibration, Visibility, VolumeKeys, Wake, WorkHandle,
};
use rakeline::route::KitId;
use rakeline::texts::say;
use rakeline_core::estimate::beep::ToneGate;
use rakeline_core::job::JobId;
use rakeline_core::units::Millis;

use recall::recall;

/// How often the app looks at the readings, as the shell does.
const TURN: Millis = Millis(100.0);
/// Time between two samples of the scripted sensor.
pub(super) const SAMPLE: Millis = Millis(20.0);

/// A running app on a scripted phone.
pub struct Bench {
    pub app: AppState,
    pub phone: MemoryPlatform,
    pub(super) waiting: VecDeque<LocalFuture<'static, Intent>>,
    posted: Rc<RefCell<VecDeque<Intent>>>,
    heard: Rc<RefCell<Vec<MotionEvent>>>,
    due: Rc<Cell<bool>>,
    turns: Option<Ticker>,
    learn_due: Rc<Cell<bool>>,
    learn_turns: Option<Ticker>,
    task: Option<WorkHandle>,
    pub(super) backup_file: Rc<RefCell<Option<Rc<dyn InFile>>>>,
    pub(super) backup_stop: Stop,
    pub(super) samples: u32,
}

impl Bench {
    /// A fresh phone on which the app was opened at `/`.
    pub fn new() -> Self {
        Self::on(MemoryPlatform::new())
    }

    /// The app opened on this phone.
    pub fn on(phone: MemoryPlatform) -> Self {
        let mut bench = Self {
            app: AppState::default(),
            phone,
            waiting: VecDeque::new(),
            posted: Rc::default(),
            heard: Rc::default(),
            due: Rc::default(),
            turns: None,
            learn_due: Rc::default(),
            learn_turns: None,
            task: None,
            backup_file: Rc::default(),
            backup_stop: Stop::default(),
            samples: 0,
        };
        bench.listen();
        bench.boot(Alone::IfFree);
        bench
    }

    /// The app was killed and opened again where it was.
    pub fn killed(&self) -> Self {
        Self::on(self.phone.restarted())
    }

    fn listen(&self) {
        let posted = self.posted.clone();
        self.phone.page.on_pop(Rc::new(move |path| {
            posted.borrow_mut().push_back(Intent::Popped(path));
        }));
        let posted = self.posted.clone();
        self.phone.page.on_hidden(Rc::new(move |visibility| {
            posted.borrow_mut().push_back(Intent::Seen(visibility));
        }));
    }

    /// Reads the kit sheets in the store, as at a start and after a restore.
    pub fn read_kits(&mut self) {
        let shelf = self.phone.storage.clone();
        self.waiting.push_back(Box::pin(async move {
            Intent::Kits(KitIntent::Booted {
                kits: shelf.list(KIT_PREFIX).await.unwrap_or_default(),
                quick: shelf.get(KIT_DRAFT_KEY).await.ok().flatten(),
                edit: shelf.get(KIT_EDIT_KEY).await.ok().flatten(),
            })
        }));
    }

    pub(super) fn boot(&mut self, how: Alone) {
        self.send_only(Intent::OnDevice(self.phone.page.device()));
        let path = self.phone.page.path();
        self.read_kits();
        let posted = self.posted.clone();
        let lost = Rc::new(move |()| {
            let over = Intent::Store(StoreIntent::TakenOver);
            posted.borrow_mut().push_back(over);
        });
        let storage = self.phone.storage.clone();
        self.waiting.push_back(Box::pin(async move {
            open_store(&*storage, how, lost, path).await
        }));
        let pictures = self.phone.storage.clone();
        self.waiting.push_back(Box::pin(async move {
            Intent::BlobsFound(pictures.blob_list().await.unwrap_or_default())
        }));
        self.settle();
    }

    pub fn now(&self) -> Now {
        Now {
            at: self.phone.clock.now(),
            zone: self.phone.clock.zone(),
            monotonic: self.phone.clock.monotonic(),
        }
    }

    /// A name for a new job.
    pub fn new_id(&self) -> JobId {
        JobId(self.phone.page.random_id())
    }

    /// One tap or one word typed, and all that follows at once.
    pub fn send(&mut self, intent: Intent) {
        self.send_only(intent);
        self.settle();
    }

    /// Several taps before anything that they asked for is answered.
    pub fn at_once(&mut self, intents: impl IntoIterator<Item = Intent>) {
        for intent in intents {
            self.send_only(intent);
        }
        self.settle();
    }

    fn send_only(&mut self, intent: Intent) {
        let now = self.now();
        for action in handle(&mut self.app, intent, &now) {
            self.perform(action);
        }
    }

    fn perform(&mut self, action: Action) {
        match action {
            Action::Push(route) => self.phone.page.push(&route.path()),
            Action::Replace(route) => self.phone.page.replace(&route.path()),
            Action::StartMotion => self.start_motion(),
            Action::StopMotion => {
                self.phone.motion.stop();
                self.phone.wake.release();
                self.turns = None;
            }
            Action::StartTurns => {
                self.phone.sound.unlock();
                self.phone.wake.hold();
                self.start_turns();
            }
            Action::StopTurns => {
                self.phone.speech.hush();
                self.phone.wake.release();
                self.turns = None;
            }
            Action::Sound(tone) => self.phone.sound.tone(tone),
            Action::Pulse(pulse) => self.phone.vibration.pulse(pulse),
            Action::Print => self.phone.print.print(),
            Action::StartSheet(number, mut task, pictures) => {
                for key in pictures {
                    if let Some(bytes) = self.phone.storage.picture(&key) {
                        task.add_picture(key, &bytes);
                    }
                }
                self.perform(Action::StartWork(number, task));
            }
            Action::StartWork(number, task) => {
                // The task before is given up first, as the shell does.
                self.task = None;
                let posted = self.posted.clone();
                let told = Rc::new(move |event| {
                    posted.borrow_mut().push_back(Intent::Worked(number, event));
                });
                self.task = Some(self.phone.platform().work.start(task, told));
            }
            Action::StopWork => self.task = None,
            Action::Share(file) => {
                let share = self.phone.platform().share.clone();
                self.waiting.push_back(Box::pin(async move {
                    let name = file.name.clone();
                    Intent::FileOut(name, share.save(file).await)
                }));
            }
            Action::OpenFile(most) => {
                let opened = self.phone.platform().files.open_text(most);
                let id = KitId(self.phone.page.random_id());
                let told = async { Intent::Kits(KitIntent::FileOpened(id, opened.await)) };
                self.waiting.push_back(Box::pin(told));
            }
            Action::Recall(ids) => {
                let storage = self.phone.storage.clone();
                self.waiting.push_back(Box::pin(async move {
                    let found = recall(&*storage, ids).await;
                    let found = found.map_err(|fault| fault.message());
                    Intent::Again(AgainIntent::Recalled(found))
                }));
            }
            Action::OpenPassed(most) => {
                let opened = self.phone.platform().files.open_text(most);
                let id = self.phone.page.random_id();
                let told = async { Intent::Again(AgainIntent::Brought(id, opened.await)) };
                self.waiting.push_back(Box::pin(told));
            }
            Action::Commit(number, writes) => {
                let storage = self.phone.storage.clone();
                self.waiting.push_back(Box::pin(async move {
                    Intent::Committed(number, storage.commit(writes).await)
                }));
            }
            Action::Hush => self.phone.speech.hush(),
            Action::StartLearn => {
                self.phone.sound.unlock();
                self.phone.wake.hold();
                self.phone.page.volume_keys(VolumeKeys::Count);
                let due = self.learn_due.clone();
                let turns = self.phone.page.every(TURN, Rc::new(move || due.set(true)));
                self.learn_turns = Some(turns);
            }
            Action::StopLearn => {
                self.phone.wake.release();
                self.phone.page.volume_keys(VolumeKeys::Loudness);
                self.learn_turns = None;
            }
            Action::StartMicrophone => {
                let posted = self.posted.clone();
                let sink = Rc::new(move |event| {
                    let said = Intent::Learn(LearnIntent::Ear(event));
                    posted.borrow_mut().push_back(said);
                });
                self.phone.microphone.start(ToneGate::Any, sink);
            }
            Action::HearOnly(tone) => {
                let gate = tone.map_or(ToneGate::Any, ToneGate::Near);
                self.phone.microphone.gate(gate);
            }
            Action::StopMicrophone => self.phone.microphone.stop(),
            Action::Say(words) => self.phone.speech.say(&say(&words)),
            Action::StartCamera
            | Action::StopCamera
            | Action::TakePhoto
            | Action::ChoosePicture(..)
            | Action::MakeSmaller(..)
            | Action::PutBlob(..)
            | Action::Fetch(_)
            | Action::ReadIssue(..)
            | Action::DropBlob(_)
            | Action::ReadBlob(..)
            | Action::HidePictures => self.picture(action),
            Action::Load(id, step) => {
                let storage = self.phone.storage.clone();
                self.waiting.push_back(Box::pin(async move {
                    let found = storage.get(&Place::Jobs.key(&id)).await;
                    Intent::Loaded(id, step, found)
                }));
            }
            other => self.store(other),
        }
    }

    fn start_motion(&mut self) {
        self.phone.sound.unlock();
        self.phone.wake.hold();
        self.heard.borrow_mut().clear();
        let heard = self.heard.clone();
        self.phone.motion.start(Rc::new(move |event| {
            heard.borrow_mut().push(event);
        }));
        self.start_turns();
    }

    fn start_turns(&mut self) {
        let due = self.due.clone();
        let turns = self.phone.page.every(TURN, Rc::new(move || due.set(true)));
        self.turns = Some(turns);
    }

    /// Lets the store and the page answer until nothing more comes.
    pub fn settle(&mut self) {
        loop {
            let posted = self.posted.borrow_mut().pop_front();
            if let Some(intent) = posted {
                self.send_only(intent);
                continue;
            }
            let mut answered = None;
            let mut still = VecDeque::new();
            while let Some(mut future) = self.waiting.pop_front() {
                let polled = future
                    .as_mut()
                    .poll(&mut Context::from_waker(Waker::noop()));
                match polled {
                    Poll::Ready(intent) => {
                        answered = Some(intent);
                        break;
                    }
                    Poll::Pending => still.push_back(future),
                }
            }
            still.append(&mut self.waiting);
            self.waiting = still;
            match answered {
                Some(intent) => self.send_only(intent),
                None => return,
            }
        }
    }

    /// Time goes by, with the turns of the reading that fall due.
    pub fn pass(&mut self, time: Millis) {
        let mut left = time.0;
        while left > 0.0 {
            let step = left.min(SAMPLE.0);
            self.phone.clock.advance(Millis(step));
            left -= step;
            if self.learn_due.replace(false) {
                self.send(Intent::Learn(LearnIntent::Tick));
            }
            if self.due.replace(false) {
                let heard = std::mem::take(&mut *self.heard.borrow_mut());
                if !heard.is_empty() {
                    self.send(Intent::Motion(heard));
                }
                self.send(Intent::Tick(self.phone.clock.monotonic()));
            }
        }
    }

    /// The system's back button.
    pub fn back(&mut self) {
        self.phone.page.back();
        self.settle();
    }

    /// The app goes to the background or comes back.
    pub fn show(&mut self, visibility: Visibility) {
        self.phone.page.show(visibility);
        self.settle();
    }
}
