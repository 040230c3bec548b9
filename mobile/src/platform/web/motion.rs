//! The browser's motion sensors: permission, search for a source, readings.

use std::cell::{Cell, RefCell};
use std::rc::{Rc, Weak};

use rakeline_core::units::Millis;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::spawn_local;
use web_sys::Window;

use super::call::{method, property, settled};
use super::clock::monotonic;
use super::page::every;
use super::sources::{Listening, Report, listen};
use super::wake::is_shown;
use crate::platform::search::{Action, Heard, Search};
use crate::platform::{
    Motion, MotionEvent, MotionFault, MotionSink, SourceName, Ticker, Visibility,
};

/// How often silence is looked at.
const TICK: Millis = Millis(100.0);

/// The browser's motion sensors.
pub(super) struct WebMotion {
    window: Window,
    run: RefCell<Option<Rc<Run>>>,
}

impl WebMotion {
    pub(super) fn new(window: &Window) -> Self {
        Self {
            window: window.clone(),
            run: RefCell::default(),
        }
    }
}

impl Motion for WebMotion {
    fn start(&self, sink: MotionSink) {
        self.stop();
        if !self.window.is_secure_context() {
            sink(MotionEvent::Fault(MotionFault::InsecureContext));
            return;
        }
        // Inside the tap, before anything else: elsewhere it is refused.
        let asked = ask_permission(&self.window);
        let run = Rc::new(Run {
            window: self.window.clone(),
            sink,
            ended: Cell::new(false),
            search: RefCell::default(),
            open: RefCell::default(),
            ticker: RefCell::default(),
        });
        self.run.replace(Some(run.clone()));
        if asked.is_empty() {
            run.begin();
        } else {
            spawn_local(async move { run.begin_if_granted(asked).await });
        }
    }

    fn stop(&self) {
        let run = self.run.take();
        if let Some(run) = run {
            run.end();
        }
    }
}

impl Drop for WebMotion {
    fn drop(&mut self) {
        self.stop();
    }
}

/// The promises of the systems that want to be asked; empty elsewhere.
fn ask_permission(window: &Window) -> Vec<Result<JsValue, JsValue>> {
    ["DeviceOrientationEvent", "DeviceMotionEvent"]
        .iter()
        .filter_map(|class| method(&property(window, class)?, "requestPermission", &[]))
        .collect()
}

/// From one start to its stop.
struct Run {
    window: Window,
    sink: MotionSink,
    ended: Cell<bool>,
    search: RefCell<Option<Search>>,
    open: RefCell<Vec<(SourceName, Listening)>>,
    ticker: RefCell<Option<Ticker>>,
}

impl Run {
    async fn begin_if_granted(self: Rc<Self>, asked: Vec<Result<JsValue, JsValue>>) {
        let mut granted = false;
        for promise in asked {
            let answer = match promise {
                Ok(promise) => settled(promise).await,
                Err(error) => Err(error),
            };
            granted |= answer.is_ok_and(|a| a.as_string().as_deref() == Some("granted"));
        }
        if granted {
            self.begin();
        } else {
            self.tell(MotionEvent::Fault(MotionFault::PermissionRefused));
        }
    }

    fn begin(self: &Rc<Self>) {
        if self.ended.get() {
            return;
        }
        let (search, first) = Search::start(monotonic(&self.window));
        self.search.replace(Some(search));
        let run = Rc::downgrade(self);
        let ticker = every(&self.window, TICK, move || {
            if let Some(run) = run.upgrade() {
                run.hear(Heard::Tick(run.visibility()));
            }
        });
        self.ticker.replace(Some(ticker));
        self.act(first);
    }

    fn visibility(&self) -> Visibility {
        match self.window.document() {
            Some(document) if !is_shown(&document) => Visibility::Hidden,
            _ => Visibility::Shown,
        }
    }

    fn hear(self: &Rc<Self>, heard: Heard) {
        let at = monotonic(&self.window);
        let actions = match &mut *self.search.borrow_mut() {
            Some(search) => search.step(heard, at),
            None => Vec::new(),
        };
        for action in actions {
            self.act(action);
        }
    }

    fn act(self: &Rc<Self>, action: Action) {
        match action {
            Action::Listen(source) => self.listen(source),
            Action::Use(source) => {
                self.keep_only(source);
                self.tell(MotionEvent::Using(source));
            }
            Action::Tell(fault) => self.tell(MotionEvent::Fault(fault)),
            Action::Leave => self.leave(),
        }
    }

    fn listen(self: &Rc<Self>, source: SourceName) {
        let run: Weak<Self> = Rc::downgrade(self);
        let reports = Rc::new(move |report| {
            if let Some(run) = run.upgrade() {
                run.report(source, report);
            }
        });
        let listening = listen(&self.window, source, reports);
        if !self.ended.get() {
            self.open.borrow_mut().push((source, listening));
        }
    }

    fn report(self: &Rc<Self>, source: SourceName, report: Report) {
        match report {
            Report::Figures(sample) => {
                self.hear(Heard::Figures(source));
                self.tell(MotionEvent::Sample(sample));
            }
            Report::Nothing => self.hear(Heard::Nothing(source)),
            Report::Refused => self.hear(Heard::Refused(source)),
            Report::Ended => self.hear(Heard::Ended(source)),
        }
    }

    fn keep_only(&self, source: SourceName) {
        // Dropped after the list is free again: a dropped source may speak.
        let mut open = self.open.borrow_mut();
        let (kept, gone) = open.drain(..).partition(|(name, _)| *name == source);
        *open = kept;
        drop(open);
        drop::<Vec<_>>(gone);
    }

    fn leave(&self) {
        drop(self.open.take());
        drop(self.ticker.take());
    }

    fn end(&self) {
        self.ended.set(true);
        self.leave();
    }

    fn tell(&self, event: MotionEvent) {
        if !self.ended.get() {
            (self.sink)(event);
        }
    }
}
