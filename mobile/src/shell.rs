//! Between screens and devices: sends intents through the driver and
//! performs the actions that follow.

mod backup;
mod learn;
mod pictures;
mod recall;
mod store;

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use dioxus::core::spawn_forever;
use dioxus::prelude::*;
use futures_channel::mpsc::{UnboundedReceiver, UnboundedSender, unbounded};
use futures_util::StreamExt;
use rakeline_core::job::JobId;
use rakeline_core::units::Millis;

use crate::backup::Stop;
use crate::driver::{
    Action, AgainIntent, AppState, Intent, KIT_DRAFT_KEY, KIT_EDIT_KEY, KIT_PREFIX, KitIntent,
    LevelIntent, Measure, Now, Place, Target, counts, handle, rings, screen_turn,
};
use crate::platform::{Alone, InFile, MotionEvent, Platform, Task, Ticker, WorkHandle};
use crate::route::KitId;

/// How often sensor readings are looked at: ten screens a second are enough
/// for the eye and leave the phone cool.
const TURN: Millis = Millis(100.0);

/// How often waits are looked at: their seconds are counted on the screen.
const WAITS: Millis = Millis(1_000.0);

/// Id of the video element that shows the live picture.
pub const LIVE_PICTURE: &str = "live-picture";

/// The shell of one running app. Cheap to clone.
#[derive(Clone)]
pub struct Shell {
    /// What screens read.
    pub state: Signal<AppState>,
    platform: Platform,
    /// What devices say. They speak outside the screens' turn; the root's
    /// task hears them inside it.
    devices: UnboundedSender<FromDevice>,
    heard: Rc<RefCell<Vec<MotionEvent>>>,
    turns: Rc<RefCell<Option<Ticker>>>,
    /// Lets time pass for a run of the obstacle learn.
    learn_turns: Rc<RefCell<Option<Ticker>>>,
    /// Looks for waits that are over.
    waits: Rc<RefCell<Option<Ticker>>>,
    asked_to_persist: Rc<Cell<bool>>,
    /// The worker's task under way.
    task: Rc<RefCell<Option<WorkHandle>>>,
    /// The backup that was chosen, and 'stop' for what is done with it.
    backup_file: Rc<RefCell<Option<Rc<dyn InFile>>>>,
    backup_stop: Rc<RefCell<Stop>>,
    /// Number of the task that is wanted now.
    wanted: Rc<Cell<Option<u64>>>,
}

impl PartialEq for Shell {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.heard, &other.heard)
    }
}

/// What comes from a device rather than from a tap.
#[derive(Debug)]
enum FromDevice {
    /// An intent.
    Intent(Intent),
    /// A turn of the reading.
    Turn,
}

/// The shell of the app around this component.
#[must_use]
pub fn use_shell() -> Shell {
    use_context::<Shell>()
}

impl Shell {
    /// A shell on a platform that reads the records and follows the
    /// address; call it once, inside the app's root component.
    #[must_use]
    pub fn start(platform: Platform, state: Signal<AppState>) -> Self {
        let (devices, heard_by_root) = unbounded();
        let shell = Self {
            state,
            platform,
            devices,
            heard: Rc::default(),
            turns: Rc::default(),
            learn_turns: Rc::default(),
            waits: Rc::default(),
            asked_to_persist: Rc::default(),
            task: Rc::default(),
            backup_file: Rc::default(),
            backup_stop: Rc::default(),
            wanted: Rc::default(),
        };
        shell.listen();
        spawn_forever(shell.clone().root(heard_by_root));
        shell
    }

    /// Asks devices to report.
    fn listen(&self) {
        let shell = self.clone();
        let look = Rc::new(move || {
            let now = shell.now().at;
            if rings(&shell.state.peek(), now) {
                shell.post(FromDevice::Intent(Intent::WaitOver));
            } else if counts(&shell.state.peek(), now) {
                shell.post(FromDevice::Intent(Intent::SecondPassed));
            }
        });
        let waits = self.platform.page.every(WAITS, look);
        self.waits.borrow_mut().replace(waits);
        let shell = self.clone();
        self.platform.page.on_pop(Rc::new(move |path| {
            shell.post(FromDevice::Intent(Intent::Popped(path)));
        }));
        let shell = self.clone();
        self.platform.page.on_hidden(Rc::new(move |visibility| {
            shell.post(FromDevice::Intent(Intent::Seen(visibility)));
        }));
        let shell = self.clone();
        self.platform.files.on_handed_over(Rc::new(move |file| {
            let id = shell.new_kit();
            let opened = KitIntent::FileOpened(id, file);
            shell.post(FromDevice::Intent(Intent::Kits(opened)));
        }));
    }

    /// Hands something to the root's task; after the app's end nobody hears.
    fn post(&self, from: FromDevice) {
        let _ = self.devices.unbounded_send(from);
    }

    /// The root's task: opens the app, then hears devices.
    async fn root(self, mut devices: UnboundedReceiver<FromDevice>) {
        self.boot(Alone::IfFree).await;
        while let Some(from) = devices.next().await {
            match from {
                FromDevice::Intent(intent) => self.send(intent),
                FromDevice::Turn => self.turn(),
            }
        }
    }

    /// A name that no other job has.
    #[must_use]
    pub fn new_id(&self) -> JobId {
        JobId(self.platform.page.random_id())
    }

    /// A name that no other kit sheet has.
    #[must_use]
    pub fn new_kit(&self) -> KitId {
        KitId(self.platform.page.random_id())
    }

    /// What the clock says, for screens that show dates.
    #[must_use]
    pub fn now(&self) -> Now {
        Now {
            at: self.platform.clock.now(),
            zone: self.platform.clock.zone(),
            monotonic: self.platform.clock.monotonic(),
        }
    }

    /// Sends an intent and performs what follows. Call it straight inside
    /// the fitter's tap: sound and sensors are asked for there.
    pub fn send(&self, intent: Intent) {
        let now = self.now();
        let mut state = self.state;
        let actions = handle(&mut state.write(), intent, &now);
        for action in actions {
            self.perform(action);
        }
    }

    fn perform(&self, action: Action) {
        let platform = &self.platform;
        match action {
            Action::Push(route) => platform.page.push(&route.path()),
            Action::Replace(route) => platform.page.replace(&route.path()),
            Action::StartMotion => self.start_motion(),
            Action::StopMotion => {
                platform.motion.stop();
                platform.speech.hush();
                platform.wake.release();
                self.turns.borrow_mut().take();
            }
            Action::StartTurns => {
                platform.sound.unlock();
                platform.wake.hold();
                self.start_turns();
            }
            Action::StopTurns => {
                platform.speech.hush();
                platform.wake.release();
                self.turns.borrow_mut().take();
            }
            Action::Sound(tone) => self.sound(tone),
            Action::Pulse(pulse) => platform.vibration.pulse(pulse),
            Action::Hush
            | Action::StartLearn
            | Action::StopLearn
            | Action::StartMicrophone
            | Action::HearOnly(_)
            | Action::StopMicrophone => self.learn(action),
            Action::Say(message) => platform.speech.say(&crate::texts::say(&message)),
            Action::StartCamera
            | Action::StopCamera
            | Action::TakePhoto
            | Action::ChoosePicture(..)
            | Action::MakeSmaller(..)
            | Action::PutBlob(..)
            | Action::Fetch(_)
            | Action::ReadIssue(..)
            | Action::ReadBlob(..)
            | Action::DropBlob(_)
            | Action::HidePictures => self.picture(action),
            Action::Print => {
                let print = platform.print.clone();
                // After the screen has drawn what is to be printed.
                platform
                    .page
                    .after(Millis(60.0), Box::new(move || print.print()));
            }
            Action::OpenFile(most) => {
                let opened = platform.files.open_text(most);
                let shell = self.clone();
                spawn_forever(async move {
                    let file = opened.await;
                    let id = KitId(shell.platform.page.random_id());
                    shell.send(Intent::Kits(KitIntent::FileOpened(id, file)));
                });
            }
            Action::Recall(ids) => {
                let shell = self.clone();
                spawn_forever(async move {
                    let found = shell.recall(ids).await.map_err(|fault| fault.message());
                    shell.send(Intent::Again(AgainIntent::Recalled(found)));
                });
            }
            Action::OpenPassed(most) => {
                let opened = platform.files.open_text(most);
                let shell = self.clone();
                spawn_forever(async move {
                    let file = opened.await;
                    let id = shell.platform.page.random_id();
                    shell.send(Intent::Again(AgainIntent::Brought(id, file)));
                });
            }
            Action::StartWork(number, task) => self.start_work(number, task),
            Action::StartSheet(number, task, pictures) => self.start_sheet(number, task, pictures),
            Action::StopWork => {
                self.wanted.set(None);
                self.task.borrow_mut().take();
            }
            Action::Share(file) => {
                let shell = self.clone();
                spawn_forever(async move {
                    let name = file.name.clone();
                    let outcome = shell.platform.share.save(file).await;
                    shell.send(Intent::FileOut(name, outcome));
                });
            }
            Action::Commit(number, writes) => {
                let shell = self.clone();
                spawn_forever(async move {
                    let outcome = shell.platform.storage.commit(writes).await;
                    let kept = outcome.is_ok();
                    shell.send(Intent::Committed(number, outcome));
                    if kept && !shell.asked_to_persist.replace(true) {
                        shell.ask_to_keep().await;
                    }
                });
            }
            Action::Load(id, step) => {
                let shell = self.clone();
                spawn_forever(async move {
                    let found = shell.platform.storage.get(&Place::Jobs.key(&id)).await;
                    shell.send(Intent::Loaded(id, step, found));
                });
            }
            Action::Backup(_)
            | Action::StopBackup
            | Action::ChooseBackup
            | Action::LookInto(_)
            | Action::TakeIn(..) => self.backup(action),
            Action::Move(_)
            | Action::Erase(..)
            | Action::DropLoose(_)
            | Action::EmptyOut
            | Action::ReadPutBy
            | Action::AskRoom
            | Action::CheckStore(_)
            | Action::LookOver(_)
            | Action::TakeOver => self.store(action),
        }
    }

    fn start_motion(&self) {
        self.platform.sound.unlock();
        self.platform.wake.hold();
        self.heard.borrow_mut().clear();
        let heard = self.heard.clone();
        let sink = Rc::new(move |event| heard.borrow_mut().push(event));
        let reading = self.state.peek().reading.as_ref().map(|held| held.target);
        match reading {
            Some(Target::Station(_)) => self.platform.motion.start_turning(sink),
            _ => self.platform.motion.start(sink),
        }
        self.start_turns();
    }

    fn start_turns(&self) {
        let shell = self.clone();
        let turns = self
            .platform
            .page
            .every(TURN, Rc::new(move || shell.post(FromDevice::Turn)));
        *self.turns.borrow_mut() = Some(turns);
    }

    /// Reads the pictures, then starts the task unless another one is wanted
    /// by then. A picture that can't be read is missing on the sheet, which
    /// says so.
    fn start_sheet(&self, number: u64, mut task: Task, pictures: Vec<String>) {
        self.wanted.set(Some(number));
        let shell = self.clone();
        spawn_forever(async move {
            for key in pictures {
                if let Ok(Some(bytes)) = shell.platform.storage.blob_get(&key).await {
                    task.add_picture(key, &bytes);
                }
            }
            if shell.wanted.get() == Some(number) {
                shell.start_work(number, task);
            }
        });
    }

    /// One task at a time: the one before is given up.
    fn start_work(&self, number: u64, task: Task) {
        self.wanted.set(Some(number));
        self.task.borrow_mut().take();
        let shell = self.clone();
        let told = Rc::new(move |event| {
            shell.post(FromDevice::Intent(Intent::Worked(number, event)));
        });
        let handle = self.platform.work.start(task, told);
        self.task.borrow_mut().replace(handle);
    }

    /// Hands over what the sensor said and lets time pass.
    fn turn(&self) {
        let heard = std::mem::take(&mut *self.heard.borrow_mut());
        let angle = self.platform.camera.screen_angle();
        if self.state.peek().drafts.level.screen != screen_turn(angle) {
            let turned = LevelIntent::ScreenTurned(angle);
            self.send(Intent::Measure(Measure::Level(turned)));
        }
        if !heard.is_empty() {
            self.send(Intent::Motion(heard));
        }
        self.send(Intent::Tick(self.platform.clock.monotonic()));
    }

    /// The kit sheets before the screens: a job may ask for them.
    async fn read_kits(&self) {
        let storage = &self.platform.storage;
        let kits = storage.list(KIT_PREFIX).await;
        if kits.is_err() && !self.state.peek().kits.samples.is_empty() {
            // What was read before stays on the shelf.
            return;
        }
        let quick = storage.get(KIT_DRAFT_KEY).await;
        let edit = storage.get(KIT_EDIT_KEY).await;
        self.send(Intent::Kits(KitIntent::Booted {
            kits: kits.unwrap_or_default(),
            quick: quick.ok().flatten(),
            edit: edit.ok().flatten(),
        }));
    }
}

fn asks_for_sample(query: &str) -> bool {
    query
        .split('&')
        .any(|part| part == "sample" || part.starts_with("sample="))
}
