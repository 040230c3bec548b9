//! A screen that stays on; paper; pulses in the hand.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use js_sys::Array;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::spawn_local;
use web_sys::{Document, VisibilityState, Window};

use super::call::{method, property, settled};
use super::listen::Listener;
use crate::platform::{Print, Pulse, Vibration, Wake};

struct Lock {
    window: Window,
    wanted: Cell<bool>,
    asking: Cell<bool>,
    sentinel: RefCell<Option<JsValue>>,
}

impl Lock {
    /// Asks for the lock if it is wanted and not there.
    fn ask(self: &Rc<Self>) {
        if !self.wanted.get() || self.asking.get() || self.is_held() {
            return;
        }
        let Some(device) = property(&self.window.navigator(), "wakeLock") else {
            return;
        };
        let Some(Ok(promise)) = method(&device, "request", &[&JsValue::from_str("screen")]) else {
            return;
        };
        self.asking.set(true);
        let lock = self.clone();
        spawn_local(async move {
            // Refused with a low battery or in the background: the screen
            // then sleeps as usual, and the next return asks again.
            let answer = settled(promise).await;
            lock.asking.set(false);
            if let Ok(sentinel) = answer {
                lock.sentinel.replace(Some(sentinel));
                if !lock.wanted.get() {
                    lock.let_go();
                }
            }
        });
    }

    fn is_held(&self) -> bool {
        let sentinel = self.sentinel.borrow();
        let released = sentinel.as_ref().and_then(|s| property(s, "released"));
        released.is_some_and(|released| released == JsValue::FALSE)
    }

    fn let_go(&self) {
        let sentinel = self.sentinel.take();
        if let Some(Some(Ok(promise))) = sentinel.map(|s| method(&s, "release", &[])) {
            spawn_local(async move {
                let _ = settled(promise).await;
            });
        }
    }
}

/// The browser's screen wake lock, taken again when the page comes back.
pub(super) struct WebWake {
    lock: Rc<Lock>,
    _back: Option<Listener>,
}

impl WebWake {
    pub(super) fn new(window: &Window) -> Self {
        let lock = Rc::new(Lock {
            window: window.clone(),
            wanted: Cell::new(false),
            asking: Cell::new(false),
            sentinel: RefCell::default(),
        });
        let again = lock.clone();
        let back = window.document().map(|document| {
            let page = document.clone();
            Listener::new(&document, "visibilitychange", move |_| {
                if is_shown(&page) {
                    again.ask();
                }
            })
        });
        Self { lock, _back: back }
    }
}

impl Wake for WebWake {
    fn hold(&self) {
        self.lock.wanted.set(true);
        self.lock.ask();
    }

    fn release(&self) {
        self.lock.wanted.set(false);
        self.lock.let_go();
    }
}

/// Whether the fitter can see the page.
pub(super) fn is_shown(document: &Document) -> bool {
    document.visibility_state() != VisibilityState::Hidden
}

/// The browser's print view.
pub(super) struct WebPrint(Window);

impl WebPrint {
    pub(super) fn new(window: &Window) -> Self {
        Self(window.clone())
    }
}

impl Print for WebPrint {
    fn print(&self) {
        // A browser without printing throws, and nothing opens.
        let _ = self.0.print();
    }
}

/// The browser's vibration.
pub(super) struct WebVibration(Window);

impl WebVibration {
    pub(super) fn new(window: &Window) -> Self {
        Self(window.clone())
    }
}

/// Milliseconds on, off, on.
fn pattern(pulse: Pulse) -> &'static [u32] {
    match pulse {
        Pulse::Moving => &[40],
        Pulse::Captured => &[140],
        Pulse::Refused => &[60, 60, 60, 60, 60],
        Pulse::Done => &[140, 90, 320],
        Pulse::In => &[90],
        Pulse::Out => &[40, 60, 40],
        Pulse::Quiet => &[400],
    }
}

impl Vibration for WebVibration {
    fn pulse(&self, pulse: Pulse) {
        let list = Array::new();
        for part in pattern(pulse) {
            list.push(&JsValue::from(*part));
        }
        // Not every browser has it.
        let _ = method(&self.0.navigator(), "vibrate", &[&list]);
    }
}
