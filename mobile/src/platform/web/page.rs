//! Address, history and timers of the browser.

use std::cell::RefCell;
use std::rc::Rc;

use js_sys::Math;
use rakeline_core::units::Millis;
use wasm_bindgen::closure::Closure;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::Window;

use super::listen::Listener;
use super::wake::is_shown;
use crate::platform::{Page, Ticker, Told, Visibility};

/// The browser's page.
pub(super) struct WebPage {
    window: Window,
    pop: RefCell<Option<Listener>>,
    hidden: RefCell<Vec<Listener>>,
}

impl WebPage {
    pub(super) fn new(window: &Window) -> Self {
        Self {
            window: window.clone(),
            pop: RefCell::default(),
            hidden: RefCell::default(),
        }
    }
}

/// The path with its query, if any.
fn address(window: &Window) -> String {
    let location = window.location();
    let path = location.pathname().unwrap_or_else(|_| "/".to_owned());
    path + &location.search().unwrap_or_default()
}

/// A span as the browser's timers take it: whole milliseconds, not negative.
fn timer_span(span: Millis) -> i32 {
    span.0.ceil().clamp(0.0, f64::from(i32::MAX)) as i32
}

/// Calls once, after a time.
pub(super) fn after(window: &Window, delay: Millis, call: impl FnOnce() + 'static) {
    let closure = Closure::once_into_js(call);
    // Fails for no span that `timer_span` gives.
    let _ = window.set_timeout_with_callback_and_timeout_and_arguments_0(
        closure.unchecked_ref(),
        timer_span(delay),
    );
}

/// Calls again and again until the ticker is dropped.
pub(super) fn every(window: &Window, interval: Millis, call: impl Fn() + 'static) -> Ticker {
    let closure = Closure::<dyn Fn()>::new(call);
    let timer = window.set_interval_with_callback_and_timeout_and_arguments_0(
        closure.as_ref().unchecked_ref(),
        timer_span(interval),
    );
    let window = window.clone();
    Ticker::stopped_by(move || {
        if let Ok(timer) = timer {
            window.clear_interval_with_handle(timer);
        }
        drop(closure);
    })
}

/// The first bracket of a user agent without version tails: system and
/// model, which stay the same when the browser is renewed.
fn device_of(agent: &str) -> String {
    let bracket = agent
        .split_once('(')
        .and_then(|(_, rest)| rest.split_once(')'))
        .map_or("", |(inside, _)| inside);
    let parts: Vec<&str> = bracket
        .split(';')
        .map(str::trim)
        .filter(|part| !part.is_empty() && *part != "K" && !part.starts_with("wv"))
        .collect();
    parts.join(", ")
}

impl Page for WebPage {
    fn path(&self) -> String {
        let path = self.window.location().pathname();
        path.unwrap_or_else(|_| "/".to_owned())
    }

    fn query(&self) -> String {
        let search = self.window.location().search().unwrap_or_default();
        search.strip_prefix('?').unwrap_or(&search).to_owned()
    }

    fn push(&self, path: &str) {
        // Throws only for another origin or a flood of calls; the screen
        // changes all the same, only the address stays behind.
        if let Ok(history) = self.window.history() {
            let _ = history.push_state_with_url(&JsValue::NULL, "", Some(path));
        }
    }

    fn replace(&self, path: &str) {
        if let Ok(history) = self.window.history() {
            let _ = history.replace_state_with_url(&JsValue::NULL, "", Some(path));
        }
    }

    fn back(&self) {
        if let Ok(history) = self.window.history() {
            let _ = history.back();
        }
    }

    fn on_pop(&self, told: Told<String>) {
        let window = self.window.clone();
        let listener = Listener::new(&self.window, "popstate", move |_| told(address(&window)));
        self.pop.replace(Some(listener));
    }

    fn device(&self) -> String {
        let agent = self.window.navigator().user_agent().unwrap_or_default();
        device_of(&agent)
    }

    fn random_id(&self) -> String {
        let mut bytes = [0_u8; 8];
        let secure = self
            .window
            .crypto()
            .and_then(|crypto| crypto.get_random_values_with_u8_array(&mut bytes));
        if secure.is_err() {
            bytes = std::array::from_fn(|_| (Math::random() * 256.0) as u8);
        }
        format!("{:016x}", u64::from_be_bytes(bytes))
    }

    fn after(&self, delay: Millis, call: Box<dyn FnOnce()>) {
        after(&self.window, delay, call);
    }

    fn every(&self, interval: Millis, call: Rc<dyn Fn()>) -> Ticker {
        every(&self.window, interval, move || call())
    }

    fn on_hidden(&self, told: Told<Visibility>) {
        let mut listeners = Vec::new();
        if let Some(document) = self.window.document() {
            let (page, told) = (document.clone(), told.clone());
            listeners.push(Listener::new(&document, "visibilitychange", move |_| {
                told(if is_shown(&page) {
                    Visibility::Shown
                } else {
                    Visibility::Hidden
                });
            }));
        }
        // A page that is left is not always hidden first.
        listeners.push(Listener::new(&self.window, "pagehide", move |_| {
            told(Visibility::Hidden);
        }));
        self.hidden.replace(listeners);
    }
}
