//! The devices without a screen: Kotlin plays the phone on a JVM, and this
//! plays the app.
//!
//! Only tests are built with it (feature `rehearsal`).

use std::rc::Rc;
use std::sync::mpsc::{Sender, channel};
use std::sync::{Arc, Mutex, PoisonError};
use std::thread;

use futures_executor::LocalPool;
use futures_util::task::LocalSpawnExt;

use super::{Desk, Phone, install, platform};
use crate::platform::{
    MicrophoneEvent, MotionEvent, OutFile, Picture, PictureFrom, Platform, Write,
};
use rakeline_core::estimate::beep::ToneGate;
use rakeline_core::estimate::still::{StillSettings, StillState, StillWindow};
use rakeline_core::sample::{Convention, SampleGate};

type Errand = Box<dyn FnOnce(&Platform, &mut LocalPool, &Log) + Send>;
type Log = Arc<Mutex<Vec<String>>>;

fn note(log: &Log, line: String) {
    log.lock()
        .unwrap_or_else(PoisonError::into_inner)
        .push(line);
}

/// An app without a screen on a thread of its own.
#[derive(uniffi::Object)]
pub struct Rehearsal {
    errands: Mutex<Sender<Errand>>,
    log: Log,
}

impl Rehearsal {
    fn run(&self, errand: impl FnOnce(&Platform, &mut LocalPool, &Log) + Send + 'static) {
        let errands = self.errands.lock().unwrap_or_else(PoisonError::into_inner);
        // After the end nobody plays.
        let _ = errands.send(Box::new(errand));
    }
}

fn serve(errands: &std::sync::mpsc::Receiver<Errand>, log: &Log) {
    let Some((platform, desk)) = platform() else {
        note(log, "no phone".to_owned());
        return;
    };
    let mut pool = LocalPool::new();
    let spawned = pool.spawner().spawn_local(Desk::serve(desk));
    if let Err(fault) = spawned {
        note(log, fault.to_string());
    }
    loop {
        pool.run_until_stalled();
        match errands.recv_timeout(std::time::Duration::from_millis(1)) {
            Ok(errand) => errand(&platform, &mut pool, log),
            Err(std::sync::mpsc::RecvTimeoutError::Timeout) => {}
            Err(std::sync::mpsc::RecvTimeoutError::Disconnected) => return,
        }
    }
}

#[uniffi::export]
impl Rehearsal {
    /// Opens the app on a phone.
    #[uniffi::constructor]
    pub fn new(phone: Arc<dyn Phone>) -> Arc<Self> {
        install(phone);
        let (errands, wanted) = channel::<Errand>();
        let log = Log::default();
        let kept = log.clone();
        thread::spawn(move || serve(&wanted, &kept));
        Arc::new(Self {
            errands: Mutex::new(errands),
            log,
        })
    }

    /// What happened so far, a line each; asked once it is forgotten.
    pub fn log(&self) -> Vec<String> {
        std::mem::take(&mut *self.log.lock().unwrap_or_else(PoisonError::into_inner))
    }

    /// Reads tilt until the phone lies still.
    pub fn read_tilt(&self) {
        self.run(|platform, _, log| {
            let (log, ended) = (log.clone(), platform.motion.clone());
            let gate = std::cell::RefCell::new(SampleGate::new(Convention::PointsUp));
            let window = std::cell::RefCell::new(StillWindow::new(StillSettings::default()));
            let over = std::cell::Cell::new(false);
            platform.motion.start(Rc::new(move |event| match event {
                MotionEvent::Using(source) => note(&log, format!("using {source:?}")),
                MotionEvent::Fault(fault) => note(&log, format!("fault {fault:?}")),
                MotionEvent::Sample(_) if over.get() => {}
                MotionEvent::Sample(raw) => match gate.borrow_mut().accept(raw) {
                    Err(fault) => note(&log, format!("left out {fault:?}")),
                    Ok(sample) => {
                        if let StillState::Still(still) = window.borrow_mut().push(&sample) {
                            over.set(true);
                            let [x, y, z] = still.up.0;
                            note(&log, format!("still {x:.6} {y:.6} {z:.6}"));
                            ended.stop();
                        }
                    }
                },
            }));
        });
    }

    /// Listens for beeps.
    pub fn listen(&self) {
        self.run(|platform, _, log| {
            let log = log.clone();
            let told = move |event| match event {
                MicrophoneEvent::Started { rate } => note(&log, format!("listens {rate}")),
                MicrophoneEvent::Fault(fault) => note(&log, format!("fault {fault:?}")),
                MicrophoneEvent::Heard(hearing) => {
                    for beep in hearing.beeps {
                        note(&log, format!("beep {:.0}", beep.tone_hz));
                    }
                }
            };
            platform.microphone.start(ToneGate::Any, Rc::new(told));
        });
    }

    /// Takes a picture with the camera app.
    pub fn take_picture(&self) {
        self.run(|platform, pool, log| {
            let (camera, log) = (platform.camera.clone(), log.clone());
            let size = |picture: Picture| format!("{} x {}", picture.width, picture.height);
            let _ = pool.spawner().spawn_local(async move {
                let line = match camera.choose(PictureFrom::Camera).await {
                    Ok(Some(picture)) => format!("picture {}", size(picture)),
                    Ok(None) => "no picture".to_owned(),
                    Err(fault) => format!("fault {}", crate::texts::say(&fault.message())),
                };
                note(&log, line);
            });
        });
    }

    /// Shares a file.
    pub fn share(&self, name: String) {
        self.run(|platform, pool, log| {
            let (share, log) = (platform.share.clone(), log.clone());
            let file = OutFile {
                name: name.clone(),
                mime: "text/plain",
                bytes: b"shared".to_vec(),
            };
            let _ = pool.spawner().spawn_local(async move {
                let outcome = share.save(file).await;
                let said = outcome.message(&name);
                let words = said.map_or_else(String::new, |said| crate::texts::say(&said));
                note(&log, format!("shared {words}"));
            });
        });
    }

    /// Keeps a text under a key.
    pub fn keep(&self, key: String, value: String) {
        self.run(|platform, pool, log| {
            let (storage, log) = (platform.storage.clone(), log.clone());
            let _ = pool.spawner().spawn_local(async move {
                let kept = storage.commit(vec![Write::Put { key, value }]).await;
                note(
                    &log,
                    match kept {
                        Ok(()) => "kept".to_owned(),
                        Err(fault) => format!("fault {}", crate::texts::say(&fault.message())),
                    },
                );
            });
        });
    }

    /// Looks for the text under a key.
    pub fn find(&self, key: String) {
        self.run(|platform, pool, log| {
            let (storage, log) = (platform.storage.clone(), log.clone());
            let _ = pool.spawner().spawn_local(async move {
                note(&log, format!("found {:?}", storage.get(&key).await));
            });
        });
    }

    /// Goes to a path as a new step.
    pub fn go(&self, path: String) {
        self.run(move |platform, _, log| {
            let told = log.clone();
            platform
                .page
                .on_pop(Rc::new(move |path| note(&told, format!("back at {path}"))));
            platform.page.push(&path);
            note(log, format!("at {}", platform.page.path()));
        });
    }
}
